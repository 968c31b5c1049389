/* The advice against arithmetic done by hand. Grass is flat and known, so the ration
 * is hay + share (grass - hay) with share = sqrt(H / 24), and the longest H follows
 * from the limit. Hay 9.5 % NSC unless said. Limits are the shipped classes'.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>

#include "support/advice_support.h"

static void run(struct advice_subject *s, double grass_pct, struct advice *a)
{
    struct advice_grass g = advice_flat_grass(grass_pct);
    advise(&g, &s->animal, &support_params()->limits, a);
}

static void assert_close(double value, double expected, double tolerance)
{
    if (!(fabs(value - expected) <= tolerance)) {
        fail_msg("%g is not %g +- %g", value, expected, tolerance);
    }
}

/* Horse 500 kg eats 10 kg; 18 % is under its 20 %: 1,800 g, 3.6 g/kg. */
static void test_free_turnout(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "horse");
    run(&s, 18.0, &a);
    assert_int_equal(a.turnout, TURNOUT_FREE);
    assert_close(a.hours, 24.0, 0.0);
    assert_close(a.hay_kg, 0.0, 0.0);
    assert_close(a.ration.grass_dm_kg, 10.0, 1e-9);
    assert_close(a.ration.nsc_pct, 18.0, 1e-9);
    assert_close(a.ration.nsc_g_kg_bw, 3.6, 1e-9);
    assert_close(a.from_h + a.to_h, 0.0, 0.0);
    assert_int_equal(a.reasons, 1u << REASON_GRASS_UNDER);
}

/* 9.5 + x 15.5 <= 20: x <= 0.6774, H <= 11.01: 11 h, x = 0.6770, 19.994 %. Half an
 * hour more: x = 0.6922, 20.23 %. Hay 3.230 kg DM / 0.898 = 3.597 kg. Starts at dawn. */
static void test_timed(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "horse");
    run(&s, 25.0, &a);
    assert_int_equal(a.turnout, TURNOUT_TIMED);
    assert_close(a.hours, 11.0, 0.0);
    assert_close(a.ration.nsc_pct, 19.994, 0.001);
    assert_close(a.longer_nsc_pct, 20.229, 0.001);
    assert_close(a.hay_kg, 3.597, 0.001);
    assert_close(a.from_h, 6.0, 0.0);
    assert_close(a.to_h, 17.0, 0.0);
    assert_int_equal(a.reasons, 1u << REASON_GRASS_OVER);
}

/* 11.4 %: x <= 0.5 / 1.9 = 0.2632, H <= 1.66: 1.5 h. The class's cap of 6 h: at 10.4 %
 * x <= 0.5556, H <= 7.4, so 6 h. */
static void test_history_timed_and_capped(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "equid-laminitis-history");
    run(&s, 11.4, &a);
    assert_int_equal(a.turnout, TURNOUT_TIMED);
    assert_close(a.hours, 1.5, 0.0);
    run(&s, 10.4, &a);
    assert_close(a.hours, 6.0, 0.0);
    assert_int_equal(a.reasons, 1u << REASON_MAX_HOURS);
}

/* Half an hour, x = 0.1443, bears 12.96 %; one hour, x = 0.2041, bears 21.75 % by the
 * stop limit of 12 %. So 18 % gives the brief hour: 9.5 + 0.2041 x 8.5 = 11.235 %;
 * 12 %, where half an hour is within caution, gives no less than that; 25 % none:
 * 9.5 + 0.2041 x 15.5 = 12.66 %. */
static void test_brief_and_none(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "equid-laminitis-history");
    run(&s, 18.0, &a);
    assert_int_equal(a.turnout, TURNOUT_BRIEF);
    assert_close(a.hours, 1.0, 0.0);
    assert_close(a.ration.nsc_pct, 11.235, 0.001);
    assert_true(advice_has(&a, REASON_WITHIN_STOP));
    run(&s, 12.0, &a);
    assert_int_equal(a.turnout, TURNOUT_BRIEF);
    assert_close(a.hours, 1.0, 0.0);
    run(&s, 25.0, &a);
    assert_int_equal(a.turnout, TURNOUT_NONE);
    assert_close(a.hours, 0.0, 0.0);
    assert_close(a.ration.hay_dm_kg, 4.5, 1e-9); /* 1.5 % of 300 kg */
    assert_close(a.hay_kg, 4.5 / 0.898, 1e-9);
    assert_true(advice_has(&a, REASON_STOP_OVER));
}

