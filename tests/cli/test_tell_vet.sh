#!/bin/sh
# What the vet is told while foot signs stand, or of an acute case: what was really advised, not what is reckoned
# anew. SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
farm=$scratch/farm
mkdir "$farm"
cp data/demo/holding.json data/demo/weather.csv "$farm"
head='date,time,subject,what,value,unit,note'
today() { # DATE ARGUMENT...
    run today --holding "$farm/holding.json" --date "$@"
}
day() { # DAY of April 2025: the program's clock stands at six of its morning in London from now on
    SOURCE_DATE_EPOCH=$((1743483600 + 86400 * ($1 - 1)))
    export SOURCE_DATE_EPOCH
}

# The advice of three mornings is logged; signs are written at 17:00 on the last of them. The first looks at what
# is to come, too.
day 18
today 2025-04-22
for date in 18 19 20; do
    day $date
    today 2025-04-$date
done
matches "$farm/advice-log.csv" '^2025-04-20,grey-pony,brief,1,.*,2025-04-20$' "an hour was advised, and on which day is logged"
printf '%s\n2025-04-20,17:00,grey-pony,foot-signs,hot-feet,,\n' "$head" >"$farm/diary.csv"
today 2025-04-21 --no-log
says 'Grass of the last days: 2025-04-20 1 h, muzzled; 2025-04-19 1 h, muzzled; 2025-04-18 1 h, muzzled; 2025-04-17 1 h, muzzled (reckoned);' \
    "an hour advised before the signs were seen is told, with its muzzle; what is not logged is marked; a look ahead hides nothing"
says 'Without a mark: as advised for that morning, by the log. (written): as noted. (reckoned): no advice of that morning is in the log; reckoned now.' \
    "with what the marks mean"

# A weight that is written later reckons the days anew; what was advised stays what it was. This one is so light
# that no grass would have been left.
printf '2025-04-10,,grey-pony,weight,150,kg,\n2025-04-16,,grey-pony,turnout,2.5,h,\n' >>"$farm/diary.csv"
cp "$farm/advice-log.csv" "$scratch/log"
today 2025-04-21 --no-log
says '2025-04-20 1 h, muzzled; 2025-04-19 1 h, muzzled; 2025-04-18 1 h, muzzled;' "the log counts before what is reckoned"
says '2025-04-16 2 h 30 min (written)' "and what was noted before both"
# A past morning looked at again is none of that morning's advice.
day 21
today 2025-04-17
matches "$farm/advice-log.csv" '^2025-04-17,grey-pony,brief,1,.*,2025-04-21$' "the day on which it was looked at is logged"
printf '2025-04-19,grey-pony,timed,9,06:00,15:00,0.1.0,-,recorded,0,,,,1,2025-04-20\n' >>"$farm/advice-log.csv"
today 2025-04-21 --no-log
says '2025-04-19 1 h, muzzled; 2025-04-18 1 h, muzzled; 2025-04-17 1 h, muzzled (reckoned);' "what was advised on a later day does not count"
cp "$scratch/log" "$farm/advice-log.csv"
# The same day twice: what was said first, and what was said last; lines of an older log have no day of their own.
printf '2025-04-20,grey-pony,none,0,,,0.1.0,-,recorded,0,hot-feet,,,1\n' >>"$farm/advice-log.csv"
printf '2025-04-21,grey-pony,timed,2,06:00,08:00,0.1.0,-,recorded,0,,,,1\n' >>"$farm/advice-log.csv"
today 2025-04-21 --no-log
says 'Grass of the last days: 2025-04-21 2 h; 2025-04-20 1 h, muzzled, later 0 h; 2025-04-19' \
    "of this morning, too, and when it was changed on the day"
run sheet --holding "$farm/holding.json" --date 2025-04-21 --no-log -o -
contains "$out" '2025-04-20 1 h, muzzled, later 0 h; 2025-04-19 1 h, muzzled;' "the sheet tells the same"
printf 'x\377,,\n2025-04-20,grey-pony\n' >>"$farm/advice-log.csv"
today 2025-04-21 --no-log
says '2025-04-20 1 h, muzzled, later 0 h;' "bad lines of the log are passed over"
rm "$farm/advice-log.csv" && mkdir "$farm/advice-log.csv"
today 2025-04-21 --no-log
exits 0 "a log that cannot be read keeps no advice back"
says 'advice-log.csv cannot be read: what was advised on the last days is reckoned now.' "and is said"
rmdir "$farm/advice-log.csv"
printf '%s\n2025-04-20,17:00,donkey,foot-signs,hot-feet,,\n' "$head" >"$farm/diary.csv"
today 2025-04-21 --no-log
says '2025-04-20 12 h, muzzled (reckoned);' "a muzzle is named where nothing is logged, too"

# The hay: the newest test, with its day.
says 'Hay: cool-season grass hay, mature, 9.2 % sugar and starch (analysed).' "the hay of the holding file"
printf '%s\n' '2025-04-18,,grass-hay-mature,hay-test,14,%,' '2025-04-19,,grass-hay-mature,hay-test,20,%,' >>"$farm/diary.csv"
today 2025-04-21 --no-log
says 'Hay: cool-season grass hay, mature, newest test 20.0 % sugar and starch on 2025-04-19 (diary); reckoned with: 9.2 % (analysed).' \
    "a newer test of the diary"

# An acute case heads the screen as foot signs do.
rm "$farm/diary.csv"
day 20
today 2025-04-20
sed 's/equid-laminitis-history/equid-acute/' data/demo/holding.json >"$farm/holding.json"
for form in '' --short; do
    # shellcheck disable=SC2086 # no word, or one
    today 2025-04-21 --no-log $form
    check "it comes first $form" test "$(grep '^[a-z-]*: [0-9]* x' "$out" | head -1 | sed 's/:.*//')" = grey-pony
    says 'Ring the vet today. Do now: Off grass now.' "the vet, and off grass $form"
    says 'A deep, soft bed.' "bedding $form"
    says 'Tell: Kept as an acute case; no foot signs stand in the diary. Say since when, and which feet.' "what to tell $form"
    says 'Grass of the last days: 2025-04-20 1 h, muzzled.' "what it had before, by the log alone $form"
done
today 2025-04-21 --no-log --json
check "JSON: no signs, and what to do" python3 - "$out" <<'P'
import json, sys
a = {x["id"]: x for x in json.load(open(sys.argv[1]))["animals"]}
p = a["grey-pony"]
assert p["signs"] is None and p["acute"]["vet"] == "today", p
assert len(p["acute"]["until_then"]) == 6 and p["acute"]["tell_the_vet"] and "words" not in p["acute"], p["acute"]
assert a["donkey"]["acute"] is None
P
run sheet --holding "$farm/holding.json" --date 2025-04-21 --no-log -o -
contains "$out" '<h2 id="signs">The acute case comes first</h2>' "the sheet begins with it"
contains "$out" '<bdi>grey-pony</bdi>: Ring the vet today.' "and the vet"
run today --weather data/demo/weather.csv --latitude 52.3 --animal equid-acute --date 2025-04-21
says 'Ring the vet today.' "without a holding file, too"
says 'Grass of the last days: unknown.' "of which nothing is known"
finish
