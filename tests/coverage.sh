#!/bin/sh
# Builds with gcc's counters into build/coverage, runs every test there, and tells how many
# lines and branches were run, by module. Left out of the count are lines with an assert alone:
# its other branch is a broken promise, and ends the program. What no test reached stands line by line
# in build/coverage/uncovered.txt. SPDX-License-Identifier: GPL-3.0-or-later
set -u
command -v gcovr >/dev/null 2>&1 || {
    echo "coverage: gcovr is needed: apt-get install gcovr" >&2
    exit 69
}
build=build/coverage
mkdir -p "$build"
find "$build" -name '*.gcda' -exec rm -f {} +
# A process that leaves by _exit, as the workers of a round do, keeps its counts, too.
cat >"$build/leave.c" <<'C'
void __gcov_dump(void);
void __real__exit(int status) __attribute__((noreturn));
void __wrap__exit(int status) __attribute__((noreturn));
void __wrap__exit(int status)
{
    __gcov_dump();
    __real__exit(status);
}
C
gcc -c -o "$build/leave.o" "$build/leave.c" || exit 70
"${MAKE:-make}" --no-print-directory BUILD="$build" PROGRAM="$build/sugarlea" CC=gcc \
    CFLAGS="-O0 -g --coverage -fprofile-update=atomic" HARDEN=-fPIE LDFLAGS="--coverage -Wl,--wrap=_exit $build/leave.o" ${TESTS:+"TESTS=$TESTS"} check
code=$?
# A program that a test kills may leave half of its counts; of those gcov now and then reckons that a branch was
# taken -1 times. Such a line is left out with a warning; it says nothing of the code.
gcovr --gcov-ignore-parse-errors --root . --object-directory "$build" --filter src/ --exclude-lines-by-pattern '^\s*assert\(.*' \
    --json-summary "$build/summary.json" --txt "$build/uncovered.txt" --json "$build/counts.json" "$build/src" || exit 70
gcovr --root . --add-tracefile "$build/counts.json" --filter src/ --branches --txt "$build/uncovered-branches.txt" || exit 70
python3 - "$build/summary.json" <<'P'
import collections
import json
import sys

MODEL = ("physics", "sward", "animal", "advice", "season", "hay")
FLOORS = {"model": (100, 98), "all": (95, 90)}  # lines, branches, in %
sums = collections.defaultdict(lambda: [0, 0, 0, 0])
for file in json.load(open(sys.argv[1]))["files"]:
    module = (file["filename"].split("/") + [""])[1]
    names = [module if "." not in module else "main", "all"] + (["model"] if module in MODEL else [])
    for name in names:
        for k, key in enumerate(("line_covered", "line_total", "branch_covered", "branch_total")):
            sums[name][k] += file[key]
print("coverage: module    lines      %   branches      %")
for name in sorted(sums, key=lambda n: (n in ("all", "model"), n == "all", n)):
    a, b, c, d = sums[name]
    print(f"coverage: {name:8s} {b:6d} {100 * a / max(b, 1):6.1f} {d:10d} {100 * c / max(d, 1):6.1f}")
low = False
for name, floors in FLOORS.items():
    a, b, c, d = sums[name]
    for what, part, whole, floor in (("lines", a, b, floors[0]), ("branches", c, d, floors[1])):
        if not whole or 100 * part < floor * whole:
            low = True
            print(f"coverage: {part} of {whole} {what} of \"{name}\" were run; {floor} % are the least")
sys.exit(low)
P
low=$?
[ "$code" -eq 0 ] && exit "$low"
exit "$code"
