/* Block bootstrap: block lengths, coverage on made-up series, seeds, comparisons.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <math.h>
#include <stdio.h>

#include "season/bootstrap.h"
#include "support/starve.h"

enum { DAYS = 600 };

/* n 100, r1 0.5: n' 33.33, L 7.51 (Wilks 1997, from memory; solved by us). */
static void test_block_length(void **state)
{
    (void)state;
    double l = bootstrap_block(100, 0.5);
    assert_true(fabs(l - 7.51) < 0.005);
    assert_true(fabs(l - pow(100.0 - l + 1.0, 2.0 / 3.0 * (1.0 - 1.0 / 3.0))) < 1e-6);
    assert_true(bootstrap_block(100, 0.0) == 1.0);
    assert_true(bootstrap_block(100, -0.3) == 1.0);
    assert_true(bootstrap_block(100, NAN) == 1.0);
    assert_true(bootstrap_block(1, 0.9) == 1.0);
    assert_true(bootstrap_block(1000, 0.99) < 1000.0);
}

static const size_t all[] = {0, 1, 2};

static double mean(const double *sum)
{
    return sum[1] > 0.0 ? sum[0] / sum[1] : (double)NAN;
}

static double difference(const double *sum)
{
    return (sum[0] - sum[1]) / sum[2];
}

/* x[i] = r x[i-1] + noise, mean 0. */
static void autoregressive(gsl_rng *rng, double r, double term[][2])
{
    double x = gsl_ran_gaussian(rng, 1.0 / sqrt(1.0 - r * r));
    for (int i = 0; i < DAYS; i++) {
        x = r * x + gsl_ran_gaussian(rng, 1.0);
        term[i][0] = x;
        term[i][1] = 1.0;
    }
}

static struct bootstrap_ask ask_for(double term[][2], size_t days)
{
    return (struct bootstrap_ask){&term[0][0], days, 2, all, 2, mean, 0.90, BOOTSTRAP_SEED};
}

/* How often the 90 % interval of a mean holds the true one, 0. Independent days: close to
 * 90 (sampling error of 200 trials: 2 %). With r1 0.5 block resampling is known to fall
 * somewhat short (Wilks 1997); single days would hold it in only about 66 %: 1.645 / sqrt(3)
 * standard errors. */
static double share_covered(double r, size_t *block)
{
    static double term[DAYS][2];
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
    int covered = 0, trials = 200;
    gsl_rng_set(rng, 7);
    for (int i = 0; i < trials; i++) {
        struct bootstrap_interval b;
        autoregressive(rng, r, term);
        const struct bootstrap_ask q = ask_for(term, DAYS);
        assert_true(bootstrap_find(&q, &b));
        covered += b.low <= 0.0 && b.high >= 0.0;
        *block = b.block;
    }
    gsl_rng_free(rng);
    return (double)covered / trials;
}

static void test_coverage(void **state)
{
    size_t block;
    (void)state;
    double independent = share_covered(0.0, &block);
    assert_in_range(block, 1, 3);
    double dependent = share_covered(0.5, &block);
    assert_in_range(block, 12, 24);
    printf("# intervals of 90 %% that hold the true mean: %.1f %% of 200, r1 0.5: %.1f %%\n", 100.0 * independent,
           100.0 * dependent);
    assert_true(independent > 0.84 && independent < 0.96);
    assert_true(dependent > 0.80 && dependent < 0.96);
}

static bool find(struct arena *a, void *ask)
{
    struct bootstrap_interval b;
    (void)a;
    return bootstrap_find(ask, &b);
}

static void test_no_memory_no_interval(void **state)
{
    static double term[DAYS][2];
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
    (void)state;
    autoregressive(rng, 0.3, term);
    gsl_rng_free(rng);
    struct bootstrap_ask q = ask_for(term, DAYS);
    assert_true(starve(find, &q) >= 1);
}

static void test_same_seed_same_interval(void **state)
{
    static double term[DAYS][2];
    struct bootstrap_interval one, two, other;
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
    (void)state;
    autoregressive(rng, 0.3, term);
    gsl_rng_free(rng);
    struct bootstrap_ask q = ask_for(term, DAYS);
    assert_true(bootstrap_find(&q, &one) && bootstrap_find(&q, &two));
    assert_true(one.low == two.low && one.high == two.high);
    assert_true(one.low < one.value && one.value < one.high);
    q.seed++;
    assert_true(bootstrap_find(&q, &other));
    assert_true(other.low != one.low && fabs(other.low - one.low) < 0.05);
}

static double certain(const double *sum)
{
    (void)sum;
    return 1.0;
}

