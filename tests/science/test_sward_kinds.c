/* Mixtures, warm-season grass in frost, snow, and the fractions of sugar.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/sward_support.h"

#include "sward/fractions.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static void check_near(const char *what, double got, double want, double tolerance)
{
    if (!(fabs(got - want) <= tolerance)) {
        fail_msg("%s: %.10g, expected %.10g", what, got, want);
    }
}

static struct sward_result step(struct sward *s, double tmin, double tmax, double rad, int day)
{
    struct sward_day d = support_day(tmin, tmax, rad, 40, day);
    struct sward_result r;
    d.rain = 4;
    d.et0 = 2;
    sward_step(s, &d, &r);
    return r;
}

/* A mixture of one grass with itself is that grass. */
static void test_mixture_of_itself(void **state)
{
    (void)state;
    struct sward one = support_ryegrass();
    struct sward two = support_sward(2, (const char *const[]){"ryegrass", "ryegrass"}, (const double[]){3, 1});
    check_near("shares", two.share[0], 0.75, 1e-12);
    for (int day = 60; day < 260; day++) {
        struct sward_result a = step(&one, 7, 16, 15, day), b = step(&two, 7, 16, 15, day);
        check_near("NSC", b.nsc_mean, a.nsc_mean, 1e-9);
        check_near("growth", b.growth, a.growth, 1e-9);
        check_near("fructan", b.fructan, a.fructan, 1e-9);
        check_near("water", b.water, a.water, 1e-12);
        sward_graze_to_cover(&one, 1800);
        sward_graze_to_cover(&two, 1800);
    }
    check_near("mass", sward_total_kg_ha(&two), sward_total_kg_ha(&one), 1e-6);
}

/* A mixture lies between its parts, and takes the larger spread. */
static void test_mixture_between(void **state)
{
    (void)state;
    struct sward rich = support_ryegrass();
    struct sward poor = support_sward(1, (const char *const[]){"white-clover"}, (const double[]){1});
    struct sward mix = support_sward(2, (const char *const[]){"ryegrass", "white-clover"}, (const double[]){0.6, 0.4});
    for (int day = 60; day < 200; day++) {
        struct sward_result a = step(&rich, 7, 16, 15, day), b = step(&poor, 7, 16, 15, day),
                            m = step(&mix, 7, 16, 15, day);
        check_near("NSC between", m.nsc_mean, 0.5 * (a.nsc_mean + b.nsc_mean),
                   0.5 * fabs(a.nsc_mean - b.nsc_mean) + 1e-9);
        check_near("growth is the shares' sum", m.growth, 0.6 * a.growth + 0.4 * b.growth, 0.1 * m.growth);
        assert_true(m.spread_factor >= 1.25);
        sward_graze_to_cover(&rich, 2500);
        sward_graze_to_cover(&poor, 2500);
        sward_graze_to_cover(&mix, 2500);
    }
}

/* -2 C browns bermudagrass within the day; it waits for a soil above 15 C (advice sheets: 15.5-18). */
static void test_browning(void **state)
{
    (void)state;
    struct sward s = support_sward(1, (const char *const[]){"bermuda"}, (const double[]){1});
    struct sward_result r;
    for (int day = 150; day < 250; day++) {
        r = step(&s, 19, 30, 19, day);
    }
    assert_true(r.growth > 20 && s.part[0].leaf > 100);
    for (int day = 280; day < 300; day++) {
        r = step(&s, 6, 18, 14, day);
    }
    r = step(&s, -1.9, 14, 12, 300);
    assert_false(s.part[0].killed);
    double sugar = s.part[0].sugar;
    s.part[0].stem = 10;
    r = step(&s, -2, 12, 12, 301);
    assert_true(s.part[0].killed && r.killing_frost);
    assert_int_equal(s.days_since_kill, 0);
    check_near("leaf to the floor", s.part[0].leaf, 15, 1e-9);
    check_near("stem", s.part[0].stem, 0, 1e-9);
    assert_true(s.part[0].sugar < 0.2 * sugar && r.lost > 0);
    double killed = s.killed_nsc;
    assert_true(killed > 20 && killed == r.nsc_mean);
    r = step(&s, 6, 16, 12, 302);
    assert_true(r.growth == 0 && r.assimilated == 0);
    check_near("5 % of the killed tissue's sugar goes in a day", s.killed_nsc, 0.95 * killed, 1e-9);
    assert_int_equal(s.days_since_kill, 1);
    r = step(&s, -8, 4, 10, 340);
    assert_false(r.killing_frost); /* nothing green is left to kill */
    for (int day = 100; day < 160; day++) {
        r = step(&s, 14, 26, 20, day);
    }
    assert_true(!s.part[0].killed && s.part[0].leaf > 30);
}

