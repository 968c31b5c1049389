#!/bin/sh
# gcc's analyzer over the program: paths that leak, use what is not set, or follow NULL. As under
# AddressSanitizer (without clones of vector functions), for it takes those for calls that write nothing.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/lint/lib.sh
need gcc gcc
if ! echo 'int f(void);' | gcc -fanalyzer -xc -fsyntax-only - 2>/dev/null || gcc --version | grep -qi clang; then
    echo "# skipped: gcc here has no analyzer"
    exit 0
fi
# shellcheck disable=SC2046 # the flags are many words
found=$(find src -name '*.c' | sort | xargs -P 2 -I FILE gcc -O2 -fanalyzer -D__SANITIZE_ADDRESS__ \
    $(analysis_flags) -c -o /dev/null FILE 2>&1)
result=$?
# The findings without the path that leads to each.
echo "$found" | grep -E '(warning|error): ' && exit 1
exit "$result"
