/* Open-data JSON: values, units, what is missing, what is recorded and what forecast,
 * and each refusal with its place. Bytes are invented in the documented layouts.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/layout_case.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#define REANALYSIS(block, units)                                                                                       \
    "{\"type\":\"Feature\",\"geometry\":{\"type\":\"Point\",\"coordinates\":[-2.5,52.25,120.5]},"                      \
    "\"properties\":{\"parameter\":{" block "}},\"header\":{\"fill_value\":-999.0},\"parameters\":{" units "}}"
#define UNIT(name, unit) "\"" name "\":{\"units\":\"" unit "\",\"longname\":\"x\"}"
#define TEMPERATURES                                                                                                   \
    "\"T2M_MIN\":{\"20240228\":-1.5,\"20240229\":0.0,\"20240301\":2},"                                                 \
    "\"T2M_MAX\":{\"20240228\":9.25,\"20240229\":10,\"20240301\":12}"
#define TEMPERATURE_UNITS UNIT("T2M_MIN", "C") "," UNIT("T2M_MAX", "C")

#define FORECAST(more, units, block)                                                                                   \
    "{\"latitude\":52.25,\"longitude\":-2.5,\"utc_offset_seconds\":0,\"elevation\":120.0," more                        \
    "\"daily_units\":{\"time\":\"iso8601\"," units "},\"daily\":{" block "}}"
#define DAYS "\"time\":[\"2024-02-28\",\"2024-02-29\",\"2024-03-01\"],"
#define FORECAST_C                                                                                                     \
    "\"temperature_2m_max\":\"\xc2\xb0"                                                                                \
    "C\",\"temperature_2m_min\":\"\\u00b0C\""
#define FORECAST_T "\"temperature_2m_max\":[9.25,10,12],\"temperature_2m_min\":[-1.5,0,2]"

static void read_well(struct weather_text *t, const char *text)
{
    weather_text_read(t, text);
    if (t->code != ERR_OK) {
        fail_msg("%s\n%zu:%zu %s: %s", text, t->err.line, t->err.column, t->err.field, t->err.what);
    }
}

static void near(double a, double b)
{
    if (!(fabs(a - b) < 1e-9)) {
        fail_msg("%.12g, not %.12g", a, b);
    }
}

static void reanalysis_is_read(void **state)
{
    struct weather_text t;
    (void)state;
    read_well(&t,
              REANALYSIS(TEMPERATURES ",\"PRECTOTCORR\":{\"20240228\":0.4,\"20240229\":-999.0,\"20240301\":3},"
                                      "\"ALLSKY_SFC_SW_DWN\":{\"20240228\":2.5,\"20240229\":-999,\"20240301\":-999.0},"
                                      "\"WS10M\":{\"20240228\":10,\"20240229\":10,\"20240301\":10},"
                                      "\"T2MDEW\":{\"20240228\":-3,\"20240229\":null},\"T2M\":{\"20240228\":4},"
                                      "\"RH2M\":{\"20240228\":-999,\"20240229\":-999,\"20240301\":-999}",
                         TEMPERATURE_UNITS "," UNIT("PRECTOTCORR", "mm/day") "," UNIT("WS10M", "m/s") "," UNIT(
                             "ALLSKY_SFC_SW_DWN", "kW-hr/m^2/day") "," UNIT("T2MDEW", "C") "," UNIT("RH2M", "%")));
    const struct weather_site *site = &t.set.site[0];
    assert_int_equal(t.set.n, 1);
    assert_string_equal(t.set.layout, "reanalysis-json");
    assert_int_equal(site->days.day0, date_make(2024, 2, 28));
    assert_int_equal(site->days.n, 3);
    near(site->place.latitude, 52.25);
    near(site->place.longitude, -2.5);
    near(site->place.elevation_m, 120.5);
    near(weather_text_at(&t, "2024-02-28", WEATHER_TMIN), -1.5);
    near(weather_text_at(&t, "2024-03-01", WEATHER_TMAX), 12);
    assert_true(isnan(weather_text_at(&t, "2024-02-29", WEATHER_RAIN)));
    near(weather_text_at(&t, "2024-02-28", WEATHER_RAD), 9);            /* 2.5 kWh = 9 MJ */
    assert_true(isnan(weather_text_at(&t, "2024-03-01", WEATHER_RAD))); /* radiation comes later than temperature */
    near(weather_text_at(&t, "2024-02-29", WEATHER_WIND), 7.48);
    assert_true(isnan(weather_text_at(&t, "2024-03-01", WEATHER_TDEW)));
    assert_null(site->days.col[WEATHER_RH]);
    assert_int_equal(site->days.origin[2], ORIGIN_RECORDED);
    weather_text_release(&t);
}

