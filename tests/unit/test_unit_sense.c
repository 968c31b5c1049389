/* Units told by values: what is settled, what is not, and that each rule counts.
 * Rows of Sitka 2021 and Central Park 2023 are NOAA NCEI daily summaries (US public
 * domain), in the units in which they were ordered; all others are invented.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/unit_sense.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#define DAYS_MOST 366

/* Days of a site as a file has them. */
struct raw {
    struct weather_days days;
    double cell[WEATHER_VARS][DAYS_MOST];
    uint8_t marks[DAYS_MOST];
    struct site place;
};

static const struct site nowhere = {.latitude = NAN, .longitude = NAN, .elevation_m = NAN};

static void start(struct raw *r, const char *day0, size_t n, struct site place)
{
    *r = (struct raw){.days = {.day0 = date_parse_iso(day0, strlen(day0)), .n = n}, .place = place};
    r->days.origin = r->days.filled = r->marks;
}

static void set(struct raw *r, enum weather_var v, const double *x)
{
    r->days.col[v] = r->cell[v];
    memcpy(r->cell[v], x, r->days.n * sizeof *x);
}

static struct unit_verdict judge(const struct raw *r, bool whole_f)
{
    struct unit_counts c;
    struct unit_verdict verdict;
    unit_sense_start(&c);
    unit_sense_count(&c, &r->days, &r->place, whole_f);
    unit_sense_judge(&c, &verdict);
    return verdict;
}

static void expect(const struct raw *r, bool whole_f, enum weather_units units, const char *said)
{
    struct unit_verdict v = judge(r, whole_f);
    if (v.units != units || !strstr(v.text, said)) {
        fail_msg("%d: %s; not \"%s\"", (int)v.units, v.text, said);
    }
}

static void orders_in_us_units(void **state)
{
    static const double low[] = {40, 35, 36, 39, 40, 39, 42, 37, 38, 41};
    static const double high[] = {44, 44, 43, 45, 45, 44, 48, 48, 46, 46};
    static const double rain[] = {0.01, 0.07, 0.29, 0.25, 0.57, 0.24, 0.07, 0.32, 0, 0.76};
    static const double wind[] = {8.72, 7.61, 6.71, 15.88, 19.24, 12.97, 19.24, 10.74, 19.01, 16.55};
    struct raw r;
    (void)state;
    start(&r, "2021-01-01", 10, nowhere); /* Sitka */
    set(&r, WEATHER_TMIN, low);
    set(&r, WEATHER_TMAX, high);
    set(&r, WEATHER_RAIN, rain);
    expect(&r, true, UNITS_US, "taken as us (F, inch, mph), not metric (its rain has two decimals)");
    set(&r, WEATHER_WIND, wind);
    expect(&r, true, UNITS_US, "taken as us");
    r.days.col[WEATHER_RAIN] = r.days.col[WEATHER_WIND] = NULL;
    expect(&r, true, UNITS_UNSAID, "temperature looks like metric or us");
}

static void own_tenths_of_three_days(void **state)
{
    static const double low[] = {217, 233, 233}, high[] = {311, 256, 311}, dew[] = {228, 233, 206};
    struct raw r;
    (void)state;
    start(&r, "2023-07-15", 3, nowhere); /* Central Park */
    set(&r, WEATHER_TMIN, low);
    set(&r, WEATHER_TMAX, high);
    set(&r, WEATHER_TDEW, dew);
    expect(&r, true, UNITS_TENTHS, "taken as tenths");
}

static void metric_orders(void **state)
{
    static const double low[] = {4.4, 1.7, 2.2, 3.9, 4.4, 0.6, 5.6};
    static const double high[] = {12.8, 10.6, 11.7, 12.2, 8.9, 9.4, 13.3};
    static const double rain[] = {0, 10.9, 0.8, 20.3, 1.3, 2.5, 0};
    struct raw r;
    (void)state;
    start(&r, "2022-03-01", 7, nowhere);
    set(&r, WEATHER_TMIN, low);
    set(&r, WEATHER_TMAX, high);
    expect(&r, true, UNITS_METRIC, "not us (its temperatures are not whole numbers)");
    set(&r, WEATHER_RAIN, rain);
    expect(&r, true, UNITS_METRIC, "taken as metric");
}

