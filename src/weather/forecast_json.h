/* Inside of the reader of the forecast service's answers: one place, its block of days
 * and its block of hours. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_FORECAST_JSON_H
#define SUGARLEA_WEATHER_FORECAST_JSON_H

#include "weather/hours.h"
#include "weather/json_days.h"

/* An answer: f's root is the object of one place. */
struct forecast_answer {
    const struct weather_file *f;
    struct site place; /* its grid point; timezone: as the answer names it */
    double offset;     /* seconds that its clock is ahead of UTC, one number for all of it; NaN not said */
};

/* A time as "2025-05-04" or "2025-05-04T07:00" on the answer's clock, or in seconds of
 * UTC: the date on that clock (DATE_NONE), and the instant (false: none, or the offset of
 * the clock is not said). */
date_t forecast_date(const struct forecast_answer *r, const cJSON *time);
bool forecast_instant(const struct forecast_answer *r, const cJSON *time, int64_t *instant);

/* forecast_daily.c: the block "daily" as a table that has every column, NaN where the
 * block has nothing; origins are left. */
enum err_code forecast_daily_read(const struct forecast_answer *r, struct arena *a, struct weather_days *days,
                                  struct err *e);
/* ERR_DATA when it names no minimum or no maximum temperature. */
enum err_code forecast_daily_warmth(const struct forecast_answer *r, struct err *e);

/* forecast_hourly.c: the block "hourly". Instants stand for the time to the next step;
 * rain, radiation and evapotranspiration are those of the step before their time (the
 * service's documentation; from memory). */
struct forecast_hours {
    size_t n; /* steps; 0: no such block, or nothing in it that is weather */
    int64_t *at;
    int64_t step;                      /* seconds */
    const cJSON *values[WEATHER_VARS]; /* WEATHER_TMAX: temperature */
    struct quantity_unit unit[WEATHER_VARS];
};
enum err_code forecast_hours_open(const struct forecast_answer *r, struct arena *a, struct forecast_hours *hours,
                                  struct err *e);
/* n > 0. */
enum err_code forecast_hours_reduce(const struct forecast_answer *r, const struct forecast_hours *hours,
                                    const struct clock_zone *z, struct arena *a, struct hours *h, struct err *e);

#endif
