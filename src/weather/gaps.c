/* Closing gaps in one column. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/gaps.h"

#include "base/num.h"
#include "weather/gap_normals.h"

#include <math.h>

#define LAGS 32    /* days; ends further apart count as unlike */
#define WET_MM 0.1 /* a day with rain: the least that a gauge shows */

struct gap {
    size_t first, after;
};

/* One column being closed. */
struct closing {
    struct weather_days *w;
    enum weather_var v, other; /* other: the other temperature; v itself for rain */
    struct gap_normals usual, usual_of_other;
    double slope;                    /* departure of v for one of the other */
    double likeness[LAGS];           /* correlation of departures so many days apart */
    double likeness_of_rest[LAGS];   /* the same of what the other temperature leaves open */
    double beside[2], between[2][2]; /* rain by whether the days beside it are wet, over what is usual */
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

static double departure_of(const struct weather_days *w, enum weather_var v, const struct gap_normals *usual, size_t i)
{
    return gap_read(w, v, i) ? w->col[v][i] - gap_usual(usual, w->day0 + (date_t)i) : (double)NAN;
}

static double departure(const struct closing *c, size_t i)
{
    return departure_of(c->w, c->v, &c->usual, i);
}

static double departure_of_other(const struct closing *c, size_t i)
{
    return departure_of(c->w, c->other, &c->usual_of_other, i);
}

/* What the other temperature leaves open of a departure. */
static double rest(const struct closing *c, size_t i)
{
    return departure(c, i) - c->slope * departure_of_other(c, i);
}

/* Correlation of a series with itself, up to `most` days apart. */
static void learn_likeness(const struct closing *c, double (*of)(const struct closing *, size_t), size_t most,
                           double likeness[LAGS])
{
    double product[LAGS] = {0}, pairs[LAGS] = {0}, past[LAGS];
    for (size_t i = 0; i < c->w->n; i++) {
        past[i % LAGS] = of(c, i);
        for (size_t lag = 0; lag <= most && lag <= i; lag++) {
            double both = past[i % LAGS] * past[(i - lag) % LAGS];
            if (!isnan(both)) {
                product[lag] += both;
                pairs[lag]++;
            }
        }
    }
    for (size_t lag = 0; lag < LAGS; lag++) {
        bool known = pairs[lag] > 0 && product[0] > 0;
        likeness[lag] = known ? product[lag] / pairs[lag] / (product[0] / pairs[0]) : lag == 0;
    }
}

static void learn_temperature(struct closing *c, size_t most)
{
    double both = 0, squares = 0;
    gap_normals_make(c->w, c->other, &c->usual_of_other);
    for (size_t i = 0; i < c->w->n; i++) {
        double x = departure(c, i), other = departure_of_other(c, i);
        if (!isnan(x) && !isnan(other)) {
            both += x * other;
            squares += other * other;
        }
    }
    c->slope = squares > 0 ? both / squares : 0;
    learn_likeness(c, departure, most, c->likeness);
    learn_likeness(c, rest, most, c->likeness_of_rest);
}

static bool wet(const struct closing *c, size_t i)
{
    return c->w->col[WEATHER_RAIN][i] >= WET_MM;
}

/* Rain after a dry or a wet day, and between two such days, over what is usual. */
static void learn_rain(struct closing *c)
{
    double rain[2] = {0, 0}, usual[2] = {0, 0}, rain_between[2][2] = {{0}}, usual_between[2][2] = {{0}};
    for (size_t i = 1; i < c->w->n; i++) {
        if (gap_read(c->w, WEATHER_RAIN, i) && gap_read(c->w, WEATHER_RAIN, i - 1)) {
            double x = c->w->col[WEATHER_RAIN][i], mean = c->usual.mean[date_day_of_year(c->w->day0 + (date_t)i)];
            bool before = wet(c, i - 1);
            rain[before] += x;
            usual[before] += mean;
            if (i + 1 < c->w->n && gap_read(c->w, WEATHER_RAIN, i + 1)) {
                rain_between[before][wet(c, i + 1)] += x;
                usual_between[before][wet(c, i + 1)] += mean;
            }
        }
    }
    for (int a = 0; a < 2; a++) {
        c->beside[a] = usual[a] > 0 ? rain[a] / usual[a] : 1;
        for (int b = 0; b < 2; b++) {
            c->between[a][b] = usual_between[a][b] > 0 ? rain_between[a][b] / usual_between[a][b] : c->beside[a];
        }
    }
}

/* Best linear estimate `at` days into `length` from both ends, by their correlations
 * with it and with each other. */
static double carry(double first, double last, const double likeness[LAGS], size_t at, size_t length)
{
    double a = likeness[at], b = likeness[length - at], ends = num_clip(likeness[length], -0.99, 0.99);
    return (first * (a - ends * b) + last * (b - ends * a)) / (1 - ends * ends);
}

static double fill_temperature(const struct closing *c, const struct gap *g, size_t i)
{
    const double *x = c->w->col[c->v];
    size_t a = g->first - 1, b = g->after;
    size_t at = i - a, length = b - a;
    double usual = gap_usual(&c->usual, c->w->day0 + (date_t)i);
    double other = departure_of_other(c, i), by_other = carry(rest(c, a), rest(c, b), c->likeness_of_rest, at, length);
    double alone = carry(departure(c, a), departure(c, b), c->likeness, at, length);
    double off = isnan(other) || isnan(by_other) ? alone : c->slope * other + by_other;
    return isnan(usual) || isnan(off) ? x[a] + (x[b] - x[a]) * (double)at / (double)length : usual + off;
}

static double fill_rain(const struct closing *c, const struct gap *g, size_t i)
{
    double usual = c->usual.mean[date_day_of_year(c->w->day0 + (date_t)i)];
    bool before = i == g->first && i > 0, after = i + 1 == g->after && g->after < c->w->n;
    double times = before && after ? c->between[wet(c, i - 1)][wet(c, i + 1)]
                   : before        ? c->beside[wet(c, i - 1)]
                   : after         ? c->beside[wet(c, i + 1)]
                                   : 1;
    return isnan(usual) ? 0 : usual * times;
}

static void close_short(const struct closing *c, const struct gap *g)
{
    for (size_t i = g->first; i < g->after; i++) {
        put(c->w, c->v, i, c->v == WEATHER_RAIN ? fill_rain(c, g, i) : fill_temperature(c, g, i));
    }
}

static enum err_code close_long(const struct closing *c, const struct gap *g, unsigned char *by_normals, struct err *e)
{
    for (size_t i = g->first; i < g->after; i++) {
        double usual = c->usual.mean[date_day_of_year(c->w->day0 + (date_t)i)];
        double other = c->v == WEATHER_RAIN ? (double)NAN : departure_of_other(c, i);
        if (isnan(usual)) {
            return refuse(c->w, c->v, g, "too long to fill, and the record has no other year to fill it from", e);
        }
        put(c->w, c->v, i, usual + (isnan(other) ? 0 : c->slope * other));
        by_normals[i] = 1;
    }
    return ERR_OK;
}

static void sum_up(const struct closing *c, const struct gap *g, size_t from, struct gap_sum *sum)
{
    for (size_t i = g->first > from ? g->first : from; i < g->after; i++) {
        int d = date_day_of_year(c->w->day0 + (date_t)i);
        double variance = c->usual.square[d] - c->usual.mean[d] * c->usual.mean[d];
        sum->days++;
        sum->sum += c->w->col[c->v][i];
        sum->variance += variance > 0 ? variance : 0;
    }
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

static void learn(struct closing *c, const struct gap_rules *rules)
{
    gap_normals_make(c->w, c->v, &c->usual);
    if (c->v == WEATHER_RAIN) {
        learn_rain(c);
    } else {
        learn_temperature(c, rules->fill_days < LAGS - 1 ? rules->fill_days + 1 : LAGS - 1);
    }
}

enum err_code gaps_close(struct weather_days *w, enum weather_var v, const struct gap_rules *rules,
                         unsigned char *by_normals, struct gap_sum *put_in, struct err *e)
{
    struct closing c = {.w = w, .v = v, .other = v};
    struct gap g = {0, 0};
    if (v != WEATHER_RAIN) {
        c.other = v == WEATHER_TMIN ? WEATHER_TMAX : WEATHER_TMIN;
    }
    for (bool learnt = false; next_gap(w, v, &g); learnt = true) {
        enum err_code code = ERR_OK;
        if (!learnt) {
            learn(&c, rules);
        }
        size_t most = g.after > rules->record_end ? rules->ahead_days : rules->fill_days;
        if (g.after - g.first <= most) {
            close_short(&c, &g);
        } else if (g.after > rules->recent_from) {
            code =
                refuse(w, v, &g, "so long a gap so near the end cannot be filled; add a file that has these days", e);
        } else {
            code = close_long(&c, &g, by_normals, e);
        }
        if (code != ERR_OK) {
            return code;
        }
        if (put_in) {
            sum_up(&c, &g, rules->told_from, put_in);
        }
    }
    return ERR_OK;
}
