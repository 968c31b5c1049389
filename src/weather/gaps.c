/* Closing gaps in one column. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/gaps.h"

#include <math.h>

#define NORMAL_REACH 7 /* days of the year to each side, our judgement: a fortnight steadies a mean of few years */
#define YEAR_MOST 366

struct gap {
    size_t first, after;
};

static const char *const spoken[WEATHER_VARS] = {
    [WEATHER_TMIN] = "minimum temperature", [WEATHER_TMAX] = "maximum temperature", [WEATHER_RAIN] = "rain"};

static enum err_code refuse(const struct weather_days *w, enum weather_var v, const struct gap *g, const char *why,
                            struct err *e)
{
    char from[DATE_TEXT], to[DATE_TEXT];
    return err_set(e, ERR_NOINPUT, "no %s from %s to %s (%zu days): %s", spoken[v],
                   date_format(w->day0 + (date_t)g->first, from), date_format(w->day0 + (date_t)g->after - 1, to),
                   g->after - g->first, why);
}

static void put(struct weather_days *w, enum weather_var v, size_t i, double x)
{
    w->col[v][i] = x;
    w->filled[i] |= (uint8_t)(1u << v);
}

static void close_short(struct weather_days *w, enum weather_var v, const struct gap *g)
{
    const double *x = w->col[v];
    bool between = v != WEATHER_RAIN && g->first > 0 && g->after < w->n;
    double before = between ? x[g->first - 1] : 0, step = between ? x[g->after] - before : 0;
    for (size_t i = g->first; i < g->after; i++) {
        put(w, v, i, before + step * (double)(i - g->first + 1) / (double)(g->after - g->first + 1));
    }
}

/* Sums and counts of what was read, by day of the year (1..366). */
struct by_day {
    double sum[YEAR_MOST + 1];
    size_t n[YEAR_MOST + 1];
};

static void count_days(const struct weather_days *w, enum weather_var v, struct by_day *days)
{
    *days = (struct by_day){0};
    for (size_t i = 0; i < w->n; i++) {
        if (!isnan(w->col[v][i]) && !(w->filled[i] >> v & 1)) {
            int d = date_day_of_year(w->day0 + (date_t)i);
            days->sum[d] += w->col[v][i];
            days->n[d]++;
        }
    }
}

static double normal(const struct by_day *days, int day_of_year)
{
    double sum = 0;
    size_t n = 0;
    for (int d = day_of_year - NORMAL_REACH; d <= day_of_year + NORMAL_REACH; d++) {
        int at = (d + YEAR_MOST - 1) % YEAR_MOST + 1;
        sum += days->sum[at];
        n += days->n[at];
    }
    return n ? sum / (double)n : (double)NAN;
}

static enum err_code close_long(struct weather_days *w, enum weather_var v, const struct gap *g,
                                const struct by_day *days, unsigned char *by_normals, struct err *e)
{
    for (size_t i = g->first; i < g->after; i++) {
        double x = normal(days, date_day_of_year(w->day0 + (date_t)i));
        if (isnan(x)) {
            return refuse(w, v, g, "too long to fill, and the record has no other year to fill it from", e);
        }
        put(w, v, i, x);
        by_normals[i] = 1;
    }
    return ERR_OK;
}

static bool next_gap(const struct weather_days *w, enum weather_var v, struct gap *g)
{
    size_t i = g->after;
    while (i < w->n && !isnan(w->col[v][i])) {
        i++;
    }
    g->first = i;
    while (i < w->n && isnan(w->col[v][i])) {
        i++;
    }
    g->after = i;
    return g->first < w->n;
}

enum err_code gaps_close(struct weather_days *w, enum weather_var v, const struct gap_rules *rules,
                         unsigned char *by_normals, struct err *e)
{
    struct by_day days;
    struct gap g = {0, 0};
    count_days(w, v, &days);
    while (next_gap(w, v, &g)) {
        enum err_code code = ERR_OK;
        if (g.after - g.first <= rules->fill_days) {
            close_short(w, v, &g);
        } else if (g.after > rules->recent_from) {
            code =
                refuse(w, v, &g, "so long a gap so near the end cannot be filled; add a file that has these days", e);
        } else {
            code = close_long(w, v, &g, &days, by_normals, e);
        }
        if (code != ERR_OK) {
            return code;
        }
    }
    return ERR_OK;
}
