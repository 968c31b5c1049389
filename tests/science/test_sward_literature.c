/* The sward against what people measured. Rows are those of models/METHOD.md's list
 * of published sugar values. Where a trial's weather is not printed, the month's
 * usual weather of the place is assumed (common practice, no source) and the level is
 * held to the 80 % band that the program itself states, value / 1.6 to value x 1.6.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/sward_support.h"

#include "sward/canopy.h"
#include "sward/fractions.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#define COUNT(table) (sizeof(table) / sizeof(table)[0])
#define BAND 1.6 /* 80 % band of one untested paddock */

static void check_range(const char *what, double got, double low, double high)
{
    if (!(got >= low && got <= high)) {
        fail_msg("%s: %g is not in %g to %g", what, got, low, high);
    }
}

struct trial { /* 25 days of assumed weather on a held sward */
    const char *what, *grass;
    double tmin, tmax, rad, latitude;
    int day;
    double sink, source, structure, lai;
};

static struct held_day run(const struct trial *t)
{
    struct held h = support_held(t->grass, t->structure, t->lai, t->sink, t->source, 0.12);
    struct sward_day d = support_day(t->tmin, t->tmax, t->rad, t->latitude, t->day);
    return support_hold_days(&h, &d, 25);
}

static void test_levels(void **state)
{
    (void)state;
    static const struct {
        struct trial trial;
        double low, high; /* as read, g/kg */
        double band;
    } rows[] = {
        /* row 41, Weinert-Nelson et al.: 106 +- 2.6 and 109 +- 2.6; tuned to them */
        {{"bermudagrass, New Jersey", "bermuda", 19, 30, 19, 40, 225, 0.6, 1, 250, 3}, 106, 109, 1.1},
        {{"crabgrass, New Jersey", "crabgrass", 19, 30, 19, 40, 225, 0.6, 1, 250, 3}, 106, 109, 1.1},
        /* row 43, Morin et al. 2009: 06:00 and the day's maximum */
        {{"lucerne, spring, Quebec", "lucerne", 8, 20, 19, 46.8, 160, 1, 1, 170, 3}, 95, 133, 1.25},
        {{"lucerne, summer, Quebec", "lucerne", 13, 25, 19, 46.8, 215, 1, 1, 170, 3}, 74, 129, BAND},
        /* row 45, Quebec AM/PM legume trial 2007-08 */
        {{"red clover, Quebec", "red-clover", 8, 20, 19, 48.85, 170, 1, 1, 170, 3}, 85, 112, BAND},
        {{"white clover, Quebec", "white-clover", 8, 20, 19, 48.85, 170, 1, 1, 170, 3}, 91, 123, BAND},
        /* row 46, Pelletier et al. 2010: six grasses 65.5 to 94.2 */
        {{"tall fescue, Quebec", "tall-fescue", 11, 23, 18, 48.85, 205, 0.81, 1, 170, 2.5}, 94, 94, BAND},
        {{"smooth brome, Quebec", "smooth-brome", 11, 23, 18, 48.85, 205, 0.81, 1, 170, 2.5}, 65.5, 94, BAND},
        /* row 62, Zhao et al. 2008: 13 entries before heading, 70 to 112 */
        {{"tall fescue, Oklahoma", "tall-fescue", 9, 22, 19, 36, 110, 1.22, 1.5, 170, 2.5}, 70, 112, BAND},
        /* row 64, Kagan et al. 2022: cocksfoot always below 100; nothing above 150 */
        {{"cocksfoot, Kentucky, July", "cocksfoot", 19, 31, 20, 38, 196, 0.81, 1, 170, 2.5}, 50, 100, 1},
        {{"tall fescue, Kentucky, May", "tall-fescue", 12, 24, 20, 38, 140, 1.22, 1.5, 170, 2.5}, 50, 150, 1},
        {{"tall fescue, Kentucky, October", "tall-fescue", 8, 20, 13, 38, 288, 0.71, 1, 170, 2.5}, 50, 150, 1},
        /* row 39, Lechtenberg et al. 1972: 82 to 103 */
        {{"tall fescue, Indiana", "tall-fescue", 11, 23, 20, 40, 140, 1.22, 1.5, 250, 3.5}, 82, 103, BAND},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct held_day got = run(&rows[i].trial);
        check_range(rows[i].trial.what, got.mean, rows[i].low / rows[i].band, rows[i].high * rows[i].band);
    }
}

/* Row 42, Weinert-Nelson et al.: afternoon and evening 145-149 against 112-114 at dawn:
 * x 1.30; row 45: x 1.3 in each legume. */
