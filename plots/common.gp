# What every figure starts with: the page, its title and its caption in words, and
# what several figures draw.
# SPDX-License-Identifier: GPL-3.0-or-later
#
# Given before: W and H, the page in units (about points on A4); top, where the figure may
# begin, units from the upper edge, and body, its height; line, the height of a line;
# margin; title_text; the arrays about and caption, wrapped. Text from outside is only
# ever a variable: never evaluate a string that holds one, never make a file name of one.
#
# A figure stacks panels: set `at`, units below the title, `high` and `words`, then @panel
# and @heading. X(u), Y(u) are the screen coordinates of u units from the left and from
# where the body begins.

X(u) = u / W
Y(u) = 1.0 - (top + u) / H
left = 44.0
right = 526.0

ink = 0x222222    # text
frame = 0x666666  # axes
faint = 0xdddddd  # grid
deep = 0x225ea8   # sugar: from the ramp of src/out/palette.c
pale = 0xc9dcee   # its band
grey = 0x7d7d7d   # every other line or bar
light = 0xcfcfcf  # and area
small = "',11'"
normal = "',12'"

panel = "set tmargin at screen Y(at); set bmargin at screen Y(at + high)"
heading = "set label 1 words at screen X(left), screen Y(at - 8.0) left font @normal textcolor rgb ink"
axes = "set border 3 lc rgb frame lw 0.7; set ytics nomirror font @small textcolor rgb ink"
no_axes = "unset border; unset ytics"

# Lines of the time axis through a panel, and its words below one.
grid = "do for [i = 1:grid_count] { set arrow 100 + i from grid_at[i], graph 0 to grid_at[i], graph 1 nohead back lc rgb faint lw 0.6 }"
ticks = "do for [i = 1:tick_count] { set label 200 + i tick_text[i] at first tick_at[i], screen Y(at + high + 9.0) center font @small textcolor rgb ink }; \
do for [i = 1:year_count] { set label 600 + i year_text[i] at first year_at[i], screen Y(at + high + 22.0) center font @small textcolor rgb ink }"

# A strip of turnout: four levels as heights and greys; its name and counts above it.
strip = "plot $turnout using ($1 == s ? $2 : NaN):(0):2:3:(0):(($4 + 1) / 4.0):5 with boxxyerror lc rgb variable"
count = "set label 2 strip_count[s] at screen X(right), screen Y(at - 8.0) right font @small textcolor rgb ink"

# The keys of the four levels and of the NSC classes, 10 units high.
levels = "set xrange [0:right - left]; set yrange [0:1]; set label 1 'Turnout:' at first 0, graph 0.5 left font @small textcolor rgb ink; \
do for [k = 1:4] { set object k rectangle from first 90 * k - 18, graph 0 to first 90 * k - 6, graph k / 4.0 fillcolor rgb level_colour[k] fillstyle solid noborder; \
set label 1 + k level_name[k] at first 90 * k - 2, graph 0.5 left font @small textcolor rgb ink }; \
plot NaN; unset object; unset label"
classes = "set xrange [0:key_count]; set yrange [0:1]; \
do for [k = 1:key_count] { set object k rectangle from first k - 1, graph 0 to first k, graph 1 fillcolor rgb int(word($key[k], 3)) fillstyle solid noborder; \
set label k word($key[k], 2) at first k - 1, screen Y(at + high + 9.0) center font @small textcolor rgb ink }; \
set label 100 'NSC of the grass, g in a kg of dry matter' at screen X(left), screen Y(at - 8.0) left font @small textcolor rgb ink; \
plot NaN; unset object; unset label"

unset key
unset xtics
set tics nomirror out scale 0.5
unset xtics
set style fill solid noborder
set datafile missing 'NaN'

# An empty plot draws the words once; the panels then have the page to themselves.
set multiplot
set label 1 title_text at screen X(margin), screen 1.0 - (margin + 9.0) / H left font ',17' textcolor rgb ink
do for [i = 1:|about|] {
    set label 1 + i about[i] at screen X(margin), screen 1.0 - (margin + 16.0 + line * i) / H left font @normal textcolor rgb ink
}
n = 1 + |about|
do for [i = 1:|caption|] {
    set label n + i caption[i] at screen X(margin), screen Y(body + line * i) left font @normal textcolor rgb ink
}
@no_axes
set margins 0, 0, 0, 0
plot [0:1] [0:1] NaN
unset label
set lmargin at screen X(left)
set rmargin at screen X(right)
