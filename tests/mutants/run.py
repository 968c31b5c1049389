#!/usr/bin/env python3
"""Small faults put into the model one at a time: does a test notice? An arithmetic or logical
operator exchanged, a comparison shifted, a constant changed, a statement left out; places are
drawn by a fixed seed. The changed file alone is compiled, and each C test that links it is
linked anew, the quickest first, up to the first that fails.

Usage: run.py BUILD [MUTANTS [SEED]]   (after `make` and its C tests in BUILD)
SPDX-License-Identifier: GPL-3.0-or-later"""
import pathlib
import random
import re
import shlex
import subprocess
import sys
import tempfile
import time

FOLDERS = ("physics", "sward", "animal", "advice", "hay", "season")
SWAPS = [(r" \+ ", " - "), (r" - ", " + "), (r" \* (?=[\w(])", " / "), (r" / ", " * "), (r" < ", " <= "), (r" <= ", " < "),
         (r" > ", " >= "), (r" >= ", " > "), (r" == ", " != "), (r" != ", " == "), (r" && ", " || "), (r" \|\| ", " && "),
         (r" \+= ", " -= "), (r" -= ", " += "), (r" \*= ", " /= ")]
NUMBER = re.compile(r"(?<![\w.\"])(\d+\.?\d*)(?![\w.\"])")
STATEMENT = re.compile(r"^\s+(?!return|struct|const|double|int|size_t|bool|enum|unsigned|char|static|float)[\w>.*\[\]-]+(?: [-+*/|&]?= .*|\(.*\));$")
SECONDS_LEAST = 10  # a test may take this long, or ten times as long as without a fault


def mutants_of(path):
    comment = False
    for at, line in enumerate(path.read_text(encoding="utf-8").split("\n")):
        code = line.split("/*")[0].split("//")[0]
        begins, ends = "/*" in line, "*/" in line
        if comment or line.startswith("#") or not line.startswith(" ") or not code.strip() or '"' in code:
            comment = (comment or begins) and not ends
            continue
        comment = begins and not ends
        for pattern, new in SWAPS:
            for m in re.finditer(pattern, code):
                if not re.search(r"(struct \w+|double|void|char|int|size_t)$", code[:m.start()]):
                    yield at, code[:m.start()] + new + line[m.end():]
        for m in NUMBER.finditer(code):
            changed = f"{float(m[1]) * 1.5 + 0.5:g}" if "." in m[1] else str(int(m[1]) + 1)
            yield at, line[:m.start()] + changed + line[m.end():]
        if STATEMENT.match(code.rstrip()):
            yield at, "    ;"


class Bench:
    def __init__(self, build):
        self.build = pathlib.Path(build)
        self.folder = pathlib.Path(tempfile.mkdtemp(prefix="sugarlea-mutants-"))
        self.object, self.program = self.folder / "mutant.o", self.folder / "test"
        shown = subprocess.run(["make", "-n", "-W", "src/hay/band.c", f"BUILD={build}", "V=1",
                                f"{build}/src/hay/band.o"], capture_output=True, text=True, check=True).stdout
        line = next(x for x in shown.splitlines() if " -c -o " in x)
        self.compile = [w for w in shlex.split(line)[:-3] if not w.startswith(("-W", "-MM", "-MP", "-O", "-D_FORTIFY"))]
        self.compile[-1:] = [] if self.compile[-1] == "-c" else self.compile[-1:]
        self.libraries = subprocess.run(["pkg-config", "--libs", "libcjson", "gsl", "zlib"], capture_output=True,
                                        text=True, check=True).stdout.split()
        self.tests = self.times()

    def times(self):
        """Each C test that passes: how long it takes, and which functions it holds."""
        found = {}
        for o in sorted(self.build.glob("tests/*/test_*.o")):
            test = o.with_suffix("")
            start = time.monotonic()
            if test.exists() and subprocess.run([test], capture_output=True, check=False, timeout=300).returncode == 0:
                shown = subprocess.run(["nm", test], capture_output=True, text=True, check=True).stdout
                found[test] = (time.monotonic() - start, set(re.findall(r" T (\w+)", shown)))
        return found

    def against(self, path):
        shown = subprocess.run(["nm", self.build / path.with_suffix(".o")], capture_output=True, text=True, check=True)
        names = set(re.findall(r" T (\w+)", shown.stdout))
        return sorted((seconds, test) for test, (seconds, held) in self.tests.items() if names & held)

    def compiles(self, path, text):
        source = self.folder / path.name
        source.write_text(text, encoding="utf-8")
        return subprocess.run([*self.compile, "-I", path.parent, "-O1", "-w", "-c", "-o", self.object, source],
                              capture_output=True, check=False).returncode == 0

    def killer(self, path):
        """The first test that notices; None: none does."""
        helpers = [*self.build.glob("tests/support/*.o")]
        for seconds, test in self.against(path):
            subprocess.run(["cc", "-pie", "-o", self.program, f"{test}.o", self.object, *helpers,
                            self.build / "libsugarlea.a", *self.libraries, "-lm", "-pthread", "-lcmocka"], check=True)
            try:
                limit = max(SECONDS_LEAST, 10 * seconds)
                if subprocess.run([self.program], capture_output=True, check=False, timeout=limit).returncode:
                    return test.name
            except subprocess.TimeoutExpired:
                return f"{test.name} (without end)"
        return None


def main():
    bench, wanted = Bench(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 200
    dice = random.Random(int(sys.argv[3]) if len(sys.argv) > 3 else 1)
    all_of = [(p, *m) for f in FOLDERS for p in sorted(pathlib.Path("src", f).glob("*.c")) for m in mutants_of(p)]
    dice.shuffle(all_of)
    tried, killed = 0, 0
    for path, at, line in all_of:
        rows = path.read_text(encoding="utf-8").split("\n")
        was, rows[at] = rows[at], line
        if tried == wanted:
            break
        if not bench.compiles(path, "\n".join(rows)):
            continue
        tried += 1
        if bench.killer(path):
            killed += 1
        else:
            print(f"survives {path}:{at + 1}\n  - {was.strip()}\n  + {line.strip()}", flush=True)
    print(f"mutants: {killed} of {tried} noticed, of {len(all_of)} places")


main()
