#!/bin/sh
# The user's locale changes neither what is read nor what is said.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
run today --holding data/demo/holding.json --date 2025-04-23 --no-log --json
exits 0 "in the C locale"
contains "$out" '"turnout"' "an advice is there to compare"
cp "$out" "$scratch/json"
run season --holding data/demo/holding.json --from 2025-04-20 --to 2025-04-22 --csv
contains "$out" "2025-04-22" "a season is there to compare"
cp "$out" "$scratch/csv"
for locale in C.UTF-8 de_DE.UTF-8 tr_TR.UTF-8; do
    # Installed names are written in more than one way: C.utf8, de_DE.utf8.
    wanted=$(echo "$locale" | tr -d '-' | tr 'A-Z' 'a-z')
    if ! locale -a 2>/dev/null | tr -d '-' | tr 'A-Z' 'a-z' | grep -qxF "$wanted"; then
        skip "in $locale" "not installed"
        continue
    fi
    LC_ALL=$locale
    run today --holding data/demo/holding.json --date 2025-04-23 --no-log --json
    same "$scratch/json" "$out" "today in $locale"
    run season --holding data/demo/holding.json --from 2025-04-20 --to 2025-04-22 --csv
    same "$scratch/csv" "$out" "season in $locale"
    LC_ALL=C
done
finish
