/* The CSV of the Austrian data hub. All values are invented; the layout with old names is
 * that of a file seen, the rest as src/weather/austrian.c says. 1 J/cm2 = 0.01 MJ/m2; wind
 * from 10 m by FAO-56 Eq. 47 (0.748). SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/layout_case.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static void old_names_and_their_units(void **state)
{
    struct weather_text t;
    (void)state;
    layout_good(&t,
                "station,time,strahl,rel,t,tmax,tmin,vv\n99,2024-02-28,1250.0,81.0,3.1,7.5,-1.5,2.0\n"
                "99,2024-02-29,300.0,86.0,,6.0,0.5,\n",
                "austrian-daily");
    assert_string_equal(t.set.site[0].name, "99");
    assert_string_equal(t.set.ignored, "t");
    layout_value(&t, "2024-02-28", WEATHER_RAD, 12.5);
    layout_value(&t, "2024-02-28", WEATHER_RH, 81);
    layout_value(&t, "2024-02-28", WEATHER_TMIN, -1.5);
    layout_value(&t, "2024-02-28", WEATHER_TMAX, 7.5);
    layout_value(&t, "2024-02-28", WEATHER_WIND, 2 * 0.748);
    layout_value(&t, "2024-02-29", WEATHER_WIND, NAN);
    assert_null(t.set.site[0].days.col[WEATHER_RAIN]);
    weather_text_release(&t);
}

static void new_names_and_dry_days(void **state)
{
    struct weather_text t;
    (void)state;
    layout_good(&t,
                "time,station,rr,rr_flag,tlmin,tlmax,cglo_j,rf_mittel,vv_mittel\n"
                "2024-05-01T00:00+00:00,99,-1,11,4,15,2000,70,1\n2024-05-02T00:00+00:00,99,0,11,4,15,2000,70,1\n"
                "2024-05-03T00:00+00:00,99,7.2,11,4,15,,70,1\n",
                "austrian-daily");
    layout_span(&t, "2024-05-01", "2024-05-03");
    layout_value(&t, "2024-05-01", WEATHER_RAIN, 0);
    layout_value(&t, "2024-05-02", WEATHER_RAIN, 0);
    layout_value(&t, "2024-05-03", WEATHER_RAIN, 7.2);
    layout_value(&t, "2024-05-01", WEATHER_RAD, 20);
    layout_value(&t, "2024-05-03", WEATHER_RAD, NAN);
    weather_text_release(&t);
}

static void saved_again_by_a_spreadsheet(void **state)
{
    struct weather_text t;
    (void)state;
    layout_good(&t, "station;time;strahl;tmax;tmin\n99;28.02.2024;1250,5;7,5;-1,5\n99;29.02.2024;300;6;0,5\n",
                "austrian-daily");
    layout_value(&t, "2024-02-28", WEATHER_RAD, 12.505);
    layout_value(&t, "2024-02-29", WEATHER_TMIN, 0.5);
    weather_text_release(&t);
}

static void stations_are_kept_apart(void **state)
{
    struct weather_text t;
    (void)state;
    weather_text_read(&t, "station,time,nied,tmax,tmin\n1,2024-05-01,1,9,2\n2,2024-05-01,0,8,1\n");
    assert_int_equal(t.code, ERR_OK);
    assert_int_equal(t.set.n, 2);
    assert_string_equal(t.set.site[1].name, "2");
    weather_text_release(&t);
}

static void a_plain_table_is_left_alone(void **state)
{
    struct weather_text t;
    (void)state;
    layout_good(&t, "station,time,tmin,tmax,rain\nfarm,2024-05-01,2,9,1\n", "csv");
    weather_text_release(&t);
}

static void faults_are_told(void **state)
{
    static const struct layout_fault fault[] = {
        {"station,time,nied,tmax,tmin\n1,2024-05-01,-2,9,2\n", 2, "\"-2\" is not possible; 0 to 2000 mm"},
        {"station,time,vv,tmax\n1,2024-05-01,1,9\n", 1, "no column of daily minimum temperature"},
        {"station,time,strahl,tmax,tmin\n1,2024-05-01T01:00,9,9,2\n", 2, "has more than a date"},
        {"station,time,strahl,tmax,tmin\n1,2024-05-01,6000,9,2\n", 2, "is not possible; 0 to 50 MJ/m2"},
        {"station,time,strahl,tmax,tmin\n1,2024-05-01,60,9\n", 2, "the line has 4 fields where 5 are named"},
        {"station,time,strahl,tmax,tmin\n1,2024-05-01,,,\n", 0, "no usable value in any"},
        {"station,time,strahl,tmax,tmin\n", 2, "no rows of data"},
    };
    (void)state;
    layout_faults(fault, sizeof fault / sizeof fault[0]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(old_names_and_their_units),    cmocka_unit_test(new_names_and_dry_days),
        cmocka_unit_test(stations_are_kept_apart),      cmocka_unit_test(a_plain_table_is_left_alone),
        cmocka_unit_test(saved_again_by_a_spreadsheet), cmocka_unit_test(faults_are_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
