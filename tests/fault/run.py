#!/usr/bin/env python3
"""Lets each allocation, and each call that opens, reads, writes, syncs, closes or renames
a file, fail in turn, once and from then on, for every command on the demo holding.

Whatever fails, the program ends by itself with an exit code of its list, for want of memory with 71,
and one sentence; an exit code of 0 comes with the same answer as without the failure; no memory is
left that is not left without it; and every file is as it was, or as the whole command leaves it.

Usage: run.py PROGRAM SHIM [all]   (without `all`, of more than 820 calls of a kind and command 20, the last 800
and 300 where the first reading of the models ends: its 11,000 allocations are alike in all, and two read again)
SPDX-License-Identifier: GPL-3.0-or-later"""
import concurrent.futures
import functools
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

KINDS = ("alloc", "open", "read", "write", "sync", "close", "rename")
ALLOWED = {0, 64, 65, 66, 69, 71, 73, 74, 75, 78}
MEMORY = {0, 71}
MOST = 20
LAST = 800
AFTER = 300
DATE = "2025-04-23"

# A round: what fails its worker costs the holding it was on, and the row says so. Its foot signs need no weather.
COSTS = (b"/holding.json,error,,error,", b"/holding.json,now,,signs-at-once+signs-lost+error,",
         b"/holding.json,now,,signs-at-once+signs-lost+weather-missing,")

# Enter, to each question of a setup that asks: all is left as the holding has it.
ANSWERS = b"\n" * 80

HOLDING = ["--holding", "holding.json"]
COMMANDS = [
    ["today", *HOLDING, "--date", DATE],
    ["today", *HOLDING, "--date", DATE, "--json", "--no-log"],
    ["today", *HOLDING, "--date", DATE, "--quiet", "--units", "us"],
    ["today", *HOLDING, "--date", DATE, "--no-log", "--calendar", "grazing.ics"],
    ["season", *HOLDING, "--from", "2025-04-10", "--to", "2025-04-20", "--csv"],
    ["season", *HOLDING, "--from", "2025-04-10", "--to", "2025-04-20", "--term"],
    ["season", *HOLDING, "--from", "2025-04-10", "--to", "2025-04-20", "--picture", "hours", "--term"],
    ["season", *HOLDING, "--from", "2025-04-10", "--to", "2025-04-20", "--picture", "years", "--plot", "season.svg"],
    ["season", "--weather", "sites.csv", "--csv", "--animal", "pony", "--jobs", "1", "--from", "2025-04-10"],
    ["ration", *HOLDING, "--date", DATE, "--arithmetic"],
    ["sheet", *HOLDING, "--date", DATE, "-o", "sheet.html"],
    ["hay", "--holding", "long.json", "--date", DATE],
    ["outlook", "--holding", "long.json", "--date", DATE, "--months", "1", "--draws", "1"],
    ["review", *HOLDING, "--from", "2025-04-10", "--to", "2025-04-20"],
    ["tune", *HOLDING],
    ["tune", *HOLDING, "--apply"],
    ["weather", *HOLDING, "--date", DATE, "--json"],
    ["weather", *HOLDING, "--date", DATE, "--csv"],
    ["record", *HOLDING, "--date", DATE, "weight", "milkers", "64", "kg", "--at", "07:00"],
    ["record", *HOLDING, "foot-signs", "donkey", "hot-feet"],
    ["record", *HOLDING, "--undo"],
    ["setup", "--no-input", "--replace", "--latitude", "52.3", "--longitude", "-2.6", "--weather", "weather.csv",
     "--animal", "pony", "--no-log"],
    ["setup", "--no-log"],
    ["round", "--date", DATE, "--jobs", "1", "--csv", "."],
    ["params", "--json"],
    ["help", "record"],
]