/* Maxima of 25 to 38 and minima of 8 to 22: a mild month in C, a frosty one in F. */
static void cold_month(struct raw *r, struct site place)
{
    double low[31], high[31];
    for (int i = 0; i < 31; i++) {
        high[i] = 25 + (i * 5) % 14;
        low[i] = 8 + (i * 7) % 15;
    }
    start(r, "2022-01-01", 31, place);
    set(r, WEATHER_TMIN, low);
    set(r, WEATHER_TMAX, high);
}

static void a_cold_month_in_fahrenheit_looks_like_celsius(void **state)
{
    static const double inches[31] = {[3] = 0.12, [4] = 0.05, [11] = 0.31, [12] = 0.4, [20] = 0.07};
    static const double mm[31] = {[3] = 3.2, [4] = 1.3, [11] = 7.9, [12] = 10, [20] = 1.8};
    struct raw r;
    (void)state;
    cold_month(&r, nowhere);
    expect(&r, false, UNITS_UNSAID, "temperature looks like metric or us");
    set(&r, WEATHER_RAIN, inches);
    expect(&r, false, UNITS_US, "not metric (its rain has two decimals)");
    set(&r, WEATHER_RAIN, mm);
    expect(&r, false, UNITS_UNSAID, "rain looks like metric");
    cold_month(&r, (struct site){.latitude = 45, .longitude = -93, .elevation_m = 250});
    expect(&r, false, UNITS_US, "not metric (it would be too warm for the season and latitude)");
    /* the same numbers near the equator may well be C, rounded by somebody */
    cold_month(&r, (struct site){.latitude = 5, .longitude = -70, .elevation_m = 250});
    expect(&r, false, UNITS_UNSAID, "temperature looks like metric");
}

static void tropical_tenths(void **state)
{
    double low[20], high[20], rain[20];
    struct raw r;
    (void)state;
    for (int i = 0; i < 20; i++) {
        high[i] = 303 + (i * 7) % 22;
        low[i] = 226 + (i * 5) % 16;
        rain[i] = i % 3 ? 0 : 20 + 13 * i;
    }
    start(&r, "2022-05-01", 20, (struct site){.latitude = 7.1, .longitude = 171.4, .elevation_m = 3});
    set(&r, WEATHER_TMIN, low);
    set(&r, WEATHER_TMAX, high);
    set(&r, WEATHER_RAIN, rain);
    expect(&r, true, UNITS_TENTHS, "not us (some temperatures would be beyond");
}

/* Whole degrees C and whole mm, as a hand may round them: never taken for another unit. */
static void rounded_values_are_not_guessed(void **state)
{
    static const double low[] = {12, 14, 9, 10, 13, 15, 11, 12, 10, 14, 13, 11};
    static const double high[] = {24, 27, 19, 22, 25, 28, 21, 23, 20, 26, 24, 22};
    static const double rain[] = {0, 3, 12, 0, 1, 0, 7, 2, 0, 4, 0, 0};
    struct raw r;
    (void)state;
    start(&r, "2022-06-01", 12, nowhere);
    set(&r, WEATHER_TMIN, low);
    set(&r, WEATHER_TMAX, high);
    expect(&r, false, UNITS_UNSAID, "temperature looks like metric");
    set(&r, WEATHER_RAIN, rain);
    expect(&r, false, UNITS_UNSAID, "temperature looks like metric");
}

static void variables_must_agree(void **state)
{
    static const double low[] = {51, 42, 41, 41, 40, 44}, high[] = {71, 67, 66, 66, 70, 72};
    static const double mm[] = {0.5, 1.3, 5.1, 0.3, 2.5, 7.1};
    struct raw r;
    (void)state;
    start(&r, "2021-01-01", 6, nowhere);
    set(&r, WEATHER_TMIN, low);
    set(&r, WEATHER_TMAX, high);
    set(&r, WEATHER_RAIN, mm);
    expect(&r, false, UNITS_UNSAID, "rain looks like metric");
}

