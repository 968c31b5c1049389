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
# Letters whose small form is another one in Turkish: DATE, TMIN, RAIN, and TIME, UNIT of a diary.
record "$scratch/small.csv" 2019-01-01 2019-03-31
tr 'a-z' 'A-Z' <"$scratch/small.csv" >"$scratch/LARGE.csv"
large() {
    run weather --weather "$scratch/LARGE.csv" --latitude 52.1 --longitude 5.18 --elevation 2 --csv
}
large
contains "$out" "2019-03-31," "a table with names in capitals is there to compare"
cp "$out" "$scratch/large"
mkdir "$scratch/farm"
cp data/demo/holding.json data/demo/weather.csv "$scratch/farm"
echo 'DATE,TIME,SUBJECT,WHAT,VALUE,UNIT,NOTE
2025-04-22,06:40,wethers,weight,66,KG,
2025-04-22,06:40,donkey,foot-signs,SHIFTING-WEIGHT,,
2025-04-22,06:40,old-bank,sward-height,3,IN,' >"$scratch/farm/diary.csv"
entries() {
    run_in "$scratch/farm" today --date 2025-04-23 --no-log
}
entries
contains "$out" "66 kg (diary, 2025-04-22)" "a diary in capitals is there to compare"
cp "$out" "$scratch/entries"

# A locale that is not installed is made, where its sources are.
mkdir "$scratch/locales"
made() { # LOCALE
    if localedef -i "${1%.*}" -f UTF-8 "$scratch/locales/$1" >/dev/null 2>&1 && [ -d "$scratch/locales/$1" ]; then
        LOCPATH=$scratch/locales
        export LOCPATH
    else
        false
    fi
}

for locale in C.UTF-8 de_DE.UTF-8 tr_TR.UTF-8; do
    # Installed names are written in more than one way: C.utf8, de_DE.utf8.
    wanted=$(echo "$locale" | tr -d '-' | tr 'A-Z' 'a-z')
    unset LOCPATH
    if ! locale -a 2>/dev/null | tr -d '-' | tr 'A-Z' 'a-z' | grep -qxF "$wanted" && ! made "$locale"; then
        skip "in $locale" "not installed, and localedef cannot make it"
        continue
    fi
    LC_ALL=$locale
    run today --holding data/demo/holding.json --date 2025-04-23 --no-log --json
    same "$scratch/json" "$out" "today in $locale"
    run season --holding data/demo/holding.json --from 2025-04-20 --to 2025-04-22 --csv
    same "$scratch/csv" "$out" "season in $locale"
    large
    same "$scratch/large" "$out" "a table with names in capitals in $locale"
    entries
    same "$scratch/entries" "$out" "a diary in capitals in $locale"
    LC_ALL=C
done
finish
