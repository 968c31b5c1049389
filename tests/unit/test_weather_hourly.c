/* Hourly answers of the forecast service: whose days they become, what they fill, units
 * and names, several places, and each refusal. Bytes are invented in the documented
 * layout; expected values follow by hand from them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/layout_case.h"

#include "base/buf.h"
#include "base/clock.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#define MELBOURNE "\"latitude\":-37.75,\"longitude\":144.875,\"elevation\":19,"
#define HEREFORD "\"latitude\":52,\"longitude\":-2.7,\"elevation\":80,"
#define UNITS                                                                                                          \
    "\"temperature_2m\":\"\\u00b0C\",\"precipitation\":\"mm\",\"shortwave_radiation\":\"W/m\xc2\xb2\","                \
    "\"relative_humidity_2m\":\"%\",\"wind_speed_10m\":\"km/h\",\"dew_point_2m\":\"\xc2\xb0"                           \
    "C\""

/* The values of a series by the number of the step; below "null" stands for -9999. */
typedef double series(int k);

static double warmer(int k) /* by half a degree an hour */
{
    return k / 2.0;
}
static double one(int k)
{
    (void)k;
    return 1;
}
static double six_bright_hours(int k) /* 500 W/m2, a little below 0 elsewhere */
{
    int h = k % 24;
    return h > 9 && h <= 15 ? 500 : -0.1;
}
static double last_day_unknown(int k)
{
    return k < 48 ? k % 24 : -9999;
}

static void add_series(struct buf *b, const char *name, int n, series *f)
{
    buf_addf(b, ",\"%s\":[", name);
    for (int k = 0; k < n; k++) {
        double x = f(k);
        buf_addf(b, x == -9999 ? "%snull" : "%s%g", k ? "," : "", x);
    }
    buf_add(b, "]");
}

/* "time":[...] of n hours from midnight of a date on the answer's own clock. */
static void add_hours(struct buf *b, date_t date, int n)
{
    char text[DATE_TEXT];
    buf_add(b, "\"time\":[");
    for (int k = 0; k < n; k++) {
        buf_addf(b, "%s\"%sT%02d:00\"", k ? "," : "", date_format(date + k / 24, text), k % 24);
    }
    buf_add(b, "]");
}

/* An answer with hourly temperatures 0, 0.5, 1 ... from 2025-06-01 on; `more` is a series
 * beside them (NULL: none). */
static void answer(struct buf *b, const char *head, const char *units, int n, const char *more, series *f)
{
    buf_init(b);
    buf_addf(b, "{%s\"hourly_units\":{%s},\"hourly\":{", head, units);
    add_hours(b, date_make(2025, 6, 1), n);
    add_series(b, "temperature_2m", n, warmer);
    if (more) {
        add_series(b, more, n, f);
    }
    buf_add(b, "}}");
}

static void read_well(struct weather_text *t, const char *text, const char *zone)
{
    struct weather_hints h = weather_no_hints;
    h.timezone = zone;
    weather_text_read_hinted(t, text, &h);
    if (t->code != ERR_OK) {
        fail_msg("%zu:%zu %s: %s", t->err.line, t->err.column, t->err.field, t->err.what);
    }
}

static void near(double a, double b)
{
    if (!(fabs(a - b) < 1e-9)) {
        fail_msg("%.12g, not %.12g", a, b);
    }
}

static bool no_tables(void)
{
    return !clock_zone_known("Europe/Dublin");
}

static void hours_become_days(void **state)
{
    struct weather_text t;
    struct buf b;
    (void)state;
    answer(&b, HEREFORD "\"utc_offset_seconds\":0,\"timezone\":\"GMT\",", UNITS, 48, "precipitation", one);
    read_well(&t, b.text, NULL);
    assert_string_equal(t.set.layout, "forecast-json");
    assert_int_equal(t.set.site[0].days.n, 2);
    near(t.set.site[0].place.elevation_m, 80);
    near(weather_text_at(&t, "2025-06-01", WEATHER_TMIN), 0);
    near(weather_text_at(&t, "2025-06-01", WEATHER_TMAX), 23 / 2.0);
    near(weather_text_at(&t, "2025-06-02", WEATHER_TMIN), 24 / 2.0);
    near(weather_text_at(&t, "2025-06-01", WEATHER_RAIN), 24);
    near(weather_text_at(&t, "2025-06-02", WEATHER_RAIN), 23); /* the hour before the third midnight is not told */
    assert_null(t.set.site[0].days.col[WEATHER_RAD]);
    assert_int_equal(t.set.site[0].days.origin[0], ORIGIN_FORECAST);
    weather_text_release(&t);
    buf_release(&b);
}

