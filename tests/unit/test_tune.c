/* Shrinkage of grass tests: closed forms, robustness, invariants. Where nothing else is
 * said a value is "computed by us" by another way than the program's: the closed form by
 * hand, or GSL's weighted least squares with the prior as a row of its own.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <gsl/gsl_multifit.h>
#include <math.h>

#include "season/tune.h"
#include "support/advice_support.h"

#define NEAR(a, b, within) assert_true(fabs((a) - (b)) <= (within))

static const struct tune_limits limits = {.level = 0.3,
                                          .rest = 0.18,
                                          .laboratory = 0.1,
                                          .sample = 0.07,
                                          .hour = 0.1,
                                          .year = 0.15,
                                          .huber = 1.5,
                                          .doubtful = 2.5,
                                          .usual = 1.645,
                                          .factor_low = 0.5,
                                          .factor_high = 2.0,
                                          .cover = 0.35,
                                          .height = 0.2};

static struct arena arena;

static struct tune_fit fit_of(const struct tune_test *t, size_t n)
{
    struct tune_fit fit;
    assert_true(tune_fit(t, n, &limits, &arena, &fit));
    return fit;
}

static double noise(unsigned long long *seed) /* mean 0, sd 1, within 1.73 */
{
    return (advice_random(seed) - 0.5) * sqrt(12.0);
}

/* Prior N(0, 0.3^2), sigma 0.2, y .25 .45 .35: computed by us from the closed form v = 1/(1/tau^2 + n/sigma^2). */
static void test_table(void **state)
{
    static const struct tune_test t[] = {{0.25, 0.2, false}, {0.45, 0.2, false}, {0.35, 0.2, false}};
    static const double theta[] = {0.0, 0.173077, 0.286364, 0.304839}, sd[] = {0.3, 0.166410, 0.127920, 0.107763};
    (void)state;
    for (size_t n = 0; n <= 3; n++) {
        struct tune_level plain = tune_level_of(t, n, n, 0.3, INFINITY), robust = tune_level_of(t, n, n, 0.3, 1.5);
        NEAR(plain.theta, theta[n], 5e-7);
        NEAR(plain.sd, sd[n], 5e-7);
        NEAR(robust.theta, theta[n], 5e-7); /* every residual is within 1.5 sigma */
        NEAR(robust.sd, sd[n], 5e-7);
    }
    NEAR(exp(fit_of(t, 3).theta), 1.356, 5e-4);
}

/* By hand: y 0.2 to 0.1 and 0.4 to 0.2 weigh 10 and 5. Uncorrected (2 + 2)/15; by the other test alone, 0.4 x 25/36.11
 * = 0.2769 and 0.2 x 100/111.1 = 0.18, the errors are 0.0769 and 0.22: a sure test counts more than a doubtful one. */
static void test_sure_tests_weigh_more(void **state)
{
    static const struct tune_test t[] = {{0.2, 0.1, false}, {0.4, 0.2, false}};
    (void)state;
    struct tune_fit fit = fit_of(t, 2);
    NEAR(fit.before, 4.0 / 15.0, 1e-9);
    NEAR(fit.after, 0.124615, 5e-7);
    assert_false(fit.off);
}

/* GSL with the prior of parameter j as a row (0 .. 1 .. 0), value m0, weight 1/tau^2. */
static void by_gsl(const double *x, const double *y, const double *sd, size_t n, size_t p, const double *mean,
                   const double *tau, double *theta, double *cov)
{
    gsl_matrix *a = gsl_matrix_calloc(n + p, p), *c = gsl_matrix_alloc(p, p);
    gsl_vector *v = gsl_vector_alloc(n + p), *w = gsl_vector_alloc(n + p), *found = gsl_vector_alloc(p);
    gsl_multifit_linear_workspace *work = gsl_multifit_linear_alloc(n + p, p);
    double chi;
    for (size_t i = 0; i < n + p; i++) {
        for (size_t j = 0; j < p; j++) {
            gsl_matrix_set(a, i, j, i < n ? x[i * p + j] : i - n == j ? 1.0 : 0.0);
        }
        gsl_vector_set(v, i, i < n ? y[i] : mean[i - n]);
        gsl_vector_set(w, i, i < n ? 1.0 / (sd[i] * sd[i]) : 1.0 / (tau[i - n] * tau[i - n]));
    }
    assert_int_equal(gsl_multifit_wlinear(a, w, v, found, c, &chi, work), 0);
    for (size_t j = 0; j < p; j++) {
        theta[j] = gsl_vector_get(found, j);
        for (size_t k = 0; k < p; k++) {
            cov[j * p + k] = gsl_matrix_get(c, j, k);
        }
    }
    gsl_multifit_linear_free(work);
    gsl_vector_free(v);
    gsl_vector_free(w);
    gsl_vector_free(found);
    gsl_matrix_free(a);
    gsl_matrix_free(c);
}

