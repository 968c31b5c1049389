#!/usr/bin/env python3
"""A weather service on the loopback interface that misbehaves as it is asked to.

server.py FOLDER: writes the ports as lines "http PORT", "https PORT", ... to FOLDER/ports
once it listens, and a line for each request to FOLDER/log. Certificates are FOLDER/NAME.pem
(key and chain), one port for each. The first part of an address names the behaviour, the
rest is as the service has it: http://127.0.0.1:PORT/ok/v1/forecast?...
All weather here is invented. SPDX-License-Identifier: GPL-3.0-or-later
"""
import datetime
import json
import os
import socket
import socketserver
import ssl
import sys
import threading
import time
import urllib.parse
import zlib

FOLDER = sys.argv[1]
LOCK = threading.Lock()
SEEN = {}  # how often each behaviour was asked
MODIFIED = "Mon, 02 Nov 2026 06:00:00 GMT"
ETAG = '"a1b2"'


def today():
    return datetime.datetime.now(datetime.timezone.utc).date()


def query(path):
    q = urllib.parse.parse_qs(urllib.parse.urlsplit(path).query)
    return {k: v[0] for k, v in q.items()}


def wave(day, low, high):
    return round(low + (high - low) * (day.toordinal() % 7) / 6, 1)


def days_of(first, last):
    return [first + datetime.timedelta(n) for n in range((last - first).days + 1)]


def forecast(path, shift=0, first=-92, last=15, place=None, drop=(), unit="°C"):
    """The forecast service's answer, its days shifted."""
    q = query(path)
    now = today() + datetime.timedelta(shift)
    days = days_of(now + datetime.timedelta(first), now + datetime.timedelta(last))
    lat, lon = place or (float(q["latitude"]), float(q["longitude"]))
    block = {
        "time": [d.isoformat() for d in days],
        "temperature_2m_max": [wave(d, 9, 21) for d in days],
        "temperature_2m_min": [wave(d, -2, 8) for d in days],
        "precipitation_sum": [wave(d, 0, 6) for d in days],
        "shortwave_radiation_sum": [wave(d, 2, 3) for d in days],
    }
    units = {"time": "iso8601", "temperature_2m_max": unit, "temperature_2m_min": unit,
             "precipitation_sum": "mm", "shortwave_radiation_sum": "MJ/m²"}
    for name in drop:
        del block[name]
    return {"latitude": lat + 0.02, "longitude": lon + 0.02, "utc_offset_seconds": 0, "timezone": "GMT",
            "elevation": 100.0, "current": {"time": now.isoformat() + "T05:00"},
            "daily_units": units, "daily": block}


def archive(path):
    """The archive of the same service: all days asked for, the last five null, no present hour."""
    q = query(path)
    whole = forecast(path, first=(datetime.date.fromisoformat(q["start_date"]) - today()).days, last=-1)
    del whole["current"]
    whole["daily"] = {k: v if k == "time" else v[:-5] + [None] * 5 for k, v in whole["daily"].items()}
    return whole


def record(path):
    """The reanalysis's answer; the last three days without values, seven without radiation."""
    q = query(path)
    first = datetime.datetime.strptime(q["start"], "%Y%m%d").date()
    last = datetime.datetime.strptime(q["end"], "%Y%m%d").date()
    days = days_of(first, last)
    rows = {"T2M_MAX": (9, 21, 3, "C"), "T2M_MIN": (-2, 8, 3, "C"), "PRECTOTCORR": (0, 6, 3, "mm/day"),
            "ALLSKY_SFC_SW_DWN": (2, 3, 7, "MJ/m^2/day")}
    values = {name: {d.strftime("%Y%m%d"): -999.0 if (last - d).days < late else wave(d, low, high) for d in days}
              for name, (low, high, late, _) in rows.items()}
    return {"type": "Feature",
            "geometry": {"type": "Point", "coordinates": [float(q["longitude"]), float(q["latitude"]), 100.0]},
            "properties": {"parameter": values}, "header": {"fill_value": -999.0},
            "parameters": {name: {"units": unit} for name, (_, _, _, unit) in rows.items()}}


def stations(path):
    """Daily summaries of a station: flat objects, texts padded with blanks; the last two days are late."""
    q = query(path)
    days = days_of(datetime.date.fromisoformat(q["startDate"]), datetime.date.fromisoformat(q["endDate"]))
    return [{"STATION": q["stations"], "DATE": d.isoformat(), "LATITUDE": "40.1", "LONGITUDE": "-75.3",
             "ELEVATION": "42.7", "NAME": "INVENTED, PA US", "TMAX": "%6.1f" % wave(d, 9, 21),
             "TMIN": "%6.1f" % wave(d, -2, 8), "PRCP": "%6.1f" % wave(d, 0, 6)} for d in days[:-2]]