/* Ponies in muzzles take 0.21: 18 %: x <= 0.0588, sqrt(H/24) <= 0.2801, H <= 1.88:
 * 1.5 h, and an hour without. 25 %: half an hour within caution, one hour 9.5 +
 * 0.04287 x 15.5 = 10.16 %, within stop; without, none. */
static void test_muzzle(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "equid-laminitis-history");
    s.rules.muzzle_offered = true;
    run(&s, 18.0, &a);
    assert_int_equal(a.turnout, TURNOUT_TIMED);
    assert_true(a.muzzle);
    assert_close(a.hours, 1.5, 0.0);
    assert_close(a.hours_bare, 1.0, 0.0);
    assert_close(a.ration.grass_dm_kg, 4.5 * 0.21 * 0.25, 1e-9);
    assert_true(advice_has(&a, REASON_MUZZLE));
    run(&s, 25.0, &a);
    assert_int_equal(a.turnout, TURNOUT_BRIEF);
    assert_true(a.muzzle);
    assert_close(a.hours, 1.0, 0.0);
    assert_close(a.hours_bare, 0.0, 0.0);
    assert_close(a.ration.nsc_pct, 10.164, 0.001);
    s.rules.max_hours = 24.0; /* 16.4: x <= 0.0725, H 2.9: all of the 12 h that a muzzle stays on, and no longer */
    run(&s, 12.5, &a);
    assert_true(a.muzzle);
    assert_close(a.hours, 12.0, 0.0);
    assert_true(isnan(a.longer_nsc_pct));
    assert_false(advice_has(&a, REASON_GRASS_OVER));
    s.rules.max_hours = 6.0;
    run(&s, 11.4, &a); /* an hour and a half fits bare: no muzzle */
    assert_false(a.muzzle);
    assert_close(a.hours_bare, a.hours, 0.0);
}

/* Hay of 12.8 % against 12 %: limits become 12.8 and 15.8; free is not offered even on
 * poorer grass; on 15 % grass an hour gives 12.8 + 0.2041 x 2.2 = 13.25 %. */
static void test_hay_over(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "equid-at-risk");
    s.animal.hay_nsc_pct = (double)NAN; /* the table's */
    run(&s, 12.5, &a);
    assert_true(a.hay_over);
    assert_false(a.hay_analysed);
    assert_close(a.limit_pct, 12.8, 1e-9);
    assert_close(a.stop_pct, 15.8, 1e-9);
    assert_int_equal(a.turnout, TURNOUT_TIMED);
    assert_close(a.hours, 23.5, 0.0);
    assert_true(advice_has(&a, REASON_HAY_OVER));
    run(&s, 15.0, &a);
    assert_int_equal(a.turnout, TURNOUT_BRIEF);
    assert_close(a.ration.nsc_pct, 13.249, 0.001);
}

static void test_acute(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "equid-acute");
    advice_feed(&s, "oats", 0.5);
    run(&s, 5.0, &a);
    assert_int_equal(a.turnout, TURNOUT_NONE);
    assert_true(advice_has(&a, REASON_ACUTE));
    assert_true(a.bucket_dropped);
    assert_close(a.ration.dm_kg, 4.5, 1e-9); /* all hay: 1.5 % of 300 kg */
    assert_close(a.ration.hay_dm_kg, 4.5, 1e-9);
}

static void test_foot_signs_beat_everything(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "goat-dry");
    s.animal.foot_signs = true;
    run(&s, 1.0, &a);
    assert_int_equal(a.turnout, TURNOUT_NONE);
    assert_true(advice_has(&a, REASON_FOOT_SIGNS));
    assert_close(a.ration.hay_dm_kg, 1.5, 1e-9); /* 2.5 % of 60 kg: not starved */
}

