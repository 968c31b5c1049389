#!/bin/sh
# For every day: today --quiet, weather --quiet, and --exit-status.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
cp data/demo/holding.json data/demo/weather.csv "$scratch"
log=$scratch/advice-log.csv
names='date,animal,turnout,hours,from,to,version,models,weather,muzzle,foot_signs,frost,warning,told,written'
morning() { # DATE ARGUMENT...
    run today --holding "$scratch/holding.json" --date "$@"
}
quiet() { # DATE ARGUMENT...
    morning "$@" --quiet
}
silent() { # NAME
    exits 0 "$1"
    empty "$out" "$1: nothing is printed"
    empty "$err" "$1: nor on standard error"
}

morning 2025-04-22 --short --no-log
exits 0 "--short"
contains "$out" 'BRIEF: 1 h on grass' "the list to act on"
lacks "$out" 'Why, for' "and no reasons"
contains "$out" 'needs a vet today' "but what a vet must see"
morning 2025-04-22 --short --no-log --json
contains "$out" '"schema"' "JSON is whole with it, too"
quiet 2025-04-21
exits 0 "the first run"
says 'grey-pony: now brief, 1 h from 06:10, with a muzzle; nothing was told of it before.' \
    "tells all as new, how it stands and that it is new"
check "what changed comes first" test "$(head -1 "$out")" = Changed:
contains "$out" 'BRIEF: 1 h on grass' "then the list to act on"
lacks "$out" 'Why, for' "without the reasons"
contains "$out" 'needs a vet today' "and with what a vet must see"
check "the names of the log" test "$(head -1 "$log")" = "$names"
quiet 2025-04-21
silent "the same morning again"
check "is logged all the same, as not told" test "$(grep -c ',0,20[0-9-]*$' "$log")" -eq 4
quiet 2025-04-22
silent "the next morning, the same advice"
quiet 2025-04-22 --json
silent "for machines, too"
quiet 2025-04-22 --exit-status
exits 12 "silent, and the strictest turnout is told all the same"
empty "$out" "in silence"
cp "$log" "$scratch/kept.csv"
quiet 2025-04-22 --no-log
same "$log" "$scratch/kept.csv" "--no-log leaves the log as it is"

# What nobody could read was not told: the log waits for standard output.
if [ -w /dev/full ]; then
    rm "$log"
    "$PROGRAM" today --holding "$scratch/holding.json" --date 2025-04-23 --quiet >/dev/full 2>"$err"
    code=$?
    exits 74 "a full disk behind standard output"
    "$PROGRAM" today --holding "$scratch/holding.json" --date 2025-04-23 --quiet --calendar "$scratch/none/g.ics" >/dev/full 2>"$err"
    check "no file beside it is blamed for that" test "$(cat "$err")" = \
        'sugarlea: the answer could not be written to standard output'
    quiet 2025-04-23
    says 'grey-pony: now brief, 1 h' "and the change is told the next time"
    cp "$scratch/kept.csv" "$log"
else
    skip "a full disk behind standard output" "no /dev/full"
fi

# Later mornings do not count for earlier ones.
quiet 2025-04-20
says 'milkers: now timed, 8 h 30 min from 06:10; nothing was told of it before.' \
    "an earlier morning knows nothing of later ones"

# What makes a change: the log is written by hand, as of 22 April, and read on the 23rd.
logged() { # LINE of grey-pony, the others as they are
    {
        echo "$names"
        echo '2025-04-22,milkers,timed,7.5,06:10,13:40,0.1.0,-,recorded,0,,air,,1'
        echo '2025-04-22,wethers,brief,1,06:10,07:10,0.1.0,-,recorded,0,,air,,1'
        echo '2025-04-22,donkey,timed,12,06:10,18:10,0.1.0,-,recorded,1,,air,,1'
        echo "$1"
    } >"$log"
    quiet 2025-04-23
}
changed() { # LINE TEXT NAME
    logged "$1"
    says "$2" "$3"
}
logged '2025-04-22,grey-pony,brief,1,06:10,07:10,0.1.0,-,recorded,1,,air,,1'
silent "the same by hand"
logged '2025-04-22,grey-pony,brief,1,06:30,07:30,0.1.0,-,recorded,1,,air,,1'
silent "twenty minutes later"
changed '2025-04-22,grey-pony,brief,1,06:40,07:40,0.1.0,-,recorded,1,,air,,1' \
    'last told, on Tue 22 Apr: brief, 1 h from 06:40, with a muzzle.' "half an hour later"
