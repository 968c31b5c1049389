/* Our own export read back: each day keeps its origin. Values are invented.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/weather_text.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static void test_origins(void **state)
{
    (void)state;
    struct weather_text t;
    weather_text_read(&t, "date,origin,tmin_c,tmax_c,rain_mm\n2024-02-28,recorded,-1.5,9.25,0.4\n2024-02-29,none,,,\n"
                          "2024-03-01,forecast,2,12,3\r\n2024-03-02,forecast,3,13,");
    assert_int_equal(t.code, ERR_OK);
    assert_string_equal(t.set.layout, "tidy-csv");
    const struct weather_days *w = &t.set.site[0].days;
    assert_int_equal(w->n, 4);
    assert_int_equal(w->origin[0], ORIGIN_RECORDED);
    assert_int_equal(w->origin[1], ORIGIN_NONE);
    assert_int_equal(w->origin[2], ORIGIN_FORECAST);
    assert_int_equal(w->origin[3], ORIGIN_FORECAST);
    assert_true(weather_text_at(&t, "2024-03-01", WEATHER_TMAX) == 12);
    assert_string_equal(t.set.ignored, "");
    weather_text_release(&t);
}

static void test_wrong(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        size_t line;
    } row[] = {
        {"date,origin,tmin_c,tmax_c\n2024-02-28,recorded,1,2\n2024-02-29,guessed,1,2\n", 3},
        {"date,origin,tmin_c,tmax_c\n2024-02-28,,1,2\n", 2},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        struct weather_text t;
        weather_text_read(&t, row[i].text);
        assert_int_equal(t.code, ERR_DATA);
        assert_int_equal(t.err.line, row[i].line);
        assert_string_equal(t.err.field, "origin");
        weather_text_release(&t);
    }
}

/* A season's table also begins with a date and an origin, and is no weather. */
static void test_season_is_other(void **state)
{
    (void)state;
    struct weather_text t;
    weather_text_read(&t, "date,origin,nsc_dawn,tmin_c,tmax_c\n2024-02-28,recorded,100,1,2\n");
    assert_string_not_equal(t.set.layout, "tidy-csv");
    weather_text_release(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_origins), cmocka_unit_test(test_wrong),
                                       cmocka_unit_test(test_season_is_other)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
