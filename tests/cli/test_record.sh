#!/bin/sh
# record: what it writes, what it refuses, and that nothing is lost or doubled when it is
# killed, when two write at once, when the disk is full. SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
SOURCE_DATE_EPOCH=1745474400 # 24 April 2025, 06:00 UTC: 07:00 in London
export SOURCE_DATE_EPOCH
cp data/demo/holding.json "$scratch/holding.json"
diary=$scratch/diary.csv
record() {
    run record --holding "$scratch/holding.json" "$@"
}

record foot-signs grey-pony shifting-weight hot-feet --note 'both "fore" feet, =worse'
exits 0 "signs are written"
contains "$diary" '2025-04-24,07:00,grey-pony,foot-signs,shifting-weight+hot-feet,,"both ""fore"" feet, =worse"' "as one row"
contains "$out" 'Ring the vet today.' "and what it means is said"
contains "$out" 'From now on the advice for grey-pony is none' "from when on"
record foot-signs donkey off-feed
contains "$out" 'Ring the vet at once.' "a donkey off its feed is urgent"
cp data/demo/weather.csv "$scratch"
run today --holding "$scratch/holding.json" --no-log --date 2025-04-24
check "only what is of the feet asks which" \
    test "$(tr -s ' \n' ' ' <"$out" | grep -o 'hot-feet; note: [^.]*\. Say which feet\|off-feed\. [A-Z][a-z]*' | tr '\n' '|')" = \
    "hot-feet; note: both \"fore\" feet, =worse. Say which feet|off-feed. Grass|"
record foot-signs grey-pony bounding-pulse --at 07:00
exits 0 "a time of just now, and the pulse that the look-over asks for"
contains "$diary" ',grey-pony,foot-signs,bounding-pulse,' "as its own word"
record --undo
record grass-nsc pump-field 18.2 % --at 6:40 --date 2025-04-23 --note "lab Invented"
contains "$diary" '2025-04-23,06:40,pump-field,grass-nsc,18.2,%,lab Invented' "a test of the day before"
contains "$out" 'sugarlea tune' "what it is for"
record weight wethers 156lb --date 2025-04-24
contains "$diary" '2025-04-24,07:00,wethers' "of today, now is meant"
record weight wethers 156lb
contains "$diary" ',wethers,weight,156,lb,' "a unit right behind the number"
record condition donkey 6/9
contains "$diary" ',donkey,condition,6,/9,' "condition of nine"
record rested old-bank
exits 0 "a kind without a value"
check "the names stand once, on top" test "$(grep -c '^date,time' "$diary")" -eq 1
record --undo
contains "$out" 'Taken back from' "undo says"
contains "$out" ',old-bank,rested,' "what it took"
lacks "$diary" 'rested' "and it is gone"
contains "$diary" ',6,/9,' "the line before stays"

cp "$diary" "$scratch/before.csv"
record grass-ncs pump-field 18.2 %
refused 64 'did you mean "grass-nsc"' "a mistyped kind"
record grass-nsc pump-feld 18.2 %
refused 64 'did you mean "pump-field"' "a mistyped paddock"
record weight old-bank 62
refused 64 'milkers, wethers' "a paddock where a group belongs: all are named"
record grass-nsc pump-field 0.18 g/kg
refused 64 'from 30 to 600 g/kg' "a value out of range"
record hay-test grass-hay-mature 0.92 %
refused 64 'hay-test goes from 1 to 60 %' "a hay without sugar"
record hay-test grass-hay-mature 1 %
refused 64 'no hay has been found with so little: 3 to 50 %' "less sugar than any hay holds"
record hay-test grass-hay-mature 55 %
refused 64 'no hay has been found with so much: 3 to 50 %' "and more"
record grass-nsc pump-field 18,2 %
refused 64 'is not a number' "a decimal comma"
record grass-nsc pump-field
refused 64 'is missing' "no value"
record
refused 64 'WHAT SUBJECT VALUE' "nothing at all"
record weight wethers 70 --at 25:00
refused 64 '--at' "no time of the day"
record weight wethers 70 --date 2025-04-25
refused 64 'lies ahead' "tomorrow"
record foot-signs grey-pony hot-feet --at 07:01
refused 64 '07:01 today lies ahead: by the holding'"'"'s clock it is 07:00' "a time that is still to come: nothing written until then could end it"
record foot-signs grey-pony hot-feet --at 23:59 --date 2025-04-24
refused 64 '--at' "the same with today named"

