/* Tables whose columns are set apart by blanks. All values are invented; 1 inch = 25.4 mm,
 * 32 F = 0 C. SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/layout_case.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static void lined_up_by_people(void **state)
{
    static const char *const text[] = {
        "YEAR  DOY    X  T2M_MIN  T2M_MAX  PRECTOTCORR\n2024   59 15.3    -1.50     9.25         0.40\n"
        "2024   60  9.9     0.00    10.00      -999.00\n",
        "Rain data of the year\nof one place\n\n  date        tmin  tmax  rain\r\n  2024-02-28  -1.5  9.25  0.4 \r\n"
        "  2024-02-29   0    10    NA\r\n",
        "date tmin_f tmax_f rain_inch\n2024-02-28 29.3 48.65 0.015748031496063\n2024-02-29 32 50 -\n",
    };
    (void)state;
    for (size_t i = 0; i < sizeof text / sizeof text[0]; i++) {
        struct weather_text t;
        layout_good(&t, text[i], "blank-table");
        layout_span(&t, "2024-02-28", "2024-02-29");
        layout_value(&t, "2024-02-28", WEATHER_TMIN, -1.5);
        layout_value(&t, "2024-02-28", WEATHER_TMAX, 9.25);
        layout_value(&t, "2024-02-28", WEATHER_RAIN, 0.4);
        layout_value(&t, "2024-02-29", WEATHER_TMIN, 0);
        layout_value(&t, "2024-02-29", WEATHER_RAIN, NAN);
        weather_text_release(&t);
    }
}

static void other_tables_are_left_alone(void **state)
{
    static const char *const text[] = {
        "the date rain fell\n\ndate,tmin,tmax\n2024-05-01,2,9\n",
        "date rain tmax\ndate;tmin;tmax\n2024-05-01;2;9\n",
    };
    (void)state;
    for (size_t i = 0; i < sizeof text / sizeof text[0]; i++) {
        struct weather_text t;
        layout_good(&t, text[i], "csv");
        layout_value(&t, "2024-05-01", WEATHER_TMIN, 2);
        weather_text_release(&t);
    }
}

static void faults_are_told(void **state)
{
    static const struct layout_fault fault[] = {
        {"date tmin tmax\n2024-05-01 2 9\n2024-05-02 2\n", 3, "the line has 2 fields where 3 are named"},
        {"date tmin tmax\n2024-05-01 2 9\n2024-05-02 2 9 4\n", 3, "one field more than the 3 column names"},
        {"date tmin tmax\n2024-05-01 2 9\n2024-05-02 2 cold\n", 3, "\"cold\" is not a number"},
        {"date tmin tmax\n2024-05-01 2 99\n", 2, "If the file has other units, say the unit in the name"},
        {"date tmin_c tmax_c\n2024-05-01 2 99.5\n", 2, "\"99.5\" is not possible; -90 to 60 C is allowed"},
        {"date tmin tmax(quux)\n2024-05-01 2 9\n", 1, "the unit \"quux\" is not known"},
        {"date tmin\n2024-05-01 2\n", 1, "no column of daily maximum temperature"},
        {"year mon tmin tmax\n2024 5 2 9\n", 1, "these are monthly values"},
    };
    (void)state;
    layout_faults(fault, sizeof fault / sizeof fault[0]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lined_up_by_people),
        cmocka_unit_test(other_tables_are_left_alone),
        cmocka_unit_test(faults_are_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
