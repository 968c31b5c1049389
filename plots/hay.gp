# What is left of the hay. SPDX-License-Identifier: GPL-3.0-or-later
#
# $left: day, kg with the most eaten, the middle, with the least. $mark: day, `marks` of
# them, with mark_text. kg_top, kg_step. Marks of the time axis: src/out/plot.h.

set xrange [x_from:x_to]
@grid
@axes
at = 40.0; high = 220.0; words = 'Left in store, kg as fed'
@panel; @heading; @ticks
set yrange [0:kg_top]
set ytics kg_step
do for [i = 1:marks] {
    x = real(word($mark[i], 1))
    set arrow 900 + i from x, graph 0 to x, graph 1 nohead front lc rgb ink lw 0.8 dashtype 2
    set label 900 + i mark_text[i] at x, screen Y(at + 8.0 + 11.0 * (i - 1)) right offset -0.4, 0 front font @small textcolor rgb ink
}
plot $left using 1:2:4 with filledcurves lc rgb light, \
     $left using 1:3 with lines lw 1.6 lc rgb 0x4d4d4d
