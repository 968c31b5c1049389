/* The words of the advice: every id and sentence there, figures in them right, the
 * cautions chosen by what they are about. SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <stdbool.h>
#include <string.h>

#include "support/advice_support.h"

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

static void test_every_reason_has_id_and_sentence(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "equid-at-risk");
    run(&s, 14.0, &a);
    for (int r = 0; r < REASON_COUNT; r++) {
        const char *said = reason((enum advice_reason)r, &a, &s);
        assert_true(strlen(said) > 30 && strlen(said) < 300);
        assert_int_equal(said[strlen(said) - 1], '.');
        assert_true(strlen(advice_reason_id((enum advice_reason)r)) > 3);
        for (int q = 0; q < r; q++) {
            assert_string_not_equal(advice_reason_id((enum advice_reason)r), advice_reason_id((enum advice_reason)q));
        }
    }
    assert_string_equal(turnout_name(TURNOUT_FREE), "free");
    assert_string_equal(turnout_name(TURNOUT_NONE), "none");
}

/* 9.5 + x 4.5 <= 12: x <= 0.5556, H 7 h; at 7.5 h x = 0.5590: 12.016 %. On 18 %
 * x <= 0.2941, H 2 h; at 2.5 h x = 0.3227: 12.243 %. */
static void test_figures(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "equid-at-risk");
    run(&s, 14.0, &a);
    assert_string_equal(reason(REASON_GRASS_OVER, &a, &s),
                        "Longer grazing would bring the day's sugar just over the limit, which for this animal is 12 % "
                        "of dry matter.");
    run(&s, 18.0, &a);
    assert_string_equal(reason(REASON_GRASS_OVER, &a, &s),
                        "Longer grazing would bring the day's sugar to 12.2 % of dry matter; the limit for this animal "
                        "is 12 %.");
    s.animal.hay_nsc_pct = 14.25;
    run(&s, 20.0, &a);
    assert_non_null(strstr(reason(REASON_HAY_OVER, &a, &s), "holds 14.2"));
    assert_non_null(strstr(text, "limit for this animal is 12 %"));
    assert_null(strstr(text, "not analysed"));
    s.animal.hay_nsc_pct = (double)NAN;
    run(&s, 20.0, &a);
    assert_non_null(strstr(reason(REASON_HAY_OVER, &a, &s), "not analysed"));
    assert_non_null(strstr(reason(REASON_GRASS_OVER, &a, &s), "with this hay is 12.8 %"));
    s.animal.hay_nsc_pct = 8.0;
    s.animal.hay_esc = true;
    run(&s, 20.0, &a);
    assert_non_null(
        strstr(reason(REASON_HAY_OVER, &a, &s),
               "holds 12.8 % sugar (a table value: the laboratory gave ESC + starch), and the limit for this "
               "animal is 12 %. Have it tested for WSC + starch"));
    s.animal.hay_nsc_pct = 14.0;
    run(&s, 20.0, &a);
    assert_non_null(strstr(reason(REASON_HAY_OVER, &a, &s), "14.0 % sugar and more (ESC + starch leaves out most"));
}

static void test_esc_is_told(void **state)
{
    (void)state;
    const double none = (double)NAN;
    assert_string_equal(advice_esc_text(none, 12.8, text, sizeof text), "");
    assert_string_equal(
        advice_esc_text(8.0, 12.8, text, sizeof text),
        "The laboratory's 8 % is ESC + starch, which leaves out most fructan: the table's 12.8 % counts. "
        "Ask for WSC + starch.");
    assert_non_null(strstr(advice_esc_text(12.8, 12.8, text, sizeof text), "fructan: the hay holds more."));
    assert_non_null(strstr(advice_esc_text(8.0, none, text, sizeof text), "fructan: nobody knows the rest"));
}

static void test_way_back_is_told(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "equid-at-risk");
    s.animal.back = (struct way_back){.day = 4, .days = 16, .most_h = 0.75};
    run(&s, 14.0, &a);
    assert_true(advice_has(&a, REASON_WAY_BACK) && a.hours <= 0.75);
    assert_non_null(strstr(reason(REASON_WAY_BACK, &a, &s), "day 4 of 16: 45 minutes at most, hay first"));
    assert_null(strstr(text, "foot signs"));
    s.animal.back.after_signs = true;
    run(&s, 14.0, &a);
    assert_non_null(strstr(reason(REASON_WAY_BACK, &a, &s), "After foot signs only with your vet's agreement"));
}