/* The rain told at 00:00 fell in the hour before: in the day before. */
static double at_midnight(int k)
{
    return k == 24 ? 5 : 0;
}

static void sums_belong_to_the_hour_before(void **state)
{
    struct weather_text t;
    struct buf b;
    (void)state;
    answer(&b, HEREFORD "\"utc_offset_seconds\":0,", UNITS, 72, "precipitation", at_midnight);
    read_well(&t, b.text, NULL);
    near(weather_text_at(&t, "2025-06-01", WEATHER_RAIN), 5);
    near(weather_text_at(&t, "2025-06-02", WEATHER_RAIN), 0);
    weather_text_release(&t);
    buf_release(&b);
}

static void radiation_is_summed_and_cut_at_zero(void **state)
{
    struct weather_text t;
    struct buf b;
    (void)state;
    answer(&b, HEREFORD "\"utc_offset_seconds\":0,", UNITS, 48, "shortwave_radiation", six_bright_hours);
    read_well(&t, b.text, NULL);
    near(weather_text_at(&t, "2025-06-01", WEATHER_RAD), 10.8); /* 6 h x 3600 s x 500 W/m2 */
    near(weather_text_at(&t, "2025-06-02", WEATHER_RAD), 10.8); /* the hour that lacks is dark */
    weather_text_release(&t);
    buf_release(&b);
}

static void units_and_names_of_all_ages(void **state)
{
    static const struct {
        const char *name, *unit;
        enum weather_var v;
        double wanted; /* of hours of 1 each */
    } rows[] = {
        {"wind_speed_10m", "km/h", WEATHER_WIND, 0.748 / 3.6},
        {"windspeed_10m", "m/s", WEATHER_WIND, 0.748},
        {"windspeed_10m", "mph", WEATHER_WIND, 0.748 * 0.44704},
        {"wind_speed_10m", "kn", WEATHER_WIND, 0.748 * 1852 / 3600},
        {"relativehumidity_2m", "%", WEATHER_RH, 1},
        {"dewpoint_2m",
         "\xc2\xb0"
         "F",
         WEATHER_TDEW, -31 / 1.8},
        {"precipitation", "inch", WEATHER_RAIN, 24 * 25.4},
        {"shortwave_radiation", "W/m\\u00b2", WEATHER_RAD, 0.0864},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct weather_text t;
        struct buf b;
        char units[120];
        snprintf(units, sizeof units, "\"temperature_2m\":\"\\u00b0F\",\"%s\":\"%s\"", rows[i].name, rows[i].unit);
        answer(&b, HEREFORD "\"utc_offset_seconds\":0,", units, 48, rows[i].name, one);
        read_well(&t, b.text, NULL);
        near(weather_text_at(&t, "2025-06-01", rows[i].v), rows[i].wanted);
        near(weather_text_at(&t, "2025-06-02", WEATHER_TMAX), (23.5 - 32) / 1.8);
        weather_text_release(&t);
        buf_release(&b);
    }
}

static void what_is_not_yet_known_ends_the_table(void **state)
{
    struct weather_text t;
    struct buf b;
    (void)state;
    buf_init(&b);
    buf_add(&b, "{" HEREFORD "\"utc_offset_seconds\":0,\"hourly_units\":{" UNITS "},\"hourly\":{");
    add_hours(&b, date_make(2025, 6, 1), 72);
    add_series(&b, "temperature_2m", 72, last_day_unknown);
    buf_add(&b, "}}");
    read_well(&t, b.text, NULL);
    assert_int_equal(t.set.site[0].days.n, 2);
    weather_text_release(&t);
    buf_release(&b);
}

