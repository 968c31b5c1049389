/* What is usual for a variable on each day of the year, and how its departures from that
 * hang together, by what the record has read. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_GAP_NORMALS_H
#define SUGARLEA_WEATHER_GAP_NORMALS_H

#include "data/weather_days.h"

#define GAP_YEAR 367 /* days of the year, from 1 */

struct gap_normals {
    double mean[GAP_YEAR];   /* of all values read within 7 days of that day of the year; NaN: none */
    double square[GAP_YEAR]; /* the same of their squares */
    size_t n[GAP_YEAR];      /* how many */
};

/* Was v of day i read, not estimated? */
bool gap_read(const struct weather_days *w, enum weather_var v, size_t i);

void gap_normals_make(const struct weather_days *w, enum weather_var v, struct gap_normals *normals);

/* The mean of a date's day of the year; NaN where more than one year is needed to tell. */
double gap_usual(const struct gap_normals *normals, date_t date);

#endif
