"""Started by stress.sh: FETCHER FOLDER PORT SECONDS KILLS. Looks at the cache with eyes of
its own (Python's zlib and json). SPDX-License-Identifier: GPL-3.0-or-later"""
import glob
import json
import os
import random
import signal
import subprocess
import sys
import threading
import time
import zlib

FETCHER, FOLDER, PORT = sys.argv[1], sys.argv[2], sys.argv[3]
SECONDS, KILLS = float(sys.argv[4]), int(sys.argv[5])
WRITERS, READERS, DEADLINE = 16, 2, 6.0
CACHE = os.path.join(FOLDER, "stress")
ENTRY = os.path.join(CACHE, "sugarlea", "open-meteo-forecast_52.19,-2.71.weather")
with open(os.path.join(FOLDER, "request"), encoding="utf-8") as text:
    REQUEST = ("[" + text.read() + "]").encode()
NOW = int(time.time())
# "ok" thrice: most answers are to be written. None is tried again, which would hold the lock for seconds.
BEHAVIOURS = ["ok", "ok", "ok", "packed", "redirect", "short", "yesterdays", "html",
              "cut-without-length", "no-rain", "bad-gzip"]
bad = 0


def say(good, name, why=""):
    global bad
    print("ok - " + name if good else "not ok - %s\n# %s" % (name, why), flush=True)
    bad += not good


def start(behaviour, epoch):
    """A fetcher whose clock says epoch: any two of them think the other's answer old enough to ask."""
    env = {**os.environ, "XDG_CACHE_HOME": CACHE, "SOURCE_DATE_EPOCH": str(epoch),
           "SUGARLEA_URL_OPEN_METEO_FORECAST": "http://127.0.0.1:%s/%s" % (PORT, behaviour)}
    p = subprocess.Popen([FETCHER, "--deadline", str(DEADLINE)], env=env, stdin=subprocess.PIPE, stdout=subprocess.PIPE,
                         stderr=subprocess.STDOUT)
    p.stdin.write(REQUEST)
    p.stdin.close()
    p.stdin = None  # communicate would close it once more
    return p


def read_entry():
    """The head of the entry as a dict with its body's size; None when there is none; an error when it is damaged."""
    try:
        with open(ENTRY, "rb") as file:
            whole = file.read()
    except FileNotFoundError:
        return None
    first, _, rest = whole.partition(b"\n")
    if first != b"sugarlea weather cache 1 crc32 %08x" % zlib.crc32(rest):
        raise ValueError("checksum")
    head, _, body = rest.partition(b"\n\n")
    fields = dict(line.split(": ", 1) for line in head.decode().split("\n"))
    if len(body) != int(fields["length"]):
        raise ValueError("length")
    json.loads(body)
    return fields


def clock():
    return NOW - random.randrange(1, 500) * 7200


def one_entry_many_writers():
    until = time.monotonic() + SECONDS
    results, faults, slowest, reads, ends = {}, [], [0.0], [0] * READERS, set()
    lock = threading.Lock()

    def write():
        while time.monotonic() < until:
            begin = time.monotonic()
            p = start(random.choice(BEHAVIOURS), clock())
            try:
                line = p.communicate(timeout=DEADLINE + 10)[0]
                reply = json.loads(line)
            except (subprocess.TimeoutExpired, ValueError) as fault:
                p.kill()
                with lock:
                    faults.append(repr(fault))
                continue
            with lock:
                word = reply["result"] + (" (lock)" if "another run" in reply["reason"] else "")
                results[word] = results.get(word, 0) + 1
                slowest[0] = max(slowest[0], time.monotonic() - begin)

    def read(number):
        while time.monotonic() < until:
            try:
                fields = read_entry()
                reads[number] += 1
                if fields:
                    ends.add(fields["ends"])
            except (ValueError, KeyError) as fault:
                with lock:
                    faults.append(repr(fault))
            time.sleep(0.001)

    start("ok", NOW).communicate()
    threads = [threading.Thread(target=write) for _ in range(WRITERS)]
    threads += [threading.Thread(target=read, args=(n,)) for n in range(READERS)]
    for t in threads:
        t.start()
    for t in threads:
        t.join()
    print("# %d writers for %.0f s: %s; slowest %.2f s; %d reads; entries end on %s" %
          (WRITERS, SECONDS, results, slowest[0], sum(reads), sorted(ends)))
    say(not faults, "nobody reads a damaged entry, nobody hangs", faults[:3])
    say(slowest[0] < DEADLINE + 2, "each run ends within its deadline", slowest[0])
    say(len(ends) <= 1 or time.time() // 86400 != NOW // 86400, "no worse answer is kept", ends)
    say(results.get("fresh", 0) > 0 and results.get("kept-old", 0) > 0, "both good and bad answers came", results)


def killed_at_random():
    begin = time.monotonic()
    start("ok", clock()).communicate()
    usual = time.monotonic() - begin
    seen = {"old": 0, "new": 0, "left beside": 0}
    faults = []
    for _ in range(KILLS):
        before = read_entry()["fetched"]
        epoch = clock()
        p = start("ok", epoch)
        time.sleep(random.uniform(0, 1.5 * usual))
        p.send_signal(signal.SIGKILL)
        p.communicate()
        try:
            after = read_entry()["fetched"]
            seen["old" if after == before else "new"] += 1
            if after not in (before, str(epoch)):
                faults.append("neither old nor new: " + after)
        except (ValueError, KeyError, TypeError) as fault:
            faults.append(repr(fault))
        seen["left beside"] = max(seen["left beside"], len(glob.glob(glob.escape(ENTRY) + ".??????")))
    last = json.loads(start("ok", clock()).communicate()[0])
    print("# %d killed within %.0f ms: %s; %d faults" % (KILLS, 1500 * usual, seen, len(faults)))
    say(not faults, "after each kill the entry is the old one or the new one", faults[:3])
    say(last["result"] == "fresh", "the dead hold no lock", last)
    say(not glob.glob(glob.escape(ENTRY) + ".??????"), "what they left is cleared away")


one_entry_many_writers()
killed_at_random()
sys.exit(bad > 0)
