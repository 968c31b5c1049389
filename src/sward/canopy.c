/* Leaf area and photosynthesis of the canopy. All 24 hours are worked together:
 * nothing here depends on the hour's sugar, so the loops are straight and the
 * compiler turns them into vector code. SPDX-License-Identifier: GPL-3.0-or-later */
#include "sward/canopy.h"

#include <assert.h>
#include <math.h>

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
