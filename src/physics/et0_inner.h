/* The equations of a day, for one day (et0.c) and for many at once (et0_block.c).
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_ET0_INNER_H
#define SUGARLEA_ET0_INNER_H

#include "physics/et0.h"

#include <math.h>

#define ALBEDO 0.23        /* of the reference grass, Eq. 38 */
#define SIGMA_DAY 4.903e-9 /* Stefan-Boltzmann, MJ/K4/m2/d, p. 52 */
#define KELVIN 273.16      /* as printed, p. 52 */
#define MM_PER_MJ 0.408    /* Eq. 20 */
#define WIND_LEAST 0.5     /* m/s, p. 63 */
#define WIND_USUAL 2.0     /* m/s where nothing is known, p. 63 */
#define RATIO_LEAST 0.3    /* Rs/Rso under dense cloud, p. 75 */
#define RATIO_DARK 0.5     /* Rs/Rso without any sun, humid, p. 75 */

enum { ET0_BLOCK = 256 }; /* days worked together: what they need stays in the nearest cache */

struct et0_place {
    double gamma;       /* kPa/C */
    double clear_share; /* Rso/Ra */
};

struct et0_block {
    size_t n;
    double ra[ET0_BLOCK], rh[ET0_BLOCK], wind[ET0_BLOCK]; /* rh, wind: NaN where not known */
};

/* Columns of block->n days, tdew NULL or NaN where not known, as et0_days. */
void et0_block_run(const struct et0_block *block, const struct et0_place *place, const double *tmin, const double *tmax,
                   const double *rad, const double *tdew, double *restrict out);

/* One day of which nothing else is known: the same to the last bit. */
double et0_block_one(const struct et0_place *place, double tmin, double tmax, double rad, double ra);

static inline double et0_fourth_power(double t)
{
    double square = (t + KELVIN) * (t + KELVIN);
    return square * square;
}

/* Eq. 39's last two factors: how much of the black body's emission is lost. */
static inline double et0_emission_lost(double ea, double ratio)
{
    return (0.34 - 0.14 * sqrt(ea)) * (1.35 * ratio - 0.35);
}

/* Eq. 6 (per_k 900) and Eq. 53 (37). */
static inline void et0_combine(struct et0_terms *e, double t, double wind2, double per_k)
{
    double u = wind2 < WIND_LEAST ? WIND_LEAST : wind2;
    double share = 1 / (e->slope + e->gamma * (1 + 0.34 * u));
    e->rn = e->rns - e->rnl;
    e->radiation_term = MM_PER_MJ * e->slope * (e->rn - e->g) * share;
    e->wind_term = e->gamma * per_k / (t + 273) * u * (e->es - e->ea) * share;
    double sum = e->radiation_term + e->wind_term;
    e->et0 = sum < 0 ? 0 : sum;
}

/* Of a day whose slope, gamma, es, ea, ra and g stand in e. */
static inline void et0_day_terms(struct et0_terms *e, double tmin, double tmax, double rad, double wind2,
                                 double clear_share)
{
    e->rso = clear_share * e->ra;
    double ratio = rad / e->rso;
    ratio = ratio < RATIO_LEAST ? RATIO_LEAST : ratio;
    ratio = ratio > 1 ? 1 : ratio;
    ratio = e->rso > 0 ? ratio : RATIO_DARK;
    e->rns = (1 - ALBEDO) * rad;
    e->rnl = SIGMA_DAY * (et0_fourth_power(tmax) + et0_fourth_power(tmin)) / 2 * et0_emission_lost(e->ea, ratio);
    et0_combine(e, (tmin + tmax) / 2, wind2, 900);
}

#endif
