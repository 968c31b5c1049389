/* Six columns of numbers without names: year month day rain tmax tmin. All values are
 * invented. SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/layout_case.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include <stdio.h>

static void blanks_tabs_and_commas(void **state)
{
    static const char *const text[] = {
        "1960\t2\t28\t17\t-99.9\t-99.9\n1960\t2\t29\t0.5\t11.7\t7.25\n1960\t3\t1\t-99.9\t11\t-3\n",
        " 1960  2 28   17.0 -99.9 -99.9\r\n 1960  2 29  0.5 11.7  7.25 \r\n\r\n 1960  3  1 -99.9 11.0 -3.0\r\n",
        "1960,2,28,17,-99.9,-99.9\n1960,2,29,0.5,11.7,7.25\n1960,3,1,-99.9,11,-3\n",
        "\n1960,02,28,17,-99.9,-99.9\n1960, 02, 29, 0.5, 11.7, 7.25\n1960,03,01,-99.9,11,-3",
    };
    (void)state;
    for (size_t i = 0; i < sizeof text / sizeof text[0]; i++) {
        struct weather_text t;
        layout_good(&t, text[i], "six-columns");
        layout_span(&t, "1960-02-28", "1960-03-01");
        layout_value(&t, "1960-02-28", WEATHER_RAIN, 17);
        layout_value(&t, "1960-02-28", WEATHER_TMIN, NAN);
        layout_value(&t, "1960-02-29", WEATHER_RAIN, 0.5);
        layout_value(&t, "1960-02-29", WEATHER_TMAX, 11.7);
        layout_value(&t, "1960-02-29", WEATHER_TMIN, 7.25);
        layout_value(&t, "1960-03-01", WEATHER_RAIN, NAN);
        layout_value(&t, "1960-03-01", WEATHER_TMIN, -3);
        assert_non_null(strstr(t.set.note, "its columns have no names"));
        weather_text_release(&t);
    }
}

/* Rain last and maximum before it passes as numbers, and is noticed. */
static void another_order_is_noticed(void **state)
{
    char text[4096] = "";
    size_t used = 0;
    struct weather_text t;
    (void)state;
    for (int day = 1; day <= 40; day++) {
        used += (size_t)snprintf(text + used, sizeof text - used, "1960 %d %d %d 20.5 %s\n", day > 31 ? 2 : 1,
                                 day > 31 ? day - 31 : day, 8, day % 3 ? "0.0" : "4.5");
    }
    weather_text_read(&t, text);
    assert_int_equal(t.code, ERR_DATA);
    assert_non_null(strstr(t.err.what, "is 0 on 27 of 40 days, as rain is"));
    weather_text_release(&t);
}

static void faults_are_told(void **state)
{
    static const struct layout_fault fault[] = {
        {"1960 1 1 5 10 2\n1960 1 2 5 10\n", 1, "no row of column names"},
        {"1960 1 1 5 10 2\n1960 1 2 5 10 2\n1960 1 3 5 10 2\n1960 1 4 5 10 2\n1960 1 5 5 10 2\n1960 1 6 5 10 x\n", 6,
         "\"x\" is not a number"},
        {"1960 1 1 5 10 12\n", 1, "is above the maximum"},
        {"1960 2 30 5 10 2\n", 1, "does not exist"},
        {"1960 1 1 5 100 2\n", 1, "\"100\" is not possible; -90 to 60 C is allowed. If the file has other units"},
        {"1960 1 1 5 10 2\n1960 1 1 5 10 2\n", 2, "stands twice"},
        {"1960 1 1 -99.9 -99.9 -99.9\n", 0, "no usable value in any"},
        {"1660 1 1 5 10 2\n", 1, "no row of column names"},
    };
    (void)state;
    layout_faults(fault, sizeof fault / sizeof fault[0]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(blanks_tabs_and_commas),
        cmocka_unit_test(another_order_is_noticed),
        cmocka_unit_test(faults_are_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
