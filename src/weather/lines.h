/* Lines of a text file, for those who recognise its layout by its row of names.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_LINES_H
#define SUGARLEA_WEATHER_LINES_H

#include "weather/layout.h"

/* A line without its end. All zero before the first. */
struct line {
    const char *text; /* not closed with 0 */
    size_t n;
    size_t number; /* 1-based */
};

/* Steps to the next line. False behind the last, and behind what is looked at to know a
 * layout (80 lines, 64 KiB). */
bool line_next(const struct weather_file *f, struct line *l);

/* The cell at *at (0 the first; moved on to the next) between commas, semicolons or tabs,
 * its blanks and quotes off. A delimiter within quotes counts as one. False behind the last. */
bool line_cell(const struct line *l, size_t *at, const char **text, size_t *n);

/* A cell that is word and nothing more. */
bool line_has_cell(const struct line *l, const char *word);

/* The cell behind the first one, which is name; false when it is not. */
bool line_value(const struct line *l, const char *name, const char **text, size_t *n);

/* The same as a number; *x stays when there is none. */
void line_number(const struct line *l, const char *name, double *x);

#endif
