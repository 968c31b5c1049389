/* Hours to days: what a day holds, where it begins and ends, what is missing; and the
 * times that files write. Expected values follow by hand from the values put in.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <string.h>

#include "weather/hours.h"
#include "weather/instant.h"

#define HOUR 3600

struct bench {
    struct arena a;
    struct clock_zone z;
    struct hours h;
    int64_t start; /* midnight of the first day */
};

static int64_t utc(int year, int month, int day, int hour)
{
    return (int64_t)date_make(year, month, day) * CLOCK_DAY_SECONDS + (int64_t)hour * HOUR;
}

/* Days of a zone ("": UTC) from a date on. */
static void begin(struct bench *b, const char *zone, int year, int month, int day, int days)
{
    struct err e;
    err_clear(&e);
    arena_init(&b->a);
    int64_t first = utc(year, month, day, 0), last = first + (int64_t)days * CLOCK_DAY_SECONDS;
    enum err_code code =
        zone[0] ? clock_zone_load(&b->z, zone, first, last, &b->a, &e) : clock_zone_fixed(&b->z, 0, &b->a, &e);
    date_t date = date_make(year, month, day);
    assert_int_equal(code, ERR_OK);
    b->start = clock_zone_midnight(&b->z, date);
    last = clock_zone_midnight(&b->z, date + days) - 1;
    assert_int_equal(hours_begin(&b->h, &b->z, b->start, last, "w.json", &b->a, &e), ERR_OK);
    assert_int_equal(b->h.n, days);
}

static void temperatures(struct bench *b, int from, int to, double t)
{
    for (int k = from; k < to; k++) {
        hours_instant(&b->h, b->start + (int64_t)k * HOUR, b->start + (int64_t)(k + 1) * HOUR, t + k);
    }
}

static void near(double a, double b)
{
    if (!(fabs(a - b) < 1e-9)) {
        fail_msg("%.12g, not %.12g", a, b);
    }
}

static void a_day_is_its_hours(void **state)
{
    struct bench b;
    (void)state;
    begin(&b, "", 2025, 6, 1, 2);
    temperatures(&b, 0, 48, -3);
    for (int k = 0; k < 48; k++) {
        int64_t at = b.start + (int64_t)k * HOUR;
        hours_mean(&b.h, WEATHER_RH, at, at + HOUR, k < 24 ? 60 : 80);
        hours_amount(&b.h, WEATHER_RAIN, at, at + HOUR, 0.5);
        hours_amount(&b.h, WEATHER_RAD, at, at + HOUR, k % 24 == 12 ? 2 : 0);
    }
    near(hours_value(&b.h, WEATHER_TMIN, 0), -3);
    near(hours_value(&b.h, WEATHER_TMAX, 0), 20);
    near(hours_value(&b.h, WEATHER_TMIN, 1), 21); /* the midnight between belongs to the second day */
    near(hours_value(&b.h, WEATHER_RH, 1), 80);
    near(hours_value(&b.h, WEATHER_RAIN, 1), 12);
    near(hours_value(&b.h, WEATHER_RAD, 1), 2);
    assert_true(isnan(hours_value(&b.h, WEATHER_WIND, 0)));
    assert_int_equal(b.h.day[1].covered[WEATHER_RAIN], 24 * HOUR);
    arena_release(&b.a);
}

/* 23 and 25 hours (IANA database: Ireland, 2025-03-30 and 2025-10-26). */
static void clock_changes_make_short_and_long_days(void **state)
{
    static const struct {
        int month, day, hours;
    } changes[] = {{3, 30, 23}, {10, 26, 25}};
    (void)state;
    if (!clock_zone_known("Europe/Dublin")) {
        skip();
    }
    for (size_t i = 0; i < 2; i++) {
        struct bench b;
        begin(&b, "Europe/Dublin", 2025, changes[i].month, changes[i].day, 2);
        temperatures(&b, 0, 49, 0);
        for (int k = 0; k < 49; k++) {
            int64_t at = b.start + (int64_t)k * HOUR;
            hours_amount(&b.h, WEATHER_RAIN, at, at + HOUR, 1);
        }
        near(hours_value(&b.h, WEATHER_RAIN, 0), changes[i].hours);
        near(hours_value(&b.h, WEATHER_RAIN, 1), 24);
        near(hours_value(&b.h, WEATHER_TMAX, 0), changes[i].hours - 1);
        near(hours_value(&b.h, WEATHER_TMIN, 1), changes[i].hours);
        arena_release(&b.a);
    }
}

