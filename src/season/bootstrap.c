/* Circular moving blocks over running sums. SPDX-License-Identifier: GPL-3.0-or-later */
#include "season/bootstrap.h"

#include "base/arena.h"
#include "season/verify.h"

#include <assert.h>
#include <gsl/gsl_rng.h>
#include <gsl/gsl_sort.h>
#include <math.h>
#include <string.h>

#define SLOPE_STEP 1e-5    /* of a sum's size */
#define ROUNDING 1e-12     /* of squares */
#define UNDEFINED_MOST 0.1 /* of the replicates; our choice */

double bootstrap_block(double n, double r1)
{
    assert(n >= 0.0);
    double exponent = 2.0 / 3.0 * (1.0 - (1.0 - r1) / (1.0 + r1));
    double low = 1.0, high = n;
    if (!(exponent > 0.0) || n < 2.0) {
        return 1.0;
    }
    while (high - low > 1e-9 * n) { /* the right side falls with L */
        double middle = (low + high) / 2.0;
        if (middle < pow(n - middle + 1.0, exponent)) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return (low + high) / 2.0;
}

static double term(const struct bootstrap_ask *q, size_t day, size_t k)
{
    return q->term[day * q->terms + q->use[k]];
}

static void add_up(const struct bootstrap_ask *q, double *sum, double *size)
{
    for (size_t i = 0; i < q->days; i++) {
        for (size_t k = 0; k < q->uses; k++) {
            sum[k] += term(q, i, k);
            size[k] += fabs(term(q, i, k));
        }
    }
}

/* How fast the score changes with each of its sums. */
static void find_slopes(const struct bootstrap_ask *q, const double *sum, const double *size, double *slope)
{
    assert(q->uses <= BOOTSTRAP_TERMS_MOST);
    double near[BOOTSTRAP_TERMS_MOST];
    memcpy(near, sum, q->uses * sizeof *near);
    for (size_t k = 0; k < q->uses; k++) {
        assert(q->use[k] < q->terms);
        double step = SLOPE_STEP * size[k];
        near[k] = sum[k] + step;
        double above = q->score(near);
        near[k] = sum[k] - step;
        double below = q->score(near);
        near[k] = sum[k];
        slope[k] = step > 0.0 && isfinite(above - below) ? (above - below) / (2.0 * step) : 0.0;
    }
}

/* Lag-1 autocorrelation of what each day does to the score; NaN when no day does anything. */
static double influence_r1(const struct bootstrap_ask *q, const double *sum, const double *slope)
{
    double before = 0.0, squares = 0.0, products = 0.0, size = 0.0;
    for (size_t i = 0; i < q->days; i++) {
        double x = 0.0, parts = 0.0;
        for (size_t k = 0; k < q->uses; k++) {
            double part = slope[k] * (term(q, i, k) - sum[k] / (double)q->days);
            x += part;
            parts += fabs(part);
        }
        size += parts * parts;
        squares += x * x;
        products += x * before;
        before = x;
    }
    return squares > ROUNDING * size ? products / squares : (double)NAN;
}

/* Sums over the first i days, i = 0 .. 2 days: the record twice, so that blocks may pass its end. */
static double *running_sums(const struct bootstrap_ask *q, struct arena *a)
{
    double *run = arena_alloc(a, (2 * q->days + 1) * q->uses, sizeof *run);
    for (size_t i = 0; run && i < 2 * q->days; i++) {
        for (size_t k = 0; k < q->uses; k++) {
            run[(i + 1) * q->uses + k] = run[i * q->uses + k] + term(q, i % q->days, k);
        }
    }
    return run;
}

static double replicate(const struct bootstrap_ask *q, const double *run, size_t block, gsl_rng *rng)
{
    assert(block > 0);
    double sum[BOOTSTRAP_TERMS_MOST] = {0};
    for (size_t done = 0; done < q->days; done += block) {
        size_t from = gsl_rng_uniform_int(rng, q->days), left = q->days - done;
        size_t to = from + (block < left ? block : left);
        for (size_t k = 0; k < q->uses; k++) {
            sum[k] += run[to * q->uses + k] - run[from * q->uses + k];
        }
    }
    return q->score(sum);
}

static void draw(const struct bootstrap_ask *q, const double *run, gsl_rng *rng, struct bootstrap_interval *out)
{
    assert(q->level > 0.0 && q->level < 1.0);
    double value[BOOTSTRAP_REPLICATES];
    size_t n = 0;
    for (int i = 0; i < BOOTSTRAP_REPLICATES; i++) {
        double x = replicate(q, run, out->block, rng);
        if (isfinite(x)) {
            value[n++] = x;
        }
    }
    if ((double)n < (1.0 - UNDEFINED_MOST) * BOOTSTRAP_REPLICATES) {
        return;
    }
    gsl_sort(value, 1, n);
    out->low = verify_quantile(value, n, (1.0 - q->level) / 2.0);
    out->high = verify_quantile(value, n, (1.0 + q->level) / 2.0);
}

static bool find_interval(const struct bootstrap_ask *q, struct bootstrap_interval *out)
{
    struct arena scratch;
    arena_init(&scratch);
    double *run = running_sums(q, &scratch);
    gsl_rng *rng = run ? gsl_rng_alloc(gsl_rng_mt19937) : NULL;
    if (rng) {
        gsl_rng_set(rng, q->seed);
        draw(q, run, rng, out);
    }
    gsl_rng_free(rng); /* NULL does no harm */
    arena_release(&scratch);
    return rng != NULL;
}

bool bootstrap_find(const struct bootstrap_ask *q, struct bootstrap_interval *out)
{
    assert(q->uses <= BOOTSTRAP_TERMS_MOST);
    double sum[BOOTSTRAP_TERMS_MOST] = {0}, size[BOOTSTRAP_TERMS_MOST] = {0}, slope[BOOTSTRAP_TERMS_MOST];
    add_up(q, sum, size);
    *out = (struct bootstrap_interval){.value = q->score(sum), .low = NAN, .high = NAN, .block = 1};
    if (q->days == 0 || !isfinite(out->value)) {
        out->value = NAN;
        return true;
    }
    find_slopes(q, sum, size, slope);
    double r1 = influence_r1(q, sum, slope);
    /* when no day changes the score, nothing tells how long a block must be: the longest allowed is */
    out->block = isnan(r1) ? q->days / BOOTSTRAP_BLOCKS_LEAST : (size_t)ceil(bootstrap_block((double)q->days, r1));
    out->block = out->block > 0 ? out->block : 1;
    assert(out->block > 0);
    return q->days < BOOTSTRAP_BLOCKS_LEAST * out->block || find_interval(q, out);
}
