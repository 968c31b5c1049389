#!/bin/sh
# Runs every check of this folder from the top of the tree and says which failed.
# `sh tests/lint/run.sh size purity` runs the named ones only.
# SPDX-License-Identifier: GPL-3.0-or-later
set -u
[ -f tests/lint/run.sh ] || { echo "lint: start it from the top of the tree" >&2; exit 64; }
[ $# -gt 0 ] || set -- format spelling size asserts includes purity live method doors hardening leftovers shell cppcheck tidy analyzer
failed=0
log=$(mktemp) || exit 70
trap 'rm -f "$log"' EXIT
for check in "$@"; do
    start=$(date +%s)
    if sh "tests/lint/check_$check.sh" >"$log" 2>&1; then
        result="ok    "
    else
        result="FAILED"
        failed=$((failed + 1))
    fi
    echo "$result $check ($(($(date +%s) - start)) s)"
    [ "$result" = FAILED ] && sed 's/^/    /' "$log"
done
[ "$failed" -eq 0 ] || { echo "lint: $failed of $# checks failed" >&2; exit 1; }