static void wind_at_two_metres_is_preferred(void **state)
{
    struct weather_text t;
    (void)state;
    read_well(&t, REANALYSIS("\"WS10M\":{\"20240228\":9}," TEMPERATURES ",\"WS2M\":{\"20240228\":6}",
                             TEMPERATURE_UNITS "," UNIT("WS2M", "m/s") "," UNIT("WS10M", "m/s")));
    near(weather_text_at(&t, "2024-02-28", WEATHER_WIND), 6);
    weather_text_release(&t);
}

static void days_without_any_value_have_no_origin(void **state)
{
    struct weather_text t;
    (void)state;
    read_well(
        &t, REANALYSIS("\"T2M_MIN\":{\"20240228\":1,\"20240302\":-999},\"T2M_MAX\":{\"20240228\":5,\"20240302\":-999}",
                       TEMPERATURE_UNITS));
    assert_int_equal(t.set.site[0].days.n, 4);
    assert_int_equal(t.set.site[0].days.origin[0], ORIGIN_RECORDED);
    assert_int_equal(t.set.site[0].days.origin[1], ORIGIN_NONE);
    assert_int_equal(t.set.site[0].days.origin[3], ORIGIN_NONE);
    weather_text_release(&t);
}

static void forecast_is_read(void **state)
{
    struct weather_text t;
    (void)state;
    read_well(&t,
              FORECAST("",
                       FORECAST_C ",\"precipitation_sum\":\"inch\",\"rain_sum\":\"inch\",\"shortwave_radiation_sum\":"
                                  "\"MJ/m\xc2\xb2\",\"wind_speed_10m_max\":\"km/h\",\"wind_speed_10m_mean\":\"km/h\","
                                  "\"et0_fao_evapotranspiration\":\"mm\"",
                       DAYS FORECAST_T ",\"rain_sum\":[9,9,9],\"precipitation_sum\":[0.5,null,0],"
                                       "\"shortwave_radiation_sum\":[8.5,null,10],\"wind_speed_10m_max\":[70,70,70],"
                                       "\"wind_speed_10m_mean\":[36,36,36],\"et0_fao_evapotranspiration\":[1,2,3]"));
    assert_string_equal(t.set.layout, "forecast-json");
    near(t.set.site[0].place.elevation_m, 120);
    near(weather_text_at(&t, "2024-02-28", WEATHER_TMIN), -1.5);
    near(weather_text_at(&t, "2024-02-28", WEATHER_RAIN), 12.7);
    assert_true(isnan(weather_text_at(&t, "2024-02-29", WEATHER_RAIN)));
    near(weather_text_at(&t, "2024-03-01", WEATHER_RAD), 10);
    near(weather_text_at(&t, "2024-03-01", WEATHER_WIND), 7.48); /* the mean, not the strongest */
    near(weather_text_at(&t, "2024-03-01", WEATHER_ET0), 3);
    assert_string_equal(t.set.note, "");
    for (size_t i = 0; i < 3; i++) {
        assert_int_equal(t.set.site[0].days.origin[i], ORIGIN_FORECAST);
    }
    weather_text_release(&t);
}

static void seconds_are_taken_to_the_place(void **state)
{
    struct weather_text t;
    (void)state;
    /* 2024-02-27 14:30 UTC is midnight of 28 February at UTC+9:30 */
    read_well(&t, "{\"latitude\":-34.7,\"longitude\":138.6,\"utc_offset_seconds\":34200,\"daily_units\":{" FORECAST_C
                  "},\"daily\":{\"time\":[1709044200,1709130600,1709217000]," FORECAST_T "}}");
    assert_int_equal(t.set.site[0].days.day0, date_make(2024, 2, 28));
    assert_int_equal(t.set.site[0].days.n, 3);
    assert_string_equal(t.set.note, "");
    weather_text_release(&t);
}

static void days_before_the_present_are_recorded(void **state)
{
    struct weather_text t;
    (void)state;
    read_well(&t,
              FORECAST("\"current\":{\"time\":\"2024-02-29T07:15\",\"interval\":900},", FORECAST_C, DAYS FORECAST_T));
    assert_int_equal(t.set.site[0].days.origin[0], ORIGIN_RECORDED);
    assert_int_equal(t.set.site[0].days.origin[1], ORIGIN_FORECAST);
    assert_int_equal(t.set.site[0].days.origin[2], ORIGIN_FORECAST);
    weather_text_release(&t);
}

