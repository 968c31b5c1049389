/* Vapour pressure and its kin, FAO-56 Eq. 7-19. kPa, C.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_HUMIDITY_H
#define SUGARLEA_HUMIDITY_H

double humidity_saturation(double t);                 /* Eq. 11, kPa */
double humidity_mean_saturation(double tmin, double tmax); /* Eq. 12 */
double humidity_slope(double t);                      /* Eq. 13, kPa/C */
double humidity_pressure(double elevation_m);         /* Eq. 7, kPa */
double humidity_psychrometric(double pressure);       /* Eq. 8, kPa/C */
double humidity_actual_wet(double t_dry, double t_wet, double pressure, double a_psy); /* Eq. 15 */
double humidity_actual_extremes(double tmin, double tmax, double rh_min, double rh_max); /* Eq. 17 */
double humidity_actual_mean(double tmin, double tmax, double rh_mean); /* Eq. 19 */
double humidity_dew_point(double actual);             /* Eq. 3-11 (Annex 3), C */

#endif
