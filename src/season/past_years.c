/* Finding past years and joining one on. SPDX-License-Identifier: GPL-3.0-or-later */
#include "season/past_years.h"

#include <assert.h>
#include <math.h>

static const enum weather_var model_vars[] = {WEATHER_TMIN, WEATHER_TMAX, WEATHER_RAIN, WEATHER_RAD, WEATHER_ET0};
enum { MODEL_VARS = sizeof model_vars / sizeof model_vars[0] };

static date_t same_day(date_t date, int year)
{
    struct date_parts p = date_split(date);
    int most = date_days_in_month(year, p.month);
    return date_make(year, p.month, p.day < most ? p.day : most);
}

static bool has_weather(const struct weather_days *w, size_t start, size_t days)
{
    assert(start + days <= w->n);
    size_t gaps = 0;
    for (size_t i = start; i < start + days; i++) {
        uint8_t origin = w->origin[i];
        gaps += origin == ORIGIN_NORMAL || origin == ORIGIN_NONE || origin == ORIGIN_ASSUMED;
    }
    return 100 * gaps <= PAST_GAPS * days;
}

size_t past_years_find(const struct weather_days *w, date_t from, size_t days, size_t known, size_t *start, size_t most)
{
    assert(most > 0);
    date_t end = w->day0 + (date_t)(known < w->n ? known : w->n), length = (date_t)days;
    int oldest = date_split(w->day0).year;
    size_t n = 0;
    for (int year = date_split(end).year; year >= oldest && n < most; year--) {
        date_t first = same_day(from, year);
        bool within = first >= w->day0 && first + length <= end;
        bool apart = first + length <= from || first >= from + length;
        if (within && apart && has_weather(w, (size_t)(first - w->day0), days)) {
            start[n++] = (size_t)(first - w->day0);
        }
    }
    assert(n <= most);
    for (size_t i = 0; i < n / 2; i++) {
        size_t late = start[i];
        start[i] = start[n - 1 - i];
        start[n - 1 - i] = late;
    }
    return n;
}

/* One past the last forecast day, counted from the morning; 0 without a forecast. */
static size_t forecast_end(const struct weather_days *w, size_t now, size_t days)
{
    size_t end = 0;
    for (size_t k = 0; k < days && now + k < w->n; k++) {
        end = w->origin[now + k] == ORIGIN_FORECAST ? k + 1 : end;
    }
    return end;
}

static void put_day(const struct weather_days *w, size_t from, struct weather_days *out, size_t to)
{
    for (int v = 0; v < MODEL_VARS; v++) {
        out->col[model_vars[v]][to] = weather_at(w, model_vars[v], from);
    }
    out->origin[to] = ORIGIN_RECORDED;
}

static void put_forecast(const struct weather_days *w, size_t from, double weight, struct weather_days *out, size_t to)
{
    for (int v = 0; v < MODEL_VARS; v++) {
        double *x = &out->col[model_vars[v]][to];
        *x += weight * (weather_at(w, model_vars[v], from) - *x);
    }
    out->origin[to] = ORIGIN_FORECAST;
}

/* The night before the morning is over; the day is not. */
static void keep_night(const struct weather_days *w, size_t now, struct weather_days *out)
{
    if (now < w->n && w->origin[now] == ORIGIN_RECORDED) {
        double *high = &out->col[WEATHER_TMAX][PAST_LEAD], *low = &out->col[WEATHER_TMIN][PAST_LEAD];
        *low = weather_at(w, WEATHER_TMIN, now);
        *high = fmax(*high, *low);
    }
}

bool past_years_join(const struct weather_days *w, size_t now, size_t start, size_t days, struct arena *a,
                     struct weather_days *out)
{
    assert(now >= PAST_LEAD && now <= w->n);
    assert(start + days <= w->n);
    unsigned vars = 0;
    for (int v = 0; v < MODEL_VARS; v++) {
        vars |= 1u << model_vars[v];
    }
    if (!weather_days_alloc(out, a, w->day0 + (date_t)(now - PAST_LEAD), PAST_LEAD + days, vars)) {
        return false;
    }
    for (size_t k = 0; k < PAST_LEAD; k++) {
        put_day(w, now - PAST_LEAD + k, out, k);
    }
    size_t end = forecast_end(w, now, days);
    for (size_t k = 0; k < days; k++) {
        put_day(w, start + k, out, PAST_LEAD + k);
        if (k < end && w->origin[now + k] == ORIGIN_FORECAST) {
            double weight = (double)(end - k) / (PAST_BLEND + 1);
            put_forecast(w, now + k, fmin(weight, 1.0), out, PAST_LEAD + k);
        }
    }
    keep_night(w, now, out);
    return true;
}
