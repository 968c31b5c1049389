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

# However many: each is named at the top, three at length and the others in a line or two, so that the advice stays in sight.
# shellcheck disable=SC2046 # one line each
diary $(seq -f '2025-04-20,,strange%02g,foot-signs,hot-feet,,' 40) '2025-04-21,,grey-pny,foot-signs,hot-feet,,'
today 2025-04-21 --no-log
check "41 ids that the holding does not have are named" test "$(grep -oE '"(strange[0-9]+|grey-pny)"' "$out" | sort -u | wc -l)" -eq 41
lacks "$out" 'passed over' "none of them as passed over"
says 'Line 2: "strange01" (hot-feet, 2025-04-20): off grass, ring the vet at once.' "the last of them, too, with what to do"
check "in few lines" test "$(sed '/^Weather recorded/,$d' "$out" | wc -l)" -lt 65
today 2025-04-21 --no-log --json
check "JSON has them all" python3 -c '
import json, sys
assert len(json.load(open(sys.argv[1]))["alarms"]) == 41' "$out"
run sheet --holding "$farm/holding.json" --date 2025-04-21 --no-log -o -
check "and so has the sheet" test "$(sed -n '/id="lost"/,/<\/section>/p' "$out" | grep -c '<p>.*off grass')" -eq 41
diary '2025-04-20,,a1,foot-signs,hot-feet,,' '2025-04-20,,a2,foot-signs,hot-feet,,' '2025-04-20,,a3,foot-signs,hot-feet,,' \
    '2025-04-19,,grey-pny,vet,called,,'
today 2025-04-21 --no-log
says 'Line 5: "grey-pny", perhaps grey-pony (the vet called, 2025-04-19): off grass, ring the vet today.' "which animal may be meant is said of each"

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
says 'Foot signs (kneeling, hot-feet, 2025-03-22) written down in line 3 and more of diary.csv' "of several lines all signs, and the last line"
says 'ring the vet today; then mend these lines. If they are none of yours, take them out.' "which are mended together"
diary '2025-04-18,,grey-pny,foot-signs,hot-feet,,' '2025-04-20,,grey-pny,vet,called,,'
today 2025-04-21 --no-log
says 'Foot signs (hot-feet, 2025-04-18) written down in line 2 and more of diary.csv' "the line of the signs, not that of the vet's call"
diary '2025-04-20,,dokney,foot-signs,off-feed,,'
today 2025-04-21 --no-log
says 'If this is donkey: off grass now, whatever its hours say, and ring the vet at once' "what cannot wait"
run round "$farm" --date 2025-04-21 --csv
matches "$out" ',now,[^,]*,signs-at-once,' "is rung for now"
diary '2025-04-20,,old-mare,foot-signs,hot-feet,,' '2025-04-20,,grey-pny,vet,called,,' '2025-04-20,,pump-field,foot-signs,kneeling,,'
today 2025-04-21 --no-log
says 'for "old-mare", which the holding does not have. Whichever animal it is: off grass now' "an id that is like none"
says 'A word on the vet (called, 2025-04-20) written down in line 3 of diary.csv for "grey-pny"' "the vet under a misspelt id"
says 'for "pump-field", which is no animal group of the holding. Whichever' "a paddock is no animal"
diary '2025-04-20,,grey-pny,vet,cleared,,'
today 2025-04-21 --no-log
check "signs that are over alarm nobody" sh -c '! sed -n 2p "$1" | grep -q "vet"' - "$out"
diary "2025-04-20,,$(printf '\033[31m')<b>,foot-signs,hot-feet,,"
today 2025-04-21 --no-log
lacks "$out" "$(printf '\033')" "an id that a terminal would obey"

# A subject that the holding has, but not as an animal.
diary '2025-04-19,,pump-field,weight,300,kg,' '2025-04-20,,grey-pony,grazed,5,cm,' '2025-04-20,,barn,hay-test,12,%,'
today 2025-04-21 --no-log
says 'the diary tells of "pump-field" (line 2), which is no animal group of the holding: passed over.' "a paddock that was weighed"
says 'the diary tells of "grey-pony" (line 3), which is no paddock of the holding: passed over.' "a group that was grazed"
says 'the diary tells of "barn" (line 4), which the holding does not have: passed over.' "what it has nowhere"