static void greenwich_is_not_everywhere(void **state)
{
    struct weather_text t;
    struct buf b;
    (void)state;
    answer(&b, MELBOURNE "\"utc_offset_seconds\":0,\"timezone\":\"GMT\",", UNITS, 72, NULL, NULL);
    read_well(&t, b.text, NULL);
    assert_int_equal(t.set.site[0].days.day0, date_make(2025, 6, 2));
    assert_int_equal(t.set.site[0].days.n, 2);
    near(weather_text_at(&t, "2025-06-02", WEATHER_TMIN), 14 / 2.0); /* 144.875 / 15 is 10 h: from 14:00 UTC */
    near(weather_text_at(&t, "2025-06-02", WEATHER_TMAX), 37 / 2.0);
    assert_non_null(strstr(t.set.note, "the sun over its longitude (UTC+10:00)"));
    assert_non_null(strstr(t.set.note, "2025-06-01 and 2025-06-04 lack hours"));
    weather_text_release(&t);
    if (!no_tables()) {
        read_well(&t, b.text, "Australia/Adelaide"); /* UTC+9:30: from 14:30 UTC */
        near(weather_text_at(&t, "2025-06-02", WEATHER_TMIN), 15 / 2.0);
        assert_null(strstr(t.set.note, "put into days"));
        weather_text_release(&t);
    }
    buf_release(&b);
}

static void the_zone_that_the_file_names_is_used(void **state)
{
    struct weather_text t;
    struct buf b;
    (void)state;
    if (no_tables()) {
        skip();
    }
    /* asked for in winter, so that the one offset is that of winter (10 h) */
    answer(&b, MELBOURNE "\"utc_offset_seconds\":36000,\"timezone\":\"Australia/Melbourne\",", UNITS, 72, NULL, NULL);
    read_well(&t, b.text, NULL);
    near(weather_text_at(&t, "2025-06-02", WEATHER_TMIN), 24 / 2.0);
    assert_non_null(strstr(t.set.note, "the zone that it names, Australia/Melbourne"));
    weather_text_release(&t);
    buf_release(&b);
    /* a zone of another continent is not the place's */
    answer(&b, MELBOURNE "\"utc_offset_seconds\":-14400,\"timezone\":\"America/New_York\",", UNITS, 72, NULL, NULL);
    read_well(&t, b.text, NULL);
    assert_non_null(strstr(t.set.note, "UTC+10:00"));
    near(weather_text_at(&t, "2025-06-02", WEATHER_TMIN), 10 / 2.0); /* 00:00 there is 04:00 UTC, 14:00 here */
    weather_text_release(&t);
    buf_release(&b);
    answer(&b, MELBOURNE "\"utc_offset_seconds\":34200,\"timezone\":\"Nowhere/Else\",", UNITS, 48, NULL, NULL);
    read_well(&t, b.text, NULL);
    assert_non_null(strstr(t.set.note, "the offset that it states (UTC+9:30)"));
    weather_text_release(&t);
    buf_release(&b);
}

/* One offset for the whole answer, over the change of 2025-10-26 (IANA database): the
 * day has 25 h, from 00:00 of the summer clock to 00:00 of the winter clock. */
static void the_clock_changes_within_an_answer(void **state)
{
    struct weather_text t;
    struct buf b;
    (void)state;
    if (no_tables()) {
        skip();
    }
    buf_init(&b);
    buf_add(&b, "{\"latitude\":53,\"longitude\":-7,\"utc_offset_seconds\":3600,\"timezone\":\"Europe/Dublin\","
                "\"hourly_units\":{" UNITS "},\"hourly\":{");
    add_hours(&b, date_make(2025, 10, 25), 96);
    add_series(&b, "temperature_2m", 96, warmer);
    add_series(&b, "precipitation", 96, one);
    buf_add(&b, "}}");
    read_well(&t, b.text, NULL);
    near(weather_text_at(&t, "2025-10-26", WEATHER_TMIN), 24 / 2.0);
    near(weather_text_at(&t, "2025-10-26", WEATHER_TMAX), 48 / 2.0);
    near(weather_text_at(&t, "2025-10-26", WEATHER_RAIN), 25);
    near(weather_text_at(&t, "2025-10-27", WEATHER_TMIN), 49 / 2.0);
    assert_true(isnan(weather_text_at(&t, "2025-10-28", WEATHER_RAIN))); /* lacks two hours */
    weather_text_release(&t);
    buf_release(&b);
}

