/* Soil temperature and soil water. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_SOIL_H
#define SUGARLEA_SOIL_H

/* FAO-56 water balance of the root zone, Eq. 82-88. mm. */
struct soil_water {
    double taw;       /* total available water: 1000 (FC - WP) Zr */
    double fraction;  /* p, of TAW that is readily available, at 5 mm/d */
    double depletion; /* Dr, 0..TAW */
};
double soil_fraction(double p_table, double etc); /* p adjusted for ETc, 0.1..0.8 */
double soil_stress(const struct soil_water *s);   /* Ks, Eq. 84, with p as it stands */
/* One day: Ks from the depletion at the start; returns the actual evapotranspiration. */
double soil_water_step(struct soil_water *s, double rain, double etc, double *deep_percolation);

/* FAO-56 Eq. 74 and 77: topsoil evaporation while drying. De, TEW, REW in mm. */
double soil_evaporation_factor(double depletion, double tew, double rew);

/* 10 cm soil temperature under grass, day by day, C. State and step are the
 * module's; see soil.c for the method chosen and its measured error. */
struct soil_heat {
    double temperature; /* C */
    double slow;        /* C, slow component */
};
struct soil_heat soil_heat_start(double first_day_mean);
double soil_heat_step(struct soil_heat *s, double tmin, double tmax, double rad, double snow_water_mm);

/* Snow (Rango & Martinec 1995; Kokkonen et al. 2006): water equivalent, mm. */
double soil_snow_step(double snow_mm, double tmean, double rain_mm, double *melt_and_rain_mm);

#endif
