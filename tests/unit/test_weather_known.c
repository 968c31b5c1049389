/* What is known on a morning: forecast, else persistence; nothing of the future.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/et0.h"
#include "physics/sun.h"
#include "weather/weather.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#define N 30
#define VARS                                                                                                           \
    (1u << WEATHER_TMIN | 1u << WEATHER_TMAX | 1u << WEATHER_RAIN | 1u << WEATHER_RAD | 1u << WEATHER_ET0 |            \
     1u << WEATHER_WIND)

static const struct site place = {.latitude = 52, .longitude = 0, .elevation_m = 50};

static double ra(date_t date)
{
    return sun_extraterrestrial(date_day_of_year(date), 52);
}

/* April 2024: day i has Tmin i, Tmax i + 10, clearness i / 100, rain, wind and ET0. */
static struct weather_days make(struct arena *a)
{
    struct weather_days w;
    arena_init(a);
    assert_true(weather_days_alloc(&w, a, date_make(2024, 4, 1), N, VARS));
    for (size_t i = 0; i < N; i++) {
        w.col[WEATHER_TMIN][i] = (double)i;
        w.col[WEATHER_TMAX][i] = (double)i + 10;
        w.col[WEATHER_RAIN][i] = 5;
        w.col[WEATHER_WIND][i] = 4;
        w.col[WEATHER_RAD][i] = (double)i / 100 * ra(w.day0 + (date_t)i);
        w.col[WEATHER_ET0][i] = 9;
        w.origin[i] = ORIGIN_RECORDED;
    }
    return w;
}

static void assumed_like_days(const double *value, date_t date, double tmin, double tmax, double clearness)
{
    double et0, rad = clearness * ra(date);
    struct et0_columns in = {.tmin = &tmin, .tmax = &tmax, .rad = &rad};
    et0_days(&in, 1, date, 52, 50, &et0);
    assert_true(fabs(value[WEATHER_TMIN] - tmin) < 1e-9);
    assert_true(fabs(value[WEATHER_TMAX] - tmax) < 1e-9);
    assert_true(fabs(value[WEATHER_RAD] - rad) < 1e-9);
    assert_true(fabs(value[WEATHER_ET0] - et0) < 1e-9);
    assert_true(value[WEATHER_RAIN] == 0);
    assert_true(isnan(value[WEATHER_WIND]) && isnan(value[WEATHER_RH]));
}

static void the_record_ends_yesterday(void **state)
{
    struct arena a;
    struct weather_days w = make(&a);
    struct weather_morning m;
    date_t today = date_make(2024, 5, 1);
    (void)state;
    weather_known(&w, &place, today, &m);
    assert_true(m.assumed);
    assumed_like_days(m.value, today, 28, 38, 0.28); /* mean of days 27, 28, 29 */
    assert_true(fabs(m.tmin_after - 28) < 1e-9);
    arena_release(&a);
}

static void a_replay_does_not_see_the_future(void **state)
{
    struct arena a;
    struct weather_days w = make(&a);
    struct weather_morning m, blind;
    date_t today = w.day0 + 10;
    (void)state;
    w.col[WEATHER_TMIN][10] = 3; /* this night's minimum has been read */
    weather_known(&w, &place, today, &m);
    assert_true(m.assumed);
    assumed_like_days(m.value, today, 3, 18, 0.08);
    assert_true(fabs(m.tmin_after - 8) < 1e-9);
    for (size_t i = 10; i < N; i++) {
        w.col[WEATHER_TMAX][i] = 50;
        w.col[WEATHER_RAD][i] = 0.1;
        w.col[WEATHER_RAIN][i] = 99;
        if (i > 10) {
            w.col[WEATHER_TMIN][i] = 40;
        }
    }
    weather_known(&w, &place, today, &blind);
    for (int v = 0; v < WEATHER_VARS; v++) {
        assert_true(m.value[v] == blind.value[v] || (isnan(m.value[v]) && isnan(blind.value[v])));
    }
    assert_true(m.tmin_after == blind.tmin_after);
    arena_release(&a);
}

static void a_warm_night_lifts_the_assumed_day(void **state)
{
    struct arena a;
    struct weather_days w = make(&a);
    struct weather_morning m;
    (void)state;
    w.col[WEATHER_TMIN][10] = 25;
    weather_known(&w, &place, w.day0 + 10, &m);
    assumed_like_days(m.value, w.day0 + 10, 25, 25, 0.08);
    arena_release(&a);
}

static void a_forecast_is_believed(void **state)
{
    struct arena a;
    struct weather_days w = make(&a);
    struct weather_morning m;
    (void)state;
    w.origin[28] = w.origin[29] = ORIGIN_FORECAST;
    weather_known(&w, &place, w.day0 + 28, &m);
    assert_false(m.assumed);
    assert_true(m.value[WEATHER_TMIN] == 28 && m.value[WEATHER_TMAX] == 38 && m.tmin_after == 29);
    assert_true(m.value[WEATHER_RAIN] == 5 && m.value[WEATHER_ET0] == 9 && m.value[WEATHER_WIND] == 4);
    weather_known(&w, &place, w.day0 + 29, &m); /* tomorrow is beyond it */
    assert_true(m.assumed);
    assert_true(m.value[WEATHER_TMIN] == 29);
    assert_true(fabs(m.tmin_after - 27) < 1e-9);
    arena_release(&a);
}

static void a_late_record_is_lengthened(void **state)
{
    struct arena a;
    struct err e;
    struct weather_days w = make(&a);
    (void)state;
    assert_int_equal(weather_assume(&w, &place, w.day0 + 29, &a, &e), ERR_OK);
    assert_int_equal(w.n, N);
    assert_int_equal(weather_assume(&w, &place, w.day0 + 33, &a, &e), ERR_OK);
    assert_int_equal(w.n, N + 4);
    assert_true(w.col[WEATHER_TMIN][5] == 5 && w.origin[29] == ORIGIN_RECORDED);
    for (size_t i = N; i < w.n; i++) {
        assert_int_equal(w.origin[i], ORIGIN_ASSUMED);
        assert_true(w.filled[i] >> WEATHER_TMAX & 1);
        assert_true(fabs(w.col[WEATHER_TMAX][i] - 38) < 1e-9 && w.col[WEATHER_RAIN][i] == 0);
        assert_true(fabs(w.col[WEATHER_RAD][i] - 0.28 * ra(w.day0 + (date_t)i)) < 1e-9);
    }
    arena_release(&a);
}

static void polar_night_has_no_light_to_hand_on(void **state)
{
    struct arena a;
    struct weather_days w = make(&a);
    struct weather_morning m;
    struct site pole = {.latitude = 80, .longitude = 0, .elevation_m = 0};
    (void)state;
    w.day0 = date_make(2023, 12, 1);
    weather_known(&w, &pole, w.day0 + 10, &m);
    assert_true(m.value[WEATHER_RAD] == 0 && m.value[WEATHER_ET0] >= 0);
    arena_release(&a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_record_ends_yesterday),          cmocka_unit_test(a_replay_does_not_see_the_future),
        cmocka_unit_test(a_warm_night_lifts_the_assumed_day), cmocka_unit_test(a_forecast_is_believed),
        cmocka_unit_test(a_late_record_is_lengthened),        cmocka_unit_test(polar_night_has_no_light_to_hand_on),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
