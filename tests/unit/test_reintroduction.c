/* The way back to grass, by hand: 15 minutes on the first day and 15 more each day to 4 h
 * make 16 days (University of Minnesota advice, seen second-hand; the count is arithmetic).
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "support/near.h"
#include <math.h>
#include <string.h>

#include "data/params.h"

#include "advice/reintroduction.h"

static struct arena arena;
static struct params params;
static const struct way_back_rules *equid;

static int load(void **state)
{
    (void)state;
    struct err e = {0};
    arena_init(&arena);
    equid = &params.way_back[SPECIES_EQUID];
    return params_load("models", &arena, &params, &e);
}

static int unload(void **state)
{
    (void)state;
    arena_release(&arena);
    return 0;
}

static void pass(struct way_back_state *s, int days, double hours)
{
    for (int i = 0; i < days; i++) {
        way_back_pass(s, equid, 24.0, hours, false);
    }
}

static double most(const struct way_back_state *s)
{
    return way_back_today(s, equid, 24.0).most_h;
}

#define SAME(a, b) assert_near(a, b, 1e-6)

static void test_who_is_used_to_grass_has_no_bound(void **state)
{
    (void)state;
    struct way_back_state s = {0};
    pass(&s, 100, 24.0);
    pass(&s, 6, 0.0); /* under a week */
    assert_int_equal(way_back_today(&s, equid, 24.0).day, 0);
    pass(&s, 1, 1.0);
    pass(&s, 6, 0.0);
    assert_int_equal(way_back_today(&s, equid, 24.0).day, 0);
}

static void test_a_quarter_of_an_hour_more_each_day(void **state)
{
    (void)state;
    struct way_back_state s = {0};
    pass(&s, 7, 0.0);
    for (int day = 1; day <= 16; day++) {
        struct way_back b = way_back_today(&s, equid, 24.0);
        assert_int_equal(b.day, day);
        assert_int_equal(b.days, 16);
        assert_false(b.after_signs);
        SAME(b.most_h, 0.25 * day);
        pass(&s, 1, b.most_h);
    }
    assert_int_equal(way_back_today(&s, equid, 24.0).day, 0);
}

static void test_sugar_and_days_off_hold_it_and_take_it_back(void **state)
{
    (void)state;
    struct way_back_state s = {0};
    pass(&s, 7, 0.0);
    pass(&s, 3, 1.0); /* longer than allowed counts as a day */
    SAME(most(&s), 1.0);
    pass(&s, 5, 0.5); /* less grass than the step: no nearer to an hour */
    SAME(most(&s), 1.0);
    pass(&s, 1, 0.0); /* one day off */
    SAME(most(&s), 1.0);
    pass(&s, 1, 0.0); /* the second running */
    SAME(most(&s), 0.75);
    pass(&s, 1, 1.0);
    SAME(most(&s), 1.0);
    pass(&s, 20, NAN); /* nobody knows */
    SAME(most(&s), 1.0);
    pass(&s, 6, 0.0);
    SAME(most(&s), 0.25);
    assert_int_equal(way_back_today(&s, equid, 24.0).day, 1);
}

static void test_signs_begin_it_anew_and_slower(void **state)
{
    (void)state;
    struct way_back_state s = {0};
    way_back_pass(&s, equid, 24.0, 24.0, true);
    struct way_back b = way_back_today(&s, equid, 24.0);
    assert_true(b.after_signs);
    assert_int_equal(b.days, 48); /* 16 steps of 3 days (keepers' practice, seen second-hand) */
    pass(&s, 3, 0.25);
    SAME(most(&s), 0.5);
    pass(&s, 3, 0.5);
    SAME(most(&s), 0.75);
    way_back_pass(&s, equid, 24.0, 0.75, true);
    SAME(most(&s), 0.25);
    way_back_pass(&s, equid, 24.0, 0.0, true);
    assert_int_equal(s.away, 2); /* days with signs are days off grass */
    pass(&s, 1, 0.25);
    assert_int_equal(s.away, 0);
    way_back_pass(&s, equid, 24.0, 0.0, true);
    pass(&s, 30, 0.0); /* weeks off do not make it an ordinary way */
    b = way_back_today(&s, equid, 24.0);
    assert_true(b.after_signs && b.day == 1);
    for (int i = 0; i < 48; i++) {
        pass(&s, 1, most(&s));
    }
    assert_int_equal(way_back_today(&s, equid, 24.0).day, 0);
}

static void test_a_class_kept_short_has_a_shorter_way(void **state)
{
    (void)state;
    struct way_back_state s = {.on = true, .done = 10};
    struct way_back b = way_back_today(&s, equid, 1.0);
    SAME(b.most_h, 1.0);
    assert_int_equal(b.days, 16); /* and no fewer days */
    s.after_signs = true;
    assert_int_equal(way_back_today(&s, equid, 1.0).days, 21); /* three weeks at least */
    assert_int_equal(way_back_today(&s, equid, NAN).days, 48);
}

static void test_every_species_has_its_row(void **state)
{
    (void)state;
    for (size_t i = 0; i < SPECIES_COUNT; i++) {
        assert_string_equal(params.way_back[i].id, species_names[i]);
        struct way_back_state s = {.on = true};
        double before = 0.0;
        for (int day = 0; s.on && day < 200; day++) {
            struct way_back b = way_back_today(&s, &params.way_back[i], 24.0);
            assert_true(b.most_h >= before && b.most_h > 0.0 && b.day <= b.days);
            before = b.most_h;
            way_back_pass(&s, &params.way_back[i], 24.0, b.most_h, false);
        }
        assert_false(s.on);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_who_is_used_to_grass_has_no_bound),
        cmocka_unit_test(test_a_quarter_of_an_hour_more_each_day),
        cmocka_unit_test(test_sugar_and_days_off_hold_it_and_take_it_back),
        cmocka_unit_test(test_signs_begin_it_anew_and_slower),
        cmocka_unit_test(test_a_class_kept_short_has_a_shorter_way),
        cmocka_unit_test(test_every_species_has_its_row),
    };
    return cmocka_run_group_tests(tests, load, unload);
}
