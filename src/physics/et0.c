/* Reference evapotranspiration: FAO-56 (Allen, Pereira, Raes & Smith 1998), pages
 * 51-76. SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/et0.h"

#include "physics/et0_inner.h"
#include "physics/humidity.h"
#include "physics/sun.h"

#include <assert.h>

#define SIGMA_HOUR 2.043e-10 /* Stefan-Boltzmann, MJ/K4/m2/h, p. 74 */

struct et0_terms et0_day(double tmin, double tmax, double rad, double ea, double wind2, double elevation_m, double ra,
                         double g)
{
    struct et0_terms e = {.slope = humidity_slope((tmin + tmax) / 2),
                          .gamma = humidity_psychrometric(humidity_pressure(elevation_m)),
                          .es = humidity_mean_saturation(tmin, tmax),
                          .ea = ea,
                          .ra = ra,
                          .g = g};
    et0_day_terms(&e, tmin, tmax, rad, wind2, sun_clear_sky(1, elevation_m));
    return e;
}

struct et0_terms et0_hour(double t, double ea, double rad, double wind2, double elevation_m, double rso_ratio,
                          int daylight)
{
    struct et0_terms e = {.slope = humidity_slope(t),
                          .gamma = humidity_psychrometric(humidity_pressure(elevation_m)),
                          .es = humidity_saturation(t),
                          .ea = ea,
                          .ra = NAN,
                          .rso = NAN,
                          .rns = (1 - ALBEDO) * rad};
    e.rnl = SIGMA_HOUR * et0_fourth_power(t) * et0_emission_lost(ea, rso_ratio);
    e.g = (daylight ? 0.1 : 0.5) * (e.rns - e.rnl);
    et0_combine(&e, t, wind2, 37);
    return e;
}

static double cell(const double *column, size_t i)
{
    return column ? column[i] : (double)NAN;
}

static struct et0_place place_of(double elevation_m)
{
    double height = isnan(elevation_m) ? 0 : elevation_m;
    return (struct et0_place){.gamma = humidity_psychrometric(humidity_pressure(height)),
                              .clear_share = sun_clear_sky(1, height)};
}

double et0_bare_day(double tmin, double tmax, double rad, double ra, double elevation_m)
{
    const struct et0_place place = place_of(elevation_m);
    return et0_block_one(&place, tmin, tmax, rad, ra);
}

void et0_days(const struct et0_columns *in, size_t n, int day0, double latitude, double elevation_m, double *out)
{
    assert(in->tmin != NULL && in->tmax != NULL && in->rad != NULL);
    const struct et0_place place = place_of(elevation_m);
    struct et0_block block;
    struct sun_year year;
    if (!in->ra) {
        sun_year_begin(&year, day0, latitude);
    }
    for (size_t from = 0; from < n; from += ET0_BLOCK) {
        block.n = n - from < ET0_BLOCK ? n - from : ET0_BLOCK;
        for (size_t i = 0; i < block.n; i++) {
            block.ra[i] = in->ra ? in->ra[from + i] : sun_year_next(&year).ra;
            block.rh[i] = cell(in->rh, from + i);
            block.wind[i] = cell(in->wind, from + i);
        }
        et0_block_run(&block, &place, in->tmin + from, in->tmax + from, in->rad + from,
                      in->tdew ? in->tdew + from : NULL, out + from);
    }
}

double et0_wind_at_2m(double wind, double height_m)
{
    assert(67.8 * height_m > 5.42 + 1);
    return wind * 4.87 / log(67.8 * height_m - 5.42);
}
