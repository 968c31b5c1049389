#!/bin/sh
# Weather files as people have them: other names and units, gaps, and everything
# that must be refused rather than half read.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
w=$scratch/w.csv
good=$scratch/good.csv
record "$good" 2017-01-01 2018-05-14

mean_of() { # FILE: mean sugar of the day from it, g/kg
    today "$1" --date 2018-05-15 --json && number mean "$out"
}
near() { # A B LIMIT
    awk -v a="$1" -v b="$2" -v limit="$3" 'BEGIN { d = a - b; exit !(a > 0 && b > 0 && d <= limit && -d <= limit) }'
}

today "$good" --date 2018-05-15
exits 0 "the morning after a clean record"
plain=$(mean_of "$good")
check "the grass holds some sugar" near "$plain" 150 130

# The same weather under other names and units gives the same sugar.
awk -F, -v OFS=';' 'NR == 1 { print "Datum", "Tmax", "Tmin", "Niederschlag", "Radiation", "RH", "wind 10 m [m/s]"; next }
    { for (i = 2; i <= 7; i++) sub(/\./, ",", $i); print $1, $3, $2, $4, $5, $6, $7 }' "$good" >"$w"
check "semicolons, decimal commas and other names" near "$plain" "$(mean_of "$w")" 0.01
awk -F, -v OFS='\t' 'NR == 1 { print "date", "Tmin (F)", "Tmax (F)", "rain (inch)", "rad", "rh", "wind_10m"; next }
    { printf "%s\t%.3f\t%.3f\t%.5f\t%s\t%s\t%s\n", $1, $2 * 1.8 + 32, $3 * 1.8 + 32, $4 / 25.4, $5, $6, $7 }' "$good" >"$w"
check "tabs, Fahrenheit and inches" near "$plain" "$(mean_of "$w")" 0.05
sed 's/$/\r/' "$good" >"$w"
check "line ends of another system" near "$plain" "$(mean_of "$w")" 0.001
{ printf '\357\273\277' && cat "$good"; } >"$w"
check "a byte-order mark" near "$plain" "$(mean_of "$w")" 0.001
awk 'NR > 1 { printf "\n" } { printf "%s", $0 }' "$good" >"$w"
check "no newline at the end" near "$plain" "$(mean_of "$w")" 0.001
"$PROGRAM" today --weather - --latitude 52.1 --longitude 5.18 --elevation 2 --animal equid-at-risk --no-log \
    --date 2018-05-15 --json <"$good" >"$out" 2>"$err"
check "weather from standard input" near "$plain" "$(number mean "$out")" 0.001

# Gaps: short ones are closed and counted, a long recent one is refused.
grep -v -e '2018-04-0[345]' "$good" >"$w"
today "$w" --date 2018-05-15 --json
exits 0 "a gap of three days is closed"
check "and counted" test "$(number filled_days "$out")" = 3
grep -v -e 2018-04-0 "$good" >"$w"
today "$w" --date 2018-05-15
refused 66 '2018-04-01' "a gap of nine days in the last two months"
sed 's/^\(2018-04-10\),[^,]*,/\1,NaN,/' "$good" >"$w"
today "$w" --date 2018-05-15 --json
exits 0 "NaN counts as missing"
check "and is filled" test "$(number filled_days "$out")" = 1

# Time: nothing from weather that ended long ago, or that is not yet there.
today "$good" --date 2018-09-01
refused 66 '2018-05-14' "weather that ended months ago"
today "$good" --date 2018-09-01 --allow-stale
exits 0 "--allow-stale asks for it all the same"
today "$good" --date 2099-01-01
refused 66 '2018-05-14' "a date in the future"
today "$good" --date 2016-05-01
refused 66 '2017-01-01' "a date before the weather begins"

# A morning in the past: what came later, and the rest of that day, changes nothing.
today data/real/de_bilt_2005-2019.csv --date 2018-05-15 --json
cp "$out" "$scratch/replay"
awk -F, -v OFS=, '$1 == "2018-05-15" { $3 += 9; $4 = 44; $5 = 1 } NR > 1 && $1 > "2018-05-15" { $2 = -8; $3 = 30; $5 = 2 } { print }' \
    data/real/de_bilt_2005-2019.csv >"$w"
today "$w" --date 2018-05-15 --json
exits 0 "a morning in the past"
same "$scratch/replay" "$out" "it knows nothing of what came later"

# Latitudes far from home: not with sunshine that they cannot have.
run today --weather "$good" --latitude -52.1 --animal goat-dry --date 2018-05-15 --no-log
refused 78 'latitude' "a latitude of the other hemisphere"
cut -d, -f1-4 "$good" >"$w"
for latitude in 70 -38 0 90 -90; do
    run today --weather "$w" --latitude "$latitude" --animal goat-dry --date 2018-05-15 --no-log
    exits 0 "latitude $latitude"
    no_nan "$out" "latitude $latitude prints no nan"
