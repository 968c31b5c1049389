/* The parts, sums and verdicts of a ration, worked by hand (computed by us from the
 * contents of NASEM 2021, Table 19-1). SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "support/near.h"
#include "support/scene.h"

/* An acute pony of 300 kg: no grass; 1.5 % of 300 = 4.5 kg DM of mature grass hay, 89.8 %
 * dry: 5.011 kg fed; 12.8 % NSC = 576 g, 2 % starch = 90 g, 66.7 % NDF = 3,001.5 g, 2.34
 * Mcal = 9.79056 MJ a kg. */
static void test_hay_alone(void **state)
{
    (void)state;
    struct scene s;
    scene_make(&s, "equid-acute", 300, "grass-hay-mature");
    scene_work_out(&s);
    const struct account *a = &s.account;
    assert_int_equal(a->parts, 2);
    assert_near(a->part[0].dm_kg, 0.0, 0.0);
    assert_near(a->grass_mean_g_kg, 200.0, 1e-9);
    assert_near(a->part[1].fed_kg, 4.5 / 0.898, 1e-9);
    assert_near(a->amount[CONTENT_NSC], 576.0, 1e-9);
    assert_near(a->amount[CONTENT_STARCH], 90.0, 1e-9);
    assert_near(a->amount[CONTENT_SUGAR], 486.0, 1e-9);
    assert_near(a->amount[CONTENT_NDF], 3001.5, 1e-9);
    assert_near(a->amount[CONTENT_ENERGY], 4.5 * 2.34 * 4.184, 1e-9);
    assert_near(a->content[CONTENT_ENERGY], 9.79056, 1e-9);
    assert_near(s.advice.ration.nsc_g_kg_bw, 1.92, 1e-9);
    assert_int_equal(scene_state(&s, VERDICT_NSC), STATE_OVER); /* 10 % */
    scene_tells(&s, VERDICT_NSC, "12.8 % of dry matter (most 10): 2.8 over");
    scene_tells(&s, VERDICT_NSC, "have it tested");
    assert_int_equal(scene_state(&s, VERDICT_FORAGE), STATE_WITHIN);
    assert_int_equal(scene_state(&s, VERDICT_NDF), STATE_NONE);
    assert_true(a->by_table && !a->unknown && !a->esc);
}

/* A horse of 500 kg with 2 kg barley: 1.774 kg DM, 56.7 % starch = 1,005.86 g, 2.01 g/kg:
 * over 1 a meal and just over 2 a day (Luthersson 2009, seen second-hand). */
static void test_starch_of_a_bucket(void **state)
{
    (void)state;
    struct scene s;
    scene_make(&s, "horse", 500, "grass-hay-mature");
    scene_add_bucket(&s, "barley", 2.0);
    scene_work_out(&s);
    assert_near(s.account.verdict[VERDICT_STARCH].value, 2.0 * 0.887 * 567.0 / 500.0, 1e-9);
    assert_int_equal(scene_state(&s, VERDICT_STARCH), STATE_OVER);
    assert_int_equal(scene_state(&s, VERDICT_STARCH_DAY), STATE_OVER);
    scene_tells(&s, VERDICT_STARCH, "split it into 3 or more meals");
    scene_tells(&s, VERDICT_STARCH_DAY,
                "starch of the bucket in the day 2.01 g a kg of body weight (most 2): 0.01 over");
    scene_tells(&s, VERDICT_STARCH_DAY, "at most 99 %");
    assert_int_equal(scene_state(&s, VERDICT_GRAIN), STATE_NONE); /* of goats and sheep */
    s.group.fed[0].kg = 0.99;                                     /* 0.996 g/kg */
    scene_work_out(&s);
    assert_int_equal(scene_state(&s, VERDICT_STARCH), STATE_WITHIN);
}

/* 0.1 g NSC/kg a bucket meal (Macon et al. 2023; Kerley et al. 2025): 0.07 kg of oats for
 * 300 kg are 0.0994, 0.071 kg 0.1008. Grass of a gram and more a kg breaks no meal limit. */