# Signs in more than one group cannot wait, under whatever id they stand.
several() { # LINE...
    diary "$@"
    today 2025-04-21 --no-log
}
several '2025-04-19,,grey-pony,foot-signs,hot-feet,,' '2025-04-20,,donkie,foot-signs,hot-feet,,'
says 'If this is donkey: off grass now, whatever its hours say, and ring the vet at once; then mend line 3.' "signs in two groups, one misspelt"
says 'Ring the vet at once. (Signs in more than one group.)' "and the other one knows of it"
today 2025-04-21 --no-log --json
contains "$out" '"vet":"at-once"' "JSON, too"
run sheet --holding "$farm/holding.json" --date 2025-04-21 --no-log -o -
contains "$out" 'Ring the vet at once.' "and the sheet"
run round "$farm" --date 2025-04-21 --csv
matches "$out" ',now,[^,]*,signs-at-once,.*grey-pony: a vet is needed at once' "and the round"
contains "$out" 'If this is donkey: off grass now, whatever its hours say, and ring the vet at once' "for both"
lacks "$out" 'today; foot signs' "neither of which waits"
several '2025-04-19,,gry-pony,foot-signs,hot-feet,,' '2025-04-20,,donkie,foot-signs,hot-feet,,'
says 'If this is donkey: off grass now, whatever its hours say, and ring the vet at once' "both misspelt"
says 'If this is grey-pony: off grass now, whatever its hours say, and ring the vet at once' "each counts for the other"
several '2025-04-19,,grey-pony,foot-signs,hot-feet,,' '2025-04-20,,old-mare,foot-signs,hot-feet,,'
says 'Whichever animal it is: off grass now, whatever its hours say, and ring the vet at once' "an id like none may be another animal"
says 'Ring the vet at once. (Signs in more than one group.)' "for the known one, too"
several '2025-04-19,,grey-pony,foot-signs,hot-feet,,' '2025-04-20,,grey-pny,foot-signs,hot-feet,,'
says 'If this is grey-pony: off grass now, whatever its hours say, and ring the vet today' "the same group misspelt is no other"
says 'Ring the vet today.' "by its own id, too"
several '2025-04-19,,grey-pny,foot-signs,hot-feet,,' '2025-04-20,,gry-pony,foot-signs,hot-feet,,'
says 'If this is grey-pony: off grass now, whatever its hours say, and ring the vet today; then mend line 2.' "nor is it misspelt twice"
several '2025-04-19,,grey-pony,foot-signs,hot-feet,,' '2025-04-20,,donkie,vet,called,,'
says 'Ring the vet today.' "a call to the vet is no sign"
several '2025-04-20,,old-mare,foot-signs,hot-feet,,'
says 'ring the vet today' "one alone is one"

# The same as it is written down.
record() { # GROUP: what is said to hot feet of it
    run record --holding "$farm/holding.json" foot-signs "$1" hot-feet
}
diary '2025-04-19,,grey-pony,foot-signs,hot-feet,,'
export SOURCE_DATE_EPOCH=1745391600 # 23 April 2025, 08:00 in London
record donkey
contains "$out" 'Ring the vet at once. (Signs in more than one group.) From now on the advice for donkey is none' "record looks at the other groups"
diary '2025-04-19,,grey-pny,foot-signs,hot-feet,,'
record donkey
contains "$out" 'Ring the vet at once. (Signs in more than one group.)' "and at ids that the holding does not have"
diary '2025-04-19,,grey-pony,foot-signs,hot-feet,,' '2025-04-20,,donkey,foot-signs,hot-feet,,' '2025-04-22,,grey-pony,vet,cleared,,'
record donkey
contains "$out" 'Ring the vet today. From now on' "but not at its own, nor at those that are over"
rm "$farm/diary.csv"
record donkey
contains "$out" 'Ring the vet today. From now on' "without a diary there are none"
diary 'not a date,,grey-pony,foot-signs,hot-feet,,'
record donkey
exits 0 "a diary with a bad line keeps no sign back"
contains "$out" 'Ring the vet today. At once, if another group has signs too: the diary has a line that cannot be read' "but says that nobody knows of the others"
unset SOURCE_DATE_EPOCH

# A ration and a calendar are no place to overlook them.
diary '2025-04-20,,grey-pny,foot-signs,hot-feet,,'
run ration --holding "$farm/holding.json" --date 2025-04-21 --exit-status
exits 13 "the ration ends with the status"
check "and heads its text with why" sh -c 'sed -n 2p "$1" | grep -q "^Foot signs (hot-feet, 2025-04-20) written down in line 2"' - "$out"
run ration --holding "$farm/holding.json" --date 2025-04-21 --json
contains "$out" '"alarms":["Foot signs (hot-feet, 2025-04-20)' "JSON has it under the key of today"
today 2025-04-21 --no-log --calendar "$scratch/a.ics"
check "each day of the calendar begins with it" python3 - "$scratch/a.ics" <<'P'
import sys
text = open(sys.argv[1], encoding="utf-8", newline="").read().replace("\r\n ", "")
told = [line for line in text.split("\r\n") if line.startswith("DESCRIPTION:")]
assert told and all(x.startswith("DESCRIPTION:Foot signs (hot-feet\\, 2025-04-20) written down in line 2") for x in told), told
assert all("\\nPaddock: " in x for x in told), told
P
diary '2025-04-20,,grey-pony,weight,285,kg,'
run ration --holding "$farm/holding.json" --date 2025-04-21 --json
contains "$out" '"alarms":[]' "none when all is well"

