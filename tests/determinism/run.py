#!/usr/bin/env python3
"""The same input and date give the same bytes: run after run, with 1, 2, 3 and 7 threads, on
one processor and on all, in four locales. With a build by another compiler every number of
every answer agrees within a billionth.

Usage: run.py PROGRAM CORES_SHIM RUNS [OTHER_PROGRAM]
SPDX-License-Identifier: GPL-3.0-or-later"""
import json
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

HOLDING = ["--holding", "holding.json"]
DATE = [*HOLDING, "--date", "2025-04-23"]
LONG = ["--holding", "holding.json", "--weather", "long.csv", "--date", "2018-05-15"]  # several past years
COMMANDS = [
    ["today", *DATE, "--json", "--no-log"],
    ["season", *HOLDING, "--from", "2025-03-01", "--to", "2025-04-20", "--json"],
    ["outlook", *LONG, "--months", "1", "--draws", "2", "--json"],
    ["ration", *DATE, "--json"],
    ["hay", *LONG, "--json"],
    ["weather", *DATE, "--csv"],
    ["review", *HOLDING, "--from", "2025-04-01", "--json"],
]
LOCALES = ["C", "C.UTF-8", "de_DE.UTF-8", "tr_TR.UTF-8"]
BILLIONTH = 1e-9


class Bench:
    def __init__(self, program, shim):
        self.program, self.shim = os.path.abspath(program), os.path.abspath(shim)
        self.folder = pathlib.Path(tempfile.mkdtemp(prefix="sugarlea-determinism-"))
        for file in ("holding.json", "weather.csv"):
            shutil.copy(f"data/demo/{file}", self.folder)
        shutil.copy("data/real/de_bilt_2005-2019.csv", self.folder / "long.csv")

    def run(self, command, program=None, cores="2", **more):
        env = dict(os.environ, LC_ALL="C", TZ="UTC", XDG_CACHE_HOME=str(self.folder), LD_PRELOAD=self.shim, CORES=cores,
                   ASAN_OPTIONS="verify_asan_link_order=0",  # the shim comes before a sanitizer's runtime
                   SUGARLEA_MODELS=os.path.abspath("models"), SUGARLEA_PLOTS=os.path.abspath("plots"))
        env.update(more)
        done = subprocess.run([program or self.program, *command], cwd=self.folder, env=env, stdin=subprocess.DEVNULL,
                              capture_output=True, timeout=60, check=False)
        if done.returncode:
            return b"ended with %d: %s" % (done.returncode, done.stderr)
        return done.stdout


def locales(folder):
    """The locales that are here, or can be made here, and what they need in the environment."""
    found = {}
    for name in LOCALES:
        home = folder / "locales"
        home.mkdir(exist_ok=True)
        env = {"LC_ALL": name}
        if not name.startswith("C"):
            made = subprocess.run(["localedef", "-i", name.split(".")[0], "-f", "UTF-8", str(home / name)],
                                  capture_output=True, check=False) if shutil.which("localedef") else None
            if not (home / name).is_dir():
                print(f"# skipped: in {name}: {made.stderr.decode().strip()[:80] if made else 'no localedef'}")
                continue
            env["LOCPATH"] = str(home)
        found[name] = env
    return found


def numbers(value, path=""):
    """Each number of an answer, text and truth value with its path."""
    if isinstance(value, dict):
        for key, part in value.items():
            yield from numbers(part, f"{path}.{key}")
    elif isinstance(value, list):
        for i, part in enumerate(value):
            yield from numbers(part, f"{path}[{i}]")
    else:
        yield path, value


def agree(one, other):
    if isinstance(one, (int, float)) and isinstance(other, (int, float)):
        return abs(one - other) <= BILLIONTH * max(1.0, abs(one))
    return one == other


def compilers(first, second):
    """What differs between two answers; "" nothing."""
    if not first.startswith(b"{"):
        return "" if first == second else "other bytes"
    try:
        pair = [list(numbers(json.loads(x))) for x in (first, second)]
    except ValueError as why:
        return f"no JSON: {why}: {second[:200]!r}"
    if [p for p, _ in pair[0]] != [p for p, _ in pair[1]]:
        return "other keys"
    apart = [f"{p}: {a} and {b}" for (p, a), (_, b) in zip(*pair) if not agree(a, b)]
    return ", ".join(apart[:5])


def main():
    bench, runs = Bench(sys.argv[1], sys.argv[2]), int(sys.argv[3])
    other = os.path.abspath(sys.argv[4]) if len(sys.argv) > 4 else None
    known, failed = locales(bench.folder), 0
    for command in COMMANDS:
        first, bad = bench.run(command, cores="1"), []
        if first.startswith(b"ended with") or len(first) < 100:
            bad.append(f"no answer: {first[:200]!r}")
        tries = [(f"run {i + 1} with {c} threads", {"cores": c}) for i in range(runs) for c in "12"[i % 2]]
        tries += [(f"with {c} threads", {"cores": c}) for c in "37"]
        tries += [(f"in {name}", env) for name, env in known.items()]
        bad += [what for what, env in tries if bench.run(command, **env) != first]
        if other and (apart := compilers(first, bench.run(command, program=other))):
            bad.append(f"by the other compiler: {apart}")
        print(f"{'not ok' if bad else 'ok'} - {len(tries)} times the same: {command[0]}"
              f"{', and by the other compiler' if other else ''}")
        print("".join(f"#   differs {b}\n" for b in bad[:10]), end="", flush=True)
        failed += bool(bad)
    shutil.rmtree(bench.folder)
    return failed > 0


sys.exit(main())
