/* Leaf area and photosynthesis of the canopy. All 24 hours are worked together:
 * nothing here depends on the hour's sugar, so the loops are straight and the
 * compiler turns them into vector code. SPDX-License-Identifier: GPL-3.0-or-later */
#include "sward/canopy.h"

#include <assert.h>
#include <math.h>

/* g CH2O per mg CO2/s over an hour: 3600 s, 1e-3 g/mg, 30/44 of CO2 is kept as CH2O */
#define SUGAR_OF_CO2 (3.6 * 30.0 / 44.0)

double canopy_lai(const struct sward_kind *k, double leaf, double stem)
{
    assert(leaf >= 0.0 && stem >= 0.0);
    return k->leaf_area * (leaf + k->stem_area_share * stem);
}

double canopy_sink_area(const struct sward_kind *k, double slow_lai)
{
    assert(slow_lai >= 0.0);
    return (1.0 - exp(-k->sink_extinction * slow_lai)) / (1.0 - exp(-k->sink_extinction * k->sink_full_lai));
}

/* A piecewise linear curve is its first value plus one clipped ramp a segment. */
void canopy_curve(const struct curve *c, const double *restrict x, double *restrict y)
{
    assert(c->n >= 2 && c->n <= CURVE_KNOTS);
    for (int h = 0; h < 24; h++) {
        y[h] = c->y[0];
    }
    for (size_t i = 0; i + 1 < c->n; i++) {
        double from = c->x[i], width = c->x[i + 1] - from, slope = (c->y[i + 1] - c->y[i]) / width;
        for (int h = 0; h < 24; h++) {
            double up = x[h] - from;
            up = up > 0.0 ? up : 0.0;
            y[h] += slope * (up < width ? up : width);
        }
    }
}

double canopy_supply_scale(const struct sward_kind *k)
{
    return (1.0 - k->root_share) * SUGAR_OF_CO2 / k->extinction;
}

double canopy_light(const struct sward_kind *k, double wet)
{
    return k->alpha * (k->alpha_dry + (1.0 - k->alpha_dry) * wet) * k->extinction;
}

double canopy_shade(const struct sward_kind *k, double lai)
{
    return exp(-k->extinction * lai);
}

void canopy_supply(const struct sward_kind *k, double lai, double pm, double wet, const struct sward_day *d,
                   double supply[24])
{
    assert(lai >= 0.0);
    double rate[24], shade = canopy_shade(k, lai);
    double light = canopy_light(k, wet);
    double scale = canopy_supply_scale(k);
    canopy_curve(&k->photo, d->temperature, rate);
    for (int h = 0; h < 24; h++) {
        supply[h] = 0.0;
        if (d->par[h] > 0.0) {
            double p = pm * rate[h], caught = light * d->par[h], through = (1.0 - k->transmission) * p;
            supply[h] = scale * p * log((caught + through) / (caught * shade + through));
        }
    }
}
