/* Water of the root zone and snow on it. SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/soil.h"

#include "base/num.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>

double soil_fraction(double p_table, double etc)
{
    return num_clip(p_table + 0.04 * (5 - etc), 0.1, 0.8); /* FAO-56 p. 162 */
}

double soil_stress(const struct soil_water *s)
{
    assert(s->taw > 0);
    double readily = s->fraction * s->taw;
    return s->depletion > readily ? (s->taw - s->depletion) / (s->taw - readily) : 1;
}

double soil_water_step(struct soil_water *s, double rain, double etc, double *deep_percolation)
{
    double lost = soil_stress(s) * etc;
    double before = s->depletion - rain + lost;
    double beyond = before > s->taw ? before - s->taw : 0; /* not there to evaporate */
    double drained = before < 0 ? -before : 0;
    s->depletion = num_clip(before, 0, s->taw);
    assert(!(lost < beyond));
    if (deep_percolation) {
        *deep_percolation = drained;
    }
    return lost - beyond;
}

double soil_evaporation_factor(double depletion, double tew, double rew)
{
    assert(tew > rew);
    return depletion > rew ? num_clip((tew - depletion) / (tew - rew), 0, 1) : 1;
}

double soil_snow_step(double snow_mm, double tmean, double rain_mm, double *melt_and_rain_mm)
{
    assert(!(snow_mm < 0));
    double liquid = rain_mm / (1 + exp(-1.5 * (tmean - 2)));
    double snow = snow_mm + rain_mm - liquid;
    double degrees = tmean + 1; /* above the melting threshold of -1 C */
    double melt = degrees >= 0 ? fmin(snow, 3 * degrees) : -fmin(liquid, 0.05 * -degrees);
    if (melt_and_rain_mm) {
        *melt_and_rain_mm = liquid + melt;
    }
    return snow - melt;
}
