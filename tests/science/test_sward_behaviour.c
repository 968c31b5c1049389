/* How the sward must behave, whatever its numbers: signs, orders and hours. The
 * expectations are those of models/METHOD.md; where a paper stands behind one it is
 * named. SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/sward_support.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#define COUNT(table) (sizeof(table) / sizeof(table)[0])

static void check_below(const char *what, double a, double b)
{
    if (!(a < b)) {
        fail_msg("%s: %g is not below %g", what, a, b);
    }
}

/* The reference day of May with changes. */
static struct held_day may(double tmin, double tmax, double rad, double sink)
{
    struct held h = support_held("ryegrass", 170, 2.5, sink, 1.5, 0.12);
    struct sward_day d = support_day(tmin, tmax, rad, 52, 135);
    return support_hold_days(&h, &d, 25);
}

static void test_drivers(void **state)
{
    (void)state;
    double usual = may(7, 16, 17, 1.22).mean;
    /* computed by us: size of each change of the daily mean, g/kg */
    const struct {
        const char *what;
        double got, change;
    } rows[] = {
        {"night -3 C", may(4, 16, 17, 1.22).mean, 16},       {"night +3 C", may(10, 16, 17, 1.22).mean, -14},
        {"all -3 C", may(4, 13, 17, 1.22).mean, 32},         {"all +3 C", may(10, 19, 17, 1.22).mean, -25},
        {"light +5", may(7, 16, 22, 1.22).mean, 20},         {"light -5", may(7, 16, 12, 1.22).mean, -29},
        {"half light", may(7, 16, 8.5, 1.22).mean, -59},     {"nitrogen x 0.75", may(7, 16, 17, 0.915).mean, 35},
        {"nitrogen x 1.25", may(7, 16, 17, 1.525).mean, -27}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        if (fabs(rows[i].got - usual - rows[i].change) > 2.5) {
            fail_msg("%s: changes the mean by %g, expected %g", rows[i].what, rows[i].got - usual, rows[i].change);
        }
    }
}

static void test_one_night(void **state)
{
    (void)state;
    struct held dull = support_held("ryegrass", 170, 2.5, 1.22, 1.5, 0.157), clear = dull;
    struct sward_day usual = support_day(7, 16, 17, 52, 135);
    struct sward_day warm_dull = support_day(12, 16, 8, 52, 135), cold_clear = support_day(1, 16, 22, 52, 135);
    double before = support_hold_days(&dull, &usual, 5).end;
    clear.sugar = dull.sugar;
    check_below("dawn after a warm dull day", support_hold(&dull, &warm_dull, 13).end, before - 5);
    check_below("dawn before a cold clear day", before, support_hold(&clear, &cold_clear, 9).end);
}

static void test_swing(void **state)
{
    (void)state;
    struct held_day cold = may(2, 16, 17, 1.22), usual = may(7, 16, 17, 1.22), warm = may(12, 16, 17, 1.22);
    check_below("swing with cold nights", cold.max - cold.min, usual.max - usual.min);
    check_below("swing with usual nights", usual.max - usual.min, warm.max - warm.min);
}

/* Minimum near sunrise, maximum 0-3 h before sunset (rows 36-51: McIntosh, from memory). */
static void test_hours(void **state)
{
    (void)state;
    static const int days[] = {80, 110, 135, 172, 200, 240, 270, 290};
    for (size_t i = 0; i < COUNT(days); i++) {
        struct held h = support_held("ryegrass", 170, 2.5, 0.9, 1, 0.12);
        struct sward_day d = support_day(8, 17, 12, 52, days[i]);
        struct held_day got = support_hold_days(&h, &d, 25);
        double rise = 12 - d.day_length_h / 2, set = 12 + d.day_length_h / 2;
        assert_true(fabs(got.hour_min - rise) <= 2);
        assert_true(got.hour_max <= set + 1 && got.hour_max >= set - 3);
    }
}

static void test_species(void **state)
{
    (void)state;
    static const char *const rising[] = {"cocksfoot", "meadow-grass", "tall-fescue", "ryegrass", "ryegrass-high-sugar"};
    double before = 0;
    struct sward_day d = support_day(12, 24, 19, 45, 196);
    for (size_t i = 0; i < COUNT(rising); i++) { /* Salo 1965, Jensen et al. 2014, Kagan et al. 2022 */
        struct held h = support_held(rising[i], 170, 2.5, 0.81, 1, 0.12);
        double mean = support_hold_days(&h, &d, 25).mean;
        check_below(rising[i], before, mean);
        before = mean;
    }
    struct held ryegrass = support_held("ryegrass", 170, 2.5, 0.81, 1, 0.12);
    struct held c4 = support_held("bermuda", 170, 2.5, 0.6, 1, 0.12);
    struct held clover = support_held("white-clover", 170, 2.5, 1, 1, 0.12);
    double grass = support_hold_days(&ryegrass, &d, 25).mean;
    check_below("bermudagrass on a summer day", support_hold_days(&c4, &d, 25).mean, grass); /* Jensen et al. 2014 */
    check_below("white clover on a summer day", support_hold_days(&clover, &d, 25).mean, grass);
}

