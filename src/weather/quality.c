/* The checks of recorded weather in their order. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/quality.h"

#include "base/limits.h"
#include "physics/sun.h"
#include "weather/quality_expect.h"

#include <math.h>
#include <stdlib.h>

void quality_add(struct quality_work *k, struct doubt d)
{
    struct quality *q = k->out;
    q->total++;
    q->of_kind[d.kind]++;
    if (q->n < LIMIT_DOUBTS) {
        q->doubt[q->n++] = d;
    }
}

void quality_name(struct quality_work *k, enum doubt_kind kind, enum weather_var v, size_t i, double other)
{
    date_t date = k->w->day0 + (date_t)i;
    k->named[i] |= (uint8_t)(1u << v);
    quality_add(k, (struct doubt){date, date, v, kind, k->x[v][i], other});
}

static double clear_sky(const struct quality_work *k, double air)
{
    return sun_clear_sky(air, isnan(k->site->elevation_m) ? 0 : k->site->elevation_m);
}

static void prepare_sun(struct quality_work *k)
{
    for (int d = 0; d < QUALITY_YEAR; d++) {
        k->air[d] = isnan(k->site->latitude) ? (double)NAN : sun_extraterrestrial(d + 1, k->site->latitude);
        k->clear[d] = clear_sky(k, k->air[d]);
    }
}

/* Days of the year from 0. A year's first day is asked for once. */
static void number_days(struct quality_work *k)
{
    int day = k->n ? date_day_of_year(k->w->day0) - 1 : 0;
    for (size_t i = 0; i < k->n; i++, day++) {
        if (day >= QUALITY_YEAR - 1) {
            day = date_day_of_year(k->w->day0 + (date_t)i) - 1;
        }
        k->day_of_year[i] = (uint16_t)day;
    }
}

static bool copy_recorded(struct quality_work *k, enum weather_var v)
{
    const struct weather_days *w = k->w;
    if (!w->col[v]) {
        return true;
    }
    double *x = arena_alloc(k->arena, k->n, sizeof *x);
    if (!x) {
        return false;
    }
    for (size_t i = 0; i < k->n; i++) {
        bool recorded = w->origin[i] == ORIGIN_RECORDED && !(w->filled[i] >> v & 1);
        x[i] = recorded ? w->col[v][i] : (double)NAN;
        k->count[v] += !isnan(x[i]);
    }
    k->x[v] = k->count[v] ? x : NULL;
    return true;
}

static bool prepare(struct quality_work *k)
{
    k->day_of_year = arena_alloc(k->arena, k->n, sizeof *k->day_of_year);
    k->named = arena_alloc(k->arena, k->n, sizeof *k->named);
    k->out->doubt = arena_alloc(k->arena, LIMIT_DOUBTS, sizeof *k->out->doubt);
    bool good = k->day_of_year && k->named && k->out->doubt;
    for (int v = 0; v < WEATHER_VARS && good; v++) {
        good = copy_recorded(k, (enum weather_var)v);
    }
    if (good) {
        number_days(k);
        prepare_sun(k);
    }
    return good;
}

/* The distribution of every variable that has values enough. */
static bool describe_seasons(struct quality_work *k)
{
    static const struct season_scale scales[WEATHER_VARS] = {
        [WEATHER_TMIN] = {-45, 0.1, 0}, [WEATHER_TMAX] = {-40, 0.1, 0}, [WEATHER_RAD] = {0, 0.05, 0},
        [WEATHER_RH] = {0, 0.1, 0},     [WEATHER_WIND] = {0, 0.03, 0},
    };
    for (int v = 0; v < WEATHER_VARS; v++) {
        struct season_scale scale = scales[v];
        scale.half_window = (size_t)k->limits->season_days;
        if (scale.step > 0 && quality_enough(k, (enum weather_var)v) &&
            !quality_season(k->x[v], k->n, k->day_of_year, &scale, k->arena, &k->season[v])) {
            return false;
        }
    }
    return true;
}

static bool check_by_expectation(struct quality_work *k)
{
    struct expect x;
    if (!quality_enough(k, WEATHER_TMIN) || !quality_enough(k, WEATHER_TMAX)) {
        return true;
    }
    if (!describe_seasons(k) || !expect_fit(k, &x) || !quality_temperature(k, &x) || !quality_rain(k, &x)) {
        return false;
    }
    quality_shift(k, &x);
    return true;
}

static int by_date(const void *a, const void *b)
{
    const struct doubt *x = a, *y = b;
    if (x->date != y->date) {
        return x->date < y->date ? -1 : 1;
    }
    return x->var != y->var ? (x->var < y->var ? -1 : 1) : (x->kind > y->kind) - (x->kind < y->kind);
}

enum err_code quality_check(const struct weather_days *w, const struct site *site, const struct quality_limits *limits,
                            struct arena *a, struct quality *q, struct err *e)
{
    struct quality_work k = {.w = w, .site = site, .limits = limits, .arena = a, .out = q, .n = w->n};
    *q = (struct quality){0};
    bool good = prepare(&k);
    if (good) {
        quality_gaps(&k);
        quality_crossed(&k);
        quality_sun(&k);
        quality_wind(&k);
        good = check_by_expectation(&k);
    }
    if (!good) {
        return err_set(e, ERR_NOMEM, "out of memory while checking weather");
    }
    quality_range(&k);
    quality_repeats(&k);
    qsort(q->doubt, q->n, sizeof *q->doubt, by_date);
    return ERR_OK;
}