static void test_day_against_dawn(void **state)
{
    (void)state;
    static const struct trial bermuda = {"", "bermuda", 19, 30, 19, 40, 225, 0.6, 1, 250, 3};
    static const struct trial clover = {"", "red-clover", 8, 20, 19, 48.85, 170, 1, 1, 170, 3};
    struct held_day b = run(&bermuda), c = run(&clover);
    check_range("bermudagrass, dusk over dawn", b.max / b.min, 1.15, 1.5);
    check_range("red clover, dusk over dawn", c.max / c.min, 1.15, 1.6);
}

/* Row 13, Wilson & Ford 1973: 11 temperate grasses fall with warmth, 21/13, 27/19, 32/24 C. */
static void test_falls_with_warmth(void **state)
{
    (void)state;
    double before = INFINITY;
    for (int step = 0; step < 3; step++) {
        static const double night[] = {13, 19, 24}, day[] = {21, 27, 32};
        struct trial t = {"", "ryegrass", night[step], day[step], 18, 30, 150, 0.81, 1, 170, 2.5};
        double mean = run(&t).mean;
        assert_true(mean < 0.95 * before);
        before = mean;
    }
}

/* Row 7, timothy Vega and Climax: total carbohydrate rises pronouncedly at 10/5 C. */
static void test_timothy_in_the_cold(void **state)
{
    (void)state;
    static const struct trial cold = {"", "timothy", 5, 10, 12, 52, 135, 1.22, 1.5, 170, 2.5};
    static const struct trial warm = {"", "timothy", 20, 20, 12, 52, 135, 1.22, 1.5, 170, 2.5};
    assert_true(run(&cold).mean > 1.5 * run(&warm).mean);
}

static double growth_at(double t)
{
    double x[24] = {t}, y[24];
    canopy_curve(&support_kind("ryegrass")->growth, x, y);
    return y[0];
}

static double photo_at(double t)
{
    double x[24] = {t}, y[24];
    canopy_curve(&support_kind("ryegrass")->photo, x, y);
    return y[0];
}

static void test_curves(void **state)
{
    (void)state;
    /* row 21, Pollock et al. 1983: growth falls as much from 5 to 2 C as from 20 to 5 */
    check_range("fall 5 to 2 over fall 20 to 5", (growth_at(5) / growth_at(2)) / (growth_at(20) / growth_at(5)), 0.8,
                1.25);
    /* row 22, Thomas 1983: leaf extension at 2 C 20-30 % of that at 5 C */
    check_range("growth at 2 over 5 C", growth_at(2) / growth_at(5), 0.20, 0.30);
    /* rows 23, 24: nothing at 1 C, extrapolates to zero below 3 C; row 25 (field): some above 0 */
    check_range("growth at 1 C", growth_at(1), 0, 0.05);
    /* row 26, Woledge & Dennis 1982: rises from 10 to 25 C */
    assert_true(photo_at(25) > photo_at(17.5) && photo_at(17.5) > photo_at(10));
    /* row 27, Woledge et al.: winter canopies at the same light little less than summer */
    check_range("photosynthesis at 6 over 15 C", photo_at(6) / photo_at(15), 0.6, 0.9);
}

static void test_gases(void **state)
{
    (void)state;
    struct gases g = support_gases("cocksfoot", 0.81, 1, 14, 26, 24, 170, 3.5);
    /* row 96, Peri et al.: 30.8-33.5 g CO2/m2/d net at the best; a vegetative sward and the
     * light are assumed: +- 25 %. In its spring state the model gives 45: see the misses */
    check_range("net canopy photosynthesis of cocksfoot", g.gross - g.respired, 30.8 / 1.25, 33.5 * 1.25);
    /* row 98, Thornley 2011: respiration 0.4 of photosynthesis at equilibrium, roots included */
    check_range("respiration over photosynthesis", g.respired / g.gross, 0.25, 0.5);
}

/* Row 97, Druille et al. 2019: 1.93 +- 1.2 (SD) g DM per MJ of intercepted PAR. */
static void test_light_use(void **state)
{
    (void)state;
    static const struct trial may = {"", "ryegrass", 7, 16, 17, 52, 135, 1.22, 1.5, 170, 2.5};
    double caught = 0.5 * 17 * (1 - exp(-0.5 * 2.5));
    check_range("growth per MJ caught", run(&may).growth / caught, 1.93 - 1.2, 1.93 + 1.2);
}

/* Row 88, Olszewska 2021: -23 and -19 % from 0 to 240 kg N/ha; row 90, Alberda 1965:
 * very high when nitrogen is short. */
