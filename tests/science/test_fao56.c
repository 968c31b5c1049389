/* Worked examples 2 to 15 of FAO-56 (Allen, Pereira, Raes & Smith 1998), by number
 * and page: humidity, sun, radiation.
 * SPDX-License-Identifier: GPL-3.0-or-later */
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

/* sigma T^4 of a day, Annex 2.8; the constants of p. 52. */
static double emitted(double t)
{
    return 4.903e-9 * pow(t + 273.16, 4);
}

static void example_2(void **state)
{
    (void)state;
    double p = humidity_pressure(1800);
    const struct physics_row rows[] = {
        {"P kPa", 81.8, 81.7558, 0.05, p},
        {"gamma kPa/C", 0.054, 0.0543676, 0.0005, humidity_psychrometric(p)},
    };
    PHYSICS_CHECK("FAO-56 example 2, p. 32", rows);
}

static void example_3(void **state)
{
    (void)state;
    const struct physics_row rows[] = {
        {"e0(Tmax) kPa", 3.075, 3.07465, 0.0005, humidity_saturation(24.5)},
        {"e0(Tmin) kPa", 1.705, 1.70535, 0.0005, humidity_saturation(15)},
        {"es kPa", 2.39, 2.39, 0.005, humidity_mean_saturation(15, 24.5)},
        {"e0(Tmean 19.75) kPa", 2.30, 2.30234, 0.005, humidity_saturation(19.75)},
    };
    PHYSICS_CHECK("FAO-56 example 3, p. 36", rows);
}

static void example_4(void **state)
{
    (void)state;
    double p = humidity_pressure(1200);
    const struct physics_row rows[] = {
        {"P kPa", 87.9, 87.8966, 0.05, p},
        {"e0(Twet) kPa", 2.267, 2.26688, 0.0005, humidity_saturation(19.5)},
        {"ea kPa", 1.91, 1.91194, 0.005, humidity_actual_wet(25.6, 19.5, p, 0.000662)},
    };
    PHYSICS_CHECK("FAO-56 example 4, p. 38", rows);
}

static void example_5(void **state)
{
    (void)state;
    const struct physics_row rows[] = {
        {"e0(Tmin) kPa", 2.064, 2.06399, 0.0005, humidity_saturation(18)},
        {"e0(Tmax) kPa", 3.168, 3.16778, 0.0005, humidity_saturation(25)},
        {"ea (Eq. 17) kPa", 1.70, 1.70154, 0.005, humidity_actual_extremes(18, 25, 54, 82)},
        {"ea (Eq. 19) kPa", 1.78, 1.7788, 0.005, humidity_actual_mean(18, 25, 68)},
    };
    PHYSICS_CHECK("FAO-56 example 5, p. 39", rows);
}

static void example_6(void **state)
{
    (void)state;
    const struct physics_row rows[] = {
        {"es-ea kPa", 0.91, 0.914348, 0.005,
         humidity_mean_saturation(18, 25) - humidity_actual_extremes(18, 25, 54, 82)},
    };
    PHYSICS_CHECK("FAO-56 example 6, p. 39", rows);
}

static void example_7(void **state)
{
    (void)state;
    const struct physics_row rows[] = {
        {"latitude rad", 0.240, 0.239692, 0.0005, (13 + 44 / 60.0) * NUM_RADIANS},
        {"latitude rad", -0.400, -0.39968, 0.0005, -(22 + 54 / 60.0) * NUM_RADIANS},
    };
    PHYSICS_CHECK("FAO-56 example 7, p. 46", rows);
}

static void example_8(void **state)
{
    (void)state;
    struct sun_fao s = sun_fao(246, -20);
    double ra = sun_extraterrestrial(246, -20);
    const struct physics_row rows[] = {
        {"dr", 0.985, 0.984829, 0.0005, s.distance},        {"declination rad", 0.120, 0.119655, 0.0005, s.declination},
        {"ws rad", 1.527, 1.52702, 0.0005, s.sunset_angle}, {"Ra MJ/m2/d", 32.2, 32.194, 0.05, ra},
        {"Ra mm/d", 13.1, 13.1352, 0.05, 0.408 * ra},
    };
    PHYSICS_CHECK("FAO-56 example 8, p. 47", rows);
}

