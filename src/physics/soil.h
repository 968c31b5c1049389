/* Soil water, snow and soil temperature. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_SOIL_H
#define SUGARLEA_SOIL_H

/* FAO-56 water balance of the root zone, Eq. 82-88 (Allen, Pereira, Raes & Smith
 * 1998, pages 162-171). mm. */
struct soil_water {
    double taw;       /* total available water: 1000 (FC - WP) Zr; above 0 */
    double fraction;  /* p, of TAW that is readily available; below 1 */
    double depletion; /* Dr, 0..TAW */
};
double soil_fraction(double p_table, double etc); /* p of Table 22 adjusted for ETc (mm/d), 0.1..0.8 */
double soil_stress(const struct soil_water *s);   /* Ks, Eq. 84, with p as it stands */

/* One day: Ks from the depletion at the start (as example 37 has it); returns the
 * actual evapotranspiration. Water is conserved: rain = evapotranspiration + deep
 * percolation - change of depletion. deep_percolation may be NULL. */
double soil_water_step(struct soil_water *s, double rain, double etc, double *deep_percolation);

/* FAO-56 Eq. 74: topsoil evaporation while drying, Kr. De, TEW, REW in mm, TEW > REW. */
double soil_evaporation_factor(double depletion, double tew, double rew);

/* Snow water of one day (Rango & Martinec 1995; Kokkonen et al. 2006): rain share
 * 1/(1+exp(-1.5 (T-2))); melt 3 mm/d for each degree above -1 C; below, rain freezes
 * on at 0.05 mm/d and degree. Returns the new water equivalent, mm; what reaches the
 * ground (may be NULL) plus its change is the day's precipitation. */
double soil_snow_step(double snow_mm, double tmean, double rain_mm, double *melt_and_rain_mm);

/* 10 cm soil temperature under grass, mean of the day, C. Two first-order lags (topsoil
 * and what lies below it) follow what the surface tends to: air mean + radiation gain -
 * loss to the sky. Fitted and scored at Dublin Airport, see soil_heat.c: RMSE 0.94 C with
 * radiation, 1.27 C without. */
struct soil_heat {
    double temperature; /* C, of the last day given */
    double fast, slow;  /* C, the two lags */
};

/* A start from the mean temperature of the days before; forgotten within 30 days. */
struct soil_heat soil_heat_start(double mean);

/* One day; returns and keeps the temperature. rad MJ/m2/d, NaN: the temperature range
 * stands in for it. A day without tmin or tmax (NaN) leaves the state as it is. snow in
 * mm of water: above 5 mm the soil is shut off (slow, no sun, not below -1 C). */
double soil_heat_step(struct soil_heat *s, double tmin, double tmax, double rad, double snow_water_mm);

#endif
