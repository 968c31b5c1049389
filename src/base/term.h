/* The terminal: is there one, how wide, may it have colour.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_TERM_H
#define SUGARLEA_TERM_H

#include <stdbool.h>

/* Colour only on a terminal, and never with NO_COLOR set or TERM=dumb. */
bool term_colour(int fd);

/* Columns of the terminal, within 40..120; 80 when there is none. */
int term_width(int fd);

#endif
