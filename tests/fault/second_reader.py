"""Reads the small files of malformed.py a second time, by Python's own csv and json.
Weather comes back as {date: [tmin, tmax, rain, radiation, humidity, wind]}, a value alone in
a tuple when the name of its column is damaged, so that it may be left out; the others as the same content written anew. What cannot be read raises. SPDX-License-Identifier: GPL-3.0-or-later"""
import csv
import datetime
import io
import json
import re

COLUMNS = ("tmin_c", "tmax_c", "rain_mm", "rad_mj_m2", "rh_pct", "wind_m_s")
csv.field_size_limit(1 << 24)
MISSING = {"", "nan", "na", "-", "null"}
NONE_MEASURED = 999.0  # a code for that, whichever way a file's own reads


def text_of(content, errors="strict"):
    return content.decode("utf-8", errors).lstrip("\ufeff")


def number(text, comma=False):
    text = text.strip()
    if text.lower() in MISSING:
        return None
    if comma:
        text = text.replace(",", ".")
    if not re.fullmatch(r"[-+]?(\d+\.?\d*|\.\d+)([eE][-+]?\d+)?", text, re.ASCII):
        raise ValueError(f"no number: {text!r}")
    return float(text)


def day(text):
    return datetime.date.fromisoformat(text.strip()).isoformat()


def rows_of(content, separator):
    text = re.sub("\r*\n|\r", "\n", text_of(content, "replace"))
    rows = csv.reader(io.StringIO(text), delimiter=separator, skipinitialspace=True, strict=True)
    return [r for r in rows if any(cell.strip() for cell in r)]


def measured(name):
    """A column name by its first word, whatever a bad byte did to it or to the unit behind."""
    letters = re.sub("[^a-z]", "", name.lower())
    return next((c for c in COLUMNS if letters.startswith(c.split("_", maxsplit=1)[0])), letters)


def table(content):
    separator = ";" if b";" in content.splitlines()[0] else ","
    rows = rows_of(content, separator)
    names, exact = [measured(n) for n in rows[0]], [n.strip().lower() for n in rows[0]]
    if len(set(names)) != len(names):
        raise ValueError("one name twice")
    days = {}
    for row in [r for r in rows[1:] if r != rows[0]]:
        date = day(row[names.index("date")])
        if date in days:
            raise ValueError(f"{date} twice")
        cell = dict(zip(names, row))
        values = [number(cell.get(c, ""), separator == ";") for c in COLUMNS]
        days[date] = [v if c in exact else (v,) for c, v in zip(COLUMNS, values)]
    return days


def once(pairs):
    if len({k for k, _ in pairs}) != len(pairs):
        raise ValueError("one key twice")
    return dict(pairs)


def no_constant(text):
    raise ValueError(f"{text} is no number of JSON")


def json_of(content):
    return json.loads(text_of(content), object_pairs_hook=once, parse_constant=no_constant)


def filled(columns, dates):
    days = {}
    for date in dates:
        days[date] = [c.get(date) for c in columns]
    return days


def reanalysis(content):
    doc = json_of(content)
    block, fill = doc["properties"]["parameter"], doc["header"].get("fill_value", -999)
    columns = []
    for name in ("T2M_MIN", "T2M_MAX", "PRECTOTCORR", "ALLSKY_SFC_SW_DWN", "RH2M", "WS2M"):
        read = {day(f"{k[:4]}-{k[4:6]}-{k[6:]}"): v for k, v in block.get(name, {}).items()}
        columns.append({k: v for k, v in read.items() if v not in (fill, NONE_MEASURED)})
    return filled(columns, sorted(set().union(*columns)))


def daily(content):
    block = json_of(content)["daily"]
    dates = [day(d) for d in block["time"]]
    columns = [dict(zip(dates, block.get(name, []))) for name in (
        "temperature_2m_min", "temperature_2m_max", "precipitation_sum", "shortwave_radiation_sum", "", "")]
    return filled(columns, dates)


def json_anew(content):
    return json.dumps(json_of(content), indent=1).encode("ascii")


def diary_anew(content):
    text = text_of(content, "replace")
    separator = ";" if ";" in (text.splitlines() or [""])[0] else ","
    out = io.StringIO()
    csv.writer(out, quoting=csv.QUOTE_ALL, lineterminator="\n").writerows(rows_of(text.encode("utf-8"), separator))
    return out.getvalue().encode("utf-8")
