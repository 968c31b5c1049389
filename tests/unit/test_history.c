/* What a history does to the rules of a class: stricter limits, higher floors,
 * never a looser rule, never the intake. SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <string.h>

#include "data/params.h"

static struct arena arena;
static struct params params;

static int load(void **state)
{
    (void)state;
    struct err e = {0};
    arena_init(&arena);
    return params_load("models", &arena, &params, &e);
}

static int unload(void **state)
{
    (void)state;
    arena_release(&arena);
    return 0;
}

static struct animal_class rules_of(const char *id, unsigned history)
{
    struct animal_class rules;
    struct err e = {0};
    const struct animal_class *base = params_animal(&params, id);
    assert_non_null(base);
    assert_int_equal(animal_rules(&params, base, history, &rules, &e), ERR_OK);
    return rules;
}

static void refused(const char *id, unsigned history, const char *what)
{
    struct animal_class rules;
    struct err e = {0};
    assert_int_equal(animal_rules(&params, params_animal(&params, id), history, &rules, &e), ERR_CONFIG);
    assert_non_null(strstr(e.what, what));
}

/* cmocka takes NaN for equal to anything. */
#define SAME(a, b) assert_true(fabs((double)(a) - (double)(b)) <= 1e-6 * fabs((double)(b)) + 1e-9)

static void test_no_history_changes_nothing(void **state)
{
    (void)state;
    for (size_t i = 0; i < params.animals; i++) {
        struct animal_class rules = rules_of(params.animal[i].id, 0);
        assert_memory_equal(&rules, &params.animal[i], sizeof rules);
        rules = rules_of(params.animal[i].id, HISTORY_POOR_TEETH);
        assert_memory_equal(&rules, &params.animal[i], sizeof rules);
    }
}

/* Laminitis brings the limit of Longland et al. 2011 and the cap, and leaves the appetite. */
static void test_laminitis(void **state)
{
    (void)state;
    struct animal_class pony = rules_of("pony", HISTORY_LAMINITIS);
    SAME(pony.nsc_caution_pct, 10);
    SAME(pony.nsc_stop_pct, 12);
    SAME(pony.level_probability, 0.8);
    SAME(pony.max_hours, 6);
    SAME(pony.bucket_nsc_meal_g_kg, 0.1); /* Kerley et al. 2025 */
    SAME(pony.starch_meal_g_kg, 1);       /* the pony's own stays */
    SAME(pony.intake_pct, 2.3);
    SAME(pony.min_forage_pct, 1.5);
    struct animal_class insulin = rules_of("pony", HISTORY_INSULIN);
    assert_memory_equal(&pony, &insulin, sizeof pony);
    struct animal_class goat = rules_of("goat-lactating", HISTORY_LAMINITIS);
    SAME(goat.nsc_caution_pct, 12);
    SAME(goat.intake_pct, 4);
    SAME(goat.min_forage_pct, 2);
    assert_true(goat.evidence_no_slimming);
}

static void test_overweight(void **state)
{
    (void)state;
    struct animal_class horse = rules_of("horse", HISTORY_OVERWEIGHT);
    SAME(horse.nsc_caution_pct, 12);
    SAME(horse.starch_meal_g_kg, 0.3);
    SAME(horse.intake_pct, 2);
}

static void test_feeds_that_suit(void **state)
{
    (void)state;
    static const struct {
        const char *id;
        bool dry, soaked;
    } row[] = {{"grass-hay-mature", false, true},
               {"bermuda-hay", false, true},
               {"mixed-hay", true, true},
               {"wheat-straw", false, false},
               {"oats", true, true}};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const struct feed *f = params_feed(&params, row[i].id);
        assert_int_equal(history_suits_feed(HISTORY_POOR_TEETH | HISTORY_LAMINITIS, f, false), row[i].dry);
        assert_int_equal(history_suits_feed(HISTORY_POOR_TEETH, f, true), row[i].soaked);
        assert_true(history_suits_feed(HISTORY_LAMINITIS, f, false));
    }
}

