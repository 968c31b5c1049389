#!/bin/sh
# The diary in the morning advice: signs before sugar, the way back to grass, how paddocks
# are kept, and what a past morning knew of it. SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
cp data/demo/holding.json data/demo/weather.csv "$scratch/"
diary=$scratch/diary.csv
head='date,time,subject,what,value,unit,note'

advice() { # DATE ARGUMENT...
    date=$1
    shift
    run today --holding "$scratch/holding.json" --date "$date" --no-log "$@"
}
of() { # ID: its part of the list to act on
    sed -n "/^$1: /,/^\$/p" "$out"
}

advice 2025-04-23 --plain
exits 0 "without a diary"
cp "$out" "$scratch/plain.txt"
advice 2025-04-21 --json
cp "$out" "$scratch/before.json"

cat >"$diary" <<D
$head
2025-04-20,13:10,grey-pony,foot-signs,shifting-weight+hot-feet,,"both fore feet, worse on stones"
2025-04-18,,grey-pony,insulin,62,uIU/ml,
2025-04-19,,grey-pony,turnout,2.5,h,
2025-04-20,,grey-pony,weight,291,kg,
2025-04-22,07:30,grey-pony,foot-signs,none,,
2025-04-01,,old-mare,weight,500,kg,
D
advice 2025-04-20 --plain
lacks "$out" 'Ring the vet' "the morning before the signs knew nothing of them"
advice 2025-04-21 --plain
exits 0 "the morning after"
check "who shows signs comes first" test "$(grep -n '^[a-z-]*: [0-9]* x' "$out" | head -1 | sed 's/^[0-9]*:\([a-z-]*\):.*/\1/')" = grey-pony
of grey-pony >"$scratch/pony.txt"
contains "$scratch/pony.txt" 'NONE: keep off grass' "no grass"
contains "$scratch/pony.txt" 'Ring the vet today.' "the vet"
contains "$scratch/pony.txt" 'soft bed' "bedding"
contains "$scratch/pony.txt" 'Plain mature hay' "hay"
contains "$scratch/pony.txt" 'Do not walk it' "no walking"
contains "$scratch/pony.txt" 'Signs since 2025-04-20: shifting-weight, hot-feet; note: both fore feet' "since when and which"
tr -s ' \n' ' ' <"$scratch/pony.txt" >"$scratch/flat"
contains "$scratch/flat" '2025-04-19 2 h 30 min (written)' "what it had of the grass"
contains "$scratch/pony.txt" 'grain' "grain"
contains "$scratch/pony.txt" '291 kg (diary, 2025-04-20)' "its weight"
contains "$scratch/pony.txt" '62 uIU/ml on 2025-04-18' "its insulin"
contains "$out" 'old-mare' "who left the holding is named"
lacks "$out" 'mg' "never a dose"
advice 2025-04-21 --json
check "for machines, and the others' advice unchanged" python3 - "$out" "$scratch/before.json" <<'P'
import json, sys
now, before = ({a["id"]: a for a in json.load(open(f))["animals"]} for f in sys.argv[1:])
p = now["grey-pony"]
assert p["turnout"] == "none" and p["hours"] == 0 and p["window"] is None
assert p["signs"]["since"] == "2025-04-20" and p["signs"]["vet"] == "today"
assert p["signs"]["words"] == ["shifting-weight", "hot-feet"] and len(p["signs"]["tell_the_vet"]) == 7
assert p["reasons"][0]["id"] == "foot-signs" and p["way_back"] is None
for i in before:
    if i != "grey-pony":
        assert now[i] == before[i], i
P
advice 2025-04-22 --json
check "gone this morning: off grass for the day" python3 - "$out" <<'P'
import json, sys
p = [a for a in json.load(open(sys.argv[1]))["animals"] if a["id"] == "grey-pony"][0]
assert p["turnout"] == "none" and p["way_back"] is None and p["reasons"][0]["id"] == "foot-signs"
P
advice 2025-04-23 --json
check "the way back begins the day after" python3 - "$out" <<'P'
import json, sys
p = [a for a in json.load(open(sys.argv[1]))["animals"] if a["id"] == "grey-pony"][0]
assert p["signs"] is None and p["way_back"] == {"day": 1, "of": 48, "most_hours": 0.25, "after_signs": True}, p["way_back"]
assert 0 < p["hours"] <= 0.25 and p["turnout"] == "brief"
w = p["window"]
assert (int(w["to"][3:]) - int(w["from"][3:])) % 60 == 15, w
P
advice 2025-04-23 --plain
contains "$out" 'day 1 of 48: 15 minutes at most' "and is said"
says "hay first, only if your vet agrees." "in the line to act on"
contains "$out" "vet's agreement" "with whom to agree"
advice 2025-04-26 --allow-stale --json
check "on it goes" python3 - "$out" <<'P'
import json, sys
p = [a for a in json.load(open(sys.argv[1]))["animals"] if a["id"] == "grey-pony"][0]
assert p["way_back"]["day"] == 4 and p["way_back"]["most_hours"] == 0.5
P