# In the night in which the clock goes back, the hour is that of now, not that of noon.
if [ -e /usr/share/zoneinfo/Europe/London ]; then
    SOURCE_DATE_EPOCH=1761435000 record foot-signs grey-pony none # 25 October 2025, 23:30 UTC
    contains "$diary" '2025-10-26,00:30,grey-pony,foot-signs,none' "half past midnight of the 26th in London, summer time still"
    record --undo
    SOURCE_DATE_EPOCH=1761442200 record foot-signs grey-pony hot-feet # 26 October, 01:30 UTC
    contains "$diary" '2025-10-26,01:30,grey-pony,foot-signs,hot-feet' "two hours on, after the change: what came later stands later"
    record --undo
    SOURCE_DATE_EPOCH=1761442200 record foot-signs grey-pony hot-feet --at 01:50
    exits 0 "40 minutes before that, in summer time"
    record --undo
    SOURCE_DATE_EPOCH=1761442200 record foot-signs grey-pony hot-feet --at 02:00
    refused 64 '02:00 today lies ahead' "half an hour after it"
    SOURCE_DATE_EPOCH=1761438600 record foot-signs grey-pony hot-feet --at 01:50
    refused 64 '01:50 today lies ahead' "before the change nothing later was"
else
    skip "the night of the change" "no time-zone tables here"
fi
record grazed pump-field soon
refused 64 'behind grazed comes one, or nothing (animals are on it from that day; the height it is kept at)' "a word for a height"
record foot-signs wethers limping
refused 64 'shifting-weight' "no word of ours: all are named"
record --undo weight
refused 64 '--undo' "undo takes no words"
run record weight wethers 70 --holding "$scratch/none.json"
refused 66 'none.json' "no holding"
run_in "$scratch" record weight wethers 70
exits 0 "beside the holding no option is needed"
record --undo
same "$diary" "$scratch/before.csv" "what is refused leaves the diary as it was"
run today somewhere
refused 64 'is not understood here' "other commands take no words"

# hostile notes
for note in "$(printf 'a\nb')" '"' '=cmd|x' '+1' '-1' '@x' "$(printf '\033[31mred')" ',,,,;;;' "$(printf '\377')"; do
    rm -f "$diary"
    record rested old-bank --note="$note"
    check "a hostile note is one line" test "$(wc -l <"$diary")" -eq 2
    check "that no spreadsheet takes for a formula" sh -c "! grep -qE ',\"?[=+@-]' '$diary'"
    record cut old-bank 5
    run record --holding "$scratch/holding.json" --undo
    run record --holding "$scratch/holding.json" --undo
    exits 0 "and is read back"
done
record --undo
refused 66 'nothing to take back' "undo on an empty diary"
rm -f "$diary"
record --undo
refused 66 'nothing to take back' "undo without a diary"

# as a spreadsheet saved it
printf '\357\273\277date;time;subject;what;value;unit;note\r\n2025-04-23;;wethers;weight;70,5;kg;"a\r\nb"' >"$diary"
record weight wethers 71
exits 0 "a diary with semicolons goes on with semicolons"
contains "$diary" '2025-04-24;07:00;wethers;weight;71;kg;' "on a line of its own"
record --undo
record --undo
contains "$out" '70,5' "undo takes the whole of a note on two lines"
check "and leaves the names" test "$(grep -c . "$diary")" -eq 1
printf 'date,time,subject,what,value,unit,note\n2025-04-23,,wethers,weight,70,kg,\n2025-04-23,,weth' >"$diary"
record --undo
exits 0 "a row cut short is taken back like any other"
contains "$diary" ',70,kg,' "and no more than that"
printf 'date,time,subject,what,value,unit,note\n2025-04-23,,wethers,weight,"70,kg,\n2025-04-24,,wethers,weight,70,kg,\n' >"$diary"
cp "$diary" "$scratch/before.csv"
record --undo
refused 65 'never closed' "an open quote that swallows rows is not taken for the last one"
same "$diary" "$scratch/before.csv" "and nothing is lost"

# killed at any moment: every row whole, those that were said to be written all there
rm -f "$diary"
(
    i=0
    while [ $i -lt 400 ]; do
        i=$((i + 1))
        "$PROGRAM" record weight wethers $((50 + i % 50)) --note "n$i" --holding "$scratch/holding.json" \
            >/dev/null 2>&1 &
        child=$!
        [ $((i % 3)) -eq 0 ] && kill -9 $child 2>/dev/null
        wait $child 2>/dev/null && echo "n$i" >>"$scratch/said"
        [ -e "$scratch/stop" ] && break
    done
) 2>/dev/null &
loop=$!
sleep 4
: >"$scratch/stop"
wait $loop
check "rows were said to be written" test -s "$scratch/said"
check "every row is whole" sh -c "! grep -vqE '^(date|2025-04-24,07:00,wethers,weight,[0-9]+,kg,n[0-9]+\$)' '$diary'"
check "none that was said to be is lost" sh -c "cut -d, -f7 '$diary' | grep -vxF -f - '$scratch/said' | wc -l | grep -qx 0"
check "and none is doubled" sh -c "cut -d, -f7 '$diary' | sort | uniq -d | wc -l | grep -qx 0"

