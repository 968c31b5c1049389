/* The course of a day: published check values, continuity, sums.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/diurnal.h"
#include "support/physics_rows.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

static const struct diurnal_day model_day = {
    .tmin = 5, .tmax = 20, .tmax_before = 20, .tmin_after = 5, .day_length_h = 14, .rad = 20};

/* Form and constants of Goudriaan & van Laar 1994 (from memory), Tmax 20, Tmin 5, sunrise 5, sunset 19 h; values
 * computed by us from them. */
static void sine_exponential_check_values(void **state)
{
    (void)state;
    static const double at[][2] = {{0, 6.759},     {3, 5.458},   {5, 5.000},   {6, 7.756},   {9, 15.105}, {12, 19.427},
                                   {13.5, 20.000}, {15, 19.427}, {18, 15.105}, {19, 12.896}, {21, 9.512}, {23, 7.459}};
    for (size_t i = 0; i < sizeof at / sizeof at[0]; i++) {
        physics_near("temperature", diurnal_temperature(&model_day, at[i][0]), at[i][1], 0.0005);
    }
}

static void continuous_with_minimum_at_sunrise(void **state)
{
    (void)state;
    for (double n = 3; n <= 21; n += 0.5) {
        struct diurnal_day d = {
            .tmin = -2, .tmax = 11, .tmax_before = 8, .tmin_after = 1, .day_length_h = n, .rad = 12};
        double lowest = 99, highest = -99, last = diurnal_temperature(&d, 0);
        for (int i = 1; i <= 24 * 60; i++) {
            double t = diurnal_temperature(&d, i / 60.0);
            assert_true(fabs(t - last) < 0.14); /* steepest: (pi/(n+3)) 13 C/h = 6.8 C/h at 3 h */
            last = t;
            lowest = fmin(lowest, t);
            highest = fmax(highest, t);
        }
        physics_near("at sunrise", diurnal_temperature(&d, 12 - n / 2), -2, 1e-12);
        physics_near("lowest of the day", lowest, -2, 0.02);
        physics_near("highest of the day", highest, 11, 0.001);
    }
}

static void polar_days_reach_both_extremes(void **state)
{
    (void)state;
    static const double lengths[] = {0, 1, 24};
    for (int k = 0; k < 3; k++) {
        struct diurnal_day d = model_day;
        d.day_length_h = lengths[k];
        double lowest = 99, highest = -99;
        for (int i = 0; i <= 240; i++) {
            double t = diurnal_temperature(&d, i / 10.0);
            lowest = fmin(lowest, t);
            highest = fmax(highest, t);
        }
        physics_near("lowest", lowest, 5, 1e-9);
        physics_near("highest", highest, 20, 1e-9);
        physics_near("midnight", diurnal_temperature(&d, 24), diurnal_temperature(&d, 0), 1e-9);
    }
}

static void hours_below_a_threshold(void **state)
{
    (void)state;
    assert_true(diurnal_hours_below(&model_day, 5) == 0);
    assert_true(diurnal_hours_below(&model_day, 20.001) == 24);
    /* below 7.756 C until 6 h (sine) and again from 22.7 h (exponential, solved by hand), and before */
    double night_from =
        19 + 4 * log((12.896 - 5) / (7.756 - (5 - 12.896 * exp(-2.5)) / (1 - exp(-2.5))) / (1 - exp(-2.5)));
    physics_near("hours below 7.756 C", diurnal_hours_below(&model_day, 7.756), 6 + 24 - night_from, 0.17);
    double last = 0;
    for (double limit = 4; limit < 21; limit += 0.25) {
        double hours = diurnal_hours_below(&model_day, limit);
        assert_true(hours >= last);
        last = hours;
    }
}

static double par_sum(const double par[24])
{
    double sum = 0;
    for (int i = 0; i < 24; i++) {
        sum += par[i] * 3600 / 1e6;
    }
    return sum;
}

static void light_sums_to_half_the_radiation(void **state)
{
    (void)state;
    /* What sampling a half sine at mid-hours costs (computed by us), by day length from .. */
    static const struct {
        double from, to, bound;
    } range[] = {{6, 8, 0.018}, {8, 10, 0.0105}, {10, 16, 0.007}, {16, 24, 0.003}};
    for (size_t k = 0; k < sizeof range / sizeof range[0]; k++) {
        double temperature[24], par[24], worst = 0;
        for (double n = range[k].from; n <= range[k].to; n += 0.05) {
            struct diurnal_day d = model_day;
            d.day_length_h = n;
            diurnal_sward(&d, temperature, par);
            worst = fmax(worst, fabs(par_sum(par) / 10 - 1));
            for (int i = 0; i < 24; i++) {
                assert_true(par[i] >= 0);
                assert_true(fabs(i + 0.5 - 12) <= n / 2 || par[i] == 0);
            }
        }
        printf("# hourly PAR against 0.5 of the radiation, %g to %g h: worst %.2f %%\n", range[k].from, range[k].to,
               100 * worst);
        assert_true(worst < range[k].bound);
    }
}

/* The scheme of models/METHOD.md: 14 h day, by hand. */
static void sward_temperatures(void **state)
{
    (void)state;
    struct diurnal_day d = {.tmin = 5, .tmax = 20, .tmax_before = 16, .tmin_after = 7, .day_length_h = 14, .rad = 20};
    double temperature[24], par[24], evening = sin(acos(-1) * 14 / 17);
    diurnal_sward(&d, temperature, par);
    physics_near("13.5 h", temperature[13], 20, 1e-12);
    physics_near("5.5 h", temperature[5], 5 + 15 * sin(acos(-1) * 0.5 / 17), 1e-12);
    physics_near("0.5 h", temperature[0], 5 + (16 - 5) * evening * 4.5 / 10, 1e-12);
    double sunset = 5 + 15 * evening;
    physics_near("23.5 h", temperature[23], sunset + (7 - sunset) * 4.5 / 10, 1e-12);
    physics_near("noon light", par[11], 0.5 * 20e6 * (acos(-1) / 2) / (3600 * 14) * sin(acos(-1) * 6.5 / 14), 1e-9);
}

static void sward_polar_day_and_night(void **state)
{
    (void)state;
    struct diurnal_day d = model_day;
    double temperature[24], par[24];
    d.day_length_h = 24;
    diurnal_sward(&d, temperature, par);
    for (int i = 0; i < 24; i++) {
        physics_near("polar day", temperature[i], 5 + 15 * sin(acos(-1) * (i + 0.5) / 27), 1e-12);
        assert_true(par[i] > 0);
    }
    d.day_length_h = 0;
    diurnal_sward(&d, temperature, par);
    physics_near("no light", par_sum(par), 0, 0);
    physics_near("about noon", temperature[11], 20 - 15 * 0.5 / 12, 1e-12);
    physics_near("about noon", temperature[12], temperature[11], 1e-12);
    physics_near("about midnight", temperature[0], 5 + 15 * 0.5 / 12, 1e-12);
    physics_near("about midnight", temperature[23], temperature[0], 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sine_exponential_check_values),    cmocka_unit_test(continuous_with_minimum_at_sunrise),
        cmocka_unit_test(polar_days_reach_both_extremes),   cmocka_unit_test(hours_below_a_threshold),
        cmocka_unit_test(light_sums_to_half_the_radiation), cmocka_unit_test(sward_temperatures),
        cmocka_unit_test(sward_polar_day_and_night),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
