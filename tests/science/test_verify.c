/* Scores against published tables and hand-size cases. SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>

#include "season/verify.h"

static void near(double got, double expected, double tolerance)
{
    if (!(fabs(got - expected) <= tolerance)) {
        fail_msg("%.10g, expected %.10g within %g", got, expected, tolerance);
    }
}

/* Finley's tornado forecasts, 1884, as on the WWRP/WGNE verification pages; accuracy,
 * bias, hit rate, false-alarm ratio, threat, random hits and Peirce stand there (rounded or in
 * words), the other values are computed by us from the definitions. */
static void test_finley(void **state)
{
    const struct verify_table finley = {28, 72, 23, 2680}, never = {0, 0, 51, 2752};
    struct verify_scores s;
    (void)state;
    verify_table_scores(&finley, &s);
    near(s.n, 2803, 0);
    near(s.accuracy, 0.966108, 1e-6);
    near(s.base_rate, 0.018195, 1e-6);
    near(s.bias, 1.960784, 1e-6);
    near(s.hit_rate, 0.549020, 1e-6);
    near(s.false_alarm_ratio, 0.720000, 1e-6);
    near(s.false_alarm_rate, 0.026163, 1e-6);
    near(s.threat, 0.227642, 1e-6);
    near(s.random_hits, 1.819479, 1e-6);
    near(s.gilbert, 0.216046, 1e-6);
    near(s.peirce, 0.522857, 1e-6);
    near(s.heidke, 0.355325, 1e-6);
    near(s.odds_ratio, 45.314010, 1e-6);
    near(s.yule, 0.956817, 1e-6);
    near(s.clayton, 0.271491, 1e-6);
    near(s.sedi, 0.752804, 1e-6);
    verify_table_scores(&never, &s);
    near(s.accuracy, 0.981805, 1e-6);
}

/* Equitable scores give blind callers 0 and perfect ones 1 (same pages). */
static void test_blind_and_perfect(void **state)
{
    const struct verify_table blind[] = {{0, 0, 51, 2752}, {51, 2752, 0, 0}}, perfect = {51, 0, 0, 2752};
    struct verify_scores s;
    (void)state;
    for (int i = 0; i < 2; i++) {
        verify_table_scores(&blind[i], &s);
        near(s.gilbert, 0, 1e-12);
        near(s.heidke, 0, 1e-12);
        near(s.peirce, 0, 1e-12);
    }
    verify_table_scores(&perfect, &s);
    near(s.gilbert, 1, 1e-12);
    near(s.heidke, 1, 1e-12);
    near(s.peirce, 1, 1e-12);
}

static void test_not_defined(void **state)
{
    const struct verify_table quiet = {0, 0, 0, 10}, empty = {0};
    struct verify_scores s;
    (void)state;
    verify_table_scores(&quiet, &s); /* nothing called, nothing happened */
    near(s.accuracy, 1, 0);
    near(s.false_alarm_rate, 0, 0);
    assert_true(isnan(s.hit_rate) && isnan(s.false_alarm_ratio) && isnan(s.bias) && isnan(s.threat));
    assert_true(isnan(s.gilbert) && isnan(s.peirce) && isnan(s.heidke) && isnan(s.odds_ratio) && isnan(s.yule));
    assert_true(isnan(s.clayton) && isnan(s.sedi));
    verify_table_scores(&empty, &s);
    assert_true(isnan(s.accuracy) && isnan(s.base_rate) && isnan(s.random_hits));
}

static void test_table_counts(void **state)
{
    struct verify_table t = {0};
    (void)state;
    verify_table_add(&t, true, true);
    verify_table_add(&t, true, false);
    verify_table_add(&t, true, false);
    for (int i = 0; i < 3; i++) {
        verify_table_add(&t, false, true);
    }
    for (int i = 0; i < 4; i++) {
        verify_table_add(&t, false, false);
    }
    assert_true(t.hits == 1.0 && t.false_alarms == 2.0 && t.misses == 3.0 && t.rejections == 4.0);
}

/* Wilks, Statistical Methods, Table 7.3, through the manual and source of the R package
 * "verification" (whose example types two shares ten times too large); scores computed by us. */
