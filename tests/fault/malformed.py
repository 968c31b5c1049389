#!/usr/bin/env python3
"""Five hundred files that went wrong on their way, made from seven small good ones: cut,
flipped, saved in other character sets, with huge numbers, long lines, zero bytes, foreign
line ends, too many columns, nothing in them, names and dates twice.

Each is refused with an exit code of its list and one sentence that names the file (and the
line, where there is one), or it is read, and then what was read is what stands in the file:
days of weather are held against a second reader of the same bytes; a holding, a diary or a
model file that is taken gives the answer of the same content written anew by another program.
No try takes more than a second of processor time or 256 MB.

Usage: malformed.py PROGRAM [FOLDER]   (FOLDER keeps the files at fault)
SPDX-License-Identifier: GPL-3.0-or-later"""
import csv
import io
import os
import pathlib
import random
import re
import shutil
import subprocess
import sys
import tempfile

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import second_reader  # pylint: disable=wrong-import-position

REFUSALS = {65, 66, 78}
SECONDS_MOST = 1.0
MEGABYTES_MOST = 256
MESSAGE_MOST = 1200
NEAR = 0.006  # the table is written with at most two decimals

TABLE = """date,tmin_c,tmax_c,rain_mm,rad_mj_m2,rh_pct,wind_m_s
2025-04-12,3.1,13.4,0,18.21,70,2.1
2025-04-13,4.6,14.2,1.2,12.9,81,3.4
2025-04-14,-1.3,11.7,0,23.97,69,1.4
2025-04-15,-0.9,12.9,0,23.85,68,1.2
2025-04-16,2.2,,10.4,6.5,93,5.1
2025-04-17,12.5,21.25,0.3,20.01,55,2.9
2025-04-18,5,15,0,19,64,2
"""
SEMICOLONS = TABLE.replace(",", ";").replace(".", ",")
REANALYSIS = """{"type": "Feature", "geometry": {"type": "Point", "coordinates": [-2.6, 52.3, 140.0]},
 "properties": {"parameter": {
  "T2M_MIN": {"20250412": 3.1, "20250413": 4.6, "20250414": -1.3, "20250415": -0.9},
  "T2M_MAX": {"20250412": 13.4, "20250413": 14.2, "20250414": 11.7, "20250415": 12.9},
  "PRECTOTCORR": {"20250412": 0.0, "20250413": 1.2, "20250414": -999.0, "20250415": 0.4},
  "ALLSKY_SFC_SW_DWN": {"20250412": 18.21, "20250413": 12.9, "20250414": 23.97, "20250415": -999.0},
  "RH2M": {"20250412": 70.0, "20250413": 81.5, "20250414": 69.0, "20250415": 68.0}}},
 "header": {"fill_value": -999.0},
 "parameters": {"T2M_MIN": {"units": "C", "longname": "x"}, "T2M_MAX": {"units": "C", "longname": "x"},
  "PRECTOTCORR": {"units": "mm/day", "longname": "x"}, "RH2M": {"units": "%", "longname": "x"},
  "ALLSKY_SFC_SW_DWN": {"units": "MJ/m^2/day", "longname": "x"}}}
"""
DAILY = """{"latitude": 52.3, "longitude": -2.6, "utc_offset_seconds": 0, "elevation": 140.0,
 "daily_units": {"time": "iso8601", "temperature_2m_max": "\u00b0C", "temperature_2m_min": "\u00b0C",
  "precipitation_sum": "mm", "shortwave_radiation_sum": "MJ/m\u00b2"},
 "daily": {"time": ["2025-04-12", "2025-04-13", "2025-04-14", "2025-04-15"],
  "temperature_2m_max": [13.4, 14.2, 11.7, 12.9],
  "temperature_2m_min": [3.1, 4.6, -1.3, -0.9],
  "precipitation_sum": [0.0, 1.2, null, 0.4],
  "shortwave_radiation_sum": [18.21, 12.9, 23.97, 23.85]}}
"""
HOLDING = """{
  "sugarlea": 1,
  "name": "H\u00fcgel (invented)",
  "site": { "latitude": 52.3, "longitude": -2.6, "elevation_m": 140, "timezone": "Europe/London" },
  "weather": [ { "file": "weather.csv" } ],
  "paddocks": [
    { "id": "pump-field", "area_ha": 1.1, "grass": { "ryegrass": 0.75, "white-clover": 0.25 },
      "soil": "loam", "nitrogen": "normal", "kept": { "how": "grazed", "cover_kg_dm_ha": 2000 } }
  ],
  "animals": [
    { "id": "grey-pony", "class": "equid-laminitis-history", "count": 1, "weight_kg": 285,
      "paddock": "pump-field", "history": [], "fed_daily": [] }
  ]
}
"""
DIARY = """date,time,subject,what,value,unit,note
2025-04-01,06:40,pump-field,grass-nsc,18.2,%,"lab, cut at 6 cm"
2025-04-10,,grey-pony,weight,279,kg,by the scales
2025-04-15,,pump-field,grazed,5,cm,
2025-04-20,07:30,grey-pony,foot-signs,shifting-weight hot-feet,,"both ""fore"" feet"
2025-04-21,,grey-pony,foot-signs,none,,
"""
MODEL = "hay-limits.json"
ADVICE = ["today", "--holding", "holding.json", "--date", "2025-04-23", "--no-log", "--json"]