static void test_winter(void **state)
{
    (void)state;
    struct held thin = support_held("ryegrass", 60, 0.6, 0.71, 1, 0.12);
    struct held november = support_held("ryegrass", 170, 2.5, 0.71, 1, 0.12);
    struct sward_day dull = support_day(3, 8, 2, 53, 15), clear = support_day(-2, 7, 5, 52, 320);
    check_below("thin dull midwinter sward", support_hold_days(&thin, &dull, 40).mean,
                0.5 * support_hold_days(&november, &clear, 25).mean);
}

static void test_shade(void **state)
{
    (void)state;
    struct held open = support_held("ryegrass", 170, 2.5, 1.22, 1.5, 0.157), shaded;
    struct sward_day light = support_day(7, 16, 17, 52, 135), dark = support_day(7, 16, 1.7, 52, 135);
    support_hold_days(&open, &light, 10);
    shaded = open;
    check_below("two days under 90 % shade", support_hold_days(&shaded, &dark, 2).mean,
                0.8 * support_hold_days(&open, &light, 2).mean);
}

/* A May sward on moist ground in the middle of its spring phase. */
static struct sward spring_sward(double nitrogen)
{
    struct sward s = support_ryegrass();
    s.st = 600;
    s.soil_t = 12;
    s.water = 1;
    s.nitrogen = nitrogen;
    s.part[0].leaf = 150;
    s.part[0].sugar = 25;
    s.part[0].slow_lai = 2.5;
    return s;
}

static struct sward_result step_day(struct sward *s, double tmin, double tmax, double rad, double rain, double et0)
{
    struct sward_day d = support_day(tmin, tmax, rad, 52, 196);
    struct sward_result r;
    d.rain = rain;
    d.et0 = et0;
    sward_step(s, &d, &r);
    return r;
}

/* Volaire 1994, Volaire et al. 1998: growth stops first and sugar gathers; later it is used up. */
static void test_drought(void **state)
{
    (void)state;
    struct sward dry = spring_sward(1), wet = dry;
    double peak = 0, end = 0;
    bool growth_fell_first = false;
    for (int day = 0; day < 120; day++) {
        struct sward_result d = step_day(&dry, 11, 22, 19, 0, 4), w = step_day(&wet, 11, 22, 19, 6, 4);
        growth_fell_first = growth_fell_first || (d.growth < 0.6 * w.growth && d.assimilated > 0.6 * w.assimilated &&
                                                  d.nsc_mean > 1.1 * w.nsc_mean);
        peak = fmax(peak, d.nsc_mean);
        end = d.nsc_mean;
        if (day == 119) {
            check_below("growth in drought", d.growth, 0.3 * w.growth);
            assert_true(d.drought && d.spread_factor >= 1.25);
            assert_false(w.drought);
        }
        sward_graze_to_cover(&dry, 1800);
        sward_graze_to_cover(&wet, 1800);
    }
    assert_true(growth_fell_first);
    check_below("sugar at the end of the drought", end, 0.85 * peak);
}

static void test_nitrogen(void **state)
{
    (void)state;
    struct sward poor = spring_sward(0.8), rich = spring_sward(1.15);
    double poor_growth = 0, rich_growth = 0, poor_nsc = 0, rich_nsc = 0;
    for (int day = 0; day < 60; day++) {
        struct sward_result p = step_day(&poor, 8, 17, 17, 3, 3), r = step_day(&rich, 8, 17, 17, 3, 3);
        poor_growth += p.growth;
        rich_growth += r.growth;
        poor_nsc += p.nsc_mean;
        rich_nsc += r.nsc_mean;
        sward_graze_to_cover(&poor, 1800);
        sward_graze_to_cover(&rich, 1800);
    }
    check_below("growth without nitrogen", poor_growth, 0.95 * rich_growth);
    check_below("sugar with nitrogen", rich_nsc, 0.95 * poor_nsc);
}

/* The dip lies between a fifth and half a leaf, and is made good by two to three
 * leaves (Fulkerson & Donaghy 2001 put the dip at 3/4: see the misses). */
static void test_grazing_dip(void **state)
{
    (void)state;
    struct sward s = spring_sward(1);
    double before = 0, lowest = INFINITY, stage = 0;
    for (int day = 0; day < 25; day++) {
        before = step_day(&s, 8, 17, 17, 3, 3).nsc_mean;
    }
    sward_graze_down(&s, 900);
    for (int day = 0; day < 30; day++) {
        struct sward_result r = step_day(&s, 8, 17, 17, 3, 3);
        if (r.nsc_min < lowest) {
            lowest = r.nsc_min;
            stage = sward_leaf_stage(&s);
        }
        if (sward_leaf_stage(&s) > 3) {
            break;
        }
        if (sward_leaf_stage(&s) > 2.5) {
            check_below("sugar back", 0.9 * before, r.nsc_mean);
        }
    }
    check_below("sugar after grazing", lowest, 0.75 * before);
    if (!(stage >= 0.2 && stage <= 0.5)) {
        fail_msg("the dip lies at %g leaves", stage);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_drivers),     cmocka_unit_test(test_one_night), cmocka_unit_test(test_swing),
        cmocka_unit_test(test_hours),       cmocka_unit_test(test_species),   cmocka_unit_test(test_winter),
        cmocka_unit_test(test_shade),       cmocka_unit_test(test_drought),   cmocka_unit_test(test_nitrogen),
        cmocka_unit_test(test_grazing_dip),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
