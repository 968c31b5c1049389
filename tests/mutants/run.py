#!/usr/bin/env python3
"""Small faults put into the model one at a time: does a test notice?

A fault is an operator exchanged, a comparison shifted or turned round, a condition negated, a constant
changed, a statement left out. A seed draws lines of code, each as likely as any other, and one fault in
each. The changed file alone is compiled, the library (here a shared one) linked anew, and the tests are
run up to the first that fails: those that call the file first, the quickest first, C tests before
those of the command line. A fault that gives the same machine code as none is not counted.

Usage: run.py [--mutants N] [--seed N] [--workers N] [--least PERCENT] [--only PATH...]
Fails where fewer than PERCENT were noticed.
SPDX-License-Identifier: GPL-3.0-or-later"""
import argparse
import concurrent.futures
import os
import pathlib
import random
import re
import resource
import shlex
import shutil
import subprocess
import sys
import time

MODEL = ("physics", "sward", "animal", "advice", "hay", "season")
BUILD = pathlib.Path("build/mutants")
# The quick ones that print the model's answers.
COMMAND_TESTS = ("demo", "readme", "ration", "hay", "days_ahead", "diary", "judgements", "holding", "sheet", "quiet", "units",
                 "season_many", "outlook", "tune")
SWAPS = [(r" \+ ", [" - "]), (r" - ", [" + "]), (r" \* (?=[\w(])", [" / "]), (r" / ", [" * "]),
         (r" < ", [" <= ", " >= "]), (r" <= ", [" < ", " > "]), (r" > ", [" >= ", " <= "]), (r" >= ", [" > ", " < "]),
         (r" == ", [" != "]), (r" != ", [" == "]), (r" && ", [" || "]), (r" \|\| ", [" && "]),
         (r" \+= ", [" -= "]), (r" -= ", [" += "]), (r" \*= ", [" /= "]), (r" \|= ", [" = "]),
         (r"\bfmin\(", ["fmax("]), (r"\bfmax\(", ["fmin("]), (r"\btrue\b", ["false"]), (r"\bfalse\b", ["true"])]
NUMBER = re.compile(r"(?<![\w.])(\d+\.?\d*)(?![\w.])")
CONDITION = re.compile(r"^(\s+(?:\} else )?if \()(.*)(\) \{)$")
STATEMENT = re.compile(r"^\s+(?:[\w>.*()\[\] +-]+? [-+*/|&]?= .*;|[\w>.\[\]-]+\(.*\);|[\w>.\[\]-]+(?:\+\+|--);|break;|continue;)$")
DECLARES = re.compile(r"^\s+(?:static |const |unsigned )*(?:struct |enum )?\w+ \*?\w+(?:\[.*\])?(?: =|;|,)")
FIELD = re.compile(r"^\s+\.\w+(?:\[\w+\])? = .*,$")
SECONDS_LEAST, TIMES = 10, 8  # a test may take this long, or so many times as long as without a fault
ROOM = 4 << 30                # bytes of address space: a fault may ask for memory without end
# Tests may refuse allocations from arenas (tests/support/starve.c); who has no such door gets what is asked for.
HELD = ["-Wl," + ",".join(f"--wrap=arena_{f}" for f in ("alloc", "strndup", "strdup"))]
UNHELD = "#include <base/arena.h>\n" + "".join(
    f"{t} *__real_arena_{f}({p}); {t} *__wrap_arena_{f}({p}); {t} *__wrap_arena_{f}({p}) {{ return __real_arena_{f}({w}); }}\n"
    for f, t, p, w in (("alloc", "void", "struct arena *a, size_t n, size_t size", "a, n, size"),
                       ("strndup", "char", "struct arena *a, const char *s, size_t n", "a, s, n"),
                       ("strdup", "char", "struct arena *a, const char *s", "a, s")))


def code_of(text):
    """The lines of code of a file: number and text, strings and comments blanked in equal length."""
    blank = re.compile(r'"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])+\'|/\*.*?\*/|//[^\n]*', re.S)
    masked = blank.sub(lambda m: re.sub(r"[^\n]", "\0", m[0]), text)
    for at, line in enumerate(masked.split("\n")):
        if line.startswith(" ") and line.strip("\0 {};") and "assert(" not in line:
            yield at, line


def faults_of(code, line):
    """The faults that one line of code may get: the whole line as it then stands."""
    for pattern, others in SWAPS:
        for m in re.finditer(pattern, code):
            for other in others:
                if not re.search(r"(struct \w+|double|void|char|int|size_t)$", code[:m.start()]):
                    yield line[:m.start()] + other + line[m.end():]
    for m in NUMBER.finditer(code):
        yield line[:m.start()] + (f"{float(m[1]) * 1.5 + 0.5:g}" if "." in m[1] else str(int(m[1]) + 1)) + line[m.end():]
    m = CONDITION.match(code)
    if m:
        yield line[:m.end(1)] + "!(" + line[m.start(2):m.end(2)] + ")" + line[m.start(3):]
    if (STATEMENT.match(code) and not DECLARES.match(code)) or FIELD.match(code):
        yield "" if FIELD.match(code) else "    ;"


