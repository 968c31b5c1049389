/* Worked examples 17 to 19 of FAO-56 (Allen, Pereira, Raes & Smith 1998): monthly,
 * daily and hourly Penman-Monteith, line by line.
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

#define NDIAYE (16 + 13 / 60.0) /* N'Diaye, Senegal, 16 deg 15 min W, 8 m; clock on 15 deg W */

static void example_17(void **state)
{
    (void)state;
    /* Bangkok 13 deg 44 min N, 2 m, April; G from the monthly means 30.2 and 29.2 C by Eq. 44 */
    double lat = 13 + 44 / 60.0, ra = sun_extraterrestrial(105, lat), n = sun_fao_day_length(105, lat);
    double rs = sun_from_sunshine(8.5, n, ra), g = 0.14 * (30.2 - 29.2);
    struct et0_terms e = et0_day(25.6, 34.8, rs, 2.85, 2, 2, ra, g);
    const struct physics_row rows[] = {
        {"Delta kPa/C", 0.246, 0.2458, 0.0005, e.slope},
        {"gamma kPa/C", 0.0674, 0.0673488, 0.0001, e.gamma},
        {"es kPa", 4.42, 4.4218, 0.005, e.es},
        {"Ra MJ/m2/d", 38.06, 38.0577, 0.005, ra},
        {"N h", 12.31, 12.3126, 0.005, n},
        {"Rs MJ/m2/d", 22.65, 22.651, 0.005, rs},
        {"Rso MJ/m2/d", 28.54, 28.5448, 0.005, e.rso},
        {"Rns MJ/m2/d", 17.44, 17.4413, 0.005, e.rns},
        {"Rnl MJ/m2/d", 3.11, 3.10861, 0.005, e.rnl},
        {"Rn MJ/m2/d", 14.33, 14.3327, 0.005, e.rn},
        {"G MJ/m2/d", 0.14, 0.14, 0.005, g},
        {"ETo radiation term mm/d", 3.97, 3.96531, 0.01, e.radiation_term},
        {"ETo wind term mm/d", 1.75, 1.75082, 0.01, e.wind_term},
        {"ETo mm/d", 5.72, 5.71612, 0.01, e.et0},
    };
    PHYSICS_CHECK("FAO-56 example 17, p. 70-71", rows);
}

static void example_18(void **state)
{
    (void)state;
    /* Uccle 50 deg 48 min N, 100 m, 6 July */
    double lat = 50 + 48 / 60.0, ra = sun_extraterrestrial(187, lat), n = sun_fao_day_length(187, lat);
    double rs = sun_from_sunshine(9.25, n, ra), ea = humidity_actual_extremes(12.3, 21.5, 63, 84);
    double u2 = et0_wind_at_2m(10 / 3.6, 10);
    struct et0_terms e = et0_day(12.3, 21.5, rs, ea, u2, 100, ra, 0);
    const struct physics_row rows[] = {
        {"u2 m/s", 2.078, 2.07764, 0.0005, u2},
        {"P kPa", 100.1, 100.124, 0.05, humidity_pressure(100)},
        {"Delta kPa/C", 0.122, 0.122113, 0.0005, e.slope},
        {"gamma kPa/C", 0.0666, 0.0665821, 5e-05, e.gamma},
        {"es kPa", 1.997, 1.99749, 0.0005, e.es},
        {"ea kPa", 1.409, 1.40862, 0.0005, ea},
        {"Ra MJ/m2/d", 41.09, 41.0884, 0.005, ra},
        {"N h", 16.1, 16.1046, 0.05, n},
        {"Rs MJ/m2/d", 22.07, 22.0721, 0.005, rs},
        {"Rso MJ/m2/d", 30.90, 30.8985, 0.005, e.rso},
        {"Rns MJ/m2/d", 17.00, 16.9955, 0.005, e.rns},
        {"Rnl MJ/m2/d", 3.71, 3.71229, 0.005, e.rnl},
        {"Rn MJ/m2/d", 13.28, 13.2832, 0.005, e.rn},
        {"ETo radiation term mm/d", 2.81, 2.80745, 0.01, e.radiation_term},
        {"ETo wind term mm/d", 1.07, 1.07281, 0.01, e.wind_term},
        {"ETo mm/d", 3.88, 3.88026, 0.01, e.et0},
    };
    PHYSICS_CHECK("FAO-56 example 18, p. 72-73", rows);
}