# two writers, and one that takes back, at once
rm -f "$diary"
writer() {
    for i in 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19 20; do
        "$PROGRAM" record weight wethers 70 --note "$1$i" --holding "$scratch/holding.json" >/dev/null 2>&1 || echo "$1$i"
    done
}
writer a >"$scratch/a" & a=$!
writer b >"$scratch/b" & b=$!
wait $a $b
check "two writers: both wrote all" sh -c "! [ -s '$scratch/a' ] && ! [ -s '$scratch/b' ]"
check "nothing lost" test "$(grep -c ,weight, "$diary")" -eq 40
check "nothing doubled" test "$(cut -d, -f7 "$diary" | sort -u | wc -l)" -eq 41
taker() {
    for i in 1 2 3 4 5 6 7 8 9 10; do
        "$PROGRAM" record --undo --holding "$scratch/holding.json" 2>/dev/null | sed 's/.*,//'
    done
}
writer c >/dev/null & a=$!
taker >"$scratch/taken" & b=$!
wait $a $b
check "a writer and a taker: each row is in the diary or was said to be taken" \
    test "$(grep -c ,weight, "$diary")" -eq 50 -a "$(grep -c . "$scratch/taken")" -eq 10

# no room, no right
if unshare -m true 2>/dev/null; then
    mkdir "$scratch/small"
    unshare -m sh -s "$scratch" "$PROGRAM" >"$scratch/full" 2>&1 <<'S'
mount -t tmpfs -o size=32k none "$1/small" || exit 9
cp "$1/holding.json" "$1/small/"
"$2" record weight wethers 70 --holding "$1/small/holding.json" >/dev/null || exit 8
cp "$1/small/diary.csv" "$1/kept.csv"
dd if=/dev/zero of="$1/small/fill" bs=1k count=64 2>/dev/null
long=$(printf '%0400d' 7)
for i in 1 2 3 4 5 6 7 8 9 10 11 12; do
    "$2" record weight wethers 71 --note "$long" --holding "$1/small/holding.json" >/dev/null 2>"$1/why" || break
    cp "$1/small/diary.csv" "$1/kept.csv"
done
cat "$1/why"
cmp "$1/small/diary.csv" "$1/kept.csv" && echo whole
"$2" record --undo --holding "$1/small/holding.json"
echo "undo $?"
cmp "$1/small/diary.csv" "$1/kept.csv" && echo still whole
umount "$1/small"
mount -t tmpfs -o size=1m none "$1/small" && cp "$1/holding.json" "$1/small/" && mount -o remount,ro "$1/small"
"$2" record weight wethers 70 --holding "$1/small/holding.json"
echo "read-only $?"
S
    if [ $? -eq 9 ]; then
        skip "a full disk" "no file system may be mounted here"
    else
        contains "$scratch/full" 'No space left' "a full disk is said to be full"
        contains "$scratch/full" 'whole' "and the diary is as it was before"
        contains "$scratch/full" 'undo 7' "undo needs room, too, and says so"
        contains "$scratch/full" 'still whole' "without harm"
        contains "$scratch/full" 'read-only 73' "a folder that may not be written"
    fi
else
    skip "a full disk" "no file system may be mounted here"
fi

run help record
contains "$out" 'sward-height' "the help lists what may be written"
run help signs
exits 0 "the look-over of every morning"
contains "$out" '[ ]' "to tick off"
matches "$out" 'no bounding pulse at the fetlock +else: bounding-pulse$' "a bounding pulse has its word"
contains "$out" 'Ring the vet at once:' "and when to ring"
run record --help
exits 0 "record --help"


# A folder's name may hold what a terminal would obey.
odd=$scratch/$(printf 'odd\033[31m')
mkdir "$odd"
cp data/demo/holding.json data/demo/weather.csv "$odd"
run record weight wethers 70 --holding "$odd/holding.json"
exits 0 "a folder with an escape in its name"
lacks "$out" "$(printf '\033')" "the terminal is not told to obey it"
printf '%s\n' '2025-04-24,,pump-field,grass-nsc,18,%,"lab, cut at"6 cm"' >>"$odd/diary.csv"
run record --undo --holding "$odd/holding.json"
exits 0 "a line that the reader refuses can be taken back"
contains "$out" 'lab, cut at' "and is said"
lacks "$out" "$(printf '\033')" "by a name that is harmless"
lacks "$odd/diary.csv" 'lab, cut at' "it is gone"

