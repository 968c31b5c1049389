/* The table of daily weather: room for its columns, names of its parts.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/weather_days.h"

#include <assert.h>
#include <math.h>
#include <string.h>

bool weather_days_alloc(struct weather_days *w, struct arena *a, date_t day0, size_t n, unsigned vars)
{
    assert(vars < 1u << WEATHER_VARS);
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

unsigned weather_days_vars(const struct weather_days *w)
{
    unsigned vars = 0;
    for (int v = 0; v < WEATHER_VARS; v++) {
        vars |= w->col[v] ? 1u << v : 0;
    }
    return vars;
}

bool weather_days_copy(struct weather_days *to, const struct weather_days *from, struct arena *a)
{
    return weather_days_lengthen(to, from, from->n, a);
}

bool weather_days_lengthen(struct weather_days *to, const struct weather_days *from, size_t n, struct arena *a)
{
    assert(to != from && n >= from->n);
    if (!weather_days_alloc(to, a, from->day0, n, weather_days_vars(from))) {
        return false;
    }
    if (from->air) {
        to->air = arena_alloc(a, n, sizeof *to->air);
        to->day_length_h = arena_alloc(a, n, sizeof *to->day_length_h);
        if (!to->air || !to->day_length_h) {
            return false;
        }
        memcpy(to->air, from->air, from->n * sizeof *to->air);
        memcpy(to->day_length_h, from->day_length_h, from->n * sizeof *to->day_length_h);
    }
    memcpy(to->origin, from->origin, from->n);
    memcpy(to->filled, from->filled, from->n);
    for (int v = 0; v < WEATHER_VARS; v++) {
        if (from->col[v]) {
            memcpy(to->col[v], from->col[v], from->n * sizeof *to->col[v]);
        }
    }
    return true;
}

date_t weather_days_recorded_to(const struct weather_days *w, enum weather_var v)
{
    assert(v < WEATHER_VARS);
    for (size_t after = w->col[v] ? w->n : 0; after > 0; after--) {
        size_t i = after - 1;
        assert(i < w->n);
        if (w->origin[i] == ORIGIN_RECORDED && !isnan(w->col[v][i]) && !(w->filled[i] >> v & 1)) {
            return w->day0 + (date_t)i;
        }
    }
    return DATE_NONE;
}

const char *weather_var_name(enum weather_var v)
{
    assert(v < WEATHER_VARS);
    static const char *const name[WEATHER_VARS] = {
        [WEATHER_TMIN] = "tmin_c", [WEATHER_TMAX] = "tmax_c",   [WEATHER_RAIN] = "rain_mm", [WEATHER_RAD] = "rad_mj_m2",
        [WEATHER_RH] = "rh_pct",   [WEATHER_WIND] = "wind_m_s", [WEATHER_TDEW] = "tdew_c",  [WEATHER_ET0] = "et0_mm",
    };
    return name[v];
}

const char *day_origin_name(enum day_origin o)
{
    assert(o <= ORIGIN_ASSUMED);
    static const char *const name[] = {
        [ORIGIN_NONE] = "none",         [ORIGIN_RECORDED] = "recorded", [ORIGIN_FILLED] = "filled",
        [ORIGIN_FORECAST] = "forecast", [ORIGIN_NORMAL] = "normal",     [ORIGIN_ASSUMED] = "assumed",
    };
    return name[o];
}
