#!/bin/sh
# sugarlea round: whom to ring first among many holdings, and that no holding, however
# broken, costs another its place. Holdings are copies of the invented demo.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
clients=$scratch/clients
morning=2025-04-23

holding() { # FOLDER NAME: a copy of the demo below the clients
    mkdir -p "$clients/$1"
    cp data/demo/weather.csv "$clients/$1/"
    sed "s/Larkhanger (invented)/$2/" data/demo/holding.json >"$clients/$1/holding.json"
}
change() { # FOLDER SED-SCRIPT: of its holding file
    sed "$2" "$clients/$1/holding.json" >"$scratch/changed" && mv "$scratch/changed" "$clients/$1/holding.json"
}
diary() { # FOLDER LINE...
    at=$clients/$1/diary.csv
    shift
    echo 'date,time,subject,what,value,unit,note' >"$at"
    printf '%s\n' "$@" >>"$at"
}
round() {
    run round "$clients" --date "$morning" --seconds 20 "$@"
}
place_of() { # PATTERN: the row of the CSV in $out that it is on, the header not counted
    sed 1d "$out" | grep -nE -- "$1" | head -1 | cut -d: -f1
}

# Nothing there, or nothing asked.
mkdir -p "$clients"
round
refused 66 'no holding.json is there' "an empty folder"
run round "$scratch/nowhere"
refused 66 'nowhere' "a folder that is not there"
run round
refused 64 'needs the folder' "no folder named"
: >"$scratch/list"
run round "$clients" --list "$scratch/list"
refused 64 '--list' "a folder and a list"
run round --list "$scratch/list"
refused 66 'no holding.json' "an empty list"
run round "$clients" --jobs 0
refused 64 'jobs' "no jobs"

# One holding.
holding quiet 'Quiet Acre'
round
exits 0 "one holding"
contains "$out" '1 holding: 1 with nothing new.' "is counted"
matches "$out" '^ +1  Quiet Acre: wethers brief, 1 h' "and its strictest turnout is said"
run round "$clients/quiet/holding.json" --date "$morning" --csv
matches "$out" '^0,,Quiet Acre,.*/quiet/holding.json,nothing-new,brief,,,$' "the file itself may be named"
run round "$clients" --date "$morning" --exit-status
exits 12 "--exit-status tells the strictest turnout"

# A mixed set.
holding sore 'Sore Lane'
diary sore '2025-04-20,07:00,grey-pony,foot-signs,hot-feet,,' '2025-04-21,,grey-pony,vet,visited,,'
holding stuck 'Stuck Gate'
diary stuck '2025-04-22,07:00,donkey,foot-signs,off-feed,,'
holding two 'Two Sore'
diary two '2025-04-22,07:00,donkey,foot-signs,hot-feet,,' '2025-04-23,05:00,wethers,foot-signs,kneeling,,'
holding healed 'Healed'
diary healed '2025-04-02,07:00,donkey,foot-signs,off-feed,,' '2025-04-09,07:00,donkey,foot-signs,none,,' \
    '2025-04-10,,donkey,vet,cleared,,'
holding later 'Later'
diary later '2025-04-24,07:00,donkey,foot-signs,off-feed,,'
holding rick 'Short Rick'
change rick 's/"bales": 95/"bales": 8/; s/"bales": 40/"bales": 0/'
holding low 'Low Rick'
change low 's/"bales": 95/"bales": 33/; s/"bales": 40/"bales": 0/'
holding empty 'Empty Rick'
change empty 's/"bales": [0-9]*/"bales": 0/'
holding stale 'Old Glass'
awk -F, '$1 < "2025-03-24" || NR == 1' data/demo/weather.csv >"$clients/stale/weather.csv"
holding days 'Older Glass'
awk -F, '$1 < "2025-04-18" || NR == 1' data/demo/weather.csv >"$clients/days/weather.csv"
holding glass 'No Glass'
rm "$clients/glass/weather.csv"
diary glass '2025-04-22,07:00,grey-pony,foot-signs,hot-feet,,'
holding none 'None Named'
change none 's/"weather": .*/"weather": [],/'
holding broken 'Broken'
change broken 's/"site"/"sight"/'
holding cut 'Cut Off'
head -c 700 data/demo/holding.json >"$clients/cut/holding.json"
holding misread 'Bad Diary'
diary misread '2025-04-22,07:00,donkey,foot-sings,off-feed,,'
holding wrong 'Wrong Weather'
echo 'no weather at all' >"$clients/wrong/weather.csv"
holding acute 'Acute'
change acute 's/equid-laminitis-history/equid-acute/'
ln -s .. "$clients/quiet/loop"
ln -s "$clients" "$clients/again"
mkdir -p "$clients/.old"
cp "$clients/quiet/holding.json" "$clients/quiet/weather.csv" "$clients/.old/"
find "$clients" -type f -exec cksum {} + >"$scratch/before"