def quiet(command, **more):
    return subprocess.run(command, capture_output=True, text=True, check=True, **more).stdout


def symbols(path):
    """What an object file defines, and what it needs."""
    rows = [x.split() for x in quiet(["nm", "-g", "--format=posix", path]).splitlines()]
    return {r[0] for r in rows if r[1] != "U"}, {r[0] for r in rows if r[1] == "U"}


class Bench:
    """Objects of a build of its own, tests linked with the library as a shared one."""

    def __init__(self):
        sources = [p for p in sorted(pathlib.Path("src").glob("*/*.c")) if p.parts[1] != "fetch"]
        tests = sorted(pathlib.Path("tests").glob("unit/test_*.c")) + sorted(pathlib.Path("tests").glob("science/test_*.c"))
        tests = [p for p in tests if '"fetch/' not in p.read_text(encoding="utf-8")]  # of the other program, which has no model
        helpers = sorted(pathlib.Path("tests/support").glob("*.c"))
        of = self.object_of = lambda p: BUILD / p.with_suffix(".o")
        every = [*sources, pathlib.Path("src/main.c"), *tests, *helpers]
        make = [os.environ.get("MAKE", "make"), "-s", "-j2", f"BUILD={BUILD}", "CFLAGS=-O1", "HARDEN=-fPIC", "WARNINGS=-w"]
        subprocess.run([*make, *map(str, map(of, every))], check=True)
        subprocess.run([*make, "LDHARDEN=", f"PROGRAM={BUILD}/built", f"{BUILD}/built-fetch"], check=True)
        shown = quiet([*make, "-n", "V=1", "-W", str(sources[0]), str(of(sources[0]))])
        line = next(x for x in shown.splitlines() if " -c -o " in x)
        self.compile = [w for w in shlex.split(line)[:-4] if w not in ("-MMD", "-MP")]
        self.libraries = [*quiet(["pkg-config", "--libs", "libcjson", "gsl", "zlib"]).split(), "-lm", "-pthread"]
        self.objects = {p: of(p) for p in sources}
        self.plain = {}  # the object of a file as it is, by which one is known that is the same
        (BUILD / "unheld.c").write_text(UNHELD, encoding="utf-8")
        quiet([*self.compile, "-c", "-o", BUILD / "unheld.o", BUILD / "unheld.c"])
        self.link(BUILD, {})
        self.programs = [self.test_of(t, helpers) for t in tests]
        quiet(["cc", "-o", BUILD / "sugarlea", of(pathlib.Path("src/main.c")), f"-L{BUILD}", "-lsugarlea", *self.libraries])
        shutil.copy(BUILD / "built-fetch", BUILD / "sugarlea-fetch")
        self.defined = {p: symbols(o) for p, o in self.objects.items()}
        self.helped = {h: symbols(of(h)) for h in helpers}
        self.tests = self.times()

    def test_of(self, test, helpers):
        program = BUILD / "tests" / test.stem
        quiet(["cc", *HELD, "-o", program, self.object_of(test), *map(self.object_of, helpers), f"-L{BUILD}", "-lsugarlea",
               *self.libraries, "-lcmocka"])
        return program

    def link(self, folder, instead):
        quiet(["cc", "-shared", *HELD, "-o", folder / "libsugarlea.so", BUILD / "unheld.o",
               *{**self.objects, **instead}.values(), *self.libraries])

    def run(self, test, folder, limit):
        """Does it pass? The library is that of the folder."""
        environment = {**os.environ, "LD_LIBRARY_PATH": str(folder.resolve()), "PROGRAM": str((BUILD / "sugarlea").resolve()),
                       "FETCHER": str((BUILD / "sugarlea-fetch").resolve()), "SUGARLEA_MODELS": str(pathlib.Path("models").resolve()),
                       "SUGARLEA_PLOTS": str(pathlib.Path("plots").resolve())}
        command = ["sh", test] if test.suffix == ".sh" else [test]
        with subprocess.Popen(command, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                              start_new_session=True,
                              preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_AS, (ROOM, ROOM))) as child:
            try:
                return child.wait(limit) == 0
            except subprocess.TimeoutExpired:
                os.killpg(child.pid, 9)
                return False

    def times(self):
        """Each test that passes without a fault: how long it takes, which files it calls, which it needs."""
        found = []
        for test in [*self.programs, *(pathlib.Path(f"tests/cli/test_{n}.sh") for n in COMMAND_TESTS)]:
            start = time.monotonic()
            if not self.run(test, BUILD, 600):
                print(f"left out, it fails without a fault: {test}", flush=True)
                continue
            calls = set(self.objects) if test.suffix == ".sh" else self.called(test)
            found.append((test, time.monotonic() - start, calls, self.needed(calls)))
        return found

    def called(self, test):
        """The files that a test, or a helper that it calls, calls."""
        needs, helpers = symbols(next(BUILD.glob(f"tests/*/{test.name}.o")))[1], set()
        while new := {h for h, (defines, _) in self.helped.items() if h not in helpers and defines & needs}:
            helpers |= new
            needs = needs.union(*(self.helped[h][1] for h in new))
        return {p for p, (defines, _) in self.defined.items() if defines & needs}

    def needed(self, calls):
        every, new = set(calls), set(calls)
        while new:
            needs = set().union(*(self.defined[p][1] for p in new))
            new = {p for p, (defines, _) in self.defined.items() if p not in every and defines & needs}
            every |= new
        return every

    def order(self, path):
        held = [t for t in self.tests if path in t[3]]
        return sorted(held, key=lambda t: (t[0].suffix == ".sh", path not in t[2], t[1]))

    def build(self, folder, path, text):
        """The object of a changed file as bytes; None: it does not compile."""
        source, made = folder / path.name, folder / "mutant.o"
        source.write_text(text, encoding="utf-8")
        command = [*self.compile, "-I", str(path.parent), "-c", "-o", str(made), str(source)]
        if subprocess.run(command, capture_output=True, check=False).returncode:
            return None
        return made.read_bytes()

    def judge(self, folder, path, at, line):
        """(what became of it, the test that noticed): "no code", "same", "killed", "survives"."""
        folder.mkdir(exist_ok=True)
        text = path.read_text(encoding="utf-8")
        rows = text.split("\n")
        if (folder, path) not in self.plain:
            self.plain[folder, path] = self.build(folder, path, text)
        plain = self.plain[folder, path]
        rows[at] = line
        made = self.build(folder, path, "\n".join(rows))
        if made is None or made == plain:
            return ("no code" if made is None else "same"), ""
        self.link(folder, {path: folder / "mutant.o"})
        for test, seconds, _, _ in self.order(path):
            if not self.run(test, folder, max(SECONDS_LEAST, TIMES * seconds)):
                return "killed", test.name
        return "survives", ""