static void seconds_are_utc(void **state)
{
    struct weather_text t;
    struct buf b;
    (void)state;
    buf_init(&b);
    buf_add(&b, "{\"latitude\":-34.7,\"longitude\":138.6,\"utc_offset_seconds\":34200,\"hourly_units\":{" UNITS
                "},\"hourly\":{\"time\":[");
    for (int k = 0; k < 48; k++) { /* from 2024-02-27 14:30 UTC, midnight of the 28th at UTC+9:30 */
        buf_addf(&b, "%s%d", k ? "," : "", 1709044200 + k * 3600);
    }
    buf_add(&b, "]");
    add_series(&b, "temperature_2m", 48, warmer);
    buf_add(&b, "}}");
    read_well(&t, b.text, NULL);
    assert_int_equal(t.set.site[0].days.day0, date_make(2024, 2, 28));
    assert_int_equal(t.set.site[0].days.n, 2);
    near(weather_text_at(&t, "2024-02-28", WEATHER_TMAX), 23 / 2.0);
    weather_text_release(&t);
    buf_release(&b);
}

/* An answer with days (rain 9 mm, minimum -5) and hours; both as far from UTC. */
static void both(struct buf *b, const char *head)
{
    buf_init(b);
    buf_addf(b,
             "{%s\"daily_units\":{\"temperature_2m_min\":\"C\",\"temperature_2m_max\":\"C\",\"precipitation_sum\":"
             "\"mm\"},\"daily\":{\"time\":[\"2025-06-01\",\"2025-06-02\",\"2025-06-03\"],\"temperature_2m_min\":[-5,-5,"
             "null],\"temperature_2m_max\":[30,30,null],\"precipitation_sum\":[9,null,9]},\"hourly_units\":{%s},"
             "\"hourly\":{",
             head, UNITS);
    add_hours(b, date_make(2025, 6, 1), 72);
    add_series(b, "temperature_2m", 72, warmer);
    add_series(b, "shortwave_radiation", 72, six_bright_hours);
    add_series(b, "precipitation", 72, one);
    buf_add(b, "}}");
}

static void hours_fill_what_days_lack(void **state)
{
    struct weather_text t;
    struct buf b;
    (void)state;
    both(&b, MELBOURNE "\"utc_offset_seconds\":36000,\"timezone\":\"Australia/Melbourne\","
                       "\"current\":{\"time\":\"2025-06-02T08:00\"},");
    read_well(&t, b.text, NULL);
    assert_string_equal(t.set.note, "");
    near(weather_text_at(&t, "2025-06-01", WEATHER_TMIN), -5);
    near(weather_text_at(&t, "2025-06-01", WEATHER_RAIN), 9);
    near(weather_text_at(&t, "2025-06-02", WEATHER_RAIN), 24);
    near(weather_text_at(&t, "2025-06-02", WEATHER_RAD), 10.8);
    near(weather_text_at(&t, "2025-06-03", WEATHER_TMIN), 48 / 2.0);
    assert_int_equal(t.set.site[0].days.origin[0], ORIGIN_RECORDED);
    assert_int_equal(t.set.site[0].days.origin[1], ORIGIN_FORECAST);
    weather_text_release(&t);
    buf_release(&b);
}