static void test_bucket_of_a_sensitive_pony(void **state)
{
    (void)state;
    struct scene s;
    scene_make(&s, "equid-laminitis-history", 300, "grass-hay-mature");
    s.lot.nsc_pct = 8.0;
    s.grass = advice_flat_grass(12.0);
    scene_add_bucket(&s, "oats", 0.07);
    scene_work_out(&s);
    assert_near(s.account.verdict[VERDICT_BUCKET_NSC].value, 0.07 * 0.893 * 477.0 / 300.0, 1e-9);
    assert_int_equal(scene_state(&s, VERDICT_BUCKET_NSC), STATE_WITHIN);
    assert_true(s.advice.hours > 1.0 && account_amount(&s.account.part[0], CONTENT_NSC) > 0.1 * 300.0);
    s.group.fed[0].kg = 0.071;
    scene_work_out(&s);
    assert_int_equal(scene_state(&s, VERDICT_BUCKET_NSC), STATE_OVER);
    scene_tells(&s, VERDICT_BUCKET_NSC, "ask the vet");
    scene_tells(&s, VERDICT_BUCKET_NSC, "just over");
}

/* Starch of the grass keeps its share of what the sward holds: the level that is judged, and the hours
 * eaten, raise and lower both alike. No hours hang on it. */
static void test_starch_of_the_grass_is_judged_too(void **state)
{
    (void)state;
    struct scene s;
    scene_make(&s, "equid-at-risk", 300, "grass-hay-mature");
    s.lot.nsc_pct = 8.0;
    s.grass = advice_flat_grass(12.0);
    s.grass.ln_sd = 0.36;
    s.grass.starch_pct = 1.2; /* a tenth */
    scene_work_out(&s);
    const double *holds = s.account.part[0].content, hours = s.advice.hours;
    assert_near(holds[CONTENT_NSC], 12.0 * exp(0.524401 * 0.36), 1e-4); /* z of 0.7, normal table */
    assert_near(holds[CONTENT_STARCH], 0.1 * holds[CONTENT_NSC], 1e-9);
    assert_near(holds[CONTENT_SUGAR], 0.9 * holds[CONTENT_NSC], 1e-9);
    s.grass.starch_pct = (double)NAN; /* what the sward does not say is the table's: 2.1 % (NASEM 2021) */
    scene_work_out(&s);
    assert_near(s.account.part[0].content[CONTENT_STARCH], 2.1, 1e-9);
    assert_true(hours > 0.0 && s.advice.hours == hours);
}

/* More than 1 lb of grain at once is much for a goat (seen second-hand); beet pulp is none. */
static void test_grain_of_goats(void **state)
{
    (void)state;
    struct scene s;
    scene_make(&s, "goat-lactating", 62, "grass-hay-mature");
    scene_add_bucket(&s, "beet-pulp-plain", 0.6);
    scene_add_bucket(&s, "oats", 0.45);
    scene_work_out(&s);
    assert_near(s.account.verdict[VERDICT_GRAIN].value, 0.45, 1e-12);
    assert_int_equal(scene_state(&s, VERDICT_GRAIN), STATE_WITHIN);
    s.group.fed[1].kg = 0.46;
    scene_work_out(&s);
    assert_int_equal(scene_state(&s, VERDICT_GRAIN), STATE_OVER);
    scene_tells(&s, VERDICT_GRAIN, "2 or more meals");
}

