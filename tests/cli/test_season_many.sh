#!/bin/sh
# A season of many places: each has the rows that it has alone, in the order read, whatever the
# number of threads; what is wrong with one is said and costs no other.
# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck disable=SC2086 # $all is several words
. tests/cli/lib.sh
many=$scratch/many.csv
all="--animal pony --from 1900-01-01"

# Three sites out of two shipped records, the third shorter, with a place of its own each.
run weather --weather data/real/de_bilt_2005-2019.csv --csv
cp "$out" "$scratch/bilt.csv"
run weather --weather data/real/dublin_airport_2010-2020.csv --csv
cp "$out" "$scratch/dublin.csv"
site() { # NAME LATITUDE FIRST LAST FILE: rows of the many-sites table from a tidy one
    awk -F, -v OFS=, -v name="$1" -v at="$2" -v first="$3" -v last="$4" '
        NR > 1 && $1 >= first && $1 <= last { print name, at, 5, 10, $1, $3, $4, $5 }' "$5"
}
{
    echo 'site,latitude,longitude,elevation,date,tmin_c,tmax_c,rain_mm'
    site '"Inland, east"' 52.1 2015-01-01 2017-12-31 "$scratch/bilt.csv"
    site '=Coast' 53.4 2014-01-01 2016-12-31 "$scratch/dublin.csv"
    site 'Short' 52.1 2016-01-01 2016-03-31 "$scratch/bilt.csv"
} >"$many"

run season --csv --weather "$many" $all
exits 0 "a table of three sites"
cp "$out" "$scratch/together"
check "the site stands in front" test "$(head -n 1 "$out" | cut -c1-17)" = site,date,origin,
check "every day of each has a row" test "$(wc -l <"$out")" -eq $((1 + 1096 + 1096 + 91))
contains "$out" '"Inland, east",2015-01-01,' "a name with a comma is a field"
contains "$out" "\"'=Coast\",2014-01-01," "and none becomes a formula"
check "in the order of the file" test "$(cut -d, -f1 "$out" | uniq | wc -l)" -eq 4

# Each alone, by the way that a single site goes.
alone() { # NAME ITS-ROWS-BEGIN-WITH FIRST-LINE LINES FIRST-DAY
    {
        head -n 1 "$many"
        tail -n +"$3" "$many" | head -n "$4"
    } >"$scratch/alone.csv"
    run season --csv --weather "$scratch/alone.csv" --animal pony --from "$5"
    tail -n +2 "$out" >"$scratch/one"
    tail -n +"$3" "$scratch/together" | head -n "$4" | sed "s/^$2,//" >"$scratch/of-many"
    check "$1 has the rows that it has alone" cmp -s "$scratch/one" "$scratch/of-many"
    check "$1 has rows" test "$(wc -l <"$scratch/one")" -eq "$4"
}
alone "the first" '"Inland, east"' 2 1096 2015-01-01
alone "the second" "\"'=Coast\"" 1098 1096 2014-01-01
alone "the third" Short 2194 91 2016-01-01

for jobs in 1 2 7; do
    run season --csv --weather "$many" $all --jobs $jobs
    check "the same bytes with $jobs threads" cmp -s "$out" "$scratch/together"
done
run season --csv --weather "$many" --animal pony --from 2016-03-30 --to 2017-01-02
check "each gives what it has of the days asked for" \
    test "$(cut -d, -f1 "$out" | tail -n +2 | sed 's/.*Inl.*/I/' | uniq -c | awk '{ printf "%s ", $1 }')" = "279 277 2 "
run season --csv --weather "$many" --latitude 52.1 --longitude 5
check "with a place the nearest is taken, as ever" test "$(head -n 1 "$out" | cut -c1-5)" = date,
run season --weather "$many"
contains "$err" '"season --csv" takes all of' "without --csv it is said how to have them all"

# A list.
ls data/real/*.csv >"$scratch/list"
"$PROGRAM" season --csv --list - --latitude 52.1 --animal pony --from 2010-01-01 <"$scratch/list" >"$out" 2>"$err"
code=$?
exits 0 "a list on standard input"
check "a file without a name for its site goes by its path" grep -q '^data/real/de_bilt_2005-2019.csv,2010-01-01' "$out"
printf '\357\273\277%s\r\n\n%s\n%s\n' "$many" "$scratch/no-such.csv" data/real/de_bilt_2005-2019.csv >"$scratch/list"
printf 'date,tmin,tmax,rain\n2020-01-01,1,2,x\n' >"$scratch/wrong.csv"
echo "$scratch/wrong.csv" >>"$scratch/list"
run season --csv --list "$scratch/list" $all
exits 65 "a list with faults"
contains "$err" "no-such.csv: cannot be opened" "the missing file is named"
contains "$err" "wrong.csv:2:16: rain: \"x\" is not a number" "the wrong one, too, with its place"
contains "$err" "de_bilt_2005-2019.csv: --latitude: is needed" "and the one that does not say where it is"
contains "$err" "3 places or files have no rows" "and they are counted"
check "the others have all their rows" cmp -s "$out" "$scratch/together"

# Sites that cannot be advised on.
{
    cat "$many"
    echo "Bare,52,5,3,2016-01-01,1,2,3"
    echo "Bare,52,5,3,2016-12-01,1,2,3"
} >"$scratch/gap.csv"
run season --csv --weather "$scratch/gap.csv" $all
exits 65 "a site with a gap too long"
contains "$err" "gap.csv: site Bare: " "is named"
contains "$err" "1 place or file has no rows" "and counted"
check "and the rows of the others are there" cmp -s "$out" "$scratch/together"

{
    cat "$many"
    echo "Short,52.1,5,10,2016-04-01,1,2,3"
    echo "Inland,52.1,5,10,2016-04-01,1,2,3"
    echo "Short,52.1,5,10,2016-04-02,1,2,3"
} >"$scratch/back.csv"
run season --csv --weather "$scratch/back.csv" $all
exits 65 "a site that comes back"
contains "$err" "back.csv:2287: site: the site \"Short\" began on line 2194 and comes back here" "is refused, with its line"

# Options that do not go together.
run season --list "$scratch/list"
exits 64 "--list without --csv"
run season --csv --list "$scratch/list" --weather "$many"
exits 64 "--list with --weather"
run season --csv --list "$scratch/list" --holding data/demo/holding.json
exits 64 "--list with a holding"
contains "$err" "goes without a holding" "it is said why"
run season --csv --list "$scratch/no-such-list"
exits 66 "a list that is not there"
"$PROGRAM" season --csv --weather "$many" $all >/dev/full 2>"$err"
code=$?
exits 74 "an answer that cannot be written"
"$PROGRAM" season --csv --weather "$many" $all 2>"$err" | head -n 1 >"$out"
contains "$out" "site,date" "a reader that goes away ends it"

# Many sites without a place among others.
{
    echo 'site,latitude,longitude,elevation,date,tmin_c,tmax_c,rain_mm'
    for n in $(seq 100 299); do
        at=52.1
        [ $((n % 3)) -eq 0 ] || at=
        site "place-$n" "$at" 2015-01-01 2015-01-05 "$scratch/bilt.csv"
    done
} >"$scratch/nowhere.csv"
run season --csv --weather "$scratch/nowhere.csv" $all --jobs 2
exits 65 "sites without a place among others"
contains "$err" "134 places or files have no rows" "are counted"
check "and cost no other" test "$(cut -d, -f1 "$out" | uniq | grep -c '^place-')" -eq 66
finish
