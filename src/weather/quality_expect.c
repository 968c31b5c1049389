/* SPDX-License-Identifier: GPL-3.0-or-later
 * Expected temperatures by regression on the record's own covariances. */
#include "weather/quality_expect.h"

#include "base/num.h"

#include <math.h>
#include <string.h>

#define CUT 4.0             /* spreads: a term further out counts as so far, that one slip may not bend the fit */
#define RIDGE 0.02          /* of a variance: terms that hardly vary get no weight */
#define LEAST_ROWS 100.0    /* of a season; with fewer the whole year serves */
#define WINDOW_VALUES 600.0 /* residuals whose quantiles are sure enough */
#define WINDOW_MOST 90.0    /* days to each side: half a year knows no seasons any more */
#define RAIN_SCALE 2.0      /* sqrt(mm): rain counts by its root */

struct moments {
    double sum[E_TERMS][E_TERMS];
};

static const enum expect_term target[EXPECT_MODELS] = {E_MIN, E_MAX, E_MIN, E_MAX, E_MAX, E_RAIN};

#define BIT(term) (1u << (term))
#define BEFORE (BIT(E_MIN_BEFORE) | BIT(E_MAX_BEFORE))
#define AFTER (BIT(E_MIN_AFTER) | BIT(E_MAX_AFTER))
#define OWN (BIT(E_SUN_BEFORE) | BIT(E_SUN) | BIT(E_HUMID) | BIT(E_WIND) | BIT(E_RAIN) | BIT(E_ONE))
#define AROUND                                                                                                         \
    (BIT(E_MIN_BEFORE) | BIT(E_MIN) | BIT(E_MIN_AFTER) | BIT(E_SUN_BEFORE) | BIT(E_SUN) | BIT(E_SUN_AFTER) |           \
     BIT(E_HUMID_BEFORE) | BIT(E_HUMID) | BIT(E_HUMID_AFTER) | BIT(E_WIND) | BIT(E_ONE))
static const unsigned beside[EXPECT_SIDES] = {BEFORE | AFTER | OWN, BEFORE | OWN, AFTER | OWN};

static unsigned terms_of(enum expect_model m, enum expect_side side)
{
    static const unsigned other[EXPECT_JUDGED] = {[MIN_GIVEN] = BIT(E_MAX), [MAX_GIVEN] = BIT(E_MIN)};
    if (m < EXPECT_JUDGED) {
        return beside[side] | other[m];
    }
    return m == MAX_AROUND ? AROUND | BIT(E_MAX_BEFORE) : AROUND;
}

double expect_cut(double x)
{
    return isnan(x) ? 0 : num_clip(x, -CUT, CUT);
}

static size_t season_of(const struct quality_work *k, size_t i)
{
    return (size_t)((k->day_of_year[i] + 31u) % QUALITY_YEAR) * EXPECT_SEASONS / QUALITY_YEAR; /* from 1 December */
}

static bool has_both(const struct expect *x, size_t i)
{
    return !isnan(x->series[E_MIN][i]) && !isnan(x->series[E_MAX][i]);
}

static double own_term(const struct expect *x, enum expect_term t, size_t i)
{
    return x->series[t] ? expect_cut(x->series[t][i]) : 0;
}

void expect_day(const struct quality_work *k, const struct expect *x, size_t i, struct expect_day *d)
{
    bool before = i > 0 && has_both(x, i - 1), after = i + 1 < k->n && has_both(x, i + 1);
    double *t = d->term;
    d->i = i;
    d->known = before || after;
    d->side = before && after ? BOTH_SIDES : before ? BEFORE_ONLY : AFTER_ONLY;
    t[E_MIN_BEFORE] = before ? expect_cut(x->series[E_MIN][i - 1]) : 0;
    t[E_MAX_BEFORE] = before ? expect_cut(x->series[E_MAX][i - 1]) : 0;
    t[E_MIN_AFTER] = after ? expect_cut(x->series[E_MIN][i + 1]) : 0;
    t[E_MAX_AFTER] = after ? expect_cut(x->series[E_MAX][i + 1]) : 0;
    t[E_MIN] = expect_cut(x->series[E_MIN][i]);
    t[E_MAX] = expect_cut(x->series[E_MAX][i]);
    t[E_SUN_BEFORE] = i > 0 ? own_term(x, E_SUN, i - 1) : 0;
    t[E_SUN] = own_term(x, E_SUN, i);
    t[E_SUN_AFTER] = i + 1 < k->n ? own_term(x, E_SUN, i + 1) : 0;
    t[E_HUMID_BEFORE] = i > 0 ? own_term(x, E_HUMID, i - 1) : 0;
    t[E_HUMID_AFTER] = i + 1 < k->n ? own_term(x, E_HUMID, i + 1) : 0;
    t[E_HUMID] = own_term(x, E_HUMID, i);
    t[E_WIND] = own_term(x, E_WIND, i);
    t[E_RAIN] = own_term(x, E_RAIN, i);
    t[E_ONE] = 1;
}

