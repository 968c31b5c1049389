/* Hay of which a laboratory gave ESC + starch, hay for poor teeth, bad hay and grass that is not there.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <string.h>

#include "support/advice_support.h"
#include "support/near.h"

static char text[512];

static const char *reason(enum advice_reason r, const struct advice *a, const struct advice_subject *s)
{
    return advice_reason_text(r, a, &s->animal, text, sizeof text);
}

static void run(struct advice_subject *s, double grass_pct, struct advice *a)
{
    struct advice_grass g = advice_flat_grass(grass_pct);
    advise(&g, &s->animal, &support_params()->limits, a);
}

/* A laboratory's means of one kind of hay: WSC 11.6, ESC 7.6 (forage-laboratory averages, seen second-hand). So 8 %
 * ESC + starch is no 8 %: mature hay's 12.8 (NASEM 2021) counts. A higher figure counts itself; beside a hay that no
 * table knows it is the least, and the caution limit, 10, counts where that is more. */
static void test_esc_counts_no_less_than_the_table(void **state)
{
    static const struct {
        double esc, counts, as_wsc; /* as_wsc: the figure that brings the same hours; NaN the table's */
    } row[] = {{8.0, 12.8, (double)NAN}, {12.8, 12.8, 12.8}, {14.0, 14.0, 14.0}};
    (void)state;
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        struct advice_subject s;
        struct advice a, other;
        advice_subject(&s, "equid-laminitis-history");
        s.animal.hay_nsc_pct = row[i].as_wsc;
        run(&s, 16.0, &other);
        s.animal.hay_nsc_pct = row[i].esc;
        s.animal.hay_esc = true;
        run(&s, 16.0, &a);
        assert_near(a.hay_nsc_pct, row[i].counts, 1e-9);
        assert_near(a.hay_esc_pct, row[i].esc, 0.0);
        assert_near(a.hours, other.hours, 0.0);
        assert_true(a.hay_over && a.turnout == other.turnout && a.reasons == other.reasons);
        assert_false(a.hay_analysed);
    }
}

static void test_esc_of_hay_that_no_table_knows(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    struct feed nameless = *params_feed(support_params(), "grass-hay-mature");
    nameless.nsc_pct = nameless.wsc_pct = (double)NAN;
    advice_subject(&s, "equid-laminitis-history");
    s.animal.hay = &nameless;
    s.animal.hay_esc = true;
    s.animal.hay_nsc_pct = 8.0;
    run(&s, 8.0, &a);
    assert_true(advice_has(&a, REASON_HAY_UNKNOWN) && isnan(a.hay_nsc_pct));
    assert_near(a.base_nsc_pct, 10.0, 1e-9);
    s.animal.hay_nsc_pct = 13.0;
    run(&s, 8.0, &a);
    assert_true(advice_has(&a, REASON_HAY_UNKNOWN) && a.hay_over);
    assert_near(a.base_nsc_pct, 13.0, 1e-9);
}

/* Better hay is hay whose WSC + starch is known: 8 % of that would help where 8 % ESC + starch does not. */
static void test_better_hay_than_esc(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    struct advice_what_if with_esc, with_wsc;
    struct advice_grass g = advice_flat_grass(13.0);
    advice_subject(&s, "equid-laminitis-history");
    s.animal.hay_nsc_pct = 8.0;
    advise_what_if(&g, 0.25, &s.animal, &support_params()->limits, &with_wsc);
    s.animal.hay_esc = true;
    run(&s, 13.0, &a);
    advise_what_if(&g, 0.25, &s.animal, &support_params()->limits, &with_esc);
    assert_near(with_esc.hours_better_hay, with_wsc.hours_better_hay, 0.0);
    assert_true(with_esc.hours_better_hay != a.hours);
}

static void test_lot_is_given(void **state)
{
    (void)state;
    struct hay_lot lot = {.nsc_pct = 9.0, .nsc_is = "wsc+starch", .soaked_h = (double)NAN};
    struct advice_animal a = {0};
    advice_give_hay(&a, &lot);
    assert_ptr_equal(a.hay, &lot.contents);
    assert_true(a.hay_nsc_pct == 9.0 && !a.hay_esc && !a.hay_soaked);
    memcpy(lot.nsc_is, "esc+starch", sizeof "esc+starch");
    lot.soaked_h = 0.5;
    advice_give_hay(&a, &lot);
    assert_true(a.hay_esc && a.hay_soaked);
}

/* Neither the hours nor the hay change for the teeth: what is said does. */
static void test_poor_teeth(void **state)
{
    (void)state;
    static const struct {
        const char *hay, *dry, *soaked;
    } row[] = {{"grass-hay-mature", "soak it before it is fed, or get a softer one, and give no less.", ""},
               {"mixed-hay", "", ""},
               {"wheat-straw", "Straw is nothing for poor teeth", "get a soft hay for it, and give no less"}};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        struct advice_subject s;
        struct advice good, poor;
        advice_subject(&s, "goat-dry");
        s.animal.hay = params_feed(support_params(), row[i].hay);
        run(&s, 20.0, &good);
        assert_string_equal(advice_teeth_text(&s.animal), "");
        s.animal.history = HISTORY_POOR_TEETH;
        run(&s, 20.0, &poor);
        assert_true(poor.hours == good.hours && poor.hay_kg == good.hay_kg && poor.hay_kg > 0.0);
        assert_non_null(strstr(advice_teeth_text(&s.animal), row[i].dry));
        assert_int_equal(advice_teeth_text(&s.animal)[0] == '\0', row[i].dry[0] == '\0');
        s.animal.hay_soaked = true;
        assert_non_null(strstr(advice_teeth_text(&s.animal), row[i].soaked));
        assert_int_equal(advice_teeth_text(&s.animal)[0] == '\0', row[i].soaked[0] == '\0');
    }
}

