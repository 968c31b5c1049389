/* What the literature says and the sward does not: each test passes while the miss
 * stands at its recorded size and fails when it vanishes or grows, so that either gets
 * noticed. Assumed weather is the month's usual weather of the place.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/sward_support.h"

#include "sward/canopy.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#define SIZE_TOLERANCE 0.10 /* of the ratio model over literature, as recorded */
#define CO2_OF_SUGAR (44.0 / 30.0)

/* ratio: model over literature when it was recorded; good: half width, relative, of what
 * would count as met. */
static void check_miss(const char *what, double model, double literature, double ratio, double good)
{
    double now = model / literature;
    print_message("# known miss: %s: model %.3g, read %.3g\n", what, model, literature);
    if (fabs(now - 1) <= good) {
        fail_msg("%s: met now (%g against %g): move it to the checks", what, model, literature);
    }
    if (!(fabs(now / ratio - 1) <= SIZE_TOLERANCE)) {
        fail_msg("%s: the miss changed: ratio %g, recorded %g", what, now, ratio);
    }
}

static struct held_day run(const char *grass, double half_sugar, double tmin, double tmax, double rad, double latitude,
                           int day, double sink, double source)
{
    struct held h = support_held(grass, 170, 2.5, sink, source, 0.12);
    struct sward_day d = support_day(tmin, tmax, rad, latitude, day);
    h.own.half_sugar = half_sugar > 0 ? half_sugar : h.own.half_sugar;
    return support_hold_days(&h, &d, 25);
}

/* mg CO2 per g dry weight and hour in the dark at 15 C, after four days of light or dusk. */
static double dark_respiration(double t, double par, int lit)
{
    struct held h = support_held("ryegrass", 350, 5, 1.22, 1.5, 0.12);
    struct sward_day d = support_day(t, t, 10, 52, 135);
    struct balance b;
    struct balance_factors f = {
        .lai = 5, .sink = 1.22 * canopy_sink_area(h.kind, 5), .source = 1.5, .wet = 1, .soil_t = 15};
    for (int i = 0; i < 24; i++) {
        d.temperature[i] = t;
        d.par[i] = i < lit ? par : 0;
    }
    support_hold_days(&h, &d, 4);
    for (int i = 0; i < 24; i++) {
        d.temperature[i] = 15;
        d.par[i] = 0;
    }
    balance_prepare(&b, h.kind, &h.own, &f, &d);
    double total = h.structure + h.sugar;
    struct balance_flows now = balance_hour(&b, 0, h.sugar, h.structure, h.sugar / total);
    return 1000 * CO2_OF_SUGAR * (now.upkeep + now.growth * (b.yield_inverse - 1)) / total;
}

static void test_respiration(void **state)
{
    (void)state;
    /* rows 3 and 4, Robson 1981: 3.7 and 0.8 mg CO2/g/h after rich and poor days */
    check_miss("row 3, respiration of a sugar-rich sward, mg CO2/g/h", dark_respiration(5, 120, 20), 3.7, 0.5, 0.2);
    /* the upkeep of fed structure is row 4's; a starved sward of the model stops breathing */
    double fed = 1000 * CO2_OF_SUGAR * support_kind("ryegrass")->respiration / 24;
    assert_true(fabs(fed / 0.8 - 1) < 0.05);
    check_miss("row 4, respiration after four dusky days at 25 C, mg CO2/g/h", dark_respiration(25, 20, 4), 0.8, 0.035,
               0.3);
}

static void test_phalaris(void **state)
{
    (void)state;
    /* rows 14, 15, Ciavarella et al. 2000a: 103 at sunrise, 160 in the early afternoon */
    struct held_day got = run("unknown-mixed", 0, 6, 19, 20, -35, 288, 1.22, 1.5);
    check_miss("rows 14, 15, phalaris, swing of the day, g/kg", got.max - got.min, 57, 0.82, 0.15);
}

static void test_boot_stage(void **state)
{
    (void)state;
    /* row 40, Weinert-Nelson et al.: cocksfoot, tall fescue, meadow grass at boot: 176 +- 2.6;
     * K the mean of the three */
    struct held_day got = run("unknown-mixed", 0.108, 11, 23, 20, 40, 140, 1.22, 1.5);
    check_miss("row 40, boot-stage mixture, New Jersey, g/kg", got.mean, 176, 0.6, 0.2);
}

