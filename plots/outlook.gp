# The coming months as fans: sugar and growth of each paddock, and how often each group
# must graze less. SPDX-License-Identifier: GPL-3.0-or-later
#
# $sugar, $growth: paddock, day, p10, p25, p50, p75, p90 (g/kg DM; kg DM/ha/d).
# $share: group, day, % of days not free, % brief or none. paddocks, paddock_name;
# groups, group_name; sugar_top, growth_top with their steps. Marks of the time axis:
# src/out/plot.h.

between = 0x8db3d8 # half of the cases of sugar
medium = 0xa3a3a3  # and of growth
dark = 0x4d4d4d

set xrange [x_from:x_to]
@grid
@axes
at = 6.0
do for [s = 1:paddocks] {
    at = at + 28.0; high = 104.0; words = paddock_name[s]
    @panel; @heading
    set yrange [0:sugar_top]
    set ytics sugar_step
    plot $sugar using ($1 == s ? $2 : NaN):3:7 with filledcurves lc rgb pale, \
         $sugar using ($1 == s ? $2 : NaN):4:6 with filledcurves lc rgb between, \
         $sugar using ($1 == s ? $2 : NaN):5 with lines lw 1.6 lc rgb deep
    at = at + high + 28.0; high = 78.0; words = 'Growth, kg of dry matter a hectare and day'
    @panel; @heading; @ticks
    set yrange [0:growth_top]
    set ytics growth_step
    plot $growth using ($1 == s ? $2 : NaN):3:7 with filledcurves lc rgb light, \
         $growth using ($1 == s ? $2 : NaN):4:6 with filledcurves lc rgb medium, \
         $growth using ($1 == s ? $2 : NaN):5 with lines lw 1.4 lc rgb dark
    at = at + high + 24.0
    do for [i = 200:699] { unset label i }
}
do for [s = 1:groups] {
    at = at + 28.0; high = 50.0; words = group_name[s]
    @panel; @heading; @ticks
    set yrange [0:100]
    set ytics 50
    plot $share using ($1 == s ? $2 : NaN):3 with filledcurves y1=0 lc rgb light, \
         $share using ($1 == s ? $2 : NaN):4 with filledcurves y1=0 lc rgb dark
    at = at + high + 24.0
    do for [i = 200:699] { unset label i }
}