/* The same by one test after the other: Kalman with identity dynamics. */
static void by_steps(const double *x, const double *y, const double *sd, size_t n, size_t p, double *theta, double *cov)
{
    for (size_t i = 0; i < n; i++) {
        double px[2] = {0.0, 0.0}, s = sd[i] * sd[i], miss = y[i];
        for (size_t j = 0; j < p; j++) {
            for (size_t k = 0; k < p; k++) {
                px[j] += cov[j * p + k] * x[i * p + k];
            }
            s += x[i * p + j] * px[j];
            miss -= x[i * p + j] * theta[j];
        }
        for (size_t j = 0; j < p; j++) {
            theta[j] += px[j] / s * miss;
            for (size_t k = 0; k < p; k++) {
                cov[j * p + k] -= px[j] * px[k] / s;
            }
        }
    }
}

/* The two yardsticks against numbers computed by us from the closed form: level and slope, m0 (0, 1), tau (.3, .25),
 * sigma .2. */
static void test_yardsticks(void **state)
{
    static const double x[] = {1, -.4, 1, 0, 1, .3, 1, .5, 1, -.1}, y[] = {.10, .35, .55, .60, .20};
    static const double sd[] = {.2, .2, .2, .2, .2}, mean[] = {0, 1}, tau[] = {.3, .25};
    static const double after[5][2] = {
        {.321429, .910714}, {.334158, .917079}, {.316309, .895091}, {.284918, .834239}, {.284633, .834444}};
    double theta[2], cov[4], step[2] = {0, 1}, p[4] = {.09, 0, 0, .0625};
    (void)state;
    by_gsl(x, y, sd, 5, 2, mean, tau, theta, cov);
    NEAR(theta[0], 0.284633, 5e-7);
    NEAR(theta[1], 0.834444, 5e-7);
    NEAR(sqrt(cov[0]), 0.086337, 5e-7);
    NEAR(sqrt(cov[3]), 0.187856, 5e-7);
    NEAR(cov[1], -0.001945, 5e-7);
    for (size_t i = 0; i < 5; i++) {
        by_steps(&x[2 * i], &y[i], &sd[i], 1, 2, step, p);
        NEAR(step[0], after[i][0], 5e-7);
        NEAR(step[1], after[i][1], 5e-7);
    }
}

static void test_against_yardsticks(void **state)
{
    unsigned long long seed = 7;
    (void)state;
    for (size_t n = 1; n <= 12; n++) {
        struct tune_test t[12];
        double x[12], y[12], sd[12], mean = 0.0, tau = 0.31, theta, cov, step = 0.0, p = tau * tau;
        for (size_t i = 0; i < n; i++) {
            x[i] = 1.0;
            sd[i] = 0.15 + 0.3 * advice_random(&seed);
            y[i] = 0.2 + 0.5 * sd[i] * noise(&seed);
            t[i] = (struct tune_test){y[i], sd[i], false};
        }
        struct tune_level level = tune_level_of(t, n, n, tau, INFINITY);
        by_gsl(x, y, sd, n, 1, &mean, &tau, &theta, &cov);
        by_steps(x, y, sd, n, 1, &step, &p);
        NEAR(level.theta, theta, 1e-12);
        NEAR(level.sd, sqrt(cov), 1e-12);
        NEAR(level.theta, step, 1e-12);
        NEAR(level.sd, sqrt(p), 1e-12);
    }
}

static void test_prior_and_least_squares(void **state)
{
    static const struct tune_test t[] = {{0.1, 0.2, false}, {0.5, 0.1, false}, {-0.2, 0.4, false}};
    double ols = (0.1 / 0.04 + 0.5 / 0.01 - 0.2 / 0.16) / (1 / 0.04 + 1 / 0.01 + 1 / 0.16);
    (void)state;
    assert_true(tune_level_of(t, 3, 3, 0.0, 1.5).theta == 0.0);
    NEAR(tune_level_of(t, 3, 3, 1e-6, 1.5).theta, 0.0, 1e-9);
    NEAR(tune_level_of(t, 3, 3, 1e6, INFINITY).theta, ols, 1e-9);
    NEAR(tune_level_of(t, 3, 3, INFINITY, INFINITY).theta, ols, 1e-12);
    struct tune_fit none = fit_of(t, 0);
    assert_true(none.theta == 0.0 && none.sd == limits.level && !none.off && isnan(none.before));
}

