/* Whom to ring first: the table of reasons and the order that follows from it. The rule is our
 * judgement; what is tested is that it is one order, without gaps, whatever comes together.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <string.h>

#include "out/round.h"

enum { SETS = 1 << ROUND_REASONS };

static unsigned lowest_bit(unsigned set)
{
    return set & (~set + 1u);
}

static void test_calls_follow_the_order(void **state)
{
    (void)state;
    static const enum round_call order[] = {ROUND_NOW, ROUND_TODAY, ROUND_WEEK, ROUND_MEND};
    size_t at = 0;
    for (int r = 0; r < ROUND_REASONS; r++) {
        while (at < sizeof order / sizeof order[0] && order[at] != round_kinds[r].call) {
            at++;
        }
        assert_true(at < sizeof order / sizeof order[0]);
        assert_true(strlen(round_kinds[r].id) > 0 && strlen(round_kinds[r].what) > 0);
    }
    assert_int_equal(round_call_of(0), ROUND_NOTHING);
    assert_int_equal(round_score(0), 0);
}

/* Of any two sets the one with the more urgent reason that the other lacks scores higher. */
static void test_a_reason_outweighs_all_below_it(void **state)
{
    (void)state;
    for (unsigned a = 0; a < SETS; a++) {
        unsigned b = (a * 2654435761u >> 7) % SETS;
        unsigned first = lowest_bit(a ^ b);
        assert_int_equal(round_score(a) > round_score(b), (a & first) != 0);
        assert_int_equal(round_score(a) == round_score(b), a == b);
        if (a) {
            int r = 0;
            while (!(a >> r & 1u)) {
                r++;
            }
            assert_int_equal(round_call_of(a), round_kinds[r].call);
        }
    }
}

static void test_less_grass_than_yesterday(void **state)
{
    (void)state;
    for (int risk = 0; risk < 2; risk++) {
        for (int before = TURNOUT_FREE; before <= TURNOUT_NONE; before++) {
            for (int today = TURNOUT_FREE; today <= TURNOUT_NONE; today++) {
                enum round_reason r = round_of_today(risk, (enum turnout)today, (enum turnout)before);
                if (today <= before) {
                    assert_int_equal(r, ROUND_REASONS);
                } else if (risk) {
                    assert_true(r != ROUND_REASONS);
                }
                assert_true(round_of_ahead(false, (enum turnout)today, (enum turnout)before) == ROUND_REASONS);
            }
        }
    }
    assert_int_equal(round_of_today(true, TURNOUT_NONE, TURNOUT_BRIEF), ROUND_OFF_GRASS);
    assert_int_equal(round_of_today(true, TURNOUT_BRIEF, TURNOUT_FREE), ROUND_BRIEF);
    assert_int_equal(round_of_today(true, TURNOUT_TIMED, TURNOUT_FREE), ROUND_TIGHTER);
    assert_int_equal(round_of_today(false, TURNOUT_TIMED, TURNOUT_FREE), ROUND_REASONS);
    assert_int_equal(round_of_today(false, TURNOUT_NONE, TURNOUT_FREE), ROUND_TIGHTER);
    assert_int_equal(round_of_ahead(true, TURNOUT_NONE, TURNOUT_BRIEF), ROUND_OFF_GRASS_AHEAD);
    assert_int_equal(round_of_ahead(true, TURNOUT_BRIEF, TURNOUT_TIMED), ROUND_BRIEF_AHEAD);
    assert_int_equal(round_of_ahead(true, TURNOUT_BRIEF, TURNOUT_NONE), ROUND_REASONS);
}

/* Both sides of both edges; the numbers are the models'. */
static void test_days_of_hay(void **state)
{
    (void)state;
    static struct params p;
    p.limits.round_hay_days = 7;
    p.hay.lead_days = 21;
    assert_int_equal(round_of_hay(0, &p), ROUND_HAY_OUT);
    assert_int_equal(round_of_hay(6, &p), ROUND_HAY_OUT);
    assert_int_equal(round_of_hay(7, &p), ROUND_HAY_LOW);
    assert_int_equal(round_of_hay(20, &p), ROUND_HAY_LOW);
    assert_int_equal(round_of_hay(21, &p), ROUND_REASONS);
    assert_int_equal(round_of_hay((double)NAN, &p), ROUND_REASONS);
}

static void test_sentences_stand_in_the_order_of_reasons(void **state)
{
    (void)state;
    static struct round_found f;
    f = (struct round_found){.due = DATE_NONE, .turnout = ROUND_UNADVISED};
    round_add(&f, ROUND_HAY_LOW, 20100, "hay");
    round_add(&f, ROUND_SIGNS_TODAY, DATE_NONE, "signs of %s", "one");
    round_add(&f, ROUND_BRIEF_AHEAD, 20050, "ahead");
    round_add(&f, ROUND_SIGNS_TODAY, DATE_NONE, "signs of %s", "two");
    assert_int_equal(f.whys, 4);
    assert_string_equal(f.why[0].text, "signs of one");
    assert_string_equal(f.why[1].text, "signs of two");
    assert_string_equal(f.why[2].text, "ahead");
    assert_string_equal(f.why[3].text, "hay");
    assert_int_equal(f.due, 20050);
    assert_int_equal(f.reasons, round_bit(ROUND_HAY_LOW) | round_bit(ROUND_SIGNS_TODAY) | round_bit(ROUND_BRIEF_AHEAD));
    for (int i = 0; i < ROUND_WHYS; i++) {
        round_add(&f, ROUND_TIGHTER, DATE_NONE, "more");
    }
    assert_int_equal(f.whys, ROUND_WHYS);
    assert_int_equal(f.whys + f.more, ROUND_WHYS + 4);
}

static void test_order_of_alike_holdings(void **state)
{
    (void)state;
    struct round_row row[] = {
        {.path = "d", .key = "b,d", .due = DATE_NONE, .reasons = round_bit(ROUND_SIGNS_TODAY)},
        {.path = "c", .key = "a,c", .due = 20001, .reasons = round_bit(ROUND_HAY_LOW)},
        {.path = "b", .key = "a,b", .due = 20001, .reasons = round_bit(ROUND_HAY_LOW)},
        {.path = "a", .key = "z,a", .due = 20000, .reasons = round_bit(ROUND_HAY_LOW)},
        {.path = "e", .key = "a,e", .due = DATE_NONE},
        {.path = "f", .key = "a,f", .due = DATE_NONE, .reasons = round_bit(ROUND_SIGNS_TODAY)},
    };
    const char order[] = "fdabce";
    round_sort(row, sizeof row / sizeof row[0]);
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        assert_int_equal(row[i].path[0], order[i]);
    }
}

static void test_signs_are_rung_for(void **state)
{
    (void)state;
    assert_int_equal(round_of_signs(SIGNS_GONE), ROUND_REASONS);
    assert_int_equal(round_of_signs(SIGNS_SAME_DAY), ROUND_SIGNS_TODAY);
    assert_int_equal(round_of_signs(SIGNS_AT_ONCE), ROUND_SIGNS_AT_ONCE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_calls_follow_the_order),
        cmocka_unit_test(test_a_reason_outweighs_all_below_it),
        cmocka_unit_test(test_less_grass_than_yesterday),
        cmocka_unit_test(test_days_of_hay),
        cmocka_unit_test(test_sentences_stand_in_the_order_of_reasons),
        cmocka_unit_test(test_order_of_alike_holdings),
        cmocka_unit_test(test_signs_are_rung_for),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
