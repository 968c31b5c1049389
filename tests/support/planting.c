/* Planted errors. SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/planting.h"

#include "physics/sun.h"

#include <math.h>
#include <stdlib.h>

enum { REST = 4, FROZEN = 5, SHIFTED = 20, TRIES = 100000, WIDE = 90 };

const char *const plant_names[PLANT_KINDS] = {"step of 3 SD", "5 equal days",    "Tmin/Tmax swapped", "tenths",
                                              "F for C",      "minus sign lost", "20 days shifted",   "day doubled",
                                              "1.2 Ra",       "rain x 10",       "small minus lost",  "one day late"};

struct ground {
    struct weather_days *w;
    const struct site *site;
    double sd[2]; /* of the day-to-day change of Tmin, Tmax */
    unsigned char *taken;
    unsigned long long state;
    size_t turn;
};

static double uniform(struct ground *g)
{
    g->state = g->state * 6364136223846793005ULL + 1442695040888963407ULL;
    return (double)(g->state >> 11) / 9007199254740992.0;
}

static double change_sd(const double *x, size_t n)
{
    double sum = 0, squares = 0, pairs = 0;
    for (size_t i = 1; i < n; i++) {
        double d = x[i] - x[i - 1];
        if (!isnan(d)) {
            sum += d;
            squares += d * d;
            pairs++;
        }
    }
    return sqrt(squares / pairs - sum / pairs * sum / pairs);
}

static size_t length_of(enum plant_kind kind)
{
    return kind == PLANT_FROZEN ? FROZEN : kind == PLANT_SHIFTED ? SHIFTED : 1;
}

static double tenth(double x)
{
    return round(x * 10) / 10;
}

/* Is this a day on which the error can happen and make a difference? */
static bool suits(const struct ground *g, enum plant_kind kind, size_t i)
{
    const struct weather_days *w = g->w;
    double low = weather_at(w, WEATHER_TMIN, i), high = weather_at(w, WEATHER_TMAX, i);
    if (isnan(low) || isnan(high)) {
        return false;
    }
    switch (kind) {
    case PLANT_SWAPPED:
        return low < high;
    case PLANT_SIGN:
        return low <= -3;
    case PLANT_SMALL_SIGN:
        return low < 0 && low > -3;
    case PLANT_RAIN:
        return weather_at(w, WEATHER_RAIN, i) >= 1;
    case PLANT_RADIATION:
        return w->col[WEATHER_RAD] != NULL;
    default:
        return true;
    }
}

static void plant_scaled(struct ground *g, size_t i, double scale, double offset)
{
    for (int v = WEATHER_TMIN; v <= WEATHER_TMAX; v++) {
        g->w->col[v][i] = tenth(g->w->col[v][i] * scale + offset);
    }
}

static void plant_one(struct ground *g, enum plant_kind kind, size_t i)
{
    struct weather_days *w = g->w;
    double *low = w->col[WEATHER_TMIN], *high = w->col[WEATHER_TMAX];
    enum weather_var v = uniform(g) < 0.5 ? WEATHER_TMIN : WEATHER_TMAX;
    bool turn = g->turn++ % 2;
    switch (kind) {
    case PLANT_STEP:
        w->col[v][i] = tenth(w->col[v][i] + (uniform(g) < 0.5 ? -3 : 3) * g->sd[v]);
        break;
    case PLANT_FROZEN:
        for (size_t k = 1; k < FROZEN; k++) {
            w->col[v][i + k] = w->col[v][i];
        }
        break;
    case PLANT_SWAPPED:
        low[i] += high[i];
        high[i] = low[i] - high[i];
        low[i] -= high[i];
        break;
    case PLANT_TENTHS:
        plant_scaled(g, i, turn ? 10 : 0.1, 0);
        break;
    case PLANT_FAHRENHEIT:
        plant_scaled(g, i, 1.8, 32);
        break;
    case PLANT_SIGN:
    case PLANT_SMALL_SIGN:
        low[i] = -low[i];
        break;
    case PLANT_SHIFTED:
    case PLANT_LATE:
        for (size_t k = length_of(kind); k-- > 0;) {
            high[i + k] = high[i + k - 1];
            w->col[WEATHER_RAIN][i + k] = w->col[WEATHER_RAIN][i + k - 1];
        }
        break;
    case PLANT_DOUBLED:
        for (int k = 0; k < WEATHER_VARS; k++) {
            if (w->col[k]) {
                w->col[k][i] = w->col[k][i - 1];
            }
        }
        break;
    case PLANT_RADIATION:
        w->col[WEATHER_RAD][i] = 1.2 * sun_extraterrestrial(date_day_of_year(w->day0 + (date_t)i), g->site->latitude);
        break;
    default:
        w->col[WEATHER_RAIN][i] *= 10;
        break;
    }
}

