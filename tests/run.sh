#!/bin/sh
# Runs the test programs named, then every tests/cli/*.sh, and counts.
# SPDX-License-Identifier: GPL-3.0-or-later
passed=0
failed=0
: "${PROGRAM:=sugarlea}"
case $PROGRAM in /*) ;; *) PROGRAM=$PWD/$PROGRAM ;; esac
export PROGRAM
if [ "$PROGRAM" != "$PWD/sugarlea" ]; then # a build elsewhere has no folders beside it
    export SUGARLEA_MODELS="$PWD/models" SUGARLEA_PLOTS="$PWD/plots"
fi
log=$(mktemp) || exit 70
trap 'rm -f "$log"' EXIT
for t in "$@" tests/cli/test_*.sh; do
    [ -e "$t" ] || continue
    case $t in *.sh) sh "$t" >"$log" 2>&1 ;; *) "$t" >"$log" 2>&1 ;; esac
    code=$?
    ok=$(grep -c -e '^\[       OK \]' -e '^ok ' "$log")
    # cmocka names a failed test twice: where it fails and in its summary.
    bad=$(grep -e '^\[  FAILED  \] [A-Za-z_0-9]*$' -e '^not ok ' "$log" | sort -u | wc -l)
    # A crash, and a program that tests nothing, count as one failure.
    if [ "$bad" -eq 0 ] && { [ "$code" -ne 0 ] || [ "$ok" -eq 0 ]; }; then bad=1; fi
    passed=$((passed + ok))
    failed=$((failed + bad))
    if [ "$code" -ne 0 ] || [ "$bad" -gt 0 ]; then
        echo "== $t (exit $code)"
        cat "$log"
    else
        grep -e '^# ' -e '^not done' "$log"
        echo "$ok passed: ${t##*/}"
    fi
done
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]