/* Foot signs: no grass, no bucket; hay takes its place and is all there is. */
static void test_emergency_leaves_the_bucket_out(void **state)
{
    (void)state;
    struct scene s;
    const char *note[ACCOUNT_NOTES];
    scene_make(&s, "goat-lactating", 60, "grass-hay-mature");
    scene_add_bucket(&s, "oats", 0.3);
    scene_add_bucket(&s, "wheat-straw", 0.2);
    s.animal.foot_signs = true;
    scene_work_out(&s);
    const struct account *a = &s.account;
    assert_true(a->part[2].left_out && a->part[2].dm_kg == 0.0);
    assert_true(!a->part[3].left_out && a->part[3].kind == PART_FORAGE);
    assert_near(a->amount[CONTENT_NSC], 128.0 * a->part[1].dm_kg + 60.0 * 0.2 * 0.895, 1e-9);
    assert_near(a->dm_kg, 2.4, 1e-9); /* 4 % of 60 kg: a milking goat is not cut short */
    assert_near(a->forage_kg, a->part[1].dm_kg + a->part[3].dm_kg, 1e-9); /* hay and straw */
    assert_true(account_notes(a, false, note, ACCOUNT_NOTES) > 0 && strstr(note[0], "left out"));
}

/* ESC + starch leaves out fructan: under the limit it proves nothing. */
static void test_esc_is_no_pass(void **state)
{
    (void)state;
    struct scene s;
    char text[640];
    scene_make(&s, "pony", 250, "grass-hay-mature");
    s.lot.nsc_pct = 8.0;
    s.grass = advice_flat_grass(9.0);
    snprintf(s.lot.nsc_is, sizeof s.lot.nsc_is, "wsc+starch");
    s.advice = (struct advice){0};
    s.grass.available_kg_head = 1.0; /* so that there is hay beside it */
    scene_work_out(&s);
    assert_int_equal(scene_state(&s, VERDICT_NSC), STATE_WITHIN);
    snprintf(s.lot.nsc_is, sizeof s.lot.nsc_is, "esc+starch");
    scene_work_out(&s);
    assert_int_equal(scene_state(&s, VERDICT_NSC), STATE_UNSURE);
    scene_tells(&s, VERDICT_NSC, "ask the laboratory for WSC");
    account_hay_text(&s.account, text, sizeof text);
    assert_string_equal(text,
                        "not analysed: every figure is a table's, or not known. The laboratory's 8 % is ESC + "
                        "starch, which leaves out most fructan: the table's 12.8 % counts. Ask for WSC + starch.");
    assert_int_equal(s.account.part[1].from, FROM_TABLE);
    assert_near(s.account.part[1].content[CONTENT_NSC], 12.8, 1e-9);
    s.lot.nsc_pct = 14.0;
    scene_work_out(&s);
    assert_int_equal(s.account.part[1].from, FROM_ESC);
    assert_near(s.account.part[1].content[CONTENT_NSC], 14.0, 1e-9);
    assert_int_equal(scene_state(&s, VERDICT_NSC), STATE_UNSURE);
    assert_false(s.account.by_table);
    account_hay_text(&s.account, text, sizeof text);
    assert_ptr_equal(strstr(text, "analysed, but for starch, "), text);
    s.lot.contents.nsc_pct = s.lot.contents.wsc_pct = (double)NAN; /* the class's 15 % is more than 14 */
    scene_work_out(&s);
    assert_int_equal(s.account.part[1].from, FROM_NOBODY);
    assert_near(s.account.part[1].content[CONTENT_NSC], 15.0, 1e-9);
    account_hay_text(&s.account, text, sizeof text);
    assert_ptr_equal(strstr(text, "not analysed: "), text);
    s.lot.nsc_pct = 17.0;
    scene_work_out(&s);
    assert_near(s.account.part[1].content[CONTENT_NSC], 17.0, 1e-9);
    s.grass.available_kg_head = 0.0;
    scene_work_out(&s);
    scene_tells(&s, VERDICT_NSC,
                "The hay alone holds 17.0 % and more, as ESC + starch leaves out most fructan: have it tested for WSC");
}

/* Half of a kid's dry matter may be concentrate (models/animals.json). Without grass: 25 kg x 3.5 % = 0.875 kg, of
 * which 0.4375 kg of beet pulp, 92.3 % dry, is the half; of a pony's nobody set a share. */
