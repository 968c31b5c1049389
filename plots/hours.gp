# Hour by hour: days across, hours of the clock upwards, colour by NSC.
# SPDX-License-Identifier: GPL-3.0-or-later
#
# $cells: day from, day to, hour from, hour to, colour. $sun: day, rise, set. $outline: the
# hours allowed, day and hour. strips and $turnout as in days.gp. clock_name; rise_last, set_last, both 0 when
# the sun does not rise or set; $key. Marks of the time axis: src/out/plot.h.

edge = right - 50.0
set rmargin at screen X(edge)
at = 28.0; high = 250.0; words = 'Hour of the day, clock ' . clock_name
@panel; @heading; @axes
set xrange [x_from:x_to]
set yrange [0:24]
set ytics ('00:00' 0, '03:00' 3, '06:00' 6, '09:00' 9, '12:00' 12, '15:00' 15, '18:00' 18, '21:00' 21, '24:00' 24)
if (rise_last < set_last) {
    set label 2 'sunrise' at screen X(edge + 4.0), first rise_last left font @small textcolor rgb ink
    set label 3 'sunset' at screen X(edge + 4.0), first set_last left font @small textcolor rgb ink
}
if (strips == 0) { @ticks }
plot $cells using 1:3:1:2:3:4:5 with boxxyerror lc rgb variable, \
     for [c = 2:3] $sun using 1:c with lines lw 2 lc rgb 0xffffff, \
     for [c = 2:3] $sun using 1:c with lines lw 1 dt 2 lc rgb 0x000000, \
     $outline using 1:2 with lines lw 4 lc rgb 0x000000, $outline using 1:2 with lines lw 2 lc rgb 0xffffff
unset label
at = at + high

unset ytics
set border 1
set yrange [0:1]
do for [s = 1:strips] {
    at = at + 28.0; high = 18.0; words = strip_name[s]
    @panel; @heading; @count
    if (s == strips) { @ticks }
    @strip
    at = at + high
}
unset label
unset arrow
if (strips > 0) {
    at = at + 36.0; high = 10.0
    @panel; @no_axes
    @levels
    at = at + high
}

set rmargin at screen X(right)
at = at + 28.0 + (strips == 0) * 18.0; high = 10.0
@panel; @no_axes
@classes
