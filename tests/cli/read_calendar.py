"""Holds an iCalendar file of sugarlea against the same mornings as CSV.

read_calendar.py FILE.ics FILE.csv ZONE. The bytes are looked at here (RFC 5545, 3.1); the events are
read by the icalendar package, and their instants turned into wall clock by Python's zoneinfo. The file was made
at SOURCE_DATE_EPOCH.
Exit 77: that package is not there. SPDX-License-Identifier: GPL-3.0-or-later
"""
import csv
import os
import sys
from datetime import date, datetime, timedelta, timezone
from zoneinfo import ZoneInfo

raw = open(sys.argv[1], "rb").read()
rows = list(csv.DictReader(open(sys.argv[2], encoding="utf-8")))
zone = ZoneInfo(sys.argv[3])

assert raw.endswith(b"\r\n"), "the last line has its end"
lines = raw.split(b"\r\n")[:-1]
for line in lines:
    assert b"\r" not in line and b"\n" not in line, line
    assert 0 < len(line) <= 75, (len(line), line)
    line.decode("utf-8")  # no character is cut in two
    assert not any(c < 0x20 for c in line), line

try:
    from icalendar import Calendar
except ImportError:
    sys.exit(77)

calendar = Calendar.from_ical(raw)
assert calendar["VERSION"] == "2.0" and calendar["PRODID"]
events = calendar.walk("VEVENT")
assert len(events) == len(rows) > 0, (len(events), len(rows))
assert len({str(e["UID"]) for e in events}) == len(events), "a UID stands twice"
made = int(os.environ["SOURCE_DATE_EPOCH"])
for event, row in zip(events, rows):
    day = date.fromisoformat(row["date"])
    start, end = event["DTSTART"].dt, event["DTEND"].dt
    summary, text = str(event["SUMMARY"]), str(event["DESCRIPTION"])
    assert summary.startswith(row["animal"] + ": "), (summary, row)
    assert "not a diagnosis" in text and row["paddock"] in text, text
    assert event["TRANSP"] == "TRANSPARENT"
    assert event["DTSTAMP"].dt == event["LAST-MODIFIED"].dt == datetime.fromtimestamp(made, timezone.utc)
    assert event["SEQUENCE"] == made // 60
    assert ("muzzle" in summary) == (row["muzzle"] == "1"), (summary, row)
    if row["turnout"] in ("none", "free"):
        assert (start, end) == (day, day + timedelta(1)) and not isinstance(start, datetime), (start, end)
        assert ("off grass" in summary) == (row["turnout"] == "none"), (summary, row)
        continue
    begins = datetime.combine(day, datetime.strptime(row["from"], "%H:%M").time())
    if begins + timedelta(hours=float(row["hours"])) > datetime.combine(day + timedelta(1), datetime.min.time()):
        # over midnight: an event of the day, that says which hours are off grass
        assert (start, end) == (day, day + timedelta(1)) and not isinstance(start, datetime), (start, end)
        assert f"all day and night but from {row['to']} to {row['from']}" in summary, (summary, row)
        continue
    assert start.utcoffset() == timedelta(0) and "on grass" in summary, (start, summary)
    assert end - start == timedelta(hours=float(row["hours"])), (start, end, row)
    local = start.astimezone(zone)
    assert (local.date(), local.strftime("%H:%M")) == (day, row["from"]), (local, row)
    assert end.astimezone(zone).strftime("%H:%M") == row["to"], (end, row)
