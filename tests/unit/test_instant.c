/* Instants and intervals as services write them (ISO 8601); the seconds by the calendar.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <string.h>

#include "base/clock.h"
#include "base/date.h"
#include "weather/instant.h"

static int64_t utc(int year, int month, int day, int hour, int minute)
{
    return (int64_t)date_make(year, month, day) * CLOCK_DAY_SECONDS + (hour * 60 + minute) * 60;
}

static void instants_are_read(void **state)
{
    static const struct {
        const char *text;
        int hour, minute, second, ahead_min; /* of 4 May 2025 */
        bool zoned;
    } row[] = {
        {"2025-05-04T07:00", 7, 0, 0, 0, false},
        {"2025-05-04 07:05", 7, 5, 0, 0, false},
        {"2025-05-04T07:05:59", 7, 5, 59, 0, false},
        {"2025-05-04T23:59:60", 23, 59, 60, 0, false},
        {"2025-05-04T24:00", 24, 0, 0, 0, false},
        {"2025-05-04T07:00Z", 7, 0, 0, 0, true},
        {"2025-05-04T07:00:01Z", 7, 0, 1, 0, true},
        {"2025-05-04T07:00+09:30", 7, 0, 0, 570, true},
        {"2025-05-04T07:00-0330", 7, 0, 0, -210, true},
        {"2025-05-04T07:00:00+01", 7, 0, 0, 60, true},
        {"2025-05-04T07:00:00-23:59", 7, 0, 0, -1439, true},
    };
    (void)state;
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        int64_t s = 0;
        bool zoned = !row[i].zoned;
        assert_true(instant_parse(row[i].text, strlen(row[i].text), &s, &zoned));
        assert_true(zoned == row[i].zoned);
        assert_true(s == utc(2025, 5, 4, row[i].hour, row[i].minute - row[i].ahead_min) + row[i].second);
    }
}

static void what_is_no_instant_is_refused(void **state)
{
    static const char *const bad[] = {
        "",
        "2025-05-04",
        "2025-05-04T07",
        "2025-05-04T7:00:00",
        "2025-05-04x07:00",
        "2025-05-04T07.00",
        "2025-02-30T07:00",
        "2025-05-04T25:00",
        "2025-05-04T24:01",
        "2025-05-04T24:00:01",
        "2025-05-04T07:60",
        "2025-05-04T07:00:61",
        "2025-05-04T07:00:6",
        "2025-05-04T07:00:xx",
        "2025-05-04T-7:00",
        "2025-05-04T07:+1",
        "2025-05-04T07:00z",
        "2025-05-04T07:00ZZ",
        "2025-05-04T07:00+1",
        "2025-05-04T07:00+001",
        "2025-05-04T07:00+01:3",
        "2025-05-04T07:00+01.30",
        "2025-05-04T07:00+24:00",
        "2025-05-04T07:00+01:60",
        "2025-05-04T07:00*01:30",
    };
    (void)state;
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        int64_t s;
        bool zoned;
        if (instant_parse(bad[i], strlen(bad[i]), &s, &zoned)) {
            fail_msg("\"%s\" passes for an instant", bad[i]);
        }
    }
}

static void intervals_last_as_long_as_they_say(void **state)
{
    static const struct {
        const char *duration;
        int64_t seconds; /* 0: it is none */
    } row[] = {
        {"/PT10H", 36000},
        {"/P1D", 86400},
        {"/P1W", 604800},
        {"/P1DT6H", 108000},
        {"/PT1H30M", 5400},
        {"/PT90S", 90},
        {"/P2W3DT4H5M6S", 1483506},
        {"", 0},
        {"/", 0},
        {"/10H", 0},
        {"/P", 0},
        {"/PT", 0},
        {"/PT0H", 0},
        {"/P1H", 0},
        {"/PT1D", 0},
        {"/P1Y", 0},
        {"/PT1H1H", 0},
        {"/PT1M1H", 0},
        {"/PT1", 0},
        {"/PTH", 0},
        {"/PT1HT1M", 0},
        {"/PT999999H", 0},
        {"/PT1H ", 0},
        {"/P1D6H", 0},
    };
    (void)state;
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        char text[64] = "2022-02-04T01:00:00+00:00";
        int64_t from = 0, to = 0;
        strcat(text, row[i].duration);
        bool good = instant_interval(text, &from, &to);
        if (good != (row[i].seconds > 0)) {
            fail_msg("%s: %d", text, good);
        }
        assert_true(!good || (from == utc(2022, 2, 4, 1, 0) && to - from == row[i].seconds));
    }
    int64_t from, to;
    assert_false(instant_interval("2022-02-04T01:00:00/PT10H", &from, &to)); /* of no zone */
    assert_false(instant_interval("2022-02-04/PT10H", &from, &to));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(instants_are_read),
        cmocka_unit_test(what_is_no_instant_is_refused),
        cmocka_unit_test(intervals_last_as_long_as_they_say),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
