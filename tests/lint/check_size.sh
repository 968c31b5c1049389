#!/bin/sh
# Size limits: complexity <= 15 and <= 80 lines a function, median function of
# src <= 20 lines; <= 500 lines a file, median file <= 200.
# SPDX-License-Identifier: GPL-3.0-or-later
. tests/lint/lib.sh
need pmccabe pmccabe

median() { # of the numbers on standard input
    sort -n | awk '{ v[NR] = $1 } END { print NR ? v[int((NR + 1) / 2)] : 0 }'
}

bad=0
# pmccabe: complexity, traditional complexity, statements, first line, lines, file(line): name
long=$(c_files src tests | xargs pmccabe | awk -F'\t' '
    $1 > 15 { print $6 ": complexity " $1 ", at most 15" }
    $5 > 80 { print $6 ": " $5 " lines, at most 80" }')
[ -z "$long" ] || { echo "$long"; bad=1; }

middle=$(c_files src | xargs pmccabe | cut -f5 | median)
[ "$middle" -le 20 ] || { echo "src: the median function has $middle lines, at most 20"; bad=1; }

for file in $(c_files src tests); do
    lines=$(wc -l <"$file")
    [ "$lines" -le 500 ] || { echo "$file: $lines lines, at most 500"; bad=1; }
done
middle=$(for file in $(c_files src tests); do wc -l <"$file"; done | median)
[ "$middle" -le 200 ] || { echo "the median file has $middle lines, at most 200"; bad=1; }
exit "$bad"
