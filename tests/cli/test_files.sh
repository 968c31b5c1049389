#!/bin/sh
# The keeper's files: links, other kinds of files, locks, and files that change while they are read.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
cp data/demo/holding.json data/demo/weather.csv "$scratch"
mkdir "$scratch/sync"
is_link() { # FILE TO
    [ "$(readlink "$1")" = "$2" ]
}

# A diary in a folder that is synchronised with another machine, linked beside the holding before it is there.
ln -s sync/diary.csv "$scratch/diary.csv"
on() { # WORD...
    run record --holding "$scratch/holding.json" "$@"
}
on weight grey-pony 280 kg --date 2025-04-20
on weight grey-pony 279 kg --date 2025-04-21
exits 0 "a diary that is a link"
check "is written where it leads" test "$(grep -c weight "$scratch/sync/diary.csv")" -eq 2
on --undo
exits 0 "a line taken back"
check "leaves the link" is_link "$scratch/diary.csv" sync/diary.csv
check "and is gone where it leads" test "$(grep -c weight "$scratch/sync/diary.csv")" -eq 1
rm "$scratch/diary.csv"

# So is a holding.
mv "$scratch/holding.json" "$scratch/sync"
ln -s sync/holding.json "$scratch/holding.json"
cp "$scratch/sync/holding.json" "$scratch/before.json"
run_in "$scratch" setup --no-input --replace --latitude 52.3 --longitude -2.6 --weather weather.csv --animal pony --no-log
check "setup leaves the link" is_link "$scratch/holding.json" sync/holding.json
lacks "$scratch/sync/holding.json" Larkhanger "the new holding is where it leads"
same "$scratch/before.json" "$scratch/holding.json.old" "the one before is kept"
rm "$scratch/holding.json" "$scratch/holding.json.old"
ln -s nowhere/holding.json "$scratch/holding.json"
run_in "$scratch" setup --no-log
refused 73 'nowhere/holding.json: cannot be created' "a link that leads where nothing can be written, before any question"
rm "$scratch/holding.json"
cp data/demo/holding.json "$scratch"

# A pipe or a device is nobody's sheet.
mkfifo "$scratch/pipe.html"
run sheet --holding "$scratch/holding.json" --date 2025-04-23 --no-log -o "$scratch/pipe.html"
refused 73 "is a pipe or device, not a file" "a pipe of that name"
check "which stays one" test -p "$scratch/pipe.html"

# New files are as private as the keeper wants.
(umask 077 && "$PROGRAM" sheet --holding "$scratch/holding.json" --date 2025-04-23 -o "$scratch/sheet.html" >"$out" 2>"$err")
check "a new page by the umask" test "$(stat -c %a "$scratch/sheet.html")" = 600
check "and a new log" test "$(stat -c %a "$scratch/advice-log.csv")" = 600

# A file that is cut short while it is read: 18 MB of 70 places; the reader waits on a pipe that nobody empties.
awk -F, -v OFS=, 'NR == 1 { print "site", "latitude", $0; next }
    { row[NR] = $0 }
    END { for (site = 1; site <= 70; site++) for (i = 2; i <= NR; i++) print "s" site, 52 + site / 100, row[i] }' \
    data/real/de_bilt_2005-2019.csv >"$scratch/sites.csv"
mkfifo "$scratch/rows"
"$PROGRAM" season --weather "$scratch/sites.csv" --csv --animal pony --jobs 1 --from 2006-01-01 >"$scratch/rows" 2>"$err" &
reader=$!
{
    head -c 1000 >/dev/null
    : >"$scratch/sites.csv"
    cat >/dev/null
} <"$scratch/rows"
wait "$reader"
code=$?
exits 66 "a file cut short while it is read"
contains "$err" "cut short by another program" "is told"
check "in one line" test "$(grep -c '' "$err")" -eq 1
finish
