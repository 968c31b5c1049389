/* Months, dates and quantiles of an ensemble made by hand.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "support/near.h"
#include <math.h>

#include "season/fan.h"

static struct arena arena;

static int start(void **state)
{
    (void)state;
    arena_init(&arena);
    return 0;
}

static int stop(void **state)
{
    (void)state;
    arena_release(&arena);
    return 0;
}

/* Hyndman & Fan 1996, type 6, of 1 2 4 7 11 16 22: computed by us from the formula h = p (n + 1),
 * p = 0.1 and 0.9 ending at the least and the greatest; 1, 2, 7 and 22 stand so in tables of
 * common statistics packages for type 6. */
static void one_member_a_year_is_type_6(void **state)
{
    const double x[] = {1, 2, 4, 7, 11, 16, 22};
    (void)state;
    assert_near(outlook_quantile(x, 7, 7, 0.10), 1.0, 1e-9);
    assert_near(outlook_quantile(x, 7, 7, 0.25), 2.0, 1e-6);
    assert_near(outlook_quantile(x, 7, 7, 0.50), 7.0, 1e-6);
    assert_near(outlook_quantile(x, 7, 7, 0.80), (16.0 + 0.4 * 6.0), 1e-5); /* place 6.4 */
    assert_near(outlook_quantile(x, 7, 7, 0.90), 22.0, 1e-9);
    assert_near(outlook_quantile(x, 1, 7, 0.90), 1.0, 1e-9);
}

/* Of n years and a new one each of the n + 1 places is as likely: with 9 years p10 is the
 * least, and a new year lies below it in 1 case of 10. Many members a year: the years not
 * on record have their share, and less so the more years there are. */
static void many_members_keep_the_share_of_unseen_years(void **state)
{
    double x[9000];
    (void)state;
    for (int i = 0; i < 9; i++) {
        x[i] = i;
    }
    assert_near(outlook_quantile(x, 9, 9, 0.1), 0.0, 1e-6);
    assert_near(outlook_quantile(x, 9, 9, 0.9), 8.0, 1e-6);
    for (int i = 0; i < 9000; i++) {
        x[i] = (i + 0.5) / 9000.0;
    }
    assert_near(outlook_quantile(x, 9000, 9, 0.1), (0.5 / 9.0), 2e-4);
    assert_near(outlook_quantile(x, 9000, 9, 0.5), 0.5, 2e-4);
    assert_near(outlook_quantile(x, 9000, 1000, 0.1), 0.0996, 2e-4);
}

static void months_are_whole_ones_and_the_rest_of_the_first(void **state)
{
    (void)state;
    assert_int_equal(outlook_days(date_make(2020, 2, 1), 1), 29);
    assert_int_equal(outlook_days(date_make(2019, 2, 1), 1), 28);
    assert_int_equal(outlook_days(date_make(2019, 12, 31), 1), 1 + 31);
    assert_int_equal(outlook_days(date_make(2019, 7, 1), 12), 366);
    assert_int_equal(outlook_days(date_make(2019, 5, 4), 6), 28 + 30 + 31 + 31 + 30 + 31 + 30);
    assert_int_equal(outlook_days(date_make(2200, 7, 1), 6), 31 + 31 + 30 + 31 + 30 + 31);
    assert_int_equal(outlook_days(date_make(2200, 7, 2), 6), 0); /* the next year is not reckoned with */
}

enum { DAYS = 61, YEARS = 9 };

/* 15 March to 14 May; one paddock, one group; draws as said. */
static void make(struct ensemble *e, size_t draws)
{
    *e = (struct ensemble){.first = date_make(2021, 3, 15),
                           .years = YEARS,
                           .draws = draws,
                           .days = DAYS,
                           .paddocks = 1,
                           .animals = 1,
                           .members = YEARS * (1 + draws),
                           .brief_h = 1.0};
    size_t cells = e->members * DAYS;
    e->growth = arena_alloc(&arena, cells, sizeof(float));
    e->sugar = arena_alloc(&arena, cells, sizeof(float));
    e->hours = arena_alloc(&arena, cells, sizeof(float));
    e->hay = arena_alloc(&arena, cells, sizeof(float));
    for (size_t i = 0; i < cells; i++) {
        e->hours[i] = 24.0F;
        e->growth[i] = 10.0F;
        e->sugar[i] = 100.0F;
    }
}

