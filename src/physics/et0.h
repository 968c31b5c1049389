/* Reference evapotranspiration, FAO-56 Penman-Monteith (Allen, Pereira, Raes &
 * Smith 1998; Eq. 6, hourly Eq. 53). SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_ET0_H
#define SUGARLEA_ET0_H

#include <stddef.h>

struct et0_terms {                         /* each step, so that the published examples can be checked line by line */
    double slope, gamma;                   /* kPa/C */
    double es, ea;                         /* kPa */
    double ra, rso, rns, rnl, rn, g;       /* MJ/m2 per day or hour */
    double radiation_term, wind_term, et0; /* mm per day or hour */
};

/* One day. rad MJ/m2/d; ea kPa; wind at 2 m, m/s (under 0.5 counts as 0.5, p. 63); g
 * the soil heat flux, MJ/m2/d (0 for single days); ra MJ/m2/d. et0 >= 0, mm/d.
 * Rs/Rso of Eq. 39 is held in 0.3 .. 1.0 (p. 52; 0.3 dense cloud, p. 75) and taken
 * as 0.5 (p. 75, humid) where there is no sun at all. NaN in gives NaN out. */
struct et0_terms et0_day(double tmin, double tmax, double rad, double ea, double wind2, double elevation_m, double ra,
                         double g);

/* One hour of Eq. 53 (t mean C, ea kPa, rad MJ/m2/h, rso_ratio Rs/Rso, daylight: sun
 * above the horizon, which decides G, Eq. 45-46). mm/h, >= 0. ra and rso of the
 * result are NaN: the caller has them. */
struct et0_terms et0_hour(double t, double ea, double rad, double wind2, double elevation_m, double rso_ratio,
                          int daylight);

/* Columns of n days at one place, with FAO-56's fall-backs where an input column is
 * NULL or a cell NaN: ea from tdew (Eq. 14), else rh (Eq. 19), else Tdew = Tmin
 * (Eq. 48); wind 2 m/s (p. 63); elevation NaN: sea level. tmin, tmax and rad must be
 * there; a NaN in them gives NaN. ea is held at saturation. ra, the sun above the air, is
 * worked out from day0 (days since 1970-01-01) and the latitude where it is NULL. Writes
 * out[n], mm/d. */
struct et0_columns {
    const double *tmin, *tmax, *rad, *rh, *wind, *tdew, *ra;
};
void et0_days(const struct et0_columns *in, size_t n, int day0, double latitude, double elevation_m, double *out);

/* As et0_days of one day that has no other columns. */
double et0_bare_day(double tmin, double tmax, double rad, double ra, double elevation_m);

/* Eq. 47: wind at height z (m) to 2 m. */
double et0_wind_at_2m(double wind, double height_m);

#endif
