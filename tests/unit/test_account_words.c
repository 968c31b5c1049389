/* What is said of a ration, in each of its cases; and which notes go with which ration.
 * Figures are worked by hand from the tables of models/. SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <stdbool.h>
#include <string.h>

#include "support/near.h"
#include "support/scene.h"

static bool noted(const struct scene *s, bool general, const char *about)
{
    const char *note[ACCOUNT_NOTES];
    size_t n = account_notes(&s->account, general, note, ACCOUNT_NOTES);
    for (size_t i = 0; i < n; i++) {
        if (strstr(note[i], about)) {
            return true;
        }
    }
    return false;
}

/* An acute pony: 1.5 % of 300 kg, 4.5 kg DM, all of it hay, and the limit is 10 %. */
static void test_who_is_to_blame_for_the_sugar(void **state)
{
    (void)state;
    struct scene s;
    char text[640];
    scene_make(&s, "equid-acute", 300, "grass-hay-mature");
    s.lot.nsc_pct = 12.8;
    scene_work_out(&s);
    scene_tells(&s, VERDICT_NSC, "The hay alone holds 12.8 %: have it tested");
    account_verdict_text(&s.account, VERDICT_NSC, SHOW_METRIC, text, sizeof text);
    assert_null(strstr(text, "comes on top"));
    /* a horse: hay of 21 % over its 20 %, and oats beside it */
    scene_make(&s, "horse", 500, "grass-hay-mature");
    s.lot.nsc_pct = 21.0;
    scene_add_bucket(&s, "oats", 1.0);
    scene_work_out(&s);
    scene_tells(&s, VERDICT_NSC, "The bucket comes on top: cut it first.");
    /* hay of 20 % where 10 is the limit, alone and with beet pulp, 6.3 %: the hay it is */
    scene_make(&s, "equid-laminitis-history", 285, "grass-hay-mature");
    for (int bucket = 0; bucket < 2; bucket++) {
        s.lot.nsc_pct = 20.0;
        scene_work_out(&s);
        scene_tells(&s, VERDICT_NSC, "The hay alone holds 20.0 %");
        account_verdict_text(&s.account, VERDICT_NSC, SHOW_METRIC, text, sizeof text);
        assert_null(strstr(text, "comes on top"));
        scene_add_bucket(&s, "beet-pulp-plain", 0.5);
    }
    /* ESC + starch: the table's figure, or a higher one of its own that is too low */
    scene_make(&s, "equid-acute", 300, "grass-hay-mature");
    s.lot.nsc_pct = 8.0;
    memcpy(s.lot.nsc_is, "esc+starch", sizeof "esc+starch");
    scene_work_out(&s);
    scene_tells(&s, VERDICT_NSC, "The hay alone holds 12.8 % by a table: have it tested for WSC or find another");
    s.lot.nsc_pct = 14.0;
    scene_work_out(&s);
    scene_tells(&s, VERDICT_NSC,
                "holds 14.0 % and more, as ESC + starch leaves out most fructan: have it tested for WSC");
    /* 7.5 kg DM of hay, its least, of 12 %; 3.548 kg of barley of 61.6 %: 308.6 of 11.048 kg are 27.9 % */
    scene_make(&s, "horse", 500, "grass-hay-mature");
    s.lot.nsc_pct = 12.0;
    scene_add_bucket(&s, "barley", 4.0);
    s.grass = advice_flat_grass(1.0);
    s.grass.available_kg_head = 0.0;
    scene_work_out(&s);
    scene_tells(&s, VERDICT_NSC, "Hay and bucket make 27.9 % without a blade of grass");
    /* oat hay, 21.8 %, beside it */
    scene_make(&s, "equid-laminitis-history", 285, "grass-hay-mature");
    s.lot.nsc_pct = 9.0;
    scene_add_bucket(&s, "oat-hay-mid", 2.0);
    scene_work_out(&s);
    scene_tells(&s, VERDICT_NSC, "Hay and what is fed with it make");
    scene_tells(&s, VERDICT_NSC, "without a blade of grass: another forage in its place first.");
    /* a brief turnout passes the caution limit and stays under the stop limit */
    scene_make(&s, "equid-at-risk", 300, "grass-hay-mature");
    s.group.rules.muzzle_offered = false;
    s.lot.nsc_pct = 11.0;
    s.grass = advice_flat_grass(20.0);
    scene_work_out(&s);
    assert_int_equal(s.advice.turnout, TURNOUT_BRIEF);
    scene_tells(&s, VERDICT_NSC, "That is the grass: an hour at most, after hay, stays under the last limit of 15 %");
    scene_tells(&s, VERDICT_NSC, "Without it the day makes 11.0 %");
}