/* The schedule is published for grass of 15 to 20 cm, 6 to 8 inches (University of Minnesota, horses; seen
 * second-hand): said while the way begins, for those it is published for. */
static void test_way_back_begins_on_tall_grass(void **state)
{
    (void)state;
    const char *const words = "grass of 15 to 20 cm (6 to 8 inches)";
    const struct way_back_rules *equid = &support_params()->way_back[SPECIES_EQUID];
    struct way_back_state way = {.on = true};
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "equid-at-risk");
    for (way.done = 0; way.done < 5; way.done++) {
        s.animal.back = way_back_today(&way, equid, 24.0);
        run(&s, 14.0, &a);
        assert_true((strstr(reason(REASON_WAY_BACK, &a, &s), words) != NULL) == (way.done < 3));
    }
    way.done = 0;
    s.animal.back = way_back_today(&way, &support_params()->way_back[SPECIES_GOAT], 24.0);
    run(&s, 14.0, &a);
    assert_null(strstr(reason(REASON_WAY_BACK, &a, &s), "inches"));
}

/* Cut anywhere, in the words on the vet, too: filled and closed, never passed. */
static void test_way_back_in_a_short_buffer(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    char cut[sizeof text];
    advice_subject(&s, "equid-at-risk");
    for (int after_signs = 0; after_signs < 2; after_signs++) {
        s.animal.back = (struct way_back){.day = 1,
                                          .days = 16,
                                          .most_h = 0.25,
                                          .after_signs = after_signs,
                                          .grass_low_cm = 15.0,
                                          .grass_high_cm = 20.0};
        run(&s, 14.0, &a);
        size_t whole = strlen(reason(REASON_WAY_BACK, &a, &s));
        for (size_t size = 1; size <= whole; size++) {
            memset(cut, 'x', sizeof cut);
            advice_reason_text(REASON_WAY_BACK, &a, &s.animal, cut, size);
            assert_int_equal(strlen(cut), size - 1);
            assert_memory_equal(cut, text, size - 1);
            assert_int_equal(cut[size], 'x');
        }
    }
}

/* Under the 41 % NDF of a milking goat (4 % of 62 kg, 2.48 kg DM; of which 1.24 kg forage): the
 * hay itself; or 1.8 kg barley, 1.597 kg DM of 18.6 %, beside 1.24 kg hay of 66.7 %: 39.6 %. */
static void test_fibre_has_its_cause(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "goat-lactating");
    struct feed hay = *s.animal.hay;
    s.animal.hay = &hay;
    run(&s, 11.0, &a);
    assert_false(a.hay_low_fibre || a.bucket_low_fibre);
    assert_non_null(strstr(reason(REASON_FIBRE, &a, &s), "Young grass is short of fibre"));
    advice_feed(&s, "barley", 1.8);
    run(&s, 11.0, &a);
    assert_true(advice_has(&a, REASON_FIBRE) && a.bucket_low_fibre && a.hours <= 1.0);
    assert_non_null(strstr(reason(REASON_FIBRE, &a, &s), "The bucket takes the ration below the 41 % fibre"));
    hay.ndf_pct = 40.0;
    run(&s, 11.0, &a);
    assert_true(advice_has(&a, REASON_FIBRE) && a.hay_low_fibre && !a.bucket_low_fibre);
    assert_non_null(strstr(reason(REASON_FIBRE, &a, &s), "less fibre than the 41 % this animal needs"));
}

/* A horse of 500 kg with 1.2 kg barley (1.0644 kg DM, 56.7 % starch, 61.6 % NSC): 1.207 g starch and
 * 1.311 g NSC a kg in one meal, over the 1 g of a meal; and with hay of 9.5 % the day makes 15 %,
 * under 20 %. With 3 kg (2.661 kg DM, and 7.5 kg of hay at least) it is over that, too: 235.2 of 10.161 kg. */
static void test_bucket_has_its_measure(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "horse");
    advice_feed(&s, "barley", 1.2);
    run(&s, 11.0, &a);
    assert_true(advice_has(&a, REASON_BUCKET));
    assert_non_null(strstr(reason(REASON_BUCKET, &a, &s), "1.21 g starch, and 1.31 g starch and sugar together"));
    s.fed[0].kg = 3.0;
    run(&s, 11.0, &a);
    assert_non_null(
        strstr(reason(REASON_BUCKET, &a, &s), "already bring the day's sugar to 23.1 %, over the limit of"));
}