static void hours_replace_days_of_another_place(void **state)
{
    struct weather_text t;
    struct buf b;
    (void)state;
    both(&b, MELBOURNE "\"utc_offset_seconds\":0,\"timezone\":\"GMT\",\"current\":{\"time\":\"2025-06-02T15:00\"},");
    read_well(&t, b.text, NULL);
    assert_non_null(strstr(t.set.note, "its own days begin 10.0 h away"));
    near(weather_text_at(&t, "2025-06-02", WEATHER_TMIN), 14 / 2.0);
    near(weather_text_at(&t, "2025-06-02", WEATHER_RAIN), 24);
    /* 15:00 UTC of the 2nd is the 3rd in Melbourne */
    assert_int_equal(t.set.site[0].days.origin[0], ORIGIN_RECORDED);
    assert_int_equal(t.set.site[0].days.origin[1], ORIGIN_FORECAST);
    weather_text_release(&t);
    buf_release(&b);
}

static void several_places_are_sites(void **state)
{
    struct weather_text t;
    struct buf b, other;
    (void)state;
    answer(&b, HEREFORD "\"generationtime_ms\":1,\"utc_offset_seconds\":0,", UNITS, 48, NULL, NULL);
    answer(&other, MELBOURNE "\"location_id\":1,\"utc_offset_seconds\":36000,", UNITS, 48, NULL, NULL);
    char *text = NULL;
    assert_true(asprintf(&text, "[%s,\n%s]", b.text, other.text) > 0);
    read_well(&t, text, NULL);
    assert_string_equal(t.set.layout, "forecast-json-many");
    assert_int_equal(t.set.n, 2);
    assert_string_equal(t.set.site[0].name, "52.0000 -2.7000");
    assert_string_equal(t.set.site[1].name, "-37.7500 144.8750 #1");
    near(t.set.site[1].place.longitude, 144.875);
    assert_int_equal(t.set.site[1].days.n, 2);
    assert_non_null(strstr(t.set.note, "52.0000 -2.7000: its hours"));
    assert_non_null(strstr(t.set.note, "each of 2 places"));
    weather_text_release(&t);
    /* an error is found again in the second place */
    memcpy(strstr(strchr(text, '\n'), ",0.5,") + 1, "\"x\"", 3);
    weather_text_read(&t, text);
    assert_int_equal(t.code, ERR_DATA);
    assert_string_equal(t.err.field, "[1].hourly.temperature_2m[1]");
    assert_int_equal(t.err.line, 2);
    assert_int_equal(t.set.n, 0);
    weather_text_release(&t);
    free(text);
    buf_release(&b);
    buf_release(&other);
}

#define ANSWER(head, units, block) "{" head "\"hourly_units\":{" units "},\"hourly\":{" block "}}"
#define TWO "\"time\":[\"2025-06-01T00:00\",\"2025-06-01T01:00\"]"
#define HERE HEREFORD "\"utc_offset_seconds\":0,"

