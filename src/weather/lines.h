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

/* Whether one of the cells, between commas, semicolons or tabs, is word and nothing more;
 * blanks and quotes around it do not count, its case does. */
bool line_has_cell(const struct line *l, const char *word);

#endif
