/* The United States' forecast grid: intervals, units, extremes, rain across midnight, and
 * each refusal. Bytes are invented in the documented layout; expected values follow by
 * hand from them. The cell lies at 75 W: without a zone its days begin at 05:00 UTC.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/layout_case.h"

#include "base/clock.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#define GRID(layers)                                                                                                   \
    "{\"type\":\"Feature\",\"geometry\":{\"type\":\"Polygon\",\"coordinates\":[[[-75.5,40],[-75.5,41],[-74.5,41],"     \
    "[-74.5,40],[-75.5,40]]]},\"properties\":{\"gridId\":\"TST\",\"gridX\":1,\"elevation\":{\"unitCode\":"             \
    "\"wmoUnit:m\",\"value\":12.5}," layers "}}"
#define LAYER(name, unit, values) "\"" name "\":{\"uom\":\"" unit "\",\"values\":[" values "]}"
#define V(time, value) "{\"validTime\":\"" time "\",\"value\":" value "}"
/* 2 May 05:00 UTC to 5 May 05:00 UTC, three days: 10 C, 20 C, 10 C ... */
#define WARMTH                                                                                                         \
    LAYER("temperature", "wmoUnit:degC",                                                                               \
          V("2025-05-02T05:00:00+00:00/PT12H", "10") "," V("2025-05-02T17:00:00+00:00/PT12H", "20") "," V(             \
              "2025-05-03T05:00:00+00:00/P1D", "15") "," V("2025-05-04T05:00:00+00:00/P1D", "16"))

