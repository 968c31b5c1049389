#!/bin/sh
# The same question gets the same bytes, ten times over, however many threads answer it.
# `make determinism` asks a hundred times, and another compiler. SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
if ! command -v python3 >/dev/null 2>&1; then
    skip "ten times the same" "no python3 here"
    pass "without python3 nothing is compared"
    finish
fi
check "the number of processors can be set" "${CC:-cc}" -shared -fPIC -o "$scratch/cores.so" tests/determinism/cores.c -ldl
python3 tests/determinism/run.py "$PROGRAM" "$scratch/cores.so" 10 || bad=1
finish
