/* Cutting, grazing, height, the leaf clock: bookkeeping, checked by arithmetic.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/holding.h"
#include "support/sward_support.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#define NEAR 1e-9

static void check_near(const char *what, double got, double want)
{
    if (!(fabs(got - want) <= NEAR * (1 + fabs(want)))) {
        fail_msg("%s: %.12g, expected %.12g", what, got, want);
    }
}

static struct sward tall(void)
{
    struct sward s = support_ryegrass();
    s.part[0].leaf = 150;
    s.part[0].stem = 50;
    s.part[0].sugar = 40;
    s.part[0].dead = 60;
    s.part[0].slow_lai = 3;
    s.leaf_clock = 220;
    return s;
}

static void test_masses(void **state)
{
    (void)state;
    struct sward s = tall();
    check_near("all", sward_total_kg_ha(&s), 3000);
    check_near("green", sward_green_kg_ha(&s), 2400);
    check_near("height at 180 kg/ha a cm", sward_height_cm(&s), 3000 / 180.0);
    check_near("cover of 10 cm", sward_cover_of_height(&s, 10), 1800);
    check_near("leaf stage", sward_leaf_stage(&s), 2);
}

/* One number reads the heights of the holding file, the diary and the sward. */
static void test_one_density(void **state)
{
    (void)state;
    struct params p = *support_params();
    struct sward s = tall();
    p.kind[SWARD_COOL_SEASON].height_density = 200;
    s.kind[0] = &p.kind[SWARD_COOL_SEASON];
    check_near("of the sward", sward_cover_of_height(&s, 10), 2000);
    check_near("of the holding file", holding_cover_of_height(&p, 10), 2000);
}

static void test_cut(void **state)
{
    (void)state;
    struct sward s = tall();
    double taken = sward_cut(&s, 5);
    check_near("leaf", s.part[0].leaf, 40);
    check_near("stem", s.part[0].stem, 15);
    check_near("dead", s.part[0].dead, 25);
    check_near("sugar goes with the green", s.part[0].sugar, 40 * 55 / 200.0);
    check_near("taken", taken, 3000 - sward_total_kg_ha(&s));
    check_near("leaf stage", sward_leaf_stage(&s), 0);
    check_near("a second cut takes nothing", sward_cut(&s, 5), 0);
    s = tall();
    sward_cut(&s, 10);
    check_near("leaf at 10 cm", s.part[0].leaf, 80);
    s = tall();
    sward_cut(&s, 0.5);
    check_near("leaf never below its floor", s.part[0].leaf, 15);
}

static void test_cut_and_heading(void **state)
{
    (void)state;
    struct sward s = tall();
    s.st = 900;
    sward_cut(&s, 5);
    assert_true(s.part[0].reproductive);
    s.st = 980;
    sward_cut(&s, 5);
    assert_false(s.part[0].reproductive);
    s = tall();
    s.st = 1000;
    sward_graze_to_cover(&s, 1800);
    assert_false(s.part[0].reproductive); /* it took stem */
    s = tall();
    s.st = 1000;
    sward_graze_intake(&s, 100, NULL);
    assert_true(s.part[0].reproductive); /* leaf was enough */
}

static void test_graze_to_cover(void **state)
{
    (void)state;
    struct sward s = tall();
    check_near("30 % of the excess", sward_graze_to_cover(&s, 1800), 0.3 * 1200);
    check_near("of everything alike", s.part[0].leaf / s.part[0].dead, 150 / 60.0);
    assert_true(isnan(sward_leaf_stage(&s))); /* continuously grazed */
    sward_graze_down(&s, 1000);               /* and then, in turn, no more */
    check_near("leaf stage after a turn", sward_leaf_stage(&s), 0);
    s = tall();
    sward_graze_to_cover(&s, 1800);
    check_near("nothing below the cover", sward_graze_to_cover(&s, 2700), 0);
    s = tall();
    check_near("in one go", sward_graze_down(&s, 1000), 2000);
    check_near("leaf stage", sward_leaf_stage(&s), 0);
    s = tall();
    sward_graze_down(&s, 0);
    check_near("never below 3 cm", sward_height_cm(&s), 3);
}

