/* Leaf area and what depends on it. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_CANOPY_H
#define SUGARLEA_CANOPY_H

#include "sward/sward.h"

double canopy_lai(const struct sward_kind *k, double leaf, double stem); /* masses g/m2 */

/* fA: the sink is as large as the leaves and tillers carried over the last weeks. */
double canopy_sink_area(const struct sward_kind *k, double slow_lai);

/* Gross supply of each solar hour at no sugar, g/m2/h above ground: the canopy
 * integral of a rectangular hyperbola (Thornley & Johnson 1990, from memory).
 * `pm` is pm20 fQ fWP fF, mg CO2/m2/s; `wet` is fWP fF, for alpha. */
void canopy_supply(const struct sward_kind *k, double lai, double pm, double wet, const struct sward_day *d,
                   double supply[24]);

/* Its pieces: g/m2/h of a mg CO2/m2/s; mg CO2 of a J of PAR times the extinction; what of
 * the light reaches the ground. */
double canopy_supply_scale(const struct sward_kind *k);
double canopy_light(const struct sward_kind *k, double wet);
double canopy_shade(const struct sward_kind *k, double lai);

/* y[i] = curve(x[i]) for 24 hours at once; x and y do not overlap. */
void canopy_curve(const struct curve *c, const double *restrict x, double *restrict y);

#endif