def instants():
    """Sixty hours, then every six hours: nine and a half days from this hour."""
    now = datetime.datetime.now(datetime.timezone.utc).replace(minute=0, second=0, microsecond=0)
    first = [now + datetime.timedelta(hours=n) for n in range(60)]
    at = first[-1] + datetime.timedelta(hours=1)
    while at.hour % 6:
        first.append(at)
        at += datetime.timedelta(hours=1)
    return first + [at + datetime.timedelta(hours=6 * n) for n in range(28)]


def stamp(at):
    return at.strftime("%Y-%m-%dT%H:%M:%SZ")


def norwegian(path):
    q = query(path)
    times = instants()
    steps = []
    for n, at in enumerate(times):
        data = {"instant": {"details": {"air_temperature": 8 + (at.hour % 12) / 2, "relative_humidity": 80.0}}}
        hours = (times[n + 1] - at).seconds // 3600 if n + 1 < len(times) else 0
        if hours:
            data["next_%d_hours" % hours] = {"details": {"precipitation_amount": 0.2}}
        steps.append({"time": stamp(at), "data": data})
    units = {"air_temperature": "celsius", "relative_humidity": "%", "precipitation_amount": "mm"}
    return {"type": "Feature", "geometry": {"type": "Point", "coordinates": [float(q["lon"]), float(q["lat"]), 120]},
            "properties": {"meta": {"updated_at": stamp(times[0]), "units": units}, "timeseries": steps}}


def us_grid():
    """Layers of intervals around 52.19 N, 2.71 W, where no such service is: that is invented too."""
    times = instants()[:60]
    midnight = times[0].replace(hour=0) + datetime.timedelta(days=1)

    def layer(unit, values):
        return {"uom": unit, "values": [{"validTime": "%s/PT%dH" % (stamp(at).replace("Z", "+00:00"), n), "value": x}
                                        for at, n, x in values]}

    days = [midnight + datetime.timedelta(days=n) for n in range(6)]
    hours = [midnight + datetime.timedelta(hours=n) for n in range(6 * 24)]
    corners = [[-2.72, 52.18], [-2.70, 52.18], [-2.70, 52.20], [-2.72, 52.20], [-2.72, 52.18]]
    return {"geometry": {"type": "Polygon", "coordinates": [corners]},
            "properties": {
                "gridId": "TAE",
                "temperature": layer("wmoUnit:degC", [(t, 1, 8 + (t.hour % 12) / 2) for t in hours]),
                "maxTemperature": layer("wmoUnit:degC", [(d + datetime.timedelta(hours=8), 8, 14.5) for d in days]),
                "minTemperature": layer("wmoUnit:degC", [(d, 8, 7.5) for d in days]),
                "quantitativePrecipitation": layer("wmoUnit:mm", [(t, 6, 0.5) for t in hours[::6]])}}


ANSWERS = {  # by what stands in the address
    "/temporal/": record,
    "/v1/archive": archive,
    "/access/": stations,
    "/locationforecast/": norwegian,
    "/points/": lambda path: {"properties": {"gridId": "TAE", "gridX": 58, "gridY": 65}},
    "/gridpoints/": lambda path: us_grid(),
    "": forecast,
}


def head(status, length=None, extra=()):
    lines = ["HTTP/1.1 %s" % status, "Content-Type: application/json", "Connection: close"]
    if length is not None:
        lines.append("Content-Length: %d" % length)
    return ("\r\n".join([*lines, *extra]) + "\r\n\r\n").encode()


def send(out, body, status="200 OK", extra=()):
    body = body if isinstance(body, bytes) else json.dumps(body, ensure_ascii=False).encode()
    out.write(head(status, len(body), extra) + body)


def answer(path):
    make = next(make for part, make in ANSWERS.items() if part in path)
    return json.dumps(make(path), ensure_ascii=False).encode()


def stamped(seconds):
    return time.strftime("%a, %d %b %Y %H:%M:%S GMT", time.gmtime(time.time() + seconds))


def stall(_out):
    time.sleep(20)


def drip(out, path):
    out.write(head("200 OK"))
    for byte in answer(path):
        out.write(bytes([byte]))
        out.flush()
        time.sleep(1)


def endless(out, chunk):
    try:
        for _ in range(1024):
            out.write(chunk)
    except OSError:
        pass  # the client has gone, as it should


def gzip_bomb():
    packer = zlib.compressobj(1, zlib.DEFLATED, 31)
    chunk = b"[" * (1 << 20)
    return b"".join(packer.compress(chunk) for _ in range(64)) + packer.flush()


BOMB = gzip_bomb()


def packed(body):
    packer = zlib.compressobj(6, zlib.DEFLATED, 31)
    return packer.compress(body) + packer.flush()


