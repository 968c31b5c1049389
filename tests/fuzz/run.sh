#!/bin/sh
# Builds the fuzz targets, replays their kept inputs, then looks for new faults for
# $SECONDS_IN_ALL, shared among them (under 6: the kept inputs only). A fault leaves its
# input in build/fuzz and fails. SPDX-License-Identifier: GPL-3.0-or-later
set -eu

probe=$(mktemp -d)
trap 'rm -rf "$probe"' EXIT
printf 'int LLVMFuzzerTestOneInput(const char *d, unsigned long n) { return d && n > 9 ? 0 : 0; }\n' >"$probe/t.c"
if ! clang -fsanitize=fuzzer,address,undefined -o "$probe/t" "$probe/t.c" 2>"$probe/why"; then
    echo "# skipped: fuzzing: clang with its libFuzzer is not here: $(head -1 "$probe/why")"
    exit 0
fi
"${MAKE:-make}" --no-print-directory -j2 fuzzers

# One target: its kept inputs, those found before, and its share of the time.
try() {
    found=build/fuzz/found/$1
    mkdir -p "$found"
    set -- "$1" -max_len=65536 -timeout=2 -rss_limit_mb=768 -malloc_limit_mb=256 -print_final_stats=1
    if [ -f "tests/fuzz/$1.dict" ]; then
        set -- "$@" "-dict=tests/fuzz/$1.dict"
    fi
    if [ "$each" -gt 0 ]; then
        set -- "$@" "-max_total_time=$each"
    else
        set -- "$@" -runs=0
    fi
    target=$1
    shift
    "build/fuzz/fuzz_$target" "$@" "-artifact_prefix=build/fuzz/$target-" "$found" "tests/fuzz/corpus/$target" \
        >"build/fuzz/$target.log" 2>&1
}

targets="csv json holding options diary cache"
each=$((${SECONDS_IN_ALL:-30} / 6))
passed=0 failed=0
for name in $targets; do
    if try "$name"; then
        passed=$((passed + 1))
        sed -n "s/^stat::number_of_executed_units: *\([0-9]*\)/fuzz: $name: \1 inputs, none at fault/p" \
            "build/fuzz/$name.log"
    else
        failed=$((failed + 1))
        echo "FAILED fuzz: $name"
        tail -40 "build/fuzz/$name.log"
    fi
done
echo "fuzz: $passed passed, $failed failed"
exit $((failed > 0))
