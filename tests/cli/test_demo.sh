#!/bin/sh
# What `make demo` shows: an advice for every animal group, with its hours, its
# reasons and the words that send people to their vet.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh

sed "s#^\./sugarlea#\"\$PROGRAM\"#" data/demo.sh >"$scratch/demo.sh"
ls -R data >"$scratch/before"
sh "$scratch/demo.sh" </dev/null >"$out" 2>"$err"
code=$?
ls -R data >"$scratch/after"
exits 0 "the demo runs"
for id in milkers wethers grey-pony donkey pump-field old-bank; do
    contains "$out" "$id" "the demo speaks of $id"
done
matches "$out" '(FREE|TIMED|BRIEF|NONE): ' "the demo names a turnout"
contains "$out" "not a diagnosis" "the demo says that it is no diagnosis"
matches "$out" '[Vv]et' "the demo sends people to their vet"
no_nan "$out" "the demo prints no nan"
same "$scratch/before" "$scratch/after" "the demo leaves no file behind"

run today --holding data/demo/holding.json --date 2025-04-23 --no-log --json
exits 0 "the demo holding as JSON"
contains "$out" '"schema":1' "the JSON names its schema"
matches "$out" '"turnout":"(free|timed|brief|none)"' "the JSON names a turnout"
no_nan "$out" "the JSON holds no nan"
if command -v python3 >/dev/null 2>&1; then
    check "the JSON is JSON" python3 -c 'import json, sys; json.load(open(sys.argv[1]))' "$out"
    check "the JSON has the groups in the holding's order" python3 -c '
import json, sys
d = json.load(open(sys.argv[1]))
ids = [a["id"] for a in d["animals"]]
assert ids == ["milkers", "wethers", "grey-pony", "donkey"], ids
assert [p["id"] for p in d["paddocks"]] == ["pump-field", "old-bank"]
assert all(len(p["nsc_g_per_kg"]["hourly"]) == 24 for p in d["paddocks"])' "$out"
else
    skip "the JSON is JSON" "no python3"
fi

run season --holding data/demo/holding.json --from 2025-04-01 --to 2025-04-22 --csv
exits 0 "a season of the demo holding as CSV"
# 22 days of two paddocks and the row of names (counted by hand)
check "the season has a row for each day and paddock" test "$(wc -l <"$out")" -eq 45
matches "$out" '^paddock,date,origin,nsc_dawn,' "the season's columns begin as documented"
# 'today' says of the 22nd: the donkey 12 h with a muzzle, an hour at most without
matches "$out" '^paddock,.*,turnout:donkey,hours:donkey,muzzle:milkers,muzzle:wethers,muzzle:grey-pony,muzzle:donkey$' \
    "whether a muzzle is on stands behind the hours of all groups"
matches "$out" '^old-bank,2025-04-22,.*,timed,12,,0,1,1$' "it is told of the groups of the row's paddock"
matches "$out" '^pump-field,2025-04-22,.*,timed,8,,,,,,,0,,,$' "and of no others"
cp "$out" "$scratch/season.csv"
run season --holding data/demo/holding.json --from 2025-04-01 --to 2025-04-22 --json
exits 0 "a season as JSON"
if command -v python3 >/dev/null 2>&1; then
    check "the JSON says what the CSV says" python3 -c '
import csv, json, sys
rows = list(csv.DictReader(open(sys.argv[1])))
days = json.load(open(sys.argv[2]))["days"]
assert len(rows) == len(days) == 44
for row, day in zip(rows, days):
    for key, text in row.items():
        if text: assert str(day[key]) == text or float(day[key]) == float(text), (key, text, day[key])
        else: assert day.get(key) is None, key' "$scratch/season.csv" "$out"
fi
run season --holding data/demo/holding.json --from 2025-04-20 --to 2025-04-22 --plain
exits 0 "a season as text"
contains "$out" "grey-pony" "with its groups"
contains "$out" "donkey timed 12 h with muzzle" "hours that need a muzzle say so"
lacks "$out" "8 h with muzzle" "others do not"
run season --holding data/demo/holding.json --paddock old-bank --from 2025-03-24 --to 2025-04-22 --term
contains "$out" "donkey, with a muzzle 17 of 30 days" "and so does the picture in letters"
lacks "$out" "wethers (goat-dry), with a muzzle" "of the groups that have one"
contains "$out" "not a diagnosis" "and what it is not"
finish