done

# Refused, with line and reason; nothing half read.
bad_line() { # SED-EXPRESSION TEXT NAME
    sed "$1" "$good" >"$w"
    today "$w" --date 2018-05-15
    refused 65 "$2" "$3"
}
bad_line 's/^\(2017-[0-9-]*\),[^,]*,[^,]*,/\1,14.2,9.1,/' 'w.csv:2' "Tmin above Tmax on most days"
bad_line 's/^2017-03-02/2017-02-29/' '2017-02-29' "29 February of a common year"
bad_line 's/^2017-03-02/2017-03-32/' 'w.csv:62' "a day that no month has"
bad_line 's/^2017-03-02/2017-03-01/' '2017-03-01' "one date twice"
bad_line 's/^2017-03-02/2017-01-15/' '2017-01-15' "a date that stands in the wrong place"
bad_line 's/^\(2017-03-02\),[^,]*,/\1,warm,/' 'warm' "a word for a number"
bad_line 's/^\(2017-03-02\),[^,]*,/\1,1e400,/' 'w.csv:62' "a number beyond all numbers"
bad_line 's/^\(2017-03-02\),[^,]*,/\1,0x1F,/' '0x1F' "a hexadecimal number"
bad_line 's/^\(2017-03-02\),[^,]*,[^,]*,/\1,9.1,88,/' '88' "88 C in the shade"
bad_line 's/^\(2017-03-02,.*\)/\1,7,7/' 'w.csv:62' "more fields than names"
bad_line '1s/tmin_c/colour/' 'tmin' "no lowest temperature in the file"
bad_line '1d' 'w.csv' "no row of names"
bad_line '1s/tmax_c/tmin_c/' 'tm' "one name twice"

awk 'NR == 60 { printf "2017-02-28,"; for (i = 0; i < 1048576; i++) printf "1"; print "" } { print }' "$good" >"$w"
today "$w" --date 2018-05-15
refused 65 'w.csv:60' "a line of a megabyte"
: >"$w"
today "$w" --date 2018-05-15
refused 65 'empty' "an empty file"
head -1 "$good" >"$w"
today "$w" --date 2018-05-15
refused 65 'w.csv' "names and no days"
today README.md --date 2018-05-15
refused 65 'README.md' "a file that is no weather"
today "$PROGRAM" --date 2018-05-15
refused 65 'sugarlea' "a program for a weather file"
printf '<!DOCTYPE html>\n<html><body>404</body></html>\n' >"$w"
today "$w" --date 2018-05-15
refused 65 'page' "a web page for a weather file"
printf '{"daily":{"time":["2018-05-01"' >"$w"
today "$w" --date 2018-05-15
refused 65 'w.csv' "JSON cut short"
today "$scratch" --date 2018-05-15
refused 66 "$scratch" "a folder for a file"
today "$scratch/absent.csv" --date 2018-05-15
refused 66 'absent.csv' "a file that is not there"
if [ "$(id -u)" -eq 0 ]; then
    skip "a file that may not be read" "root may read everything"
else
    cp "$good" "$w" && chmod 000 "$w"
    today "$w" --date 2018-05-15
    refused 66 'w.csv' "a file that may not be read"
    chmod 600 "$w"
fi

# A pattern is what the holding says; the letters of its folder are only letters, and a file of just that name is meant.
here="$scratch/farm[1]*" other=$scratch/farm1
mkdir "$here" "$other"
cp data/demo/weather.csv "$other/weather.csv"
pattern() { # WHAT: the holding says it
    sed "s/\"file\": \"weather.csv\"/\"file\": \"$1\"/" data/demo/holding.json >"$here/holding.json"
    run weather --holding "$here/holding.json" --csv
}
pattern 'weather*.csv'
refused 66 'no file matches' "a pattern in a folder with brackets does not match a file of the folder beside it"
awk -F, 'NR < 400' data/demo/weather.csv >"$here/weather-1.csv"
pattern 'weather*.csv'
exits 0 "the same with a file there"
last=$(awk -F, 'END { print $1 }' "$here/weather-1.csv")
check "and that is read" test "$(grep recorded "$out" | awk -F, 'END { print $1 }')" = "$last"
mv "$here/weather-1.csv" "$here/weather[1].csv"
head -n 50 data/demo/weather.csv >"$here/weather1.csv"
pattern 'weather[1].csv'
exits 0 "a file with brackets in its name"
check "is itself, not what its name would match" test "$(grep recorded "$out" | awk -F, 'END { print $1 }')" = "$last"
finish