static void example_19_place(void **state)
{
    (void)state;
    struct sun_fao s = sun_fao(274, NDIAYE);
    const struct physics_row rows[] = {
        {"latitude rad", 0.2830, 0.283034, 5e-05, NDIAYE * NUM_RADIANS},
        {"dr", 1.0001, 1.00014, 5e-05, s.distance},
        {"declination rad", -0.0753, -0.0752743, 5e-05, s.declination},
        {"b (Eq. 33) rad", 3.3315, 3.33147, 5e-05, 2 * NUM_PI * (274 - 81) / 364},
        {"Sc h", 0.1889, 0.188942, 5e-05, sun_fao_correction(274)},
    };
    PHYSICS_CHECK("FAO-56 example 19, p. 75", rows);
}

static void example_19_night(void **state)
{
    (void)state;
    double w = sun_fao_hour_angle(2.5, 15, 16.25, sun_fao_correction(274));
    double ra = sun_extraterrestrial_between(274, NDIAYE, w - NUM_PI / 24, w + NUM_PI / 24);
    double ea = 0.90 * humidity_saturation(28);
    struct et0_terms e = et0_hour(28, ea, 0, 1.9, 8, 0.8, 0);
    assert_true(isnan(e.ra) && isnan(e.rso)); /* the caller has them */
    const struct physics_row rows[] = {
        {"Delta kPa/C", 0.220, 0.22008, 0.0005, e.slope},
        {"gamma kPa/C", 0.0673, 0.0673016, 5e-05, e.gamma},
        {"e0 kPa", 3.780, 3.77993, 0.0005, e.es},
        {"ea kPa", 3.402, 3.40194, 0.0005, ea},
        {"w rad", -2.46, -2.45945, 0.005, w},
        {"Ra MJ/m2/h", 0, 0, 0.5, ra},
        {"Rnl MJ/m2/h", 0.100, 0.100328, 0.0005, e.rnl},
        {"Rn MJ/m2/h", -0.100, -0.100328, 0.0005, e.rn},
        {"G MJ/m2/h", -0.050, -0.0501641, 0.0005, e.g},
        {"ETo mm/h", 0.00, 0.0043437, 0.005, e.et0},
    };
    PHYSICS_CHECK("FAO-56 example 19, p. 75-76, 02-03 h", rows);
}

static void example_19_day(void **state)
{
    (void)state;
    double w = sun_fao_hour_angle(14.5, 15, 16.25, sun_fao_correction(274));
    double from = w - NUM_PI / 24, to = w + NUM_PI / 24;
    double ra = sun_extraterrestrial_between(274, NDIAYE, from, to), rso = sun_clear_sky(ra, 8);
    double ea = 0.52 * humidity_saturation(38), rs = 2.450;
    struct et0_terms e = et0_hour(38, ea, rs, 3.3, 8, rs / rso, 1);
    const struct physics_row rows[] = {
        {"Delta kPa/C", 0.358, 0.358203, 0.0005, e.slope},
        {"gamma kPa/C", 0.0673, 0.0673016, 5e-05, e.gamma},
        {"e0 kPa", 6.625, 6.62476, 0.0005, e.es},
        {"ea kPa", 3.445, 3.44487, 0.0005, ea},
        {"w rad", 0.682, 0.682146, 0.0005, w},
        {"w1 rad", 0.5512, 0.551246, 5e-05, from},
        {"w2 rad", 0.8130, 0.813045, 5e-05, to},
        {"Ra MJ/m2/h", 3.543, 3.54342, 0.0005, ra},
        {"Rso MJ/m2/h", 2.658, 2.65813, 0.0005, rso},
        {"Rns MJ/m2/h", 1.887, 1.8865, 0.0005, e.rns},
        {"Rs/Rso", 0.922, 0.921701, 0.0005, rs / rso},
        {"Rnl MJ/m2/h", 0.137, 0.137282, 0.0005, e.rnl},
        {"Rn MJ/m2/h", 1.749, 1.74922, 0.0005, e.rn},
        {"G MJ/m2/h", 0.175, 0.174922, 0.0005, e.g},
        {"ETo radiation term mm/h", 0.46, 0.459223, 0.005, e.radiation_term},
        {"ETo wind term mm/h", 0.17, 0.167702, 0.005, e.wind_term},
        {"ETo mm/h", 0.63, 0.626925, 0.005, e.et0},
    };
    PHYSICS_CHECK("FAO-56 example 19, p. 75-76, 14-15 h", rows);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(example_17),       cmocka_unit_test(example_18),     cmocka_unit_test(example_19_place),
        cmocka_unit_test(example_19_night), cmocka_unit_test(example_19_day),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
