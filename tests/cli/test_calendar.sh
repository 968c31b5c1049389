#!/bin/sh
# today --calendar: the hours as an iCalendar file, read back by another program (read_calendar.py).
# Forecasts and the southern record are invented. SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh

# When the files are made, s since 1970: half a minute past a minute, so that seconds are seen.
SOURCE_DATE_EPOCH=1795413630
export SOURCE_DATE_EPOCH
python=python3
"$python" -c 'import icalendar' 2>/dev/null || python=/usr/bin/python3 # where Debian's package puts it

# forecast FIRST: six days of a forecast from that day on.
forecast() {
    python3 - "$1" >"$scratch/forecast.json" <<'P'
import json, sys
from datetime import date, timedelta
days = [str(date.fromisoformat(sys.argv[1]) + timedelta(k)) for k in range(6)]
print(json.dumps({"latitude": 52.1, "longitude": 5.18, "utc_offset_seconds": 0, "timezone": "GMT",
    "daily_units": {"temperature_2m_max": "°C", "temperature_2m_min": "°C", "precipitation_sum": "mm",
                    "shortwave_radiation_sum": "MJ/m²"},
    "daily": {"time": days, "temperature_2m_max": [14, 12, 9, 16, 18, 12],
              "temperature_2m_min": [4, 1, -3, 2, 8, 6], "precipitation_sum": [0, 0, 0, 2, 5, 0],
              "shortwave_radiation_sum": [12, 14, 15, 12, 10, 9]}}))
P
}

# holding NAME SITE ANIMALS
holding() {
    cat >"$scratch/holding.json" <<J
{"sugarlea": 1, "name": $1, "site": $2, "weather": [{"file": "w.csv"}, {"file": "forecast.json"}],
 "paddocks": [{"id": "dyke", "area_ha": 1}], "animals": [$3]}
J
}

# agrees NAME ZONE DATE: the calendar against the CSV of the same mornings.
agrees() {
    run today --holding "$scratch/holding.json" --date "$3" --no-log --days 6 --csv
    cp "$out" "$scratch/days.csv"
    run today --holding "$scratch/holding.json" --date "$3" --no-log --calendar "$scratch/a.ics"
    exits 0 "$1"
    "$python" tests/cli/read_calendar.py "$scratch/a.ics" "$scratch/days.csv" "$2" >"$out" 2>&1
    result=$?
    case $result in
    0) pass "$1: another program reads the same mornings" ;;
    77) skip "$1: another program reads the same mornings" "no icalendar for $python" ;;
    *) fail "$1: another program reads the same mornings" "read_calendar.py says $result" ;;
    esac
}

london='{"latitude": 52.1, "longitude": -2.2, "timezone": "Europe/London"}'
some='{"id": "pony", "class": "equid-laminitis-history"}, {"id": "goats", "class": "goat-dry"},
 {"id": "sick", "class": "equid-acute"}, {"id": "cattle", "class": "cattle"}'

# The clocks of Europe went forward on 25 March 2018 and back on 28 October 2018 (Directive 2000/84/EC).
record "$scratch/w.csv" 2016-01-01 2018-03-22
forecast 2018-03-23
holding '"Invented"' "$london" "$some"
agrees "into summer time" Europe/London 2018-03-23
contains "$scratch/a.ics" 'SUMMARY:sick: off grass\, hay instead' "none is a day off grass"
contains "$scratch/a.ics" 'DTSTART;VALUE=DATE:20180323' "which lasts all day"
contains "$scratch/a.ics" 'no limit for sugar' "free is said, too"
run today --holding "$scratch/holding.json" --date 2018-03-23 --no-log --calendar "$scratch/b.ics" --json
same "$scratch/a.ics" "$scratch/b.ics" "the same morning gives the same bytes"
lacks "$out" '"days":[' "a calendar changes no JSON"
run today --holding "$scratch/holding.json" --date 2018-03-23 --no-log --days 2 --calendar "$scratch/b.ics"
check "--days 2: two days a group" test "$(grep -c BEGIN:VEVENT "$scratch/b.ics")" -eq 8
contains "$out" 'Calendar: 2 days, to Sat 24 Mar, written to' "and it says where"
lacks "$scratch/a.ics" '52.1' "no coordinates in it"

# Made anew within the day, when signs were recorded: RFC 5546, 2.1.4, takes the higher SEQUENCE, then the later DTSTAMP.
field() { # NAME FILE: of the first event
    sed -n "s/^$1:\([0-9TZ]*\).*/\1/p" "$2" | head -1
}
later() { # FILE SECONDS: the same morning, made so much later
    SOURCE_DATE_EPOCH=$((1795413630 + $2)) "$PROGRAM" today --holding "$scratch/holding.json" --date 2018-03-23 --no-log \
        --calendar "$1" >"$out" 2>"$err"
}
later "$scratch/b.ics" 20
check "twenty seconds later: a later DTSTAMP" test "$(field DTSTAMP "$scratch/a.ics") $(field DTSTAMP "$scratch/b.ics")" = \
    "20261123T060030Z 20261123T060050Z"
