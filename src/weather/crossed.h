/* Days whose minimum is above their maximum. One here and there is a doubt about that
 * day: the reader leaves it in the table, quality_check names it, weather_complete takes
 * both temperatures as missing. Where most days are so the columns are exchanged, and
 * the reader refuses the file. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_CROSSED_H
#define SUGARLEA_WEATHER_CROSSED_H

#include "data/weather_days.h"

struct crossed {
    size_t n;      /* such days */
    size_t paired; /* days with both temperatures */
    size_t first;  /* index of the first such day */
};
struct crossed crossed_days(const struct weather_days *w);

/* More than half of the days: the file is refused. */
bool crossed_mostly(const struct crossed *days);

/* Takes both temperatures off every such day. */
void crossed_drop(struct weather_days *w);

/* Of a refused file: date of the first such day, its minimum and maximum, n, paired. */
#define CROSSED_SENTENCE                                                                                               \
    "on %s the minimum of %.6g C is above the maximum of %.6g C, and so on %zu of %zu days: the two look exchanged; "  \
    "correct their names"

#endif