/* Robustness: the move that one test more makes is at most that of a lone test. */
static void test_no_test_moves_more_than_alone(void **state)
{
    unsigned long long seed = 3;
    (void)state;
    for (int k = 0; k < 500; k++) {
        struct tune_test t[6];
        size_t n = 1 + (size_t)(5.0 * advice_random(&seed));
        for (size_t i = 0; i < n; i++) {
            t[i] = (struct tune_test){1.5 * noise(&seed), 0.1 + 0.5 * advice_random(&seed), advice_random(&seed) < 0.2};
        }
        const struct tune_test *last = &t[n - 1];
        double before = tune_level_of(t, n - 1, n, 0.31, 1.5).theta, after = tune_level_of(t, n, n, 0.31, 1.5).theta;
        double alone = 0.31 * 0.31 / (0.31 * 0.31 + last->sd * last->sd);
        assert_true(fabs(after - before) <= alone * fabs(last->y - before) + 1e-12);
        assert_true(fabs(after - before) <= 0.31 * 0.31 * 1.5 / last->sd + 1e-12); /* and bounded whatever it says */
    }
}

static void test_outlier(void **state)
{
    static const struct tune_test t[] = {
        {0.30, 0.2, false}, {0.25, 0.2, false}, {0.35, 0.2, false}, {0.28, 0.2, false}, {-1.6, 0.2, false}};
    (void)state;
    double without = tune_level_of(t, 5, 4, 0.3, 1.5).theta, robust = tune_level_of(t, 5, 5, 0.3, 1.5).theta;
    double plain = tune_level_of(t, 5, 5, 0.3, INFINITY).theta;
    assert_true(without - robust < 0.25 * (without - plain)); /* it pulls, but not for all it is worth */
    assert_true(robust > 0.15 && plain < 0.0);
    struct tune_fit fit = fit_of(t, 5);
    assert_false(fit.off);
    NEAR(fit.theta, robust, 1e-12); /* which sorts the tests first */
    assert_true(fit.after < fit.before);
    /* tests that disagree by more than their errors leave a wider spread, never above the prior's */
    assert_true(fit.sd > tune_level_of(t, 5, 4, 0.3, 1.5).sd && fit.sd <= 0.3);
}

/* A Huber estimate where every test but one is beyond: theta/tau^2 = sum of +-1.5/sigma, by hand. */
static void test_huber_by_hand(void **state)
{
    static const struct tune_test t[] = {{2.0, 0.2, false}};
    struct tune_level level = tune_level_of(t, 1, 1, 0.3, 1.5);
    (void)state;
    NEAR(level.theta, 0.09 * 1.5 / 0.2, 1e-12); /* 0.675 */
    NEAR(level.sd, 1.0 / sqrt(1.0 / 0.09 + (1.5 * 0.2 / (2.0 - 0.675)) / 0.04), 1e-12);
}

static void test_cap(void **state)
{
    static const struct tune_test rich[] = {
        {1.6, 0.1, false}, {1.5, 0.1, false}, {1.55, 0.1, false}, {1.6, 0.1, false}};
    (void)state;
    struct tune_fit fit = fit_of(rich, 4);
    assert_true(fit.capped && fit.found > log(2.0));
    NEAR(exp(fit.theta), 2.0, 1e-12);
    assert_true(fit.sd >= fmin(0.3, fit.found - fit.theta)); /* what the cap cut off is doubt */
}

static void test_below(void **state)
{
    static const struct tune_test under[] = {{-0.4, 0.4, true}}, agrees[] = {{0.3, 0.4, true}},
                                  plain[] = {{-0.4, 0.4, false}};
    (void)state;
    assert_true(tune_level_of(under, 1, 1, 0.3, 1.5).theta == tune_level_of(plain, 1, 1, 0.3, 1.5).theta);
    struct tune_level level = tune_level_of(agrees, 1, 1, 0.3, 1.5);
    NEAR(level.theta, 0.0, 1e-15);
    NEAR(level.sd, 0.3, 1e-15); /* under the limit already: nothing is learnt */
    NEAR(tune_test_sd(&limits, 0.18, true, 0.0, true), 2.0 * tune_test_sd(&limits, 0.18, true, 0.0, false), 1e-15);
}

