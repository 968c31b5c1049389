/* Offsets, local dates and lengths of days of zones, as the IANA time zone database has
 * them (its rules for 2011, 2024 and 2025).
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>

#include "base/clock.h"

#define HOUR 3600

static int64_t utc(int year, int month, int day, int hour, int minute)
{
    return (int64_t)date_make(year, month, day) * CLOCK_DAY_SECONDS + hour * HOUR + minute * 60;
}

static struct clock_zone load(const char *name, struct arena *a)
{
    struct clock_zone z = {0};
    struct err e;
    err_clear(&e);
    arena_init(a);
    if (clock_zone_load(&z, name, utc(2010, 1, 1, 0, 0), utc(2026, 1, 1, 0, 0), a, &e) != ERR_OK) {
        fail_msg("%s", e.what);
    }
    return z;
}

static bool no_tables(void)
{
    return !clock_zone_known("Europe/Dublin");
}

/* The second before each change and the change itself. IANA database: file europe
 * (Ireland follows the EU rule: last Sunday of March and October, 01:00 UTC);
 * northamerica (second Sunday of March and first of November, 02:00 local);
 * australasia (Adelaide: first Sunday of October, 02:00 standard; Lord Howe: half an
 * hour, first Sunday of April); asia (Kathmandu +5:45 since 1986). */
static const struct change {
    const char *zone;
    int year, month, day, hour, minute; /* UTC */
    int before, after;                  /* minutes ahead of UTC */
} changes[] = {
    {"Europe/Dublin", 2025, 3, 30, 1, 0, 0, 60},           {"Europe/Dublin", 2025, 10, 26, 1, 0, 60, 0},
    {"America/New_York", 2025, 3, 9, 7, 0, -300, -240},    {"America/New_York", 2025, 11, 2, 6, 0, -240, -300},
    {"Australia/Adelaide", 2025, 10, 4, 16, 30, 570, 630}, {"Australia/Adelaide", 2025, 4, 5, 16, 30, 630, 570},
    {"Australia/Lord_Howe", 2025, 4, 5, 15, 0, 660, 630},  {"Australia/Lord_Howe", 2025, 10, 4, 15, 30, 630, 660},
    {"Asia/Kathmandu", 2025, 6, 1, 0, 0, 345, 345},
};

static void offsets_change_at_the_second(void **state)
{
    (void)state;
    if (no_tables()) {
        skip();
    }
    for (size_t i = 0; i < sizeof changes / sizeof *changes; i++) {
        const struct change *c = &changes[i];
        struct arena a;
        struct clock_zone z = load(c->zone, &a);
        int64_t at = utc(c->year, c->month, c->day, c->hour, c->minute);
        if (clock_zone_offset(&z, at - 1) != c->before * 60 || clock_zone_offset(&z, at) != c->after * 60) {
            fail_msg("%s: %d and %d s", c->zone, clock_zone_offset(&z, at - 1), clock_zone_offset(&z, at));
        }
        arena_release(&a);
    }
}

/* Hours in a local date: the same changes; Cairo moves at midnight (2024-04-26, 00:00
 * to 01:00); Samoa left 2011-12-30 out. */
static const struct length {
    const char *zone;
    int year, month, day;
    double hours;
} lengths[] = {
    {"Europe/Dublin", 2025, 3, 29, 24},        {"Europe/Dublin", 2025, 3, 30, 23},
    {"Europe/Dublin", 2025, 10, 26, 25},       {"America/New_York", 2025, 3, 9, 23},
    {"America/New_York", 2025, 11, 2, 25},     {"Australia/Adelaide", 2025, 10, 5, 23},
    {"Australia/Lord_Howe", 2025, 4, 6, 24.5}, {"Australia/Lord_Howe", 2025, 10, 5, 23.5},
    {"Asia/Kathmandu", 2025, 3, 30, 24},       {"Africa/Cairo", 2024, 4, 26, 23},
    {"Africa/Cairo", 2024, 4, 25, 24},         {"Pacific/Apia", 2011, 12, 30, 0},
    {"Pacific/Apia", 2011, 12, 29, 24},
};

static void days_are_as_long_as_they_are(void **state)
{
    (void)state;
    if (no_tables()) {
        skip();
    }
    for (size_t i = 0; i < sizeof lengths / sizeof *lengths; i++) {
        const struct length *l = &lengths[i];
        struct arena a;
        struct clock_zone z = load(l->zone, &a);
        date_t date = date_make(l->year, l->month, l->day);
        int64_t start = clock_zone_midnight(&z, date), end = clock_zone_midnight(&z, date + 1);
        if (end - start != (int64_t)(l->hours * HOUR)) {
            fail_msg("%s: %g h", l->zone, (double)(end - start) / HOUR);
        }
        if (l->hours > 0) {
            assert_int_equal(clock_zone_date(&z, start), date);
            assert_int_equal(clock_zone_date(&z, end - 1), date);
        }
        assert_true(clock_zone_date(&z, start - 1) < date);
        arena_release(&a);
    }
}

