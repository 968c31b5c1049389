/* Season words on series of which the answer is known. SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>

#include "base/num.h"
#include "season/spells.h"

enum { DAYS = 366, NO = SPELL_NONE };

static double t[DAYS];

static void fill(double value)
{
    for (int i = 0; i < DAYS; i++) {
        t[i] = value;
    }
}

static void set(int from, int to, double value) /* days, both included */
{
    for (int day = from; day <= to; day++) {
        t[day - 1] = value;
    }
}

static const struct growth_year *year_of(int year, bool south)
{
    static struct growth_year y;
    y = growth_year_of(year, south);
    return &y;
}

static void index_is(const struct growth_year *y, int start, int end, int length)
{
    struct spell_season s = spells_growing(t, y, SPELL_INDEX_DAYS);
    assert_int_equal(s.start, start);
    assert_int_equal(s.end, end);
    assert_int_equal(s.length, length);
}

/* T = a - b cos(2 pi (d - 15) / 365): each date worked out by two other programs from the
 * definitions (computed by us; the definitions: ETCCDI, Schaumberger 2011, advice sheets). */
static const struct {
    double a, b;
    int start, end, length, tsum, weighted, weighted_south, many, soil;
} cosine[] = {
    {10, 6, 50, 346, 296, 48, 65, 66, 60, 55},     {8, 10, 89, 307, 218, 106, 107, 107, 91, 95},
    {7, 15, 99, 297, 198, 118, 118, 118, 99, 105}, {5.5, 3, 97, 299, 202, 71, 85, 86, 112, 103},
    {12, 5, 1, 366, 365, 29, 48, 48, 30, 1},       {2, 2, NO, NO, 0, 154, 155, 155, NO, NO},
};

static void test_cosines(void **state)
{
    double soil[DAYS];
    (void)state;
    for (size_t k = 0; k < sizeof cosine / sizeof cosine[0]; k++) {
        for (int south = 0; south < 2; south++) {
            const struct growth_year *y = year_of(2025, south);
            assert_int_equal(y->days, 365);
            for (int i = 0; i < y->days; i++) {
                t[i] = cosine[k].a - cosine[k].b * cos(2.0 * NUM_PI * (i + 1 - 15) / 365.0);
                soil[i] = i ? soil[i - 1] + 0.15 * (t[i] - soil[i - 1]) : t[0];
            }
            index_is(y, cosine[k].start, cosine[k].end, cosine[k].length);
            assert_int_equal(spells_tsum(t, y, false), cosine[k].tsum);
            assert_int_equal(spells_tsum(t, y, true), south ? cosine[k].weighted_south : cosine[k].weighted);
            assert_int_equal(spells_many_criteria(t, y), cosine[k].many);
            assert_int_equal(spells_growing(soil, y, SPELL_SOIL_DAYS).start, cosine[k].soil);
        }
    }
}

/* The edges follow from the wording of the index (ETCCDI: strictly above, strictly below). */
static void test_exactly_five_is_neither(void **state)
{
    (void)state;
    fill(5.0);
    index_is(year_of(2025, false), NO, NO, 0);
    set(100, 105, 5.1);
    index_is(year_of(2025, false), 100, 366, 266); /* 5.0 ends nothing */
    set(103, 103, 5.0);
    index_is(year_of(2025, false), NO, NO, 0); /* it breaks the run */
    fill(8.0);
    set(300, 304, 4.9);
    index_is(year_of(2025, false), 1, 366, 365); /* five cold days are none */
    set(305, 305, 5.0);
    set(306, 310, 4.9);
    index_is(year_of(2025, false), 1, 366, 365);
    set(305, 305, 4.9);
    index_is(year_of(2025, false), 1, 300, 299);
}

static void test_leap_year_and_no_end(void **state)
{
    (void)state;
    fill(8.0);
    index_is(year_of(2024, false), 1, 367, 366);
    index_is(year_of(2023, true), 1, 367, 366); /* July 2023 to June 2024 */
    index_is(year_of(2024, true), 1, 366, 365);
    assert_int_equal(year_of(2023, true)->first, date_make(2023, 7, 1));
}

static void test_cold_run_over_mid_year(void **state)
{
    (void)state;
    fill(8.0);
    set(178, 186, 4.0); /* 27 June to 5 July: five days lie on or after 1 July (day 182) */
    index_is(year_of(2025, false), 1, 366, 365);
    set(187, 187, 4.0);
    index_is(year_of(2025, false), 1, 182, 181);
    index_is(year_of(2024, false), 1, 367, 366); /* 1 July is day 183: five days again */
    set(185, 189, 4.0);                          /* south: 1 January is day 185 */
    set(178, 184, 4.0);
    index_is(year_of(2025, true), 1, 366, 365);
    set(190, 190, 4.0);
    index_is(year_of(2025, true), 1, 185, 184);
}

static void test_start_after_mid_year(void **state)
{
    (void)state;
    fill(3.0);
    set(250, 260, 9.0);
    index_is(year_of(2025, false), 250, 261, 11); /* the cold of July closes nothing */
}