static void shorten(struct ensemble *e, size_t member, size_t from, size_t to, float hours)
{
    for (size_t k = from; k < to; k++) {
        e->hours[ensemble_at(e, 0, member, k)] = hours;
    }
}

static void seasons_become_dates(void **state)
{
    struct ensemble e;
    struct outlook o;
    (void)state;
    make(&e, 0);
    /* year y: six days or more from day 10 + y on, up to day 30; year 8 goes on to the end */
    for (size_t y = 0; y < YEARS; y++) {
        shorten(&e, y, 10 + y, y == 8 ? DAYS : 30, 5.0F);
    }
    shorten(&e, 0, 2, 7, 0.0F); /* five days are no season */
    assert_true(outlook_make(&e, &arena, &o));
    const struct outlook_animal *a = &o.animal[0];
    double first = e.first;
    assert_true(a->onset.p10 == first + 10 && a->onset.p50 == first + 14 && a->onset.p90 == first + 18);
    assert_true(a->onset_p80 == first + 17); /* place 8 of 9 */
    assert_true(a->end.p10 == first + 30 && a->end.p50 == first + 30 && isnan(a->end.p90));
    assert_true(a->share_none == 0.0 && a->share_now == 0.0);
}

static void what_does_not_happen_has_no_date(void **state)
{
    struct ensemble e;
    struct outlook o;
    (void)state;
    make(&e, 0);
    assert_true(outlook_make(&e, &arena, &o));
    assert_true(o.animal[0].share_none == 1.0);
    assert_true(isnan(o.animal[0].onset.p10) && isnan(o.animal[0].end.p50) && isnan(o.animal[0].onset_p80));
    for (size_t y = 0; y < 6; y++) {
        shorten(&e, y, 0, 10, 23.5F);
    }
    assert_true(outlook_make(&e, &arena, &o));
    assert_near(o.animal[0].share_none, (3.0 / 9.0), 1e-6);
    assert_near(o.animal[0].share_now, (6.0 / 9.0), 1e-6);
    assert_true(o.animal[0].onset.p50 == (double)e.first && isnan(o.animal[0].onset.p90));
    assert_true(o.animal[0].end.p90 == (double)e.first + 10); /* of the years that have one */
}

/* Draw 0: five days from 30 March on are short, one of them brief. Draw 1: never free. */
static void make_months(struct ensemble *e)
{
    make(e, 1);
    for (size_t y = 0; y < YEARS; y++) {
        shorten(e, y, 15, 20, 5.0F);
        shorten(e, y, 18, 19, 1.0F);
        shorten(e, YEARS + y, 0, DAYS, 0.0F);
        for (size_t k = 0; k < DAYS; k++) {
            e->growth[ensemble_at(e, 0, YEARS + y, k)] = (float)y;
            e->sugar[ensemble_at(e, 0, YEARS + y, k)] = k < 17 ? 50.0F : 200.0F;
        }
    }
}

static void months_are_counted_apart(void **state)
{
    struct ensemble e;
    struct outlook o;
    (void)state;
    make_months(&e);
    assert_true(outlook_make(&e, &arena, &o));
    assert_int_equal(o.months, 3);
    const struct outlook_month expected[] = {{2021, 3, 0, 17}, {2021, 4, 17, 30}, {2021, 5, 47, 14}};
    assert_memory_equal(o.month, expected, sizeof expected);
    const struct outlook_animal *a = &o.animal[0];
    assert_true(a->restricted[0].p50 == 2.0 && a->restricted[1].p50 == 3.0 && a->restricted[2].p90 == 0.0);
    assert_true(a->brief[0].p50 == 0.0 && a->brief[1].p50 == 1.0);
    assert_true(a->tested[0].p10 == 17.0 && a->tested[2].p90 == 14.0);
}

static void grass_is_that_of_drawn_paddocks(void **state)
{
    struct ensemble e;
    struct outlook o;
    (void)state;
    make_months(&e);
    assert_true(outlook_make(&e, &arena, &o));
    const struct outlook_paddock *p = &o.paddock[0];
    assert_true(p->growth[1].p10 == 0.0 && p->growth[1].p50 == 4.0 * 30 && p->growth[1].p90 == 8.0 * 30);
    assert_near(p->sugar[0].p50, 50.0, 1e-4);
    assert_near(p->sugar[2].p50, 200.0, 1e-4);
    make(&e, 0); /* without draws it is the model's own, and nothing is known of tests */
    assert_true(outlook_make(&e, &arena, &o));
    assert_true(isnan(o.animal[0].tested[0].p50));
    assert_near(o.paddock[0].growth[0].p50, 170.0, 1e-4);
}

