# Reliability diagrams: a row for each group, a panel for each lead.
# SPDX-License-Identifier: GPL-3.0-or-later
#
# $point: group, lead (1 to 3), chance in %, happened in %, cases, 1 when they are few.
# groups, group_name; most: the cases of all chances together.

array lead_name[3] = ['this morning: came, %', 'a day ahead: came, %', '3 days ahead: came, %']
wide = 132.0
gap = 43.0
size(n) = 0.35 + 2.6 * sqrt(n / most)

set xrange [-4:104]
set yrange [-4:104]
@axes
set border 3
set xtics nomirror 50 font @small textcolor rgb ink offset 0, 0.4
set ytics 50
at = 6.0
do for [s = 1:groups] {
    at = at + 44.0; high = 124.0
    do for [k = 1:3] {
        from = left + (k - 1) * (wide + gap)
        set lmargin at screen X(from); set rmargin at screen X(from + wide)
        @panel
        unset label; unset arrow
        if (k == 1) { set label 1 group_name[s] at screen X(left), screen Y(at - 28.0) left font @normal textcolor rgb ink }
        set label 2 lead_name[k] at screen X(from), screen Y(at - 9.0) left font @small textcolor rgb ink
        set label 3 'said, %' at screen X(from + wide / 2), screen Y(at + high + 24.0) center font @small textcolor rgb ink
        set arrow 1 from first 0, first 0 to first 100, first 100 nohead back lc rgb faint lw 1.2
        plot $point using ($1 == s && $2 == k ? $3 : NaN):($6 == 0 ? $4 : NaN):(size($5)) with points pt 7 ps variable lc rgb deep, \
             $point using ($1 == s && $2 == k ? $3 : NaN):($6 == 1 ? $4 : NaN) with points pt 6 ps 0.5 lc rgb deep
    }
    at = at + high + 34.0
}
