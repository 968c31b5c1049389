/* ET0 against the weather services' own reference values. They are not the same
 * quantity: De Bilt's is Makkink (radiation and temperature only), Dublin's the
 * service's potential evapotranspiration, and the Dublin extract has no humidity, so
 * Tdew = Tmin stands in. The bias is stated, and bounded so that a change is noticed.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/et0.h"
#include "support/physics_record.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

static struct physics_record record;
static double out[PHYSICS_RECORD_DAYS];

struct agreement {
    struct physics_error daily;
    double ours, theirs; /* mm a year */
    double correlation;
};

static struct agreement compare(const char *path, const char *column, double latitude, double elevation_m, int humidity)
{
    physics_record_read(path, &record);
    const struct weather_days *w = &record.weather;
    struct et0_columns in = {.tmin = w->col[WEATHER_TMIN],
                             .tmax = w->col[WEATHER_TMAX],
                             .rad = w->col[WEATHER_RAD],
                             .rh = humidity ? w->col[WEATHER_RH] : NULL,
                             .wind = w->col[WEATHER_WIND]};
    et0_days(&in, w->n, w->day0, latitude, elevation_m, out);
    struct agreement a = {.ours = 0};
    const double *theirs = physics_record_column(&record, column);
    double xx = 0, yy = 0, xy = 0;
    for (size_t i = 0; i < w->n; i++) {
        physics_error_add(&a.daily, out[i], theirs[i]);
        if (!isnan(out[i] + theirs[i])) {
            a.ours += out[i], a.theirs += theirs[i];
            xx += out[i] * out[i], yy += theirs[i] * theirs[i], xy += out[i] * theirs[i];
        }
    }
    double n = (double)a.daily.n;
    a.correlation = (xy - a.ours * a.theirs / n) / sqrt((xx - a.ours * a.ours / n) * (yy - a.theirs * a.theirs / n));
    a.ours *= 365.25 / n, a.theirs *= 365.25 / n;
    return a;
}

static void print(const char *what, const struct agreement *a)
{
    printf("# ET0, %s, %zu days: bias %.2f RMSE %.2f mm/d, correlation %.3f; a year ours %.0f, theirs %.0f mm\n", what,
           a->daily.n, physics_bias(&a->daily), physics_rmse(&a->daily), a->correlation, a->ours, a->theirs);
}

static void dublin_potential(void **state)
{
    (void)state;
    struct agreement a = compare("tests/science/data/dublin_grass_minimum.csv", "pe", 53.428, 71, 0);
    print("Dublin 2001-2025, Tdew = Tmin, against the service's", &a);
    /* Known bias: at a windy, humid place the dew point stands above Tmin (by 1.3 C in the mean at De Bilt), so
     * Eq. 48 gives a fifth too much. A constant humidity of 82 % would bring the bias to 0.07 mm/d. */
    assert_true(physics_bias(&a.daily) > 0.25 && physics_bias(&a.daily) < 0.40);
    assert_true(physics_rmse(&a.daily) < 0.55 && a.correlation > 0.93);
}

static void de_bilt_makkink(void **state)
{
    (void)state;
    struct agreement a = compare("tests/science/data/de_bilt_grass_minimum.csv", "ev24", 52.100, 2, 1);
    print("De Bilt 2009-2019, measured humidity, against Makkink", &a);
    assert_true(fabs(physics_bias(&a.daily)) < 0.25 && physics_rmse(&a.daily) < 0.5 && a.correlation > 0.95);
    struct agreement bare = compare("tests/science/data/de_bilt_grass_minimum.csv", "ev24", 52.100, 2, 0);
    print("De Bilt 2009-2019, Tdew = Tmin, against Makkink", &bare);
    assert_true(physics_bias(&bare.daily) - physics_bias(&a.daily) > 0.1); /* what Eq. 48 costs there */
    assert_true(bare.correlation > 0.96);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(dublin_potential),
        cmocka_unit_test(de_bilt_makkink),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