static void fans_go_week_by_week(void **state)
{
    struct ensemble e;
    struct fan_week week[9];
    (void)state;
    make_months(&e);
    assert_int_equal(fan_weeks(&e), 9); /* 61 days */
    assert_true(fan_make(&e, e.growth, 0, &arena, week));
    assert_true(week[8].from == 56 && week[8].days == 5);
    assert_true(week[3].value[0] == 0.0 && week[3].value[2] == 4.0 && week[3].value[4] == 8.0);
    /* days 15 to 19 are short, in the third week (14 to 20) of all years; day 18 brief */
    assert_near(fan_share_restricted(&e, 0, &week[2]), (5.0 / 7.0), 1e-6);
    assert_near(fan_share_brief(&e, 0, &week[2]), (1.0 / 7.0), 1e-6);
    assert_near(fan_share_restricted(&e, 0, &week[3]), 0.0, 1e-6);
    const struct fan_week before = {.from = 8, .days = 7}; /* up to the day before the short ones */
    assert_near(fan_share_restricted(&e, 0, &before), 0.0, 0.0);
    for (size_t y = 0; y < YEARS; y++) { /* the same in another order of the years */
        for (size_t k = 0; k < DAYS; k++) {
            e.growth[ensemble_at(&e, 0, YEARS + y, k)] = (float)(y * 4 % YEARS);
        }
    }
    assert_true(fan_make(&e, e.growth, 0, &arena, week));
    assert_true(week[3].value[0] == 0.0 && week[3].value[2] == 4.0 && week[3].value[4] == 8.0);
}

/* The most months that there is room for: 14 of them, and no more. */
static void fourteen_months_fit(void **state)
{
    struct outlook o;
    date_t first = date_make(2021, 3, 1);
    size_t days = outlook_days(first, OUTLOOK_MONTHS);
    struct ensemble e = {
        .first = first, .years = 1, .days = days, .paddocks = 1, .animals = 1, .members = 1, .brief_h = 1.0};
    (void)state;
    assert_int_equal(days, 365 + 31 + 30);
    e.growth = e.sugar = e.hours = arena_alloc(&arena, days, sizeof(float));
    for (size_t k = 0; k < days; k++) {
        e.hours[k] = k < 3 ? 0.5F : k == days - 1 ? 7.0F : 24.0F;
    }
    assert_true(outlook_make(&e, &arena, &o));
    assert_int_equal(o.months, OUTLOOK_MONTHS);
    assert_int_equal(o.month[OUTLOOK_MONTHS - 1].month, 4);
    assert_true(o.animal[0].restricted[0].p50 == 3.0 && o.animal[0].brief[0].p50 == 3.0);
    assert_true(o.animal[0].restricted[OUTLOOK_MONTHS - 1].p50 == 1.0 && o.animal[0].brief[13].p50 == 0.0);
    assert_true(isnan(o.animal[0].tested[0].p50));
    assert_true(o.paddock[0].growth[0].p50 == 28 * 24.0 + 1.5 && o.paddock[0].sugar[1].p50 == 24.0);
    e.first = date_make(2021, 2, 1); /* some days of a fifteenth month are left aside */
    assert_true(outlook_make(&e, &arena, &o));
    assert_int_equal(o.months, OUTLOOK_MONTHS);
    assert_int_equal(o.month[OUTLOOK_MONTHS - 1].month, 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_member_a_year_is_type_6),
        cmocka_unit_test(many_members_keep_the_share_of_unseen_years),
        cmocka_unit_test(months_are_whole_ones_and_the_rest_of_the_first),
        cmocka_unit_test(seasons_become_dates),
        cmocka_unit_test(what_does_not_happen_has_no_date),
        cmocka_unit_test(months_are_counted_apart),
        cmocka_unit_test(grass_is_that_of_drawn_paddocks),
        cmocka_unit_test(fans_go_week_by_week),
        cmocka_unit_test(fourteen_months_fit),
    };
    return cmocka_run_group_tests(tests, start, stop);
}