static void a_long_answer_is_the_archives(void **state)
{
    struct weather_text t;
    char *text = malloc(20000), date[DATE_TEXT];
    size_t n = (size_t)sprintf(text, "{\"longitude\":0,\"daily_units\":{" FORECAST_C "},\"daily\":{");
    static const char *const series[] = {"time", "temperature_2m_min", "temperature_2m_max"};
    (void)state;
    for (int s = 0; s < 3; s++) {
        n += (size_t)sprintf(text + n, "%s\"%s\":[", s ? "," : "", series[s]);
        for (int i = 0; i < 109; i++) {
            n += (size_t)sprintf(text + n, s ? "%s%s%d" : "%s\"%s\"%.0d", i ? "," : "",
                                 s ? "" : date_format(date_make(2024, 1, 1) + i, date), s ? s * 5 : 0);
        }
        n += (size_t)sprintf(text + n, "]");
    }
    sprintf(text + n, "}}");
    read_well(&t, text);
    assert_int_equal(t.set.site[0].days.n, 109);
    assert_int_equal(t.set.site[0].days.origin[0], ORIGIN_RECORDED);
    assert_int_equal(t.set.site[0].days.origin[108], ORIGIN_RECORDED);
    weather_text_release(&t);
    free(text);
}

static void days_of_another_place_are_noted(void **state)
{
    struct weather_text t;
    (void)state;
    read_well(&t, "{\"latitude\":52.5,\"longitude\":13.4,\"utc_offset_seconds\":-18000,\"daily_units\":{" FORECAST_C
                  "},\"daily\":{" DAYS FORECAST_T "}}");
    assert_non_null(strstr(t.set.note, "about 6 h away"));
    weather_text_release(&t);
}