static void near(double a, double b)
{
    if (!(fabs(a - b) < 1e-9)) {
        fail_msg("%.12g, not %.12g", a, b);
    }
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

static void layers_become_days(void **state)
{
    struct weather_text t;
    (void)state;
    read_well(
        &t,
        GRID(WARMTH "," LAYER("maxTemperature", "wmoUnit:degF", V("2025-05-02T12:00:00+00:00/PT13H", "77")) "," LAYER(
            "minTemperature", "wmoUnit:degC",
            V("2025-05-03T00:00:00+00:00/PT14H", "3") "," V(
                "2025-05-04T00:00:00+00:00/PT14H",
                "null")) "," LAYER("relativeHumidity", "wmoUnit:percent",
                                   V("2025-05-02T05:00:00+00:00/PT18H", "50") "," V(
                                       "2025-05-02T23:00:00+00:00/PT6H",
                                       "90")) "," LAYER("windSpeed", "wmoUnit:km_h-1",
                                                        V("2025-05-02T05:00:00+00:00/P3D",
                                                          "7.2")) ","
                                                                  "\"dewpoint\":{\"unitCode\":\"unit:degC\","
                                                                  "\"values\":[" V("2025-05-02T05:00:00+00:00/P1DT6H", "4") "]}," LAYER(
                                                                      "quantitativePrecipitation", "wmoUnit:mm",
                                                                      V("2025-05-02T05:00:00+00:00/PT22H", "1") "," V(
                                                                          "2025-05-03T03:00:00+00:00/PT6H",
                                                                          "6") "," V("2025-05-03T09:00:00+00:00/"
                                                                                     "PT20H",
                                                                                     "0") "," V("2025-05-04T05:00:00+"
                                                                                                "00:00/P1D",
                                                                                                "null")) ",\"skyCover"
                                                                                                         "\":{"
                                                                                                         "\"values\":"
                                                                                                         "[]}"),
        NULL);
    assert_string_equal(t.set.layout, "us-grid-forecast");
    assert_int_equal(t.set.site[0].days.day0, date_make(2025, 5, 2));
    assert_int_equal(t.set.site[0].days.n, 3);
    near(t.set.site[0].place.latitude, 40.5);
    near(t.set.site[0].place.longitude, -75);
    near(t.set.site[0].place.elevation_m, 12.5);
    near(weather_text_at(&t, "2025-05-02", WEATHER_TMIN), 10);
    near(weather_text_at(&t, "2025-05-02", WEATHER_TMAX), 25); /* 77 F, from 07:00 to 20:00 */
    near(weather_text_at(&t, "2025-05-03", WEATHER_TMIN), 3);  /* from 19:00 to 09:00, middle at 02:00 */
    near(weather_text_at(&t, "2025-05-03", WEATHER_TMAX), 15);
    near(weather_text_at(&t, "2025-05-02", WEATHER_RH), 60);
    near(weather_text_at(&t, "2025-05-04", WEATHER_WIND), 2 * 0.748);
    near(weather_text_at(&t, "2025-05-02", WEATHER_TDEW), 4);
    assert_true(isnan(weather_text_at(&t, "2025-05-03", WEATHER_TDEW)));
    near(weather_text_at(&t, "2025-05-02", WEATHER_RAIN), 1 + 2);
    near(weather_text_at(&t, "2025-05-03", WEATHER_RAIN), 4);
    assert_true(isnan(weather_text_at(&t, "2025-05-04", WEATHER_RAIN))); /* missing is not 0 */
    assert_int_equal(t.set.site[0].days.origin[0], ORIGIN_FORECAST);
    assert_non_null(strstr(t.set.note, "the sun over its longitude (UTC-5:00)"));
    weather_text_release(&t);
}

/* Daylight time (IANA database: New York is 4 h behind UTC in May): days begin at 04:00. */
static void the_zone_of_the_place_cuts_the_days(void **state)
{
    struct weather_text t;
    (void)state;
    if (!clock_zone_known("America/New_York")) {
        skip();
    }
    read_well(&t, GRID(WARMTH), "America/New_York");
    assert_int_equal(t.set.site[0].days.day0, date_make(2025, 5, 2)); /* lacks one hour */
    assert_int_equal(t.set.site[0].days.n, 3);
    near(weather_text_at(&t, "2025-05-03", WEATHER_TMAX), 20); /* the hour before 05:00 UTC */
    assert_string_equal(t.set.note, "2025-05-05 lacks hours and is left out");
    weather_text_release(&t);
}

static const struct json_fault refusals[] = {
    {GRID(LAYER("temperature", "wmoUnit:degX", V("2025-05-02T05:00:00+00:00/PT12H", "10"))), "properties.temperature",
     "the unit \"degX\""},
    {GRID("\"temperature\":{\"values\":[" V("2025-05-02T05:00:00+00:00/PT12H", "10") "]}"), "properties.temperature",
     "the unit \"\""},
    {GRID(LAYER("temperature", "wmoUnit:degC", V("2025-05-02T05:00:00+00:00", "10"))),
     "properties.temperature.values[0].validTime", "not an interval"},
    {GRID(LAYER("temperature", "wmoUnit:degC", V("2025-05-02T05:00:00+00:00/P1M", "10"))),
     "properties.temperature.values[0].validTime", "not an interval"},
    {GRID(WARMTH "," LAYER("windSpeed", "wmoUnit:km_h-1",
                           V("2025-05-02T05:00:00+00:00/PT2H", "1") "," V("2025-05-02T06:00:00+00:00/PT2H", "1"))),
     "properties.windSpeed.values[1].validTime", "before the interval before it ends"},
    {GRID(LAYER("temperature", "wmoUnit:degC", V("2025-05-02T05:00:00+00:00/PT12H", "61"))),
     "properties.temperature.values[0].value", "61 is not possible"},
    {GRID(LAYER("temperature", "wmoUnit:degC", "{\"validTime\":\"2025-05-02T05:00:00+00:00/PT12H\"}")),
     "properties.temperature.values[0].value", "has no value"},
    {GRID(LAYER("temperature", "wmoUnit:degC", V("2025-05-02T05:00:00+00:00/PT12H", "10"))), "properties",
     "one whole day of the place"},
    {GRID(LAYER("temperature", "wmoUnit:degC",
                V("2025-05-02T05:00:00+00:00/P99999D", "10") "," V("2200-05-02T05:00:00+00:00/P99999D", "10"))),
     "properties.temperature.values[1].validTime", "before the interval before it ends"},
    {GRID(LAYER("temperature", "wmoUnit:degC",
                V("1800-05-02T05:00:00+00:00/P1D", "10") "," V("2200-05-02T05:00:00+00:00/P1D", "10"))),
     "", "span more than"},
    {GRID(LAYER("temperature", "wmoUnit:degC", "")), "", "holds no intervals of temperature"},
};

static void each_refusal_has_its_reason(void **state)
{
    (void)state;
    json_faults(refusals, sizeof refusals / sizeof refusals[0]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(layers_become_days),
        cmocka_unit_test(the_zone_of_the_place_cuts_the_days),
        cmocka_unit_test(each_refusal_has_its_reason),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