static void test_missing_days(void **state)
{
    const struct growth_year *y = year_of(2025, false);
    (void)state;
    fill(3.0);
    set(100, 300, 9.0);
    set(105, 105, NAN);
    index_is(y, 106, 301, 195);
    set(303, 303, NAN);
    index_is(y, 106, 304, 198);
    fill(10.0);
    set(1, 5, NAN);
    assert_int_equal(spells_tsum(t, y, false), 25); /* 20 days of 10 C, after 5 missing */
    set(6, 6, NAN);
    assert_int_equal(spells_tsum(t, y, false), NO);
    fill(10.0);
    set(60, 80, NAN);
    assert_int_equal(spells_tsum(t, y, false), 20); /* what is missing afterwards does not matter */
    fill(NAN);
    index_is(y, NO, NO, 0);
    assert_int_equal(spells_tsum(t, y, true), NO);
    assert_int_equal(spells_many_criteria(t, y), NO);
}

static void test_sums(void **state)
{
    const struct growth_year *y = year_of(2025, false);
    (void)state;
    fill(0.1);
    set(1, 3, -20.0);
    assert_int_equal(spells_tsum(t, y, false), NO); /* frost counts as 0; 36.2 C d are not enough */
    fill(0.8);
    assert_int_equal(spells_tsum(t, y, false), 250); /* 250 x 0.8 reaches 200 */
    fill(4.0);
    assert_int_equal(spells_tsum(t, y, true), 73);                    /* 31 x 2 + 28 x 3 + 14 x 4 = 202 */
    assert_int_equal(spells_tsum(t, year_of(2024, false), true), 73); /* 31 x 2 + 29 x 3 + 13 x 4 = 201 */
    assert_int_equal(spells_tsum(t, year_of(2024, true), true), 74);  /* 31 x 2 + 31 x 3 + 12 x 4 = 203 */
}

static void test_many_criteria(void **state)
{
    const struct growth_year *y = year_of(2025, false);
    (void)state;
    fill(8.0);
    assert_int_equal(spells_many_criteria(t, y), 30);
    set(38, 38, 1.9);                                 /* every window that holds day 38 has a day under 2 C */
    assert_int_equal(spells_many_criteria(t, y), 30); /* days 28 to 37 hold 30 to 34 */
    set(34, 34, 1.9);
    assert_int_equal(spells_many_criteria(t, y), 39);
    set(34, 38, 2.0); /* exactly 2 is not below */
    assert_int_equal(spells_many_criteria(t, y), 39);
    fill(6.0);
    assert_int_equal(spells_many_criteria(t, y), 30); /* a mean of exactly 6 will do */
    fill(5.9);
    assert_int_equal(spells_many_criteria(t, y), NO);
    fill(0.0);
    set(60, 64, 4.0); /* ten days whose last five are the five warm ones, and no window more is warm enough */
    set(65, 69, 9.0);
    assert_int_equal(spells_many_criteria(t, y), 65);
    set(60, 60, 1.9);
    assert_int_equal(spells_many_criteria(t, y), NO);
}

static struct spell_season sugar(int days)
{
    return spells_sugar(t, days, SPELL_SUGAR_HOURS, SPELL_SUGAR_DAYS);
}

/* Our own definition: each case by its wording. */
static void test_sugar_season(void **state)
{
    struct spell_season s;
    (void)state;
    fill(24.0);
    s = sugar(365);
    assert_true(s.start == NO && s.end == NO && s.length == 0);
    set(50, 54, 3.0); /* five days are no run */
    assert_int_equal(sugar(365).start, NO);
    set(100, 105, 23.5);
    s = sugar(365);
    assert_true(s.start == 100 && s.end == 106 && s.length == 6);
    set(200, 220, 0.0);
    set(300, 304, 0.0);
    s = sugar(365);
    assert_true(s.start == 100 && s.end == 221 && s.length == 121); /* free days between belong to it */
    set(210, 210, NAN);
    set(216, 216, NAN);
    s = sugar(365);
    assert_true(s.start == 100 && s.end == 210); /* 211 to 215 and 217 to 220 are no runs */
    fill(2.0);
    s = sugar(365);
    assert_true(s.start == 1 && s.end == 366 && s.length == 365);
    s = sugar(366);
    assert_true(s.start == 1 && s.end == 367 && s.length == 366);
    set(1, 359, 24.0);
    s = sugar(365);
    assert_true(s.start == 360 && s.end == 366 && s.length == 6); /* not ended */
    s = spells_sugar(t, 365, 2.0, SPELL_SUGAR_DAYS);
    assert_int_equal(s.start, NO); /* two hours are not fewer than two */
    s = spells_sugar(t, 365, 2.5, 7);
    assert_int_equal(s.start, NO);
}

static void test_tropics(void **state)
{
    (void)state;
    assert_false(spells_seasonal(-10.0));
    assert_true(spells_seasonal(10.1) && spells_seasonal(-35.0));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_cosines),
        cmocka_unit_test(test_exactly_five_is_neither),
        cmocka_unit_test(test_leap_year_and_no_end),
        cmocka_unit_test(test_cold_run_over_mid_year),
        cmocka_unit_test(test_start_after_mid_year),
        cmocka_unit_test(test_missing_days),
        cmocka_unit_test(test_sums),
        cmocka_unit_test(test_many_criteria),
        cmocka_unit_test(test_sugar_season),
        cmocka_unit_test(test_tropics),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
