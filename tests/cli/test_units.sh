#!/bin/sh
# --units us: no metric unit is left in text for people, and none is lost in what machines read.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
cp data/demo/holding.json data/demo/weather.csv "$scratch"
holding=$scratch/holding.json
bilt="--weather data/real/de_bilt_2005-2019.csv --latitude 52.1 --longitude 5.18 --elevation 2 --no-log"

# metric: what is metric in the answer, however its lines end, but for what is named here and why.
metric() {
    tr -s ' \n' ' ' <"$out" | sed '
        s/g a kg of body weight//g                    # the term of the field there, too
        s/sugar per kg of body weight//g
        s/per kg of body weight//g
        s/with 45 g a head and reach 130 g//g
        s/high for 2 m above the ground; was it measured at 10 m//g # heights at which wind is measured everywhere
        s/weight_kg//g                                # a key of the holding file
        s/[0-9.]* MJ\/m2//g                           # radiation has no other unit in weather files
    ' >"$scratch/words"
    # amounts and heads of tables: kg, g/kg, cm, mm, km, m, m/s, hectares, MJ, and degrees C
    grep -oE '.{0,30}([^A-Za-z](kg|g/kg|cm|mm|km|ha|MJ|m/s|m3)([^A-Za-z0-9_]|$)|[0-9] (m|C)([^A-Za-z]|$)|; C\.|hectare|kilogram|metre).{0,20}' \
        "$scratch/words"
}
american() { # NAME
    exits 0 "$1"
    found=$(metric)
    if [ -z "$found" ]; then pass "$1: nothing metric in it"; else fail "$1: nothing metric in it" "$found"; fi
}
us() { # NAME COMMAND ARGUMENT...
    name=$1
    shift
    run "$@" --units us
    american "$name"
}

# That the search finds what it looks for:
while read -r n arguments; do
    # shellcheck disable=SC2086 # many words
    run $arguments
    check "$n metric words or more in: $arguments" test "$(metric | grep -c '')" -ge "$n"
done <<TABLE
20 today --holding $holding --date 2025-04-23 --no-log
8 ration --holding $holding --date 2025-04-23
3 hay --holding $holding --date 2024-12-01 --no-grass
3 season --holding $holding --from 2025-04-18 --to 2025-04-22
2 outlook $bilt --animal goat-dry --date 2018-12-01 --months 2
4 weather --holding $holding --date 2025-04-23
TABLE

us "today" today --holding "$holding" --date 2025-04-23 --no-log
contains "$out" 'grey-pony: 1 x equid-laminitis-history, 628 lb' "285 kg are 628 lb"
contains "$out" 'Hay: 10 lb a head for the day' "4.6 kg of hay are 10 lb"
contains "$out" 'growing 72 lb of dry matter an acre and day' "80 kg a hectare are 72 lb an acre"
contains "$out" 'Estimate: 21.8 at dawn' "218 g/kg are 21.8 %"
us "today, with forecast-less defaults" today $bilt --animal horse --date 2018-05-15
contains "$out" 'kept at 1606 lb of dry matter an acre' "what is assumed"
us "today --quiet" today --holding "$holding" --date 2025-04-23 --quiet
for day in 2018-01-20 2018-03-03 2018-05-06 2018-07-20 2018-11-30; do
    for animal in goat-lactating equid-at-risk sheep-dry alpaca; do
        us "today, $animal on $day" today $bilt --animal $animal --date $day
    done
done
us "ration" ration --holding "$holding" --date 2025-04-23
matches "$out" '^  grass-hay-mature +10\.05 +9\.02 +9\.2 +376 +82 +66\.7 +9\.6' "4.56 kg, 4.09 kg and 40.1 MJ of hay"
us "hay by weather" hay $bilt --animal pony --date 2018-12-01
us "hay by tables" hay --holding "$holding" --date 2024-12-01 --no-grass
contains "$out" 'Buy 215 bales of 37 lb' "bales stay whole"
us "season" season --holding "$holding" --from 2025-04-18 --to 2025-04-22
matches "$out" '^pump-field +2025-04-18 +20\.7 .* 30\.0 +54\.7 ' "-1.1 C and 12.6 C"
us "outlook" outlook $bilt --animal goat-dry --date 2018-12-01 --months 2
contains "$out" 'growth, lb/acre   sugar+starch, %' "the heads of its table"
us "weather" weather --holding "$holding" --date 2025-04-23
contains "$out" 'the minimum of 27.7 F is 2.6 F below' "a temperature, and a difference of two"

# Weather that is doubted in every way, from far and high up, and a ration with every kind of figure.
awk -F, 'BEGIN { OFS = "," } NR > 1 && $1 == "2024-06-10" { $2 = 40; $3 = 12 } $1 == "2024-08-10" { $4 = 900 }
    $1 == "2024-09-10" { $3 = 57.2 } $1 == "2024-10-10" { $7 = 31 } { print }' data/demo/weather.csv >"$scratch/weather.csv"
