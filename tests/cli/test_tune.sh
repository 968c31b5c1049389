#!/bin/sh
# tune: tests of the diary against the model, applied and taken back. The tests are made
# up here, most of them out of what the model says. SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh

farm=$scratch/farm
mkdir "$farm"
cp data/demo/weather.csv "$farm/"
cat >"$farm/holding.json" <<'J'
{"sugarlea": 1, "name": "Invented",
 "site": {"latitude": 52.3, "longitude": -2.6, "elevation_m": 140, "timezone": "Europe/London"},
 "weather": [{"file": "weather.csv"}],
 "paddocks": [
   {"id": "low", "area_ha": 1.1, "grass": {"ryegrass": 0.75, "white-clover": 0.25}, "soil": "loam"},
   {"id": "high", "area_ha": 0.6, "grass": "red-fescue", "soil": "loam", "nitrogen": "none"}],
 "animals": [{"id": "goats", "class": "goat-lactating", "count": 4, "paddock": "low"},
             {"id": "ponies", "class": "pony", "count": 2, "paddock": "high"}]}
J
header=date,time,subject,what,value,unit,note
diary() { # ROW...: the diary holds these rows
    printf '%s\n' "$header" "$@" >"$farm/diary.csv"
}
tune() {
    run tune --holding "$farm/holding.json" "$@"
}
field() { # PYTHON: an expression of o, the last JSON answer
    python3 -c 'import json, sys
o = json.load(open(sys.argv[1]))
print(eval("(" + sys.argv[2] + ")"))' "$out" "$1"
}
check_that() { # NAME PYTHON: the expression of the last JSON answer is true
    check "$1" test "$(field "$2")" = True
}

# without a diary, and without a test in it
tune
exits 0 "no diary"
contains "$out" "There is no grass test in the diary." "is said"
tune --apply
refused 66 "there is no grass test to tune by" "and gives nothing to apply"
check "nothing was written" test ! -e "$farm/tuning.json"
run tune --holding "$farm/holding.json" --undo
refused 66 "nothing to undo" "nor to undo"

# what the model has at ten o'clock of three mornings and on a day as a whole
diary 2025-02-10,10:00,low,grass-nsc,100,, 2025-03-05,14:30,low,grass-wsc,100,, \
    2025-04-01,,low,grass-nsc,100,, 2025-04-15,10:00,low,grass-nsc,100,,
tune --json
exits 0 "four tests"
no_nan "$out" "no nan for machines"
check_that "in the order of their dates" \
    '[t["date"] for t in o["paddocks"][0]["tests"]] == ["2025-02-10", "2025-03-05", "2025-04-01", "2025-04-15"]'
check_that "a test without a time errs by more" 'o["paddocks"][0]["tests"][2]["ln_sd"] >
    o["paddocks"][0]["tests"][3]["ln_sd"]'
check_that "an older one, too" 'o["paddocks"][0]["tests"][0]["ln_sd"] > o["paddocks"][0]["tests"][3]["ln_sd"]'
model=$(field '" ".join(str(t["modelled_g_per_kg"]) for t in o["paddocks"][0]["tests"])')

# the hour counts: the same test at dawn, in the afternoon, and without a time
diary 2025-04-15,06:30,low,grass-nsc,100,, 2025-04-15,16:00,low,grass-nsc,100,, 2025-04-15,,low,grass-nsc,100,,
tune --json
check_that "the day's mean lies between dawn and afternoon" '(lambda t: t[1] < t[0] < t[2])(
    [t["modelled_g_per_kg"] for t in o["paddocks"][0]["tests"]])'
run season --holding "$farm/holding.json" --from 2025-04-15 --to 2025-04-15 --csv
season_mean=$(awk -F, 'NR == 1 { for (i = 1; i <= NF; i++) if ($i == "nsc_mean") c = i; next } /low/ { print $c }' "$out")
tune --json
check_that "and is the season's" "abs(o['paddocks'][0]['tests'][0]['modelled_g_per_kg'] - $season_mean) < 0.11"