class Kind:
    """One of the good files: where it stands, what is asked of it, who reads it a second time."""

    def __init__(self, path, text, command, reader):
        self.path, self.good, self.command, self.reader = path, text.encode("utf-8"), command, reader


def kinds():
    weather = ["weather", "--weather", "w.dat", "--csv"]
    model = pathlib.Path("models", MODEL).read_text(encoding="utf-8")
    return {
        "table": Kind("w.dat", TABLE, weather, second_reader.table),
        "semicolons": Kind("w.dat", SEMICOLONS, weather, second_reader.table),
        "reanalysis": Kind("w.dat", REANALYSIS, weather, second_reader.reanalysis),
        "daily": Kind("w.dat", DAILY, weather, second_reader.daily),
        "holding": Kind("holding.json", HOLDING, ADVICE, second_reader.json_anew),
        "diary": Kind("diary.csv", DIARY, ADVICE, second_reader.diary_anew),
        "model": Kind("models/" + MODEL, model, ["params", "--json"], second_reader.json_anew),
    }


def number_spots(text):
    return [m.span() for m in re.finditer(rb"(?<![\w.-])-?\d+(?:[.,]\d+)?(?![\w.-])", text)]


def put(text, span, new):
    return text[:span[0]] + new + text[span[1]:]


def cuts(good, dice):
    every = range(len(good))
    return [(f"cut at byte {i}", good[:i]) for i in (every if len(good) < 24 else sorted(dice.sample(every, 24)))]


def flips(good, dice):
    for _ in range(28):
        i, bit = dice.randrange(len(good)), dice.randrange(8)
        yield f"bit {bit} of byte {i} flipped", put(good, (i, i + 1), bytes([good[i] ^ 1 << bit]))


def encodings(good):
    text = good.decode("utf-8")
    yield "UTF-8 with a mark", b"\xef\xbb\xbf" + good
    yield "two marks", b"\xef\xbb\xbf\xef\xbb\xbf" + good
    yield "Latin-1", text.replace("\u00b2", "2").replace("invented", "erf\u00e4nden").encode("latin-1")
    for name, mark in (("utf-16-le", b"\xff\xfe"), ("utf-16-be", b"\xfe\xff"), ("utf-32-le", b"\xff\xfe\0\0")):
        yield name, text.encode(name)
        yield name + " with a mark", mark + text.encode(name)


def numbers(good, dice):
    spots = number_spots(good)
    for new in (b"1e400", b"-1e400", b"9" * 400, b"0." + b"0" * 400 + b"1", b"NaN", b"Infinity", b"0x1F", b"1e-400",
                b"--1", b"1.2.3", "\u0663".encode("utf-8"), b"12 3", b"1_000"):
        yield f"a number made {new[:12]!r}", put(good, dice.choice(spots), new)