# live: signs seen now count now
SOURCE_DATE_EPOCH=1745420400 # 23 April 2025, 15:00 UTC
export SOURCE_DATE_EPOCH
run record foot-signs donkey off-feed --holding "$scratch/holding.json"
run today --holding "$scratch/holding.json" --no-log --plain
of donkey >"$scratch/donkey.txt"
contains "$scratch/donkey.txt" 'Ring the vet at once.' "written this afternoon, it counts this afternoon"
advice 2025-04-23 --plain
contains "$out" 'at once' "on that day by its date as well"
SOURCE_DATE_EPOCH=1745506800
advice 2025-04-23 --plain
lacks "$out" 'at once' "asked for later, that morning did not know"
run record vet donkey cleared --holding "$scratch/holding.json"
run today --holding "$scratch/holding.json" --no-log --plain --allow-stale
of donkey >"$scratch/donkey.txt"
contains "$scratch/donkey.txt" '15 min on grass' "the vet's word ends it, and the way back begins"
unset SOURCE_DATE_EPOCH

# what came after noon is not known to the morning, whatever else is written of that day
for words in none hot-feet; do
    printf '%s\n2025-04-23,15:00,grey-pony,weight,270,kg,\n2025-04-23,,donkey,foot-signs,%s,,\n' "$head" "$words" >"$diary"
    advice 2025-04-23 --plain
    contains "$out" 'grey-pony: 1 x equid-laminitis-history, 285 kg' "a weight of the afternoon, foot-signs $words"
done
contains "$out" 'Ring the vet today.' "the signs without a time count"
printf '%s\n2025-04-20,07:00,grey-pony,foot-signs,hot-feet,,\n2025-04-21,07:00,wethers,foot-signs,kneeling,,\n' "$head" >"$diary"
advice 2025-04-22 --plain
check "signs in two groups are urgent in both" test "$(grep -c 'Ring the vet at once' "$out")" -eq 2
run season --holding "$scratch/holding.json" --from 2025-04-18 --to 2025-04-22 --csv
check "the season knows the signs, too" python3 - "$out" <<'P'
import csv, sys
rows = list(csv.DictReader(open(sys.argv[1])))
pony = {r["date"]: r["turnout:grey-pony"] for r in rows}
assert pony["2025-04-19"] != "none" and pony["2025-04-20"] == pony["2025-04-22"] == "none", pony
P

# how paddocks are kept
printf '%s\n2025-04-10,,old-bank,rested,,,\n2025-04-15,,pump-field,cut,5,cm,\n' "$head" >"$diary"
advice 2025-04-23 --json
check "rested grows, cut is short" python3 - "$out" "$scratch/plain.txt" <<'P'
import json, re, sys
now = {p["id"]: p["green_kg_dm_ha"] for p in json.load(open(sys.argv[1]))["paddocks"]}
green = [float(x) for x in re.findall(r"(\d+) kg green", open(sys.argv[2]).read())]
assert now["old-bank"] > 1.2 * green[1] and now["pump-field"] < 0.8 * green[0], (now, green)
P
contains "$out" 'old-bank rests since 2025-04-10' "and the rest is said"
advice 2025-04-23 --plain
contains "$out" 'Its paddock is at rest' "animals of a rested paddock are off grass"
advice 2025-04-23 --csv
check "all of them" test "$(grep -c ',none,.*,old-bank,' "$out")" = "$(grep -c ',old-bank,' "$out")"
printf '2025-04-23,06:00,old-bank,grazed,,,\n' >>"$diary"
advice 2025-04-24 --allow-stale --plain
contains "$out" 'The way back to grass, day 1 of' "and begin with little when it is grazed again"

# a pattern of weather files that matches what we write, too
rm -f "$diary"
sed 's/"weather.csv"/"*.csv"/' "$scratch/holding.json" >"$scratch/pattern.json"
run record weight wethers 70 --date 2025-04-01 --holding "$scratch/pattern.json"
run today --holding "$scratch/pattern.json" --date 2025-04-23
run today --holding "$scratch/pattern.json" --date 2025-04-23 --plain
exits 0 "diary and advice log are not taken for weather"

# a damaged diary
printf '%s\n2025-04-20,,grey-pony,foot-sings,hot-feet,,\n' "$head" >"$diary"
advice 2025-04-23
refused 65 'diary.csv:2: what' "a wrong word stops the advice, with its line"
contains "$err" 'did you mean "foot-signs"' "and says what was meant"
printf '%s\r\n2025-04-20;;grey-pony;weight;290,5;kg;\r\n' "$(echo "$head" | tr , ';')" >"$diary"
advice 2025-04-23 --plain
exits 0 "as a spreadsheet saved it"
contains "$out" '(diary, 2025-04-20), on old-bank' "the weight in it counts, with its decimal comma"

