#!/bin/sh
# Every door that text from outside leaves by: what every command writes, in every form, of a
# holding whose names, notes, files and weather are hostile. Nothing is started, nothing written
# outside its folder, no output obeyed. tests/lint/doors.txt names the doors.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
if ! command -v python3 >/dev/null 2>&1; then
    skip "what hostile text becomes" "no python3 here"
    pass "nothing else reads it"
    finish
fi
esc=$(printf '\033')
turn=$(printf '\342\200\256')
outer=$scratch/outer
farm="$outer/x'\$(touch marker)\`touch marker\`;touch marker;<b onload=alert(1)>${esc}[31m
=1+1,"
mkdir -p "$farm" "$scratch/cache"
XDG_CACHE_HOME=$scratch/cache
SOURCE_DATE_EPOCH=1745384400
export XDG_CACHE_HOME SOURCE_DATE_EPOCH
file='w$(touch marker)`touch marker`&<script>.csv'
sed "1s/\$/,<script>alert(1)<\/script>,=cmd|x,${esc}[2J${turn}/; 2,\$s/\$/,1,2,3/" data/demo/weather.csv >"$farm/$file"
python3 - "$farm" "$file" <<'P'
import json, sys
h = json.load(open("data/demo/holding.json"))
h["name"] = ("=<script>alert(1)</script>`touch marker`$(touch marker)';system 'touch marker';'\"]]>&amp;\\n"
             "\u202e, DTEND;X-HOSTILE:1")
h["weather"] = [{"file": sys.argv[2]}]
json.dump(h, open(sys.argv[1] + "/holding.json", "w"))
P
cat >"$farm/diary.csv" <<D
date,time,subject,what,value,unit,note
2025-04-01,06:40,pump-field,grass-nsc,18.2,%,"=cmd|' /C calc'!A0 <script>alert(1)</script> ${esc}]0;owned$(printf '\007')
ATTACH:x"
2025-04-10,,milkers,weight,64,kg,"<img src=x onerror=alert(1)>${turn}\$(touch marker)"
2025-04-20,13:10,grey-pony,foot-signs,hot-feet,,"@SUM(1)"
2025-04-21,,grey-pony,foot-signs,none,,"+1"
D
find "$outer" | sort >"$scratch/before"

# leaves KIND NAME ARGUMENT...: what it prints, and what it warns of, is read as KIND and as text
leaves() {
    kind=$1 name=$2
    shift 2
    run_in "$farm" "$@"
    check "$name ends well" test "$code" -eq 0
    check "$name: $kind that obeys nobody" python3 tests/cli/read_doors.py "$kind" "$out"
    check "$name: nor do its warnings" sh -c '! test -s "$1" || python3 tests/cli/read_doors.py text "$1"' - "$err"
}
# written KIND FILE
written() {
    check "$2: $1 that obeys nobody" python3 tests/cli/read_doors.py "$1" "$farm/$2"
    rm -f "$farm/$2"
}
on='--date 2025-04-23'
between='--from 2025-04-10 --to 2025-04-22'
# shellcheck disable=SC2086 # several words
{
    leaves text today today $on --no-log
    for form in json csv; do
        leaves $form "today --$form" today $on --no-log --$form
        leaves $form "round --$form" round $on --$form .
        leaves $form "weather --$form" weather $on --$form
        leaves $form "season --$form" season $between --$form
    done
    for command in hay ration; do
        leaves text $command $command $on
        leaves json "$command --json" $command $on --json
    done
    leaves text "ration --arithmetic" ration $on --arithmetic
    leaves text round round $on .
    leaves text weather weather $on
    leaves text "season --term" season $between --paddock old-bank --term
    leaves text review review --from 2025-03-20 --to 2025-04-20
    leaves json "review --json" review --from 2025-03-20 --to 2025-04-20 --json
    leaves text tune tune
    leaves json "tune --json" tune --json
    leaves text "tune --apply" tune --apply
    written json tuning.json
    leaves text "tune --undo" tune --undo
    rm -f "$farm"/tuning*
    leaves html "sheet on standard output" sheet $on --no-log -o -
    leaves text "today --calendar" today $on --no-log --calendar 'a$(touch marker).ics'
    written ics 'a$(touch marker).ics'
    leaves text sheet sheet $on --no-log -o 'a`touch marker`.html'
    written html 'a`touch marker`.html'
    leaves text "today with its log" today $on
    written csv advice-log.csv
    leaves text record record $on rested old-bank --note "=cmd|x ${esc}[31m <script> \$(touch marker)"
    check "a note that is kept is no formula" sh -c '! grep -q ",\"\{0,1\}=cmd|x" "$1"' - "$farm/diary.csv"
    leaves text "record --undo" record --undo
    if command -v gnuplot >/dev/null 2>&1; then
        leaves text "season --plot" season $between --plot "b'.svg"
        written svg "b'.svg"
        leaves text "review --plot" review --from 2025-03-20 --to 2025-04-20 --plot 'b.svg'
        written svg b.svg
        leaves text "hay --plot" hay $on --plot 'b.svg'
        written svg b.svg
    else
        skip "pictures" "gnuplot is not installed"
    fi
}
sed "s/^/=1+1 <script>${esc}[2J${turn},/; 1s/.*/site,$(head -1 data/demo/weather.csv)/" data/demo/weather.csv >"$farm/many.csv"
leaves csv "season of many sites" season --weather many.csv --latitude 52 --animal pony --csv --from 2025-04-10
printf '%s\n' 'many.csv' "$file" >"$farm/list"
leaves csv "season of a list of files" season --list list --latitude 52 --animal pony --csv --from 2025-04-10
rm "$farm/many.csv" "$farm/list"

