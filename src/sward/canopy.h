/* Leaf area and what depends on it. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_CANOPY_H
#define SUGARLEA_CANOPY_H

#include "sward/sward.h"

#include <assert.h>
#include <math.h>

/* g CH2O per mg CO2/s over an hour: 3600 s, 1e-3 g/mg, 30/44 of CO2 is kept as CH2O */
#define CANOPY_SUGAR_OF_CO2 (3.6 * 30.0 / 44.0)

static inline double canopy_lai(const struct sward_kind *k, double leaf, double stem) /* masses g/m2 */
{
    assert(leaf >= 0.0 && stem >= 0.0);
    return k->leaf_area * (leaf + k->stem_area_share * stem);
}

/* fA: the sink is as large as the leaves and tillers carried over the last weeks. */
static inline double canopy_sink_area(const struct sward_kind *k, double slow_lai)
{
    assert(slow_lai >= 0.0);
    return (1.0 - exp(-k->sink_extinction * slow_lai)) / k->sink_full_area;
}

/* Gross supply of each solar hour at no sugar, g/m2/h above ground: the canopy
 * integral of a rectangular hyperbola (Thornley & Johnson 1990, from memory).
 * `pm` is pm20 fQ fWP fF, mg CO2/m2/s; `wet` is fWP fF, for alpha. */
void canopy_supply(const struct sward_kind *k, double lai, double pm, double wet, const struct sward_day *d,
                   double supply[24]);

/* Its pieces: g/m2/h of a mg CO2/m2/s; mg CO2 of a J of PAR times the extinction; what of
 * the light reaches the ground. */
static inline double canopy_supply_scale(const struct sward_kind *k)
{
    return (1.0 - k->root_share) * CANOPY_SUGAR_OF_CO2 / k->extinction;
}

static inline double canopy_light(const struct sward_kind *k, double wet)
{
    return k->alpha * (k->alpha_dry + (1.0 - k->alpha_dry) * wet) * k->extinction;
}

static inline double canopy_shade(const struct sward_kind *k, double lai)
{
    return exp(-k->extinction * lai);
}

/* y[i] = curve(x[i]) for 24 hours at once; x and y do not overlap. */
void canopy_curve(const struct curve *c, const double *restrict x, double *restrict y);

#endif