static const struct json_fault refusals[] = {
    {ANSWER(HERE, UNITS, TWO), "hourly", "has no temperature"},
    {ANSWER(HERE, UNITS, TWO ",\"precipitation\":[0,0]"), "hourly", "has no temperature"},
    {ANSWER(HERE, UNITS, TWO ",\"temperature_2m\":[1,2]"), "hourly", "not hold one whole day of the place; its hours"},
    {ANSWER(HEREFORD, UNITS, TWO ",\"temperature_2m\":[1,2]"), "hourly.time[0]", "\"utc_offset_seconds\""},
    {ANSWER(HERE, UNITS, "\"temperature_2m\":[1,2]"), "hourly.time", "0 hours"},
    {ANSWER(HERE, UNITS, "\"time\":[\"2025-06-01T00:00\",\"2025-06-01\"],\"temperature_2m\":[1,2]"), "hourly.time[1]",
     "not a time"},
    {ANSWER(HERE, UNITS, "\"time\":[\"2025-06-01T01:00\",\"2025-06-01T00:00\"],\"temperature_2m\":[1,2]"),
     "hourly.time[1]", "do not follow one another"},
    {ANSWER(HERE, UNITS, "\"time\":[\"2025-06-01T00:00\",\"2025-06-01T12:00\"],\"temperature_2m\":[1,2]"),
     "hourly.time[1]", "steps of a quarter of an hour to 6 hours"},
    {ANSWER(HERE, UNITS, "\"time\":[1e300,2],\"temperature_2m\":[1,2]"), "hourly.time[0]", "not a time"},
    {ANSWER(HERE, UNITS, "\"time\":[-9999999990,-9999996390,9999999999],\"temperature_2m\":[1,2,3]"), "",
     "span more than"},
    {ANSWER(HERE, UNITS, TWO ",\"temperature_2m\":[1,2,3]"), "hourly.temperature_2m", "each of the 2 hours"},
    {ANSWER(HERE, UNITS, TWO ",\"temperature_2m\":[1,\"2\"]"), "hourly.temperature_2m[1]", "must be a number"},
    {ANSWER(HERE, UNITS, TWO ",\"temperature_2m\":[1,75.5]"), "hourly.temperature_2m[1]", "75.5 is not possible"},
    {ANSWER(HERE, "", TWO ",\"temperature_2m\":[1,2]"), "hourly.temperature_2m", "does not say the unit"},
    {ANSWER(HERE, "\"temperature_2m\":\"ell\"", TWO ",\"temperature_2m\":[1,2]"), "hourly.temperature_2m",
     "the unit \"ell\" is not known"},
    {ANSWER(HERE, "\"shortwave_radiation\":\"MJ/m2\"", TWO ",\"shortwave_radiation\":[1,2]"),
     "hourly.shortwave_radiation", "W/m2 is allowed"},
    {ANSWER(HERE, UNITS, TWO ",\"shortwave_radiation\":[1,-20],\"temperature_2m\":[1,2]"),
     "hourly.shortwave_radiation[1]", "from 0 to 1600"},
    {ANSWER(HERE, UNITS, TWO ",\"shortwave_radiation\":[1,1601],\"temperature_2m\":[1,2]"),
     "hourly.shortwave_radiation[1]", "from 0 to 1600"},
    {ANSWER("\"longitude\":1e300,", UNITS, "\"time\":[0,3600],\"temperature_2m\":[1,2]"), "",
     "neither the zone of its hours nor"},
    {ANSWER("\"longitude\":200,", UNITS, "\"time\":[0,3600],\"temperature_2m\":[1,2]"), "hourly", "(UTC-11:00)"},
    {ANSWER("", UNITS, "\"time\":[0,3600],\"temperature_2m\":[1,2]"), "", "neither the zone of its hours nor"},
    {"[{\"hourly\":{\"x\":1}},2]", "[0].hourly", "has no temperature"},
};

static void each_refusal_has_its_reason(void **state)
{
    (void)state;
    json_faults(refusals, sizeof refusals / sizeof refusals[0]);
}

static void an_unknown_zone_is_a_wrong_hint(void **state)
{
    struct weather_text t;
    struct buf b;
    struct weather_hints h = weather_no_hints;
    (void)state;
    answer(&b, HERE, UNITS, 48, NULL, NULL);
    h.timezone = "Europe/Atlantis";
    weather_text_read_hinted(&t, b.text, &h);
    assert_int_equal(t.code, ERR_USAGE);
    assert_non_null(strstr(t.err.what, "Europe/Atlantis"));
    weather_text_release(&t);
    buf_release(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(hours_become_days),
        cmocka_unit_test(sums_belong_to_the_hour_before),
        cmocka_unit_test(radiation_is_summed_and_cut_at_zero),
        cmocka_unit_test(units_and_names_of_all_ages),
        cmocka_unit_test(what_is_not_yet_known_ends_the_table),
        cmocka_unit_test(greenwich_is_not_everywhere),
        cmocka_unit_test(the_zone_that_the_file_names_is_used),
        cmocka_unit_test(the_clock_changes_within_an_answer),
        cmocka_unit_test(seconds_are_utc),
        cmocka_unit_test(hours_fill_what_days_lack),
        cmocka_unit_test(hours_replace_days_of_another_place),
        cmocka_unit_test(several_places_are_sites),
        cmocka_unit_test(each_refusal_has_its_reason),
        cmocka_unit_test(an_unknown_zone_is_a_wrong_hint),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
