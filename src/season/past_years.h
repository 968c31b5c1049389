/* The coming days as each past year had them.
 *
 * A past year's stretch begins on the morning's own day of the year (29 February begins
 * on the 28th where there is none) and runs on day after day, so that no night is lost
 * or doubled: after a 29 February of one side only, its calendar is a day ahead or
 * behind, never more. The days keep the dates of the coming ones: sun, growth year and
 * mowing follow those. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_PAST_YEARS_H
#define SUGARLEA_PAST_YEARS_H

#include "data/weather_days.h"

enum {
    PAST_LEAD = 4,  /* days before the morning that a joined table begins with */
    PAST_BLEND = 3, /* last days of a forecast that fade into the past year: our choice */
    PAST_GAPS = 10  /* % of a stretch that may be day-of-year means: our choice */
};

/* Indexes into w of the stretches of `days` days, oldest first; the latest `most` where there
 * are more. Each lies
 * within the first `known` days of the table and shares no day with the coming stretch,
 * which begins on date `from`: so a hindcast that knows the whole record leaves its own
 * year out. Stretches with more than PAST_GAPS of day-of-year means are passed over. */
size_t past_years_find(const struct weather_days *w, date_t from, size_t days, size_t known, size_t *start,
                       size_t most);

/* PAST_LEAD days of the record, then `days` days of the past year from `start` on, as a
 * table of their own whose day PAST_LEAD is index `now` of w (now >= PAST_LEAD; at most
 * w->n). Of the morning's own day the recorded minimum is kept: the night is over. Days
 * that w forecasts take the place of the past year's, with weights 3/4, 2/4, 1/4 on the
 * last PAST_BLEND; they stay ORIGIN_FORECAST, the others are ORIGIN_RECORDED. The columns
 * are those that weather_complete makes. False: no memory. */
bool past_years_join(const struct weather_days *w, size_t now, size_t start, size_t days, struct arena *a,
                     struct weather_days *out);

#endif
