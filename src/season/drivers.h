/* What drove the sugar: each driver of the last days replaced by its normal, the
 * difference in the mean NSC of the morning's day. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_DRIVERS_H
#define SUGARLEA_DRIVERS_H

#include "season/run.h"

enum { DRIVER_DAYS = 10, DRIVERS = 4 };

struct driver_normal { /* of one day */
    double tmin, tmax, rad, rain;
};

struct driver {
    const char *id;     /* "cold-nights", "dull-days", ...: static */
    const char *phrase; /* "cold nights": static */
    double effect;      /* g/kg: the sugar as it is less what it would be with normal weather */
};

/* before: the run as it stood n days ago (1..DRIVER_DAYS); day[0..n): those days;
 * day[n]: the morning. normal[n + 1] alike. Writes DRIVERS rows a paddock, largest
 * effect first: out[paddock * DRIVERS + k]. False: no memory. */
bool drivers_find(const struct run *before, const struct run_day *day, const struct driver_normal *normal, size_t n,
                  struct arena *a, struct driver *out);

#endif