# The round: its exit status without any weather, the day of each holding, and ids of any length.
mkdir "$scratch/dry"
sed 's/"weather": *\[[^]]*\]/"weather": []/' data/demo/holding.json >"$scratch/dry/holding.json"
for row in grey-pony,foot-signs,hot-feet grey-pony,foot-signs,will-not-move grey-pny,foot-signs,hot-feet; do
    printf 'date,time,subject,what,value,unit,note\n2025-04-20,,%s,,\n' "$row" >"$scratch/dry/diary.csv"
    run round "$scratch/dry" --date 2025-04-21 --exit-status
    exits 13 "without weather the round ends with 13 for $row"
done
printf 'date,time,subject,what,value,unit,note\n2025-04-20,,grey-pony,vet,cleared,,\n' >"$scratch/dry/diary.csv"
run round "$scratch/dry" --date 2025-04-21 --exit-status
exits 0 "and with 0 where nothing is known"
sed 's/equid-laminitis-history/equid-acute/' "$scratch/dry/holding.json" >"$scratch/acute.json"
run round "$scratch/acute.json" --date 2025-04-21 --exit-status
exits 13 "but for an acute case, which is off grass in any weather"
diary '2025-04-24,07:00,grey-pony,foot-signs,will-not-move,,'
sed 's|Europe/London|Pacific/Auckland|' data/demo/holding.json >"$farm/holding.json"
export SOURCE_DATE_EPOCH=1745436600 # 23 April 2025, 19:30 UTC: 24 April, 07:30 in Auckland
TZ=UTC run round "$farm" --csv
matches "$out" ',now,[^,]*,signs-at-once.*grey-pony: a vet is needed at once' "a holding where it is tomorrow already"
unset SOURCE_DATE_EPOCH
other=the-three-elderly-companions-of-the-lower-orchard-by-the-river
long=$(echo "$other" | sed 's/lower/upper/')
sed "s/\"grey-pony\"/\"$long\"/g; s/\"wethers\"/\"$other\"/g" data/demo/holding.json >"$farm/holding.json"
all=shifting-weight+kneeling+reluctant+hot-feet+tooth-grinding+leaning-back+lying-more+will-not-move+off-feed+bounding-pulse
diary "2025-04-19,,${long}s,foot-signs,$all,," "2025-04-20,,${long}s,foot-signs,hot-feet,,"
run round "$farm" --date 2025-04-21 --csv
matches "$out" 'If they are none of yours, take them out. The holding has milkers.* and more[.]",' "the round tells it to the end"
cp data/demo/holding.json "$farm"

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
diary '2025-05-23,,grey-poni,foot-signs,hot-feet,,'
run today --holding "$farm/holding.json" --no-log --exit-status
exits 13 "both slips at once: the exit status"
check "and the top of the screen" sh -c 'sed -n 2p "$1" | grep -q "^Foot signs (hot-feet, 2025-05-23) written down in line 2"' - "$out"
lacks "$out" 'passed over' "and no small note"
run today --holding "$farm/holding.json" --quiet
run today --holding "$farm/holding.json" --quiet
contains "$out" 'Foot signs (hot-feet, 2025-05-23)' "a quiet run tells it each time"
run round "$farm" --csv
matches "$out" ',signs-lost,' "and the round knows of it"
diary '2025-04-20,,grey-poni,foot-signs,hot-feet,,' '2025-05-23,,grey-poni,foot-signs,none,,'
run today --holding "$farm/holding.json" --no-log
contains "$out" 'Foot signs (hot-feet, 2025-04-20)' "an end that is still to come ends nothing"
diary '2025-05-23,,grey-poni,foot-signs,hot-feet,,' '2025-04-20,,donkey,foot-signs,hot-feet,,' '2025-05-20,,wethers,foot-signs,hot-feet,,'
run today --holding "$farm/holding.json" --no-log
says 'for 2025-05-20, a day to come: until then nothing reckons with them. If they were seen already: off grass now, whatever its hours say, and ring the vet at once' "several, of whatever day"
today 2025-04-22 --no-log
lacks "$out" 'a day to come' "a past morning goes by what was written then"
diary '2026-04-20,,grey-pony,foot-signs,hot-feet,,' '2026-04-20,,a1,foot-signs,hot-feet,,' '2025-04-22,,a2,foot-signs,hot-feet,,' \
    '2025-04-22,,a3,foot-signs,hot-feet,,' '2025-04-22,,a4,foot-signs,hot-feet,,'
run today --holding "$farm/holding.json" --no-log
says 'Line 2: grey-pony (hot-feet, 2026-04-20, a day to come): if seen already, off grass, ring the vet at once.' "below three others in a line"
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
