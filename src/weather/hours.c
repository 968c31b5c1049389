/* From time steps to local days. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/hours.h"

#include "base/limits.h"

#include <math.h>
#include <stdio.h>

#define HOUR 3600

/* Seconds that may be missing of a day, and whether the day's value is a mean. */
static const struct rule {
    int32_t missing_most;
    bool mean;
} rules[WEATHER_VARS] = {
    [WEATHER_TMIN] = {2 * HOUR, false}, [WEATHER_TMAX] = {2 * HOUR, false}, [WEATHER_RAIN] = {HOUR, false},
    [WEATHER_RAD] = {0, false},         [WEATHER_RH] = {2 * HOUR, true},    [WEATHER_WIND] = {2 * HOUR, true},
    [WEATHER_TDEW] = {2 * HOUR, true},  [WEATHER_ET0] = {0, false},
};

enum err_code hours_begin(struct hours *h, const struct clock_zone *z, int64_t first, int64_t last, const char *path,
                          struct arena *a, struct err *e)
{
    date_t day0 = clock_zone_date(z, first), end = clock_zone_date(z, last);
    if (last < first || end - day0 >= LIMIT_DAYS) {
        err_set(e, ERR_DATA, "the time steps span more than %d days", LIMIT_DAYS);
        return err_at(e, path, 0, 0, NULL);
    }
    size_t n = (size_t)(end - day0) + 1;
    *h = (struct hours){.day0 = day0,
                        .n = n,
                        .midnight = arena_alloc(a, n + 1, sizeof *h->midnight),
                        .day = arena_alloc(a, n, sizeof *h->day)};
    if (!h->midnight || !h->day) {
        return err_set(e, ERR_NOMEM, "out of memory while putting hours into days");
    }
    for (size_t i = 0; i <= n; i++) {
        h->midnight[i] = clock_zone_midnight(z, day0 + (date_t)i);
    }
    for (size_t i = 0; i < n; i++) {
        h->day[i].sum[WEATHER_TMIN] = NAN;
        h->day[i].sum[WEATHER_TMAX] = NAN;
    }
    return ERR_OK;
}

/* The day that holds an instant; the nearest one for instants outside. */
static size_t day_of(const struct hours *h, int64_t at)
{
    int64_t guess = (at - h->midnight[0]) / CLOCK_DAY_SECONDS;
    size_t i = guess < 0 ? 0 : guess >= (int64_t)h->n ? h->n - 1 : (size_t)guess;
    while (i > 0 && h->midnight[i] > at) {
        i--;
    }
    while (i + 1 < h->n && h->midnight[i + 1] <= at) {
        i++;
    }
    return i;
}

/* Seconds of from..to in day i; may be negative when there are none. */
static int64_t share(const struct hours *h, size_t i, int64_t from, int64_t to)
{
    int64_t start = from > h->midnight[i] ? from : h->midnight[i];
    int64_t end = to < h->midnight[i + 1] ? to : h->midnight[i + 1];
    return end - start;
}

/* Adds rate times seconds to each day that from..to touches. */
static void spread(struct hours *h, enum weather_var v, int64_t from, int64_t to, double rate)
{
    for (size_t i = day_of(h, from); i < h->n && h->midnight[i] < to; i++) {
        int64_t seconds = share(h, i, from, to);
        if (seconds > 0) {
            h->day[i].sum[v] += rate * (double)seconds;
            h->day[i].covered[v] += (int32_t)seconds;
        }
    }
}

static void widen(struct hours_day *d, double t)
{
    d->sum[WEATHER_TMIN] = fmin(d->sum[WEATHER_TMIN], t);
    d->sum[WEATHER_TMAX] = fmax(d->sum[WEATHER_TMAX], t);
}

void hours_instant(struct hours *h, int64_t at, int64_t to, double t)
{
    widen(&h->day[day_of(h, at)], t);
    spread(h, WEATHER_TMIN, at, to, 0);
    spread(h, WEATHER_TMAX, at, to, 0);
}