/* An hour at most may pass the caution limit; on the way back it is not the hour that is too much. */
static void test_short_time_on_rich_grass(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "equid-at-risk");
    s.animal.hay_nsc_pct = 11.5;
    run(&s, 22.0, &a);
    assert_true(a.turnout == TURNOUT_BRIEF && advice_has(&a, REASON_WITHIN_STOP));
    assert_non_null(
        strstr(reason(REASON_WITHIN_STOP, &a, &s), "More than an hour is too much. With hay first, the day"));
    s.animal.back = (struct way_back){.day = 1, .days = 8, .most_h = 0.5};
    run(&s, 26.0, &a);
    assert_true(advice_has(&a, REASON_WAY_BACK) && advice_has(&a, REASON_WITHIN_STOP));
    assert_non_null(strstr(reason(REASON_WITHIN_STOP, &a, &s), "Even so, after hay, the day comes to"));
}

/* With a muzzle on: for an hour or less bare, or for none. */
static void test_muzzle_is_told(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "equid-at-risk");
    run(&s, 11.0, &a);
    a.hours_bare = 0.0;
    assert_string_equal(reason(REASON_MUZZLE, &a, &s),
                        "These hours are with a grazing muzzle on. Without one: no grass today.");
    a.hours_bare = 1.0;
    assert_string_equal(reason(REASON_MUZZLE, &a, &s),
                        "These hours are with a grazing muzzle on. Without one: 1 h at most.");
    a.hours_bare = 1.5;
    assert_string_equal(reason(REASON_MUZZLE, &a, &s),
                        "These hours are with a grazing muzzle on. Without one: 1 h 30 min at most.");
    a.hours_bare = 0.25;
    assert_string_equal(reason(REASON_MUZZLE, &a, &s),
                        "These hours are with a grazing muzzle on. Without one: 15 min at most.");
}

/* What is over a limit reads as over it, and no hours are no number of them. */
static void test_figures_read_right(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    struct animal_class rules;
    advice_subject(&s, "equid-at-risk");
    s.animal.hay_nsc_pct = 11.5;
    run(&s, 22.0, &a);
    static const struct {
        double limit_pct, nsc_pct;
        const char *said;
    } rows[] = {{12.0, 12.3, "comes to 12.3 % sugar, over the limit of 12 %"},
                {12.0, 12.04, "comes to 12.04 % sugar, over the limit of 12 %"},
                {12.0, 12.004, "comes to 12.004 % sugar, over the limit of 12 %"},
                {11.26, 11.33, "comes to 11.33 % sugar, over the limit of 11.26 %"},
                {12.8, 13.4, "comes to 13.4 % sugar, over the limit of 12.8 %"}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        a.limit_pct = rows[i].limit_pct;
        a.judged_nsc_pct = rows[i].nsc_pct;
        assert_non_null(strstr(reason(REASON_WITHIN_STOP, &a, &s), rows[i].said));
    }
    rules = *s.animal.rules;
    rules.max_hours = 0.0;
    s.animal.rules = &rules;
    assert_string_equal(reason(REASON_MAX_HOURS, &a, &s), "By its limits this animal gets no grass on any day.");
    rules.max_hours = 6.0;
    assert_string_equal(reason(REASON_MAX_HOURS, &a, &s), "6 h is the most that this animal gets on any day.");
}

/* A short buffer is filled and closed, never passed. */
static void test_short_buffer(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    char small[20];
    advice_subject(&s, "equid-at-risk");
    run(&s, 14.0, &a);
    memset(small, 'x', sizeof small);
    assert_ptr_equal(advice_reason_text(REASON_GRASS_OVER, &a, &s.animal, small, 10), small);
    assert_int_equal(strlen(small), 9);
    assert_int_equal(small[10], 'x');
}

static bool cautioned(const struct advice_subject *s, const struct advice *a, const char *about)
{
    const char *caution[ADVICE_CAUTIONS];
    size_t n = advice_cautions(a, &s->animal, caution, ADVICE_CAUTIONS);
    for (size_t i = 0; i < n; i++) {
        if (strstr(caution[i], about)) {
            return true;
        }
    }
    return false;
}