static void test_share_of_concentrate(void **state)
{
    (void)state;
    struct scene s;
    double half = 0.4375 / 0.923;
    scene_make(&s, "goat-growing", 25, "grass-hay-mature");
    s.grass.available_kg_head = 0.0;
    scene_add_bucket(&s, "beet-pulp-plain", 0.25);
    scene_work_out(&s); /* 0.231 kg of it: hay fills the rest of the day */
    assert_near(s.account.verdict[VERDICT_CONCENTRATE].value, 100.0 * 0.25 * 0.923 / 0.875, 1e-9);
    assert_int_equal(scene_state(&s, VERDICT_CONCENTRATE), STATE_WITHIN);
    s.group.rules.min_forage_pct = 1.0; /* so that the forage floor leaves room for half */
    s.group.fed[0].kg = half * 1.01;
    scene_work_out(&s);
    assert_int_equal(scene_state(&s, VERDICT_CONCENTRATE), STATE_OVER);
    scene_tells(&s, VERDICT_CONCENTRATE,
                "concentrate 50.5 % of dry matter (most 50): 0.5 over. Too much for the rumen");
    scene_tells(&s, VERDICT_CONCENTRATE, "ask the vet first");
    s.group.fed[0].kg = half;
    scene_work_out(&s);
    assert_int_equal(scene_state(&s, VERDICT_CONCENTRATE), STATE_WITHIN);
    s.animal.foot_signs = true; /* the bucket is left out */
    scene_work_out(&s);
    assert_near(s.account.verdict[VERDICT_CONCENTRATE].value, 0.0, 0.0);
    scene_make(&s, "pony", 250, "grass-hay-mature");
    scene_add_bucket(&s, "beet-pulp-plain", 3.0);
    scene_work_out(&s);
    assert_int_equal(scene_state(&s, VERDICT_CONCENTRATE), STATE_NONE);
}

/* No straw, and no coarse hay that is not soaked, of which the forage stays as much. */
static void test_forage_for_poor_teeth(void **state)
{
    (void)state;
    struct scene s;
    char text[640];
    scene_make(&s, "goat-dry", 60, "grass-hay-mature");
    s.grass.available_kg_head = 0.0;
    scene_work_out(&s);
    double forage = s.account.forage_kg, hay = s.account.part[1].fed_kg;
    assert_int_equal(scene_state(&s, VERDICT_TEETH), STATE_NONE);
    s.group.history = HISTORY_POOR_TEETH;
    scene_work_out(&s);
    assert_near(s.account.forage_kg, forage, 0.0);
    assert_near(s.account.verdict[VERDICT_TEETH].value, hay, 0.0);
    assert_near(hay, 1.5 / 0.898, 1e-9);
    scene_tells(&s, VERDICT_TEETH, "straw and coarse dry hay 1.67 kg (most 0): 1.67 over. This hay is too coarse");
    assert_non_null(strstr(account_verdict_text(&s.account, VERDICT_TEETH, SHOW_US, text, sizeof text),
                           "straw and coarse dry hay 3.68 lb (most 0)"));
    s.lot.soaked_h = 0.5;
    scene_work_out(&s);
    assert_int_equal(scene_state(&s, VERDICT_TEETH), STATE_WITHIN);
    scene_add_bucket(&s, "wheat-straw", 0.2);
    scene_add_bucket(&s, "bermuda-hay", 0.1);
    scene_add_bucket(&s, "mixed-hay", 0.1);
    scene_work_out(&s);
    assert_near(s.account.verdict[VERDICT_TEETH].value, 0.3, 1e-12);
    scene_tells(&s, VERDICT_TEETH,
                "0.30 over. Leave the straw out, soaked or not: soft hay in its place. Soak the hay that is fed daily, "
                "or give a softer one, and no less.");
    s.group.feds = 0; /* straw for hay: soaking makes no hay of it */
    s.lot.feed = params_feed(support_params(), "wheat-straw");
    s.lot.contents = *s.lot.feed;
    scene_work_out(&s);
    scene_tells(&s, VERDICT_TEETH, "Straw is nothing for poor teeth, soaked or not");
    s.grass.available_kg_head = (double)NAN; /* grass all day and nothing beside it */
    s.grass = advice_flat_grass(9.0);
    scene_work_out(&s);
    assert_near(s.account.part[1].dm_kg, 0.0, 0.0);
    assert_int_equal(scene_state(&s, VERDICT_TEETH), STATE_WITHIN);
    scene_add_bucket(&s, "wheat-straw", 0.2); /* of what is not fed nothing is said */
    scene_work_out(&s);
    assert_near(s.account.part[1].dm_kg, 0.0, 0.0);
    scene_tells(&s, VERDICT_TEETH, "0.20 over. Leave the straw out, soaked or not: soft hay in its place.");
}