static void test_floors(void **state)
{
    (void)state;
    struct animal_class goat = rules_of("goat-laminitis-history", HISTORY_PREGNANT);
    SAME(goat.min_forage_pct, 2);
    SAME(goat.nsc_caution_pct, 12); /* its own, stricter limit stays */
    assert_true(goat.evidence_no_slimming);
    goat = rules_of("goat-growing", HISTORY_LACTATING);
    SAME(goat.min_ndf_pct, 41); /* Lu et al. 2005 */
    SAME(goat.min_adf_pct, 23);
    SAME(goat.min_forage_pct, 2.5);
    SAME(goat.max_concentrate_pct, 50);
    goat = rules_of("goat-dry", HISTORY_PREGNANT); /* one in kid may need a bucket, which grows by steps */
    SAME(goat.concentrate_rise_g_day, 50);
    assert_false(goat.needs_no_bucket);
    goat = rules_of("goat-dry", HISTORY_LACTATING);
    SAME(goat.max_concentrate_pct, 50);
    assert_true(rules_of("goat-dry", HISTORY_LAMINITIS).needs_no_bucket);
    struct animal_class pony = rules_of("equid-at-risk", HISTORY_PREGNANT | HISTORY_LAMINITIS);
    SAME(pony.min_forage_pct, 1.8);
    SAME(pony.nsc_caution_pct, 10);
    SAME(pony.hay_pct, 1.8);
    assert_true(pony.evidence_no_slimming);
}

/* A floor above an appetite is the whole appetite; above a ration it is refused. */
static void test_floor_above_intake(void **state)
{
    (void)state;
    struct animal_class donkey = rules_of("donkey", HISTORY_PREGNANT);
    SAME(donkey.min_forage_pct, donkey.intake_pct);
    assert_true(donkey.evidence_no_slimming);
    refused("equid-laminitis-history", HISTORY_PREGNANT, "give the class \"mare-pregnant\"");
    struct animal_class acute = rules_of("equid-acute", HISTORY_PREGNANT); /* no intake of its own */
    SAME(acute.min_forage_pct, 1.8);
    SAME(acute.hay_pct, 1.8);
    assert_false(acute.grazing);
}

static void test_no_rules_for_the_species(void **state)
{
    (void)state;
    refused("alpaca", HISTORY_LAMINITIS, "\"laminitis\" of this species (alpaca)");
    refused("cattle", HISTORY_OVERWEIGHT, "no rules");
    refused("sheep-dry", HISTORY_INSULIN, "no rules");
    refused("goat-dry", HISTORY_OVERWEIGHT, "let the vet set");
}

/* Over every class and every set of histories: no limit rises, no floor falls. */
static void test_never_looser(void **state)
{
    (void)state;
    size_t checked = 0;
    for (size_t i = 0; i < params.animals; i++) {
        const struct animal_class *b = &params.animal[i];
        for (unsigned history = 0; history < 1u << HISTORY_WORDS; history++) {
            struct animal_class r;
            struct err e = {0};
            if (animal_rules(&params, b, history, &r, &e) != ERR_OK) {
                assert_int_equal(e.code, ERR_CONFIG);
                continue;
            }
            assert_true(r.nsc_caution_pct <= b->nsc_caution_pct && r.nsc_stop_pct <= b->nsc_stop_pct);
            assert_true(r.nsc_caution_pct <= r.nsc_stop_pct);
            assert_true(r.level_probability >= b->level_probability && r.max_hours <= b->max_hours);
            assert_true(r.min_forage_pct >= b->min_forage_pct && !(r.min_ndf_pct < b->min_ndf_pct));
            assert_true(!(r.min_forage_pct > r.intake_pct));
            assert_true(r.intake_pct == b->intake_pct || isnan(b->intake_pct));
            assert_true(r.evidence_no_slimming >= b->evidence_no_slimming);
            checked++;
        }
    }
    assert_true(checked > 300);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_no_history_changes_nothing),
        cmocka_unit_test(test_laminitis),
        cmocka_unit_test(test_overweight),
        cmocka_unit_test(test_feeds_that_suit),
        cmocka_unit_test(test_floors),
        cmocka_unit_test(test_floor_above_intake),
        cmocka_unit_test(test_no_rules_for_the_species),
        cmocka_unit_test(test_never_looser),
    };
    return cmocka_run_group_tests(tests, load, unload);
}
