/* How soon a vet is needed. Rules: what extension and veterinary pages say of the same day
 * and of at once, as models/METHOD.md lists them. SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <string.h>

#include "data/params.h"
#include "out/signs.h"

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

static enum signs_urgency urgency(unsigned words, const char *class, bool others)
{
    return signs_urgency(words, params_animal(&params, class), others);
}

static void test_any_sign_is_for_the_same_day(void **state)
{
    (void)state;
    static const unsigned sign[] = {SIGN_SHIFTING_WEIGHT, SIGN_KNEELING,     SIGN_RELUCTANT,  SIGN_HOT_FEET,
                                    SIGN_TOOTH_GRINDING,  SIGN_LEANING_BACK, SIGN_LYING_MORE, SIGN_BOUNDING_PULSE};
    for (size_t i = 0; i < sizeof sign / sizeof sign[0]; i++) {
        assert_int_equal(urgency(sign[i], "goat-dry", false), SIGNS_SAME_DAY);
        assert_int_equal(urgency(sign[i], "pony", false), SIGNS_SAME_DAY);
    }
    assert_int_equal(urgency(SIGN_NONE, "pony", true), SIGNS_GONE);
    assert_int_equal(urgency(0, "pony", true), SIGNS_GONE);
    assert_int_equal(urgency(0, "equid-acute", false), SIGNS_SAME_DAY);
    assert_int_equal(urgency(0, "equid-acute", true), SIGNS_SAME_DAY);
    assert_int_equal(urgency(SIGN_HOT_FEET, "equid-acute", true), SIGNS_AT_ONCE);
}

static void test_what_cannot_wait(void **state)
{
    (void)state;
    assert_int_equal(urgency(SIGN_WILL_NOT_MOVE, "goat-dry", false), SIGNS_AT_ONCE);
    assert_int_equal(urgency(SIGN_OFF_FEED, "donkey", false), SIGNS_AT_ONCE);
    assert_int_equal(urgency(SIGN_OFF_FEED, "goat-late-pregnant", false), SIGNS_AT_ONCE);
    assert_int_equal(urgency(SIGN_OFF_FEED, "goat-dry", false), SIGNS_SAME_DAY);
    assert_int_equal(urgency(SIGN_KNEELING, "goat-dry", true), SIGNS_AT_ONCE);
}

/* More signs are never less urgent. */
static void test_more_signs_are_no_less_urgent(void **state)
{
    (void)state;
    for (size_t k = 0; k < params.animals; k++) {
        for (unsigned words = 0; words < 2048; words += 2) {
            for (unsigned bit = 2; bit < 2048; bit *= 2) {
                enum signs_urgency few = signs_urgency(words, &params.animal[k], false);
                assert_true(signs_urgency(words | bit, &params.animal[k], false) >= few);
                assert_true(signs_urgency(words, &params.animal[k], true) >= few);
            }
        }
    }
}

/* A check of some kinds of animal names them; all others are for everybody. */
static void test_every_animal_is_looked_at_for_its_own_signs(void **state)
{
    (void)state;
    static const struct {
        const char *named;
        unsigned species;
    } some[] = {{"goats, sheep: ", 1u << SPECIES_GOAT | 1u << SPECIES_SHEEP},
                {"horses, ponies, donkeys: ", 1u << SPECIES_EQUID}};
    for (size_t i = 0; i < SIGNS_CHECKS; i++) {
        unsigned species = 0;
        for (size_t k = 0; k < sizeof some / sizeof some[0]; k++) {
            bool named = strncmp(signs_checks[i].well, some[k].named, strlen(some[k].named)) == 0;
            species |= named ? some[k].species : 0;
        }
        assert_int_equal(signs_checks[i].species, species);
    }
}

/* Its word is one that the diary takes for foot signs, each but "none" is asked for, and old diaries keep their
 * meaning: the bits of the first nine signs stand where they stood. */
static void test_the_diary_has_a_word_for_each_sign(void **state)
{
    (void)state;
    const struct diary_kind *kind = &diary_kinds[DIARY_FOOT_SIGNS];
    for (size_t w = 1; w < DIARY_WORDS && kind->word[w]; w++) {
        size_t asked = 0;
        for (size_t i = 0; i < SIGNS_CHECKS; i++) {
            asked += signs_checks[i].word && strcmp(signs_checks[i].word, kind->word[w]) == 0;
        }
        assert_int_equal(asked, 1);
    }
    for (size_t i = 0; i < SIGNS_CHECKS; i++) {
        bool pulse = strstr(signs_checks[i].well, "bounding pulse") != NULL;
        assert_true(!pulse || strcmp(signs_checks[i].word, "bounding-pulse") == 0);
    }
    assert_string_equal(kind->word[9], "off-feed");
    assert_int_equal(SIGN_OFF_FEED, 1 << 9);
    assert_string_equal(kind->word[10], "bounding-pulse");
    assert_int_equal(SIGN_BOUNDING_PULSE, 1 << 10);
}

static void test_no_dose_and_no_illness_is_named(void **state)
{
    (void)state;
    static const char *const never[] = {"mg", " ml", "dose", "laminitis", "inject", "bute", "phenylbutazone"};
    struct buf checklist;
    buf_init(&checklist);
    signs_checklist(&checklist);
    for (size_t w = 0; w < sizeof never / sizeof never[0]; w++) {
        for (size_t i = 0; i < SIGNS_ACTIONS; i++) {
            assert_null(strstr(signs_actions[i], never[w]));
        }
        assert_null(strstr(checklist.text, never[w]));
    }
    buf_release(&checklist);
    assert_non_null(strstr(signs_call(SIGNS_AT_ONCE), "at once"));
    assert_string_equal(signs_call(SIGNS_GONE), "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_any_sign_is_for_the_same_day),
        cmocka_unit_test(test_what_cannot_wait),
        cmocka_unit_test(test_more_signs_are_no_less_urgent),
        cmocka_unit_test(test_every_animal_is_looked_at_for_its_own_signs),
        cmocka_unit_test(test_the_diary_has_a_word_for_each_sign),
        cmocka_unit_test(test_no_dose_and_no_illness_is_named),
    };
    return cmocka_run_group_tests(tests, load, unload);
}
