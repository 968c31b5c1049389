#!/bin/sh
# clang-tidy (.clang-tidy says which checks) over the program, two files at a time.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/lint/lib.sh
need clang-tidy clang-tidy
# Standard error holds only counts of what was left out; findings are on output.
# shellcheck disable=SC2046 # the flags are many words
found=$(find src -name '*.c' | sort | xargs -P 2 -I FILE clang-tidy --quiet FILE -- $(analysis_flags) 2>/dev/null)
result=$?
# The findings without the path that leads to each: clang-tidy FILE shows that.
echo "$found" | grep -E ' (error|warning): '
exit "$result"
