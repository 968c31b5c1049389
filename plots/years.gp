# A row a year: day of the year across, colour by NSC.
# SPDX-License-Identifier: GPL-3.0-or-later
#
# $cells: row (0 on top), x from, x to (0 .. 366), colour. rows with row_name and row_held
# (days that count, '' none) under held_head; row_high, units; name_each: every so many rows is
# named; with_mean: row rows + 1 holds the mean; month_at, month_text; $key.

edge = right - with_held * 62.0
set lmargin at screen X(left + 12.0)
set rmargin at screen X(edge)
at = 48.0; high = row_high * (rows + 2 * with_mean)
@panel
set xrange [0:366]
set yrange [rows + 2 * with_mean:0]
do for [i = 1:13] {
    set arrow i from month_at[i], graph 0 to month_at[i], graph 1 nohead front lc rgb 0xffffff lw 0.6
}
do for [i = 1:12] {
    middle = (month_at[i] + month_at[i + 1]) / 2.0
    set label i month_text[i] at first middle, screen Y(at - 8.0) center font @small textcolor rgb ink
    set label 20 + i month_text[i] at first middle, screen Y(at + high + 9.0) center font @small textcolor rgb ink
}
do for [i = 1:rows] {
    if ((i - 1) % name_each == 0) {
        set label 100 + i row_name[i] at screen X(left + 7.0), first i - 0.5 right font @small textcolor rgb ink
        set label 1000 + i row_held[i] at screen X(right), first i - 0.5 right font @small textcolor rgb ink
    }
}
if (with_mean) {
    set label 99 'mean' at screen X(left + 7.0), first rows + 1.5 right font @small textcolor rgb ink
}
if (with_held) {
    set label 98 held_head[1] at screen X(right), screen Y(at - 22.0) right font @small textcolor rgb ink
    set label 97 held_head[2] at screen X(right), screen Y(at - 9.0) right font @small textcolor rgb ink
}
gap = row_high > 9.0 ? 0.06 : 0.0
plot $cells using 2:1:2:3:($1 + gap):($1 + 1.0 - gap):4 with boxxyerror lc rgb variable
unset label
unset arrow

set lmargin at screen X(left)
set rmargin at screen X(right)
at = at + high + 40.0; high = 10.0
@panel
@classes