def lines(good, dice):
    rows = good.split(b"\n")
    yield "CR", good.replace(b"\n", b"\r")
    yield "CRLF", good.replace(b"\n", b"\r\n")
    yield "mixed line ends", b"".join(r + (b"\r\n", b"\n", b"\r")[i % 3] for i, r in enumerate(rows[:-1]))
    yield "CR CR LF", good.replace(b"\n", b"\r\r\n")
    yield "no last line end", good.rstrip(b"\n")
    yield "a line of a megabyte", b"\n".join(rows[:2] + [b"7" * (1 << 20)] + rows[2:])
    yield "a megabyte of blanks at a line's end", b"\n".join(rows[:2] + [rows[2] + b" " * (1 << 20)] + rows[3:])
    yield "a million columns", b"\n".join([rows[0] + b",7" * 1000000] + rows[1:])
    yield "first line twice", b"\n".join([rows[0]] + rows)
    yield "first line again in the middle", b"\n".join(rows[:3] + [rows[0]] + rows[3:])
    for i in dice.sample(range(1, len(rows) - 1), 2):
        yield f"line {i + 1} twice", b"\n".join(rows[:i] + [rows[i]] + rows[i:])
    yield "two lines swapped", b"\n".join(rows[:1] + [rows[2], rows[1]] + rows[3:])


def bytes_put_in(good, dice):
    yield "empty", b""
    yield "only a mark", b"\xef\xbb\xbf"
    yield "only blanks", b" \r\n\t\n"
    yield "the whole twice", good + good
    yield "a page", b"<!DOCTYPE html><html><body>404</body></html>\n"
    for new in (b"\0", b"\0" * 70000, b"\x1a", b"\x1b[31m", b"\xff", b"\xc3", b"\xa0", b'"', b"{", b"]"):
        i = dice.randrange(len(good))
        yield f"{new[:6]!r} put in at {i}", put(good, (i, i), new)


def all_of(kind, dice):
    for part in (cuts(kind.good, dice), flips(kind.good, dice), encodings(kind.good), numbers(kind.good, dice),
                 lines(kind.good, dice), bytes_put_in(kind.good, dice)):
        yield from part


class Bench:
    def __init__(self, program):
        self.program = os.path.abspath(program)
        self.folder = pathlib.Path(tempfile.mkdtemp(prefix="sugarlea-malformed-"))
        shutil.copytree("models", self.folder / "models")
        (self.folder / "cache").mkdir()
        shutil.copy("data/demo/weather.csv", self.folder)
        (self.folder / "holding.json").write_text(HOLDING, encoding="utf-8")

    def run(self, kind, content):
        path = self.folder / kind.path
        path.write_bytes(content)
        env = dict(os.environ, SUGARLEA_MODELS=str(self.folder / "models"), LC_ALL="C", TZ="UTC",
                   XDG_CACHE_HOME=str(self.folder / "cache"))
        with open(self.folder / "out", "wb") as out, open(self.folder / "err", "wb") as err:
            child = subprocess.Popen([self.program, *kind.command], cwd=self.folder, env=env,
                                     stdin=subprocess.DEVNULL, stdout=out, stderr=err)
            _, status, used = os.wait4(child.pid, 0)
            child.returncode = os.waitstatus_to_exitcode(status)
        return (child.returncode, (self.folder / "out").read_bytes(), (self.folder / "err").read_bytes(),
                used.ru_utime + used.ru_stime, used.ru_maxrss / 1024)

    def back(self, kind):
        if kind.path == "diary.csv":
            (self.folder / kind.path).unlink()
        elif kind.path != "w.dat":
            (self.folder / kind.path).write_bytes(kind.good)


# A file that is none, or ends where more should come, has no line to name.
NO_LINE = re.compile(r"is empty|zero bytes|UTF-16|UTF-32|web page|no weather|not text|no rows? of|ends before|says nothing")