/* What nobody knows stands at the limit: over it only by what is known to be. */
static void test_sugar_that_nobody_knows(void **state)
{
    (void)state;
    struct scene s;
    struct feed unknown;
    scene_make(&s, "equid-acute", 300, "grass-hay-mature");
    unknown = *s.lot.feed;
    unknown.nsc_pct = unknown.wsc_pct = (double)NAN;
    unknown.adf_pct = (double)NAN;
    s.lot.contents = unknown;
    scene_work_out(&s);
    assert_int_equal(scene_state(&s, VERDICT_NSC), STATE_UNSURE);
    scene_tells(&s, VERDICT_NSC, "Nobody knows the sugar of some of it");
    scene_make(&s, "goat-growing", 25, "grass-hay-mature");
    s.lot.contents.adf_pct = (double)NAN;
    s.lot.contents.ndf_pct = (double)NAN;
    scene_work_out(&s);
    scene_tells(&s, VERDICT_ADF, "not known");
    scene_tells(&s, VERDICT_ADF, "A feed has no ADF figure");
    scene_make(&s, "goat-dry", 60, "grass-hay-mature");
    s.lot.contents.ndf_pct = (double)NAN;
    scene_work_out(&s);
    assert_int_equal(scene_state(&s, VERDICT_NDF), STATE_UNSURE);
    scene_tells(&s, VERDICT_NDF, "have the forage analysed, and give hay first");
    /* starch of the bucket missing: of a pony's meal nothing can be said */
    scene_make(&s, "horse", 500, "grass-hay-mature");
    scene_add_bucket(&s, "oats", 1.0);
    scene_work_out(&s);
    s.account.verdict[VERDICT_STARCH] = (struct account_verdict){STATE_UNSURE, (double)NAN, 1.0};
    scene_tells(&s, VERDICT_STARCH, "not known (most 1). A figure of the feed is missing.");
}

/* 5 g NSC a kg of body weight and day: 2 % of 500 kg are 10 kg DM; of 26 % they make 5.2 g. */
static void test_too_much_in_a_day(void **state)
{
    (void)state;
    struct scene s;
    scene_make(&s, "horse", 500, "grass-hay-mature");
    s.lot.nsc_pct = 26.0;
    s.grass.available_kg_head = 0.0;
    scene_work_out(&s);
    assert_int_equal(scene_state(&s, VERDICT_NSC_DAY), STATE_OVER);
    scene_tells(&s, VERDICT_NSC_DAY, "sugar and starch of the day 5.2 g a kg of body weight (most 5): 0.2 over");
    scene_tells(&s, VERDICT_NSC_DAY, "another hay, and less bucket");
    s.lot.nsc_pct = 25.0;
    scene_work_out(&s);
    assert_int_equal(scene_state(&s, VERDICT_NSC_DAY), STATE_WITHIN);
}

