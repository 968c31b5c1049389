#!/bin/sh
# What stands in the diary and reaches no animal: foot signs under a misspelt id or of a day to come head every
# screen; other lines that are passed over are named. SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
farm=$scratch/farm
mkdir "$farm"
cp data/demo/holding.json data/demo/weather.csv "$farm"
diary() { # LINE...
    echo 'date,time,subject,what,value,unit,note' >"$farm/diary.csv"
    printf '%s\n' "$@" >>"$farm/diary.csv"
}
today() { # DATE ARGUMENT...
    run today --holding "$farm/holding.json" --date "$@"
}

# A misspelt id.
diary '2025-04-20,,grey-pny,foot-signs,hot-feet,,'
for form in '' --short; do
    # shellcheck disable=SC2086 # no word, or one
    today 2025-04-21 --no-log $form
    exits 0 "signs under an unknown id $form"
    check "head the screen $form" sh -c 'sed -n 2p "$1" | grep -q "^Foot signs (hot-feet, 2025-04-20) written down in line 2"' - "$out"
    says 'for "grey-pny", which the holding does not have. If this is grey-pony: off grass now, whatever its hours say, and ring the vet today; then mend line 2.' "with what to do $form"
    says 'If it is none of yours, take the line out. The holding has milkers, wethers, grey-pony, donkey.' "and which ids there are $form"
    lacks "$out" 'passed over' "and no small note says that it is passed over $form"
done
today 2025-04-21 --no-log --exit-status
exits 13 "the exit status is that of an animal off grass"
today 2025-04-21 --no-log --json
contains "$out" '"alarms":["Foot signs (hot-feet, 2025-04-20)' "JSON has it by itself"
run sheet --holding "$farm/holding.json" --date 2025-04-21 --no-log -o -
check "the sheet begins with it" sh -c 'sed -n "/<main>/,/<\/section>/p" "$1" | grep -q "<p>Foot signs (hot-feet, 2025-04-20) written down"' - "$out"
run round "$farm" --date 2025-04-21 --csv
matches "$out" ',today,brief,[^,]*signs-lost,.*If this is grey-pony: off grass now' "the round rings for it"
run round "$farm" --date 2025-04-21 --exit-status
exits 13 "with its exit status"
lacks "$out" 'NOTHING NEW' "and it is news"
today 2025-04-20 --quiet
contains "$out" 'Foot signs (hot-feet' "a quiet run tells it"
today 2025-04-21 --quiet
today 2025-04-21 --quiet
contains "$out" 'Foot signs (hot-feet' "and again when nothing else is new"
lacks "$out" 'Changed' "without saying that something changed"
today 2025-04-21 --quiet --exit-status
exits 13 "and ends with the exit status"
diary '2025-04-20,,grey-pony,weight,285,kg,'
today 2025-04-21 --quiet
empty "$out" "mended, it is quiet again"

# How long it stands, what ends it, and how urgent it is.
diary '2025-04-20,,grey-pny,foot-signs,hot-feet,,' '2025-04-20,18:00,grey-pny,foot-signs,none,,' '2025-04-22,,grey-pny,foot-signs,none,,'
today 2025-04-21 --no-log
says 'Foot signs (hot-feet' "signs without a time are the last word of their day"
today 2025-04-23 --no-log
lacks "$out" 'Foot signs (' "none under the same id ends them"
says 'the diary tells of "grey-pny" (line 2 and more), which the holding does not have: passed over.' "and a note is left"
diary '2025-03-20,,grey-pny,foot-signs,hot-feet,,' '2025-03-22,,grey-pny,foot-signs,kneeling,,'
today 2025-04-21 --no-log
says 'Foot signs (kneeling, 2025-03-22) written down in line 3' "30 days ago"
today 2025-04-22 --no-log
lacks "$out" 'Foot signs (' "31 days ago no longer"
today 2025-03-23 --no-log
says 'Foot signs (kneeling, hot-feet, 2025-03-22) written' "of several lines all signs, and the last line"
diary '2025-04-20,,dokney,foot-signs,off-feed,,'
today 2025-04-21 --no-log
says 'If this is donkey: off grass now, whatever its hours say, and ring the vet at once' "what cannot wait"
run round "$farm" --date 2025-04-21 --csv
matches "$out" ',now,[^,]*,signs-at-once,' "is rung for now"
diary '2025-04-20,,old-mare,foot-signs,hot-feet,,' '2025-04-20,,grey-pny,vet,called,,' '2025-04-20,,pump-field,foot-signs,kneeling,,'
today 2025-04-21 --no-log
says 'for "old-mare", which the holding does not have. Whichever animal it is: off grass now' "an id that is like none"
says 'A word on the vet (called, 2025-04-20) written down in line 3 of diary.csv for "grey-pny"' "the vet under a misspelt id"
says 'for "pump-field", which the holding does not have. Whichever' "a paddock is no animal"
diary '2025-04-20,,grey-pny,vet,cleared,,'
today 2025-04-21 --no-log
check "signs that are over alarm nobody" sh -c '! sed -n 2p "$1" | grep -q "vet"' - "$out"
diary "2025-04-20,,$(printf '\033[31m')<b>,foot-signs,hot-feet,,"
today 2025-04-21 --no-log
lacks "$out" "$(printf '\033')" "an id that a terminal would obey"

# A day to come, on the morning itself.
SOURCE_DATE_EPOCH=1745384400 # 23 April 2025, 06:00 in London
export SOURCE_DATE_EPOCH
diary '2026-04-20,,grey-pony,foot-signs,hot-feet,,' '2025-05-20,,wethers,weight,70,kg,' '2025-04-24,,wethers,foot-signs,none,,'
run today --holding "$farm/holding.json" --no-log
says 'Foot signs (hot-feet) of grey-pony are written down in line 2 of diary.csv for 2026-04-20, a day to come' "signs of another year"
says 'off grass now, whatever its hours say, and ring the vet today; then mend the date.' "with what to do"
says 'line 3 of diary.csv: weight of wethers is dated 2025-05-20, a day to come: passed over until then.' "other lines of a day to come are named"
run round "$farm" --csv
matches "$out" ',signs-lost,' "and the round knows of the signs"
today 2025-04-22 --no-log
lacks "$out" 'a day to come' "a past morning goes by what was written then"
unset SOURCE_DATE_EPOCH

# A weight that no such animal has.
diary '2025-04-01,,grey-pony,weight,290,kg,' '2025-04-20,,grey-pony,weight,28,kg,'
today 2025-04-21 --no-log
says 'Note: line 3 of diary.csv: weight 28 kg of grey-pony (2025-04-20) is passed over: one of the species (equid) weighs from 40 to 1500 kg. It counts as 290 kg; mend the line.' \
    "a weight that is passed over is named with its line"
diary '2025-04-20,,grey-pony,weight,28,kg,' '2025-04-21,,grey-pony,weight,280,kg,'
today 2025-04-22 --no-log
lacks "$out" 'is passed over' "until a newer one counts"
sed 's/"weight_kg": 172/"girth_cm": 120, "length_cm": 115/' data/demo/holding.json >"$farm/holding.json"
diary '2025-04-20,,donkey,girth,12,in,'
today 2025-04-22 --no-log
says 'line 2 of diary.csv: girth 12 in of donkey (2025-04-20), which makes ' "and so is a girth that makes one"
matches "$scratch/flat" 'which makes [0-9]+ kg, is passed over' "with what it makes"
finish