check "and LAST-MODIFIED" test "$(field LAST-MODIFIED "$scratch/b.ics")" = 20261123T060050Z
later "$scratch/b.ics" 60
check "a minute later: a higher SEQUENCE" test "$(field SEQUENCE "$scratch/b.ics")" -gt "$(field SEQUENCE "$scratch/a.ics")"

# Tomorrow's file replaces the events of the days that both know.
record "$scratch/w.csv" 2016-01-01 2018-03-23
SOURCE_DATE_EPOCH=$((SOURCE_DATE_EPOCH + 86400))
run today --holding "$scratch/holding.json" --date 2018-03-24 --no-log --calendar "$scratch/b.ics"
check "the same day and group keep their UID, in all five days" test \
    "$(cat "$scratch/a.ics" "$scratch/b.ics" | grep '^UID' | sort | uniq -d | grep -c '')" -eq 20
sequence() { grep -A3 "^UID:20180326" "$1" | sed -n 's/^SEQUENCE:\([0-9]*\).*/\1/p' | head -1; }
check "and the later file a higher SEQUENCE" test "$(sequence "$scratch/b.ics")" -gt "$(sequence "$scratch/a.ics")"

record "$scratch/w.csv" 2016-01-01 2018-10-25
forecast 2018-10-26
agrees "out of summer time" Europe/London 2018-10-26

# South of the equator: the record half a year later, and the clocks that go back in April.
python3 - "$scratch" <<'P'
import csv, sys
from datetime import date, timedelta
rows = csv.DictReader(open("data/real/de_bilt_2005-2019.csv"))
with open(sys.argv[1] + "/w.csv", "w") as f:
    print("date,tmin_c,tmax_c,rain_mm,rad_mj_m2", file=f)
    for r in rows:
        d = date.fromisoformat(r["date"]) + timedelta(183)
        if "2016" <= str(d) < "2019-04-05":
            print(d, r["tmin_c"], r["tmax_c"], r["rain_mm"], r["rad_mj_m2"], sep=",", file=f)
P
forecast 2019-04-05
holding '"South"' '{"latitude": -52.1, "longitude": 169.1, "timezone": "Pacific/Auckland"}' "$some"
agrees "south of the equator" Pacific/Auckland 2019-04-05

# A long session begins in the evening and ends the next day.
record "$scratch/w.csv" 2016-01-01 2018-05-17
forecast 2018-05-18
holding '"Overnight"' "$london" "$some"
agrees "over midnight" Europe/London 2018-05-18
check "a session does end the next day" awk -F, '$3 == "timed" && $6 < $5 { found = 1 } END { exit !found }' \
    "$scratch/days.csv"

record "$scratch/w.csv" 2016-01-01 2018-09-11
forecast 2018-09-12
# Twelve groups, and names that would be read as something else.
many=$(for i in 1 2 3 4 5 6 7 8 9 10 11 12; do
    printf '%s{"id": "grün.日本語-ペットの山羊_%s", "class": "goat-dry"}' "${sep:-}" "$i"
    sep=', '
done)
holding '"BEGIN:VALARM; a, b\\n \" \\\\ END:VEVENT 🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴🐴"' "$london" "$many"
agrees "twelve groups with names from everywhere" Europe/London 2018-09-12
check "no line of a name stands on its own" test "$(grep -c '^BEGIN:VALARM' "$scratch/a.ics")" -eq 0

# Foot signs, and the vet's word on the way back, stand in the title.
holding '"Invented"' "$london" "$some"
run record --holding "$scratch/holding.json" --date 2018-09-11 foot-signs pony shifting-weight
run today --holding "$scratch/holding.json" --date 2018-09-12 --no-log --calendar "$scratch/a.ics"
contains "$scratch/a.ics" 'SUMMARY:pony: off grass\, hay instead (foot signs)' "foot signs"
rm "$scratch/diary.csv"

# Without a forecast there is this morning, without a clock there is nothing.
sed 's/, {"file": "forecast.json"}//' "$scratch/holding.json" >"$scratch/alone.json"
run today --holding "$scratch/alone.json" --date 2018-09-12 --no-log --calendar "$scratch/a.ics"
exits 0 "no forecast"
contains "$out" 'Note: there is no forecast for the days ahead' "is said"
check "and this morning written" test "$(grep -c BEGIN:VEVENT "$scratch/a.ics")" -eq 4
rm "$scratch/a.ics"
today "$scratch/w.csv" --date 2018-09-12 --calendar "$scratch/a.ics"
refused 64 'timezone' "times by the sun are no calendar's"
check "and nothing is written" test ! -e "$scratch/a.ics"
today "$scratch/w.csv" --date 2018-09-12 --calendar "$scratch/holding.json"
refused 64 '.ics' "a file of another kind is not written over"
run today --holding "$scratch/holding.json" --date 2018-09-12 --no-log --calendar "$scratch/nowhere/a.ics"
exits 73 "a folder that is not there"
contains "$out" 'pony: 1 x' "the advice is given all the same"
lacks "$out" 'Calendar:' "and no calendar claimed"
finish