static void test_summer_slump(void **state)
{
    (void)state;
    /* row 73, New Jersey: NSC 71 +- 6 (WSC 79 +- 9) in the summer slump */
    struct held_day got = run("unknown-mixed", 0, 19, 30, 19, 40, 225, 0.81, 1);
    check_miss("row 73, cool-season pasture in the summer slump, g/kg", got.mean, 71, 1.4, 0.2);
}

/* Row 79: grazed ryegrass-clover in New Zealand "usually under 120, no clear season";
 * Palmerston-like climate assumed; "usually" is put at four days in five. */
static void test_clover_pasture(void **state)
{
    (void)state;
    const struct climate c = {.latitude = -40,
                              .t_mean = 13,
                              .t_swing = 4.6,
                              .t_range = 9,
                              .clearness = 0.45,
                              .rain = 2.7,
                              .et0_summer = 4.2,
                              .noise = 3,
                              .seed = 3};
    const struct sward_place place = {.latitude = -40};
    struct sward s = support_sward(2, (const char *const[]){"ryegrass", "white-clover"}, (const double[]){0.75, 0.25});
    double under = 0;
    for (int date = 0; date < 3 * 365; date++) {
        struct sward_weather w = support_climate(&c, date);
        struct sward_day d;
        struct sward_result r;
        sward_day_make(&d, &w, &place);
        sward_step(&s, &d, &r);
        sward_graze_to_cover(&s, 1800);
        under += date >= 365 && r.nsc_mean < 120 ? 1.0 / 730 : 0;
    }
    check_miss("row 79, ryegrass and clover, New Zealand, share of days under 120 g/kg", under, 0.8, 0.7, 0.2);
}

/* Row 82, Fulkerson & Donaghy 2001: sugar falls until about 3/4 of a new leaf has
 * grown. Weather and state of the regrowth sequence of the reference outputs. */
static void test_dip_after_grazing(void **state)
{
    (void)state;
    struct sward s = support_ryegrass();
    double lowest = INFINITY, stage = 0;
    s.st = 600;
    s.soil_t = 12.5;
    s.water = 1;
    s.part[0] =
        (struct sward_part){.leaf = 80, .sugar = 14, .dead = 30, .slow_lai = 2.5, .frost = 1, .reproductive = true};
    for (int i = 0; i < 20; i++) {
        struct sward_day d = support_day(8, 17, 17, 52, 120 + i);
        struct sward_result r;
        sward_step(&s, &d, &r);
        if (r.nsc_min < lowest) {
            lowest = r.nsc_min;
            stage = sward_leaf_stage(&s);
        }
    }
    check_miss("row 82, lowest sugar after grazing, leaves", stage, 0.75, 0.30, 0.3);
}

/* Rows 9, 10, Belanger et al. 2007: timothy in chambers, 32 to 41 g/kg, and no fall
 * with warmth: a counter-example to most others, of unknown light. */
static void test_timothy_chamber(void **state)
{
    (void)state;
    double cool = run("timothy", 0, 5, 17, 15, 52, 135, 1.22, 1.5).mean;
    double warm = run("timothy", 0, 15, 28, 15, 52, 135, 1.22, 1.5).mean;
    check_miss("row 10, timothy, 28/15 over 17/5 C (read: higher)", warm / cool, 1.1, 0.53, 0.2);
}

/* Row 39, Lechtenberg et al. 1972: tall fescue, first growth, 82 at 06:00 to 103 at 18:00. */
static void test_swing_of_tall_fescue(void **state)
{
    (void)state;
    struct held_day got = run("tall-fescue", 0, 11, 23, 20, 40, 140, 1.22, 1.5);
    check_miss("row 39, tall fescue, swing of the day, g/kg", got.max - got.min, 21, 2.44, 0.3);
}

/* Row 96, Peri et al.: cocksfoot, best conditions, 30.8-33.5 g CO2/m2/d net; met by the
 * summer state (see the checks), passed by the spring state. */
static void test_spring_photosynthesis(void **state)
{
    (void)state;
    struct gases g = support_gases("cocksfoot", 1.22, 1.5, 14, 26, 24, 170, 3.5);
    check_miss("row 96, net photosynthesis of cocksfoot in spring, g CO2/m2/d", g.gross - g.respired, 32.2, 1.40, 0.2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_respiration),
        cmocka_unit_test(test_phalaris),
        cmocka_unit_test(test_boot_stage),
        cmocka_unit_test(test_summer_slump),
        cmocka_unit_test(test_clover_pasture),
        cmocka_unit_test(test_dip_after_grazing),
        cmocka_unit_test(test_timothy_chamber),
        cmocka_unit_test(test_swing_of_tall_fescue),
        cmocka_unit_test(test_spring_photosynthesis),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