# An outlook needs some years: the same names over a real record.
mkdir "$farm/years"
record "$farm/years/$file" 2012-01-01 2018-09-30
sed "1s/\$/,=cmd|x<script>${esc}[2J$turn/; 2,\$s/\$/,1/" "$farm/years/$file" >"$scratch/years" && cp "$scratch/years" "$farm/years/$file"
cp "$farm/holding.json" "$farm/years"
on='--date 2018-10-01 --months 1 --draws 1 --holding years/holding.json'
# shellcheck disable=SC2086 # several words
{
    leaves text outlook outlook $on
    leaves json "outlook --json" outlook $on --json
    if command -v gnuplot >/dev/null 2>&1; then
        leaves text "outlook --plot" outlook $on --plot 'b.svg'
        written svg b.svg
    fi
}
rm -r "$farm/years"

# Models of somebody else's.
cp -r models "$scratch/models"
sed "s/\"source\": \"/&<script>=cmd|x\\\\u202e /" models/limits.json >"$scratch/models/limits.json"
SUGARLEA_MODELS=$scratch/models "$PROGRAM" params --json >"$out" 2>"$err"
check "params --json: JSON that obeys nobody" python3 tests/cli/read_doors.py json "$out"
SUGARLEA_MODELS=$scratch/models "$PROGRAM" params >"$out" 2>"$err"
contains "$out" '<script>=cmd' "the source of a number, as it stands"
check "params: text that obeys nobody" python3 tests/cli/read_doors.py text "$out"

# What is refused names what it read.
printf '%s\n' "22<script>${esc}[31m$turn,,pony,weight,1,kg," >>"$farm/diary.csv"
sed 's/"grass"/"<script>\u001b[31m"/' "$farm/holding.json" >"$farm/wrong.json"
printf '%s\n' 'date,tmin,tmax,rain' "<script>${esc}[31m$turn,1,2,3" >"$farm/wrong.csv"
for words in 'record rested nowhere' 'tune' 'today --holding wrong.json' 'sheet -o x.html --holding wrong.json' \
    'weather --weather wrong.csv --latitude 52' 'hay --stock <script>=2'; do
    # shellcheck disable=SC2086 # several words
    run_in "$farm" $words
    check "$words: what is refused" test "$code" -ne 0
    check "$words: is told as text" python3 tests/cli/read_doors.py text "$err"
    check "$words: in one line" test "$(wc -l <"$err")" -eq 1
done
rm "$farm/wrong.json" "$farm/wrong.csv"
sed '$d' "$farm/diary.csv" >"$scratch/diary.csv" && cp "$scratch/diary.csv" "$farm/diary.csv"
run_in "$farm" today --no-log --weather "$file" --latitude 52 --animal "<script>${esc}[31m\$(touch marker)"
check "a word that is not known is refused" test "$code" -eq 64
check "and said as text" python3 tests/cli/read_doors.py text "$err"
run_in "$farm" "to\$(touch marker)${esc}[31m"
check "as is a command" python3 tests/cli/read_doors.py text "$err"

# What setup writes of hostile answers is JSON, and a holding.
run_in "$farm" setup --no-input --holding new.json --latitude 52.3 --longitude -2.6 --weather "$file" --animal pony --no-log
check "setup ends well" test "$code" -eq 0
check "setup: text that obeys nobody" python3 tests/cli/read_doors.py text "$out"
contains "$farm/new.json" '$(touch marker)' "the name stands in the file"
leaves text "a holding of setup's" today --holding new.json --no-log --date 2025-04-23
written json new.json

find "$outer" | sort >"$scratch/after"
same "$scratch/before" "$scratch/after" "nothing was started, and nothing stands that was not asked for"
check "nor elsewhere" test -z "$(find "$scratch" . -name marker 2>/dev/null | head -1)"
finish
