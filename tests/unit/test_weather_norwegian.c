/* The Norwegian point forecast: steps of one and six hours, rain counted once, extremes,
 * bare and wrapped, and each refusal. Bytes are invented in the documented layout;
 * expected values follow by hand from them.
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
#include <string.h>

#include <cmocka.h>

#define HEAD                                                                                                           \
    "{\"type\":\"Feature\",\"geometry\":{\"type\":\"Point\",\"coordinates\":[1.5,52,90]},\"properties\":{\"meta\":{"   \
    "\"units\":{\"air_temperature\":\"celsius\",\"precipitation_amount\":\"mm\",\"wind_speed\":\"m/s\","               \
    "\"relative_humidity\":\"%\",\"dew_point_temperature\":\"celsius\"}},\"timeseries\":["
#define TAIL "]}}"
#define HOURS 30 /* then steps of six hours */

static void near(double a, double b)
{
    if (!(fabs(a - b) < 1e-9)) {
        fail_msg("%.12g, not %.12g", a, b);
    }
}

/* One step: temperature t, rain r of the next hour (when hourly) and of the next six,
 * with six-hour extremes two degrees to each side when `complete`. */
static void add_step(struct buf *b, int64_t at, double t, bool hourly, bool six, bool complete)
{
    char date[DATE_TEXT];
    buf_addf(b, "%s{\"time\":\"%sT%02d:00:00Z\",\"data\":{\"instant\":{\"details\":{\"air_temperature\":%g,",
             b->text[b->length - 1] == '[' ? "" : ",", date_format((date_t)(at / CLOCK_DAY_SECONDS), date),
             (int)(at % CLOCK_DAY_SECONDS / 3600), t);
    buf_addf(b, "\"relative_humidity\":80,\"wind_speed\":2%s}}", complete ? ",\"dew_point_temperature\":3" : "");
    if (hourly) {
        buf_add(b, ",\"next_1_hours\":{\"summary\":{},\"details\":{\"precipitation_amount\":1}}");
    }
    if (six) {
        buf_add(b, ",\"next_6_hours\":{\"details\":{\"precipitation_amount\":6");
        if (complete) {
            buf_addf(b, ",\"air_temperature_max\":%g,\"air_temperature_min\":%g", t + 2, t - 2);
        }
        buf_add(b, "}}");
    }
    buf_add(b, "}}");
}

/* From 2025-01-01 18:00 UTC: 30 hourly steps, then six-hour steps until 2025-01-05 06:00,
 * the last with its instant only. The temperature is that of the hour of the day. */