static void midnight_shares_out(void **state)
{
    struct bench b;
    (void)state;
    begin(&b, "", 2025, 6, 1, 2);
    int64_t midnight = b.start + 24 * HOUR;
    temperatures(&b, 0, 48, 0);
    hours_amount(&b.h, WEATHER_RAIN, b.start, midnight - 4 * HOUR, 0);
    hours_amount(&b.h, WEATHER_RAIN, midnight - 4 * HOUR, midnight + 2 * HOUR, 6);
    hours_amount(&b.h, WEATHER_RAIN, midnight + 2 * HOUR, midnight + 24 * HOUR, 0);
    near(hours_value(&b.h, WEATHER_RAIN, 0), 4);
    near(hours_value(&b.h, WEATHER_RAIN, 1), 2);
    /* an extreme belongs to the day of its middle, unless it must lie inside */
    hours_extreme(&b.h, WEATHER_TMAX, midnight - 2 * HOUR, midnight + 4 * HOUR, 90, true);
    near(hours_value(&b.h, WEATHER_TMAX, 1), 47);
    hours_extreme(&b.h, WEATHER_TMAX, midnight - 2 * HOUR, midnight + 4 * HOUR, 50, false);
    hours_extreme(&b.h, WEATHER_TMIN, midnight - 6 * HOUR, midnight, -5, true);
    near(hours_value(&b.h, WEATHER_TMAX, 0), 23);
    near(hours_value(&b.h, WEATHER_TMAX, 1), 50);
    near(hours_value(&b.h, WEATHER_TMIN, 0), -5);
    arena_release(&b.a);
}

static void a_level_counts_in_each_day_that_it_reaches(void **state)
{
    struct bench b;
    (void)state;
    begin(&b, "", 2025, 6, 1, 3);
    hours_level(&b.h, b.start, b.start + 23 * HOUR, 10);
    hours_level(&b.h, b.start + 23 * HOUR, b.start + 48 * HOUR, 4);
    near(hours_value(&b.h, WEATHER_TMIN, 0), 4);
    near(hours_value(&b.h, WEATHER_TMAX, 0), 10);
    near(hours_value(&b.h, WEATHER_TMAX, 1), 4);
    assert_true(isnan(hours_value(&b.h, WEATHER_TMAX, 2))); /* it ends at the third midnight */
    arena_release(&b.a);
}

/* Both sides of each edge of the rule in the header. */
static void few_hours_may_lack(void **state)
{
    static const struct {
        enum weather_var v;
        int may_lack;
    } edges[] = {{WEATHER_TMIN, 2}, {WEATHER_TMAX, 2}, {WEATHER_RH, 2},  {WEATHER_WIND, 2},
                 {WEATHER_TDEW, 2}, {WEATHER_RAIN, 1}, {WEATHER_RAD, 0}, {WEATHER_ET0, 0}};
    (void)state;
    for (size_t i = 0; i < sizeof edges / sizeof edges[0]; i++) {
        for (int lack = 0; lack <= edges[i].may_lack + 1; lack++) {
            struct bench b;
            begin(&b, "", 2025, 6, 1, 1);
            int64_t to = b.start + (int64_t)(24 - lack) * HOUR;
            if (edges[i].v == WEATHER_TMIN || edges[i].v == WEATHER_TMAX) {
                temperatures(&b, 0, 24 - lack, 1);
            } else {
                hours_mean(&b.h, edges[i].v, b.start, to, 1);
            }
            assert_int_equal(!isnan(hours_value(&b.h, edges[i].v, 0)), lack <= edges[i].may_lack);
            arena_release(&b.a);
        }
    }
}

static void days_at_the_ends_are_left_out(void **state)
{
    struct bench b;
    struct weather_days w;
    char text[100];
    size_t first, n;
    (void)state;
    begin(&b, "", 2025, 6, 1, 4);
    temperatures(&b, 3, 75, 0);
    hours_whole(&b.h, &first, &n);
    assert_int_equal(first, 1);
    assert_int_equal(n, 2);
    assert_string_equal(hours_left_out(&b.h, first, n, text, sizeof text),
                        "2025-06-01 and 2025-06-04 lack hours and are left out");
    assert_true(hours_days(&b.h, first, n, &b.a, &w));
    assert_int_equal(w.day0, date_make(2025, 6, 2));
    assert_int_equal(w.n, 2);
    near(w.col[WEATHER_TMIN][0], 24);
    assert_null(w.col[WEATHER_RAIN]);
    assert_int_equal(w.origin[0], ORIGIN_NONE);
    arena_release(&b.a);

    begin(&b, "", 2025, 6, 1, 2);
    temperatures(&b, 2, 48, 0); /* two hours: the day stands */
    hours_whole(&b.h, &first, &n);
    assert_int_equal(first, 0);
    assert_int_equal(n, 2);
    assert_string_equal(hours_left_out(&b.h, first, n, text, sizeof text), "");
    arena_release(&b.a);

    begin(&b, "", 2025, 6, 1, 2);
    temperatures(&b, 12, 36, 0);
    hours_whole(&b.h, &first, &n);
    assert_int_equal(n, 0);
    arena_release(&b.a);
}

