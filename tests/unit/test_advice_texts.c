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
        cmocka_unit_test(test_short_buffer),
        cmocka_unit_test(test_cautions_by_animal),
        cmocka_unit_test(test_cautions_by_day),
        cmocka_unit_test(test_three_always),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
