#!/bin/sh
# What is said of the day's hay is the same at every door, and no two lines of a morning gainsay each other.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
h=$scratch/holding.json

# The morning's doors for people, each on one line, so that a sentence is found however it was wrapped or folded.
doors() { # DATE
    for door in today short sheet calendar; do
        case $door in
        today) run today --holding "$h" --date "$1" --no-log --plain ;;
        short) run today --holding "$h" --date "$1" --no-log --plain --short ;;
        sheet) run sheet --holding "$h" --date "$1" --no-log -o - ;;
        calendar)
            run today --holding "$h" --date "$1" --no-log --calendar "$scratch/a.ics"
            tr -d '\r' <"$scratch/a.ics" | sed -e ':a' -e '$!{N;ba' -e '}' -e 's/\n //g' -e 's/\\,/,/g' >"$out"
            ;;
        esac
        [ "$code" -eq 0 ] || fail "$door" "exit code $code"
        words "$scratch/$door"
    done
}
say() { # DOORS TEXT NAME
    for d in $1; do contains "$scratch/$d" "$2" "$d: $3"; done
}
silent() { # DOORS TEXT NAME
    for d in $1; do lacks "$scratch/$d" "$2" "$d: $3"; done
}
pages='today short sheet'
all="$pages calendar"

# ---- less hay than anybody weighs out is none, and nothing is counted on it
mares() { # AREA
    cat >"$h" <<J
{"sugarlea": 1, "site": {"latitude": 53.43, "longitude": -6.24, "elevation_m": 71, "timezone": "Europe/Dublin"},
 "weather": [{"file": "$PWD/data/real/dublin_airport_2010-2020.csv"}],
 "paddocks": [{"id": "bank", "area_ha": $1, "soil": "loam", "nitrogen": "none",
               "kept": {"how": "grazed", "cover_kg_dm_ha": 1500}}],
 "animals": [{"id": "mares", "class": "horse", "count": 10, "weight_kg": 550, "paddock": "bank"}],
 "hay": {"stock": [{"feed": "grass-hay-mature", "nsc_percent": 9.2, "nsc_is": "wsc+starch"}]}}
J
}
mares 1.56
run today --holding "$h" --date 2020-05-01 --no-log --json
check "a handful of hay stands for grass" python3 - "$out" <<'P'
import json, sys
a = json.load(open(sys.argv[1]))["animals"][0]
assert 0.05 < a["hay_kg_per_head"] < 0.15 and a["ration"]["grass_lacking_dm_kg"] > 0.05, a
P
doors 2020-05-01
say "$pages" "Hay: none needed beside the grass" "a handful is not weighed out"
silent "$pages" "too little for its animals" "and is not counted on"
silent calendar "Hay: " "nor is it an entry's"
mares 1.4
doors 2020-05-01
silent "$all" "none needed" "more is"
say "$pages" "Grass: too little for its animals on 1.4 ha: about 9.8 kg of dry matter a head and day; hay is counted for \
the rest. Is the paddock larger? Correct its area: \"sugarlea setup\". The grass taller? Write its height down: \"sugarlea help \
record\"." \
    "and is counted on, for so large a paddock"
matches "$scratch/calendar" 'Hay: [0-9.]+ kg a head for the day' "in the calendar too"
run today --holding "$h" --date 2020-05-01 --no-log --short --units us
contains "$out" "Grass: too little for its animals on 3.5 acres: " "in acres, too" # 1.4 / 0.4047

# ---- two amounts of hay on two lines are two amounts: that of a white morning is all of its hay
cp data/demo/holding.json data/demo/weather.csv "$scratch"
doors 2025-04-23
say "$all" "no grass today: 4.8 kg of hay a head in all. It hardly thaws before 07:40." "a white morning's hay is all of it"
silent "$all" "of hay a head in its place" "and comes not on top"
cat >"$h" <<J
{"sugarlea": 1, "site": {"latitude": 53.43, "longitude": -6.24, "elevation_m": 71, "timezone": "Europe/Dublin"},
 "weather": [{"file": "$PWD/data/real/dublin_airport_2010-2020.csv"}],
 "paddocks": [{"id": "bank", "area_ha": 9}], "animals": [{"id": "mares", "class": "mare-pregnant"}]}
J
doors 2010-12-25
matches "$scratch/short" 'white grass will hardly thaw today: until it does, hay: 1[0-9.]+ kg a head in all for a whole day\.' \
    "nor that of those on grass day and night"

# ---- which hay, and that it is to be soaked: poor teeth are given the soaked lot, and the others the dry one
two() { # SECOND-LOT
    cat >"$h" <<J
{"sugarlea": 1, "site": {"latitude": 52.3, "longitude": -2.6, "elevation_m": 140, "timezone": "Europe/London"},
 "weather": [{"file": "weather.csv"}], "paddocks": [{"id": "bank", "area_ha": 1}],
 "animals": [{"id": "old-boy", "class": "pony", "weight_kg": 285, "history": ["laminitis", "poor-teeth"]},
             {"id": "young", "class": "pony", "weight_kg": 285, "history": ["laminitis"]}],
 "hay": {"stock": [{"feed": "grass-hay-mature", "nsc_percent": 9.2, "nsc_is": "wsc+starch"}, $1]}}
J
}
two '{"feed": "grass-hay-mature", "nsc_percent": 9.2, "nsc_is": "wsc+starch", "soaked": {"hours": 1}}'
doors 2025-04-23
say "$all" "a head for the day: cool-season grass hay, mature, lot grass-hay-mature-1" "young: the dry lot"
say "$all" "a head for the day, weighed dry: cool-season grass hay, mature, lot grass-hay-mature-2, soaked" \
    "old-boy: the soaked"
say "$pages" "lot grass-hay-mature-2, soaked (analysed)." "with what is known of it"
run ration --holding "$h" --date 2025-04-23
contains "$out" "Hay: lot grass-hay-mature-1, analysed, but for" "the ration names the dry lot"
contains "$out" "Hay: lot grass-hay-mature-2, analysed, but for" "and the soaked"
run today --holding "$h" --date 2025-04-23 --no-log --json
check "and so does JSON" python3 - "$out" <<'P'
import json, sys
old, young = [a["ration"] for a in json.load(open(sys.argv[1]))["animals"]]
assert old["hay_lot"] == "grass-hay-mature-2" and old["soaked"]["hours"] == 1, old
assert young["hay_lot"] == "grass-hay-mature-1" and young["soaked"]["hours"] is None, young
P
# lots that differ in name need no number; what stands too coarse for poor teeth is said in the calendar as well
two '{"feed": "wheat-straw"}'
doors 2025-04-23
silent "$all" "lot " "one of a kind"
silent "$all" "soaked (" "and dry"
say "$all" "too coarse for poor teeth when dry: soak it before it is fed" "to be soaked"

finish