/* Day 7 after a killing frost still counts, day 8 does not. */
static void test_killing_frost(void **state)
{
    (void)state;
    const struct advice_limits *l = &support_params()->limits;
    struct advice_subject s;
    struct advice a;
    struct advice_grass g = advice_flat_grass(6.0);
    g.days_since_killing_frost = 7;
    advice_subject(&s, "horse");
    advise(&g, &s.animal, l, &a);
    assert_int_equal(a.turnout, TURNOUT_TIMED);
    assert_close(a.hours, 23.5, 0.0);
    assert_true(advice_has(&a, REASON_KILLING_FROST));
    advice_subject(&s, "equid-at-risk");
    s.rules.muzzle_offered = true;
    advise(&g, &s.animal, l, &a);
    assert_int_equal(a.turnout, TURNOUT_BRIEF);
    assert_close(a.hours, 1.0, 0.0);
    assert_false(a.muzzle); /* all that is allowed fits without */
    g.days_since_killing_frost = 8;
    advise(&g, &s.animal, l, &a);
    assert_int_equal(a.turnout, TURNOUT_FREE);
}

/* Milking mare 550 kg eats 14.3 kg; 5 g/kg is 2,750 g. Grass 19.5 % is under her 20 %
 * but brings 2,788 g. 95 (14.3 - g) + 195 g <= 2,750: g <= 13.915 kg, x <= 0.9731,
 * H <= 22.7: 22.5 h. */
static void test_day_ceiling(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "mare-lactating");
    run(&s, 19.5, &a);
    assert_int_equal(a.turnout, TURNOUT_TIMED);
    assert_close(a.hours, 22.5, 0.0);
    assert_true(a.ration.nsc_g_kg_bw <= 5.0);
    assert_int_equal(a.reasons, 1u << REASON_DAY_CEILING);
}

/* Doe 62 kg eats 2.48 kg; 0.5 kg oats are 0.4465 kg DM of 28.6 % NDF. The floor of 41 %
 * needs 41.8 g + 66.7 (2.0335 - g) + 28.6 x 0.4465 >= 41 x 2.48: g <= 1.8765 kg,
 * x <= 0.7566, H <= 13.7: 13.5 h; NSC is then 16.98 % of an allowed 18 %. */
static void test_goat_fibre(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "goat-lactating");
    advice_feed(&s, "oats", 0.5);
    s.animal.hay_nsc_pct = 12.8;
    run(&s, 10.0, &a);
    assert_int_equal(a.turnout, TURNOUT_TIMED);
    assert_close(a.hours, 13.5, 0.0);
    assert_close(a.ration.nsc_pct, 16.98, 0.01);
    assert_true(a.ration.ndf_pct >= 41.0);
    assert_true(advice_has(&a, REASON_FIBRE));
    assert_false(advice_has(&a, REASON_GRASS_OVER));
    assert_true(advice_has(&a, REASON_OUR_CAPS));
    assert_false(a.bucket_dropped);
}

/* Wether 60 kg, 1.2 kg beet pulp with molasses = 1.0872 kg DM of 39.7 % NDF, and oats
 * 0.4 kg = 0.3572 kg of 28.6 %; the least hay, 0.9 kg of 42 %: 38.9 %, under 41 without
 * a blade of grass: an hour at most. The same hay at 40 % is itself to blame. */
static void test_bucket_breaks_fibre(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    struct feed soft = *params_feed(support_params(), "grass-hay-mature");
    soft.ndf_pct = 42.0;
    advice_subject(&s, "goat-dry");
    s.rules.nsc_caution_pct = 40.0; /* fibre alone is looked at */
    s.rules.nsc_stop_pct = 45.0;
    s.animal.hay = &soft;
    advice_feed(&s, "beet-pulp-molassed", 1.2);
    advice_feed(&s, "oats", 0.4);
    run(&s, 10.0, &a);
    assert_true(a.bucket_low_fibre);
    assert_true(advice_has(&a, REASON_FIBRE));
    assert_int_equal(a.turnout, TURNOUT_BRIEF);
    soft.ndf_pct = 40.0;
    run(&s, 10.0, &a);
    assert_true(a.hay_low_fibre);
    assert_false(a.bucket_low_fibre);
    assert_true(advice_has(&a, REASON_FIBRE));
    assert_int_equal(a.turnout, TURNOUT_FREE);
}

/* 1 kg oats for a pony at risk of 300 kg: 0.893 kg DM x 47.7 % and 5.107 kg hay x 9.5 %
 * make 15.19 % of 6 kg: over 12 and over 15 without grass. It is the bucket's fault. */