round --csv
exits 0 "a mixed set, errors and all"
cp "$out" "$scratch/all.csv"
check "each holding once, links and hidden folders not" test "$(sed 1d "$out" | wc -l)" -eq 18
matches "$out" '^[0-9]+,,Stuck Gate,[^,]*,now,none,signs-at-once,' "a donkey that does not eat: now"
matches "$out" ',Two Sore,[^,]*,now,none,signs-at-once,' "signs in two groups: now, the entry of this morning known"
matches "$out" ',Sore Lane,[^,]*,today,none,signs-today,.*a vet came on 21 April 2025' "signs: today, and the vet's visit"
matches "$out" ',No Glass,[^,]*,today,,signs-today[+]weather-missing,' "signs are found without any weather"
matches "$out" ',2025-04-2[0-9],Short Rick,[^,]*,today,brief,hay-out,.*by table values' "hay that ends this week"
matches "$out" ',2025-04-23,Empty Rick,[^,]*,today,brief,hay-out,"?there is no hay in store' "no hay at all"
matches "$out" ',Low Rick,[^,]*,week,brief,hay-low,' "hay that ends within the time to buy some"
matches "$out" ',Old Glass,[^,]*,week,,weather-refused,' "weather that no advice is given on"
matches "$out" ',Older Glass,[^,]*,week,none,weather-old,' "provisional weather"
matches "$out" ',None Named,[^,]*,week,,weather-missing,' "no weather named"
matches "$out" ',Acute,[^,]*,today,none,acute,"?grey-pony: a vet is needed today; kept as an acute case' "an acute case: today"
matches "$out" '/broken/holding.json,error,,error,,"?[^,]*:4:[0-9]*: sight' "an error with its place"
matches "$out" '/cut/holding.json,error,,error,' "JSON that is cut off"
matches "$out" ',Bad Diary,[^,]*,error,,error,,.*nothing is known of its animals. feet' "a diary that cannot be read hides its signs"
matches "$out" ',Wrong Weather,[^,]*,error,,error,,.*weather.csv' "weather that cannot be read"
matches "$out" ',Healed,[^,]*,nothing-new,' "signs that are gone, by the vet's word, too"
matches "$out" ',Later,[^,]*,nothing-new,' "signs of tomorrow are not known"
last=0
for name in 'Stuck Gate|Two Sore' 'No Glass' 'Sore Lane' 'Acute' 'Empty Rick' 'Short Rick' 'Low Rick' 'Old Glass' \
    'None Named' 'Older Glass' 'Bad Diary' 'Quiet Acre'; do
    now=$(place_of ",($name),")
    check "$name comes after what is more urgent" test "${now:-0}" -gt "$last"
    last=${now:-99}
done

find "$clients" -type f -exec cksum {} + >"$scratch/after"
same "$scratch/before" "$scratch/after" "nothing is written into any client's folder"
run today --holding "$clients/acute/holding.json" --date 2025-04-23 --no-log
contains "$out" 'Ring the vet today.' "the advice for the acute case says as soon as the round does"

for jobs in 1 2 8; do
    round --csv --jobs "$jobs"
    same "$scratch/all.csv" "$out" "the same with --jobs $jobs"
done
round --allow-stale --csv
matches "$out" ',Old Glass,[^,]*,week,(free|timed|brief|none),weather-old,' "--allow-stale advises all the same"

round
for heading in 'RING NOW (2)' 'RING TODAY (5)' 'THIS WEEK (4)' 'NOTHING NEW (3)' 'ERRORS'; do
    contains "$out" "$heading" "a part for people: $heading"
done
contains "$out" 'not a diagnosis' "what it is not"
contains "$out" 'who wrote nothing' "who wrote nothing is not well for that"
round --json
matches "$out" '"rank":1,"call":"now"' "as JSON, with rank"
if command -v python3 >/dev/null 2>&1; then
    check "JSON of schema 1, ranks in order, why or error or neither" python3 -c '
import json, sys
d = json.load(open(sys.argv[1]))
h = d["holdings"]
assert d["schema"] == 1 and d["date"] == "2025-04-23" and len(h) == 18
assert [x["rank"] for x in h] == list(range(1, 19))
assert all(isinstance(x["why"], list) and isinstance(x["path"], str) and isinstance(x["name"], str) for x in h)
assert sum(x["error"] is not None for x in h) == 4
assert all((len(x["reasons"]) == 0) == (x["call"] == "nothing-new") for x in h)
' "$out"
fi
no_nan "$out" "no number that is none"