static void add_day(struct moments *m, const double t[E_TERMS])
{
    for (int a = 0; a < E_TERMS; a++) {
        for (int b = 0; b <= a; b++) {
            m->sum[a][b] += t[a] * t[b];
        }
    }
}

static double moment(const struct moments *m, size_t a, size_t b)
{
    return a > b ? m->sum[a][b] : m->sum[b][a];
}

/* Least squares of one term on those of `mask`, by Cholesky's root of the moments. */
static void solve(const struct moments *m, enum expect_term y, unsigned mask, struct expect_fit *fit)
{
    size_t at[E_TERMS], n = 0;
    double root[E_TERMS][E_TERMS], w[E_TERMS], rows = m->sum[E_ONE][E_ONE], left = moment(m, y, y);
    for (size_t t = 0; t < E_TERMS; t++) {
        if (mask & BIT(t)) {
            at[n++] = t;
        }
    }
    memset(fit, 0, sizeof *fit);
    for (size_t a = 0; a < n; a++) {
        for (size_t b = 0; b <= a; b++) {
            double s = moment(m, at[a], at[b]) + (a == b ? RIDGE * rows : 0);
            for (size_t c = 0; c < b; c++) {
                s -= root[a][c] * root[b][c];
            }
            root[a][b] = a == b ? sqrt(s) : s / root[b][b];
        }
        w[a] = moment(m, at[a], y);
        for (size_t c = 0; c < a; c++) {
            w[a] -= root[a][c] * w[c];
        }
        w[a] /= root[a][a];
        left -= w[a] * w[a];
    }
    for (size_t a = n; a-- > 0;) {
        for (size_t c = a + 1; c < n; c++) {
            w[a] -= root[c][a] * w[c];
        }
        w[a] /= root[a][a];
        fit->weight[at[a]] = w[a];
    }
    fit->sd = sqrt(fmax(left, RIDGE * rows) / rows);
}

/* A season leans on those beside it by half. */
static void pool(const struct moments all[EXPECT_SEASONS], size_t s, struct moments *m)
{
    double share[EXPECT_SEASONS] = {0.5, 0.5, 0.5, 0.5};
    share[s] = 1;
    share[(s + 2) % EXPECT_SEASONS] = 0;
    for (int pass = 0; pass < 2; pass++) {
        memset(m, 0, sizeof *m);
        for (size_t q = 0; q < EXPECT_SEASONS; q++) {
            for (size_t c = 0; c < (size_t)E_TERMS * E_TERMS; c++) {
                m->sum[c / E_TERMS][c % E_TERMS] += share[q] * all[q].sum[c / E_TERMS][c % E_TERMS];
            }
        }
        if (m->sum[E_ONE][E_ONE] >= LEAST_ROWS) {
            return;
        }
        share[0] = share[1] = share[2] = share[3] = 1;
    }
}

static void fit_all(const struct quality_work *k, struct expect *x)
{
    struct moments all[EXPECT_SEASONS], m;
    memset(all, 0, sizeof all);
    for (size_t i = 1; i + 1 < k->n; i++) {
        struct expect_day d;
        if (has_both(x, i - 1) && has_both(x, i) && has_both(x, i + 1)) {
            expect_day(k, x, i, &d);
            add_day(&all[season_of(k, i)], d.term);
        }
    }
    for (size_t s = 0; s < EXPECT_SEASONS; s++) {
        pool(all, s, &m);
        for (int side = 0; side < EXPECT_SIDES; side++) {
            for (int model = 0; model < EXPECT_MODELS; model++) {
                solve(&m, target[model], terms_of((enum expect_model)model, (enum expect_side)side),
                      &x->fit[s][side][model]);
            }
        }
    }
}

static double predict(const struct expect_fit *fit, const double term[E_TERMS])
{
    double y = 0;
    for (int t = 0; t < E_TERMS; t++) {
        y += fit->weight[t] * term[t];
    }
    return y;
}

static bool make_series(struct quality_work *k, struct expect *x, enum expect_term t, enum weather_var v)
{
    x->series[t] = arena_alloc(k->arena, k->n, sizeof *x->series[t]);
    for (size_t i = 0; x->series[t] && i < k->n; i++) {
        size_t d = k->day_of_year[i];
        double value = k->x[v][i];
        x->series[t][i] = v == WEATHER_RAIN ? sqrt(value) / RAIN_SCALE : quality_spreads(&k->season[v], d, value);
    }
    return x->series[t] != NULL;
}