check "the others are not named in it" test "$(grep -c ': now ' "$out")" -eq 1
changed '2025-04-22,grey-pony,brief,0.5,06:10,06:40,0.1.0,-,recorded,1,,air,,1' 'brief, 30 min from' "hours"
changed '2025-04-22,grey-pony,none,0,,,0.1.0,-,recorded,0,,air,,1' 'Tue 22 Apr: none.' "turnout"
changed '2025-04-22,grey-pony,brief,1,06:10,07:10,0.1.0,-,recorded,0,,air,,1' \
    'now brief, 1 h from 06:10, with a muzzle; last told, on Tue 22 Apr: brief, 1 h from 06:10.' "muzzle"
changed '2025-04-22,grey-pony,brief,1,06:10,07:10,0.1.0,-,recorded,1,hot-feet,air,,1' 'foot signs: hot-feet' \
    "foot signs that are over"
changed '2025-04-22,grey-pony,brief,1,06:10,07:10,0.1.0,-,recorded,1,,,,1' 'Frost: let the grass thaw' \
    "a frost after a morning without"
changed '2025-04-22,grey-pony,brief,1,06:10,07:10,0.1.0,-,recorded,1,,ground,,1' 'Frost: let the grass thaw' \
    "a frost of the air after one of the ground"
lacks "$out" ': now ' "and nothing else"
# What drifts is held against what was last told, not against yesterday.
changed '2025-04-20,grey-pony,brief,1,06:50,07:50,0.1.0,-,recorded,1,,air,,1
2025-04-22,grey-pony,brief,1,06:30,07:30,0.1.0,-,recorded,1,,air,,0' 'on Sun 20 Apr: brief, 1 h from 06:50' "a drift"
# A line from before the log knew of muzzles.
changed '2025-04-22,grey-pony,brief,1,06:10,07:10,0.1.0,-,recorded' 'grey-pony: now' "a line of an older log"
# Lines that are none are passed over; the good one among them counts.
long=$(awk 'BEGIN { for (i = 0; i < 5000; i++) printf "x" }')
logged "2025-04-22,grey-pony,brief,1,06:10,07:10,0.1.0,-,recorded,1,,air,,1
2025-04-23,grey-pony
2025-02-30,grey-pony,none,0,,,0.1.0,-,recorded,0,,air,,1
2025-04-23,grey-pony,nonsense,0,,,0.1.0,-,recorded,0,,air,,1
2025-04-23,grey-pony,none,nan,,,0.1.0,-,recorded,0,,air,,1
2025-04-23,grey-pony,none,0,6:00,,0.1.0,-,recorded,0,,air,,1
2025-04-23,grey-pony,none,0,24:00,,0.1.0,-,recorded,0,,air,,1
2025-04-23,grey-pony,none,0,,,0.1.0,-,recorded,yes,,air,,1
2025-04-23,grey-pony,none,0,,,0.1.0,-,recorded,0,,snow,,1
2025-04-23,grey-pony,none,0,,,0.1.0,-,recorded,0,,air,old,1
2025-04-23,grey-pony,none,0,,,0.1.0,-,recorded,0,,air,,1,more
2025-04-23,grey-pony,none,0,,,0.1.0,-,recorded,0,,air,,1,2025-04-23,more
2025-04-23;grey-pony;none;0;;;0.1.0;-;recorded;0;;air;;1
$long,grey-pony
$(printf '\377\376\001')
,,,,,,,,,,,,,
2025-04-23,somebody-else,none,0,,,0.1.0,-,recorded,0,,air,,1
2025-04-24,grey-pony,none,0,,,0.1.0,-,recorded,0,,air,,1"
silent "bad lines, foreign ones, and one of tomorrow"
tr '\n' '\r' <"$scratch/kept.csv" | sed 's/\r/\r\n/g' >"$log"
quiet 2025-04-22
silent "a log saved with the line ends of another system"
printf '' >"$log"
quiet 2025-04-23
contains "$out" 'nothing was told of it before' "an empty log"
rm "$log" && mkdir "$log"
quiet 2025-04-23
refused 66 'advice-log.csv' "a log that cannot be read"
rmdir "$log"

