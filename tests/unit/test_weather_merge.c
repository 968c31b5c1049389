/* Two tables made one: who wins, cell by cell. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/limits.h"
#include "weather/weather.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#define MISSING ((double)NAN)
#define TEMPERATURES (1u << WEATHER_TMIN | 1u << WEATHER_TMAX)

static struct weather_days table(struct arena *a, date_t day0, size_t n, double tmin, double tmax, enum day_origin o)
{
    struct weather_days w;
    assert_true(weather_days_alloc(&w, a, day0, n, TEMPERATURES));
    for (size_t i = 0; i < n; i++) {
        w.col[WEATHER_TMIN][i] = tmin;
        w.col[WEATHER_TMAX][i] = tmax;
        w.origin[i] = (uint8_t)o;
    }
    return w;
}

static void the_table_is_widened(void **state)
{
    struct arena a;
    struct err e;
    (void)state;
    arena_init(&a);
    struct weather_days x = table(&a, 100, 3, 1, 2, ORIGIN_RECORDED), y = table(&a, 105, 2, 3, 4, ORIGIN_FORECAST);
    assert_int_equal(weather_merge(&x, &y, &a, &e), ERR_OK);
    static const uint8_t origin[7] = {ORIGIN_RECORDED, ORIGIN_RECORDED, ORIGIN_RECORDED, ORIGIN_NONE,
                                      ORIGIN_NONE,     ORIGIN_FORECAST, ORIGIN_FORECAST};
    assert_int_equal(x.day0, 100);
    assert_int_equal(x.n, 7);
    assert_memory_equal(x.origin, origin, 7);
    assert_true(x.col[WEATHER_TMIN][2] == 1 && isnan(x.col[WEATHER_TMIN][3]) && x.col[WEATHER_TMIN][6] == 3);
    struct weather_days z = table(&a, 98, 1, 5, 6, ORIGIN_RECORDED);
    assert_int_equal(weather_merge(&x, &z, &a, &e), ERR_OK);
    assert_int_equal(x.day0, 98);
    assert_int_equal(x.n, 9);
    assert_true(x.col[WEATHER_TMAX][0] == 6 && x.col[WEATHER_TMAX][2] == 2);
    arena_release(&a);
}

static void an_empty_table_takes_all(void **state)
{
    struct arena a;
    struct err e;
    (void)state;
    arena_init(&a);
    struct weather_days x = {0}, y = table(&a, 105, 2, 3, 4, ORIGIN_FORECAST), none = {0};
    assert_int_equal(weather_merge(&x, &y, &a, &e), ERR_OK);
    assert_int_equal(x.day0, 105);
    assert_int_equal(x.n, 2);
    assert_int_equal(weather_merge(&x, &none, &a, &e), ERR_OK);
    assert_int_equal(x.n, 2);
    arena_release(&a);
}

/* Rows: origin of a and b, values, who must win. */
static void the_better_origin_wins(void **state)
{
    static const struct {
        enum day_origin a, b;
        double in_a, in_b, wins;
        enum day_origin origin;
    } cases[] = {
        {ORIGIN_RECORDED, ORIGIN_FORECAST, 1, 2, 1, ORIGIN_RECORDED},
        {ORIGIN_FORECAST, ORIGIN_RECORDED, 1, 2, 2, ORIGIN_RECORDED},
        {ORIGIN_FILLED, ORIGIN_FORECAST, 1, 2, 2, ORIGIN_FORECAST},
        {ORIGIN_RECORDED, ORIGIN_RECORDED, 1, 2, 1, ORIGIN_RECORDED},
        {ORIGIN_RECORDED, ORIGIN_RECORDED, MISSING, 2, 2, ORIGIN_RECORDED},
        {ORIGIN_RECORDED, ORIGIN_FORECAST, MISSING, 2, 2, ORIGIN_FORECAST},
        {ORIGIN_NONE, ORIGIN_NORMAL, MISSING, 2, 2, ORIGIN_NORMAL},
    };
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct arena a;
        struct err e;
        arena_init(&a);
        struct weather_days x = table(&a, 100, 1, cases[i].in_a, cases[i].in_a, cases[i].a);
        struct weather_days y = table(&a, 100, 1, cases[i].in_b, cases[i].in_b, cases[i].b);
        assert_int_equal(weather_merge(&x, &y, &a, &e), ERR_OK);
        assert_true(x.col[WEATHER_TMIN][0] == cases[i].wins);
        assert_int_equal(x.origin[0], cases[i].origin);
        arena_release(&a);
    }
}

