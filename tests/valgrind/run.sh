#!/bin/sh
# Every command on the demo, once with good and once with bad input, and the test programs named, under valgrind's
# memcheck: no read or jump by what was never written, none beyond what was asked for, no memory lost.
# (AddressSanitizer does not see the first of these.)
# Usage: run.sh PROGRAM [TEST...]. SPDX-License-Identifier: GPL-3.0-or-later
command -v valgrind >/dev/null 2>&1 || { echo "# skipped: valgrind is not installed (Debian: valgrind)" && exit 0; }
case $1 in /*) program=$1 ;; *) program=$PWD/$1 ;; esac
shift
folder=$(mktemp -d "${TMPDIR:-/tmp}/valgrind.XXXXXX") || exit 70
trap 'rm -rf "$folder"' EXIT INT TERM
cp data/demo/holding.json data/demo/weather.csv "$folder/"
printf 'date,time,subject,what,value,unit,note\n%s\n%s\n%s\n' \
    '2025-04-01,06:40,pump-field,grass-nsc,18.2,%,' '2025-04-20,13:10,grey-pony,foot-signs,hot-feet,,' \
    '2025-04-21,,grey-pony,foot-signs,none,,' >"$folder/diary.csv"
SUGARLEA_MODELS=$PWD/models SUGARLEA_PLOTS=$PWD/plots LC_ALL=C
export SUGARLEA_MODELS SUGARLEA_PLOTS LC_ALL
sed 's/"grass"/"gras"/' data/demo/holding.json >"$folder/wrong.json"
tried=0
bad=0
memcheck='valgrind --quiet --error-exitcode=99 --leak-check=full --show-leak-kinds=definite --errors-for-leak-kinds=definite'

judge() { # NAME LOG: valgrind says nothing against it
    tried=$((tried + 1))
    if [ -s "$2" ]; then
        echo "not ok - $1"
        sed 's/^/# /' "$2" | head -40
        bad=$((bad + 1))
    fi
}

look() { # COMMAND...
    $memcheck --log-file="$folder/log" "$@" </dev/null >"$folder/out" 2>&1
    judge "$*" "$folder/log"
}

sugarlea() { # ARGUMENT...: in the demo's folder
    here=$PWD
    cd "$folder" || exit 70
    look "$program" "$@"
    cd "$here" || exit 70
}

on='--holding holding.json --date 2025-04-23'
# shellcheck disable=SC2086 # several words
{
    sugarlea today $on
    sugarlea today $on --json --no-log
    sugarlea today $on --no-log --calendar grazing.ics
    sugarlea sheet $on -o sheet.html
    sugarlea season --holding holding.json --from 2025-04-10 --to 2025-04-20 --csv
    sugarlea ration $on --arithmetic
    sugarlea outlook $on --months 1 --draws 1
    sugarlea hay $on
    sugarlea review --holding holding.json --from 2025-03-20 --to 2025-04-20
    sugarlea tune --holding holding.json
    sugarlea round $on .
    sugarlea weather $on --json
    sugarlea record $on weight grey-pony 281 kg --at 07:00
    sugarlea record --holding holding.json --undo
    sugarlea setup --no-input --replace --holding new.json --latitude 52.3 --longitude -2.6 --weather weather.csv \
        --animal pony --no-log
    sugarlea params --json
    sugarlea help manual
    sugarlea today $on --animal unicorn --no-log
    sugarlea record $on weight grey-pony heavy
    sugarlea weather --weather diary.csv --latitude 52
    sugarlea nothing
    sugarlea today --holding wrong.json --date 2025-04-23
}
# The test programs, two at a time; one that fails has a log, too.
printf '%s\n' "$@" | xargs -P 2 -I TEST sh -c 'log=$1/$(basename TEST).log
    '"$memcheck"' --log-file="$log" TEST </dev/null >"$log.out" 2>&1 || cat "$log.out" >>"$log"' - "$folder"
for test in "$@"; do
    judge "$test" "$folder/${test##*/}.log"
done
echo "$tried runs under valgrind, $bad with findings"
[ "$bad" -eq 0 ]
