#!/bin/sh
# What the other tests stand on: a failure is told in whole lines, however much was printed.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/cli/lib.sh
awk 'BEGIN { for (i = 0; i < 3000; i++) printf "x" }' >"$out"
printf 'no end' >"$err"
(
    fail "one" "a reason"
    fail "two" "a reason"
) >"$scratch/said"
check "each failure begins a line" test "$(grep -c '^not ok - ' "$scratch/said")" -eq 2
check "of 3000 bytes 2000 are shown" test "$(grep -c '^# out: x\{2000\}$' "$scratch/said")" -eq 2
check "a line without an end is ended" test "$(grep -c '^# err: no end$' "$scratch/said")" -eq 2
finish
