/* Root-zone water, snow, and soil temperature against the 10 cm soil temperature of
 * Dublin Airport (Met Eireann) in years the fit of 1983-2001 has not seen.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/soil.h"
#include "physics/sun.h"
#include "support/physics_record.h"
#include "support/physics_rows.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#define MISSING ((double)NAN)
#define WARM_UP 61 /* days before 2002-01-01 */
#define COLD 2.0   /* C of soil */

static struct physics_record dublin;

enum radiation { MEASURED, FROM_RANGE, NONE };

struct soil_scores {
    struct physics_error all, cold;
    struct physics_error blind; /* after 2020-10 */
    double lowest;
};

static double radiation(size_t i, enum radiation source)
{
    const struct weather_days *w = &dublin.weather;
    double ra = sun_extraterrestrial(date_day_of_year(w->day0 + (date_t)i), 53.428);
    double by_range = sun_from_range(w->col[WEATHER_TMIN][i], w->col[WEATHER_TMAX][i], ra, 71, 0.17);
    double measured = w->col[WEATHER_RAD][i];
    const double by_source[] = {
        [MEASURED] = isnan(measured) ? by_range : measured, [FROM_RANGE] = by_range, [NONE] = MISSING};
    return by_source[source];
}

static struct soil_scores score(enum radiation source)
{
    struct soil_scores s = {.lowest = 99};
    const struct weather_days *w = &dublin.weather;
    const double *measured = physics_record_column(&dublin, "soil");
    struct soil_heat heat = soil_heat_start(9);
    double snow = 0;
    for (size_t i = 0; i < w->n; i++) {
        double tmin = w->col[WEATHER_TMIN][i], tmax = w->col[WEATHER_TMAX][i];
        double t = soil_heat_step(&heat, tmin, tmax, radiation(i, source), snow);
        snow = soil_snow_step(snow, (tmin + tmax) / 2, w->col[WEATHER_RAIN][i], NULL);
        if (i >= WARM_UP) {
            bool late = w->day0 + (date_t)i > date_make(2020, 10, 31);
            physics_error_add(late ? &s.blind : &s.all, t, measured[i]);
            physics_error_add(&s.cold, t, !late && measured[i] < COLD ? measured[i] : MISSING);
            s.lowest = fmin(s.lowest, t);
        }
    }
    return s;
}

static void print(const char *what, const struct soil_scores *s)
{
    printf("# soil at 10 cm, Dublin 2002-2020, %s, %zu days: bias %.2f RMSE %.2f C; below %g C bias %.2f RMSE %.2f C, "
           "lowest "
           "%.1f C\n",
           what, s->all.n, physics_bias(&s->all), physics_rmse(&s->all), COLD, physics_bias(&s->cold),
           physics_rmse(&s->cold), s->lowest);
}

/* To beat: the plain lag of the mean air temperature, at its best 1.99 C in 2002-2020. */
static void soil_temperature(void **state)
{
    (void)state;
    struct soil_scores s = score(MEASURED);
    print("radiation measured", &s);
    assert_true(fabs(physics_bias(&s.all)) < 0.1 && physics_rmse(&s.all) < 1.0);
    assert_true(physics_rmse(&s.cold) < 1.1 && s.lowest > -3);
    printf("# the same, 2020-11 to 2025-09, blind, %zu days: bias %.2f RMSE %.2f C\n", s.blind.n,
           physics_bias(&s.blind), physics_rmse(&s.blind));
    assert_true(fabs(physics_bias(&s.blind)) < 0.25 && physics_rmse(&s.blind) < 1.15);
}

static void soil_temperature_without_radiation(void **state)
{
    (void)state;
    struct soil_scores s = score(FROM_RANGE);
    print("radiation from the temperature range", &s);
    assert_true(physics_rmse(&s.all) < 1.1);
    s = score(NONE);
    print("no radiation", &s);
    assert_true(physics_rmse(&s.all) < 1.35);
}

static void plain_lag_is_worse(void **state)
{
    (void)state;
    const struct weather_days *w = &dublin.weather;
    const double *measured = physics_record_column(&dublin, "soil");
    struct physics_error e = {0};
    double t = 9;
    for (size_t i = 0; i < w->n; i++) {
        t += 0.40 * ((w->col[WEATHER_TMIN][i] + w->col[WEATHER_TMAX][i]) / 2 - t);
        physics_error_add(&e, i >= WARM_UP ? t : MISSING, measured[i]);
    }
    printf("# soil at 10 cm, Dublin 2002-2025, plain lag 0.40: bias %.2f RMSE %.2f C\n", physics_bias(&e),
           physics_rmse(&e));
    assert_true(physics_rmse(&e) > 1.9);
}