# a weight counts from its morning on, a girth where the length is known, the newest of all
mkdir "$scratch/weighed"
sed 's/"weight_kg": 172/"girth_cm": 120, "length_cm": 115/' data/demo/holding.json >"$scratch/weighed/holding.json"
cp data/demo/weather.csv "$scratch/weighed"
weighed() { run_in "$scratch/weighed" "$@" --date 2025-04-23; }
note() { run_in "$scratch/weighed" record "$@"; }
note weight grey-pony 600 lb --date 2025-04-20
contains "$out" 'From that morning on it is the weight that all is reckoned with' "what a weight means is said"
note girth donkey 124 --date 2025-04-21
note weight grey-pony 290 --date 2025-04-24
weighed today --no-log
contains "$out" 'equid-laminitis-history, 272 kg (diary, 2025-04-20), on old-bank' "the morning goes by the newest weight"
contains "$out" '2025-04-21), on old-bank' "and by a girth"
lacks "$out" '290 kg' "and not by a later one"
run_in "$scratch/weighed" today --no-log --date 2025-04-19
contains "$out" 'equid-laminitis-history, 285 kg, on' "a morning before knows nothing of it"
weighed ration
contains "$out" '272 kg (diary, 2025-04-20)' "so does the ration"
contains "$out" 'by tape (girth 124 cm' "which tells of the new girth"
weighed ration --json
contains "$out" '"weight_kg":272.2,' "and in JSON the weight"
contains "$out" '"weighed":"2025-04-20"' "with its day"
weighed sheet --no-log -o -
contains "$out" '272 kg (diary, 2025-04-20)' "and the sheet"
cp "$scratch/weighed/diary.csv" "$scratch/before.csv"
note weight wethers 400 kg
refused 64 'one of the species (goat) weighs from 5 to 180 kg' "a goat of 400 kg"
check "and it is not written" cmp -s "$scratch/weighed/diary.csv" "$scratch/before.csv"

# a weight that no animal comes to between two weighings is taken, and asked about at once
note weight grey-pony 628
contains "$out" 'Until then grey-pony weighed 290 kg a head, and now 628 kg.' "2.2 times the weight in force"
contains "$out" 'If 628 lb was meant: "sugarlea record --undo", then "sugarlea record weight grey-pony 628 lb".' "and what to do about it"
contains "$scratch/weighed/diary.csv" ',grey-pony,weight,628,kg,' "it is written all the same"
note --undo
note weight grey-pony 463
lacks "$out" 'Is that right?' "1.597 times is no slip for sure"
note --undo
note weight grey-pony 465
contains "$out" 'If 465 lb was meant' "1.603 times may be one"
note --undo
note weight milkers 10 kg # 10 lb are 4.5 kg, under the 5 kg that any goat weighs
contains "$out" 'weighed 64 kg a head, and now 10 kg. If not: "sugarlea record --undo".' "no other unit is offered that would be refused"
note --undo
note weight grey-pony 129
contains "$out" 'now 129 kg. If not: "sugarlea record --undo"' "and so may a loss that no pounds explain"
note --undo
note weight grey-pony 628 --date 2025-04-19
contains "$out" 'weighed 285 kg a head' "a weight in force is that of the day before the entry"
note --undo
note girth donkey 95 --date 2025-04-23
matches "$out" 'Until then donkey weighed [0-9]+ kg a head, and now [0-9]+ kg' "a girth, too, makes a weight"
note --undo
printf 'nonsense\n' >>"$scratch/weighed/diary.csv"
note weight grey-pony 628
exits 0 "a diary that cannot be read stops no entry"
cp "$scratch/before.csv" "$scratch/weighed/diary.csv"

# hay: 285 kg x 1.5 % is what such a pony is given at most; twice that of 86 % dry matter is 9.9 kg
note hay-fed grey-pony 5000 kg --date 2025-04-19
contains "$out" '5000 kg is more than grey-pony (1 in all) can eat in a day, 10 kg at the very most' "a truckload of hay"
note hay-fed grey-pony 10.2 kg --date 2025-04-19
contains "$out" 'at the very most' "a little over"
note hay-fed grey-pony 9.7 kg --date 2025-04-19
lacks "$out" 'Is that right?' "a little under"
note hay-fed grey-pony 40 bales --date 2025-04-19
lacks "$out" 'Is that right?' "bales can be of any size"
finish
