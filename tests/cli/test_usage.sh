#!/bin/sh
# The command line: help, and what is wrong is refused with a next step.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
record "$scratch/w.csv" 2017-01-01 2018-05-14

run
exits 0 "without a word it explains itself"
check "in ten lines or about" test "$(wc -l <"$out")" -le 12
run --version
exits 0 "--version"
matches "$out" '^sugarlea [0-9]+\.[0-9]+\.[0-9]+' "--version prints name and number"
for command in today season weather params; do
    run help "$command"
    exits 0 "help $command"
    contains "$out" "$command" "help $command speaks of it"
    cp "$out" "$scratch/help"
    run "$command" --help
    same "$scratch/help" "$out" "$command --help says the same as help $command"
done
run help
exits 0 "help"
for command in today season weather params; do
    contains "$out" "$command" "help lists $command"
done

run tody
refused 64 'today' "a mistyped command is answered with the right one"
run today --wether x
refused 64 '--weather' "a mistyped option is answered with the right one"
run today --weather
refused 64 '--weather' "an option without its value"
run help nonsense
refused 64 'nonsense' "help for a command that is not there"

run today --weather "$scratch/w.csv" --latitude 91 --animal pony --no-log
refused 64 'latitude' "latitude 91"
run today --weather "$scratch/w.csv" --latitude 5x2 --animal pony --no-log
refused 64 'latitude' "a latitude that is no number"
run today --weather "$scratch/w.csv" --latitude 52,1 --animal pony --no-log
refused 64 'latitude' "a latitude with a decimal comma"
run today --weather "$scratch/w.csv" --animal pony --no-log
refused 64 'latitude' "no latitude"
today "$scratch/w.csv" --date 2018-02-29
refused 64 '2018-02-29' "29 February of a common year as the date"
today "$scratch/w.csv" --date 15/05/2018
refused 64 'date' "a date in another order"
today "$scratch/w.csv" --date 2018-05-15 --weight -4
refused 64 'weight' "a negative weight"
run today --weather "$scratch/w.csv" --latitude 52.1 --animal equid-at-rsk --date 2018-05-15 --no-log
refused 64 'equid-at-risk' "an unknown animal class: did you mean"
contains "$err" 'did you mean' "asked as a question"
for word in 'cow "cattle"' 'goat goat-dry, goat-late-pregnant' 'burro donkey, donkey-laminitis-history' 'mare mare-lactating, mare-pregnant'; do
    run today --weather data/real/de_bilt_2005-2019.csv --latitude 52.1 --animal "${word%% *}"
    refused 64 "${word#* }" "what is called ${word%% *}: its kind is named"
done
run today --weather "$scratch/w.csv" --latitude 52.1 --animal goat --date 2018-05-15 --no-log
refused 64 'goat-dry, goat-late-pregnant' "a class far from any: all are named"
today "$scratch/w.csv" --date 2018-05-15 --grass ryegras
refused 64 'ryegrass' "an unknown grass: did you mean"
today "$scratch/w.csv" --date 2018-05-15 --soil loom
refused 64 'loam' "an unknown soil: did you mean"

# Scripts may say these to every command; the help names them where they mean something.
for command in params "record --undo" "tune --undo"; do
    # shellcheck disable=SC2086 # a command and its option
    run $command --offline --no-log --plain --no-color --verbose
    lacks "$err" "no such option" "$command takes what is said everywhere"
    run "${command%% *}" --help
    lacks "$out" "--no-log" "its help does not offer what would do nothing there"
done
run params --offline --no-log --plain --no-color --verbose
exits 0 "and does its work"
run today --help
contains "$out" "--no-log" "help offers it where it does something"