static void dates_are_those_of_the_zone(void **state)
{
    struct arena a;
    struct err e;
    struct clock_zone z;
    (void)state;
    arena_init(&a);
    err_clear(&e);
    assert_int_equal(clock_zone_fixed(&z, -3 * HOUR, &a, &e), ERR_OK);
    assert_int_equal(clock_zone_date(&z, utc(1969, 12, 31, 2, 59)), date_make(1969, 12, 30));
    assert_int_equal(clock_zone_date(&z, utc(1969, 12, 31, 3, 0)), date_make(1969, 12, 31));
    assert_int_equal(clock_zone_midnight(&z, date_make(2025, 1, 1)), utc(2025, 1, 1, 3, 0));
    arena_release(&a);
    if (no_tables()) {
        return;
    }
    z = load("Asia/Kathmandu", &a);
    assert_int_equal(clock_zone_date(&z, utc(2025, 6, 1, 18, 14)), date_make(2025, 6, 1));
    assert_int_equal(clock_zone_date(&z, utc(2025, 6, 1, 18, 15)), date_make(2025, 6, 2));
    arena_release(&a);
}

static void the_environment_stays_as_it_was(void **state)
{
    struct arena a;
    struct err e;
    struct clock_zone z;
    (void)state;
    if (no_tables()) {
        skip();
    }
    setenv("TZ", "Asia/Tokyo", 1);
    load("Europe/Dublin", &a);
    assert_string_equal(getenv("TZ"), "Asia/Tokyo");
    unsetenv("TZ");
    arena_release(&a);
    err_clear(&e);
    arena_init(&a);
    assert_int_equal(clock_zone_load(&z, "Europe/Atlantis", 0, 1, &a, &e), ERR_NOINPUT);
    assert_non_null(strstr(e.what, "Atlantis"));
    arena_release(&a);
}

/* The C library takes UTC then, and says nothing. That there is no memory is shown by make faults. */
static void tables_that_cannot_be_read_are_an_error(void **state)
{
    struct rlimit before, low = {0};
    struct arena a;
    struct clock_zone z;
    struct err e;
    date_t summer = date_make(2025, 7, 1);
    (void)state;
    if (no_tables()) {
        skip();
    }
    arena_init(&a);
    err_clear(&e);
    assert_int_equal(clock_enter("Asia/Kathmandu", &e), ERR_OK);
    assert_int_equal(getrlimit(RLIMIT_NOFILE, &before), 0);
    low.rlim_max = before.rlim_max;
    assert_int_equal(setrlimit(RLIMIT_NOFILE, &low), 0);
    enum err_code entered = clock_enter("Europe/Dublin", &e);
    enum err_code loaded = clock_zone_load(&z, "Europe/Dublin", 0, 1, &a, NULL);
    assert_int_equal(setrlimit(RLIMIT_NOFILE, &before), 0);
    assert_int_equal(entered, ERR_NOINPUT);
    assert_int_equal(loaded, ERR_NOINPUT);
    assert_non_null(strstr(e.what, "time zone"));
    assert_int_equal(clock_enter("Europe/Dublin", &e), ERR_OK); /* read anew, and not taken for read */
    assert_int_equal(clock_offset_minutes("Europe/Dublin", summer), 60);
    assert_int_equal(clock_enter("", &e), ERR_OK);
    arena_release(&a);
}

/* Date and minute by the clock of the place in the hours about a change of it, where the offset of noon would be an
 * hour out; the changes are those above. */
static void now_is_by_the_offset_of_now(void **state)
{
    static const struct {
        const char *zone, *now; /* seconds since 1970 */
        int year, month, day, hour, minute;
    } row[] = {
        {"Europe/London", "1761435000", 2025, 10, 26, 0, 30},  /* 2025-10-25 23:30 UTC, before the clock falls back */
        {"Europe/London", "1761438600", 2025, 10, 26, 1, 30},  /* an hour on, the first half past one */
        {"Europe/London", "1761442200", 2025, 10, 26, 1, 30},  /* and the second */
        {"America/New_York", "1741501800", 2025, 3, 9, 1, 30}, /* 06:30 UTC, before it leaps on */
        {"America/New_York", "1741505400", 2025, 3, 9, 3, 30}, /* an hour on */
        {"Australia/Lord_Howe", "1743863400", 2025, 4, 6, 1, 30}, /* 14:30 UTC, before half an hour falls back */
    };
    (void)state;
    if (no_tables()) {
        skip();
    }
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        int minute = -1;
        setenv("SOURCE_DATE_EPOCH", row[i].now, 1);
        assert_int_equal(clock_moment(row[i].zone, &minute), date_make(row[i].year, row[i].month, row[i].day));
        assert_int_equal(minute, row[i].hour * 60 + row[i].minute);
        assert_int_equal(clock_today(row[i].zone), date_make(row[i].year, row[i].month, row[i].day));
    }
    unsetenv("SOURCE_DATE_EPOCH");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(offsets_change_at_the_second),
        cmocka_unit_test(days_are_as_long_as_they_are),
        cmocka_unit_test(dates_are_those_of_the_zone),
        cmocka_unit_test(the_environment_stays_as_it_was),
        cmocka_unit_test(tables_that_cannot_be_read_are_an_error),
        cmocka_unit_test(now_is_by_the_offset_of_now),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
