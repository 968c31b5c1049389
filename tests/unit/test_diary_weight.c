/* Weights of the diary in the place of the holding's. SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/diary_weight.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

enum { PONY, ALPACA, GROUPS };

static const struct advice_limits limits = {.tape_error_pct = 10, .tape_horse_kg = 350};

static void make(struct holding *h, struct animal_group group[GROUPS])
{
    *h = (struct holding){.animals = GROUPS, .animal = group};
    group[PONY] = (struct animal_group){.rules = {.species = SPECIES_EQUID, .grown = true},
                                        .weight_kg = 285,
                                        .girth_cm = 150,
                                        .length_cm = 53 * 2.54,
                                        .weight_error_pct = 10,
                                        .weighed = DATE_NONE};
    group[ALPACA] = (struct animal_group){.rules = {.species = SPECIES_ALPACA, .grown = true},
                                          .weight_kg = 70,
                                          .girth_cm = NAN,
                                          .length_cm = 100,
                                          .weighed = DATE_NONE};
}

static void test_newest_weight(void **state)
{
    (void)state;
    struct holding h;
    struct animal_group group[GROUPS];
    const struct diary_entry entry[] = {{.what = DIARY_WEIGHT, .subject = PONY, .value = 290, .date = 100},
                                        {.what = DIARY_CONDITION, .subject = PONY, .value = 6, .date = 101},
                                        {.what = DIARY_WEIGHT, .subject = PONY, .value = 279, .date = 110}};
    make(&h, group);
    diary_weigh(entry, 2, &limits, &h);
    assert_true(group[PONY].weight_kg == 290 && group[PONY].weighed == 100);
    diary_weigh(entry, 3, &limits, &h);
    assert_true(group[PONY].weight_kg == 279 && group[PONY].weighed == 110);
    assert_true(group[PONY].weight_error_pct == 0); /* scales, no tape */
    assert_true(group[ALPACA].weight_kg == 70 && group[ALPACA].weighed == DATE_NONE);
}

/* 60 inches round and 53 long: 60 x 60 x 53 / 300 = 636 lb, by hand with the formula for ponies. */
static void test_girth(void **state)
{
    (void)state;
    struct holding h;
    struct animal_group group[GROUPS];
    const struct diary_entry entry[] = {{.what = DIARY_WEIGHT, .subject = PONY, .value = 279, .date = 100},
                                        {.what = DIARY_GIRTH, .subject = PONY, .value = 60 * 2.54, .date = 110},
                                        {.what = DIARY_GIRTH, .subject = ALPACA, .value = 90, .date = 110}};
    make(&h, group);
    diary_weigh(entry, 3, &limits, &h);
    assert_true(fabs(group[PONY].weight_kg - 636 * 0.45359237) < 0.5);
    assert_true(group[PONY].weighed == 110 && group[PONY].weight_error_pct == 10);
    assert_true(fabs(group[PONY].girth_cm - 152.4) < 1e-9);
    assert_true(group[ALPACA].weight_kg == 70 && group[ALPACA].weighed == DATE_NONE); /* no formula is known */
    make(&h, group);
    group[PONY].length_cm = NAN;
    diary_weigh(entry, 3, &limits, &h);
    assert_true(group[PONY].weight_kg == 279 && group[PONY].weighed == 100);
    make(&h, group);
    group[PONY].rules.grown = false;
    diary_weigh(entry + 1, 1, &limits, &h);
    assert_true(group[PONY].weight_kg == 285 && group[PONY].weighed == DATE_NONE);
}

static void test_slips(void **state)
{
    (void)state;
    struct holding h;
    struct animal_group group[GROUPS];
    const struct diary_entry entry[] = {{.what = DIARY_WEIGHT, .subject = ALPACA, .value = 700, .date = 100},
                                        {.what = DIARY_WEIGHT, .subject = PONY, .value = 4, .date = 100}};
    make(&h, group);
    diary_weigh(entry, 2, &limits, &h);
    assert_true(group[ALPACA].weight_kg == 70 && group[ALPACA].weighed == DATE_NONE);
    assert_true(group[PONY].weight_kg == 285 && group[PONY].weighed == DATE_NONE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_newest_weight), cmocka_unit_test(test_girth),
                                       cmocka_unit_test(test_slips)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
