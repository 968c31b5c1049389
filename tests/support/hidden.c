/* Hidden days. SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/hidden.h"

#include <math.h>
#include <stdio.h>

enum { LONGEST = 5, REST_LEAST = 6, REST_SPAN = 25, START = 30, YEAR = 365 };

static const char *const kind_names[HIDE_KINDS] = {"whole days", "one temperature", "rain only", "radiation only"};
static const char *const way_names[HIDE_WAYS] = {"filled", "line", "last value", "nothing"};

static size_t draw(unsigned long long *state, size_t most)
{
    *state = *state * 6364136223846793005ULL + 1442695040888963407ULL;
    return (size_t)((double)(*state >> 11) / 9007199254740992.0 * (double)most);
}

static bool hides(enum hide_kind kind, enum weather_var v, size_t gap)
{
    switch (kind) {
    case HIDE_ONE_TEMPERATURE:
        return v == (gap % 2 ? WEATHER_TMIN : WEATHER_TMAX);
    case HIDE_RAIN:
        return v == WEATHER_RAIN;
    case HIDE_RADIATION:
        return v == WEATHER_RAD;
    default:
        return true;
    }
}

static void count(struct error_of *to, double estimate, double measured)
{
    double off = estimate - measured;
    to->n++;
    to->absolute += fabs(off);
    to->square += off * off;
    to->sum += off;
}

/* A gap of v: every way against what was measured, w the whole and filled the filled table. */
static void compare(const struct weather_days *w, const struct weather_days *filled, enum weather_var v, size_t first,
                    size_t after, struct hidden *h)
{
    const double *x = w->col[v];
    for (size_t i = first; i < after; i++) {
        double share = (double)(i - first + 1) / (double)(after - first + 1);
        double line = x[first - 1] + (x[after] - x[first - 1]) * share;
        if (isnan(x[i]) || isnan(line)) {
            continue;
        }
        h->total[v] += x[i];
        h->rain_last_year += v == WEATHER_RAIN && i + YEAR >= w->n ? x[i] : 0;
        count(&h->error[WAY_OURS][v], filled->col[v][i], x[i]);
        count(&h->error[WAY_LINE][v], line, x[i]);
        count(&h->error[WAY_LAST][v], x[first - 1], x[i]);
        count(&h->error[WAY_NOTHING][v], 0, x[i]);
    }
}

static enum err_code read(const char *path, struct arena *a, struct weather_days *w, struct err *e)
{
    struct weather_set set;
    enum err_code code = weather_read(path, NULL, a, &set, e);
    if (code == ERR_OK) {
        *w = set.site[0].days;
    }
    return code;
}

struct gap_list {
    size_t n, first[1000], after[1000];
};

static void draw_gaps(size_t days, unsigned long long seed, struct gap_list *gaps)
{
    size_t i = START;
    gaps->n = 0;
    while (gaps->n < 1000) {
        i += REST_LEAST + draw(&seed, REST_SPAN);
        size_t length = 1 + draw(&seed, LONGEST);
        if (i + length + START >= days) {
            return;
        }
        gaps->first[gaps->n] = i;
        gaps->after[gaps->n++] = i + length;
        i += length;
    }
}

static void hide(struct weather_days *w, const struct gap_list *gaps, enum hide_kind kind)
{
    for (size_t g = 0; g < gaps->n; g++) {
        for (int v = 0; v < WEATHER_VARS; v++) {
            for (size_t i = gaps->first[g]; w->col[v] && hides(kind, (enum weather_var)v, g) && i < gaps->after[g];
                 i++) {
                w->col[v][i] = NAN;
                w->origin[i] = kind == HIDE_DAYS ? ORIGIN_NONE : w->origin[i];
            }
        }
    }
}

enum err_code hidden_score(const char *path, const struct site *site, const struct advice_limits *limits,
                           enum hide_kind kind, unsigned long long seed, struct hidden *h, struct err *e)
{
    struct arena a;
    struct weather_days whole, w;
    static struct gap_list gaps;
    err_clear(e);
    h->rain_last_year = 0;
    arena_init(&a);
    enum err_code code = read(path, &a, &whole, e);
    code = code == ERR_OK ? read(path, &a, &w, e) : code;
    if (code == ERR_OK) {
        draw_gaps(w.n, seed, &gaps);
        hide(&w, &gaps, kind);
        code = weather_complete(&w, site, limits, &a, &h->report, e);
    }
    size_t cut = code == ERR_OK ? (size_t)(w.day0 - whole.day0) : 0;
    for (int v = 0; v <= WEATHER_RAD && code == ERR_OK && cut == 0; v++) {
        for (size_t g = 0; whole.col[v] && g < gaps.n; g++) {
            if (hides(kind, (enum weather_var)v, g)) {
                compare(&whole, &w, (enum weather_var)v, gaps.first[g], gaps.after[g], h);
            }
        }
    }
    arena_release(&a);
    return code;
}

double hidden_mae(const struct hidden *h, enum hide_way way, enum weather_var v)
{
    return h->error[way][v].absolute / (double)h->error[way][v].n;
}

double hidden_rmse(const struct hidden *h, enum hide_way way, enum weather_var v)
{
    return sqrt(h->error[way][v].square / (double)h->error[way][v].n);
}

double hidden_bias(const struct hidden *h, enum hide_way way, enum weather_var v)
{
    return h->error[way][v].sum / (double)h->error[way][v].n;
}

void hidden_print(const struct hidden *h, enum hide_kind kind)
{
    for (enum weather_var v = WEATHER_TMIN; v <= WEATHER_RAD; v++) {
        if (h->error[WAY_OURS][v].n == 0) {
            continue;
        }
        printf("#   %-15s %-9s n %4zu mean %5.2f", kind_names[kind], weather_var_name(v), h->error[WAY_OURS][v].n,
               h->total[v] / (double)h->error[WAY_OURS][v].n);
        for (enum hide_way way = WAY_OURS; way < (v == WEATHER_RAIN ? HIDE_WAYS : WAY_NOTHING); way++) {
            printf(" | %s %.2f %.2f %+.2f", way_names[way], hidden_mae(h, way, v), hidden_rmse(h, way, v),
                   hidden_bias(h, way, v));
        }
        printf("\n");
    }
}