/* Floors: what is under them says so, and why. A milking goat's fibre floor is 41 % NDF. */
static void test_what_is_short(void **state)
{
    (void)state;
    struct scene s;
    char text[640];
    scene_make(&s, "goat-lactating", 62, "grass-hay-mature");
    scene_work_out(&s);
    account_verdict_text(&s.account, VERDICT_FORAGE, SHOW_METRIC, text, sizeof text);
    assert_null(strstr(text, "Too little"));
    s.account.verdict[VERDICT_FORAGE] = (struct account_verdict){STATE_UNDER, 1.2, 1.5};
    scene_tells(&s, VERDICT_FORAGE, "forage 1.20 % of body weight (least 1.5): 0.30 under. Too little: give more hay");
    s.account.verdict[VERDICT_INTAKE] = (struct account_verdict){STATE_UNDER, 3.8, 4.0};
    scene_tells(&s, VERDICT_INTAKE, "ask the vet before any cut below this");
    s.lot.contents.ndf_pct = 30.0; /* hay of little fibre */
    scene_work_out(&s);
    assert_int_equal(scene_state(&s, VERDICT_NDF), STATE_UNDER);
    scene_tells(&s, VERDICT_NDF, "The forage itself is short of fibre");
    scene_make(&s, "goat-lactating", 62,
               "grass-hay-mature"); /* 1.24 kg DM of hay of 66.7 %, 1.597 kg of barley of 18.6 %: 39.6 % */
    scene_add_bucket(&s, "barley", 1.8);
    s.grass.available_kg_head = 0.0;
    scene_work_out(&s);
    assert_int_equal(scene_state(&s, VERDICT_NDF), STATE_UNDER);
    scene_tells(&s, VERDICT_NDF, "The bucket does that: cut it back over two weeks");
    s.advice.bucket_low_fibre = false;
    scene_tells(&s, VERDICT_NDF, "More hay before grass.");
}

/* Grain is weighed: 0.5 kg are 1.1 lb, 0.05 kg over the 0.45 kg, that is 0.99 lb. */
static void test_grain_in_pounds(void **state)
{
    (void)state;
    struct scene s;
    char text[640];
    scene_make(&s, "goat-lactating", 62, "grass-hay-mature");
    scene_add_bucket(&s, "oats", 0.5);
    scene_work_out(&s);
    scene_tells(&s, VERDICT_GRAIN, "grain as one meal 0.50 kg (most 0.45): 0.05 over");
    assert_non_null(strstr(account_verdict_text(&s.account, VERDICT_GRAIN, SHOW_US, text, sizeof text),
                           "grain as one meal 1.10 lb (most 0.992): 0.11 over"));
    assert_non_null(strstr(text, "At most 90 % of it at once: leave the rest out, or split it into 2 or more meals"));
}

static void test_soaking_that_earns_nothing(void **state)
{
    (void)state;
    struct scene s;
    char text[640];
    scene_make(&s, "equid-acute", 300, "grass-hay-mature");
    scene_work_out(&s);
    assert_string_equal(account_soak_text(&s.account, text, sizeof text), "");
    s.lot.soaked_h = 0.2;
    scene_work_out(&s);
    assert_null(s.account.credit);
    assert_non_null(strstr(account_soak_text(&s.account, text, sizeof text), "0.2 h is too short to plan with"));
    s.lot.soaked_h = 12.0;
    s.lot.contents.starch_pct = (double)NAN;
    s.lot.contents.nsc_pct = 12.8;
    s.lot.contents.wsc_pct = s.lot.contents.nsc_pct = (double)NAN;
    scene_work_out(&s);
    assert_true(isnan(s.account.soaked_nsc_pct)); /* of unknown hay nothing can be taken */
    s.lot.soaked_h = (double)NAN;
    s.lot.steamed = true;
    scene_work_out(&s);
    assert_non_null(strstr(account_soak_text(&s.account, text, sizeof text), "leaves its sugar"));
    s.lot.nsc_pct = 9.0;
    s.lot.tested_after = true;
    scene_work_out(&s);
    assert_non_null(strstr(account_soak_text(&s.account, text, sizeof text), "measured after it was steamed"));
    memcpy(s.lot.nsc_is, "esc+starch", sizeof "esc+starch");
    scene_work_out(&s);
    assert_non_null(
        strstr(account_soak_text(&s.account, text, sizeof text), "steamed, yet as ESC + starch: it is no pass"));
    s.lot.steamed = false;
    assert_non_null(strstr(account_soak_text(&s.account, text, sizeof text), "after it was soaked, yet as ESC"));
}

