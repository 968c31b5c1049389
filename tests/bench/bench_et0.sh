#!/bin/sh
# Reference evapotranspiration against the same equations in numpy, on the same arrays
# (50 sites of 30 years, a site at a time, so that both keep theirs in the cache).
# Usage: bench_et0.sh PROGRAM. SPDX-License-Identifier: GPL-3.0-or-later
program=$1
here=$(dirname "$0")
python=$(sh "$here/numpy.sh") || exit 0
folder=$(mktemp -d "${TMPDIR:-/tmp}/bench.XXXXXX") || exit 70
trap 'rm -rf "$folder"' EXIT INT TERM
"$program" "$folder" 50 30 >"$folder/ours" || exit 1
read -r _ _ sites days <"$folder/ours"
"$python" "$here/et0_numpy.py" "$folder" "$sites" "$days" >"$folder/numpy" || exit 1
sed -n 's/^version //p' "$folder/numpy"
awk 'FNR == NR { ours = $2; next }
     $1 == "ns" { theirs = $2 }
     $1 == "miss" { miss = $2 }
     END {
         printf "ET0: %.1f ns a site-day; numpy %.1f ns, %.1f times as long (aim: at least 4)\n", ours, theirs, theirs / ours
         printf "largest relative difference: %s (aim: at most 1e-6)\n", miss
     }' "$folder/ours" "$folder/numpy"
