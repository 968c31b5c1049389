#!/bin/sh
# sugarlea weather: what was read, what is missing, what is doubted; and back again.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
w=$scratch/w.csv

weather() { # FILE ARGUMENT...: at De Bilt
    file=$1
    shift
    run weather --weather "$file" --latitude 52.1 --date 2018-05-15 "$@"
}

record "$w" 2017-01-01 2018-05-14
weather "$w"
exits 0 "a sound record"
contains "$out" "2017-01-01 to 2018-05-14" "the span is told"
contains "$out" "499 days recorded, 0 forecast, 0 filled in, 0 missing." "every day is counted"
matches "$out" '^  2017 [=?]{53}$' "a strip of 53 weeks a year"
matches "$out" '^  2018 [=?]{20}$' "the year that has begun ends where the record does"
run weather --weather "$w"
exits 0 "no place is needed"

# Days taken out: a short gap is filled, a long one named, a recent long one stops.
grep -v '^2017-06-1[0-2]' "$w" >"$scratch/short.csv"
weather "$scratch/short.csv" --json
exits 0 "three days missing"
contains "$out" '"recorded":496,"forecast":0,"filled":3,"missing":0' "they are filled"
weather "$scratch/short.csv"
contains "$out" '10 June 2017 to 12 June 2017' "the gap is named"
matches "$out" '^  2017 [=?]{22}[=+?]' "and stands in the strip"
grep -v '^2018-05-0' "$w" >"$scratch/long.csv"
weather "$scratch/long.csv"
exits 0 "nine days missing close to the end: the command still tells"
contains "$out" 'No advice until this is mended' "it says that no advice can be given"
contains "$out" '2018-05-01 to' "and names the gap"
weather "$scratch/long.csv" --json
contains "$out" '"stops":"no ' "the same for machines"
today "$scratch/long.csv" --date 2018-05-15
refused 66 '2018-05-01' "and today refuses indeed"

# One value that cannot be right: named, not changed.
awk -F, -v OFS=, '$1 == "2018-03-12" { $3 += 25 } { print }' "$w" >"$scratch/slip.csv"
weather "$scratch/slip.csv" --json
matches "$out" '"date":"2018-03-12".{0,40}"variable":"tmax_c"' "a day far too warm is doubted"
weather "$scratch/slip.csv" --csv
matches "$out" '^2018-03-12,recorded,' "and stays what it was"
want=$(awk -F, '$1 == "2018-03-12" { print $3 + 0 }' "$scratch/slip.csv")
have=$(awk -F, '$1 == "2018-03-12" { print $4 + 0 }' "$out")
check "to the digit" test "$want" = "$have"

# One day with its temperatures exchanged is no reason to refuse a record.
awk -F, -v OFS=, '$1 == "2018-05-10" { $2 = 14.2; $3 = 9.1 } { print }' "$w" >"$scratch/crossed.csv"
weather "$scratch/crossed.csv" --json
matches "$out" '"date":"2018-05-10".{0,80}"id":"swapped"' "Tmin above Tmax is doubted"
contains "$out" '"recorded":498,"forecast":0,"filled":1,"missing":0' "and the day is filled in"
today "$scratch/crossed.csv" --date 2018-05-15
exits 0 "an advice is given"
contains "$out" "minimum of 14.2 C is above the" "and says it"

# The table written out reads back as the same weather.
weather "$w" --csv
cp "$out" "$scratch/tidy.csv"
weather "$scratch/tidy.csv" --csv
same "$scratch/tidy.csv" "$out" "the table reads back as it was written"

# Rain, radiation later than the temperatures.
awk -F, -v OFS=, 'NR > 1 && $1 >= "2018-05-10" { $5 = "" } { print }' "$w" >"$scratch/late.csv"
weather "$scratch/late.csv"
matches "$out" 'radiation +2018-05-09, 5 days old' "each variable has its own age"
today "$scratch/late.csv" --date 2018-05-15
contains "$out" 'radiation was recorded to 2018-05-09' "and today says it"

# Hints.
weather "$w" --layout cvs
refused 64 'did you mean "csv"' "a layout mistyped"
weather "$w" --file-units imperial
refused 64 'metric' "units that are none"
weather "$w" --layout csv --file-units metric
exits 0 "hints that fit"
run help weather
contains "$out" 'reanalysis-json' "the help names the layouts"
run weather
refused 64 'weather' "no weather named"
run weather --weather "$scratch/nowhere.csv"
refused 66 'nowhere.csv' "a file that is not there"
finish
