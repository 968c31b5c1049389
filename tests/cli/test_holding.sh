#!/bin/sh
# Holding files: what is wrong is answered with its place and what is allowed.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
h=$scratch/holding.json
cp data/demo/weather.csv "$scratch/weather.csv"

bad_holding() { # SED-EXPRESSION TEXT NAME
    sed "$1" data/demo/holding.json >"$h"
    if cmp -s data/demo/holding.json "$h"; then
        fail "$3" "the test changed nothing: $1"
        return
    fi
    run today --holding "$h" --date 2025-04-23 --no-log
    refused 78 "$2" "$3"
}

cp data/demo/holding.json "$h"
run today --holding "$h" --date 2025-04-23 --no-log
exits 0 "a copy of the demo holding"
cp "$out" "$scratch/by_option"
SUGARLEA_HOLDING=$h
export SUGARLEA_HOLDING
run today --date 2025-04-23 --no-log
unset SUGARLEA_HOLDING
same "$scratch/by_option" "$out" "the environment names the holding"

bad_holding 's/"goat-dry"/"goat-dri"/' 'did you mean "goat-dry"' "an unknown class"
bad_holding 's/"unknown-mixed": 1/"unknown-mixd": 1/' 'did you mean "unknown-mixed"' "an unknown grass"
bad_holding 's/"silty-clay-loam"/"silty-clay"/' 'silty-clay' "an unknown soil"
bad_holding 's/"beet-pulp-plain"/"beet-pulp"/' 'beet-pulp' "an unknown feed"
bad_holding 's/"ryegrass": 0.75/"ryegrass": 0.65/' 'grass' "shares that do not add up to 1"
bad_holding 's/"paddock": "pump-field"/"paddock": "pump-feld"/' 'pump-feld' "a paddock that is not there"
bad_holding 's/"area_ha": 1.1/"area_h": 1.1/' 'did you mean "area_ha"' "an unknown entry"
bad_holding 's/"area_ha": 1.1/"hectares": 1.1/' 'unknown entry; allowed: note, id, area_ha, grass, soil, nitrogen, kept' "one that is like none"
bad_holding 's/"area_ha": 1.1/"area_ha": -1/' 'holding.json:' "a negative area"
bad_holding 's/"latitude": 52.3/"latitude": 152.3/' 'latitude' "a latitude beyond the pole"
bad_holding 's/"count": 7/"count": 7, "count": 8/' 'stands twice' "one entry twice"
bad_holding 's/"Europe\/London"/"Europe\/Lundon"/' 'Lundon' "a time zone that is not there"
bad_holding 's/"history": \[ "laminitis" \]/"history": [ "foundered" ]/' 'foundered' "an unknown history"
bad_holding 's/"sugarlea": 1,/"sugarlea": 9,/' 'sugarlea' "a version of the file that is not known"
bad_holding '$d' 'holding.json:' "a file cut short"
bad_holding '$s/}/} x/' 'holding.json:' "something after the end"
bad_holding 's/"id": "wethers"/"id": "milkers"/' 'milkers' "one id twice"

# limits that a vet has set hold, and every form of the morning says which
limited=$scratch/limited.json
unwrapped() { # the last answer on one line
    tr -s ' \n' ' ' <"$out" >"$scratch/line"
}
sed 's/"id": "wethers", /&"limits": { "nsc_caution_percent": 12.5, "max_hours": 3 }, /' data/demo/holding.json >"$limited"
run today --holding "$limited" --date 2025-04-23 --no-log --short
exits 0 "limits of the holding file"
check "are said of the group that has them" test "$(grep -c 'Limits: set in the holding file' "$out")" -eq 1
unwrapped
contains "$scratch/line" "for your vet: 12.5 % sugar and starch; 3 h on grass at most. grey-pony:" "and which"
run sheet --holding "$limited" --date 2025-04-23 --no-log -o -
contains "$out" "in the holding file for your vet: 12.5 % sugar and starch; 3 h on grass at most." "the sheet says them too"
sed 's/"id": "wethers", /&"limits": { "nsc_caution_percent": 12.5, "nsc_stop_percent": 14, "level_probability": 0.9 }, /' \
    data/demo/holding.json >"$limited"
run today --holding "$limited" --date 2025-04-23 --no-log
unwrapped
contains "$scratch/line" "12.5 % sugar and starch; 14 % for an hour; grass judged on the level it stays under 90 times in 100." "all"
check "limits of the vet are not called ours, others are" \
    test "$(grep -o 'Why, for [a-z]*\|The limits used are our choice' "$scratch/line" | tr '\n' ' ')" = \
    "Why, for milkers The limits used are our choice Why, for wethers Why, for grey Why, for donkey "

sed 's/weather.csv/absent.csv/' data/demo/holding.json >"$h"
run today --holding "$h" --date 2025-04-23 --no-log
refused 66 'absent.csv' "weather that is not there"
line=$(grep -n absent.csv "$h" | cut -d: -f1)
refused 66 "line $line of $h names it" "and where it is named"
sed 's/weather.csv/absent*.csv/' data/demo/holding.json >"$h"
run today --holding "$h" --date 2025-04-23 --no-log
refused 66 "line $line of $h names it" "a pattern that matches nothing, too"
run today --holding "$scratch/absent.json" --date 2025-04-23 --no-log
refused 66 'absent.json' "a holding that is not there"

# The log: one row a group, appended; left out on request.
cp data/demo/holding.json "$h"
rm -f "$scratch/advice-log.csv"
run today --holding "$h" --date 2025-04-23 --no-log
check "--no-log writes no log" test ! -e "$scratch/advice-log.csv"
run today --holding "$h" --date 2025-04-23
exits 0 "with the log"
log_lines() { # N NAME
    check "$2" test "$(grep -c '' "$scratch/advice-log.csv" 2>/dev/null)" = "$1"
}
log_lines 5 "the log has a row of names and one for each group"
run today --holding "$h" --date 2025-04-22
log_lines 9 "the next advice is appended"
matches "$scratch/advice-log.csv" "^2025-04-22,.*milkers" "the log names date and group"
lacks "$scratch/advice-log.csv" "52.3" "the log holds no coordinates"

# A night out, and a day with so little sugar that the donkey goes without its muzzle, and shorter.
run today --holding "$h" --date 2024-07-01 --no-log
matches "$out" "TIMED: .* on grass, all day and night but from 1[0-9]:[0-9]+ to 2[0-9]:[0-9]+, hay first" "a session over midnight names the hours off grass"
nights=$(grep -c 'all day and night but' "$out")
sed -n '/^Why, for donkey/,/^$/p' "$out" >"$scratch/donkey"
matches "$scratch/donkey" "Would change it: a grazing muzzle that fits: 12 h" "what a muzzle would give"
run sheet --holding "$h" --date 2024-07-01 --no-log -o "$scratch/night.html"
bars=$(grep -c 'url(#clock' "$scratch/night.html")
white=$(grep -c 'rect class="out"' "$scratch/night.html")
timed=$(grep -c 'On grass from\|On grass all day' "$scratch/night.html")
check "the sheet's bar shows both ends of such a day white" test "$nights" -gt 0 -a "$white" -eq $((timed + nights)) -a "$bars" -ge "$timed"
run today --holding "$h" --date 2025-04-23 --no-log
lacks "$out" "muzzle that fits" "no muzzle is offered to those who wear one, or to goats"
lacks "$out" "day and night" "a session within the day names its hours"
mkdir "$scratch/no-holding"
run_in "$scratch/no-holding" today
refused 64 'sugarlea setup' "without a holding setup is named"
finish
