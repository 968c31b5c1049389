/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fuzz/fuzz_weather.h"

#include "base/limits.h"
#include "data/params.h"
#include "weather/quality.h"
#include "weather/weather.h"

#include <math.h>

/* From the first byte: what the reader is told beside the file. */
static struct weather_hints hints_of(uint8_t first)
{
    static const char *const units[] = {NULL, "metric", "us", "tenths"};
    struct weather_hints h = weather_no_hints;
    h.units = units[first & 3u];
    h.timezone = first & 4u ? "Europe/London" : NULL;
    h.longitude = first & 8u ? -2.7 : (double)NAN;
    return h;
}

static void check_days(const struct weather_days *w)
{
    FUZZ_PROMISE(w->n > 0 && w->n <= LIMIT_DAYS);
    for (int v = 0; v < WEATHER_VARS; v++) {
        for (size_t i = 0; w->col[v] && i < w->n; i++) {
            FUZZ_PROMISE(!isinf(w->col[v][i]));
        }
    }
}

static const struct params *shipped(void)
{
    static struct params p;
    static struct arena forever;
    struct err e;
    if (p.animals == 0) {
        arena_init(&forever);
        err_clear(&e);
        FUZZ_PROMISE(params_load("models", &forever, &p, &e) == ERR_OK);
    }
    return &p;
}

/* The first site as a morning finds it: merged, doubted, completed. */
static void follow(const struct weather_site *s, struct arena *a)
{
    struct weather_days all = {0};
    struct weather_report report;
    struct quality quality = {0};
    struct err e;
    struct site place = s->place;
    place.latitude = isnan(place.latitude) ? 52.2 : place.latitude;
    err_clear(&e);
    enum err_code code = weather_merge(&all, &s->days, a, &e);
    fuzz_error(code, &e);
    if (code == ERR_OK) {
        code = quality_check(&all, &place, &shipped()->quality, a, &quality, &e);
        fuzz_error(code, &e);
    }
    if (code == ERR_OK) {
        code = weather_complete(&all, &place, &shipped()->limits, a, &report, &e);
        fuzz_error(code, &e);
    }
    for (size_t i = 0; code == ERR_OK && i < all.n; i++) {
        for (int v = WEATHER_TMIN; v <= WEATHER_RAD; v++) {
            FUZZ_PROMISE(isfinite(all.col[v][i]));
        }
    }
}

void fuzz_weather(const uint8_t *data, size_t size)
{
    struct arena a;
    struct weather_set set;
    struct err e;
    struct weather_hints h = hints_of(size ? data[0] : 0);
    arena_init(&a);
    err_clear(&e);
    if (size > 0) {
        enum err_code code = weather_read_bytes((const char *)data + 1, size - 1, "input", &h, &a, &set, &e);
        fuzz_error(code, &e);
        FUZZ_PROMISE(code != ERR_OK || set.n > 0);
        for (size_t i = 0; code == ERR_OK && i < set.n; i++) {
            check_days(&set.site[i].days);
        }
        if (code == ERR_OK) {
            follow(&set.site[0], &a);
        }
    }
    arena_release(&a);
}