/* All 720 orders of six tests give the same bits. */
static void permute(struct tune_test *t, size_t from, const struct tune_fit *want)
{
    if (from == 6) {
        struct tune_fit fit = fit_of(t, 6);
        assert_true(fit.theta == want->theta && fit.sd == want->sd && fit.before == want->before);
        assert_true(fit.after == want->after && fit.off == want->off && fit.capped == want->capped);
        return;
    }
    for (size_t i = from; i < 6; i++) {
        struct tune_test kept = t[from];
        t[from] = t[i];
        t[i] = kept;
        permute(t, from + 1, want);
        t[i] = t[from];
        t[from] = kept;
    }
}

static void test_order(void **state)
{
    struct tune_test t[] = {{0.3, 0.2, false},  {0.3, 0.25, false}, {0.11, 0.2, true},
                            {-0.9, 0.2, false}, {0.4, 0.3, false},  {0.27, 0.17, false}};
    struct tune_fit want = fit_of(t, 6);
    (void)state;
    permute(t, 0, &want);
}

/* Two tests that say nothing new, or opposite things, or that the model is right. */
static void test_switched_off(void **state)
{
    static const struct tune_test opposed[] = {{0.6, 0.2, false}, {-0.5, 0.2, false}},
                                  right[] = {{0.02, 0.2, false}, {-0.03, 0.2, false}, {0.01, 0.2, false}};
    (void)state;
    struct tune_fit a = fit_of(opposed, 2), b = fit_of(right, 3);
    assert_true(a.off && a.theta == 0.0 && a.after >= a.before);
    assert_true(a.sd > 0.9 * limits.level); /* tests at odds buy nothing */
    assert_true(b.theta == 0.0 && b.off);
    NEAR(b.sd, 0.107763, 1e-3); /* a model found right is trusted as if it had been corrected: the table above */
}

/* The spread falls with each test that agrees, from the prior's down. */
static void test_sd_falls(void **state)
{
    struct tune_test t[20];
    double last = limits.level;
    (void)state;
    for (size_t n = 1; n <= 20; n++) {
        t[n - 1] = (struct tune_test){n % 2 ? 0.22 : 0.28, 0.22, false};
        struct tune_fit fit = fit_of(t, n);
        assert_true(fit.sd < last && !fit.off);
        last = fit.sd;
    }
}

static void test_errors_and_levels(void **state)
{
    static const struct advice_limits advice = {.spread_paddock = 0.36};
    struct tuning t = {.sd = 0.3};
    (void)state;
    NEAR(tune_test_sd(&limits, 0.18, true, 0.0, false), sqrt(0.01 + 0.0049 + 0.0324), 1e-12);
    NEAR(tune_test_sd(&limits, 0.18, false, 0.0, false), sqrt(0.01 + 0.0049 + 0.0324 + 0.01), 1e-12);
    NEAR(tune_test_sd(&limits, 0.18, true, 2.0, false), sqrt(0.01 + 0.0049 + 0.0324 + 2 * 0.0225), 1e-12);
    assert_true(tune_spread(&advice, &limits, &t) == 0.36); /* no tests, whatever else stands there */
    t.tests = 1;
    NEAR(tune_spread(&advice, &limits, &t), hypot(0.3, 0.18), 1e-12);
    t.sd = 0.0;
    NEAR(tune_spread(&advice, &limits, &t), 0.18, 1e-12); /* the floor */
    t.sd = 0.9;
    assert_true(tune_spread(&advice, &limits, &t) == 0.36);
    NEAR(tune_cover_gain(&limits), 0.1225 / 0.1625, 1e-12);
}

static void test_modelled(void **state)
{
    struct sward_result day = {.nsc_mean = 150.0, .wsc = 120.0};
    (void)state;
    for (int h = 0; h < 24; h++) {
        day.nsc_hour[h] = 100.0 + h; /* at the end of the hour: 100 at 1:00 */
    }
    NEAR(tune_modelled(&day, TUNE_NSC, 9.0), 108.0, 1e-9);
    NEAR(tune_modelled(&day, TUNE_NSC, 9.5), 108.5, 1e-9);
    NEAR(tune_modelled(&day, TUNE_NSC, 0.2), 100.0, 1e-9);
    for (int h = 1; h < 24; h++) {
        NEAR(tune_modelled(&day, TUNE_NSC, h + 0.25), 99.25 + h, 1e-9);
    }
    NEAR(tune_modelled(&day, TUNE_NSC, 24.0), 123.0, 1e-9);
    NEAR(tune_modelled(&day, TUNE_NSC, NAN), 150.0, 1e-9);
    NEAR(tune_modelled(&day, TUNE_WSC, NAN), 120.0, 1e-9);
    NEAR(tune_modelled(&day, TUNE_WSC, 9.0), 0.8 * 108.0, 1e-9);
}