/* Half of the way, in ln, from 3000 to what was measured; shares stay. */
static void test_cover_measured(void **state)
{
    (void)state;
    struct sward s = tall();
    const struct sward_part was = s.part[0];
    double total = sward_total_kg_ha(&s);
    check_near("half of the way up", sward_correct_cover(&s, 1.44 * total, 0.5, 0.5, 2.0), 1.2);
    check_near("in all", sward_total_kg_ha(&s), 1.2 * total);
    check_near("leaf", s.part[0].leaf, 1.2 * was.leaf);
    check_near("stem", s.part[0].stem, 1.2 * was.stem);
    check_near("sugar", s.part[0].sugar, 1.2 * was.sugar);
    check_near("dead", s.part[0].dead, 1.2 * was.dead);
    check_near("no further than allowed", sward_correct_cover(&s, 0.1 * total, 1.0, 0.8, 2.0), 0.8);
}

static void test_graze_intake(void **state)
{
    (void)state;
    struct sward s = tall();
    double unmet = 1, with_sugar = 240 / 200.0;
    check_near("taken", sward_graze_intake(&s, 600, &unmet), 600);
    check_near("unmet", unmet, 0);
    check_near("leaf first", s.part[0].leaf, 150 - 60 / with_sugar);
    check_near("stem stays", s.part[0].stem, 50);
    check_near("dead stays", s.part[0].dead, 60);
    double there = sward_available_kg_ha(&s);
    check_near("all there is", sward_graze_intake(&s, 5000, &unmet), there);
    check_near("unmet", unmet, 5000 - there);
    check_near("leaf at 3 cm", s.part[0].leaf, 24);
    check_near("stem at 3 cm", s.part[0].stem, 9);
    check_near("dead at 3 cm", s.part[0].dead, 15);
    check_near("nothing left", sward_graze_intake(&s, 100, &unmet), 0);
    check_near("unmet", unmet, 100);
}

static void test_content_stays(void **state)
{
    (void)state;
    struct sward s = tall();
    double content = 40 / 240.0;
    sward_graze_intake(&s, 700, NULL);
    sward_graze_to_cover(&s, 1500);
    sward_cut(&s, 4);
    check_near("content", s.part[0].sugar / (s.part[0].leaf + s.part[0].stem + s.part[0].sugar), content);
}

/* Thermal time of the soil, at most 18 C a day, 110 C d a leaf. */
static void test_leaf_clock(void **state)
{
    (void)state;
    struct sward s = tall();
    struct sward_day d = support_day(20, 34, 20, 45, 196);
    struct sward_result r;
    sward_cut(&s, 5);
    s.soil_t = 27;
    for (int i = 0; i < 10; i++) {
        sward_step(&s, &d, &r);
    }
    check_near("ten hot days", sward_leaf_stage(&s), 180 / 110.0);
    sward_graze_to_cover(&s, 700);
    for (int i = 0; i < 7; i++) {
        assert_true(isnan(sward_leaf_stage(&s)));
        sward_step(&s, &d, &r);
    }
    check_near("counted again after a week's rest", sward_leaf_stage(&s), 7 * 18 / 110.0);
    assert_true(sward_graze_intake(&s, 100, NULL) > 0);
    for (int i = 0; i < 7; i++) {
        assert_true(isnan(sward_leaf_stage(&s)));
        sward_step(&s, &d, &r);
    }
    check_near("and after animals took their fill", sward_leaf_stage(&s), 7 * 18 / 110.0);
    assert_true(sward_graze_intake(&s, 0, NULL) == 0);
    assert_true(sward_leaf_stage(&s) > 1); /* nothing eaten, nothing begun anew */
}

/* Turner et al. 2007: the stubble of a long-rested sward is richer; 0 when kept short
 * (North Carolina State sward-height studies) or standing. */
static void test_short_surplus(void **state)
{
    (void)state;
    struct sward s = tall();
    check_near("standing", sward_short_surplus(&s), 0);
    sward_cut(&s, 2);
    double just_cut = sward_short_surplus(&s);
    assert_true(just_cut > 0.05 && just_cut <= 0.20);
    s.part[0].slow_lai = 0.1;
    check_near("kept short", sward_short_surplus(&s), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_masses),         cmocka_unit_test(test_cut),
        cmocka_unit_test(test_one_density),    cmocka_unit_test(test_cut_and_heading),
        cmocka_unit_test(test_graze_to_cover), cmocka_unit_test(test_graze_intake),
        cmocka_unit_test(test_content_stays),  cmocka_unit_test(test_leaf_clock),
        cmocka_unit_test(test_short_surplus),  cmocka_unit_test(test_cover_measured),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
