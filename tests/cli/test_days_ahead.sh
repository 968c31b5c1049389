#!/bin/sh
# today --days: the mornings that a forecast reaches. The forecast is invented, in the
# documented layout of a forecast service. SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh

record "$scratch/w.csv" 2017-01-01 2018-05-14
cat >"$scratch/forecast.json" <<'J'
{"latitude": 52.1, "longitude": 5.18, "utc_offset_seconds": 7200, "timezone": "Europe/Amsterdam",
 "current": {"time": "2018-05-15T05:00", "temperature_2m": 9.1},
 "daily_units": {"temperature_2m_max": "°C", "temperature_2m_min": "°C", "precipitation_sum": "mm",
                 "shortwave_radiation_sum": "MJ/m²"},
 "daily": {"time": ["2018-05-15", "2018-05-16", "2018-05-17", "2018-05-18"],
   "temperature_2m_max": [22.0, 17.0, 12.0, 11.0], "temperature_2m_min": [9.0, 6.0, 0.5, -1.5],
   "precipitation_sum": [0.0, 1.2, 0.0, 0.0], "shortwave_radiation_sum": [22.0, 18.0, 26.0, 27.0]}}
J
cat >"$scratch/holding.json" <<'J'
{"sugarlea": 1, "name": "Invented", "site": {"latitude": 52.1, "longitude": 5.18, "timezone": "Europe/Amsterdam"},
 "weather": [{"file": "w.csv"}, {"file": "forecast.json"}],
 "paddocks": [{"id": "dyke", "area_ha": 1}],
 "animals": [{"id": "ponies", "class": "pony"}, {"id": "goats", "class": "goat-dry"}]}
J
ahead() {
    run today --holding "$scratch/holding.json" --date 2018-05-15 --no-log "$@"
}

ahead --days 4 --csv
exits 0 "four mornings"
check "a row for each group and morning" test "$(wc -l <"$out")" -eq 9
matches "$out" '^2018-05-18,goats,' "the last one among them"
ahead --days 4 --json
cp "$out" "$scratch/four.json"
ahead --json
cp "$out" "$scratch/one.json"
lacks "$out" '"days":[' "without --days there is no list of days"
check "the first morning is the same with and without" sh -c "
    sed 's/,\"days\":\[.*\],\"warnings\"/,\"warnings\"/' '$scratch/four.json' | cmp -s - '$scratch/one.json'"
matches "$scratch/four.json" '"days":\[\{"date":"2018-05-15",.*\{"date":"2018-05-18",' "the days for machines"
# Cold nights and bright days keep sugar in the grass (the model's main effect): the
# forecast turns cold, and the level rises from the second morning to the last.
ahead --days 4 --csv
second=$(awk -F, '$1 == "2018-05-16" && $2 == "ponies" { print $12 }' "$out")
last=$(awk -F, '$1 == "2018-05-18" && $2 == "ponies" { print $12 }' "$out")
check "sugar rises into the cold spell ($second to $last g/kg)" awk "BEGIN { exit !($last > $second) }"
ahead --days 4
contains "$out" 'The days ahead by the forecast, for ponies' "in words"
matches "$out" '^  Fri 18 May .* frost' "the frost of the last morning is told"
ahead --days 9
contains "$out" '4 of the 9 mornings' "a forecast that ends earlier"
matches "$out" 'Look again each morning' "trust it less the farther it reaches"

ahead --days 0
refused 64 'days' "no mornings at all"
ahead --days 40
refused 64 'days' "more than any forecast has"
today "$scratch/w.csv" --date 2018-05-15 --days 3
exits 0 "without a forecast"
contains "$out" 'no forecast' "only this morning, and it says so"

# Written out and read back, a forecast stays one.
run weather --holding "$scratch/holding.json" --csv
cp "$out" "$scratch/all.csv"
matches "$out" '^2018-05-18,forecast,-1.5,' "the forecast is written out as such"
today "$scratch/all.csv" --date 2018-05-15 --days 4 --csv
check "and read back as such" test "$(wc -l <"$out")" -eq 5

# A record that lags behind the forecast: filled in between, and told; it may be as old as
# one without a forecast, and no older.
older() { # LAST DAY of the record, DAYS missing before the forecast
    record "$scratch/w.csv" 2017-01-01 "$1"
    ahead --json
}
older 2018-05-08
exits 0 "six days between record and forecast"
contains "$out" 'Provisional: the weather was recorded to 2018-05-08; for the 6 days since stands: values between' \
    "are told"
contains "$out" '"age_days":6' "and counted"
older 2018-05-06
refused 66 'older than 7 days' "eight are too many"
record "$scratch/w.csv" 2017-01-01 2018-05-14

# Forecast alone is no past.
sed 's/{"file": "w.csv"}, //' "$scratch/holding.json" >"$scratch/alone.json"
run today --holding "$scratch/alone.json" --date 2018-05-15 --no-log
refused 66 'record' "a forecast alone does not do"
finish
