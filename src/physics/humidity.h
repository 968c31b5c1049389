/* Vapour pressure and its kin, FAO-56 Eq. 7-19 (Allen et al. 1998, pages 31-39).
 * Pressures in kPa, temperatures in C, humidity in %, elevation in m. Pure
 * formulas: NaN in gives NaN out.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_HUMIDITY_H
#define SUGARLEA_HUMIDITY_H

double humidity_saturation(double t);                      /* Eq. 11, kPa */
double humidity_mean_saturation(double tmin, double tmax); /* Eq. 12 */
double humidity_slope(double t);                           /* Eq. 13, kPa/C */
double humidity_pressure(double elevation_m);              /* Eq. 7, kPa */
double humidity_psychrometric(double pressure);            /* Eq. 8, kPa/C */

/* Eq. 15; a_psy 0.000662 aspirated, 0.000800 naturally ventilated, 0.001200 indoor. */
double humidity_actual_wet(double t_dry, double t_wet, double pressure, double a_psy);

double humidity_actual_extremes(double tmin, double tmax, double rh_min, double rh_max); /* Eq. 17 */
double humidity_actual_mean(double tmin, double tmax, double rh_mean);                   /* Eq. 19 */

double humidity_dew_point(double actual); /* Eq. 3-11 (Annex 3), C */

#endif
