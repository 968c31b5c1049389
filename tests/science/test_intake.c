/* Intake of limited hours against the horse trials. SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <stdio.h>

#include "animal/ration.h"
#include "support/advice_support.h"

static void assert_close(double value, double expected, double tolerance)
{
    if (!(fabs(value - expected) <= tolerance)) {
        fail_msg("%.8g is not %g +- %g", value, expected, tolerance);
    }
}

static double exponent(void)
{
    return support_params()->limits.intake_exponent;
}

/* North Carolina State trial (Glunk & Siciliano, as reported): 500 kg horses took 1.0,
 * 0.75, 0.6 and 0.35 kg DM an hour in 3, 6, 9 and 24 h: 0.60, 0.90, 1.08 and 1.68 % of
 * body weight. The curve, held at 24 h, misses none by more than 6.7 %. */
static void test_four_points(void **state)
{
    (void)state;
    static const double hours[] = {3, 6, 9, 24};
    static const double rate[] = {1.0, 0.75, 0.6, 0.35};        /* kg/h */
    static const double curve[] = {0.594, 0.840, 1.029, 1.680}; /* computed by us */
    double worst = 0.0;
    for (int i = 0; i < 4; i++) {
        double measured = rate[i] * hours[i] / 500.0 * 100.0;
        double model = intake_session(1.68, hours[i], exponent());
        assert_close(model, curve[i], 0.0005);
        worst = fmax(worst, fabs(model / measured - 1.0));
    }
    printf("# intake of limited hours: worst miss %.1f %%\n", 100.0 * worst);
    assert_true(worst < 0.067);
    assert_true(worst > 0.06); /* the 6 h point: a better curve should be noticed */
}

/* Computed by us: 2.5 % a day gives 0.884 % in 3 h, and 0.357 of a day's 1.68 % was
 * measured there; halving the hours takes 29 % off, wherever one starts. */
static void test_short_hours_are_weak(void **state)
{
    (void)state;
    assert_close(intake_session(2.5, 3.0, exponent()), 0.884, 0.0005);
    assert_close(intake_session(1.0, 3.0, exponent()), 0.357, 0.005);
    assert_close(1.0 - intake_session(1.0, 3.0, exponent()) / intake_session(1.0, 6.0, exponent()), 0.29, 0.004);
    assert_close(1.0 - intake_session(1.0, 12.0, exponent()) / intake_session(1.0, 24.0, exponent()), 0.29, 0.004);
    assert_close(intake_session(1.0, 0.0, exponent()), 0.0, 0.0);
    assert_true(isnan(intake_session(1.0, (double)NAN, exponent())));
}

/* Siciliano et al. 2012 (abstract): first against second 4 h of 8 about 2 : 1. The law
 * says 2.41, 21 % more: a known miss, left as it is. */
static void test_known_miss_second_half(void **state)
{
    (void)state;
    double first = intake_session(1.0, 4.0, exponent()) / intake_session(1.0, 8.0, exponent());
    double ratio = first / (1.0 - first);
    printf("# first to second half of 8 h: %.2f, read 2\n", ratio);
    assert_close(ratio, 2.41, 0.01);
}

/* Dowler (thesis, NCSU): 576 kg horses, mean of 8 h: 0.166, 0.088 and 0.108 kg DM per
 * 100 kg and hour in October, February and May: 1.33, 0.70 and 0.86 % of body weight.
 * The curve at the 1.68 % of the other trial says 0.97 %, between them. */
static void test_another_trial(void **state)
{
    (void)state;
    double model = intake_session(1.68, 8.0, exponent());
    assert_true(model > 8.0 * 0.088 && model < 8.0 * 0.166);
    assert_close(model, 8.0 * (0.166 + 0.088 + 0.108) / 3.0, 0.03);
}

/* Ponies, Longland et al. 2016: factor 0.21; horses about -30 % (Glunk et al. 2014, from
 * memory). */
static void test_muzzle(void **state)
{
    (void)state;
    const struct advice_limits *l = &support_params()->limits;
    assert_close(intake_muzzle_factor(l, 250.0), 0.21, 0.0);
    assert_close(intake_muzzle_factor(l, 500.0), 0.70, 0.0);
}

/* Classes whose daily intake sources bound: share of body weight. */
static void test_intake_of_classes(void **state)
{
    (void)state;
    static const struct {
        const char *id;
        double low, high; /* % */
    } row[] = {
        {"horse", 1.5, 2.5},          /* eXtension: pasture, continuous */
        {"pony", 1.8, 3.5},           /* Longland 2021: most reports */
        {"donkey", 1.3, 1.8},         /* veterinary wiki */
        {"sheep-dry", 2.5, 2.5},      /* NCAT ATTRA */
        {"goat-lactating", 3.0, 5.0}, /* Haenlein: refusing below 3; Tarr: mean 5 */
        {"cattle", 2.5, 3.0},         /* NCAT ATTRA */
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const struct animal_class *c = params_animal(support_params(), row[i].id);
        double pct = intake_day(c, 100.0);
        assert_true(pct >= row[i].low && pct <= row[i].high);
    }
    /* acute: no grazing intake, the planning hay of 1.5 % */
    assert_close(intake_day(params_animal(support_params(), "equid-acute"), 300.0), 4.5, 1e-9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_four_points),
        cmocka_unit_test(test_short_hours_are_weak),
        cmocka_unit_test(test_known_miss_second_half),
        cmocka_unit_test(test_another_trial),
        cmocka_unit_test(test_muzzle),
        cmocka_unit_test(test_intake_of_classes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
