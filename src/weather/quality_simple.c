/* Checks that need no statistics: gaps, crossed temperatures, ranges, radiation, the
 * height of the wind. SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/et0.h"
#include "weather/quality_inner.h"
#include "weather/quantity.h"

#include <math.h>

#define RA_OF_A_DAY 1.0 /* MJ/m2/d above the air: with more, no day is without any light below it */
#define WIND_HEIGHT 10  /* m, where weather services measure it */

static bool missing(const struct weather_days *w, enum weather_var v, size_t i)
{
    if (v < WEATHER_VARS) {
        return isnan(w->col[v][i]);
    }
    for (int k = 0; k < WEATHER_VARS; k++) {
        if (!isnan(weather_at(w, (enum weather_var)k, i))) {
            return false;
        }
    }
    return true;
}

/* Runs of days without v between days that have it; days without anything count as
 * such only. */
static void gaps_of(struct quality_work *k, enum weather_var v)
{
    size_t from = 0, n = k->n;
    while (from < n && missing(k->w, v, from)) {
        from++;
    }
    while (n > from && missing(k->w, v, n - 1)) {
        n--;
    }
    for (size_t i = from; i < n; i++) {
        size_t first = i;
        while (missing(k->w, v, i) && (v == WEATHER_VARS || !missing(k->w, WEATHER_VARS, i))) {
            i++;
        }
        if (i > first) {
            date_t day0 = k->w->day0;
            quality_add(k, (struct doubt){day0 + (date_t)first, day0 + (date_t)i - 1, v, DOUBT_MISSING, NAN, NAN});
        }
    }
}

void quality_gaps(struct quality_work *k)
{
    static const enum weather_var needed[] = {WEATHER_VARS, WEATHER_TMIN, WEATHER_TMAX, WEATHER_RAIN};
    for (size_t i = 0; i < sizeof needed / sizeof needed[0]; i++) {
        if (needed[i] == WEATHER_VARS || k->w->col[needed[i]]) {
            gaps_of(k, needed[i]);
        }
    }
}

void quality_crossed(struct quality_work *k)
{
    double *low = k->x[WEATHER_TMIN], *high = k->x[WEATHER_TMAX];
    for (size_t i = 0; low && high && i < k->n; i++) {
        if (low[i] > high[i]) {
            quality_name(k, DOUBT_CROSSED, WEATHER_TMIN, i, high[i]);
            low[i] = high[i] = NAN;
        }
    }
}

void quality_range(struct quality_work *k)
{
    for (int v = 0; v < WEATHER_VARS; v++) {
        const struct quantity_range *range = quantity_range((enum weather_var)v);
        for (size_t i = 0; k->x[v] && i < k->n; i++) {
            double x = k->x[v][i];
            if ((x < range->low || x > range->high) && !(k->named[i] >> v & 1)) {
                quality_name(k, DOUBT_IMPOSSIBLE, (enum weather_var)v, i, x < range->low ? range->low : range->high);
            }
        }
    }
}

void quality_sun(struct quality_work *k)
{
    double *rad = k->x[WEATHER_RAD];
    for (size_t i = 0; rad && i < k->n; i++) {
        double air = k->air[k->day_of_year[i]], clear = k->clear[k->day_of_year[i]];
        if (rad[i] > air || (rad[i] <= 0 && air > RA_OF_A_DAY)) {
            quality_name(k, rad[i] > air ? DOUBT_ABOVE_AIR : DOUBT_DARK, WEATHER_RAD, i, air);
            rad[i] = NAN;
        } else if (rad[i] > clear * k->limits->clear_sky_excess && air > RA_OF_A_DAY) {
            quality_name(k, DOUBT_ABOVE_CLEAR, WEATHER_RAD, i, clear);
        }
    }
}

void quality_wind(struct quality_work *k)
{
    double sum = 0;
    if (!quality_enough(k, WEATHER_WIND)) {
        return;
    }
    for (size_t i = 0; i < k->n; i++) {
        sum += isnan(k->x[WEATHER_WIND][i]) ? 0 : k->x[WEATHER_WIND][i];
    }
    double mean = sum / (double)k->count[WEATHER_WIND];
    if (mean > k->limits->wind_mean_m_s) {
        quality_add(k, (struct doubt){k->w->day0, k->w->day0 + (date_t)k->n - 1, WEATHER_WIND, DOUBT_WIND_HEIGHT, mean,
                                      et0_wind_at_2m(mean, WIND_HEIGHT)});
    }
}
