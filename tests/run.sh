#!/bin/sh
# Runs the test programs named, then every tests/cli/*.sh, and counts.
# SPDX-License-Identifier: GPL-3.0-or-later
passed=0
failed=0
: "${PROGRAM:=sugarlea}"
case $PROGRAM in /*) ;; *) PROGRAM=$PWD/$PROGRAM ;; esac
export PROGRAM
log=$(mktemp) || exit 70
trap 'rm -f "$log"' EXIT
for t in "$@" tests/cli/test_*.sh; do
    [ -e "$t" ] || continue
    case $t in *.sh) sh "$t" >"$log" 2>&1 ;; *) "$t" >"$log" 2>&1 ;; esac
    code=$?
    ok=$(grep -c -e '^\[       OK \]' -e '^ok ' "$log")
    bad=$(grep -c -e '^\[  FAILED  \] [a-z_0-9]*$' -e '^not ok ' "$log")
    if [ "$code" -ne 0 ] && [ "$bad" -eq 0 ]; then bad=1; fi
    passed=$((passed + ok))
    failed=$((failed + bad))
    if [ "$code" -ne 0 ] || [ "$bad" -gt 0 ]; then
        echo "== $t (exit $code)"
        cat "$log"
    else
        grep -e '^# ' -e '^not done' "$log"
        echo "$ok passed: $(basename "$t")"
    fi
done
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]