static bool make_all_series(struct quality_work *k, struct expect *x)
{
    static const struct {
        enum expect_term term;
        enum weather_var var;
    } from[] = {{E_MIN, WEATHER_TMIN}, {E_MAX, WEATHER_TMAX},  {E_SUN, WEATHER_RAD},
                {E_HUMID, WEATHER_RH}, {E_WIND, WEATHER_WIND}, {E_RAIN, WEATHER_RAIN}};
    for (size_t j = 0; j < sizeof from / sizeof from[0]; j++) {
        if (quality_enough(k, from[j].var) && !make_series(k, x, from[j].term, from[j].var)) {
            return false;
        }
    }
    return true;
}

/* Days to each side: twice a season's, more where few years make few values. */
static size_t residual_window(const struct quality_work *k)
{
    return (size_t)num_clip(WINDOW_VALUES / (2 * quality_years(k, WEATHER_TMIN)), 2 * k->limits->season_days,
                            WINDOW_MOST);
}

/* The residuals' own distribution by season: a regression does not know that winters
 * are wilder than summers. */
static bool describe_residuals(struct quality_work *k, struct expect *x)
{
    const struct season_scale scale = {-5.12, 0.01, residual_window(k)};
    double *residual[EXPECT_JUDGED];
    for (int model = 0; model < EXPECT_JUDGED; model++) {
        residual[model] = arena_alloc(k->arena, k->n, sizeof **residual);
        if (!residual[model]) {
            return false;
        }
    }
    for (size_t i = 0; i < k->n; i++) {
        struct expect_day d;
        bool whole = i > 0 && i + 1 < k->n && has_both(x, i - 1) && has_both(x, i) && has_both(x, i + 1);
        expect_day(k, x, i, &d);
        for (int model = 0; model < EXPECT_JUDGED; model++) {
            const struct expect_fit *fit = &x->fit[season_of(k, i)][BOTH_SIDES][model];
            residual[model][i] = whole ? x->series[target[model]][i] - predict(fit, d.term) : (double)NAN;
        }
    }
    for (int model = 0; model < EXPECT_JUDGED; model++) {
        if (!quality_season(residual[model], k->n, k->day_of_year, &scale, k->arena, &x->residual[model])) {
            return false;
        }
    }
    return true;
}

bool expect_fit(struct quality_work *k, struct expect *x)
{
    memset(x, 0, sizeof *x);
    if (!make_all_series(k, x)) {
        return false;
    }
    fit_all(k, x);
    return describe_residuals(k, x);
}

void expect_judge(const struct quality_work *k, const struct expect *x, const struct expect_day *d, double low,
                  double high, double off[EXPECT_JUDGED])
{
    size_t day = k->day_of_year[d->i];
    const struct expect_fit(*fits)[EXPECT_MODELS] = x->fit[season_of(k, d->i)];
    double term[E_TERMS], own[2] = {quality_spreads(&k->season[WEATHER_TMIN], day, low),
                                    quality_spreads(&k->season[WEATHER_TMAX], day, high)};
    memcpy(term, d->term, sizeof term);
    term[E_MIN] = expect_cut(own[0]);
    term[E_MAX] = expect_cut(own[1]);
    for (int m = 0; m < EXPECT_JUDGED; m++) {
        bool is_max = target[m] == E_MAX, lacks_other = m >= MIN_GIVEN && isnan(own[!is_max]);
        const struct expect_fit *fit = &fits[d->side][m];
        double widen = fit->sd / fits[BOTH_SIDES][m].sd;
        double residual = own[is_max] - predict(fit, term);
        off[m] = lacks_other ? (double)NAN : quality_spreads(&x->residual[m], day, residual) / widen;
    }
}

double expect_predict(const struct quality_work *k, const struct expect *x, const struct expect_day *d,
                      enum expect_model m)
{
    return predict(&x->fit[season_of(k, d->i)][BOTH_SIDES][m], d->term);
}

double expect_sd(const struct quality_work *k, const struct expect *x, size_t i, enum expect_model m)
{
    return x->fit[season_of(k, i)][BOTH_SIDES][m].sd;
}

double expect_value(const struct quality_work *k, const struct expect *x, const struct expect_day *d,
                    enum expect_model m, double low, double high)
{
    size_t day = k->day_of_year[d->i];
    double term[E_TERMS];
    memcpy(term, d->term, sizeof term);
    term[E_MIN] = expect_cut(quality_spreads(&k->season[WEATHER_TMIN], day, low));
    term[E_MAX] = expect_cut(quality_spreads(&k->season[WEATHER_TMAX], day, high));
    double spreads = predict(&x->fit[season_of(k, d->i)][d->side][m], term) + x->residual[m].middle[day];
    return quality_of_spreads(&k->season[target[m] == E_MAX ? WEATHER_TMAX : WEATHER_TMIN], day, spreads);
}