/* A place whose days, and REST more on each side, are untouched. */
static size_t place_for(struct ground *g, enum plant_kind kind)
{
    size_t length = length_of(kind);
    for (int try = 0; try < TRIES; try++) {
        size_t i = REST + (size_t)(uniform(g) * (double)(g->w->n - 2 * REST - length));
        bool free_ground = suits(g, kind, i);
        for (size_t d = i - REST; d < i + length + REST && free_ground; d++) {
            free_ground = !g->taken[d];
        }
        if (free_ground) {
            for (size_t d = i; d < i + length; d++) {
                g->taken[d] = 1;
            }
            return i;
        }
    }
    return 0;
}

size_t plant_errors(struct weather_days *w, const struct site *site, unsigned kinds, size_t each,
                    unsigned long long seed, struct plant *plants, size_t room)
{
    struct ground g = {.w = w, .site = site, .state = seed, .taken = calloc(w->n, 1)};
    size_t n = 0;
    g.sd[0] = change_sd(w->col[WEATHER_TMIN], w->n);
    g.sd[1] = change_sd(w->col[WEATHER_TMAX], w->n);
    for (int kind = PLANT_KINDS; kind-- > 0;) { /* the pickiest, and the longest, not last */
        for (size_t j = 0; j < each && n < room && kinds >> kind & 1u; j++) {
            size_t i = place_for(&g, (enum plant_kind)kind);
            if (i) {
                plant_one(&g, (enum plant_kind)kind, i);
                plants[n++] = (struct plant){(enum plant_kind)kind, i, i + length_of((enum plant_kind)kind) - 1, false};
            }
        }
    }
    free(g.taken);
    return n;
}

static bool names_days(const struct doubt *d)
{
    return d->kind != DOUBT_MISSING && d->last - d->date < WIDE;
}

void plant_look(const struct quality *q, date_t day0, struct plant *plants, size_t n)
{
    for (size_t p = 0; p < n; p++) {
        date_t beside = plants[p].kind == PLANT_STEP || plants[p].kind == PLANT_SHIFTED ? 1 : 0;
        date_t first = day0 + (date_t)plants[p].first - beside, last = day0 + (date_t)plants[p].last + beside;
        for (size_t i = 0; i < q->n && !plants[p].found; i++) {
            const struct doubt *d = &q->doubt[i];
            plants[p].found = names_days(d) && d->date <= last && d->last >= first;
        }
    }
}

size_t plant_false_alarms(const struct quality *q, const struct weather_days *w, const struct plant *plants, size_t n)
{
    unsigned char *mark = calloc(w->n, 1);
    size_t count = 0;
    for (size_t i = 0; i < q->n; i++) {
        for (date_t d = q->doubt[i].date; names_days(&q->doubt[i]) && d <= q->doubt[i].last; d++) {
            mark[d - w->day0] = 1;
        }
    }
    for (size_t p = 0; p < n; p++) {
        for (size_t d = plants[p].first - 2; d <= plants[p].last + 2 && d < w->n; d++) {
            mark[d] = 0;
        }
    }
    for (size_t i = 0; i < w->n; i++) {
        count += mark[i];
    }
    free(mark);
    return count;
}