/* Hours are judged with hay of 12.8 % at most (limits.json), the ration is what it is: each sentence says which. */
static void test_hay_beyond_the_bound(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "equid-laminitis-history");
    s.animal.hay_nsc_pct = 20.0;
    run(&s, 16.0, &a);
    assert_true(advice_has(&a, REASON_WITHIN_STOP) && a.hay_bounded && a.ration.nsc_pct > a.stop_pct);
    assert_non_null(strstr(reason(REASON_WITHIN_STOP, &a, &s),
                           " % sugar (reckoned with hay of 12.8 %), over the limit of 12.8 %, yet under the 14.8 %"));
    assert_true(a.judged_nsc_pct > a.limit_pct && a.judged_nsc_pct < a.stop_pct);
    assert_non_null(strstr(reason(REASON_GRASS_OVER, &a, &s), "(reckoned with hay of 12.8 %); the limit for this"));
    /* half a kilogram of beet pulp, 6.3 %, is not what makes the hay bad */
    advice_feed(&s, "beet-pulp-plain", 0.5);
    run(&s, 16.0, &a);
    assert_false(a.base_over);
    assert_true(a.base_nsc_pct > 18.0 && a.judged_base_pct < 12.8);
    s.animal.hay_nsc_pct = 12.0;
    s.animal.feds = 0;
    run(&s, 16.0, &a);
    assert_false(a.hay_bounded);
    assert_null(strstr(reason(REASON_WITHIN_STOP, &a, &s), "reckoned"));
}

/* 2.3 % of a pony's weight in hay of 30 % is 6.9 g a kg, over the 5 of the day: no grass for that, and not because an
 * hour would pass the 20 % of a short hour. */
static void test_day_ceiling_by_hay_alone(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "pony");
    s.animal.hay_nsc_pct = 30.0;
    run(&s, 22.0, &a);
    assert_true(a.turnout == TURNOUT_NONE && advice_has(&a, REASON_DAY_CEILING));
    assert_false(advice_has(&a, REASON_STOP_OVER));
    assert_string_equal(reason(REASON_DAY_CEILING, &a, &s),
                        "What it is fed would by itself pass 5 g of sugar per kg of body weight in the day, which no "
                        "horse, pony or donkey should eat. Another hay first.");
    s.animal.hay_nsc_pct = 12.0;
    run(&s, 60.0, &a);
    assert_true(a.turnout == TURNOUT_NONE && advice_has(&a, REASON_STOP_OVER));
}

/* Oat hay, 21.8 %, given every day: no bucket is to blame. */
static void test_forage_fed_is_no_bucket(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "equid-laminitis-history");
    advice_feed(&s, "oat-hay-mid", 2.0);
    run(&s, 8.0, &a);
    assert_true(advice_has(&a, REASON_BUCKET) && a.base_over);
    assert_non_null(strstr(reason(REASON_BUCKET, &a, &s), "hay and the forage fed daily already bring"));
    assert_non_null(strstr(reason(REASON_BUCKET, &a, &s), "That is that forage, not the grass"));
}

/* The ration has less grass than the hours would bring; what they are judged by says so. */
static void test_grass_that_is_not_there(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    struct advice_grass g = advice_flat_grass(15.0);
    g.lasting_kg_head = 0.05;
    advice_subject(&s, "equid-laminitis-history");
    advise(&g, &s.animal, &support_params()->limits, &a);
    assert_true(advice_has(&a, REASON_WITHIN_STOP) && a.ration.lacking_dm_kg > 0.0);
    assert_true(a.ration.nsc_pct < a.limit_pct && a.judged_nsc_pct > a.limit_pct);
    assert_non_null(strstr(reason(REASON_WITHIN_STOP, &a, &s), " % sugar with grass enough, over the limit of 10 %"));
    advice_subject(&s, "horse");
    g = advice_flat_grass(9.0);
    g.lasting_kg_head = 0.05;
    advise(&g, &s.animal, &support_params()->limits, &a);
    assert_true(advice_has(&a, REASON_GRASS_UNDER));
    assert_non_null(strstr(reason(REASON_GRASS_UNDER, &a, &s), "stays at 9.0 % of dry matter with grass enough"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_esc_counts_no_less_than_the_table),
        cmocka_unit_test(test_esc_of_hay_that_no_table_knows),
        cmocka_unit_test(test_better_hay_than_esc),
        cmocka_unit_test(test_lot_is_given),
        cmocka_unit_test(test_poor_teeth),
        cmocka_unit_test(test_hay_beyond_the_bound),
        cmocka_unit_test(test_day_ceiling_by_hay_alone),
        cmocka_unit_test(test_forage_fed_is_no_bucket),
        cmocka_unit_test(test_grass_that_is_not_there),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