static void example_9(void **state)
{
    (void)state;
    const struct physics_row rows[] = {
        {"N h", 11.7, 11.6656, 0.05, sun_fao_day_length(246, -20)},
    };
    PHYSICS_CHECK("FAO-56 example 9, p. 49", rows);
}

static void example_11(void **state)
{
    (void)state;
    /* Example 11 gives Rso 18.8; et0_day makes it of Ra, so Ra = 18.8 / 0.75 at sea level. */
    struct et0_terms e = et0_day(19.1, 25.1, 14.5, 2.1, 2, 0, 18.8 / 0.75, 0);
    const struct physics_row rows[] = {
        {"sigma Tmax^4 MJ/m2/d", 38.8, 38.8009, 0.05, emitted(25.1)},
        {"sigma Tmin^4 MJ/m2/d", 35.8, 35.7717, 0.05, emitted(19.1)},
        {"Rnl MJ/m2/d", 3.5, 3.53403, 0.05, e.rnl},
    };
    PHYSICS_CHECK("FAO-56 example 11, p. 52", rows);
}

static void example_12(void **state)
{
    (void)state;
    struct et0_terms e = et0_day(19.1, 25.1, 14.5, 2.1, 2, 0, 18.8 / 0.75, 0);
    const struct physics_row rows[] = {
        {"Rns MJ/m2/d", 11.1, 11.165, 0.1, e.rns},
        {"Rn MJ/m2/d", 7.6, 7.63097, 0.1, e.rn},
        {"Rn mm/d", 3.1, 3.11343, 0.1, 0.408 * e.rn},
    };
    PHYSICS_CHECK("FAO-56 example 12, p. 53", rows);
}

static void example_13(void **state)
{
    (void)state;
    /* Eq. 43 is the test's: the program has no monthly steps. et0_day must carry G as it is. */
    double g = et0_day(10, 20, 15, 1, 2, 0, 30, 0.07 * (18.8 - 14.1)).g;
    const struct physics_row rows[] = {
        {"G MJ/m2/d", 0.33, 0.329, 0.005, g},
        {"G mm/d", 0.13, 0.134232, 0.005, 0.408 * g},
    };
    PHYSICS_CHECK("FAO-56 example 13, p. 55", rows);
}

static void example_14(void **state)
{
    (void)state;
    const struct physics_row rows[] = {
        {"wind factor", 0.75, 0.747951, 0.005, et0_wind_at_2m(1, 10)},
        {"u2 m/s", 2.4, 2.39344, 0.05, et0_wind_at_2m(3.2, 10)},
    };
    PHYSICS_CHECK("FAO-56 example 14, p. 56", rows);
}

static void example_15(void **state)
{
    (void)state;
    double ra = sun_extraterrestrial(196, 45 + 43 / 60.0);
    double rs = sun_from_range(14.8, 26.6, ra, 200, 0.16);
    const struct physics_row rows[] = {
        {"Ra MJ/m2/d", 40.6, 40.5548, 0.05, ra},
        {"Rs MJ/m2/d", 22.3, 22.2896, 0.05, rs},
        {"Rs mm/d", 9.1, 9.09417, 0.05, 0.408 * rs},
    };
    PHYSICS_CHECK("FAO-56 example 15, p. 61", rows);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(example_2),  cmocka_unit_test(example_3),  cmocka_unit_test(example_4),
        cmocka_unit_test(example_5),  cmocka_unit_test(example_6),  cmocka_unit_test(example_7),
        cmocka_unit_test(example_8),  cmocka_unit_test(example_9),  cmocka_unit_test(example_11),
        cmocka_unit_test(example_12), cmocka_unit_test(example_13), cmocka_unit_test(example_14),
        cmocka_unit_test(example_15),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
