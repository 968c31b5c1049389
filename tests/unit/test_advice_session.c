/* The window search against the plain integral and against trying everything.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>

#include "animal/ration.h"
#include "support/advice_support.h"

static struct advice_tables tables;

static int make_tables(void **state)
{
    (void)state;
    advice_tables_make(&support_params()->limits, &tables);
    return 0;
}

static void random_day(unsigned long long *seed, double nsc[24])
{
    double level = 60.0 + 200.0 * advice_random(seed);
    double swing = 60.0 * advice_random(seed);
    double phase = 24.0 * advice_random(seed);
    for (int i = 0; i < 24; i++) {
        nsc[i] = level + swing * sin((i - phase) * 0.2617993878) + 5.0 * advice_random(seed);
    }
}

static double mean_of(const struct session_grass *g, int start, int length)
{
    double mean[SLOTS_DAY];
    session_means(&tables, g, start % SLOTS_HOUR, length, mean);
    return mean[start];
}

/* The table's mean is the integral of animal/intake.c, written apart from it. */
static void test_mean_is_the_integral(void **state)
{
    (void)state;
    unsigned long long seed = 1;
    double p = support_params()->limits.intake_exponent;
    for (int n = 0; n < 3000; n++) {
        double nsc[24];
        struct session_grass g;
        random_day(&seed, nsc);
        session_grass_make(nsc, 1.0, &g);
        int start = (int)(288.0 * advice_random(&seed));
        int length = 1 + (int)(288.0 * advice_random(&seed));
        double direct = intake_session_nsc(nsc, start / 12.0, length / 12.0, p);
        assert_true(fabs(mean_of(&g, start, length) - direct) < 1e-9);
    }
}

/* And the integral is the limit of eating in 20,000 bites. */
static void test_integral_is_the_limit_of_bites(void **state)
{
    (void)state;
    unsigned long long seed = 2;
    for (int n = 0; n < 20; n++) {
        double nsc[24];
        random_day(&seed, nsc);
        double from = 24.0 * advice_random(&seed);
        double hours = 0.5 + 23.5 * advice_random(&seed);
        double eaten = 0.0;
        int bites = 20000;
        for (int b = 0; b < bites; b++) {
            double share = (b + 0.5) / bites; /* of the intake: reached at share^2 of the time */
            double clock = fmod(from + hours * share * share, 24.0);
            int i = (int)clock;
            double before = nsc[(i + 23) % 24];
            eaten += (before + (nsc[i] - before) * (clock - i)) / bites;
        }
        assert_true(fabs(intake_session_nsc(nsc, from, hours, 0.5) - eaten) < 0.01);
    }
}

/* A straight rise of 2 g/kg/h from 100 at midnight, 4 h from 6: the mean time of a
 * bite is a third of the session (p / (p + 1)): 112 + 2 x 4 / 3. */
static void test_straight_rise(void **state)
{
    (void)state;
    double nsc[24];
    for (int i = 0; i < 24; i++) {
        nsc[i] = 100.0 + 2.0 * (i + 1);
    }
    assert_true(fabs(intake_session_nsc(nsc, 6.0, 4.0, 0.5) - (112.0 + 8.0 / 3.0)) < 1e-9);
}

static void test_bound_is_below_every_practical_window(void **state)
{
    (void)state;
    unsigned long long seed = 3;
    for (int n = 0; n < 400; n++) {
        double nsc[24];
        struct session_grass g;
        random_day(&seed, nsc);
        session_grass_make(nsc, 1.3, &g);
        int length = 6 * (1 + (int)(47.0 * advice_random(&seed)));
        double bound = session_lower_bound(&tables, &g, length);
        assert_true(g.lowest <= bound + 0.5 * g.steepest + 1e-9);
        for (int s = 0; s < SLOTS_DAY; s++) {
            assert_true(!session_is_practical(&tables, s, length) || bound <= mean_of(&g, s, length) + 1e-9);
        }
    }
}

/* Whatever the step between starts: of all practical windows the best is the lowest, or as good
 * and nearer to dawn. */
static void test_best_is_trying_every_window(void **state)
{
    (void)state;
    static const int step[] = {1, 2, 5, 6, 12};
    unsigned long long seed = 4;
    for (int n = 0; n < 500; n++) {
        struct advice_tables other = tables;
        double nsc[24], mean, lowest = HUGE_VAL;
        struct session_grass g;
        int length = 6 * (1 + (int)(46.0 * advice_random(&seed)));
        other.window_step = step[n % 5];
        random_day(&seed, nsc);
        session_grass_make(nsc, 1.0, &g);
        for (int s = 0; s < SLOTS_DAY; s += other.window_step) {
            double of = session_is_practical(&other, s, length) ? mean_of(&g, s, length) : HUGE_VAL;
            lowest = of < lowest ? of : lowest;
        }
        int best = session_best(&other, &g, length, 72, 0.0, 1000.0, &mean);
        assert_true(best < 0 ? lowest >= HUGE_VAL : best % other.window_step == 0);
        assert_true(best < 0 || (fabs(mean - lowest) < 1e-12 && fabs(mean_of(&g, best, length) - mean) < 1e-12));
        assert_true(best < 0 || session_is_practical(&other, best, length));
    }
}

