/* Leaf area and photosynthesis of the canopy. All 24 hours are worked together:
 * nothing here depends on the hour's sugar, so the loops are straight and the
 * compiler turns them into vector code. SPDX-License-Identifier: GPL-3.0-or-later */
#include "sward/canopy.h"

#include "base/exp_log.h"
#include "base/vector.h"

#include <assert.h>
#include <math.h>

/* A piecewise linear curve is its first value plus one clipped ramp a segment. */
VECTOR void canopy_curve(const struct curve *c, const double *restrict x, double *restrict y)
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

VECTOR void canopy_supply(const struct sward_kind *k, double lai, double pm, double wet, const struct sward_day *d,
                          double supply[24])
{
    assert(lai >= 0.0);
    const double shade = canopy_shade(k, lai), light = canopy_light(k, wet), scale = canopy_supply_scale(k);
    const double past = 1.0 - k->transmission;
    double rate[24];
    canopy_curve(&k->photo, d->temperature, rate);
    for (int h = 0; h < 24; h++) {
        double p = pm * rate[h], caught = light * d->par[h], through = past * p, below = caught * shade + through;
        double ratio = below > 0.0 ? (caught + through) / below : 1.0; /* 1: in the dark, which gives 0 */
        supply[h] = scale * p * log_inline(ratio);
    }
}