static void soil_heat_behaves(void **state)
{
    (void)state;
    struct soil_heat s = soil_heat_start(4);
    assert_true(soil_heat_step(&s, MISSING, 10, 8, 0) == 4);
    assert_true(soil_heat_step(&s, 5, MISSING, 8, 0) == 4);
    for (int i = 0; i < 90; i++) {
        soil_heat_step(&s, 5, 15, 10, 0);
    }
    physics_near("steady state", s.temperature, 10 + 0.238 * 10 - 1.462, 0.01);
    double warm = s.temperature;
    soil_heat_step(&s, -20, -10, 10, 30);
    assert_true(warm - s.temperature < 3); /* shut off by snow */
    for (int i = 0; i < 400; i++) {
        soil_heat_step(&s, -20, -10, 10, 30);
    }
    physics_near("not below -1 C under snow", s.temperature, -1, 0.01);
}

static void water_is_conserved(void **state)
{
    (void)state;
    struct soil_water s = {.taw = 120, .fraction = 0.6, .depletion = 40};
    double balance = 0;
    for (int i = 0; i < 2000; i++) {
        double before = s.depletion, deep = -1;
        double rain = i % 7 == 0 ? 30 * fabs(sin(i)) : 0, etc = i > 1000 ? 8 : 2;
        double et = soil_water_step(&s, rain, etc, &deep);
        assert_true(et >= 0 && et <= etc && deep >= 0);
        assert_true(s.depletion >= 0 && s.depletion <= s.taw);
        balance = rain - et - deep + (s.depletion - before);
        physics_near("water", balance, 0, 1e-9);
    }
    struct soil_water dry = {.taw = 10, .fraction = 0.1, .depletion = 8};
    double et = soil_water_step(&dry, 0, 40, NULL); /* more than is left */
    physics_near("only what is there", et, 2, 1e-12);
    physics_near("dry", dry.depletion, 10, 0);
}

/* FAO-56 p. 162: p = 0.6 + 0.04 (5 - ETc), 0.1 to 0.8. Table 22 p. 165: grazing pasture 0.60. */
static void readily_available_fraction(void **state)
{
    (void)state;
    physics_near("at 5 mm/d", soil_fraction(0.60, 5), 0.60, 1e-12);
    physics_near("at 3 mm/d", soil_fraction(0.60, 3), 0.68, 1e-12);
    physics_near("upper limit", soil_fraction(0.60, -5), 0.8, 1e-12);
    physics_near("lower limit", soil_fraction(0.30, 15), 0.1, 1e-12);
    assert_true(soil_evaporation_factor(25, 20, 9) == 0);
}

/* Constants of Rango & Martinec 1995 and Kokkonen et al. 2006: half snow at 2 C, 3 mm/d and degree above -1 C. */
static void snow_comes_and_goes(void **state)
{
    (void)state;
    double ground = -1;
    double left = soil_snow_step(0, -10, 10, &ground);
    physics_near("cold: all snow", left, 10, 0.001);
    physics_near("nothing reaches the ground", ground, 0, 0.001);
    left = soil_snow_step(20, 2, 8, &ground);
    physics_near("half snow, 9 mm melt", left, 20 + 4 - 9, 1e-12);
    physics_near("rain and melt", ground, 4 + 9, 1e-12);
    physics_near("no more than there is", soil_snow_step(2, 10, 0, &ground), 0, 1e-12);
    physics_near("all of it melts", ground, 2, 1e-12);
    for (double t = -15; t < 15; t += 0.5) {
        left = soil_snow_step(7, t, 5, &ground);
        physics_near("water is conserved", left + ground, 12, 1e-9);
        assert_true(left >= 0 && ground >= 0);
    }
}

static int read_record(void **state)
{
    (void)state;
    physics_record_read("tests/science/data/dublin_grass_minimum.csv", &dublin);
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(soil_temperature),    cmocka_unit_test(soil_temperature_without_radiation),
        cmocka_unit_test(plain_lag_is_worse),  cmocka_unit_test(soil_heat_behaves),
        cmocka_unit_test(water_is_conserved),  cmocka_unit_test(readily_available_fraction),
        cmocka_unit_test(snow_comes_and_goes),
    };
    return cmocka_run_group_tests(tests, read_record, NULL);
}
