#!/bin/sh
# Every command of the README and every path it names is real.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh

# Commands in blocks marked sh; make itself is what runs this test.
awk '/^```sh$/ { on = 1; next } /^```/ { on = 0 } on && /^\.\/sugarlea / { print }' README.md >"$scratch/commands"
check "the README shows commands" test -s "$scratch/commands"
while read -r line; do
    # shellcheck disable=SC2086 # the README's words are the arguments
    set -- ${line#./sugarlea }
    command=$1
    case $command in today) set -- "$@" --no-log ;; esac
    run "$@"
    exits 0 "README: $line"
    check "README: $line answers" test -s "$out"
done <"$scratch/commands"

for path in $(grep -oE '`(data|models|tests|src)/[A-Za-z0-9_./-]+`' README.md DEVELOPERS.md | sed 's/.*:`//; s/`$//' | sort -u); do
    case $path in
    *NAME* | *test_\*) ;;
    *) check "$path, named in the documents, is there" test -e "$path" ;;
    esac
done

# Every grass, soil and class of the models is in the README. (Rows of a table
# stand one a line and start with their id.)
ids() { # FILE KEY: ids of the rows that hold this key
    sed -n "s/^ *\"\([a-z-]*\)\": {\"$2\":.*/\1/p" "$1"
}
tr -s ' ,;.`()' '\n' <README.md >"$scratch/words"
: >"$out"
for id in $(ids models/animals.json species) $(ids models/swards.json type) $(ids models/swards.json capacity_mm); do
    check "the README names $id" grep -qxF -e "$id" "$scratch/words"
    echo "$id" >>"$scratch/ids"
done
# 19 classes, 18 grasses, 9 soils when this was written
check "the ids of the models were found" test "$(grep -c '' "$scratch/ids")" -ge 46

# The holding of the README is read as it stands.
awk '/^```json$/ { on = 1; next } /^```/ { on = 0 } on' README.md >"$scratch/holding.json"
cp data/demo/weather.csv "$scratch/weather.csv"
run today --holding "$scratch/holding.json" --date 2025-04-23 --no-log
exits 0 "README: the holding file works"
contains "$out" "grey-pony" "README: the holding's pony is advised"
finish
