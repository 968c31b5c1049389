/* The table of days: room, names, missing columns. The names are those of our tidy
 * layout, so a table written with them must be read back.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/weather_text.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

static void only_wanted_columns_are_made(void **state)
{
    struct arena a;
    struct weather_days w;
    (void)state;
    arena_init(&a);
    assert_true(weather_days_alloc(&w, &a, 7, 3, 1u << WEATHER_RAIN));
    assert_int_equal(w.n, 3);
    assert_int_equal(w.day0, 7);
    assert_true(isnan(weather_at(&w, WEATHER_RAIN, 2)));
    assert_null(w.col[WEATHER_TMIN]);
    assert_true(isnan(weather_at(&w, WEATHER_TMIN, 0)));
    assert_int_equal(w.origin[2], ORIGIN_NONE);
    assert_int_equal(w.filled[2], 0);
    arena_release(&a);
}

static void the_names_are_read_back(void **state)
{
    char text[256];
    int n = snprintf(text, sizeof text, "date");
    struct weather_text t;
    (void)state;
    for (int v = 0; v < WEATHER_VARS; v++) {
        n += snprintf(text + n, sizeof text - (size_t)n, ",%s", weather_var_name((enum weather_var)v));
    }
    snprintf(text + n, sizeof text - (size_t)n, "\n2024-05-01,1,12,3,4,5,6,7,8\n");
    weather_text_read(&t, text);
    assert_string_equal(t.code == ERR_OK ? "" : t.err.what, "");
    assert_string_equal(t.set.ignored, "");
    static const double value[WEATHER_VARS] = {1, 12, 3, 4, 5, 6, 7, 8};
    for (int v = 0; v < WEATHER_VARS; v++) {
        assert_true(weather_text_at(&t, "2024-05-01", (enum weather_var)v) == value[v]);
    }
    weather_text_release(&t);
}

static void origins_have_names(void **state)
{
    (void)state;
    assert_string_equal(day_origin_name(ORIGIN_NONE), "none");
    assert_string_equal(day_origin_name(ORIGIN_RECORDED), "recorded");
    assert_string_equal(day_origin_name(ORIGIN_FILLED), "filled");
    assert_string_equal(day_origin_name(ORIGIN_FORECAST), "forecast");
    assert_string_equal(day_origin_name(ORIGIN_NORMAL), "normal");
    assert_string_equal(day_origin_name(ORIGIN_ASSUMED), "assumed");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(only_wanted_columns_are_made),
        cmocka_unit_test(the_names_are_read_back),
        cmocka_unit_test(origins_have_names),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