# two lots of one feed: the first tested as the holding says, the second not at all
rm "$diary"
python3 - "$scratch" <<'P'
import json, sys
h = json.load(open(sys.argv[1] + "/holding.json"))
lot = {"feed": "grass-hay-mature", "bales": 40, "bale_kg": 17}
straw = {"feed": "barley-straw", "bales": 3, "bale_kg": 12}
h["hay"]["stock"] = [{**lot, "nsc_percent": 9.2, "nsc_is": "wsc+starch"}, lot, straw]
json.dump(h, open(sys.argv[1] + "/lots.json", "w"))
P
lots() { # WORD...
    run record --holding "$scratch/lots.json" --date 2025-04-20 "$@"
}
lots hay-test grass-hay-mature 14 %
refused 64 'as they stand there: grass-hay-mature-1, grass-hay-mature-2' "a test of one of two lots of a feed"
lots hay-test grass-hay-mature-3 14 %
refused 64 'no hay "grass-hay-mature-3"' "a lot that is not there"
lots hay-test grass-hay-mature-2 14 %
exits 0 "the second by its number"
matches "$diary" '^2025-04-20,[^,]*,grass-hay-mature-2,hay-test,14,%' "stands so in the diary"
lots hay-bought barley-straw 20 bales
exits 0 "a lot that is the only one of its feed needs none"
run today --holding "$scratch/lots.json" --date 2025-04-23 --no-log
says "grass-hay-mature-2 14.0 % sugar and starch. The advice still reckons with a table's average" \
    "the morning tells of the second"
contains "$scratch/flat" 'into the holding file, if this lot is the one that was tested' "and that numbers may move"
printf '%s\n2025-04-20,,grass-hay-mature,hay-test,9.2,%%,\n' "$head" >"$diary"
run today --holding "$scratch/lots.json" --date 2025-04-23 --no-log
lacks "$out" 'still reckons' "what was written before there was a second is of the first"
printf '%s\n2025-04-20,,grass-hay-mature-1,hay-test,14,%%,\n' "$head" >"$diary"
run today --holding "$scratch/lots.json" --date 2025-04-23 --no-log
contains "$out" 'grass-hay-mature-1 14.0 %' "the first by its number"
# when one is eaten and taken out, what is left is not the hay that had its number
printf '%s\n2025-04-20,,grass-hay-mature-1,hay-test,6,%%,\n2025-04-20,,grass-hay-mature-2,hay-test,15,%%,\n' "$head" \
    >"$diary"
advice 2025-04-23
tr -s ' \n' ' ' <"$out" >"$scratch/flat"
lacks "$scratch/flat" 'hay test of' "a test by number says nothing of the only lot"
for n in 1 2; do
    contains "$scratch/flat" "\"grass-hay-mature-$n\" (line $((n + 1))), which the holding does not have" \
        "it is told of: number $n"
done
# what the holding file would not take is not to be written there
for test in 2.5 55; do
    printf '%s\n2025-04-20,,grass-hay-mature,hay-test,%s,%%,\n' "$head" "$test" >"$diary"
    advice 2025-04-23
    tr -s ' \n' ' ' <"$out" >"$scratch/flat"
    contains "$scratch/flat" "line 2 of diary.csv: hay-test $test % of grass-hay-mature (2025-04-20) looks like a slip" \
        "a hay test of $test %"
    lacks "$scratch/flat" 'into the holding file' "is not handed on: $test %"
done
# ids of their own
python3 - "$scratch" <<'P'
import json, sys
h = json.load(open(sys.argv[1] + "/lots.json"))
first, second, straw = h["hay"]["stock"]
first["id"] = "barn"
for name, stock in (("barn", [first, second, straw]), ("eaten", [second, straw]), ("twice", [first, {**straw, "id": "barn"}])):
    h["hay"]["stock"] = stock
    json.dump(h, open(f"{sys.argv[1]}/{name}.json", "w"))
P
run today --holding "$scratch/twice.json" --date 2025-04-23 --no-log
refused 78 'the id "barn" is used twice' "two lots of one id"
printf '%s\n2025-04-20,,barn,hay-test,6,%%,\n2025-04-20,,grass-hay-mature,hay-test,15,%%,\n' "$head" >"$diary"
run today --holding "$scratch/barn.json" --date 2025-04-23 --no-log
tr -s ' \n' ' ' <"$out" >"$scratch/flat"
contains "$scratch/flat" 'hay test of 2025-04-20: barn 6.0 %' "a lot by its own id"
contains "$scratch/flat" 'cool-season grass hay, mature, lot barn' "the hay to give by it, too"
contains "$scratch/flat" '"grass-hay-mature" (line 3), which the holding does not have' "it has no other name"
run record --holding "$scratch/barn.json" --date 2025-04-20 hay-test barn 7 %
exits 0 "it is written down by it"
run record --holding "$scratch/barn.json" --date 2025-04-20 hay-test grass-hay-mature 7 %
refused 64 'did you mean "grass-hay-mature-2"?' "the other one keeps its number"
run today --holding "$scratch/eaten.json" --date 2025-04-23 --no-log
tr -s ' \n' ' ' <"$out" >"$scratch/flat"
contains "$scratch/flat" '"barn" (line 2 and more), which the holding does not have' "eaten, nothing takes its id over"

finish