us "weather with errors in it" weather --holding "$holding" --date 2025-04-23
contains "$out" 'is above the maximum of' "they are there"
cp data/demo/weather.csv "$scratch"
sed 's/"weight_kg": 285/"girth_cm": 152, "length_cm": 134/' data/demo/holding.json >"$holding"
us "a weight by tape" ration --holding "$holding" --date 2025-04-23
contains "$out" 'by tape (girth 59.8 in, length 52.8 in)' "in inches"
cp data/demo/holding.json "$holding"

run record --holding "$holding" --date 2025-04-22 cut pump-field 5 cm --units us
contains "$out" 'That is 2.0 in.' "a height that was written in centimetres"
run record --holding "$holding" --date 2025-04-22 weight grey-pony 280 kg --units us
contains "$out" 'That is 617 lb.' "a weight that was written in kilograms"
run record --holding "$holding" --date 2025-04-22 weight grey-pony 617 lb --units us
lacks "$out" 'That is' "pounds need no words"
# a bare number would be kilograms or centimetres: 628 lb are 285 kg, 3 in are 7.6 cm
cp "$scratch/diary.csv" "$scratch/before.csv"
run record --holding "$holding" --date 2025-04-22 weight grey-pony 628 --units us
refused 64 'say "628 lb" or "285 kg"' "a bare weight"
run record --holding "$holding" --date 2025-04-22 sward-height old-bank 3 --units us
refused 64 'say "3 in" or "7.6 cm"' "a bare height"
run record --holding "$holding" --date 2025-04-22 girth grey-pony 62 --units us
refused 64 'say "62 in" or "157 cm"' "a bare girth"
run record --holding "$holding" --date 2025-04-22 cut pump-field 4 --units us
refused 64 'say "4 in" or "10.2 cm"' "a bare stubble"
same "$scratch/diary.csv" "$scratch/before.csv" "nothing of it is written"
run record --holding "$holding" --date 2025-04-22 turnout grey-pony 2 --units us
exits 0 "hours need no unit there either"
run record --undo --holding "$holding"
run record --holding "$holding" --date 2025-04-22 weight grey-pony 285 lb --units us
contains "$out" 'Until then grey-pony weighed 617 lb a head, and now 285 lb. If 285 kg was meant:' "pounds that are kilograms"
run record --undo --holding "$holding"
run record --holding "$holding" --date 2025-04-22 grazed old-bank 1800 kg/ha --units us
contains "$out" 'That is 1606 lb an acre.' "a cover"
run record --holding "$holding" --date 2025-04-22 foot-signs grey-pony hot-feet --units us
us "foot signs" today --holding "$holding" --date 2025-04-23 --no-log
contains "$out" 'Weight: 617 lb (diary, 2025-04-22).' "what to tell the vet"

# What machines read stays as it is.
for form in "today --csv" "today --json" "ration --json"; do
    # shellcheck disable=SC2086 # command and option
    set -- $form
    run "$1" --holding "$holding" --date 2025-04-23 --no-log "$2"
    cp "$out" "$scratch/metric"
    run "$1" --holding "$holding" --date 2025-04-23 --no-log "$2" --units us
    same "$scratch/metric" "$out" "$form stays metric"
done
run weather --holding "$holding" --date 2025-04-23 --json
cp "$out" "$scratch/metric"
run weather --holding "$holding" --date 2025-04-23 --json --units us
same "$scratch/metric" "$out" "weather --json stays metric"
run today --holding "$holding" --date 2025-04-23 --no-log
cp "$out" "$scratch/metric"
run today --holding "$holding" --date 2025-04-23 --no-log --units metric
same "$scratch/metric" "$out" "--units metric is what is usual"
run today --holding "$holding" --date 2025-04-23 --no-log --calendar "$scratch/a.ics" --units us
matches "$scratch/a.ics" 'Hay: [0-9.]+ lb a head' "the calendar is for people"

run today --holding "$holding" --date 2025-04-23 --no-log --units imperial
refused 64 'metric (kg, cm, C) or us (lb, in, F)' "other units"
run ration --holding "$holding" --date 2025-04-23 --arithmetic --units us
refused 64 'metric' "sums are shown as they are made"

# once for all, by the environment
run today --holding "$holding" --date 2025-04-23 --no-log --units us
cp "$out" "$scratch/by-option"
SUGARLEA_UNITS=us
export SUGARLEA_UNITS
run today --holding "$holding" --date 2025-04-23 --no-log
check "SUGARLEA_UNITS stands for --units" cmp -s "$out" "$scratch/by-option"
run today --holding "$holding" --date 2025-04-23 --no-log --units metric
contains "$out" ' kg a head for the day' "and --units comes before it"
run ration --arithmetic --holding "$holding" --date 2025-04-23
exits 0 "sums stay as they are made"
SUGARLEA_UNITS=imperial
run today --holding "$holding" --date 2025-04-23 --no-log
refused 64 'SUGARLEA_UNITS: is metric (kg, cm, C) or us' "no system of units"
unset SUGARLEA_UNITS
finish