/* Both ends from 5:00 to 21:00; of equal windows the one nearest dawn; of unequal
 * ones the poorest. */
static void test_windows(void **state)
{
    (void)state;
    struct session_grass g;
    double nsc[24];
    double mean;
    for (int i = 0; i < 24; i++) {
        nsc[i] = 120.0;
    }
    session_grass_make(nsc, 1.0, &g);
    assert_int_equal(session_best(&tables, &g, 3 * 12, 5 * 12 + 2, 0.5, 200.0, &mean), 5 * 12 + 2);
    assert_int_equal(session_best(&tables, &g, 3 * 12, 2 * 12, 0.5, 200.0, &mean), 5 * 12);
    assert_true(fabs(mean - 120.0) < 1e-9);
    nsc[14] = 60.0; /* 15:00, a gap in the sugar */
    session_grass_make(nsc, 1.0, &g);
    int start = session_best(&tables, &g, 12, 5 * 12, 0.0, 200.0, &mean);
    assert_true(start > 13 * 12 && start < 16 * 12 && mean < 90.0);
    /* within the tie the one near dawn wins, unless it is over what is allowed */
    assert_int_equal(session_best(&tables, &g, 12, 5 * 12, 100.0, 200.0, &mean), 5 * 12);
    assert_int_equal(session_best(&tables, &g, 12, 5 * 12, 100.0, 90.0, &mean) / 12 >= 13, 1);
    for (int length = 6; length < SLOTS_DAY; length += 6) {
        start = session_best(&tables, &g, length, 72, 0.5, 200.0, &mean);
        assert_true(start >= 0 && session_is_practical(&tables, start, length));
        assert_true(start % tables.window_step == 0);
    }
}

/* The longest session that fits, found by trying every length and window with the
 * plain integral; returns hours, and the lowest mean of that length. */
static double try_everything(const struct advice_grass *grass, const struct advice_subject *s, double factor)
{
    const struct advice_limits *l = &support_params()->limits;
    double nsc[24];
    double day_kg = s->rules.intake_pct / 100.0 * s->animal.weight_kg;
    double hay = s->animal.hay_nsc_pct * 10.0;
    double limit = 10.0 * fmax(s->rules.nsc_caution_pct, s->animal.hay_nsc_pct);
    double mean = 0.0;
    for (int i = 0; i < 24; i++) {
        nsc[i] = factor * grass->nsc[i];
        mean += nsc[i] / 24.0;
    }
    if (s->rules.max_hours >= 24.0 && s->animal.hay_nsc_pct <= s->rules.nsc_caution_pct && mean <= limit &&
        mean * day_kg <= l->equid_nsc_day_g_kg * s->animal.weight_kg) {
        return 24.0;
    }
    for (double h = fmin(23.5, s->rules.max_hours); h > 0.0; h -= 0.5) {
        double share = sqrt(h / 24.0);
        for (int w = 30; w <= 126; w++) {
            double from = w / 6.0;
            double to = fmod(from + h, 24.0);
            if (to < 5.0 - 1e-9 || to > 21.0 + 1e-9) {
                continue;
            }
            double ration = hay + share * (intake_session_nsc(nsc, from, h, 0.5) - hay);
            if (ration <= limit + 1e-7 && ration * day_kg <= l->equid_nsc_day_g_kg * s->animal.weight_kg + 1e-7) {
                return h;
            }
        }
    }
    return 0.0;
}

static void test_search_is_trying_everything(void **state)
{
    (void)state;
    static const char *const classes[] = {"equid-laminitis-history", "equid-at-risk", "pony", "horse",
                                          "mare-lactating"};
    static const double z[] = {0.8416212, 0.5244005, 0.0, 0.0, 0.0}; /* normal quantiles */
    unsigned long long seed = 4;
    int timed = 0;
    for (int n = 0; n < 150; n++) {
        struct advice_subject s;
        struct advice a;
        struct advice_grass g = advice_flat_grass(0.0);
        advice_subject(&s, classes[n % 5]);
        random_day(&seed, g.nsc);
        g.ln_sd = 0.36;
        s.animal.hay_nsc_pct = 7.0 + 8.0 * advice_random(&seed);
        advise_with(&tables, &g, &s.animal, &support_params()->limits, &a);
        double expected = try_everything(&g, &s, exp(0.36 * z[n % 5]));
        if (expected > 1.0) {
            timed++;
            assert_true(a.hours == expected);
        } else {
            assert_true(a.hours <= 1.0 && a.hours >= expected);
        }
    }
    assert_true(timed > 50);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_mean_is_the_integral),
        cmocka_unit_test(test_integral_is_the_limit_of_bites),
        cmocka_unit_test(test_straight_rise),
        cmocka_unit_test(test_bound_is_below_every_practical_window),
        cmocka_unit_test(test_best_is_trying_every_window),
        cmocka_unit_test(test_windows),
        cmocka_unit_test(test_search_is_trying_everything),
    };
    return cmocka_run_group_tests(tests, make_tables, NULL);
}
