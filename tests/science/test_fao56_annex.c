/* Annex 2 tables of FAO-56 (Allen, Pereira, Raes & Smith 1998) and what must hold of
 * Ra and N at every latitude. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/num.h"
#include "physics/et0.h"
#include "physics/humidity.h"
#include "physics/sun.h"
#include "support/physics_rows.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

struct pair {
    double x, y;
};

/* half_unit: of the last printed digit. */
static void check_table(const char *what, double (*f)(double), const struct pair *table, size_t n, double half_unit)
{
    for (size_t i = 0; i < n; i++) {
        physics_near(what, f(table[i].x), table[i].y, half_unit);
    }
}
#define CHECK_TABLE(what, f, table, half_unit)                                                                         \
    check_table(what, f, table, sizeof(table) / sizeof((table)[0]), half_unit)

static void annex_2_1_pressure(void **state)
{
    (void)state;
    static const struct pair table[] = {{0, 101.3},   {100, 100.1}, {200, 99.0},  {500, 95.5},
                                        {1000, 90.0}, {1500, 84.8}, {2000, 79.8}, {3000, 70.5}};
    CHECK_TABLE("Annex 2.1", humidity_pressure, table, 0.05);
}

static void annex_2_3_saturation(void **state)
{
    (void)state;
    static const struct pair table[] = {{1, 0.657},  {5, 0.872},  {10, 1.228}, {15, 1.705}, {20, 2.338},
                                        {25, 3.168}, {30, 4.243}, {35, 5.623}, {40, 7.376}};
    CHECK_TABLE("Annex 2.3", humidity_saturation, table, 0.0005);
}

static void annex_2_4_slope(void **state)
{
    (void)state;
    static const struct pair table[] = {{5, 0.061}, {10, 0.082}, {15, 0.110}, {20, 0.145}, {25, 0.189}, {30, 0.243}};
    CHECK_TABLE("Annex 2.4", humidity_slope, table, 0.0005);
}

/* sigma T^4 as et0_day has it: with ea = 0 and Rs = Rso, Rnl = 0.34 sigma T^4. */
static double emitted(double t)
{
    return et0_day(t, t, 0.75 * 30, 0, 2, 0, 30, 0).rnl / 0.34;
}

static void annex_2_8_emission(void **state)
{
    (void)state;
    static const struct pair table[] = {{1, 27.70}, {17, 34.75}, {33, 43.08}};
    CHECK_TABLE("Annex 2.8", emitted, table, 0.005);
}

static double wind_factor(double height)
{
    return et0_wind_at_2m(1, height);
}

static void annex_2_9_wind(void **state)
{
    (void)state;
    static const struct pair table[] = {{1, 1.178}, {2, 1.000}, {3, 0.921}, {5, 0.838}, {10, 0.748}};
    CHECK_TABLE("Annex 2.9", wind_factor, table, 0.0005);
}

static void dew_point_inverts_saturation(void **state)
{
    (void)state;
    /* Eq. 3-11 is Eq. 11 solved for T with its constants rounded: 0.02 C between 0 and 40 C (computed by us) */
    for (double t = 0; t <= 40; t += 2.5) {
        physics_near("Eq. 3-11", humidity_dew_point(humidity_saturation(t)), t, 0.02);
    }
}

/* Computed by us with Eq. 21 and 34 for the 15th of each month: a regression anchor, no authority beyond the
 * formula. */
static const int mid_month[12] = {15, 46, 74, 105, 135, 166, 196, 227, 258, 288, 319, 349};
static const struct {
    double latitude, ra[12], n[12];
} by_latitude[] = {
    {60,
     {3.25, 8.34, 16.57, 27.55, 36.66, 41.22, 39.14, 31.25, 20.52, 10.82, 4.37, 2.16},
     {6.37, 8.81, 11.37, 14.25, 16.83, 18.44, 17.72, 15.33, 12.49, 9.71, 7.06, 5.56}},
    {55,
     {5.96, 11.40, 19.48, 29.63, 37.63, 41.46, 39.70, 32.87, 23.15, 13.86, 7.20, 4.68},
     {7.51, 9.39, 11.48, 13.84, 15.89, 17.06, 16.55, 14.71, 12.40, 10.12, 8.03, 6.93}},
    {50,
     {8.89, 14.45, 22.24, 31.52, 38.50, 41.71, 40.21, 34.34, 25.61, 16.83, 10.17, 7.51},
     {8.33, 9.84, 11.57, 13.53, 15.20, 16.12, 15.73, 14.25, 12.34, 10.44, 8.73, 7.88}},
    {45,
     {11.93, 17.46, 24.84, 33.21, 39.21, 41.86, 40.60, 35.61, 27.87, 19.71, 13.21, 10.50},
     {8.96, 10.19, 11.64, 13.28, 14.66, 15.40, 15.09, 13.88, 12.28, 10.69, 9.28, 8.59}},
    {40,
     {15.01, 20.37, 27.25, 34.67, 39.71, 41.84, 40.80, 36.65, 29.92, 22.47, 16.25, 13.58},
     {9.47, 10.49, 11.70, 13.08, 14.22, 14.83, 14.57, 13.57, 12.24, 10.90, 9.74, 9.17}},
    {35,
     {18.08, 23.18, 29.45, 35.89, 39.99, 41.61, 40.78, 37.45, 31.74, 25.07, 19.25, 16.67},
     {9.90, 10.74, 11.75, 12.90, 13.84, 14.34, 14.13, 13.31, 12.20, 11.08, 10.12, 9.66}},
    {-40,
     {43.35, 38.10, 30.88, 22.24, 15.76, 12.76, 13.92, 19.11, 27.14, 35.34, 41.78, 44.59},
     {14.53, 13.51, 12.30, 10.92, 9.78, 9.17, 9.43, 10.43, 11.76, 13.10, 14.26, 14.83}},
};