def draws(seed, only):
    """(file, line, faulty line) without end of repetition: every line once, in an order by the seed."""
    dice = random.Random(seed)
    places = []
    for path in sorted(p for m in MODEL for p in pathlib.Path("src", m).glob("*.c")):
        if only and not any(str(path).startswith(o) for o in only):
            continue
        rows = path.read_text(encoding="utf-8").split("\n")
        for at, code in code_of("\n".join(rows)):
            faults = list(dict.fromkeys(faults_of(code, rows[at])))
            if faults:
                places.append((path, at, faults))
    dice.shuffle(places)
    return [(path, at, dice.choice(faults)) for path, at, faults in places]


def main():
    ask = argparse.ArgumentParser()
    ask.add_argument("--mutants", type=int, default=200)
    ask.add_argument("--seed", type=int, default=1)
    ask.add_argument("--workers", type=int, default=1)
    ask.add_argument("--least", type=float, default=0)
    ask.add_argument("--only", nargs="*")
    asked = ask.parse_args()
    bench = Bench()
    places = iter(draws(asked.seed, asked.only))
    counts = {"no code": 0, "same": 0, "killed": 0, "survives": 0}

    def work(number):
        while counts["killed"] + counts["survives"] < asked.mutants and (place := next(places, None)):
            path, at, line = place
            became, by = bench.judge(BUILD / f"worker-{number}", path, at, line)
            counts[became] += 1
            was = path.read_text(encoding="utf-8").split("\n")[at]
            if became in ("killed", "survives"):
                print(f"{became} {path}:{at + 1} {by}\n  - {was.strip()}\n  + {line.strip()}", flush=True)

    with concurrent.futures.ThreadPoolExecutor(asked.workers) as pool:
        list(pool.map(work, range(asked.workers)))
    tried = counts["killed"] + counts["survives"]
    percent = 100 * counts["killed"] / max(tried, 1)
    print(f"mutants: {counts['killed']} of {tried} noticed ({percent:.1f} %), seed {asked.seed}; "
          f"{counts['same']} more gave the same machine code, {counts['no code']} did not compile")
    if percent < asked.least or not tried:
        sys.exit(f"mutants: at least {asked.least:g} % are to be noticed; each that survives stands above")


main()
