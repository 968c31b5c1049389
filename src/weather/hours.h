/* From time steps to local days.
 *
 * A reader of hours, 6-hour steps or intervals hands each value over with the time for
 * which it stands; the days are cut at the midnights of a zone, so a day may have 23 or
 * 25 hours. What stands for a time across midnight is shared out in proportion.
 *
 * Tmin and Tmax are the extremes of the instants given, 00:00 to before 24:00, and of the
 * extremes that the file gives for longer intervals. A thermometer that is looked at
 * once an hour misses the true extremes: by some tenths of a degree (from memory); one
 * looked at every six hours falls short of the hourly maximum by 0.5 to 0.8 C and of the
 * minimum by 0.4 to 1.2 C in the mean, by up to 4.6 C on single days (computed by us on
 * four hourly series of 3 to 121 days). Nothing is added for it.
 *
 * A day of which hours are missing, our judgement: temperature, humidity, dew point and
 * wind stand when at most 2 h lack; rain when at most 1 h does (its sum is then a lower
 * bound); radiation and evapotranspiration must be whole. Otherwise the value is missing.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_HOURS_H
#define SUGARLEA_WEATHER_HOURS_H

#include "base/clock.h"
#include "data/weather_days.h"

struct hours_day {
    double sum[WEATHER_VARS];      /* Tmin, Tmax: the extreme, NaN none; means: value times seconds; sums: the sum */
    int32_t covered[WEATHER_VARS]; /* seconds of the day for which a value stands */
};

struct hours {
    date_t day0;
    size_t n;
    int64_t *midnight; /* n + 1 instants */
    struct hours_day *day;
};

/* Room for the local days that the instants first..last touch; path is for messages. ERR_DATA when they are
 * more than LIMIT_DAYS, ERR_NOMEM. */
enum err_code hours_begin(struct hours *h, const struct clock_zone *z, int64_t first, int64_t last, const char *path,
                          struct arena *a, struct err *e);

/* Temperature, C, at an instant, the next one being known at `to` (not after it: the time
 * until then counts as covered). */
void hours_instant(struct hours *h, int64_t at, int64_t to, double t);

/* Temperature, C, that holds from..to. */
void hours_level(struct hours *h, int64_t from, int64_t to, double t);

/* An extreme (WEATHER_TMIN or WEATHER_TMAX) of from..to, C. An interval across midnight
 * counts to the day of its middle, or, when inside is set, not at all. Covers nothing. */
void hours_extreme(struct hours *h, enum weather_var v, int64_t from, int64_t to, double t, bool inside);

/* A mean over from..to of humidity, dew point or wind. */
void hours_mean(struct hours *h, enum weather_var v, int64_t from, int64_t to, double x);

/* The sum over from..to of rain, radiation (MJ/m2) or evapotranspiration. */
void hours_amount(struct hours *h, enum weather_var v, int64_t from, int64_t to, double x);

/* The first and the last day whose temperature stands by the rule above are first and
 * first + n - 1 (indexes of h); the days beside them begin before the file, or end
 * after it. n 0: there is none. */
void hours_whole(const struct hours *h, size_t *first, size_t *n);

/* Value of variable v on day i; NaN when too many hours are missing. */
double hours_value(const struct hours *h, enum weather_var v, size_t i);

/* Days first .. first + n - 1 as a table, with a column for each variable of which any
 * hour is known; the origins are left ORIGIN_NONE. False when memory is out. */
bool hours_days(const struct hours *h, size_t first, size_t n, struct arena *a, struct weather_days *w);

/* Writes "2025-03-01 and 2025-03-09 lack hours and are left out": the days on both sides
 * of first .. first + n - 1 of which there are some hours; "" when there are none.
 * Returns text. */
char *hours_left_out(const struct hours *h, size_t first, size_t n, char *text, size_t size);

#endif
