#!/bin/sh
# The reader against R's fread, one thread each, on the same 270 MB file.
# Usage: bench_reader.sh PROGRAM. SPDX-License-Identifier: GPL-3.0-or-later
program=$1
folder=$(mktemp -d "${TMPDIR:-/tmp}/bench.XXXXXX") || exit 70
trap 'rm -rf "$folder"' EXIT INT TERM
free_kb=$(df -Pk "$folder" | awk 'NR == 2 { print $4 }')
if [ "$free_kb" -lt 600000 ]; then
    echo "bench_reader: skipped, $folder has less than 600 MB free (set TMPDIR)"
    exit 0
fi

"$program" --make "$folder/farm.csv" 1 10 || exit 1
"$program" "$folder/farm.csv" >"$folder/farm" || exit 1
awk '$1 == "seconds" { printf "one farm, ten years: %.2f ms (aim: under 5)\n", $2 * 1000 }' "$folder/farm"

big=$folder/sites.csv
"$program" --make "$big" "${BENCH_SITES:-2000}" 10 || exit 1
"$program" "$big" >"$folder/ours" || exit 1
echo "many sites: $(stat -c %s "$big" | awk '{ printf "%.0f MB", $1 / 1e6 }'), $(awk '$1 == "rows" { print $2 }' "$folder/ours") rows"
awk '$1 == "seconds" { printf "weather_read, one thread: %.3f s (median of 3)\n", $2 }
     $1 == "floor_seconds" { printf "floor, read and count lines: %.3f s\n", $2 }
     $1 == "column_mb" { columns = $2 }
     $1 == "peak_mb" { printf "memory: %.0f MB at most for %.0f MB of columns (aim: at most %.0f)\n", $2, columns, columns * 1.2 + 32 * 1.048576 }' "$folder/ours"

if ! command -v Rscript >/dev/null 2>&1 ||
   ! Rscript -e 'quit(status = !requireNamespace("data.table", quietly = TRUE))' >/dev/null 2>&1; then
    echo "fread: skipped, R with data.table is not installed (Debian: r-cran-data.table)"
    exit 0
fi
BENCH_FILE=$big Rscript -e '
    library(data.table, quietly = TRUE)
    setDTthreads(1)
    took <- sort(sapply(1:3, function(i) {
        gc()
        system.time(fread(Sys.getenv("BENCH_FILE"), showProgress = FALSE))[["elapsed"]]
    }))
    cat("seconds", took[2], took[1], "\nversion", R.version.string, "data.table", format(packageVersion("data.table")), "\n")' \
    >"$folder/fread" 2>"$folder/log" || { cat "$folder/log"; exit 1; }
sed -n 's/^version //p' "$folder/fread"
awk 'FNR == NR { if ($1 == "seconds") { ours = $2; best = $3 } next }
     $1 == "seconds" {
         printf "fread, one thread: %.3f s (median of 3); %.2f times as long (aim: at least 2.5)\n", $2, $2 / ours
         printf "best of 3 against best of 3: %.3f s and %.3f s, %.2f times\n", best, $3, $3 / best
     }' "$folder/ours" "$folder/fread"