static void a_rain_gauge_does_not_make_a_forecast_recorded(void **state)
{
    struct arena a;
    struct err e;
    struct weather_days rain;
    (void)state;
    arena_init(&a);
    struct weather_days x = table(&a, 100, 1, 1, 2, ORIGIN_FORECAST);
    assert_true(weather_days_alloc(&rain, &a, 100, 2, 1u << WEATHER_RAIN));
    rain.col[WEATHER_RAIN][0] = rain.col[WEATHER_RAIN][1] = 7;
    rain.origin[0] = rain.origin[1] = ORIGIN_RECORDED;
    assert_int_equal(weather_merge(&x, &rain, &a, &e), ERR_OK);
    assert_true(x.col[WEATHER_RAIN][0] == 7);
    assert_int_equal(x.origin[0], ORIGIN_FORECAST);
    assert_int_equal(x.origin[1], ORIGIN_RECORDED);
    arena_release(&a);
}

static void temperatures_of_two_sources_do_not_cross(void **state)
{
    struct arena a;
    struct err e;
    (void)state;
    arena_init(&a);
    struct weather_days x = table(&a, 100, 1, 10, MISSING, ORIGIN_RECORDED);
    struct weather_days y = table(&a, 100, 1, 2, 8, ORIGIN_RECORDED);
    assert_int_equal(weather_merge(&x, &y, &a, &e), ERR_OK);
    assert_true(x.col[WEATHER_TMIN][0] == 2 && x.col[WEATHER_TMAX][0] == 8);
    struct weather_days low = table(&a, 100, 1, 10, MISSING, ORIGIN_RECORDED);
    struct weather_days high = table(&a, 100, 1, MISSING, 8, ORIGIN_RECORDED);
    assert_int_equal(weather_merge(&low, &high, &a, &e), ERR_OK);
    assert_true(low.col[WEATHER_TMIN][0] <= low.col[WEATHER_TMAX][0]);
    arena_release(&a);
}

static void a_crossed_day_gives_way_or_stays_to_be_named(void **state)
{
    struct arena a;
    struct err e;
    (void)state;
    arena_init(&a);
    struct weather_days x = table(&a, 100, 1, 9, 4, ORIGIN_RECORDED), none = {0};
    struct weather_days y = table(&a, 100, 1, 2, 8, ORIGIN_RECORDED);
    assert_int_equal(weather_merge(&none, &x, &a, &e), ERR_OK);
    assert_true(none.col[WEATHER_TMIN][0] == 9 && none.col[WEATHER_TMAX][0] == 4);
    assert_int_equal(weather_merge(&none, &y, &a, &e), ERR_OK);
    assert_true(none.col[WEATHER_TMIN][0] == 2 && none.col[WEATHER_TMAX][0] == 8);
    arena_release(&a);
}

static void an_endless_span_is_refused(void **state)
{
    struct arena a;
    struct err e;
    (void)state;
    arena_init(&a);
    err_clear(&e);
    struct weather_days x = table(&a, 0, 1, 1, 2, ORIGIN_RECORDED), y = table(&a, LIMIT_DAYS, 1, 1, 2, ORIGIN_RECORDED);
    assert_int_equal(weather_merge(&x, &y, &a, &e), ERR_DATA);
    assert_int_equal(x.n, 1);
    assert_non_null(strstr(e.what, "span 1970-01-01 to"));
    arena_release(&a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_table_is_widened),
        cmocka_unit_test(an_empty_table_takes_all),
        cmocka_unit_test(the_better_origin_wins),
        cmocka_unit_test(a_rain_gauge_does_not_make_a_forecast_recorded),
        cmocka_unit_test(temperatures_of_two_sources_do_not_cross),
        cmocka_unit_test(a_crossed_day_gives_way_or_stays_to_be_named),
        cmocka_unit_test(an_endless_span_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