def conditional(r):
    """304 for who has it, else the answer with what to ask by."""
    if r.headers.get("if-none-match") == ETAG or r.headers.get("if-modified-since") == MODIFIED:
        r.out.write(head("304 Not Modified", None, ["ETag: " + ETAG]))
    else:
        send(r.out, answer(r.path), extra=["ETag: " + ETAG, "Last-Modified: " + MODIFIED])


def two_steps(r):
    if "/points/" in r.path:
        send(r.out, {"properties": {"gridId": "TAE", "gridX": 58, "gridY": 65, "forecastGridData": "file:///etc/passwd"}})
    else:
        send(r.out, {"error": "grid " + r.path}, "404 Not Found")


def changed(r, **how):
    send(r.out, forecast(r.path, **how))


def text_in(r, old, new, count=-1):
    send(r.out, answer(r.path).replace(old, new, count))


BEHAVIOURS = {
    "ok": lambda r: send(r.out, answer(r.path)),
    "other-station": lambda r: send(r.out, stations(r.path.replace("USW00093820", "USW00014739"))),
    "packed": lambda r: send(r.out, packed(answer(r.path)), extra=["Content-Encoding: gzip"]),
    "expires": lambda r: send(r.out, answer(r.path), extra=["Date: " + stamped(-9000), "Expires: " + stamped(-4500)]),
    "expires-far": lambda r: send(r.out, answer(r.path), extra=["Expires: Fri, 31 Dec 2199 00:00:00 GMT"]),
    "conditional": conditional,
    "not-modified": lambda r: r.out.write(head("304 Not Modified")),
    "deprecated": lambda r: send(r.out, answer(r.path), "203 Non-Authoritative Information"),
    "stall": lambda r: stall(r.out),
    "stall-after-head": lambda r: (r.out.write(head("200 OK", 5000)), r.out.flush(), stall(r.out)),
    "drip": lambda r: drip(r.out, r.path),
    "cut": lambda r: r.out.write(head("200 OK", 5000) + answer(r.path)[:1000]),
    "cut-without-length": lambda r: r.out.write(head("200 OK") + answer(r.path)[:1000]),
    "short-length": lambda r: r.out.write(head("200 OK", 1000) + answer(r.path)),
    "long-length": lambda r: r.out.write(head("200 OK", 99999) + answer(r.path)),
    "negative-length": lambda r: r.out.write(head("200 OK", -5) + answer(r.path)),
    "chunked-garbage": lambda r: r.out.write(head("200 OK", None, ["Transfer-Encoding: chunked"]) + b"zz\r\nhello\r\n"),
    "not-http": lambda r: r.out.write(b"SSH-2.0-OpenSSH_9.2\r\n"),
    "endless-head": lambda r: (r.out.write(b"HTTP/1.1 200 OK\r\n"), endless(r.out, b"X-More: " + b"x" * 1000 + b"\r\n")),
    "html": lambda r: send(r.out, b"<!DOCTYPE html><html><body>Log in to the network</body></html>"),
    "bomb": lambda r: send(r.out, BOMB, extra=["Content-Encoding: gzip"]),
    "bad-gzip": lambda r: send(r.out, b"\x1f\x8b\x08\x00junk junk junk", extra=["Content-Encoding: gzip"]),
    "huge": lambda r: (r.out.write(head("200 OK")), endless(r.out, b" " * (1 << 20))),
    "huge-announced": lambda r: (r.out.write(head("200 OK", 1 << 30)), endless(r.out, b" " * (1 << 20))),
    "redirect": lambda r: send(r.out, b"", "302 Found", ["Location: /ok" + r.path]),
    "redirect-loop": lambda r: send(r.out, b"", "302 Found", ["Location: /redirect-loop" + r.path]),
    "redirect-file": lambda r: send(r.out, b"", "302 Found", ["Location: file:///etc/passwd"]),
    "redirect-http": lambda r: send(r.out, b"", "302 Found", ["Location: http://192.0.2.1" + r.path]),
    "redirect-down": lambda r: send(r.out, b"", "302 Found", ["Location: http://127.0.0.1:%d/ok%s" % (PORTS["http"], r.path)]),
    "redirect-nowhere": lambda r: send(r.out, b"", "302 Found"),
    "bad-request": lambda r: send(r.out, {"error": True, "reason": "Latitude must be in range of -90 to 90"}, "400 Bad Request"),
    "hostile": lambda r: send(r.out, {"error": True, "reason": "\x1b[31m\"},{\"i\":9,\n<script>$(touch marker)\u202e"}, "400 Bad Request"),
    "missing": lambda r: send(r.out, {"title": "Not Found"}, "404 Not Found"),
    "gone": lambda r: send(r.out, b"", "410 Gone"),
    "agent": lambda r: send(r.out, answer(r.path)) if "@" in r.headers.get("user-agent", "") else send(r.out, b"", "403 Forbidden"),
    "forbidden": lambda r: send(r.out, b"no key", "403 Forbidden"),
    "busy-short": lambda r: send(r.out, answer(r.path)) if r.times > 1 else send(r.out, b"", "429 Too Many Requests", ["Retry-After: 1"]),
    "busy-long": lambda r: send(r.out, b"", "429 Too Many Requests", ["Retry-After: 3600"]),
    "busy-for-ever": lambda r: send(r.out, b"", "429 Too Many Requests", ["Retry-After: 99999999999"]),
    "broken-once": lambda r: send(r.out, answer(r.path)) if r.times > 1 else send(r.out, b"", "500 Internal Server Error"),
    "broken": lambda r: send(r.out, b"", "500 Internal Server Error"),
    "closes": lambda r: None,
    "empty": lambda r: send(r.out, b""),
    "twice": lambda r: text_in(r, b'"daily":', b'"daily": {}, "daily":'),
    "nan": lambda r: text_in(r, b"21.0", b"NaN"),
    "no-number": lambda r: text_in(r, b"21.0", b'"21.0"'),
    "after-it": lambda r: send(r.out, answer(r.path) + b"{}"),
    "no-rain": lambda r: changed(r, drop=["precipitation_sum"]),
    "no-radiation": lambda r: changed(r, drop=["shortwave_radiation_sum"]),
    "yesterdays": lambda r: changed(r, shift=-3),
    "last-years": lambda r: changed(r, shift=-365),
    "next-years": lambda r: changed(r, shift=365),
    "short": lambda r: changed(r, last=8),
    "wrong-place": lambda r: changed(r, place=(-33.9, 18.4)),
    "wrong-unit": lambda r: changed(r, unit="furlong"),
    "kelvin": lambda r: text_in(r, b"21.0", b"294.2"),
    "echo-key": lambda r: send(r.out, {**forecast(r.path), "apikey": query(r.path).get("apikey", "")},
                               extra=["ETag: \"%s\"" % query(r.path).get("apikey", "")]),
    "bad-key": lambda r: send(r.out, {"error": True, "reason": "wrong key " + query(r.path).get("apikey", "")}, "401 Unauthorized"),
    "two-steps": two_steps,
    "all-null": lambda r: send(r.out, nulls(r.path)),
}


