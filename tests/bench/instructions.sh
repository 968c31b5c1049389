#!/bin/sh
# What three tasks cost in instructions, counted by valgrind, against tests/bench/instructions.txt:
# fails where one costs 3 in 100 more. Counts differ between compilers, C libraries, and processors, so they
# are compared only where those are the ones recorded. With --record the table is written anew.
# Usage: instructions.sh PROGRAM [--record]. SPDX-License-Identifier: GPL-3.0-or-later
program=$1
table=tests/bench/instructions.txt
folder=$(mktemp -d "${TMPDIR:-/tmp}/bench.XXXXXX") || exit 70
trap 'rm -rf "$folder"' EXIT INT TERM
if ! command -v valgrind >/dev/null 2>&1; then
    echo "# skipped: valgrind is not installed (Debian: valgrind)"
    exit 0
fi
# Our own vector code is chosen by the processor.
vectors=$(grep -qw avx2 /proc/cpuinfo 2>/dev/null && echo "with AVX2" || echo "without AVX2")
made_by="$("${CC:-cc}" --version | head -n 1); libc $(ldd --version 2>/dev/null | sed -n '1s/.* //p'); $vectors"
if [ "$2" != --record ] && ! grep -qxF "made by $made_by" "$table"; then
    echo "# skipped: $table was made by another compiler, C library or processor than $made_by"
    exit 0
fi

# The C library chooses its routines by the processor; held to the oldest, the counts are alike.
GLIBC_TUNABLES=glibc.cpu.hwcaps=-AVX2,-AVX2_Usable,-FMA,-FMA_Usable,-FMA4,-ERMS,-FSRM,-AVX512F,-AVX512VL,-AVX512BW,-EVEX
export GLIBC_TUNABLES

count() { # NAME ARGUMENT...
    name=$1
    shift
    valgrind --tool=callgrind --callgrind-out-file="$folder/out" "$program" "$@" >/dev/null 2>"$folder/log" ||
        { cat "$folder/log"; exit 1; }
    sed -n 's/^==[0-9]*== Collected : \([0-9]*\).*/'"$name"' \1/p' "$folder/log" >>"$folder/found"
}

count today today --holding data/demo/holding.json --date 2025-04-23 --no-log
count read-ten-years weather --weather data/real/dublin_airport_2010-2020.csv --latitude 53.43 --csv
count outlook outlook --weather data/real/de_bilt_2005-2019.csv --latitude 52.1 --animal pony --date 2015-04-01 \
    --months 2 --draws 20

if [ "$2" = --record ]; then
    {
        echo "# Instructions by callgrind; sh tests/bench/instructions.sh ./sugarlea --record writes them."
        echo "made by $made_by"
        cat "$folder/found"
    } >"$table"
    cat "$table"
    exit 0
fi
awk 'FNR == NR { was[$1] = $2; next }
     {
         change = was[$1] > 0 ? 100 * ($2 / was[$1] - 1) : 100
         printf "%-16s %12d instructions, %+.1f %% (alarm at +3 %%)\n", $1, $2, change
         bad += change > 3
     }
     END { exit NR == FNR || bad > 0 }' "$table" "$folder/found"
