#!/bin/sh
# Files that went wrong on their way are refused with their place, or read as they stand.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
if ! command -v python3 >/dev/null 2>&1; then
    skip "malformed files" "no python3 here"
    pass "without the second reader there is nothing to compare"
    finish
fi
python3 tests/fault/malformed.py "$PROGRAM" || bad=1
finish