/* What nobody knows counts as at the limit, and is never within it for sure. */
static void test_unknown_sugar(void **state)
{
    (void)state;
    struct scene s;
    struct feed mystery = {.id = "mystery",
                           .nsc_pct = (double)NAN,
                           .wsc_pct = (double)NAN,
                           .starch_pct = (double)NAN,
                           .ndf_pct = (double)NAN,
                           .dm_pct = (double)NAN,
                           .adf_pct = (double)NAN,
                           .cp_pct = (double)NAN,
                           .de_mcal_kg = (double)NAN};
    scene_make(&s, "goat-dry", 60, "grass-hay-mature");
    s.lot.nsc_pct = 6.0;
    s.group.fed[s.group.feds++] = (struct fed){&mystery, 0.1};
    scene_work_out(&s);
    assert_int_equal(s.account.part[2].from, FROM_NOBODY);
    assert_near(s.account.part[2].content[CONTENT_NSC], 15.0, 0.0); /* the class's caution limit */
    assert_near(s.account.part[2].dm_kg, 0.086, 1e-12);             /* 86 % dry: common practice */
    assert_int_equal(scene_state(&s, VERDICT_NDF), STATE_UNSURE);
    assert_true(scene_state(&s, VERDICT_NSC) != STATE_WITHIN);
    assert_near(s.account.verdict[VERDICT_GRAIN].value, 0.1, 1e-12); /* as much as it may be grain */
    assert_true(isnan(s.account.amount[CONTENT_ENERGY]));
}

/* Twelve hours in cold water: 25 % off the 10.8 % WSC, starch 2 % as it is: 10.1 %. */
static void test_soaked(void **state)
{
    (void)state;
    struct scene s;
    char text[640];
    scene_make(&s, "equid-acute", 300, "grass-hay-mature");
    s.lot.soaked_h = 12.0;
    scene_work_out(&s);
    assert_near(s.account.soaked_hay_nsc_pct, 10.1, 1e-9);
    assert_near(s.account.soaked_nsc_pct, 10.1, 1e-9); /* there is nothing else */
    assert_near(s.account.content[CONTENT_NSC], 12.8, 1e-9);
    assert_non_null(strstr(account_soak_text(&s.account, text, sizeof text), "about 10.1 %"));
    assert_non_null(strstr(text, "No pass"));
    assert_non_null(strstr(account_soak_loss_text(s.account.credit, text, sizeof text), "5 to 18 % more"));
    s.lot.nsc_pct = 9.0; /* tested after soaking: that holds, and no credit on top */
    s.lot.tested_after = true;
    scene_work_out(&s);
    assert_null(s.account.credit);
    assert_non_null(strstr(account_soak_text(&s.account, text, sizeof text), "measured after it was soaked"));
    assert_int_equal(scene_state(&s, VERDICT_NSC), STATE_WITHIN);
}

/* Models without a table of pasture: the grass is counted as dry as it is eaten, and no more is known of it. */
static void test_grass_without_a_table(void **state)
{
    (void)state;
    struct scene s;
    struct params p = *support_params();
    p.feeds = 0;
    scene_make(&s, "pony", 250, "grass-hay-mature");
    scene_work_out(&s);
    double kg = s.account.part[0].dm_kg;
    assert_true(kg > 0.0);
    assert_near(s.account.part[0].fed_kg, kg / 0.193, 1e-9); /* NASEM 2021: 19.3 % dry */
    account_make(&s.advice, &s.animal, &s.grass, &s.group, &s.lot, &p, &s.account);
    assert_string_equal(s.account.part[0].name, "grass");
    assert_near(s.account.part[0].fed_kg, kg, 1e-9);
    assert_true(isnan(s.account.part[0].content[CONTENT_ADF]) && isnan(s.account.part[0].content[CONTENT_ENERGY]));
    assert_near(s.account.part[0].content[CONTENT_NSC], 20.0, 1e-9);
}