/* Spring and summer: a warm-season grass does not grow below 8 C, and kikuyu hardly at 10 C
 * (Colman & O'Neill 1978). */
static void test_warm_season_in_the_cool(void **state)
{
    (void)state;
    struct sward kikuyu = support_sward(1, (const char *const[]){"kikuyu"}, (const double[]){1}), ryegrass;
    ryegrass = support_ryegrass();
    double k = 0, g = 0, hot = 0;
    for (int day = 100; day < 130; day++) {
        k += step(&kikuyu, 5, 14, 15, day).growth;
        g += step(&ryegrass, 5, 14, 15, day).growth;
    }
    for (int day = 180; day < 240; day++) {
        hot = step(&kikuyu, 18, 29, 21, day).growth;
    }
    assert_true(k < 0.25 * g);
    assert_true(hot > 60); /* 196 at 23 C with 224 kg N in the source */
}

static void test_killing_frost(void **state)
{
    (void)state;
    struct sward s = support_ryegrass();
    assert_int_equal(s.days_since_kill, SWARD_LONG_AGO);
    assert_false(step(&s, -4.9, 5, 8, 320).killing_frost);
    assert_true(step(&s, -5, 5, 8, 321).killing_frost);
    for (int i = 1; i <= 9; i++) {
        step(&s, 2, 8, 6, 321 + i);
        assert_int_equal(s.days_since_kill, i);
    }
}

static struct sward_result snow_day(struct sward *s, bool rule, double tmin, double tmax, double rain)
{
    struct sward_day d = support_day(tmin, tmax, 8, 50, 60);
    struct sward_result r;
    d.rain = rain;
    d.et0 = 1;
    d.snow_rule = rule;
    sward_step(s, &d, &r);
    return r;
}

/* Rango & Martinec 1995, Kokkonen et al. 2006 for the snow; dark and sheltered below
 * it is common practice. */
static void test_snow(void **state)
{
    (void)state;
    struct sward covered = support_ryegrass(), bare = covered;
    snow_day(&covered, true, -6, -2, 20);
    snow_day(&bare, false, -6, -2, 20);
    assert_true(covered.snow_mm > 15);
    check_near("no snow without the rule", bare.snow_mm, 0, 0);
    double leaf = covered.part[0].leaf;
    for (int i = 0; i < 10; i++) {
        struct sward_result r = snow_day(&covered, true, -12, -4, 0);
        check_near("growth", r.growth, 0, 0);
        check_near("light", r.assimilated, 0, 0);
        assert_false(r.killing_frost);
        snow_day(&bare, false, -12, -4, 0);
    }
    check_near("frost takes no leaf", covered.part[0].leaf, leaf, 1e-9);
    assert_true(bare.part[0].leaf < leaf && bare.part[0].frost < 0.5 && covered.part[0].frost == 1);
    assert_true(covered.soil_t >= -1 && bare.soil_t < covered.soil_t);
    for (int i = 0; i < 15; i++) {
        snow_day(&covered, true, 2, 9, 0);
    }
    check_near("melted", covered.snow_mm, 0, 1e-9);
    assert_true(snow_day(&covered, true, 3, 10, 0).growth > 0);
}

