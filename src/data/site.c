/* How far places lie apart. SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/site.h"

#include "base/num.h"

#include <assert.h>
#include <math.h>

#define EARTH_RADIUS_KM 6371.0 /* mean radius, IUGG */

double site_distance_km(const struct site *a, const struct site *b)
{
    double north = sin((b->latitude - a->latitude) * NUM_RADIANS / 2.0);
    double east = sin((b->longitude - a->longitude) * NUM_RADIANS / 2.0);
    double h = north * north + cos(a->latitude * NUM_RADIANS) * cos(b->latitude * NUM_RADIANS) * east * east;
    assert(!(h < 0.0));
    return 2.0 * EARTH_RADIUS_KM * asin(h > 1.0 ? 1.0 : sqrt(h)); /* NaN stays NaN */
}