void hours_level(struct hours *h, int64_t from, int64_t to, double t)
{
    for (size_t i = day_of(h, from); i < h->n && h->midnight[i] < to; i++) {
        if (share(h, i, from, to) > 0) {
            widen(&h->day[i], t);
        }
    }
    spread(h, WEATHER_TMIN, from, to, 0);
    spread(h, WEATHER_TMAX, from, to, 0);
}

void hours_extreme(struct hours *h, enum weather_var v, int64_t from, int64_t to, double t, bool inside)
{
    size_t i = day_of(h, from + (to - from) / 2);
    if (!inside || share(h, i, from, to) == to - from) {
        double *x = &h->day[i].sum[v];
        *x = v == WEATHER_TMIN ? fmin(*x, t) : fmax(*x, t);
    }
}

void hours_mean(struct hours *h, enum weather_var v, int64_t from, int64_t to, double x)
{
    spread(h, v, from, to, x);
}

void hours_amount(struct hours *h, enum weather_var v, int64_t from, int64_t to, double x)
{
    spread(h, v, from, to, x / (double)(to - from));
}

static int64_t missing(const struct hours *h, enum weather_var v, size_t i)
{
    return h->midnight[i + 1] - h->midnight[i] - h->day[i].covered[v];
}

static bool is_whole(const struct hours *h, size_t i)
{
    return h->day[i].covered[WEATHER_TMIN] > 0 && missing(h, WEATHER_TMIN, i) <= rules[WEATHER_TMIN].missing_most;
}

void hours_whole(const struct hours *h, size_t *first, size_t *n)
{
    size_t end = h->n;
    *first = 0;
    while (*first < end && !is_whole(h, *first)) {
        ++*first;
    }
    while (end > *first && !is_whole(h, end - 1)) {
        end--;
    }
    *n = end - *first;
}

double hours_value(const struct hours *h, enum weather_var v, size_t i)
{
    const struct hours_day *d = &h->day[i];
    if (d->covered[v] == 0 || missing(h, v, i) > rules[v].missing_most) {
        return NAN;
    }
    return rules[v].mean ? d->sum[v] / d->covered[v] : d->sum[v];
}

static unsigned known_vars(const struct hours *h)
{
    unsigned vars = 0;
    for (size_t i = 0; i < h->n; i++) {
        for (int v = 0; v < WEATHER_VARS; v++) {
            vars |= h->day[i].covered[v] > 0 ? 1u << v : 0;
        }
    }
    return vars;
}

bool hours_days(const struct hours *h, size_t first, size_t n, struct arena *a, struct weather_days *w)
{
    if (!weather_days_alloc(w, a, h->day0 + (date_t)first, n, known_vars(h))) {
        return false;
    }
    for (int v = 0; v < WEATHER_VARS; v++) {
        for (size_t i = 0; w->col[v] && i < n; i++) {
            w->col[v][i] = hours_value(h, (enum weather_var)v, first + i);
        }
    }
    return true;
}

char *hours_left_out(const struct hours *h, size_t first, size_t n, char *text, size_t size)
{
    char date[DATE_TEXT];
    size_t used = 0, parts = 0;
    const size_t beside[2] = {first - 1, first + n}; /* first 0: beyond h->n */
    text[0] = 0;
    for (int k = 0; k < 2; k++) {
        if (beside[k] < h->n && h->day[beside[k]].covered[WEATHER_TMIN] > 0 && used < size) {
            date_format(h->day0 + (date_t)beside[k], date);
            used += (size_t)snprintf(text + used, size - used, "%s%s", parts++ ? " and " : "", date);
        }
    }
    if (parts && used < size) {
        snprintf(text + used, size - used, "%s",
                 parts == 1 ? " lacks hours and is left out" : " lack hours and are left out");
    }
    return text;
}