# Back on grass after signs that the keeper ended, until the vet's word; an insulin reading, as long as today says it.
mkdir -p "$scratch/back"
cp data/demo/holding.json data/demo/weather.csv "$scratch/back"
names='date,time,subject,what,value,unit,note'
ended='2025-04-14,07:00,grey-pony,foot-signs,hot-feet,,
2025-04-18,07:00,grey-pony,foot-signs,none,,'
back() { # DATE LINES: the round of it
    printf '%s\n%s\n' "$names" "$2" >"$scratch/back/diary.csv"
    run round "$scratch/back" --date "$1" --csv
}
back "$morning" "$ended"
matches "$out" ',today,brief,back-on-grass,.*grey-pony: back on grass \(brief, 30 min, day 5 of 48\) after foot signs that the keeper ended on 18 April 2025; the vet has not cleared it by the diary\.' \
    "back on grass without the vet's word is a call today"
back "$morning" "$ended
2025-04-15,,grey-pony,vet,visited,,"
matches "$out" ',back-on-grass,.*has not cleared it by the diary; a vet came on 15 April 2025\.' "a visit is said, and is no such word"
back "$morning" "$ended
2025-04-19,,grey-pony,vet,cleared,,"
matches "$out" ',nothing-new,' "the vet's word ends it, later as well"
back "$morning" "2025-04-10,,grey-pony,vet,cleared,,
$ended"
matches "$out" ',back-on-grass,' "but not one from before the signs"
back 2025-04-18 "$ended"
lacks "$out" 'back-on-grass' "not on the day itself: it is off grass"
back "$morning" '2025-04-18,,grey-pony,insulin,62,uIU/ml,'
matches "$out" ',week,brief,insulin,.*grey-pony: insulin 62 uIU/ml on 18 April 2025, by the diary; the advice does not judge it\.' \
    "an insulin reading is named"
mv "$scratch/back/weather.csv" "$scratch/back-weather.csv"
back "$morning" '2025-02-22,,grey-pony,insulin,62,uIU/ml,'
matches "$out" ',insulin[+]weather-missing,' "without weather, too"
back "$morning" '2025-02-21,,grey-pony,insulin,62,uIU/ml,'
lacks "$out" 'insulin' "as long as today says it: 60 days"

# The turnout is that of the morning advice; where it is stricter than yesterday, that is said. (Days of the
# invented weather on which it is.)
turnout() { # DATE: of the wethers, by sugarlea today
    run today --holding "$clients/quiet/holding.json" --date "$1" --no-log --csv
    awk -F, '$2 == "wethers" { print $3 }' "$out"
}
check "the wethers have an hour on 16 March" test "$(turnout 2024-03-16)" = brief
check "and are off grass on 17 March" test "$(turnout 2024-03-17)" = none
run round "$clients/quiet" --date 2024-03-17 --csv
matches "$out" ',today,none,off-grass,.*wethers \(goat-dry\): off grass today; yesterday brief, 1 h' "which is a call today"
run round "$clients/quiet" --date 2024-03-18 --csv
matches "$out" ',nothing-new,none,,' "and no news on the day after"

# A forecast that turns cold and bright.
mkdir -p "$scratch/ahead"
record "$scratch/ahead/w.csv" 2017-01-01 2018-05-14
cat >"$scratch/ahead/forecast.json" <<'J'
{"latitude": 52.1, "longitude": 5.18, "utc_offset_seconds": 7200, "timezone": "Europe/Amsterdam",
 "current": {"time": "2018-05-15T05:00", "temperature_2m": 9.1},
 "daily_units": {"temperature_2m_max": "°C", "temperature_2m_min": "°C", "precipitation_sum": "mm",
                 "shortwave_radiation_sum": "MJ/m²"},
 "daily": {"time": ["2018-05-15", "2018-05-16", "2018-05-17", "2018-05-18", "2018-05-19"],
   "temperature_2m_max": [22.0, 22.0, 10.0, 8.0, 8.0], "temperature_2m_min": [12.0, 12.0, 1.0, -6.5, -6.0],
   "precipitation_sum": [0.0, 0.0, 0.0, 0.0, 0.0], "shortwave_radiation_sum": [5.0, 5.0, 28.0, 28.0, 28.0]}}
