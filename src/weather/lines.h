/* The first lines of a text file, where station files say what they are: looked at by
 * recognisers, and read for place and units. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_LINES_H
#define SUGARLEA_WEATHER_LINES_H

#include "weather/csv_preset.h"

#define LINES_MOST 80 /* a row of names stands so far down at most */

struct line {
    const char *text; /* in the file, not closed */
    size_t n;         /* bytes without the end of the line */
    size_t number;
};

/* Goes to the next line; {0} stands before the first. False behind line LINES_MOST, the
 * last line or the first 64 KiB. */
bool line_next(const struct weather_file *f, struct line *line);

/* Case does not count. */
bool line_begins(const struct line *line, const char *word);

/* Whether one of the cells, between commas, semicolons or tabs, is word and nothing
 * more; blanks and quotes around it do not count, its case does. */
bool line_has_cell(const struct line *line, const char *word);

/* The one of comma, semicolon and tab that stands there most often (a spreadsheet may have
 * saved the file again with another). */
char line_delimiter(const struct line *line);

/* The number behind key (in either case) and blanks, colons and equal signs. *x is left
 * as it is when there is none. */
bool line_number_after(const struct line *line, const char *key, double *x);

/* The first line that begins with `start` and has `cell` (NULL: any). */
bool line_find(const struct weather_file *f, const char *start, const char *cell, struct line *line);

/* The unit in the last brackets of the line that describes a column, for its row:
 * what the row had to be multiplied with already (the height of the wind) stays.
 * Without brackets nothing changes; ERR_DATA when the unit is not known. */
enum err_code line_unit(const struct weather_file *f, const struct line *line, struct csv_known *row, struct err *e);

/* ERR_DATA with a sentence placed at the line (NULL: the first) and with the name of a
 * field (NULL: none). */
enum err_code line_fail(const struct weather_file *f, const struct line *line, const char *field, struct err *e,
                        const char *format, ...) __attribute__((format(printf, 5, 6)));

#endif