static void endless_spans_are_refused(void **state)
{
    struct arena a;
    struct clock_zone z;
    struct hours h;
    struct err e;
    (void)state;
    arena_init(&a);
    err_clear(&e);
    assert_int_equal(clock_zone_fixed(&z, 0, &a, &e), ERR_OK);
    assert_int_equal(hours_begin(&h, &z, utc(1800, 1, 1, 0), utc(2200, 1, 1, 0), "w.json", &a, &e), ERR_DATA);
    assert_string_equal(e.file, "w.json");
    arena_release(&a);
}

static void times_are_read(void **state)
{
    static const struct {
        const char *text;
        int64_t s;
        bool zoned;
    } good[] = {
        {"2025-05-04T07:00", 1746342000, false},         {"2025-05-04T07:00:30", 1746342030, false},
        {"2025-05-04T07:00Z", 1746342000, true},         {"2025-05-04T07:00:00Z", 1746342000, true},
        {"2025-05-04T07:00+09:30", 1746307800, true},    {"2025-05-04T07:00:00-0500", 1746360000, true},
        {"2025-05-04T07:00:00+00:00", 1746342000, true}, {"2025-05-04T24:00", 1746403200, false},
        {"2025-05-04T07:00:00+02", 1746334800, true},
    };
    static const char *const bad[] = {"2025-05-04",
                                      "2025-05-04T7:00",
                                      "2025-02-30T07:00",
                                      "2025-05-04T25:00",
                                      "2025-05-04T24:01",
                                      "2025-05-04T07:60",
                                      "2025-05-04T07:00 Z",
                                      "2025-05-04T07:00+09:60",
                                      "2025-05-04T07:0x",
                                      "2025-05-04T07:00:00z0",
                                      "2025-05-04T+7:00",
                                      "",
                                      "2025-05-04T07:00+9:30",
                                      "2025-05-04T07:00.5"};
    (void)state;
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++) { /* seconds: date -u -d TEXT +%s */
        int64_t s;
        bool zoned;
        if (!instant_parse(good[i].text, strlen(good[i].text), &s, &zoned) || s != good[i].s ||
            zoned != good[i].zoned) {
            fail_msg("%s", good[i].text);
        }
    }
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        int64_t s;
        bool zoned;
        if (instant_parse(bad[i], strlen(bad[i]), &s, &zoned)) {
            fail_msg("%s was read", bad[i]);
        }
    }
}

static void intervals_are_read(void **state)
{
    static const struct {
        const char *text;
        int64_t seconds;
    } good[] = {
        {"2022-02-04T01:00:00+00:00/PT10H", 36000},   {"2022-02-04T01:00:00+00:00/P1D", 86400},
        {"2022-02-04T01:00:00+00:00/P1DT6H", 108000}, {"2022-02-04T01:00:00Z/P7DT14H", 655200},
        {"2022-02-04T01:00:00Z/PT1H30M", 5400},       {"2022-02-04T01:00:00Z/P1W", 604800},
    };
    static const char *const bad[] = {
        "2022-02-04T01:00:00/PT1H",   "2022-02-04T01:00:00Z",          "2022-02-04T01:00:00Z/1H",
        "2022-02-04T01:00:00Z/P",     "2022-02-04T01:00:00Z/PT",       "2022-02-04T01:00:00Z/P1H",
        "2022-02-04T01:00:00Z/PT1D",  "2022-02-04T01:00:00Z/P1M",      "2022-02-04T01:00:00Z/PT0H",
        "2022-02-04T01:00:00Z/PT-1H", "2022-02-04T01:00:00Z/PT1H1H",   "2022-02-04T01:00:00Z/PT1M1H",
        "2022-02-04T01:00:00Z/PT1H ", "2022-02-04T01:00:00Z/PT999999H"};
    (void)state;
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++) {
        int64_t from, to;
        if (!instant_interval(good[i].text, &from, &to) || to - from != good[i].seconds || from != 1643936400) {
            fail_msg("%s", good[i].text);
        }
    }
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        int64_t from, to;
        if (instant_interval(bad[i], &from, &to)) {
            fail_msg("%s was read", bad[i]);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_day_is_its_hours),        cmocka_unit_test(clock_changes_make_short_and_long_days),
        cmocka_unit_test(midnight_shares_out),       cmocka_unit_test(a_level_counts_in_each_day_that_it_reaches),
        cmocka_unit_test(few_hours_may_lack),        cmocka_unit_test(days_at_the_ends_are_left_out),
        cmocka_unit_test(endless_spans_are_refused), cmocka_unit_test(times_are_read),
        cmocka_unit_test(intervals_are_read),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
