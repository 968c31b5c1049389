/* Daily weather as columns: day i is day0 + i. The central table of the program.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_DAYS_H
#define SUGARLEA_WEATHER_DAYS_H

#include "base/arena.h"
#include "base/date.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum weather_var {
    WEATHER_TMIN, /* screen minimum, C */
    WEATHER_TMAX, /* screen maximum, C */
    WEATHER_RAIN, /* mm/d */
    WEATHER_RAD,  /* global radiation, MJ/m2/d */
    WEATHER_RH,   /* mean relative humidity, % */
    WEATHER_WIND, /* mean wind at 2 m, m/s */
    WEATHER_TDEW, /* dew point, C */
    WEATHER_ET0,  /* FAO-56 reference evapotranspiration, mm/d */
    WEATHER_VARS
};

enum day_origin {
    ORIGIN_NONE,     /* no weather for the day */
    ORIGIN_RECORDED, /* measured or reanalysed */
    ORIGIN_FILLED,   /* a gap closed by us (temperature or rain) */
    ORIGIN_FORECAST, /* from a forecast service */
    ORIGIN_NORMAL,   /* day-of-year normals */
    ORIGIN_ASSUMED   /* not known that morning: persistence */
};

struct weather_days {
    date_t day0;
    size_t n;
    double *col[WEATHER_VARS]; /* n values, NaN = missing; NULL: the whole variable is absent */
    uint8_t *origin;           /* enum day_origin of each day */
    uint8_t *filled;           /* bit v set: variable v of the day was estimated by us, not read */
    double *air;          /* the sun above the air, MJ/m2/d, for whoever asks often; NULL: nobody has laid it out */
    double *day_length_h; /* by FAO-56; there where air is */
};

/* The value, or NaN when the column or the cell is missing. i < n. */
static inline double weather_at(const struct weather_days *w, enum weather_var v, size_t i)
{
    return w->col[v] ? w->col[v][i] : __builtin_nan("");
}

/* n days from day0; the columns of `vars` (bit v set: wanted) are there and NaN,
 * origin ORIGIN_NONE, filled 0. False when memory is out. */
bool weather_days_alloc(struct weather_days *w, struct arena *a, date_t day0, size_t n, unsigned vars);

/* A copy with memory of its own; and one of n days, from->n or more, those after it as weather_days_alloc
 * leaves them and the sun above them 0. False when memory is out. */
bool weather_days_copy(struct weather_days *to, const struct weather_days *from, struct arena *a);
bool weather_days_lengthen(struct weather_days *to, const struct weather_days *from, size_t n, struct arena *a);

/* Bit v set: the table has the column. */
unsigned weather_days_vars(const struct weather_days *w);

/* The last day on which the variable was recorded (and not estimated); DATE_NONE. */
date_t weather_days_recorded_to(const struct weather_days *w, enum weather_var v);

const char *weather_var_name(enum weather_var v); /* "tmin_c", as in our tidy layout */
const char *day_origin_name(enum day_origin o);   /* "recorded", "filled", ... */

#endif
