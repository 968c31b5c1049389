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
        sed 's/<[^>]*>//g; s/&quot;/"/g; s/&#39;/'"'"'/g' "$out" | tr -s ' \n' ' ' >"$scratch/$door"
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
say "$pages" "too little for its animals" "and is counted on"
matches "$scratch/calendar" 'Hay: [0-9.]+ kg a head for the day' "in the calendar too"

finish
