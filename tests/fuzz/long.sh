#!/bin/sh
# Many runs of one fuzz target, gone on with where the last left off: sh tests/fuzz/long.sh csv 5000000
# Runs, features and inputs found are kept in build/fuzz; a fault ends it, its input beside the log.
# Needs `make fuzzers`. SPDX-License-Identifier: GPL-3.0-or-later
set -eu

target=$1 wanted=$2 piece=100000
count=build/fuzz/$target.count log=build/fuzz/$target.long.log found=build/fuzz/found/$target
mkdir -p "$found"
[ -f "$count" ] || echo 0 >"$count"
# Entropic scheduling took a fifth of the time of a grown corpus.
set -- -entropic=0 -max_len="${3:-4096}" -timeout=5 -rss_limit_mb=256 "-artifact_prefix=build/fuzz/$target-"
if [ -f "tests/fuzz/$target.dict" ]; then
    set -- "$@" "-dict=tests/fuzz/$target.dict"
fi
# Memory is quarantined for the length of some inputs, not of thousands: fresh pages cost more than the reading.
export ASAN_OPTIONS=quarantine_size_mb=16:malloc_context_size=8
while [ "$(cat "$count")" -lt "$wanted" ]; do
    "build/fuzz/fuzz_$target" "$@" "-runs=$piece" "$found" "tests/fuzz/corpus/$target" >>"$log" 2>&1
    echo $(($(cat "$count") + piece)) >"$count"
done
echo "fuzz: $target: $(cat "$count") inputs, none at fault; $(grep -o 'cov: .* corp: [^ ]*' "$log" | tail -1)"
