#!/bin/sh
# Runs a bench program, then the same equations in numpy on what it wrote, three times in turn: the machine may be
# busier at one time than at another. Prints the cost of a site-day of each, the ratio in each turn, and how far
# they differ.
# Usage: against_numpy.sh PROGRAM SCRIPT.py WHAT AIM ARGUMENTS: the program's and, behind the
# folder, the script's as the program prints them. SPDX-License-Identifier: GPL-3.0-or-later
program=$1 script=$(dirname "$0")/$2 what=$3 aim=$4
shift 4
for python in python3 /usr/bin/python3 none; do
    "$python" -c 'import numpy' 2>/dev/null && break
done
if [ "$python" = none ]; then
    echo "numpy: skipped, no Python with numpy is installed (Debian: python3-numpy)"
    exit 0
fi
folder=$(mktemp -d "${TMPDIR:-/tmp}/bench.XXXXXX") || exit 70
trap 'rm -rf "$folder"' EXIT INT TERM
for turn in 1 2 3; do
    "$program" "$folder" "$@" >"$folder/ours$turn" || exit 1
    read -r _ _ first second <"$folder/ours$turn"
    PYTHONDONTWRITEBYTECODE=1 "$python" "$script" "$folder" "$first" "$second" >"$folder/numpy$turn" || exit 1
done
sed -n 's/^version //p' "$folder/numpy1"
cat "$folder"/ours[123] "$folder"/numpy[123] | awk -v what="$what" -v aim="$aim" '
    $1 == "ns" && NF > 2 { ours[++n] = $2 }
    $1 == "ns" && NF == 2 { theirs[++m] = $2; ratio[m] = $2 / ours[m] }
    $1 == "miss" && $2 + 0 > miss + 0 { miss = $2 }
    function middle(x) { return x[1] + x[2] + x[3] - least(x) - most(x) }
    function least(x) { return x[1] < x[2] ? (x[1] < x[3] ? x[1] : x[3]) : (x[2] < x[3] ? x[2] : x[3]) }
    function most(x) { return x[1] > x[2] ? (x[1] > x[3] ? x[1] : x[3]) : (x[2] > x[3] ? x[2] : x[3]) }
    END {
        printf "%s: %.1f ns a site-day; numpy %.1f ns, %.1f times as long (%.1f to %.1f in three turns; aim: at least %s)\n",
            what, middle(ours), middle(theirs), middle(ratio), least(ratio), most(ratio), aim
        printf "largest relative difference: %s (aim: at most 1e-6)\n", miss
    }'
