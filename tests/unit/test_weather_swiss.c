/* Files of the Swiss weather service, built from its documented names: no real file was at
 * hand, all values are invented. 1 W/m2 over a day = 0.0864 MJ/m2; wind from 10 m by FAO-56
 * Eq. 47 (0.748). SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/layout_case.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static void old_header(void **state)
{
    struct weather_text t;
    (void)state;
    layout_good(&t,
                "MeteoSwiss\n\n"
                "station/location;date;tre200d0;tre200dx;tre200dn;rre150d0;gre000d0;ure200d0;fu3010d0\n"
                "TST;20240228;3.0;7.5;-1.5;0.4;100;81.0;36\nTST;20240229;3.0;8.5;-;-;-;-;-\n",
                "swiss-daily");
    assert_string_equal(t.set.site[0].name, "TST");
    layout_span(&t, "2024-02-28", "2024-02-29");
    layout_value(&t, "2024-02-28", WEATHER_TMIN, -1.5);
    layout_value(&t, "2024-02-28", WEATHER_TMAX, 7.5);
    layout_value(&t, "2024-02-28", WEATHER_RAIN, 0.4);
    layout_value(&t, "2024-02-28", WEATHER_RAD, 8.64);
    layout_value(&t, "2024-02-28", WEATHER_RH, 81);
    layout_value(&t, "2024-02-28", WEATHER_WIND, 7.48);
    layout_value(&t, "2024-02-29", WEATHER_TMIN, NAN);
    layout_value(&t, "2024-02-29", WEATHER_RAD, NAN);
    assert_non_null(strstr(t.set.note, "24 hours from 6 in its morning"));
    weather_text_release(&t);
}

static void new_header(void **state)
{
    struct weather_text t;
    (void)state;
    layout_good(&t,
                "station_abbr;reference_timestamp;tre200d0;tre200dx;tre200dn;rre150d0;rka150d0;gre000d0;fkl010d0\r\n"
                "TST;28.02.2024 00:00;3.0;7.5;-1.5;9;0.4;100;10\r\nTST;29.02.2024 00:00;3.0;8.5;0.5;9;;;\r\n",
                "swiss-daily");
    layout_span(&t, "2024-02-28", "2024-02-29");
    layout_value(&t, "2024-02-28", WEATHER_RAIN, 0.4);
    layout_value(&t, "2024-02-28", WEATHER_WIND, 7.48);
    layout_value(&t, "2024-02-29", WEATHER_RAIN, NAN);
    layout_value(&t, "2024-02-29", WEATHER_TMAX, 8.5);
    assert_string_equal(t.set.note, "");
    weather_text_release(&t);
}

static void faults_are_told(void **state)
{
    static const struct layout_fault fault[] = {
        {"stn;time;tre200dx;tre200dn\nTST;2024022800;7;1\n", 2, "is not a date that can be read"},
        {"stn;time;tre200dx;tre200dn\nTST;28.02.2024 06:00;7;1\n", 2, "has more than a date"},
        {"stn;time;tre200dx;tre200dn\nTST;20240228;7;9\n", 2, "is above the maximum"},
        {"stn;time;tre200dx;tre200dn\nTST;20240228;7\n", 2, "the line has 3 fields where 4 are named"},
        {"stn;time;tre200dx;tre200dn\nTST;20240228;-;-\n", 0, "no usable value in any"},
    };
    (void)state;
    layout_faults(fault, sizeof fault / sizeof fault[0]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(old_header),
        cmocka_unit_test(new_header),
        cmocka_unit_test(faults_are_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