/* In tenths this is a July of 9 to 11 C at 36 degrees below the level of the sea. */
static void a_desert_in_fahrenheit_is_no_cold_coast(void **state)
{
    static const double low[] = {90, 88, 92, 95, 91, 86, 89, 93, 94, 90};
    static const double high[] = {117, 114, 119, 122, 118, 112, 115, 120, 121, 116};
    struct raw r;
    (void)state;
    start(&r, "2021-07-01", 10, (struct site){.latitude = 36.5, .longitude = -116.9, .elevation_m = -59});
    set(&r, WEATHER_TMIN, low);
    set(&r, WEATHER_TMAX, high);
    expect(&r, true, UNITS_US, "not tenths (it would be too cold for the season and latitude)");
}

static void nothing_fits(void **state)
{
    static const double low[] = {700, -800}, high[] = {900, 850};
    struct raw r;
    (void)state;
    start(&r, "2021-07-01", 2, nowhere);
    set(&r, WEATHER_TMIN, low);
    set(&r, WEATHER_TMAX, high);
    expect(&r, false, UNITS_UNSAID, "temperature looks like none of them");
}

static void a_year_of_rain_is_weighed(void **state)
{
    double rain[365];
    struct raw r;
    struct unit_counts c;
    (void)state;
    for (int i = 0; i < 365; i++) {
        rain[i] = 2; /* 730 mm, 18542 mm, 73 mm */
    }
    start(&r, "2021-01-01", 365, nowhere);
    set(&r, WEATHER_RAIN, rain);
    unit_sense_start(&c);
    unit_sense_count(&c, &r.days, &r.place, false);
    assert_int_equal(c.of[UNITS_METRIC][R_UNUSUAL], 0);
    assert_int_equal(c.of[UNITS_US][R_UNUSUAL], 1);
    assert_int_equal(c.of[UNITS_US][R_UNHEARD], 1);
    assert_int_equal(c.of[UNITS_TENTHS][R_UNUSUAL], 1);
    assert_int_equal(c.of[UNITS_TENTHS][R_UNHEARD], 0);
}

/* One other reading is out; the rule puts out the second when enough was looked at, so
 * that the third is left, and does not when less was. */
static void rule_counts(const struct unit_rule *r, int reading, size_t among, bool out)
{
    int other = reading == UNITS_METRIC ? UNITS_US : UNITS_METRIC;
    int left = UNITS_METRIC + UNITS_US + UNITS_TENTHS - reading - other;
    struct unit_counts c;
    struct unit_verdict v;
    unit_sense_start(&c);
    c.of[other][T_VALUES] = c.of[other][T_IMPOSSIBLE] = 1;
    c.of[reading][r->among] = c.of[reading][r->feature] = among;
    unit_sense_judge(&c, &v);
    assert_int_equal(v.units, out ? left : UNITS_UNSAID);
}

static void each_rule_counts(void **state)
{
    (void)state;
    for (size_t i = 0; i < unit_rule_count; i++) {
        const struct unit_rule *r = &unit_rules[i];
        bool whole = r->many < SIZE_MAX;
        assert_true(r->few >= 1 && r->few <= r->many && r->share > 0 && r->share <= 1);
        for (int reading = UNITS_METRIC; reading < UNIT_READINGS; reading++) {
            if (r->against >> reading & 1) {
                rule_counts(r, reading, whole ? r->many : r->few, whole);
                rule_counts(r, reading, r->few - 1, false);
                rule_counts(r, reading, r->few, r->few == r->many);
            }
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(orders_in_us_units),   cmocka_unit_test(own_tenths_of_three_days),
        cmocka_unit_test(metric_orders),        cmocka_unit_test(a_cold_month_in_fahrenheit_looks_like_celsius),
        cmocka_unit_test(tropical_tenths),      cmocka_unit_test(rounded_values_are_not_guessed),
        cmocka_unit_test(variables_must_agree), cmocka_unit_test(a_desert_in_fahrenheit_is_no_cold_coast),
        cmocka_unit_test(nothing_fits),         cmocka_unit_test(a_year_of_rain_is_weighed),
        cmocka_unit_test(each_rule_counts),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
