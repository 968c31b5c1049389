/* Patched-point and grid CSV of Queensland. All values are invented; the layout of the
 * station file is that of a file seen. SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/layout_case.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#define NAMES                                                                                                          \
    "station,YYYY-MM-DD,daily_rain,daily_rain_source,max_temp,max_temp_source,min_temp,min_temp_source,vp,vp_source,"  \
    "radiation,radiation_source,metadata\n"

static void values_sources_and_the_place(void **state)
{
    struct weather_text t;
    (void)state;
    layout_good(&t,
                NAMES "9999,2021-06-01,    1.5,0, 15.0,0,  5.5,0, 11.6,0,  8.9,42,\"name=TEST HILLS        \"\n"
                      "9999,2021-06-02,    0.0,25, 17.4,25,  5.1,7, 11.5,0, 12.4,42,\"latitude= -30.5\"\n"
                      "9999,2021-06-03,    3.0,7, 18.6,7,  5.9,7, 10.9,0, 12.5,7,\"longitude= 116.75\"\n"
                      "9999,2021-06-04,    0.0,0, 20.3,0,  4.8,0, 10.7,0, 12.7,42,\"elevation= 283.0 m\"\n"
                      "9999,2021-06-05,    0.0,75, 20.3,75,  4.8,75, 10.7,0, 12.7,75,\"codes, see there\"\n"
                      "9999,2021-06-06,    0.0,7, 20.3,7,  4.8,7, 10.7,0, 12.7,7,\"\"\n",
                "patched-point-csv");
    assert_string_equal(t.set.site[0].name, "9999");
    assert_true(t.set.site[0].place.latitude == -30.5 && t.set.site[0].place.longitude == 116.75);
    assert_true(t.set.site[0].place.elevation_m == 283);
    layout_span(&t, "2021-06-01", "2021-06-04");
    layout_value(&t, "2021-06-01", WEATHER_RAIN, 1.5);
    layout_value(&t, "2021-06-01", WEATHER_TMAX, 15);
    layout_value(&t, "2021-06-01", WEATHER_TMIN, 5.5);
    layout_value(&t, "2021-06-01", WEATHER_RAD, 8.9);
    layout_value(&t, "2021-06-02", WEATHER_TMIN, NAN);
    layout_value(&t, "2021-06-02", WEATHER_TMAX, 17.4);
    layout_value(&t, "2021-06-03", WEATHER_RAIN, NAN);
    layout_value(&t, "2021-06-03", WEATHER_RAD, NAN);
    assert_non_null(strstr(t.set.note, "4 values of tmin_c, 3 values of tmax_c, 3 values of rain_mm, 3 values of rad"));
    assert_non_null(strstr(t.set.note, "long-term averages"));
    weather_text_release(&t);
}

static void a_cell_of_the_grid(void **state)
{
    struct weather_text t;
    (void)state;
    layout_good(&t,
                "latitude,longitude,YYYY-MM-DD,daily_rain,daily_rain_source,metadata\n"
                "-27.5,151.9,2021-06-01,1.5,25,\"elevation= 400.0 m\"\n-27.5,151.9,2021-06-02,0.0,25,\"\"\n",
                "patched-point-csv");
    assert_true(t.set.site[0].place.latitude == -27.5 && t.set.site[0].place.longitude == 151.9);
    assert_true(t.set.site[0].place.elevation_m == 400);
    layout_value(&t, "2021-06-01", WEATHER_RAIN, 1.5);
    weather_text_release(&t);
}

static void the_words_are_of_one_station(void **state)
{
    struct weather_text t;
    (void)state;
    weather_text_read(&t, NAMES "9,2021-06-01,1.5,0,15,0,5,0,1,0,8,42,\"latitude= -30.5\"\n"
                                "8,2021-06-01,2.5,0,15,0,5,0,1,0,8,42,\"\"\n");
    assert_int_equal(t.code, ERR_OK);
    assert_int_equal(t.set.n, 2);
    assert_true(isnan(t.set.site[0].place.latitude) && isnan(t.set.site[1].place.latitude));
    weather_text_release(&t);
}

static void a_plain_table_is_left_alone(void **state)
{
    struct weather_text t;
    (void)state;
    layout_good(&t, "YYYY-MM-DD,min_temp,max_temp,rain\n2021-06-01,5,15,1.5\n", "csv");
    layout_value(&t, "2021-06-01", WEATHER_RAIN, 1.5);
    weather_text_release(&t);
}

static void faults_are_told(void **state)
{
    static const struct layout_fault fault[] = {
        {NAMES "9,2021-06-01,1.5,x,15,0,5,0,1,0,8,42,\"\"\n", 2, "the flag \"x\" is not known"},
        {NAMES "9,2021-06-01,-1.5,0,15,0,5,0,1,0,8,42,\"\"\n", 2, "\"-1.5\" is not possible; 0 to 2000 mm"},
        {NAMES "9,2021-06-01,1.5,0,15,0,5,0,1,0,8,42,\"name=\n", 2, "a quote is opened here and not closed"},
        {NAMES "9,2021-06-01,1.5,7,15,7,5,7,1,0,8,7,\"\"\n", 0, "no usable value in any"},
        {NAMES "9,2021-06-02,1,0,15,0,5,0,1,0,8,42,\n9,2021-06-01,1,0,15,0,5,0,1,0,8,42,\n", 3, "comes after"},
        {"station,YYYY-MM-DD,vp,vp_source,radiation,radiation_source\n", 2, "no rows of data"},
    };
    (void)state;
    layout_faults(fault, sizeof fault / sizeof fault[0]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(values_sources_and_the_place),
        cmocka_unit_test(a_cell_of_the_grid),
        cmocka_unit_test(the_words_are_of_one_station),
        cmocka_unit_test(a_plain_table_is_left_alone),
        cmocka_unit_test(faults_are_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