# a paddock a fifth sweeter than the model, by four tests that agree
tests_times() { # FACTOR: rows of the four tests, times the factor of the model's values
    # shellcheck disable=SC2086 # four numbers
    set -- "$1" $model
    awk -v f="$1" -v a="$2" -v b="$3" -v c="$4" -v d="$5" 'BEGIN {
        printf "2025-02-10,10:00,low,grass-nsc,%.1f,g/kg,\n2025-03-05,14:30,low,grass-wsc,%.2f,%%,\n", f * a, f * b / 10
        printf "2025-04-01,,low,grass-nsc,%.1f,,\n2025-04-15,10:00,low,grass-nsc,%.1f,,\n", f * c, f * d }'
}
tests_times 1.2 >"$scratch/rows"
{ echo $header; cat "$scratch/rows"; } >"$farm/diary.csv"
tune --json
check_that "the level goes most of the way" '1.12 < o["paddocks"][0]["factor"] < 1.2'
check_that "the correction helps on tests left out" 'o["paddocks"][0]["miss_corrected_percent"] <
    0.5 * o["paddocks"][0]["miss_uncorrected_percent"] and not o["paddocks"][0]["switched_off"]'
check_that "the spread narrows, not below its floor" '0.18 < o["paddocks"][0]["spread"] < 0.25'
check_that "nothing is written" 'o["written"] is False'
check "indeed" test ! -e "$farm/tuning.json"
cp "$out" "$scratch/level.json"
tune
contains "$out" "Your 4 tests say this paddock is about 1" "in a plain sentence"
contains "$out" "Nothing is written." "and that nothing is written"
lacks "$out" "high:" "no paddock without tests"
no_nan "$out" "no number that is none"

# any order of the rows
for order in 4,1,3,2 2,4,1,3 3,2,4,1; do
    { echo $header; for k in $(echo $order | tr , ' '); do sed -n "${k}p" "$scratch/rows"; done; } >"$farm/diary.csv"
    tune --json
    same "$out" "$scratch/level.json" "rows in the order $order"
done

# applied: sweeter grass, fewer hours; poorer grass, more; confirmed, no fewer
advice() { # FILE: the advice into it
    run today --holding "$farm/holding.json" --date 2025-04-23 --no-log --json
    cp "$out" "$1"
}
advice "$scratch/plain.json"
exits 0 "the advice untuned"
contains "$out" '"tuning":null' "without tuning"
for factor in 1.2 0.8 1.0; do
    { echo $header; tests_times $factor; } >"$farm/diary.csv"
    tune --apply
    exits 0 "factor $factor applied"
    contains "$out" "Written to tuning.json" "factor $factor is written"
    advice "$scratch/at-$factor.json"
done
check "hours and bands follow the tests" python3 - "$scratch" <<'P'
import json, sys
at = {f: json.load(open("%s/%s.json" % (sys.argv[1], f))) for f in ("plain", "at-1.2", "at-0.8", "at-1.0")}
def paddock(f): return at[f]["paddocks"][0]
def hours(f): return [a["hours"] if a["turnout"] != "free" else 24 for a in at[f]["animals"]][0]
def width(f): n = paddock(f)["nsc_g_per_kg"]; return n["high80"] / n["low80"]
for f in ("at-1.2", "at-0.8", "at-1.0"):
    assert width(f) < width("plain"), (f, width(f), width("plain"))
    assert at[f]["paddocks"][1] == at["plain"]["paddocks"][1], "the other paddock changed"
mean = lambda f: paddock(f)["nsc_g_per_kg"]["mean"]
assert 1.1 < mean("at-1.2") / mean("plain") < 1.2 and 0.8 < mean("at-0.8") / mean("plain") < 0.9
assert mean("at-1.0") == mean("plain") and hours("at-1.0") > hours("plain"), (hours("at-1.0"), hours("plain"))
assert hours("at-1.2") < hours("at-1.0") < hours("at-0.8"), [hours(f) for f in at]
assert paddock("at-1.2")["tuning"]["tests"] == 4 and paddock("at-1.2")["tuning"]["last_test"] == "2025-04-15"
assert paddock("at-1.2")["growth_kg_dm_ha_d"] == paddock("plain")["growth_kg_dm_ha_d"]
P
tune
contains "$out" "bear the reckoning out" "tests that agree with the model are said to"
run today --holding "$farm/holding.json" --date 2025-04-23 --no-log
contains "$out" "Tuned: 4 grass tests, the last of 2025-04-15" "today says so"
run season --holding "$farm/holding.json" --from 2025-04-20 --to 2025-04-22 --csv
exits 0 "season reads it"

# undo: to the byte; then nothing is left to undo
cp "$farm/tuning.json" "$scratch/kept.json"
{ echo $header; tests_times 1.3; } >"$farm/diary.csv"
tune --apply --json
check_that "written" 'o["written"] is True'
check "another tuning" sh -c "! cmp -s '$farm/tuning.json' '$scratch/kept.json'"
tune --apply
contains "$out" "holds this already" "the same again changes nothing"
tune --undo
exits 0 "undone"
same "$farm/tuning.json" "$scratch/kept.json" "the one before, to the byte"
tune --undo
refused 66 "nothing to undo" "only one step is kept"