/* A class with or without what the note is about: class, bucket, and what is said then. */
static void test_notes_by_ration(void **state)
{
    (void)state;
    static const struct {
        const char *class_id, *feed, *about;
        bool said;
    } row[] = {
        {"donkey", "oats", "needs no bucket at all", true},
        {"horse", "oats", "needs no bucket at all", false},
        {"donkey", "wheat-straw", "needs no bucket at all", false},
        {"equid-at-risk", "beet-pulp-plain", "No cereals, fruit", true},
        {"horse", "beet-pulp-plain", "No cereals, fruit", false},
        {"goat-laminitis-history", "beet-pulp-plain", "No cereals, fruit", false},
        {"goat-lactating", "oats", "Hay before grain", true},
        {"goat-lactating", "beet-pulp-plain", "Hay before grain", false},
        {"horse", "oats", "Hay before grain", false},
        {"sheep-dry", "oats", "begin with 45 g a head and reach 130 g over the next 9 days", true},
        {"goat-dry", "oats", "begin with 45 g", false},
        {"sheep-dry", "beet-pulp-plain", "begin with 45 g", false},
        {"goat-late-pregnant", "beet-pulp-plain", "by 50 g a head and day at most, and give no less than it needs",
         true},
        {"goat-late-pregnant", "wheat-straw", "by 50 g", false},
        {"goat-lactating", "oats", "by 50 g", false},
        {"pony", "wheat-straw", "only for good teeth", true},
        {"pony", "oats", "only for good teeth", false},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        struct scene s;
        scene_make(&s, row[i].class_id, params_animal(support_params(), row[i].class_id)->weight_kg,
                   "grass-hay-mature");
        scene_add_bucket(&s, row[i].feed, 0.2);
        scene_work_out(&s);
        if (noted(&s, false, row[i].about) != row[i].said) {
            fail_msg("%s with %s: \"%s\"", row[i].class_id, row[i].feed, row[i].about);
        }
        static const char *const of_all[] = {"An animal that got at them needs the vet",
                                             "Any change of feed over at least"};
        for (size_t k = 0; k < 2;
             k++) { /* with any ration, and once for the yard: what is said ten times is not read */
            assert_true(noted(&s, true, of_all[k]));
            assert_false(noted(&s, false, of_all[k]));
        }
    }
}

static void test_notes_by_grass_tests_and_tape(void **state)
{
    (void)state;
    struct scene s;
    const char *note[ACCOUNT_NOTES];
    scene_make(&s, "pony", 250, "grass-hay-mature");
    scene_work_out(&s);
    assert_true(noted(&s, true, "grass is eaten over hours"));
    assert_true(noted(&s, true, "Table values are averages"));
    assert_false(noted(&s, false, "by tape"));
    s.grass.available_kg_head = 0.0;
    s.lot.nsc_pct = 9.0;
    s.group.weight_error_pct = 10.0;
    scene_work_out(&s);
    assert_false(noted(&s, true, "grass is eaten over hours"));
    assert_false(noted(&s, true, "Table values are averages"));
    assert_true(noted(&s, false, "by tape"));
    assert_int_equal(account_notes(&s.account, true, note, 1), 1); /* no more than there is room for */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_who_is_to_blame_for_the_sugar),
        cmocka_unit_test(test_sugar_that_nobody_knows),
        cmocka_unit_test(test_too_much_in_a_day),
        cmocka_unit_test(test_what_is_short),
        cmocka_unit_test(test_grain_in_pounds),
        cmocka_unit_test(test_soaking_that_earns_nothing),
        cmocka_unit_test(test_notes_by_ration),
        cmocka_unit_test(test_notes_by_grass_tests_and_tape),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
