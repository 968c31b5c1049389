#!/bin/sh
# The round over many holdings: how many a second, what more processes bring, and that they
# change nothing. Usage: bench_round.sh PROGRAM [HOLDINGS]. SPDX-License-Identifier: GPL-3.0-or-later
program=$1
holdings=${2:-1000}
folder=$(mktemp -d "${TMPDIR:-/tmp}/bench.XXXXXX") || exit 70
trap 'rm -rf "$folder"' EXIT INT TERM

# Copies of the demo with a name, weather, hay and diary of their own.
i=0
while [ "$i" -lt "$holdings" ]; do
    at=$folder/clients/$i
    mkdir -p "$at"
    sed "s/Larkhanger (invented)/Holding $i (invented)/; s/\"bales\": 95/\"bales\": $((i % 60))/" \
        data/demo/holding.json >"$at/holding.json"
    awk -F, -v OFS=, -v warmer="$((i % 41 - 20))" '
        NR > 1 && $2 != "" && $3 != "" { $2 += warmer / 10; $3 += warmer / 10 } { print }' \
        data/demo/weather.csv >"$at/weather.csv"
    if [ $((i % 10)) -eq 0 ]; then
        printf 'date,time,subject,what,value,unit,note\n2025-04-%02d,07:00,grey-pony,foot-signs,hot-feet,,\n' \
            "$((i % 22 + 1))" >"$at/diary.csv"
    fi
    i=$((i + 1))
done

took() { # JOBS: seconds of a round
    start=$(date +%s.%N)
    "$program" round "$folder/clients" --date 2025-04-23 --jobs "$1" --csv >"$folder/jobs$1" || exit 1
    date +%s.%N | awk -v start="$start" '{ printf "%.3f\n", $1 - start }'
}
status=0
one=$(took 1)
cores=$(getconf _NPROCESSORS_ONLN)
many=$(took "$cores")
took 8 >/dev/null
for jobs in "$cores" 8; do
    cmp "$folder/jobs1" "$folder/jobs$jobs" || status=1
done
awk -v n="$holdings" -v one="$one" -v many="$many" -v cores="$cores" 'BEGIN {
    printf "1 process: %.0f holdings a second; %d: %.0f, %.2f times as many\n", n / one, cores, n / many, one / many
    printf "%d holdings in %.1f s (aim: 1,000 in under 10 s on two cores)\n", n, many }'
exit $status