static void test_wilks(void **state)
{
    static const double p[] = {0, .05, .1, .2, .3, .4, .5, .6, .7, .8, .9, 1};
    static const double observed[] = {.006, .019, .059, .150, .277, .377, .511, .587, .723, .779, .934, .933};
    static const double share[] = {.4112, .0671, .1833, .0986, .0616, .0366, .0303, .0275, .0245, .0220, .0170, .0203};
    struct verify_bin bin[12];
    struct verify_brier b;
    (void)state;
    for (int k = 0; k < 12; k++) {
        bin[k] = (struct verify_bin){p[k], share[k], share[k] * observed[k]};
    }
    verify_brier_find(bin, 12, &b);
    near(b.n, 1.0, 1e-9);
    near(b.reliability, 0.000828, 1e-6);
    near(b.resolution, 0.062787, 1e-6);
    near(b.uncertainty, 0.135420, 1e-6);
    near(b.brier, 0.073461, 1e-6);
    near(b.skill, 0.457532, 1e-6);
    near(verify_roc_area(bin, 12), 0.921706, 1e-6);
}

/* Ten cases that can be added up by hand. */
static void test_brier_by_hand(void **state)
{
    static const double p[] = {.1, .1, .1, .1, .1, .5, .5, .5, .5, .9};
    static const bool happened[] = {false, false, false, false, true, false, true, true, false, true};
    struct verify_bin bin[11];
    struct verify_brier b;
    (void)state;
    verify_bins_init(bin, 11);
    for (int i = 0; i < 10; i++) {
        verify_bins_add(bin, 11, p[i], happened[i]);
    }
    assert_true(bin[1].n == 5.0 && bin[1].happened == 1.0 && bin[5].n == 4.0 && bin[9].happened == 1.0);
    verify_brier_find(bin, 11, &b);
    near(b.brier, 0.186, 1e-12);
    near(b.reliability, 0.006, 1e-12);
    near(b.resolution, 0.060, 1e-12);
    near(b.uncertainty, 0.240, 1e-12);
    near(b.brier, b.reliability - b.resolution + b.uncertainty, 1e-12);
    verify_bins_init(bin, 11);
    verify_brier_find(bin, 11, &b);
    assert_true(isnan(b.brier) && isnan(b.skill) && isnan(verify_roc_area(bin, 11)));
    verify_bins_add(bin, 11, 0.0, false);
    verify_brier_find(bin, 11, &b);
    near(b.brier, 0, 0);
    assert_true(isnan(b.skill)); /* it never happened: nothing to be better than */
}

/* Three classes (from memory: Wilks's example); the two values computed by us. */
static void test_rps(void **state)
{
    static const double first[] = {.2, .5, .3}, second[] = {.2, .3, .5}, sure[] = {0, 0, 1};
    (void)state;
    near(verify_rps(first, 3, 0), 0.73, 1e-12);
    near(verify_rps(second, 3, 0), 0.89, 1e-12);
    near(verify_rps(sure, 3, 2), 0.0, 0);
    near(verify_rps(sure, 3, 0), 2.0, 0);
}

/* Members 1 2 4 7 by hand; the ten are the example of a Python package; values computed by
 * us, by direct integration of (F - H)^2 too. */
static void test_crps_members(void **state)
{
    static const double four[] = {1, 2, 4, 7}, ten[] = {2.1, 3.5, 4.7, 1.2, 1.3, 5.2, 5.3, 4.2, 3.1, 1.7};
    (void)state;
    near(verify_crps(four, 4, 3), 0.75, 1e-12);
    near(verify_crps_fair(four, 4, 3), 0.333333, 1e-6);
    near(verify_crps(ten, 10, 5.4), 1.311, 1e-9);
    near(verify_crps_fair(ten, 10, 5.4), 1.215556, 1e-6);
    near(verify_crps(four, 1, 3), 2.0, 0);
    assert_true(isnan(verify_crps_fair(four, 1, 3)) && isnan(verify_crps(four, 0, 3)));
}

/* Computed by us from the closed form of Gneiting & Raftery 2007. */
static void test_crps_normal(void **state)
{
    (void)state;
    near(verify_crps_normal(0, 1, 0), 0.2336949773, 1e-10);
    near(verify_crps_normal(12, 3, 15), 1.8073240729, 1e-10);
    near(verify_crps_normal(12, 0, 15), 3.0, 0);
}

/* CRPS is the integral over all thresholds of (F - H)^2: here by the trapezoid rule. */
static double crps_by_integration(double ln_mean, double ln_sd, double y)
{
    double sum = 0.0, step = 0.002;
    for (double x = step / 2.0; x < 1000.0; x += step) {
        double f = 0.5 * erfc(-(log(x) - ln_mean) / ln_sd / sqrt(2.0)) - (x >= y ? 1.0 : 0.0);
        sum += f * f * step;
    }
    return sum;
}