def nulls(path):
    whole = forecast(path)
    whole["daily"] = {k: v if k == "time" else [None] * len(v) for k, v in whole["daily"].items()}
    return whole


class Handler(socketserver.StreamRequestHandler):
    timeout = 25

    def handle(self):
        try:
            self.once()
        except OSError:
            pass  # clients that give up are what is tested

    def once(self):
        line = self.rfile.readline(8192).decode("latin-1").split()
        if len(line) < 2 or line[0] != "GET":
            return
        self.headers = {}
        while (text := self.rfile.readline(8192).decode("latin-1").strip()):
            name, _, value = text.partition(":")
            self.headers[name.lower()] = value.strip()
        name, _, rest = line[1].lstrip("/").partition("/")
        name, _, _ = name.partition("!")  # what follows keeps the counts of two tests apart
        with LOCK:
            SEEN[line[1].partition("?")[0]] = self.times = SEEN.get(line[1].partition("?")[0], 0) + 1
            with open(os.path.join(FOLDER, "log"), "a", encoding="utf-8") as log:
                log.write("%s %s\n" % (line[1], json.dumps(self.headers)))
        self.path, self.out = "/" + rest, self.wfile
        BEHAVIOURS[name](self)


class Server(socketserver.ThreadingTCPServer):
    allow_reuse_address = True
    daemon_threads = True
    request_queue_size = 64
    context = None

    def get_request(self):
        connection, address = super().get_request()
        if self.context:
            connection.settimeout(5)
            connection = self.context.wrap_socket(connection, server_side=True)
        return connection, address

    def handle_error(self, request, client_address):
        pass


PORTS = {}


def listen(name, context=None):
    server = Server(("127.0.0.1", 0), Handler)
    server.context = context
    PORTS[name] = server.server_address[1]
    threading.Thread(target=server.serve_forever, daemon=True).start()


def main():
    listen("http")
    for file in sorted(os.listdir(FOLDER)):
        if file.endswith(".pem"):
            context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
            context.load_cert_chain(os.path.join(FOLDER, file))
            listen(file[:-4], context)
    closed = socket.socket()  # bound, but nobody listens: connections are refused
    closed.bind(("127.0.0.1", 0))
    PORTS["closed"] = closed.getsockname()[1]
    with open(os.path.join(FOLDER, "ports.new"), "w", encoding="utf-8") as out:
        out.writelines("%s %d\n" % item for item in PORTS.items())
    os.rename(os.path.join(FOLDER, "ports.new"), os.path.join(FOLDER, "ports"))
    sys.stdin.read()  # until whoever started us has gone


main()