static const struct json_fault refusals[] = {
    {"{\"daily\":{\"time\":[\"2018-05-01\"", "", "not valid JSON"},
    {REANALYSIS(TEMPERATURES, TEMPERATURE_UNITS) "x", "", "not valid JSON"},
    {REANALYSIS("\"T2M\":{\"2026040100\":18.7}", UNIT("T2M", "C")), "properties.parameter.T2M.2026040100",
     "hourly values; ask the service for daily ones"},
    {REANALYSIS("\"T2M\":{\"202201\":18.7,\"202213\":20}", UNIT("T2M", "C")), "properties.parameter.T2M.202201",
     "monthly values; ask the service for daily ones"},
    {REANALYSIS("\"T2M_MIN\":{\"20240230\":1},\"T2M_MAX\":{\"20240230\":1}", TEMPERATURE_UNITS),
     "properties.parameter.T2M_MIN.20240230", "is not a date"},
    {REANALYSIS("\"T2M_MIN\":{},\"T2M_MAX\":{}", TEMPERATURE_UNITS), "properties.parameter", "has no days"},
    {REANALYSIS("\"T2M_MIN\":{\"20240101\":1},\"T2M_MAX\":[2]", TEMPERATURE_UNITS), "properties.parameter.T2M_MAX",
     "must be an object of dates and values"},
    {REANALYSIS("\"T2M_MIN\":{\"20240101\":1},\"T2M_MAX\":2", TEMPERATURE_UNITS), "properties.parameter.T2M_MAX",
     "must be an object of dates and values"},
    {REANALYSIS("", ""), "properties.parameter", "no daily minimum and maximum temperature"},
    {REANALYSIS("\"T2M\":{\"20240228\":1},\"PSC\":{}", UNIT("T2M", "C")), "properties.parameter", "Found: T2M, PSC"},
    {REANALYSIS(TEMPERATURES, UNIT("T2M_MIN", "C")), "properties.parameter.T2M_MAX", "does not say the unit"},
    {REANALYSIS(TEMPERATURES, UNIT("T2M_MIN", "C") "," UNIT("T2M_MAX", "ell")), "properties.parameter.T2M_MAX",
     "the unit \"ell\" is not known; C, F"},
    {REANALYSIS("\"T2M_MIN\":{\"20240228\":\"cold\"},\"T2M_MAX\":{\"20240228\":1}", TEMPERATURE_UNITS),
     "properties.parameter.T2M_MIN.20240228", "must be a number"},
    {REANALYSIS("\"T2M_MIN\":{\"20240228\":1},\"T2M_MAX\":{\"20240228\":75.5}", TEMPERATURE_UNITS),
     "properties.parameter.T2M_MAX.20240228", "75.5 is not possible; -90 to 60 C is allowed"},
    {REANALYSIS("\"T2M_MIN\":{\"20240228\":9},\"T2M_MAX\":{\"20240228\":4}", TEMPERATURE_UNITS), "properties.parameter",
     "on 2024-02-28 the minimum of 9 C is above the maximum of 4 C"},
    {FORECAST("", FORECAST_C, FORECAST_T), "daily", "has no days"},
    {FORECAST("\"hourly\":[1,2],", FORECAST_C, DAYS FORECAST_T), "hourly", "must be an object of arrays"},
    {FORECAST("", FORECAST_C, "\"time\":[\"2024-02-28\",\"2024-03-01\"]," FORECAST_T), "daily.time[1]",
     "do not follow one another"},
    {FORECAST("", FORECAST_C, "\"time\":[\"28.2.2024\"]," FORECAST_T), "daily.time[0]", "not a date"},
    {FORECAST("", FORECAST_C, DAYS "\"temperature_2m_max\":[9,10],\"temperature_2m_min\":[0,1,2]"),
     "daily.temperature_2m_max", "one value for each of the 3 days"},
    {FORECAST("", FORECAST_C, DAYS "\"temperature_2m_max\":[9,10,11,12],\"temperature_2m_min\":[0,1,2]"),
     "daily.temperature_2m_max", "one value for each of the 3 days"},
    {FORECAST("", FORECAST_C, DAYS "\"temperature_2m_max\":[9,\"10\",12],\"temperature_2m_min\":[0,1,2]"),
     "daily.temperature_2m_max[1]", "must be a number"},
    {FORECAST("", "\"temperature_2m_max\":\"C\"", DAYS FORECAST_T), "daily.temperature_2m_min",
     "does not say the unit"},
    {FORECAST("", FORECAST_C, DAYS "\"sunrise\":[1,2,3]"), "daily", "Found: time, sunrise"},
    {"{\"error\":true,\"reason\":\"Parameter 'start_date' is out of range\"}", "",
     "the service answered \"Parameter 'start_date' is out of range\""},
    {"{\"header\":\"x\",\"messages\":[\"Your request is wrong\"]}", "",
     "the service answered \"Your request is wrong\""},
    {"{\"status\":404,\"title\":\"Not Found\"}", "", "the service answered \"Not Found\""},
    {"[{\"generationtime_ms\":1}]", "", "several places"},
    {"{\"features\":[{\"properties\":{\"parameter\":{}}}]}", "", "for a region"},
    {"{\"properties\":{\"periods\":[]}}", "", "forecast in words"},
    {"{\"properties\":{\"gridId\":\"X\",\"forecastGridData\":\"http\"}}", "", "a second step is needed"},
    {"{\"properties\":{\"gridId\":\"X\",\"temperature\":{}}}", "", "no intervals of temperature"},
    {"{\"current\":{\"time\":\"2024-05-01T10:00\"}}", "", "the present hour only"},
    {"{\"current_weather\":{\"time\":1714550400}}", "", "the present hour only"},
    {"{}", "", "a kind that is not known"},
    {"[]", "", "a kind that is not known"},
    {"  [{\"a\":1}]", "", "a kind that is not known"},
};

static void each_refusal_has_its_reason(void **state)
{
    (void)state;
    json_faults(refusals, sizeof refusals / sizeof refusals[0]);
}

static void the_place_in_the_text_is_told(void **state)
{
    struct weather_text t;
    (void)state;
    weather_text_read(&t, "{\"daily_units\":{" FORECAST_C "},\n \"daily\":{\"time\":[\"2024-02-28\"],\n"
                          "  \"temperature_2m_min\":[1],\n  \"temperature_2m_max\":[\"x\"]}}");
    assert_int_equal(t.err.line, 4);
    assert_int_equal(t.err.column, 25);
    weather_text_release(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reanalysis_is_read),
        cmocka_unit_test(wind_at_two_metres_is_preferred),
        cmocka_unit_test(days_without_any_value_have_no_origin),
        cmocka_unit_test(forecast_is_read),
        cmocka_unit_test(seconds_are_taken_to_the_place),
        cmocka_unit_test(days_before_the_present_are_recorded),
        cmocka_unit_test(a_long_answer_is_the_archives),
        cmocka_unit_test(days_of_another_place_are_noted),
        cmocka_unit_test(each_refusal_has_its_reason),
        cmocka_unit_test(the_place_in_the_text_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
