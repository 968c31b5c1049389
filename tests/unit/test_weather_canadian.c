/* Files of the Canadian weather service. All values are invented; the old layout, the
 * legend of its flags and the extracts are those of files seen, the new one is from memory.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/layout_case.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#define PREAMBLE                                                                                                       \
    "\"Station Name\",\"TESTVILLE A\"\n\"Province\",\"NOWHERE\"\n\"Latitude\",\"45.10\"\n\"Longitude\",\"-63.20\"\n"   \
    "\"Elevation\",\"145.40\"\n\"Climate Identifier\",\"1\"\n \n\"Legend\"\n\"A\",\"Accumulated\"\n"                   \
    "\"[empty]\",\"No data available\"\n\"\xe2\x80\xa1\",\"Partner data\"\n \n"
#define OLD_NAMES                                                                                                      \
    "\"Date/Time\",\"Year\",\"Month\",\"Day\",\"Data Quality\",\"Max Temp (\xc2\xb0"                                   \
    "C)\",\"Max Temp Flag\",\"Min Temp (\xc2\xb0"                                                                      \
    "C)\",\"Min Temp Flag\",\"Total Rain (mm)\",\"Total Rain Flag\",\"Total Precip (mm)\",\"Total Precip Flag\","      \
    "\"Spd of Max Gust (km/h)\",\"Spd of Max Gust Flag\"\n"
#define OLD_ROW(day, max, min, precip, flag)                                                                           \
    "\"2015-01-" day "\",\"2015\",\"01\",\"" day "\",\"\xe2\x80\xa1\",\"" max "\",\"\",\"" min                         \
    "\",\"E\",\"0.0\",\"\",\"" precip "\",\"" flag "\",\"<31\",\"\"\n"

static void old_layout_with_its_flags(void **state)
{
    struct weather_text t;
    (void)state;
    layout_good(&t,
                PREAMBLE OLD_NAMES OLD_ROW("01", "-2.2", "-14.9", "1.6", "") OLD_ROW("02", "1.3", "-10", "0.0", "T")
                    OLD_ROW("03", "1.3", "-10", "0.0", "C") OLD_ROW("04", "1.3", "-10", "9.5", "A")
                        OLD_ROW("05", "1.3", "-10", "", "M") OLD_ROW("06", "1.3", "-10", "4.5", "E")
                            OLD_ROW("07", "1.3", "-10", "9.5", "F") OLD_ROW("08", "", "", "", ""),
                "canadian-daily");
    assert_string_equal(t.set.site[0].name, "TESTVILLE A");
    assert_true(t.set.site[0].place.latitude == 45.1 && t.set.site[0].place.longitude == -63.2);
    assert_true(t.set.site[0].place.elevation_m == 145.4);
    layout_span(&t, "2015-01-01", "2015-01-07");
    layout_value(&t, "2015-01-01", WEATHER_TMIN, -14.9);
    layout_value(&t, "2015-01-01", WEATHER_TMAX, -2.2);
    layout_value(&t, "2015-01-01", WEATHER_RAIN, 1.6);
    layout_value(&t, "2015-01-02", WEATHER_RAIN, 0);
    layout_value(&t, "2015-01-03", WEATHER_RAIN, NAN);
    layout_value(&t, "2015-01-04", WEATHER_RAIN, NAN);
    layout_value(&t, "2015-01-05", WEATHER_RAIN, NAN);
    layout_value(&t, "2015-01-06", WEATHER_RAIN, 4.5);
    layout_value(&t, "2015-01-07", WEATHER_RAIN, NAN);
    assert_non_null(strstr(t.set.note, "3 values of rain_mm (sums of several days"));
    weather_text_release(&t);
}

#define NEW_NAMES                                                                                                      \
    "\xef\xbb\xbf\"Longitude (x)\",\"Latitude (y)\",\"Station Name\",\"Climate ID\",\"Date/Time\",\"Year\","           \
    "\"Month\",\"Day\",\"Data Quality\",\"Max Temp (\xc2\xb0"                                                          \
    "C)\",\"Max Temp Flag\",\"Min Temp (\xc2\xb0"                                                                      \
    "C)\",\"Min Temp Flag\",\"Total Precip (mm)\",\"Total Precip Flag\"\r\n"
#define NEW_ROW(date, rest)                                                                                            \
    "\"-63.20\",\"45.10\",\"TESTVILLE, A\",\"8200000\",\"" date "\",\"\",\"\",\"\",\"\"," rest "\r\n"

static void new_layout_runs_ahead_of_time(void **state)
{
    struct weather_text t;
    (void)state;
    layout_good(&t,
                NEW_NAMES NEW_ROW("2025-11-29", "\"\",\"M\",\"\",\"M\",\"\",\"M\"")
                    NEW_ROW("2025-11-30", "\"5.0\",\"\",\"-1.0\",\"\",\"\",\"T\"")
                        NEW_ROW("2025-12-01", "\"6.0\",\"\",\"1.0\",\"\",\"2.0\",\"\"")
                            NEW_ROW("2025-12-02", "\"\",\"\",\"\",\"\",\"\",\"\"")
                                NEW_ROW("2025-12-31", "\"\",\"\",\"\",\"\",\"\",\"\""),
                "canadian-daily");
    assert_string_equal(t.set.site[0].name, "TESTVILLE, A");
    assert_true(t.set.site[0].place.latitude == 45.1 && t.set.site[0].place.longitude == -63.2);
    layout_span(&t, "2025-11-30", "2025-12-01");
    layout_value(&t, "2025-11-30", WEATHER_RAIN, 0);
    layout_value(&t, "2025-12-01", WEATHER_TMIN, 1);
    assert_string_equal(t.set.note, "");
    weather_text_release(&t);
}

static void one_variable_a_file(void **state)
{
    static const struct {
        const char *name;
        enum weather_var var;
    } element[] = {{"MAX_TEMP", WEATHER_TMAX}, {"MIN_TEMP", WEATHER_TMIN}, {"ONE_DAY_PRECIPITATION", WEATHER_RAIN}};
    (void)state;
    for (size_t i = 0; i < 3; i++) {
        char text[200] = "year,jday,";
        struct weather_text t;
        strcat(text, element[i].name);
        strcat(text, ",flags\n1960,59,11.700000,\n1960,60,7.5,E\n1960,61,8.25,A\n1960,366,3,\n1961,1,4,\n");
        layout_good(&t, text, "canadian-element");
        layout_span(&t, "1960-02-28", "1961-01-01");
        layout_value(&t, "1960-02-28", element[i].var, 11.7);
        layout_value(&t, "1960-02-29", element[i].var, 7.5);
        layout_value(&t, "1960-03-01", element[i].var, NAN);
        layout_value(&t, "1960-12-31", element[i].var, 3);
        assert_non_null(strstr(t.set.note, "left out: 1 value of "));
        weather_text_release(&t);
    }
}

static void faults_are_told(void **state)
{
    static const struct layout_fault fault[] = {
        {PREAMBLE OLD_NAMES OLD_ROW("01", "-2.2", "-14.9", "1.6", "Q"), 14, "the flag \"Q\" is not known"},
        {PREAMBLE OLD_NAMES OLD_ROW("01", "-22", "-14.9", "1.6", ""), 14, "is above the maximum"},
        {PREAMBLE OLD_NAMES OLD_ROW("01", "cold", "-14.9", "1.6", ""), 14, "\"cold\" is not a number"},
        {PREAMBLE OLD_NAMES OLD_ROW("01", "1", "0", "1.6", "") OLD_ROW("01", "1", "0", "1.6", ""), 15, "stands twice"},
        {PREAMBLE OLD_NAMES OLD_ROW("01", "", "", "", "M"), 0, "no usable value in any"},
        {PREAMBLE OLD_NAMES, 14, "no rows of data"},
        {"year,jday,MAX_TEMP,flags\n1961,366,3,\n", 2, "is not a leap year"},
        {"year,jday,MAX_TEMP,flags\n1961,36,99,\n", 2, "\"99\" is not possible"},
        {"year,jday,MAX_TEMP,flags\n1961,36,3,Z\n", 2, "the flag \"Z\" is not known"},
    };
    (void)state;
    layout_faults(fault, sizeof fault / sizeof fault[0]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(old_layout_with_its_flags),
        cmocka_unit_test(new_layout_runs_ahead_of_time),
        cmocka_unit_test(one_variable_a_file),
        cmocka_unit_test(faults_are_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