static void test_crps_ln_normal(void **state)
{
    (void)state;
    near(verify_crps_ln_normal(log(120), 0.10, 131), crps_by_integration(log(120), 0.10, 131), 2e-3);
    near(verify_crps_ln_normal(log(120), 0.36, 60), crps_by_integration(log(120), 0.36, 60), 2e-3);
    near(verify_crps_ln_normal(log(2), 0.36, 0), crps_by_integration(log(2), 0.36, 0), 2e-3);
    near(verify_crps_ln_normal(log(120), 0.0, 131), 11.0, 1e-9);
    /* a narrow ln-normal is a normal distribution */
    near(verify_crps_ln_normal(log(100), 1e-3, 100.2), verify_crps_normal(100, 0.1, 100.2), 1e-3);
}

/* Five pairs by hand; values computed by us. */
static void test_errors(void **state)
{
    static const double f[] = {12, 15, 9, NAN, 20, 14, 3}, o[] = {10, 16, 11, 5, 17, 14, NAN}, flat[] = {3, 3, 3};
    struct verify_errors e;
    (void)state;
    verify_errors_find(f, o, 3, &e);
    near(e.me, -1.0 / 3.0, 1e-12);
    static const double f5[] = {12, 15, 9, 20, 14}, o5[] = {10, 16, 11, 17, 14};
    verify_errors_find(f5, o5, 5, &e);
    near(e.me, 0.4, 1e-12);
    near(e.mae, 1.6, 1e-12);
    near(e.rmse, 1.8973666, 1e-7);
    near(e.r, 0.8678107, 1e-7);
    near(e.nse, 0.5161290, 1e-7);
    static const double f_small[] = {0.12, 0.15, 0.09, 0.20, 0.14}, o_small[] = {0.10, 0.16, 0.11, 0.17, 0.14};
    verify_errors_find(f_small, o_small, 5, &e); /* the same in hundredths */
    near(e.me, 0.004, 1e-12);
    near(e.r, 0.8678107, 1e-7);
    near(e.nse, 0.5161290, 1e-7);
    verify_errors_find(flat, flat, 3, &e);
    near(e.rmse, 0, 0);
    assert_true(isnan(e.r) && isnan(e.nse));
    verify_errors_find(f, o, 0, &e);
    assert_true(e.n == 0 && isnan(e.me) && isnan(e.mae) && isnan(e.rmse) && isnan(e.r));
}

/* A missing value on either side leaves the pair out of every score. */
static void test_errors_with_gaps(void **state)
{
    static const double f[] = {12, 15, 9, NAN, 20, 14, 99}, o[] = {10, 16, 11, 5, 17, 14, NAN};
    struct verify_errors e;
    (void)state;
    verify_errors_find(f, o, 7, &e);
    assert_int_equal(e.n, 5);
    near(e.me, 0.4, 1e-12);
    near(e.rmse, 1.8973666, 1e-7);
    near(e.r, 0.8678107, 1e-7);
    near(e.nse, 0.5161290, 1e-7);
}

/* Hyndman & Fan 1996, type 7; values computed by us. */
static void test_quantile(void **state)
{
    static const double x[] = {1, 2, 4, 7, 11, 16, 22};
    (void)state;
    near(verify_quantile(x, 7, .10), 1.6, 1e-12);
    near(verify_quantile(x, 7, .25), 3.0, 1e-12);
    near(verify_quantile(x, 7, .50), 7.0, 1e-12);
    near(verify_quantile(x, 7, .90), 18.4, 1e-12);
    assert_true(isnan(verify_quantile(x, 0, .5)));
}

/* One side that never varies: no correlation; skill needs observations that vary. */
static void test_errors_without_variation(void **state)
{
    static const double flat[] = {3, 3, 3}, rising[] = {1, 2, 3};
    struct verify_errors e;
    (void)state;
    verify_errors_find(rising, flat, 3, &e);
    assert_true(isnan(e.r) && isnan(e.nse));
    verify_errors_find(flat, rising, 3, &e);
    assert_true(isnan(e.r));
    near(e.nse, 1.0 - 5.0 / 2.0, 1e-12); /* squares 4 + 1 + 0 over 1 + 0 + 1 */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_finley),      cmocka_unit_test(test_blind_and_perfect),
        cmocka_unit_test(test_not_defined), cmocka_unit_test(test_table_counts),
        cmocka_unit_test(test_wilks),       cmocka_unit_test(test_brier_by_hand),
        cmocka_unit_test(test_rps),         cmocka_unit_test(test_crps_members),
        cmocka_unit_test(test_crps_normal), cmocka_unit_test(test_crps_ln_normal),
        cmocka_unit_test(test_errors),      cmocka_unit_test(test_errors_with_gaps),
        cmocka_unit_test(test_quantile),    cmocka_unit_test(test_errors_without_variation),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