static void radiation_and_day_length_by_latitude(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof by_latitude / sizeof by_latitude[0]; i++) {
        for (int m = 0; m < 12; m++) {
            double lat = by_latitude[i].latitude;
            physics_near("Ra", sun_extraterrestrial(mid_month[m], lat), by_latitude[i].ra[m], 0.005);
            physics_near("N", sun_fao_day_length(mid_month[m], lat), by_latitude[i].n[m], 0.005);
        }
    }
}

static void north_and_south_share_the_day(void **state)
{
    (void)state;
    for (int day = 1; day <= 366; day++) {
        for (double lat = 0; lat <= 90; lat += 7.5) {
            physics_near("N(lat) + N(-lat)", sun_fao_day_length(day, lat) + sun_fao_day_length(day, -lat), 24, 1e-9);
        }
        physics_near("N at the equator", sun_fao_day_length(day, 0), 12, 1e-12);
        assert_true(sun_extraterrestrial(day, 0) > 30); /* never dark, never far from its mean of 36 */
    }
}

static void polar_days_are_clamped(void **state)
{
    (void)state;
    assert_true(sun_fao_day_length(172, 70) == 24);
    physics_near("N in polar night", sun_fao_day_length(355, 70), 0, 0);
    assert_true(sun_extraterrestrial(355, 70) == 0);
    assert_true(sun_extraterrestrial(172, 70) > 40);
    for (int day = 1; day <= 366; day++) {
        assert_true(sun_extraterrestrial(day, 90) >= 0);
        assert_true(sun_extraterrestrial(day, -90) >= 0);
    }
    assert_true(isnan(sun_extraterrestrial(100, (double)NAN)));
}

static void hours_sum_to_the_day(void **state)
{
    (void)state;
    for (int day = 1; day <= 366; day += 5) {
        double sum = 0;
        for (int h = -12; h < 12; h++) {
            sum += sun_extraterrestrial_between(day, 57, h * NUM_PI / 12, (h + 1) * NUM_PI / 12);
        }
        physics_near("Eq. 28 over the day is Eq. 21", sum, sun_extraterrestrial(day, 57), 1e-9);
    }
}

static void range_gives_the_ratios(void **state)
{
    (void)state;
    /* Rs/Ra at ranges of 4, 8, 12, 16 C: Eq. 50, computed by us; capped by Eq. 37 at 0.75 */
    static const double inland[] = {0.320, 0.453, 0.554, 0.640}, coast[] = {0.380, 0.537, 0.658, 0.750};
    for (int i = 0; i < 4; i++) {
        physics_near("inland", sun_from_range(0, 4 * (i + 1), 1, 0, 0.16), inland[i], 0.0005);
        physics_near("coast", sun_from_range(0, 4 * (i + 1), 1, 0, 0.19), coast[i], 0.0005);
    }
    assert_true(sun_from_range(5, 4, 30, 0, 0.17) == 0);
    assert_true(isnan(sun_from_range((double)NAN, 4, 30, 0, 0.17)));
    physics_near("overcast", sun_from_sunshine(0, 12, 30), 7.5, 1e-12);
    physics_near("clear", sun_from_sunshine(13, 12, 30), 22.5, 1e-12);
    physics_near("polar night", sun_from_sunshine(0, 0, 0), 0, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(annex_2_1_pressure),
        cmocka_unit_test(annex_2_3_saturation),
        cmocka_unit_test(annex_2_4_slope),
        cmocka_unit_test(annex_2_8_emission),
        cmocka_unit_test(annex_2_9_wind),
        cmocka_unit_test(dew_point_inverts_saturation),
        cmocka_unit_test(radiation_and_day_length_by_latitude),
        cmocka_unit_test(north_and_south_share_the_day),
        cmocka_unit_test(polar_days_are_clamped),
        cmocka_unit_test(hours_sum_to_the_day),
        cmocka_unit_test(range_gives_the_ratios),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