/* What the shipped numbers mean: one laboratory test at a known hour brings the spread to
 * spread_tested, as the outlook promises (both our judgement; they must not drift apart). */
static void test_shipped(void **state)
{
    static struct params params;
    struct err e = {0};
    (void)state;
    assert_int_equal(params_load("models", &arena, &params, &e), ERR_OK);
    const struct tune_limits *l = &params.tune;
    struct tune_test t = {0.0, tune_test_sd(l, l->rest, true, 0.0, false), false};
    struct tune_level level = tune_level_of(&t, 1, 1, l->level, l->huber);
    struct tuning tuned = {.theta = level.theta, .sd = level.sd, .tests = 1};
    NEAR(hypot(l->level, l->rest), params.limits.spread_paddock, 0.005);
    NEAR(tune_spread(&params.limits, l, &tuned), params.limits.spread_tested, 0.01);
}

/* Nothing holds the level, and nothing tells of it: it is the model's. */
static void test_no_tests_and_no_prior(void **state)
{
    (void)state;
    assert_true(tune_level_of(NULL, 0, 0, INFINITY, 1.5).theta == 0.0);
    assert_true(tune_level_of(NULL, 0, 0, 0.3, 1.5).theta == 0.0);
    assert_true(tune_level_of(NULL, 0, 0, 0.3, 1.5).sd == 0.3);
    assert_true(tune_level_of(NULL, 0, 0, 0.0, 1.5).sd == 0.0);
}

/* By hand: 0.3 and 0.4 make 0.5, so a test of error 0.4 is doubtful from ln-distances over 1.25 on. */
static void test_doubtful(void **state)
{
    (void)state;
    const struct tune_fit within = {.theta = 0.4, .found = 0.4},
                          over = {.theta = log(2.0), .found = 0.8, .capped = true},
                          under = {.theta = -log(2.0), .found = -0.8, .capped = true};
    static const struct tune_test far = {1.26, 0.4, false}, near = {1.24, 0.4, false}, poor = {-1.26, 0.4, false},
                                  above_limit = {1.26, 0.4, true}, under_limit = {-1.26, 0.4, true};
    assert_true(tune_doubtful(&far, &within, &limits) && !tune_doubtful(&near, &within, &limits));
    assert_true(tune_doubtful(&poor, &within, &limits));
    assert_true(!tune_doubtful(&above_limit, &within, &limits) && tune_doubtful(&under_limit, &within, &limits));
    /* beyond the cap, the tests that took it there: over twice, or under half */
    static const struct tune_test twice = {0.7, 0.4, false}, less = {0.68, 0.4, false}, half = {-0.7, 0.4, false};
    assert_true(tune_doubtful(&twice, &over, &limits) && !tune_doubtful(&twice, &within, &limits));
    assert_true(!tune_doubtful(&less, &over, &limits) && !tune_doubtful(&half, &over, &limits));
    assert_true(tune_doubtful(&half, &under, &limits) && !tune_doubtful(&twice, &under, &limits));
    /* 1.645 x 0.3 = 0.4935 */
    struct tuning t = {.theta = 0.49, .tests = 1};
    assert_true(!tune_unusual(&t, &limits));
    t.theta = -0.5;
    assert_true(tune_unusual(&t, &limits));
    t.tests = 0;
    assert_true(!tune_unusual(&t, &limits));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_table),
        cmocka_unit_test(test_sure_tests_weigh_more),
        cmocka_unit_test(test_yardsticks),
        cmocka_unit_test(test_against_yardsticks),
        cmocka_unit_test(test_prior_and_least_squares),
        cmocka_unit_test(test_no_test_moves_more_than_alone),
        cmocka_unit_test(test_outlier),
        cmocka_unit_test(test_huber_by_hand),
        cmocka_unit_test(test_cap),
        cmocka_unit_test(test_below),
        cmocka_unit_test(test_order),
        cmocka_unit_test(test_switched_off),
        cmocka_unit_test(test_sd_falls),
        cmocka_unit_test(test_errors_and_levels),
        cmocka_unit_test(test_modelled),
        cmocka_unit_test(test_shipped),
        cmocka_unit_test(test_no_tests_and_no_prior),
        cmocka_unit_test(test_doubtful),
    };
    arena_init(&arena);
    int failed = cmocka_run_group_tests(tests, NULL, NULL);
    arena_release(&arena);
    return failed;
}