J
cat >"$scratch/ahead/holding.json" <<'J'
{"sugarlea": 1, "name": "Ahead", "site": {"latitude": 52.1, "longitude": 5.18, "timezone": "Europe/Amsterdam"},
 "weather": [{"file": "w.csv"}, {"file": "forecast.json"}],
 "paddocks": [{"id": "dyke", "area_ha": 1}],
 "animals": [{"id": "ponies", "class": "pony"}, {"id": "donkeys", "class": "equid-at-risk"}]}
J
run today --holding "$scratch/ahead/holding.json" --date 2018-05-15 --no-log --days 5 --csv
first=$(awk -F, '$2 == "donkeys" && $3 == "brief" { print $1; exit }' "$out")
check "by the advice of each day the first brief one is to come" test "$first" = 2018-05-18
run round "$scratch/ahead" --date 2018-05-15 --csv
matches "$out" '^64,2018-05-18,Ahead,.*,week,timed,brief-ahead,"donkeys \(equid-at-risk\): brief, 1 h on 18 May 2018 by the forecast; today timed, ' \
    "and so it is in the round, for those at risk"

# Hay by past years, where there are some.
awk -F, 'NR == 1 || $1 < "2018-01-15"' data/real/de_bilt_2005-2019.csv >"$scratch/ahead/w.csv"
sed 's/, {"file": "forecast.json"}//; s/^ "paddocks"/ "hay": {"stock": [{"feed": "grass-hay-mature", "kg": 120}]},\n&/' \
    "$scratch/ahead/holding.json" >"$scratch/ahead/changed"
mv "$scratch/ahead/changed" "$scratch/ahead/holding.json"
run round "$scratch/ahead" --date 2018-01-15 --csv
matches "$out" ',hay-(out|low),.*by the weather of [0-9]+ past years' "hay by past years of weather"

# A worker that hangs or dies costs the holding it was on.
holding fifo 'Fifo'
rm "$clients/fifo/weather.csv"
mkfifo "$clients/fifo/weather.csv"
for jobs in 1 2; do
    run round "$clients" --date "$morning" --seconds 1 --csv --jobs "$jobs"
    exits 0 "a holding that never ends, --jobs $jobs"
    matches "$out" '/fifo/holding.json,error,,error,,"?took longer than 1 s and' "is given up after its time"
    grep -v '/fifo/' "$out" >"$scratch/others.csv"
    same "$scratch/all.csv" "$scratch/others.csv" "and the others are as without it"
done
"$PROGRAM" round "$clients" --date "$morning" --seconds 60 --csv --jobs 1 >"$out" 2>"$err" </dev/null &
started=$!
(sleep 60 && : <"$clients/fifo/weather.csv") >/dev/null 2>&1 & # if the round ended before, nothing else would open the other end
watchdog=$!
exec 3>"$clients/fifo/weather.csv" # returns when the worker has opened it: it waits for what is written
kill "$watchdog"
kill -KILL "$(ps -o pid= --ppid "$started" | tr -d ' ')"
wait "$started"
code=$?
exec 3>&-
exits 0 "a worker that crashes"
matches "$out" '/fifo/holding.json,error,,error,,"?the work on it ended by signal 9' "costs the holding it was on"
grep -v '/fifo/' "$out" >"$scratch/others.csv"
same "$scratch/all.csv" "$scratch/others.csv" "and no other"
rm -r "$clients/fifo"

# Hostile names: of folders and holdings.
rm -r "$clients"
newline='a
b'
mkdir -p "$clients/$newline"
cp data/demo/weather.csv "$clients/$newline/"
sed 's/Larkhanger (invented)/=1+1,\\"q\\"/' data/demo/holding.json >"$clients/$newline/holding.json"
holding '=cmd' '+formula'
round
exits 0 "hostile names"
check "no escape sequence reaches the terminal" sh -c "! grep -q \"\$(printf '\033')\" '$out'"
round --csv
check "one line a holding, whatever its name" test "$(wc -l <"$out")" -eq 3
matches "$out" "^0,,\"'=1[+]1,\"\"q\"\"\"," "no formula, quotes doubled"
matches "$out" "^0,,\"?'[+]formula\"?,.*/=cmd/" "nor this one"
round --json
if command -v python3 >/dev/null 2>&1; then
    check "JSON has the path as it is" python3 -c '
import json, sys
assert any("a\nb" in h["path"] for h in json.load(open(sys.argv[1]))["holdings"])' "$out"
fi

