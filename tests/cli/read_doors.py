#!/usr/bin/env python3
"""What hostile text must not become, by kind of output: read_doors.py KIND FILE...
text: no control character, no turn of writing direction. json: one document, by the letter of RFC 8259, without
control characters.
csv: rows of one length, no cell that a spreadsheet takes for a formula (OWASP, CSV injection).
html, svg: no element or attribute that our pages do not have. ics: RFC 5545 lines, no property of the text's own.
SPDX-License-Identifier: GPL-3.0-or-later"""
import csv
import html.parser
import io
import json
import re
import sys
import unicodedata

NEVER = {"script", "img", "iframe", "object", "embed", "link", "base", "form", "input", "foreignobject", "image", "a"}


def text(bytes_, never=("Cc", "Cf", "Zl", "Zp")):
    wrong = []
    for line in bytes_.decode("utf-8").split("\n"):
        wrong += [f"U+{ord(c):04X} in {line[:60]!r}" for c in line if unicodedata.category(c) in never]
    return wrong


class Page(html.parser.HTMLParser):
    def __init__(self):
        super().__init__()
        self.wrong = []

    def handle_starttag(self, tag, attrs):
        if tag.lower() in NEVER:
            self.wrong.append(f"<{tag}>")
        for name, value in attrs:
            if name.lower().startswith("on") or re.match(r"\s*(javascript|data):", value or "", re.I):
                self.wrong.append(f"{name}={value!r}")


def html_(bytes_):
    page = Page()
    page.feed(bytes_.decode("utf-8"))
    return page.wrong + text(bytes_.replace(b"\t", b" "))  # gnuplot lays its SVG out with tabs


def json_(bytes_):
    def refuse(name):
        raise ValueError(f"{name} is no number of JSON")
    json.loads(bytes_.decode("utf-8"), parse_constant=refuse)
    return text(bytes_, ("Cc",))


def csv_(bytes_):
    rows = list(csv.reader(io.StringIO(bytes_.decode("utf-8"), newline=""), strict=True))
    wrong = [f"{len(r)} cells, not {len(rows[0])}: {r}" for r in rows if len(r) != len(rows[0])]
    for cell in (c for r in rows for c in r):
        if re.match(r"[=+@\t\r-]", cell) and not re.fullmatch(r"[-+]?[0-9.]+(e-?[0-9]+)?", cell):
            wrong.append(f"a formula: {cell!r}")
    return wrong


def ics(bytes_):
    lines = re.sub(r"\r\n[ \t]", "", bytes_.decode("utf-8")).split("\r\n")
    wrong = [f"no line of a calendar: {x!r}" for x in lines[:-1] if not re.match(r"[A-Z-]+[;:]", x)]
    wrong += [f"{x!r}" for x in lines if re.match("ATTACH|ATTENDEE|ORGANIZER|X-HOSTILE|URL", x)]
    return wrong + text(bytes_.replace(b"\r\n", b"\n"))


KINDS = {"text": text, "json": json_, "csv": csv_, "html": html_, "svg": html_, "ics": ics}


def main():
    bad = 0
    for path in sys.argv[2:]:
        with open(path, "rb") as f:
            bytes_ = f.read()
        try:
            wrong = KINDS[sys.argv[1]](bytes_) if bytes_ else ["empty"]
        except (ValueError, csv.Error) as e:
            wrong = [str(e)]
        for w in wrong[:5]:
            print(f"{sys.argv[1]} {path}: {w}")
        bad |= bool(wrong)
    return bad


sys.exit(main())