# two at once: both wait for the one who holds the lock, and the second finds what the first has written
held() { # SECONDS: somebody holds the lock so long; returns when it is had
    rm -f "$scratch/had"
    python3 -c 'import fcntl, sys, time
lock = open(sys.argv[1])
fcntl.flock(lock, fcntl.LOCK_EX)
open(sys.argv[3], "w").close()
time.sleep(float(sys.argv[2]))' "$farm/holding.json" "$1" "$scratch/had" &
    holder=$!
    while [ ! -e "$scratch/had" ]; do sleep 0.05; done
}
for n in 1 2; do
    held 1
    "$PROGRAM" tune --holding "$farm/holding.json" --apply >"$scratch/said-1" 2>&1 &
    one=$!
    tune --apply
    wait "$one" "$holder"
    exits 0 "two at once, time $n"
    check "one of them writes" test "$(cat "$scratch/said-1" "$out" | grep -c 'Written to tuning.json')" -eq 1
    same "$farm/tuning.json.before" "$scratch/kept.json" "and keeps what was there before both"
    tune --undo
    same "$farm/tuning.json" "$scratch/kept.json" "which can be had back"
done
held 60
tune --apply
refused 75 "in use by another program" "who waits too long"
tune --undo
refused 75 "in use by another program" "who would undo, too"
kill "$holder"
wait "$holder" 2>/dev/null
rm "$farm/tuning.json"
tune --apply
tune --undo
contains "$out" "taken away again" "the first tuning is taken away"
check "altogether" test ! -e "$farm/tuning.json" -a ! -e "$farm/tuning.json.before"
advice "$scratch/again.json"
same "$scratch/again.json" "$scratch/plain.json" "the advice is as it was"
tune --apply --undo
refused 64 "--undo" "not both at once"

# a morning knows only the tests before it
tune --apply
run today --holding "$farm/holding.json" --date 2025-04-10 --no-log --plain
contains "$out" "this morning did not know" "later tests do not count"
lacks "$out" "Tuned:" "and change nothing"

# other model files, a paddock that is gone, a damaged file
sed -i 's/"model": "[0-9a-f]*"/"model": "0000000000000000"/; s/"id": "low"/"id": "sold"/' "$farm/tuning.json"
run today --holding "$farm/holding.json" --date 2025-04-23 --no-log --plain
exits 0 "a tuning by other model files"
contains "$out" "by other model files than these" "is said"
contains "$out" 'a paddock "sold" that the holding' "so is a paddock that is gone"
printf '{"sugarlea_tuning": 1, "model": "x", "paddocks": [{"id": "low", "theta": "much"}]}' >"$farm/tuning.json"
run today --holding "$farm/holding.json" --date 2025-04-23 --no-log
refused 78 "tuning.json:1:" "a damaged tuning"
contains "$err" "theta" "with its place"
check "in one line" test "$(grep -c '' "$err")" = 1
printf '{"sugarlea_tuning": 1, "mod' >"$farm/tuning.json"
run today --holding "$farm/holding.json" --date 2025-04-23 --no-log
refused 78 "tuning.json:1:" "half a tuning"
tune --apply
exits 0 "a new one takes the place of a damaged one"
run today --holding "$farm/holding.json" --date 2025-04-23 --no-log
exits 0 "and all is well"

# tests that cannot count, that disagree, that say too much, that are under a limit
diary 2001-01-01,10:00,low,grass-nsc,200,, 2030-01-01,10:00,low,grass-nsc,200,, 2025-04-01,10:00,sold,grass-nsc,200,, \
    2025-04-01,10:00,low,grass-esc,100,,
tune
exits 0 "tests that do not count"
contains "$out" "before the weather begins" "too early"
contains "$out" "after the weather ends" "too late"
contains "$out" '"sold" of the diary (line 4)' "of a paddock that is gone"
{ echo $header; tests_times 1.7 | head -1; tests_times 0.6 | tail -1; } >"$farm/diary.csv"
tune
contains "$out" "do not agree on a level" "tests at odds"
tune --json
check_that "switch the correction off" 'o["paddocks"][0]["switched_off"] and o["paddocks"][0]["factor"] == 1'
{ echo $header; tests_times 3; } >"$farm/diary.csv"
tune --plain
contains "$out" "no correction goes that far" "more than twice as sweet"
lines=$(grep -c ' doubtful$' "$out")
check "the tests by which it does are marked" test "$lines" -eq 4
tune --json
check_that "is held to twice" 'o["paddocks"][0]["capped"] and o["paddocks"][0]["factor"] == 2'
{ echo $header; tests_times 0.7 | tail -1 | sed 's/$/< limit of the laboratory/'; } >"$farm/diary.csv"
tune --json
check_that "under a limit: half as telling" 'o["paddocks"][0]["tests"][0]["below"] and 0.8 < o["paddocks"][0]["factor"] < 1'
{ echo $header; tests_times 2 | tail -1 | sed 's/$/< limit/'; } >"$farm/diary.csv"
tune --json
check_that "a limit far above the model says nothing" 'o["paddocks"][0]["factor"] == 1'