def refusal_fault(kind, code, out, err):
    text = err.decode("utf-8", "replace")
    lost = re.search(r"[^ :/]+(?=: cannot be opened)", text)
    name = lost[0] if lost else os.path.basename(kind.path)
    if code not in REFUSALS:
        return f"ended with {code}: {text[:200]!r}"
    if out:
        return "refused, and printed an answer"
    if not text.startswith("sugarlea: ") or not text.endswith("\n") or text.count("\n") != 1:
        return f"said {text[:200]!r}"
    if len(err) > MESSAGE_MOST or "\ufffd" in text or re.search(r"[\0-\x09\x0b-\x1f\x7f-\x9f]", text):
        return f"a message too long, or not for a terminal: {text[:200]!r}"
    if name not in text:
        return f"does not name the file: {text[:200]!r}"
    if not lost and not re.search(re.escape(name) + r":\d+", text) and not NO_LINE.search(text):
        return f"no line: {text[:300]!r}"
    return ""


def days_of(out):
    rows = list(csv.DictReader(io.StringIO(out.decode("utf-8"))))
    return {r["date"]: [float(r[c]) if r.get(c) else None for c in second_reader.COLUMNS]
            for r in rows if r["origin"] != "none"}


def days_fault(got, stands):
    for date in sorted(set(got) | set(stands)):
        if date not in stands:
            return f"a day that does not stand in the file: {date} {got[date]}"
        want = stands[date]
        have = got.get(date, [None] * len(want))
        for i, value in enumerate(want):
            if isinstance(value, tuple):
                value = value[0] if have[i] is not None else None
            if (have[i] is None) != (value is None) or (value is not None and abs(have[i] - value) > NEAR):
                return f"{date}, column {i}: read {have[i]}, there stands {value}"
    return ""


def answer_fault(bench, kind, content, out):
    """What is wrong with a file that was read; "" nothing."""
    try:
        stands = kind.reader(content)
    except (ValueError, LookupError, TypeError, AttributeError, csv.Error) as why:
        return f"taken, and the second reader cannot: {why!r}"
    if isinstance(stands, dict):
        return days_fault(days_of(out), stands)
    code, again, err, _, _ = bench.run(kind, stands)
    if code != 0:
        return f"taken, and refused when written anew: {err[:200]!r}"
    return "" if again == out else "another answer than the same content written anew"


def fault(bench, kind, content):
    code, out, err, seconds, megabytes = bench.run(kind, content)
    if seconds > SECONDS_MOST or megabytes > MEGABYTES_MOST:
        return code, f"took {seconds:.2f} s and {megabytes:.0f} MB"
    if code == 0:
        return code, answer_fault(bench, kind, content, out)
    return code, refusal_fault(kind, code, out, err)


def main():
    bench = Bench(sys.argv[1])
    keep = pathlib.Path(sys.argv[2]) if len(sys.argv) > 2 else None
    dice = random.Random(20250423)
    total, failed = 0, 0
    for name, kind in kinds().items():
        bad, taken, tried = [], 0, 0
        code, wrong = fault(bench, kind, kind.good)
        if code != 0 or wrong:
            bad.append(f"  the good one: {code} {wrong}")
        for what, content in all_of(kind, dice):
            code, wrong = fault(bench, kind, content)
            tried, taken = tried + 1, taken + (code == 0)
            if wrong:
                bad.append(f"  {what}: {wrong}")
                if keep:
                    keep.mkdir(parents=True, exist_ok=True)
                    (keep / f"{name}-{tried}").write_bytes(content)
        bench.back(kind)
        print(f"{'not ok' if bad else 'ok'} - {tried} {name} files, {taken} taken")
        print("".join(f"# {b}\n" for b in bad), end="", flush=True)
        total, failed = total + tried, failed + bool(bad)
    shutil.rmtree(bench.folder)
    print(f"# malformed: {total} files")
    return failed > 0


if __name__ == "__main__":
    sys.exit(main())