class Bench:
    """The demo in a folder that is laid anew for each try."""

    def __init__(self, program, shim):
        self.program, self.shim = os.path.abspath(program), os.path.abspath(shim)
        self.folder = pathlib.Path(tempfile.mkdtemp(prefix="sugarlea-fault-"))
        self.demo = self.folder / "demo"
        self.work = self.folder / "work"
        self.report = self.folder / "report"
        shutil.copytree("data/demo", self.demo)
        rows = (self.demo / "weather.csv").read_text(encoding="utf-8").splitlines()
        (self.demo / "sites.csv").write_text(
            "".join(f"{name},{row}\n" for name, part in
                    (("site,latitude", rows[:1]), ("one,52.3", rows[1:]), ("two,52.8", rows[-200:])) for row in part),
            encoding="utf-8")
        # four years of weather, for the outlook: the demo's two, and the same as two years before
        before = [f"{int(row[:4]) - 2}{row[4:]}" for row in rows[1:] if row[4:10] != "-02-29"]
        (self.demo / "long.csv").write_text("\n".join([rows[0], *before, *rows[1:], ""]), encoding="utf-8")
        holding = (self.demo / "holding.json").read_text(encoding="utf-8")
        (self.demo / "long.json").write_text(holding.replace("weather.csv", "long.csv"), encoding="utf-8")
        (self.demo / "diary.csv").write_text(
            "date,time,subject,what,value,unit,note\n"
            "2025-04-01,06:40,pump-field,grass-nsc,182,g/kg,lab\n"
            "2025-04-10,,milkers,weight,64,kg,\n"
            "2025-04-20,,old-bank,foot-signs,hot-feet,,\n"
            "2025-04-21,,dokney,vet,called,,\n"
            "2025-05-20,,wethers,foot-signs,kneeling,,\n", encoding="utf-8")
        (self.demo / "advice-log.csv").write_text(
            "date,animal,turnout,hours,from,to,version,models,weather,muzzle,foot_signs,frost,warning,told,written\n"
            "2025-04-22,milkers,timed,8,06:00,14:00,0.1.0,-,recorded,0,,air,,1,2025-04-22\n", encoding="utf-8")
        self.relay()

    def relay(self):
        shutil.rmtree(self.work, ignore_errors=True)
        shutil.copytree(self.demo, self.work)

    def state(self):
        return {str(p.relative_to(self.work)): p.read_bytes() for p in self.work.rglob("*") if p.is_file()}

    def run(self, command, kind="", at=0, on=False):
        env = dict(os.environ, LD_PRELOAD=self.shim, FAIL_KIND=kind, FAIL_AT=str(at), FAIL_ON="1" if on else "0",
                   FAIL_REPORT=str(self.report), XDG_CACHE_HOME=str(self.folder / "cache"), TZ="UTC", LC_ALL="C",
                   SOURCE_DATE_EPOCH="1745388000")
        done = subprocess.run([self.program, *command], cwd=self.work, env=env, input=ANSWERS,
                              capture_output=True, timeout=60, check=False)
        return done, self.counts(self.report), self.counts(self.report.with_suffix(".child"))

    @staticmethod
    def counts(report):
        found = dict(line.split() for line in report.read_text().splitlines()) if report.exists() else {}
        report.unlink(missing_ok=True)
        return {k: int(v) for k, v in found.items()}


def places(n, every, models=0):
    """Which of n calls fail, where the reading of the models takes the first so many."""
    if every or n <= MOST + LAST:
        return range(1, n + 1)
    first, last = MOST // 3, n - LAST
    step = (last - first) / (MOST - first)
    between = (first + round(step * i) for i in range(1, MOST - first + 1))
    after = range(models - AFTER // 10, min(models + AFTER, n + 1)) if models else ()
    return sorted({*range(1, first + 1), *between, *after, *range(last + 1, n + 1)})


def whole(now, before, after):
    """A file as it was, as it should become, or, where there was none, the first lines of that."""
    begun = before is None and now is not None and after is not None and after.startswith(now)
    return now in (before, after) or (begun and (not now or now.endswith(b"\n")))


def fault(kind, sound, before, after, now, counts, result):
    """What is wrong with one try; "" nothing."""
    done, left, _ = result
    if done.returncode not in (MEMORY if kind == "alloc" else ALLOWED):
        return f"ended with {done.returncode}"
    if done.returncode == 0 and any(row in done.stdout for row in COSTS):
        return ""
    if done.returncode == 0 and done.stdout != sound.stdout:
        return "ended well with another answer"
    if done.returncode != 0 and (not done.stderr.startswith(b"sugarlea: ") or done.stderr.count(b"\n") != 1):
        return f"said {done.stderr[:120]!r}"
    if left and left["left"] > counts["left"]:
        return f"left {left['left'] - counts['left']} pieces of memory"
    spoilt = [k for k in {**now, **after} if not whole(now.get(k), before.get(k), after.get(k))]
    if spoilt:
        return f"left behind or spoilt {', '.join(spoilt)}"
    if done.returncode == 0 and now != after:
        return "ended well and did not do it"
    return ""


def try_command(program, shim, every, command):
    """Every failure of one command: whether all went well, and what to print."""
    bench = Bench(program, shim)
    before = bench.state()
    models = bench.run(["params", "--json"])[1]
    sound, counts, child = bench.run(command)
    after = bench.state()
    bad = [f"  without a failure: ended with {sound.returncode}, {sound.stderr[:120]!r}"] if sound.returncode else []
    tried, dirty = 0, True
    for kind in KINDS:
        for at in places(max(counts[kind], child.get(kind, 0)), every, models[kind] if kind == "alloc" else 0):
            for on in (False, True):
                if dirty:
                    bench.relay()
                result = bench.run(command, kind, at, on)
                now = bench.state()
                wrong = fault(kind, sound, before, after, now, counts, result)
                dirty = now != before
                tried += 1
                if wrong:
                    bad.append(f"  {kind} {at} of {counts[kind]}{' and on' if on else ''}: {wrong}")
    shutil.rmtree(bench.folder)
    said = f"{'FAILED' if bad else 'ok'} {tried} failures: sugarlea {' '.join(command)}"
    return not bad, "\n".join([said, *bad[:20]])


def main():
    every = len(sys.argv) > 3 and sys.argv[3] == "all"
    failed = 0
    with concurrent.futures.ProcessPoolExecutor(len(os.sched_getaffinity(0))) as pool:
        for well, said in pool.map(functools.partial(try_command, *sys.argv[1:3], every), COMMANDS):
            print(said, flush=True)
            failed += not well
    print(f"faults: {len(COMMANDS) - failed} passed, {failed} failed")
    return failed > 0


if __name__ == "__main__":
    sys.exit(main())
