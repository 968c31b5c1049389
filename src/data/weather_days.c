/* The table of daily weather: room for its columns, names of its parts.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/weather_days.h"

#include <math.h>

bool weather_days_alloc(struct weather_days *w, struct arena *a, date_t day0, size_t n, unsigned vars)
{
    *w = (struct weather_days){.day0 = day0, .n = n};
    w->origin = arena_alloc(a, n, sizeof *w->origin);
    w->filled = arena_alloc(a, n, sizeof *w->filled);
    if (!w->origin || !w->filled) {
        return false;
    }
    for (int v = 0; v < WEATHER_VARS; v++) {
        if (!(vars >> v & 1u)) {
            continue;
        }
        w->col[v] = arena_alloc(a, n, sizeof *w->col[v]);
        if (!w->col[v]) {
            return false;
        }
        for (size_t i = 0; i < n; i++) {
            w->col[v][i] = NAN;
        }
    }
    return true;
}

const char *weather_var_name(enum weather_var v)
{
    static const char *const name[WEATHER_VARS] = {
        [WEATHER_TMIN] = "tmin_c", [WEATHER_TMAX] = "tmax_c",   [WEATHER_RAIN] = "rain_mm", [WEATHER_RAD] = "rad_mj_m2",
        [WEATHER_RH] = "rh_pct",   [WEATHER_WIND] = "wind_m_s", [WEATHER_TDEW] = "tdew_c",  [WEATHER_ET0] = "et0_mm",
    };
    return name[v];
}

const char *day_origin_name(enum day_origin o)
{
    static const char *const name[] = {
        [ORIGIN_NONE] = "none",         [ORIGIN_RECORDED] = "recorded", [ORIGIN_FILLED] = "filled",
        [ORIGIN_FORECAST] = "forecast", [ORIGIN_NORMAL] = "normal",     [ORIGIN_ASSUMED] = "assumed",
    };
    return name[o];
}