/* A bucket that is left out cannot make the ration unknown. */
static void test_what_is_not_fed_is_not_unknown(void **state)
{
    (void)state;
    struct scene s;
    struct feed mystery = *params_feed(support_params(), "oats");
    mystery.nsc_pct = mystery.wsc_pct = mystery.starch_pct = (double)NAN;
    scene_make(&s, "pony", 250, "grass-hay-mature");
    s.group.fed[s.group.feds++] = (struct fed){&mystery, 0.1};
    scene_work_out(&s);
    assert_true(s.account.unknown);
    s.animal.foot_signs = true;
    scene_work_out(&s);
    assert_true(!s.account.unknown && s.account.part[2].left_out);
}

static void test_what_of_the_hay_was_analysed(void **state)
{
    (void)state;
    struct scene s;
    char text[256];
    scene_make(&s, "pony", 250, "grass-hay-mature");
    scene_work_out(&s);
    assert_non_null(strstr(account_hay_text(&s.account, text, sizeof text), "not analysed: every figure"));
    s.lot.nsc_pct = 8.0;
    s.lot.dm_pct = 85.0;
    scene_work_out(&s);
    assert_string_equal(account_hay_text(&s.account, text, sizeof text),
                        "analysed, but for starch, NDF and energy: a table's, or not known.");
    s.lot.starch_pct = s.lot.ndf_pct = s.lot.energy_mj_kg = 8.0;
    scene_work_out(&s);
    assert_string_equal(account_hay_text(&s.account, text, sizeof text), "analysed.");
    s.lot.starch_pct = (double)NAN; /* a short buffer is filled and closed, never passed */
    for (size_t size = 1; size < 70; size++) {
        memset(text, 'x', sizeof text);
        account_hay_text(&s.account, text, size);
        size_t most = strlen("analysed, but for starch: a table's, or not known.");
        assert_int_equal(strlen(text), size - 1 < most ? size - 1 : most);
        assert_int_equal(text[size], 'x');
    }
}

/* A growing kid's floor of 23 % ADF (Lu et al. 2005) is said; remembered table values
 * judge nothing. */
static void test_adf_is_never_judged(void **state)
{
    (void)state;
    struct scene s;
    scene_make(&s, "goat-growing", 25, "grass-hay-mature");
    scene_work_out(&s);
    assert_near(s.account.verdict[VERDICT_ADF].limit, 23.0, 0.0);
    assert_int_equal(scene_state(&s, VERDICT_ADF), STATE_UNSURE);
    scene_tells(&s, VERDICT_ADF, "too unsure to judge by");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_hay_alone),
        cmocka_unit_test(test_starch_of_a_bucket),
        cmocka_unit_test(test_starch_of_the_grass_is_judged_too),
        cmocka_unit_test(test_bucket_of_a_sensitive_pony),
        cmocka_unit_test(test_grain_of_goats),
        cmocka_unit_test(test_emergency_leaves_the_bucket_out),
        cmocka_unit_test(test_esc_is_no_pass),
        cmocka_unit_test(test_share_of_concentrate),
        cmocka_unit_test(test_forage_for_poor_teeth),
        cmocka_unit_test(test_unknown_sugar),
        cmocka_unit_test(test_soaked),
        cmocka_unit_test(test_grass_without_a_table),
        cmocka_unit_test(test_what_is_not_fed_is_not_unknown),
        cmocka_unit_test(test_what_of_the_hay_was_analysed),
        cmocka_unit_test(test_adf_is_never_judged),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