/* By hand from the formulas of models/METHOD.md. */
static void test_fractions(void **state)
{
    (void)state;
    const struct sward_kind *k = support_kind("ryegrass");
    struct sward_part p = {0};
    struct fractions f = fractions_of_day(k, &p, 200, 0.15, 0.3, 0, 8);
    double fructan = 0.85 * 170 * 170 / 260.0;
    check_near("starch", f.starch, 30, 1e-9);
    check_near("WSC", f.wsc, 170, 1e-9);
    check_near("fructan of the first day", f.fructan, fructan, 1e-9);
    check_near("ESC", f.esc, 170 - 0.7 * fructan, 1e-9);
    f = fractions_of_day(k, &p, 100, 0.15, 0.3, 1, 22); /* mean WSC 127.5, warm */
    check_near("fructan at most WSC less 20", f.fructan, fmin(65, 0.75 * 0.85 * 127.5 * 127.5 / 217.5), 1e-9);
    f = fractions_of_day(k, &p, 20, 0.15, 0.3, 2, 22);
    check_near("no fructan in poor grass", f.fructan, 0, 1e-9);
}

/* The swing of a day is sucrose (Ciavarella et al. 2000a, Lechtenberg et al. 1972); Zhao
 * et al. 2008: fructan 38 % and starch 23 % of NSC at 70-112 g/kg. */
static void test_fructan_share(void **state)
{
    (void)state;
    const struct sward_kind *k = support_kind("tall-fescue");
    struct sward_part p = {0};
    struct fractions f = fractions_of_day(k, &p, 100, 0.15, 0.3, 0, 15);
    assert_true(f.fructan / 100 > 0.38 - 0.15 && f.fructan / 100 < 0.38 + 0.15); /* uncertain by 0.15 */
}

static void test_starch_of_warm_season(void **state)
{
    (void)state;
    const struct sward_kind *k = support_kind("bermuda");
    struct sward_part p = {0};
    check_near("cool", fractions_starch_share(k, NAN, 15), 0.3, 1e-9);
    check_near("between", fractions_starch_share(k, NAN, 25), 0.45, 1e-9);
    check_near("hot", fractions_starch_share(k, NAN, 35), 0.6, 1e-9);
    check_near("a grass's own", fractions_starch_share(k, 0.5, 35), 0.5, 1e-9);
    check_near("no fructan", fractions_of_day(k, &p, 120, 0.4, 0, 0, 15).fructan, 0, 0);
}

/* Heading: frost, heading, drought and species do not multiply; the largest counts. */
static void test_spread(void **state)
{
    (void)state;
    struct sward known = support_ryegrass();
    struct sward unknown = support_sward(1, (const char *const[]){"unknown-mixed"}, (const double[]){1});
    known.water = unknown.water = 1;
    check_near("a plain day", step(&known, 6, 15, 12, 100).spread_factor, 1, 0);
    check_near("an unknown sward", step(&unknown, 6, 15, 12, 100).spread_factor, 1.25, 0);
    check_near("frost", step(&known, -0.1, 12, 12, 101).spread_factor, 1.25, 0);
    known.st = unknown.st = 1000;
    struct sward_result r = step(&known, 6, 15, 12, 150);
    assert_true(r.heading);
    check_near("heading", r.spread_factor, 1.25, 0);
    check_near("heading of an unknown sward", step(&unknown, -1, 15, 12, 150).spread_factor, 1.25, 0);
    assert_true(known.part[0].stem > 0);
    known.water = 0.1;
    known.st = 2000;
    check_near("drought", step(&known, 6, 15, 12, 200).spread_factor, 1.25, 0);
}

/* The doubt of heading goes by the temperature sum (ST 980 to 1290) of grasses that head, whether or not
 * grazing has taken the stems; the stems themselves go by the flag. */