# Foot signs, and an animal that is new.
quiet 2025-04-23
run record --holding "$scratch/holding.json" --date 2025-04-23 --at 05:00 foot-signs grey-pony hot-feet shifting-weight
quiet 2025-04-23
says 'grey-pony: now none, foot signs: shifting-weight, hot-feet; last told, on Wed 23 Apr: brief' \
    "foot signs"
matches "$out" '^  NONE: ' "and what to do"
quiet 2025-04-23
silent "the same foot signs again"
rm "$scratch/diary.csv" "$log"

# The weather grows old: told when it becomes provisional, and when it is too old.
quiet 2025-04-22
quiet 2025-04-26
lacks "$out" 'provisional' "three days old"
quiet 2025-04-27
says 'The weather is now provisional: the last recorded day lies 5 days before this morning.' "provisional"
quiet 2025-04-28
lacks "$out" 'The weather is now' "said once"
quiet 2025-05-03
refused 66 '--allow-stale' "an error is told, however quiet"
quiet 2025-05-03 --allow-stale
contains "$out" 'The weather is now stale: ' "too old, and insisted"

run today --weather "$scratch/weather.csv" --latitude 52 --animal pony --date 2025-04-23 -q
refused 64 'holding file with animals' "without a holding nothing is known of yesterday"
run_in "$scratch" season -q
refused 64 '-q' "a command that is never quiet"

# weather --quiet
run weather --holding "$scratch/holding.json" --date 2025-04-23 --quiet
silent "weather that is all there"
awk -F, '$1 < "2025-03-20" || $1 > "2025-04-10"' data/demo/weather.csv >"$scratch/weather.csv"
run weather --holding "$scratch/holding.json" --date 2025-04-23 -q
contains "$out" 'No advice until this is mended: ' "weather with a gap"
check "and nothing else" test "$(grep -c 'Recorded to' "$out")" -eq 0
cp data/demo/weather.csv "$scratch"

# --exit-status: the most restrictive turnout of all groups, this morning's.
status() { # CODE NAME ARGUMENT...: with the De Bilt record
    expected=$1
    name=$2
    shift 2
    for command in today ration; do
        run $command --weather data/real/de_bilt_2005-2019.csv --latitude 52.1 --longitude 5.18 --no-log \
            --exit-status "$@"
        exits "$expected" "$command: $name"
    done
}
status 10 free --animal horse --date 2018-01-15
status 11 timed --animal goat-dry --date 2018-04-10
status 12 brief --animal equid-at-risk --date 2018-05-06
status 13 none --animal equid-acute --date 2018-01-15
status 64 "an error comes before any turnout" --animal equid-acute --date 2018-13-15
status 66 "and so does missing weather" --animal equid-acute --date 2021-01-15
morning 2025-04-23 --no-log --exit-status
exits 12 "the strictest of four groups"
run ration --holding "$scratch/holding.json" --date 2025-04-23 --exit-status
exits 12 "of the ration, too"
morning 2025-04-23 --no-log
exits 0 "not asked for, not told"
mkdir "$scratch/closed" && cp "$scratch/holding.json" "$scratch/weather.csv" "$scratch/closed" &&
    mkdir "$scratch/closed/advice-log.csv"
run today --holding "$scratch/closed/holding.json" --date 2025-04-23 --exit-status
check "a log that cannot be written comes before the turnout" test "$code" -eq 73 -o "$code" -eq 74
contains "$out" 'grey-pony' "and the advice is printed all the same"
run today --weather data/real/de_bilt_2005-2019.csv --latitude 52.1 --longitude 5.18 --date 2018-01-15 --exit-status
exits 0 "without an animal there is no turnout"
for command in today ration; do
    run help $command
    contains "$out" '10 free, 11 timed, 12 brief, 13 none' "help $command names the codes"
done
finish