static void test_bucket_over_without_grass(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "equid-at-risk");
    advice_feed(&s, "oats", 1.0);
    run(&s, 14.0, &a);
    assert_int_equal(a.turnout, TURNOUT_NONE);
    assert_close(a.base_nsc_pct, 15.186, 0.001);
    assert_int_equal(a.reasons, 1u << REASON_BUCKET);
}

/* Pellets of unknown fibre: not judged, and said. */
static void test_unknown_fibre(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "goat-lactating");
    advice_feed(&s, "goat-pellet-low", 0.2);
    run(&s, 10.0, &a);
    assert_true(advice_has(&a, REASON_FIBRE_UNKNOWN));
    assert_int_equal(a.turnout, TURNOUT_FREE);
    assert_true(isnan(a.ration.ndf_pct));
}

/* A ewe in lamb keeps her 3 % of 75 kg = 2.25 kg whatever the hours. */
static void test_pregnant_not_slimmed(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "ewe-late-pregnant");
    for (double grass = 5.0; grass < 90.0; grass += 5.0) {
        run(&s, grass, &a);
        assert_true(a.ration.dm_kg >= 2.25 - 1e-9);
    }
    assert_int_equal(a.turnout, TURNOUT_BRIEF);
}

/* A sward that can give 2 kg: the horse's other 8 kg are hay. */
static void test_bare_paddock(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    struct advice_grass g = advice_flat_grass(15.0);
    g.available_kg_head = 2.0;
    advice_subject(&s, "horse");
    advise(&g, &s.animal, &support_params()->limits, &a);
    assert_int_equal(a.turnout, TURNOUT_FREE);
    assert_close(a.ration.hay_dm_kg, 8.0, 1e-9);
    assert_close(a.ration.nsc_pct, (2.0 * 15.0 + 8.0 * 9.5) / 10.0, 1e-9);
    g.available_kg_head = 0.0;
    advise(&g, &s.animal, &support_params()->limits, &a);
    assert_close(a.ration.nsc_pct, 9.5, 1e-9);
}

/* The judged level: the normal quantiles of 0.7 and 0.8 are 0.5244 and 0.8416 (any
 * table), so 100 g/kg at ln-SD 0.36 counts as 120.8 and 135.4. */
static void test_level(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    struct advice_grass g = advice_flat_grass(10.0);
    g.ln_sd = 0.36;
    advice_subject(&s, "equid-at-risk");
    advise(&g, &s.animal, &support_params()->limits, &a);
    assert_close(a.level_g_kg, 120.8, 0.05);
    advice_subject(&s, "equid-laminitis-history");
    advise(&g, &s.animal, &support_params()->limits, &a);
    assert_close(a.level_g_kg, 135.4, 0.05);
    advice_subject(&s, "horse");
    advise(&g, &s.animal, &support_params()->limits, &a);
    assert_close(a.level_g_kg, 100.0, 1e-9);
}

/* 0.05 kg molasses = 0.0327 kg DM x 60.8 % = 19.9 g over 300 kg: 0.066 g/kg, under 0.1;
 * 0.1 kg is over. */
static void test_bucket(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "equid-laminitis-history");
    advice_feed(&s, "molasses", 0.05);
    run(&s, 9.0, &a);
    assert_false(advice_has(&a, REASON_BUCKET));
    assert_close(a.ration.bucket_nsc_g_kg, 0.0663, 0.0001);
    s.fed[0].kg = 0.1;
    run(&s, 9.0, &a);
    assert_true(advice_has(&a, REASON_BUCKET));
    s.animal.hay_nsc_pct = 7.0; /* by itself, where hay and bucket together stay under the limit */
    run(&s, 9.0, &a);
    assert_true(a.base_nsc_pct < 10.0 && advice_has(&a, REASON_BUCKET));
}

