/* One-variable station files of the Australian weather service. All values are invented;
 * which headers are seen and which from memory says src/weather/australian.c.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/layout_case.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#define FRONT "Product code,Bureau of Meteorology station number,Year,Month,Day,"
#define RAIN FRONT "Rainfall amount (millimetres),Period over which rainfall was measured (days),Quality\r\n"

static void rain_with_empty_years_and_sums(void **state)
{
    struct weather_text t;
    (void)state;
    layout_good(&t,
                RAIN "IDCJAC0009,099999,1898,01,01,,,\r\nIDCJAC0009,099999,1898,01,02,,,\r\n"
                     "IDCJAC0009,099999,2004,02,28,7.7,1,Y\r\nIDCJAC0009,099999,2004,02,29,0.0,,Y\r\n"
                     "IDCJAC0009,099999,2004,03,01,,,\r\nIDCJAC0009,099999,2004,03,02,12.4,2,N\r\n"
                     "IDCJAC0009,099999,2004,03,03,0.2,1,N\r\n",
                "australian-station");
    assert_string_equal(t.set.site[0].name, "099999");
    layout_span(&t, "2004-02-27", "2004-03-02"); /* what is read in the morning fell the day before */
    layout_value(&t, "2004-02-27", WEATHER_RAIN, 7.7);
    layout_value(&t, "2004-02-28", WEATHER_RAIN, 0);
    layout_value(&t, "2004-02-29", WEATHER_RAIN, NAN);
    layout_value(&t, "2004-03-01", WEATHER_RAIN, NAN);
    layout_value(&t, "2004-03-02", WEATHER_RAIN, 0.2);
    assert_string_equal(t.set.note, "left out: 1 value of rain_mm (gathered over more than one day); each rain is that "
                                    "of the 24 hours to 9 in the morning of its date in the file; it is given to the "
                                    "day before, on which 15 of these hours lie");
    weather_text_release(&t);
}

static void other_variables(void **state)
{
    static const struct {
        const char *names, *row;
        enum weather_var var;
    } file[] = {
        {"Maximum temperature (Degree C),Days of accumulation of maximum temperature,Quality", "IDCJAC0010",
         WEATHER_TMAX},
        {"Minimum temperature (Degree C),Days of accumulation of minimum temperature,Quality", "IDCJAC0011",
         WEATHER_TMIN},
        {"Daily global solar exposure (MJ/m*m)", "IDCJAC0016", WEATHER_RAD},
    };
    (void)state;
    for (size_t i = 0; i < 3; i++) {
        char text[400] = FRONT;
        bool flagged = file[i].var != WEATHER_RAD;
        struct weather_text t;
        strcat(strcat(text, file[i].names), "\n");
        strcat(strcat(text, file[i].row), flagged ? ",099999,2004,12,31,14.5,1,Y\n" : ",099999,2004,12,31,14.5\n");
        strcat(strcat(text, file[i].row), flagged ? ",099999,2005,01,01,15.5,2,Y\n" : ",099999,2005,01,01,15.5\n");
        strcat(strcat(text, file[i].row), flagged ? ",099999,2005,01,02,16.5,,N\n" : ",099999,2005,01,02,16.5\n");
        layout_good(&t, text, "australian-station");
        layout_value(&t, "2004-12-31", file[i].var, 14.5);
        layout_value(&t, "2005-01-01", file[i].var, flagged ? (double)NAN : 15.5);
        layout_value(&t, "2005-01-02", file[i].var, 16.5);
        assert_null(strstr(t.set.note, "24 hours"));
        weather_text_release(&t);
    }
}

static void faults_are_told(void **state)
{
    static const struct layout_fault fault[] = {
        {RAIN "IDCJAC0009,099999,2004,02,30,7.7,1,Y\n", 2, "2004-02-30 does not exist"},
        {RAIN "IDCJAC0009,099999,2004,02,03,7.7,many,Y\n", 2, "the flag \"many\" is not known"},
        {RAIN "IDCJAC0009,099999,2004,02,03,-7.7,1,Y\n", 2, "\"-7.7\" is not possible"},
        {RAIN "IDCJAC0009,099999,2004,02,03,,,\nIDCJAC0009,099999,2004,02,04,,,\n", 0, "no usable value in any"},
        {FRONT "Wind run (km)\nIDCJAC0000,099999,2004,02,03,200\n", 1, "Found: Product code, Bureau"},
    };
    (void)state;
    layout_faults(fault, sizeof fault / sizeof fault[0]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rain_with_empty_years_and_sums),
        cmocka_unit_test(other_variables),
        cmocka_unit_test(faults_are_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
