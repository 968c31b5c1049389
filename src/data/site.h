/* Where a holding is. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_SITE_H
#define SUGARLEA_SITE_H

#include "base/limits.h"

#include <stdbool.h>

struct site {
    double latitude;           /* degrees, north positive; NaN unknown */
    double longitude;          /* degrees, east positive; NaN unknown */
    double elevation_m;        /* NaN unknown */
    char timezone[LIMIT_NAME]; /* IANA name; "" = solar time is shown */
};

/* Kilometres between two places on a sphere (haversine); NaN when one is not known. */
double site_distance_km(const struct site *a, const struct site *b);

#endif