static void test_too_little(void **state)
{
    static double term[DAYS][2];
    struct bootstrap_interval b;
    (void)state;
    for (int i = 0; i < DAYS; i++) {
        term[i][0] = i < DAYS / 2; /* one long spell */
        term[i][1] = 1.0;
    }
    const struct bootstrap_ask spell = ask_for(term, DAYS), few = ask_for(term, 19), none = ask_for(term, 0);
    assert_true(bootstrap_find(&spell, &b));
    assert_true(b.value == 0.5 && isnan(b.low) && isnan(b.high)); /* far from 20 independent blocks */
    assert_true(bootstrap_find(&few, &b));
    assert_true(b.value == 1.0 && isnan(b.low));
    assert_true(bootstrap_find(&none, &b));
    assert_true(isnan(b.value) && isnan(b.low));
    struct bootstrap_ask sure = none;
    sure.score = certain; /* without a day nothing is scored */
    assert_true(bootstrap_find(&sure, &b));
    assert_true(isnan(b.value));
}

/* A score that hardly ever has a denominator: its value stands, an interval does not. */
static void test_rarely_defined(void **state)
{
    static double term[DAYS][2];
    struct bootstrap_interval b;
    (void)state;
    term[100][0] = term[100][1] = 1.0;
    const struct bootstrap_ask q = ask_for(term, DAYS);
    assert_true(bootstrap_find(&q, &b));
    assert_true(b.value == 1.0 && isnan(b.low)); /* a day drawn never: chance 1/e */
    term[100][1] = 0.0;
    assert_true(bootstrap_find(&q, &b));
    assert_true(isnan(b.value) && isnan(b.low));
}

/* Two forecasts with the same large day-to-day luck, one always 0.1 worse: only a paired
 * comparison can tell. */
static void test_paired(void **state)
{
    static double term[DAYS][3];
    struct bootstrap_interval b;
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
    (void)state;
    for (int i = 0; i < DAYS; i++) {
        term[i][0] = gsl_ran_gaussian(rng, 5.0);
        term[i][1] = term[i][0] + 0.1 + gsl_ran_gaussian(rng, 0.2);
        term[i][2] = 1.0;
    }
    gsl_rng_free(rng);
    const struct bootstrap_ask q = {&term[0][0], DAYS, 3, all, 3, difference, 0.90, BOOTSTRAP_SEED};
    assert_true(bootstrap_find(&q, &b));
    assert_true(b.high < 0.0 && b.low > -0.2);
    assert_true(b.high - b.low < 0.06); /* 2 x 1.645 x 0.2 / sqrt(600) = 0.027 */
}

static double days_of(const double *sum)
{
    return sum[0];
}

/* Blocks that do not come out even with the days: the last one is cut, and as many days are drawn. */
static void test_as_many_days_are_drawn(void **state)
{
    static double term[DAYS][2];
    static const size_t count[] = {1};
    struct bootstrap_interval b;
    (void)state;
    for (int i = 0; i < DAYS; i++) {
        term[i][1] = 1.0;
    }
    const struct bootstrap_ask q = {&term[0][0], DAYS - 7, 2, count, 1, days_of, 0.90, BOOTSTRAP_SEED};
    assert_true(bootstrap_find(&q, &b));
    assert_int_equal(b.block, (DAYS - 7) / BOOTSTRAP_BLOCKS_LEAST); /* no day changes it: the longest allowed */
    assert_true((DAYS - 7) % b.block != 0);
    assert_true(b.value == DAYS - 7 && b.low == DAYS - 7 && b.high == DAYS - 7);
}

static double less_tenfold(const double *sum)
{
    return sum[0] - 10.0 * sum[1];
}

/* What cancels but for the rounding tells nothing of how days follow each other: blocks are the longest allowed. */
static void test_rounding_is_no_influence(void **state)
{
    static double term[DAYS][2];
    static const size_t both[] = {0, 1};
    struct bootstrap_interval b;
    (void)state;
    for (int i = 0; i < DAYS; i++) {
        term[i][0] = 10.0 * (1.0 + i % 7 / 3.0);
        term[i][1] = 1.0 + i % 7 / 3.0;
    }
    const struct bootstrap_ask q = {&term[0][0], DAYS, 2, both, 2, less_tenfold, 0.90, BOOTSTRAP_SEED};
    assert_true(bootstrap_find(&q, &b));
    assert_true(fabs(b.value) < 1e-9);
    assert_int_equal(b.block, DAYS / BOOTSTRAP_BLOCKS_LEAST);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_block_length),
        cmocka_unit_test(test_coverage),
        cmocka_unit_test(test_too_little),
        cmocka_unit_test(test_no_memory_no_interval),
        cmocka_unit_test(test_same_seed_same_interval),
        cmocka_unit_test(test_rarely_defined),
        cmocka_unit_test(test_paired),
        cmocka_unit_test(test_as_many_days_are_drawn),
        cmocka_unit_test(test_rounding_is_no_influence),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