# Lists: one path a line, folders too; and parts of a round put together again.
rm -r "$clients"
i=0
while [ $i -lt 12 ]; do
    holding "$i" "Client $i"
    [ $((i % 4)) -ne 0 ] || diary "$i" "2025-04-$((10 + i)),07:00,grey-pony,foot-signs,hot-feet,,"
    [ $((i % 3)) -ne 0 ] || change "$i" "s/\"bales\": 95/\"bales\": $((i + 2))/; s/\"bales\": 40/\"bales\": 0/"
    i=$((i + 1))
done
round --csv
cp "$out" "$scratch/whole.csv"
find "$clients" -name holding.json >"$scratch/list"
run round --list "$scratch/list" --date "$morning" --csv
same "$scratch/whole.csv" "$out" "--list of all is the folder"
"$PROGRAM" round --list - --date "$morning" --csv <"$scratch/list" >"$out" 2>"$err"
same "$scratch/whole.csv" "$out" "--list from standard input"
printf '%s\r\n\r\n%s\n' "$clients/1" "$clients/gone/holding.json" >"$scratch/list2"
run round --list "$scratch/list2" --date "$morning" --csv
matches "$out" '/1/holding.json,nothing-new' "a folder in the list, and line ends of another system"
matches "$out" '/gone/holding.json,error,,error,' "a path that is not there is an error of its own"
{ printf '\357\273\277' && cat "$scratch/list"; } >"$scratch/list3"
run round --list "$scratch/list3" --date "$morning" --csv
same "$scratch/whole.csv" "$out" "a byte-order mark before the first path"

if command -v parallel >/dev/null 2>&1; then
    (cd "$scratch" && split -n l/3 list part. &&
        parallel --will-cite "$PROGRAM round --list {} --date $morning --csv --jobs 1 >{}.csv" ::: part.?? &&
        head -n 1 part.aa.csv && tail -q -n +2 part.??.csv | LC_ALL=C sort -t, -k1,1nr -k2) >"$out" 2>"$err"
    same "$scratch/whole.csv" "$out" "parts by GNU parallel, merged as the README says"
else
    skip "parts by GNU parallel" "parallel is not installed"
fi
# each task of the array by itself, with what Slurm sets when --cpus-per-task is given; the script is README's
sed -n '/^part=\$(printf/,/^```/{/^```/d;p;}' README.md |
    sed "s|^sugarlea|$PROGRAM|; s|--date [0-9-]*|--date $morning|" >"$scratch/task.sh"
check "README has the script of a task" grep -q -- --jobs "$scratch/task.sh"
check "and the option that its variable comes from" grep -q 'sbatch --array=0-3 --cpus-per-task=1' README.md
(cd "$scratch" && rm -f part.* && split -d -a 3 -n l/4 list part. &&
    for task in 0 1 2 3; do SLURM_ARRAY_TASK_ID=$task SLURM_CPUS_PER_TASK=1 sh task.sh || exit; done &&
    head -n 1 part.000.csv && tail -q -n +2 part.???.csv | LC_ALL=C sort -t, -k1,1nr -k2) >"$out" 2>"$err"
same "$scratch/whole.csv" "$out" "parts by an array of Slurm, merged as the README says"

# What cannot be looked into, and what is no holding in spite of its name.
ln -s nothing "$scratch/dangling"
run round "$scratch/dangling"
refused 66 'dangling: cannot be looked into' "a link that leads nowhere"
run round "$(printf '%05000d' 0)"
refused 66 'File name too long' "a name beyond all names"
mkdir -p "$clients/odd/holding.json/1/2/3/4/5/6/7/8/9/10/11/12/13/14/15"
mkfifo "$clients/1/2.fifo" && ln -s ../2.fifo "$clients/4/link" && mkdir "$clients/long"
(cd "$clients/long" && for i in 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16; do
    mkdir "$(printf '%0255d' $i)" && cd -P "$(printf '%0255d' $i)" || exit
done)
run round "$clients/long" --csv
exits 0 "a path that is too long"
matches "$out" '/long/0*1/[0-9/]*,error,,error,,File name too long' "is an error of its own"
rm -r "$clients/long"
round --csv
matches "$out" 'odd/holding.json/.*/14,error,,error,,lies too deep' "as is what lies too deep"
check "beside all others" test "$(grep -c ',nothing-new,\|,today,\|,week,' "$out")" -eq 12
rm -r "$clients/odd"

if [ "$(id -u)" -ne 0 ]; then
    chmod 000 "$clients/3"
    round --csv
    exits 0 "a folder that may not be read"
    matches "$out" '/3,error,,error,' "is an error of its own"
    chmod 755 "$clients/3"
else
    skip "a folder that may not be read" "root reads all"
fi
finish
