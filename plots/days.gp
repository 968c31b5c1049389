# Day by day: sugar, turnout, growth, temperature, rain, soil water over one time axis.
# SPDX-License-Identifier: GPL-3.0-or-later
#
# $days: day, NSC low, mean, high (g/kg DM), growth (kg DM/ha/d), Tmin, Tmax (C), rain
# (mm), soil water (%), frost (0, 1 ground, 2 air). $turnout: strip, day from, day to,
# level (0 free .. 3 none), colour; strips of them with strip_name and strip_count;
# level_name and level_colour. *_top, *_step: scales; coldest, warmest; together: days a
# point. Marks of the time axis: src/out/plot.h.

set xrange [x_from:x_to]
@grid
@axes
at = 28.0; high = 130.0; words = 'NSC of the grass, g in a kg of dry matter'
@panel; @heading
set yrange [0:nsc_top]
set ytics nsc_step
plot $days using 1:2:4 with filledcurves lc rgb pale, \
     $days using 1:3 with lines lw 1.6 lc rgb deep
at = at + high + 4.0

unset ytics
set border 1
set yrange [0:1]
do for [s = 1:strips] {
    at = at + 24.0; high = 18.0; words = strip_name[s]
    @panel; @heading; @count
    @strip
    at = at + high
}
unset label
if (strips > 0) {
    at = at + 14.0; high = 10.0
    @panel; @no_axes
    unset arrow
    @levels
    at = at + high
}

set xrange [x_from:x_to]
@grid
@axes
at = at + 30.0; high = 62.0; words = 'Growth, kg of dry matter a hectare and day'
@panel; @heading
set yrange [0:growth_top]
set ytics growth_step
plot $days using 1:5 with filledcurves y1=0 lc rgb light, $days using 1:5 with lines lw 1 lc rgb grey
at = at + high

at = at + 28.0; high = 78.0; words = 'Air, lowest to highest, C; marks at the foot: frost'
@panel; @heading
set yrange [coldest:warmest]
set ytics 10
mark = (warmest - coldest) * 0.08
plot $days using 1:6:7 with filledcurves lc rgb light, \
     $days using 1:6 with lines lw 1 lc rgb grey, $days using 1:7 with lines lw 1 lc rgb grey, \
     $days using ($10 == 1 ? $1 : NaN):(coldest):(0):(mark) with vectors nohead lw 1.2 lc rgb 0x9fb7d3, \
     $days using ($10 == 2 ? $1 : NaN):(coldest):(0):(mark) with vectors nohead lw 1.2 lc rgb 0x000000
at = at + high

at = at + 28.0; high = 42.0; words = together > 1 ? sprintf('Rain, mm in %d days', together) : 'Rain, mm a day'
@panel; @heading
set yrange [0:rain_top]
set ytics rain_step
set boxwidth 0.8 * together absolute
plot $days using 1:8 with boxes lc rgb grey
at = at + high

at = at + 28.0; high = 38.0; words = 'Soil water, % of what grass can draw on'
@panel; @heading; @ticks
set yrange [0:100]
set ytics 50
plot $days using 1:9 with filledcurves y1=0 lc rgb light, $days using 1:9 with lines lw 1 lc rgb grey
