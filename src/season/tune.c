/* Shrinkage, robustly. SPDX-License-Identifier: GPL-3.0-or-later */
#include "season/tune.h"

#include "base/num.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { HALVINGS = 200 }; /* from any bracket down to neighbouring doubles */

/* What is left of a test at a level; nothing where a "<" result agrees. */
static double residual(const struct tune_test *t, double theta)
{
    double r = t->y - theta;
    return t->below && r > 0.0 ? 0.0 : r;
}

/* The tests' pull on theta, less the prior's: falls with theta. */
static double pull(const struct tune_test *test, size_t n, size_t without, double sd, double huber, double theta)
{
    double sum = -theta / (sd * sd);
    for (size_t i = 0; i < n; i++) {
        if (i != without) {
            sum += num_clip(residual(&test[i], theta) / test[i].sd, -huber, huber) / test[i].sd;
        }
    }
    return sum;
}

static double root(const struct tune_test *test, size_t n, size_t without, double sd, double huber)
{
    assert(huber > 0.0);
    double low = 0.0, high = 0.0;
    if (isinf(sd)) { /* nothing holds theta near 0: it lies among the tests */
        low = INFINITY;
        high = -INFINITY;
    }
    for (size_t i = 0; i < n; i++) {
        if (i != without) {
            low = fmin(low, test[i].y);
            high = fmax(high, test[i].y);
        }
    }
    for (int k = 0; k < HALVINGS && low < high; k++) {
        double middle = 0.5 * (low + high);
        if (middle <= low || middle >= high) {
            break;
        }
        if (pull(test, n, without, sd, huber, middle) > 0.0) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return isinf(low) ? 0.0 : high;
}

struct tune_level tune_level_of(const struct tune_test *test, size_t n, size_t without, double sd, double huber)
{
    assert(test != NULL || n == 0);
    if (!(sd > 0.0)) {
        return (struct tune_level){0.0, 0.0};
    }
    double theta = root(test, n, without, sd, huber), precision = 1.0 / (sd * sd), scatter = 0.0;
    size_t telling = 0;
    for (size_t i = 0; i < n; i++) {
        double z = fabs(residual(&test[i], theta)) / test[i].sd;
        if (i == without || (test[i].below && test[i].y > theta)) {
            continue;
        }
        double weight = z > huber ? huber / z : 1.0;
        precision += weight / (test[i].sd * test[i].sd);
        scatter += weight * z * z;
        telling++;
    }
    double ratio = telling > 1 ? sqrt(scatter / (double)(telling - 1)) : 0.0;
    return (struct tune_level){theta, fmin(sd, fmax(1.0, ratio) / sqrt(precision))};
}

static int compare(const void *one, const void *other)
{
    const struct tune_test *a = one, *b = other;
    if (a->y < b->y || a->y > b->y) {
        return a->y < b->y ? -1 : 1;
    }
    if (a->sd < b->sd || a->sd > b->sd) {
        return a->sd < b->sd ? -1 : 1;
    }
    return (int)a->below - (int)b->below;
}

/* Each test held against the level that the others give, and against none. */
static void leave_one_out(const struct tune_test *test, size_t n, const struct tune_limits *l, struct tune_fit *fit)
{
    assert(n > 1);
    double sum = 0.0, before = 0.0, after = 0.0;
    for (size_t i = 0; i < n; i++) {
        double weight = 1.0 / test[i].sd;
        double others = tune_level_of(test, n, i, l->level, l->huber).theta;
        before += weight * fabs(residual(&test[i], 0.0));
        after += weight * fabs(residual(&test[i], num_clip(others, log(l->factor_low), log(l->factor_high))));
        sum += weight;
    }
    fit->before = before / sum;
    fit->after = after / sum;
    fit->off = !(fit->after < fit->before);
}

bool tune_fit(const struct tune_test *test, size_t n, const struct tune_limits *l, struct arena *a,
              struct tune_fit *fit)
{
    assert(l->factor_low <= 1.0 && 1.0 <= l->factor_high);
    struct tune_test *sorted = arena_alloc(a, n, sizeof *sorted);
    *fit = (struct tune_fit){.tests = n, .before = NAN, .after = NAN};
    if (!sorted) {
        return false;
    }
    if (n > 0) {
        memcpy(sorted, test, n * sizeof *sorted);
        qsort(sorted, n, sizeof *sorted, compare);
    }
    struct tune_level level = tune_level_of(sorted, n, n, l->level, l->huber);
    fit->found = level.theta;
    fit->theta = num_clip(level.theta, log(l->factor_low), log(l->factor_high));
    fit->sd = level.sd;
    fit->capped = fit->theta != level.theta;
    if (n > 1) {
        leave_one_out(sorted, n, l, fit);
    }
    if (fit->off) { /* the level is then taken to be 1, and errs by what the tests say of it as well */
        fit->theta = 0.0;
        fit->capped = false;
    }
    fit->sd = fmin(l->level, hypot(level.sd, fit->found - fit->theta));
    return true;
}

bool tune_doubtful(const struct tune_test *test, const struct tune_fit *fit, const struct tune_limits *l)
{
    assert(test->sd > 0.0);
    double r = residual(test, 0.0);
    bool beyond = fit->capped && (fit->found > 0.0 ? r > log(l->factor_high) : r < log(l->factor_low));
    return beyond || fabs(r) > l->doubtful * hypot(l->level, test->sd);
}

bool tune_unusual(const struct tuning *t, const struct tune_limits *l)
{
    return t->tests > 0 && fabs(t->theta) > l->usual * l->level;
}

double tune_test_sd(const struct tune_limits *l, double rest_sd, bool hour_known, double years, bool below)
{
    assert(!(rest_sd < 0.0));
    double variance = l->laboratory * l->laboratory + l->sample * l->sample + rest_sd * rest_sd;
    variance += hour_known ? 0.0 : l->hour * l->hour;
    variance += fmax(0.0, years) * l->year * l->year;
    return (below ? 2.0 : 1.0) * sqrt(variance);
}

double tune_modelled(const struct sward_result *day, enum tune_what what, double solar_h)
{
    static const double end[24] = {1,  2,  3,  4,  5,  6,  7,  8,  9,  10, 11, 12,
                                   13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23, 24};
    double nsc = isnan(solar_h) ? day->nsc_mean : num_interpolate(end, day->nsc_hour, 24, solar_h);
    return what == TUNE_NSC ? nsc : day->wsc * nsc / day->nsc_mean;
}

double tune_spread(const struct advice_limits *a, const struct tune_limits *l, const struct tuning *t)
{
    return t->tests > 0 ? fmin(a->spread_paddock, hypot(t->sd, l->rest)) : a->spread_paddock;
}

double tune_cover_gain(const struct tune_limits *l)
{
    double model = l->cover * l->cover;
    return model / (model + l->height * l->height);
}
