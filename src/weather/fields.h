/* Lines of separated fields, quotes off, for layouts whose columns mean more than a
 * plain table's. The fields point into the file. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_FIELDS_H
#define SUGARLEA_WEATHER_FIELDS_H

#include "weather/csv.h"

struct fields {
    struct csv csv;     /* where the reading stands */
    enum err_code code; /* of the last fields_next */
    size_t n;           /* fields of the line */
    struct csv_field at[LIMIT_COLUMNS];
};

/* Stands before the first line. The delimiter is that of , ; and tab which the first
 * line has most of. */
void fields_start(struct fields *s, const struct weather_file *f, struct err *e);

/* The next line that is not blank. False at the end, or when the line is broken: then
 * code is not ERR_OK and the error says where. */
bool fields_next(struct fields *s);

/* Whether field i is this word. */
bool fields_is(const struct fields *s, size_t i, const char *word);

/* Offset of field i in the file. */
uint32_t fields_offset(const struct fields *s, size_t i);

#endif