# 30 g/kg where ten times as much is reckoned is a slip of the unit, not a paddock
diary 2025-04-01,10:00,low,grass-nsc,30,g/kg, 2025-04-08,10:00,low,grass-nsc,31,g/kg, 2025-04-15,10:00,low,grass-nsc,180,,
rm -f "$farm/tuning.json"
tune --apply
refused 65 "2 tests lie too far from the model to rely on: line 2 (2025-04-01: 30 g/kg measured, " "doubtful tests are not applied"
contains "$err" "line 3 (2025-04-08: 31 g/kg" "each is named"
lacks "$err" "line 4" "a good one is not"
contains "$err" "or, when the laboratory stands by it, say --insist" "and what can be done"
check "nothing is written" test ! -e "$farm/tuning.json"
diary 2025-04-01,10:00,low,grass-nsc,30,g/kg, 2025-04-08,10:00,low,grass-nsc,31,g/kg, 2025-04-15,10:00,low,grass-nsc,32,g/kg,
tune --apply --insist
exits 0 "insisted upon"
contains "$out" "Written to tuning.json" "it is applied"
run today --holding "$farm/holding.json" --date 2025-04-23 --no-log --plain
contains "$out" "look at unit and method once more." "and today says that it is far"
run today --holding "$farm/holding.json" --date 2025-04-23 --no-log --short
matches "$out" 'low is tuned to 0\.[0-9]+ times the sugar' "before everything else, too"
run today --holding "$farm/holding.json" --date 2025-04-10 --no-log --short
lacks "$out" "is tuned to" "not on a morning that does not know it"
{ echo $header; tests_times 1.2; } >"$farm/diary.csv"
tune --apply
run today --holding "$farm/holding.json" --date 2025-04-23 --no-log --plain
lacks "$out" "9 paddocks in 10" "a fifth more is usual"

# one test: no more than its part of the way
{ echo $header; tests_times 1.5 | tail -1; } >"$farm/diary.csv"
tune --json
check_that "one test" 'o["paddocks"][0]["miss_corrected_percent"] is None and 1.15 < o["paddocks"][0]["factor"] < 1.4'
tune --plain
contains "$out" "Your test says this paddock is" "in the singular"
contains "$out" "With a second one" "and what a second would do"

# heights of the sward set its cover right
printf '%s\n' $header >"$farm/diary.csv"
rm -f "$farm/tuning.json"
green() { run today --holding "$farm/holding.json" --date 2025-04-23 --no-log --json && field 'o["paddocks"][0]["green_kg_dm_ha"]'; }
full=$(green)
diary 2025-04-22,,low,sward-height,4,cm,
short=$(green)
check "short grass by the ruler is less grass" test "$short" -lt "$full"
diary 2025-04-24,,low,sward-height,4,cm,
check "measured tomorrow it is not known today" test "$(green)" = "$full"
diary 2025-04-22,,low,plate-height,2,cm,
check "the plate says it too" test "$(green)" -lt "$full"

# what the diary says was done to the grass holds for the tests as well
diary 2025-04-15,10:00,low,grass-nsc,150,,
tune --json
before=$(field 'o["paddocks"][0]["tests"][0]["modelled_g_per_kg"]')
diary 2025-03-25,,low,cut,5,cm, 2025-04-15,10:00,low,grass-nsc,150,,
tune --json
check_that "a mown paddock is held against mown grass" "o['paddocks'][0]['tests'][0]['modelled_g_per_kg'] != $before"

run tune --holding "$scratch/missing.json"
refused 66 "missing.json" "a holding that is not there"
run tune --weather data/real/de_bilt_2005-2019.csv
refused 64 "no such option" "no tests without a holding"
run_in "$scratch" tune
refused 64 "holding" "nor where no holding is"
run help tune
exits 0 "its help"
contains "$out" "--undo" "with its options"
finish
