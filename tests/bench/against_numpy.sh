#!/bin/sh
# Runs a bench program, then the same equations in numpy on what it wrote; prints the cost
# of a site-day of each, and how far they differ.
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
"$program" "$folder" "$@" >"$folder/ours" || exit 1
read -r _ _ first second <"$folder/ours"
PYTHONDONTWRITEBYTECODE=1 "$python" "$script" "$folder" "$first" "$second" >"$folder/numpy" || exit 1
sed -n 's/^version //p' "$folder/numpy"
awk -v what="$what" -v aim="$aim" '
    FNR == NR { ours = $2; next }
    $1 == "ns" { theirs = $2 }
    $1 == "miss" { miss = $2 }
    END {
        printf "%s: %.1f ns a site-day; numpy %.1f ns, %.1f times as long (aim: at least %s)\n", what, ours, theirs, theirs / ours, aim
        printf "largest relative difference: %s (aim: at most 1e-6)\n", miss
    }' "$folder/ours" "$folder/numpy"