static void test_nitrogen(void **state)
{
    (void)state;
    struct trial t = {"", "ryegrass", 7, 16, 17, 52, 135, 1.22, 1.5, 170, 2.5}, none = t, heavy = t, starved = t;
    none.sink *= 0.8;
    heavy.sink *= 1.15;
    starved.sink *= 0.3;
    double change = run(&heavy).mean / run(&none).mean - 1;
    check_range("none to heavy nitrogen", change, -0.28, -0.14);
    assert_true(run(&starved).mean > 1.3 * run(&t).mean);
}

/* Rows 18, 20, Ciavarella et al. 2000b, Burner & Belesky 2004: shade lowers sugar at every hour. */
static void test_shade(void **state)
{
    (void)state;
    struct held open = support_held("cocksfoot", 170, 2.5, 1.22, 1.5, 0.12), shaded = open;
    struct sward_day light = support_day(15, 27, 22, 35, 158), dim = support_day(15, 27, 11, 35, 158);
    struct held_day o = support_hold_days(&open, &light, 25), s = support_hold_days(&shaded, &dim, 25);
    check_range("shade over open", s.mean / o.mean, 0.4, 0.9);
    assert_true(s.min < o.min && s.max < o.max);
    assert_true(o.max - o.min > s.max - s.min);
}

/* Row 28, Sanderson 2007: one frosty day moves ryegrass up slightly. */
static void test_sudden_frost(void **state)
{
    (void)state;
    struct held mild = support_held("ryegrass", 170, 2.5, 0.71, 1, 0.15), frosted = mild;
    struct sward_day usual = support_day(4, 12, 9, 45, 295), frost = support_day(-3, 6, 9, 45, 295);
    support_hold_days(&mild, &usual, 10);
    frosted.sugar = mild.sugar;
    double change = support_hold(&frosted, &frost, 5).mean / support_hold(&mild, &usual, 7).mean - 1;
    check_range("change by a frosty day", change, 0, 0.25);
}

/* Rows 56, 57, Graessler & von Borstel (seen second-hand): fructan of ryegrass at
 * Hannover, 57 in the season's mean, up to 136-142. */
static void test_fructan(void **state)
{
    (void)state;
    static const struct trial may = {"", "ryegrass", 8, 18, 16, 52, 135, 1.22, 1.5, 170, 2.5};
    struct sward_part p = {0};
    const struct sward_kind *k = support_kind("ryegrass");
    struct fractions f = fractions_of_day(k, &p, run(&may).mean, 0.10, 0.3, 0, 13);
    check_range("fructan in May", f.fructan, 57 / BAND, 142);
}

/* Days a leaf: DairyNZ 9-11 at 13-16 C, AHDB 4-5 at the May peak and 30 in mid winter. */
static void test_leaf_clock(void **state)
{
    (void)state;
    double phyllochron = params_grass(support_params(), "ryegrass")->phyllochron;
    check_range("days a leaf at 13 C", phyllochron / 13, 5, 11);
    check_range("days a leaf at 4 C", phyllochron / 4, 20, 35);
}

/* Row 94, Volaire et al. 1998: -90 % of leaf extension 9-12 days after water is withheld.
 * A small pot-like store of 60 mm and 6 mm/d are assumed. */
static void test_drying(void **state)
{
    (void)state;
    struct sward s = support_ryegrass();
    double first = 0;
    int days = 0;
    s.capacity_mm = 60;
    s.water = 1;
    s.soil_t = 18;
    s.st = 1500;
    s.part[0].leaf = 170;
    s.part[0].slow_lai = 3;
    for (double growth = INFINITY; growth > 0.1 * first && days < 60; days++) {
        struct sward_day d = support_day(12, 26, 24, 43, 180);
        struct sward_result r;
        d.et0 = 6;
        sward_step(&s, &d, &r);
        growth = r.growth;
        first = days == 0 ? growth : first;
    }
    check_range("days until growth is a tenth", days, 8, 14);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_levels),
        cmocka_unit_test(test_day_against_dawn),
        cmocka_unit_test(test_falls_with_warmth),
        cmocka_unit_test(test_timothy_in_the_cold),
        cmocka_unit_test(test_curves),
        cmocka_unit_test(test_gases),
        cmocka_unit_test(test_light_use),
        cmocka_unit_test(test_nitrogen),
        cmocka_unit_test(test_shade),
        cmocka_unit_test(test_sudden_frost),
        cmocka_unit_test(test_fructan),
        cmocka_unit_test(test_leaf_clock),
        cmocka_unit_test(test_drying),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