static void test_cautions_by_animal(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    static const struct {
        const char *id;
        const char *said, *unsaid;
    } row[] = {
        {"goat-dry", "clostridial", "Never starve"},       {"goat-lactating", "slimming plan", "for the feet"},
        {"equid-at-risk", "Never starve", "clostridial"},  {"cattle", "rumen", "clostridial"},
        {"ewe-late-pregnant", "slimming plan", "Muzzles"},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        advice_subject(&s, row[i].id);
        run(&s, 11.0, &a);
        assert_true(cautioned(&s, &a, row[i].said));
        assert_false(cautioned(&s, &a, row[i].unsaid));
    }
}

/* Who is sore, and is a ruminant, is told so; the one without the other is not. */
static void test_cautions_of_sore_feet(void **state)
{
    static const char *const id[] = {"pony", "goat-dry"};
    (void)state;
    for (int k = 0; k < 4; k++) {
        struct advice_subject s;
        struct advice a;
        advice_subject(&s, id[k / 2]);
        s.animal.foot_signs = k % 2;
        run(&s, 11.0, &a);
        assert_true(cautioned(&s, &a, "Cold for the feet") == (k == 1));
        assert_true(cautioned(&s, &a, "Cooling the feet of goats") == (k == 3));
        assert_true(cautioned(&s, &a, "Do not make a sore animal walk") == (k % 2 == 1));
    }
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "equid-acute"); /* by its class */
    run(&s, 11.0, &a);
    assert_true(cautioned(&s, &a, "Cold for the feet"));
}

static void test_cautions_by_day(void **state)
{
    (void)state;
    struct advice_subject s;
    struct advice a;
    advice_subject(&s, "pony");
    s.rules.muzzle_offered = true;
    run(&s, 10.0, &a); /* free */
    assert_true(cautioned(&s, &a, "Muzzles"));
    assert_false(cautioned(&s, &a, "Short turnout"));
    assert_false(cautioned(&s, &a, "mouldy"));
    run(&s, 22.0, &a); /* timed */
    assert_true(cautioned(&s, &a, "Short turnout"));
    assert_true(cautioned(&s, &a, "mouldy"));
    assert_false(cautioned(&s, &a, "two weeks"));
    assert_false(cautioned(&s, &a, "ESC plus starch, which reads lower"));
    s.animal.hay_esc = true;
    run(&s, 22.0, &a);
    assert_true(cautioned(&s, &a, "ESC plus starch, which reads lower"));
    assert_false(cautioned(&s, &a, "table average"));
    s.animal.hay_esc = false;
    s.animal.hay_nsc_pct = (double)NAN;
    s.animal.history = HISTORY_POOR_TEETH;
    s.animal.foot_signs = true;
    advice_feed(&s, "oats", 0.1);
    run(&s, 22.0, &a);
    assert_true(cautioned(&s, &a, "table average"));
    assert_true(cautioned(&s, &a, "poor teeth"));
    assert_true(cautioned(&s, &a, "sore animal"));
    assert_true(cautioned(&s, &a, "two weeks"));
    assert_false(cautioned(&s, &a, "Muzzles")); /* stays in */
}

/* Whatever the animal: the vet today, no diagnosis, who comes first, in this order. */
static void test_three_always(void **state)
{
    (void)state;
    const struct params *p = support_params();
    for (size_t i = 0; i < p->animals; i++) {
        struct advice_subject s;
        struct advice a;
        const char *caution[3];
        advice_subject(&s, p->animal[i].id);
        run(&s, 30.0, &a);
        assert_int_equal(advice_cautions(&a, &s.animal, caution, 3), 3);
        assert_non_null(strstr(caution[0], "a vet today"));
        assert_non_null(strstr(caution[1], "planning help, not a diagnosis"));
        assert_non_null(strstr(caution[2], "your own vet come before"));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_reason_has_id_and_sentence),
        cmocka_unit_test(test_figures),
        cmocka_unit_test(test_esc_is_told),
        cmocka_unit_test(test_way_back_is_told),
        cmocka_unit_test(test_way_back_begins_on_tall_grass),
        cmocka_unit_test(test_way_back_in_a_short_buffer),
        cmocka_unit_test(test_fibre_has_its_cause),
        cmocka_unit_test(test_bucket_has_its_measure),
        cmocka_unit_test(test_short_time_on_rich_grass),
        cmocka_unit_test(test_muzzle_is_told),
        cmocka_unit_test(test_figures_read_right),
        cmocka_unit_test(test_short_buffer),
        cmocka_unit_test(test_cautions_by_animal),
        cmocka_unit_test(test_cautions_of_sore_feet),
        cmocka_unit_test(test_cautions_by_day),
        cmocka_unit_test(test_three_always),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
