#!/bin/sh
# Builds with gcc's counters into build/coverage, runs every test there, and tells how many
# lines and branches were run: overall, and of the model. Nothing is left out of the count.
# SPDX-License-Identifier: GPL-3.0-or-later
set -u
command -v gcovr >/dev/null 2>&1 || {
    echo "coverage: gcovr is needed: apt-get install gcovr" >&2
    exit 69
}
build=build/coverage
find "$build" -name '*.gcda' -exec rm -f {} + 2>/dev/null
"${MAKE:-make}" --no-print-directory BUILD="$build" PROGRAM="$build/sugarlea" CC=gcc \
    CFLAGS="-O0 -g --coverage -fprofile-update=atomic" HARDEN=-fPIE LDFLAGS=--coverage ${TESTS:+"TESTS=$TESTS"} check
code=$?
model='src/(physics|sward|animal|advice|hay|season)/'
gcovr --root . --object-directory "$build" --filter 'src/' --json "$build/counts.json" "$build/src" || exit 70
count() { # NAME FILTER
    gcovr --root . --add-tracefile "$build/counts.json" --filter "$2" --json-summary |
        python3 -c '
import json, sys
all_of = json.load(sys.stdin)
print("coverage: %-9s" % sys.argv[1], ", ".join("%5.1f %% of %d %s" % (
    100 * all_of[kind + "_covered"] / all_of[kind + "_total"], all_of[kind + "_total"], words)
    for kind, words in (("line", "lines"), ("branch", "branches"))))' "$1"
}
count overall 'src/'
count model "$model"
for folder in physics sward animal advice hay season; do
    count "$folder" "src/$folder/"
done
gcovr --root . --add-tracefile "$build/counts.json" --filter "$model" --txt "$build/uncovered.txt"
exit "$code"
