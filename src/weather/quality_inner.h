/* Inside of the quality checks: what they share and the steps in their order.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_QUALITY_INNER_H
#define SUGARLEA_WEATHER_QUALITY_INNER_H

#include "weather/quality.h"

#define QUALITY_YEAR 366 /* days of the year, from 0 */

/* The distribution of a series at each time of the year. NaN: too few values. */
struct season {
    double middle[QUALITY_YEAR];
    double below[QUALITY_YEAR], above[QUALITY_YEAR]; /* spreads on each side of the middle */
};

struct quality_work {
    const struct weather_days *w;
    const struct site *site;
    const struct quality_limits *limits;
    struct arena *arena;
    struct quality *out;
    size_t n;
    uint16_t *day_of_year;   /* of each day, from 0 */
    double *x[WEATHER_VARS]; /* recorded values still believed, NaN else; NULL: none at all */
    size_t count[WEATHER_VARS];
    double air[QUALITY_YEAR];   /* extraterrestrial radiation; NaN without a latitude */
    double clear[QUALITY_YEAR]; /* of a clear sky */
    struct season season[WEATHER_VARS];
    uint8_t *named; /* bit v: variable v of the day has been doubted by a check before */
};

/* A series to describe: values outside low .. low + step * QUALITY_BINS count at its ends. */
#define QUALITY_BINS 1024
struct season_scale {
    double low, step;
    size_t half_window; /* days */
};

static inline bool quality_enough(const struct quality_work *k, enum weather_var v)
{
    return k->x[v] && (double)k->count[v] >= k->limits->least_days;
}

/* How long v was recorded. */
static inline double quality_years(const struct quality_work *k, enum weather_var v)
{
    return (double)k->count[v] / 365.25;
}

void quality_add(struct quality_work *k, struct doubt d);

/* Names the value of v on day i, and remembers that it is doubted. */
void quality_name(struct quality_work *k, enum doubt_kind kind, enum weather_var v, size_t i, double other);

/* quality_season.c. False: no memory. */
bool quality_season(const double *x, size_t n, const uint16_t *day_of_year, const struct season_scale *scale,
                    struct arena *a, struct season *s);

/* (x - middle) in spreads of its side. */
double quality_spreads(const struct season *s, size_t day_of_year, double x);

/* The value so many spreads from the middle. */
double quality_of_spreads(const struct season *s, size_t day_of_year, double spreads);

/* quality_repeat.c: chance that v has on a day the value of the day before, by the
 * record; of_common: one of the values that many days share by nature (no rain). */
double quality_chance(const struct quality_work *k, enum weather_var v, bool of_common);

/* The checks. Those that need no statistics: */
void quality_gaps(struct quality_work *k);
void quality_crossed(struct quality_work *k);
void quality_range(struct quality_work *k); /* last: passes over what others have named */
void quality_sun(struct quality_work *k);
void quality_wind(struct quality_work *k);
void quality_repeats(struct quality_work *k); /* frozen, doubled */

/* those that need what is expected (quality_expect.h); false: no memory. */
struct expect;
bool quality_temperature(struct quality_work *k, const struct expect *x);
bool quality_rain(struct quality_work *k, const struct expect *x);
void quality_shift(struct quality_work *k, const struct expect *x);

#endif