static void forecast(struct buf *b, bool complete)
{
    int64_t start = (int64_t)date_make(2025, 1, 1) * CLOCK_DAY_SECONDS + 18 * 3600;
    buf_init(b);
    buf_add(b, HEAD);
    for (int k = 0; k <= 84; k += k < HOURS ? 1 : 6) {
        add_step(b, start + (int64_t)k * 3600, (18 + k) % 24, k < HOURS, k < 84, complete);
    }
    buf_add(b, TAIL);
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

static void rain_is_counted_once(void **state)
{
    struct weather_text t;
    struct buf b;
    (void)state;
    forecast(&b, false);
    read_well(&t, b.text, NULL);
    assert_string_equal(t.set.layout, "norwegian-forecast");
    assert_int_equal(t.set.site[0].days.day0, date_make(2025, 1, 2));
    assert_int_equal(t.set.site[0].days.n, 3);
    near(t.set.site[0].place.longitude, 1.5);
    near(t.set.site[0].place.elevation_m, 90);
    near(weather_text_at(&t, "2025-01-02", WEATHER_RAIN), 24); /* hourly */
    near(weather_text_at(&t, "2025-01-03", WEATHER_RAIN), 24); /* four times six hours */
    near(weather_text_at(&t, "2025-01-02", WEATHER_TMAX), 23);
    near(weather_text_at(&t, "2025-01-03", WEATHER_TMAX), 18);
    near(weather_text_at(&t, "2025-01-03", WEATHER_WIND), 2 * 0.748);
    near(weather_text_at(&t, "2025-01-04", WEATHER_RH), 80);
    assert_null(t.set.site[0].days.col[WEATHER_RAD]);
    assert_null(t.set.site[0].days.col[WEATHER_TDEW]);
    assert_int_equal(t.set.site[0].days.origin[0], ORIGIN_FORECAST);
    assert_non_null(strstr(t.set.note, "the sun over its longitude (UTC+0:00)"));
    assert_non_null(strstr(t.set.note, "2025-01-01 and 2025-01-05 lack hours"));
    assert_non_null(strstr(t.set.note, "from 2025-01-03 on it has the temperature every 6 hours only"));
    weather_text_release(&t);
    buf_release(&b);
}

static void extremes_of_six_hours_are_used(void **state)
{
    struct weather_text t;
    struct buf b;
    (void)state;
    forecast(&b, true);
    read_well(&t, b.text, NULL);
    /* hourly steps: the last six hours within the day start at 18, the first at 0 */
    near(weather_text_at(&t, "2025-01-02", WEATHER_TMAX), 23);
    near(weather_text_at(&t, "2025-01-02", WEATHER_TMIN), -2);
    near(weather_text_at(&t, "2025-01-03", WEATHER_TMAX), 20);
    near(weather_text_at(&t, "2025-01-03", WEATHER_TMIN), -2);
    near(weather_text_at(&t, "2025-01-03", WEATHER_TDEW), 3);
    assert_null(strstr(t.set.note, "every 6 hours"));
    weather_text_release(&t);
    buf_release(&b);
}

/* UTC+10 (IANA database: Brisbane has no summer time): the day of 3 January is 14:00 UTC
 * of the 2nd to 14:00 of the 3rd. */
static void days_are_those_of_the_place(void **state)
{
    struct weather_text t;
    struct buf b;
    (void)state;
    if (!clock_zone_known("Australia/Brisbane")) {
        skip();
    }
    forecast(&b, true);
    read_well(&t, b.text, "Australia/Brisbane");
    assert_int_equal(t.set.site[0].days.day0, date_make(2025, 1, 3));
    near(weather_text_at(&t, "2025-01-03", WEATHER_RAIN), 24); /* 10 hours, two times six, 2 of 6 hours */
    near(weather_text_at(&t, "2025-01-03", WEATHER_TMAX), 25); /* the six hours from 23:00 UTC: 23 + 2 */
    assert_null(strstr(t.set.note, "put into days"));
    weather_text_release(&t);
    buf_release(&b);
}

static void a_kept_answer_is_unwrapped(void **state)
{
    struct weather_text t;
    struct buf b, wrapped;
    (void)state;
    forecast(&b, false);
    buf_init(&wrapped);
    buf_addf(&wrapped, "{\"status_code\":200,\"headers\":{\"Expires\":\"x\"},\n\"data\":%s}", b.text);
    read_well(&t, wrapped.text, NULL);
    assert_int_equal(t.set.site[0].days.n, 3);
    near(t.set.site[0].place.latitude, 52);
    weather_text_release(&t);
    memcpy(strstr(wrapped.text, "\"wind_speed\":2"), "\"wind_speed\":\"", 14);
    weather_text_read(&t, wrapped.text);
    assert_int_equal(t.code, ERR_DATA); /* no JSON any more */
    weather_text_release(&t);
    buf_clear(&wrapped);
    buf_addf(&wrapped, "{\"data\":\n%s}", HEAD "{\"time\":\"x\"},{\"time\":\"y\"}" TAIL);
    weather_text_read(&t, wrapped.text);
    assert_int_equal(t.code, ERR_DATA);
    assert_string_equal(t.err.field, "data.properties.timeseries[0].time");
    assert_int_equal(t.err.line, 2);
    weather_text_release(&t);
    buf_release(&b);
    buf_release(&wrapped);
}

#define STEP(time, details) "{\"time\":\"" time "\",\"data\":{\"instant\":{\"details\":{" details "}}}}"

static const struct json_fault refusals[] = {
    {HEAD TAIL, "properties.timeseries", "0 time steps"},
    {HEAD STEP("2025-01-01T00:00:00Z", "") TAIL, "properties.timeseries", "1 time steps"},
    {HEAD STEP("2025-01-01T00:00:00", "") "," STEP("2025-01-01T01:00:00Z", "") TAIL, "properties.timeseries[0].time",
     "not a time"},
    {HEAD STEP("2025-01-01T01:00:00Z", "") "," STEP("2025-01-01T01:00:00Z", "") TAIL, "properties.timeseries[1].time",
     "do not follow one another"},
    {HEAD STEP("2025-01-01T00:00:00Z", "\"air_temperature\":61") "," STEP("2025-01-01T01:00:00Z", "") TAIL,
     "properties.timeseries[0].data.instant.details.air_temperature", "61 is not possible"},
    {HEAD STEP("2025-01-01T00:00:00Z", "\"air_temperature\":\"1\"") "," STEP("2025-01-01T01:00:00Z", "") TAIL,
     "properties.timeseries[0].data.instant.details.air_temperature", "must be a number"},
    {HEAD STEP("2025-01-01T00:00:00Z", "\"air_temperature\":1") "," STEP("2025-01-01T01:00:00Z", "") TAIL,
     "properties.timeseries", "one whole day of the place"},
    {HEAD STEP("1800-01-01T00:00:00Z", "") "," STEP("2190-01-01T01:00:00Z", "") TAIL, "", "span more than"},
    {"{\"properties\":{\"timeseries\":[" STEP("2025-01-01T00:00:00Z", "\"air_temperature\":1") "," STEP(
         "2025-01-01T01:00:00Z", "") "]},\"geometry\":{\"coordinates\":[1,2]}}",
     "properties.timeseries[0].data.instant.details.air_temperature", "properties.meta.units"},
    {"{\"properties\":{\"timeseries\":[" STEP("2025-01-01T00:00:00Z", "") "," STEP("2025-01-01T01:00:00Z", "") "]}}",
     "", "neither the zone of its hours nor the longitude"},
};

static void each_refusal_has_its_reason(void **state)
{
    (void)state;
    json_faults(refusals, sizeof refusals / sizeof refusals[0]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rain_is_counted_once),        cmocka_unit_test(extremes_of_six_hours_are_used),
        cmocka_unit_test(days_are_those_of_the_place), cmocka_unit_test(a_kept_answer_is_unwrapped),
        cmocka_unit_test(each_refusal_has_its_reason),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