/* What must be known and is not: no grazing, and said. */
static void test_unknown(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "pony");
    struct advice_grass g = advice_flat_grass(8.0);
    g.nsc[13] = (double)NAN;
    advise(&g, &s.animal, &support_params()->limits, &a);
    assert_int_equal(a.turnout, TURNOUT_NONE);
    assert_true(advice_has(&a, REASON_UNKNOWN));
    assert_close(a.ration.hay_dm_kg, 5.75, 1e-9); /* 2.3 % of 250 kg */
    g = advice_flat_grass(8.0);
    g.ln_sd = (double)NAN;
    advise(&g, &s.animal, &support_params()->limits, &a);
    assert_true(advice_has(&a, REASON_UNKNOWN));
    s.fed[s.animal.feds++] = (struct fed){params_feed(support_params(), "oats"), (double)NAN};
    run(&s, 8.0, &a);
    assert_true(advice_has(&a, REASON_UNKNOWN));
    assert_close(a.ration.hay_dm_kg, 5.75, 1e-9);
}

/* Hay nobody knows counts as standing at the limit: never free, never condemned. */
static void test_unknown_hay(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "pony");
    struct feed nameless = {.is_forage = true,
                            .dm_pct = (double)NAN,
                            .nsc_pct = (double)NAN,
                            .wsc_pct = (double)NAN,
                            .starch_pct = (double)NAN,
                            .ndf_pct = (double)NAN};
    s.animal.hay = &nameless;
    s.animal.hay_nsc_pct = (double)NAN;
    run(&s, 8.0, &a);
    assert_true(advice_has(&a, REASON_HAY_UNKNOWN));
    assert_false(a.hay_over);
    assert_int_equal(a.turnout, TURNOUT_TIMED);
    assert_true(isnan(a.hay_nsc_pct));
    assert_close(a.hay_kg, a.ration.hay_dm_kg / 0.86, 1e-9); /* bales: 86 % DM */
    s.animal.hay = NULL;
    run(&s, 8.0, &a);
    assert_true(advice_has(&a, REASON_HAY_UNKNOWN));
}

/* The horse of test_timed on grass of doubt 0.36, p = 0.5: a test changes nothing for
 * it. Hay of 8 %: 8 + 17 x <= 20, x <= 0.7059, H <= 11.96: 11.5 h. Muzzled, 0.70 x:
 * x <= 0.6774, H <= 22.5, cut to 12. */
static void test_what_if(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice_what_if w;
    struct advice_grass g = advice_flat_grass(25.0);
    g.ln_sd = 0.36;
    advice_subject(&s, "horse");
    advise_what_if(&g, 0.25, &s.animal, &support_params()->limits, &w);
    assert_close(w.hours_tested_grass, 11.0, 0.0);
    assert_close(w.hours_better_hay, 11.5, 0.0);
    assert_true(isnan(w.hours_muzzled));
    s.rules.muzzle_offered = true;
    advise_what_if(&g, 0.25, &s.animal, &support_params()->limits, &w);
    assert_close(w.hours_muzzled, 12.0, 0.0);
    /* at risk, central 11 %: judged at 13.3 % untested, 12.5 % tested (z 0.5244):
     * x <= 2.5 / 3.786, H <= 10.46; x <= 2.5 / 3.041, H <= 16.2 */
    struct advice a;
    advice_subject(&s, "equid-at-risk");
    g = advice_flat_grass(11.0);
    g.ln_sd = 0.36;
    advise(&g, &s.animal, &support_params()->limits, &a);
    advise_what_if(&g, 0.25, &s.animal, &support_params()->limits, &w);
    assert_close(a.hours, 10.0, 0.0);
    assert_close(w.hours_tested_grass, 16.0, 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_free_turnout),
        cmocka_unit_test(test_timed),
        cmocka_unit_test(test_history_timed_and_capped),
        cmocka_unit_test(test_brief_and_none),
        cmocka_unit_test(test_muzzle),
        cmocka_unit_test(test_hay_over),
        cmocka_unit_test(test_acute),
        cmocka_unit_test(test_foot_signs_beat_everything),
        cmocka_unit_test(test_killing_frost),
        cmocka_unit_test(test_day_ceiling),
        cmocka_unit_test(test_goat_fibre),
        cmocka_unit_test(test_bucket_breaks_fibre),
        cmocka_unit_test(test_bucket_over_without_grass),
        cmocka_unit_test(test_unknown_fibre),
        cmocka_unit_test(test_pregnant_not_slimmed),
        cmocka_unit_test(test_bare_paddock),
        cmocka_unit_test(test_level),
        cmocka_unit_test(test_bucket),
        cmocka_unit_test(test_unknown),
        cmocka_unit_test(test_unknown_hay),
        cmocka_unit_test(test_what_if),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