static void test_heading_by_the_season(void **state)
{
    (void)state;
    static const struct {
        const char *grass;
        double st; /* of the evening before; the day adds 10.5 */
        bool heading;
    } cases[] = {{"ryegrass", 960, false},  {"ryegrass", 970, true},  {"ryegrass", 1279, true},
                 {"ryegrass", 1281, false}, {"bermuda", 1000, false}, {"white-clover", 1000, false}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        for (int grazed = 0; grazed < 2; grazed++) {
            struct sward s = support_sward(1, &cases[i].grass, (const double[]){1});
            s.water = 1;
            s.st = cases[i].st;
            s.part[0].reproductive = !grazed;
            struct sward_result r = step(&s, 6, 15, 12, 150);
            assert_int_equal(r.heading, cases[i].heading);
            check_near(cases[i].grass, r.spread_factor, cases[i].heading ? 1.25 : s.spread_factor, 0);
            assert_true((s.part[0].stem > 0) == (cases[i].heading && !grazed));
        }
    }
}

/* The state of the model files, of each part its own, before the first day. */
static void test_start(void **state)
{
    (void)state;
    const struct params *p = support_params();
    const char *const grass[] = {"ryegrass", "white-clover"};
    struct sward s = support_sward(2, grass, (const double[]){3, 1});
    check_near("shares add up to 1", s.share[0], 0.75, 1e-12);
    for (size_t i = 0; i < 2; i++) {
        const struct sward_kind *k = &p->kind[params_grass(p, grass[i])->type];
        const struct sward_part *x = &s.part[i];
        check_near("leaf", x->leaf, k->start_leaf, 0);
        check_near("stem", x->stem, 0, 0);
        check_near("sugar", x->sugar, k->start_sugar, 0);
        check_near("dead", x->dead, k->start_dead, 0);
        check_near("age", x->leaf_age, k->start_leaf_age, 0);
        check_near("leaf area of late", x->slow_lai, k->start_slow_lai, 0);
        check_near("no frost yet", x->frost, 1, 0);
        assert_true(x->reproductive && !x->killed);
        const struct grass *g = params_grass(p, grass[i]);
        check_near("growth of the species", s.own[i].growth_max, k->growth_max * g->growth_factor, 1e-12);
        check_near("half of it at", s.own[i].half_sugar, g->half_sugar, 0);
        check_near("fructan that ESC holds", s.esc_fructan[i], g->esc_fructan, 0);
        check_near("warmth of a leaf", s.phyllochron[i], g->phyllochron, 0);
        assert_true(s.spread_factor >= g->spread_factor);
        assert_true(k->start_leaf > 0 && k->start_sugar > 0 && k->start_dead > 0);
    }
    check_near("water", s.water, p->kind[0].start_water, 0);
    check_near("soil", s.soil_t, p->kind[0].start_soil_t, 0);
}

/* The mean of the last seven days, of fewer at the start. */
static void test_mean_of_seven_days(void **state)
{
    (void)state;
    struct sward s = support_ryegrass();
    struct sward_result r;
    double t[12], sum = 0;
    for (int i = 0; i < 12; i++) {
        struct sward_day d = support_day(3 + i, 11 + i * i % 7, 14, 52, 120 + i);
        t[i] = (d.tmin + d.tmax) / 2;
        sum += t[i] - (i >= 7 ? t[i - 7] : 0);
        sward_step(&s, &d, &r);
        check_near("mean of seven days", s.t7, sum / (i < 7 ? i + 1 : 7), 1e-9);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_mixture_of_itself),
        cmocka_unit_test(test_mixture_between),
        cmocka_unit_test(test_browning),
        cmocka_unit_test(test_warm_season_in_the_cool),
        cmocka_unit_test(test_killing_frost),
        cmocka_unit_test(test_snow),
        cmocka_unit_test(test_fractions),
        cmocka_unit_test(test_fructan_share),
        cmocka_unit_test(test_starch_of_warm_season),
        cmocka_unit_test(test_spread),
        cmocka_unit_test(test_heading_by_the_season),
        cmocka_unit_test(test_start),
        cmocka_unit_test(test_mean_of_seven_days),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