# What was left open is said; --verbose names what was read.
today "$scratch/w.csv" --date 2018-05-15 --verbose
exits 0 "--verbose"
contains "$out" "assumed, as you did not say: grass unknown-mixed, soil unknown" "defaults are said"
contains "$err" "2017-01-01 to 2018-05-14" "--verbose names the days of the file"
today "$scratch/w.csv" --date 2018-05-15 --exit-status
check "--exit-status tells the turnout" test "$code" -ge 10 -a "$code" -le 13
today "$scratch/w.csv" --date 2018-05-15 --csv
matches "$out" '^2018-05-15,animal,(free|timed|brief|none),' "today as CSV"

today "$scratch/w.csv" --date 2018-05-15 --cover 400
refused 64 '--cover: 400 is out of range; 540 to 12000 is allowed' "a cover that grazing cannot hold"
today "$scratch/w.csv" --date 2018-05-15 --cover 50
refused 64 '--cover: 50 is out of range; 540 to 12000 is allowed' "of whatever size"
today "$scratch/w.csv" --date 2018-05-15 --cover much
refused 64 '--cover: "much" is not a number' "a cover that is none"
today "$scratch/w.csv" --date 2018-05-15 --cover 540
cp "$out" "$scratch/least"
today "$scratch/w.csv" --date 2018-05-15 --cover 600
check "any other is held" sh -c "! cmp -s '$out' '$scratch/least'"

# a handful of hay beside a day of grass is not weighed out; of a kid's day it is most of what it gets
run today --weather data/real/de_bilt_2005-2019.csv --latitude 52.1 --longitude 5.18 --elevation 2 --no-log --short \
    --animal pony --weight 400 --date 2015-01-24
contains "$out" "TIMED: 23 h 30 min on grass" "nearly a day of grass"
contains "$out" "Hay: none needed beside the grass" "a handful of hay is not weighed out"
sed 's/"weight_kg": 71/"weight_kg": 5/' data/demo/holding.json >"$scratch/kid.json"
cp data/demo/weather.csv "$scratch"
run today --holding "$scratch/kid.json" --date 2025-04-23 --no-log --short
contains "$out" "Hay: 0.1 kg a head for the day" "what is most of a small animal's day is"

# a minimum 0.8 C off what is expected moves no hours: it does not stand at the head of the morning
mkdir "$scratch/warm"
cp data/demo/holding.json "$scratch/warm"
for night in 2.3 9; do
    awk -F, -v OFS=, -v t=$night '$1 == "2025-03-09" { $2 = t } { print }' data/demo/weather.csv >"$scratch/warm/weather.csv"
    run today --holding "$scratch/warm/holding.json" --date 2025-03-10 --no-log --short
    grep -c '^Note: 9 March 2025: the minimum' "$out"
done >"$scratch/told"
check "a doubt that moves no hours is not what a morning begins with, another is" \
    test "$(tr '\n' ' ' <"$scratch/told")" = "0 1 "

# one is not many
awk -F, -v OFS=, '$1 == "2018-04-20" { next } { print }' "$scratch/w.csv" >"$scratch/gap.csv"
today "$scratch/gap.csv" --date 2018-05-15
contains "$out" '1 day was filled in across short gaps, 0 by' "a day that was filled in"

SUGARLEA_MODELS=$scratch/none "$PROGRAM" params >"$out" 2>"$err"
code=$?
refused 66 'none/swards.json: cannot be opened: the files of the model belong into the folder "models"' "no models"

run season --weather "$scratch/w.csv" --latitude 52.1 --animal pony --from 2018-05-02 --to 2018-05-01
refused 64 'from' "a season that ends before it begins"

run params
exits 0 "params"
matches "$out" '[Ee]vidence|[Ss]ource|our judgement' "params names sources"
no_nan "$out" "params prints no nan"
run params --json
exits 0 "params --json"
if command -v python3 >/dev/null 2>&1; then
    check "params --json is JSON" python3 -c 'import json, sys; json.load(open(sys.argv[1]))' "$out"
fi
# An answer that cannot be written must not pass for one that was.
if [ -w /dev/full ]; then
    "$PROGRAM" params </dev/null >/dev/full 2>"$err"
    code=$?
    : >"$out"
    refused 74 'writ' "a full disk is noticed"
fi
finish
