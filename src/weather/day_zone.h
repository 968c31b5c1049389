/* By whose midnight the hours of a file become days.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_DAY_ZONE_H
#define SUGARLEA_WEATHER_DAY_ZONE_H

#include "base/clock.h"
#include "weather/layout.h"

#define DAY_ZONE_SAID 120 /* room for the sentence */

/* What a file says of its own zone. */
struct day_zone_file {
    const char *name; /* IANA name; "" none */
    double offset;    /* seconds ahead of UTC; NaN not said */
    double longitude; /* of the place, degrees east; NaN not said */
};

/* Chooses, in this order: the zone hinted; the zone that the file names; the offset that
 * it states; the mean solar time of the longitude, of the file or else hinted, to the
 * nearest whole hour (so that hourly steps are not cut in two, our judgement). UTC and
 * GMT in a file are what services write when nobody asked for a zone: they are taken
 * for the place's own only within about an hour of Greenwich. So is no zone that is
 * more than DAY_ZONE_STRAY_H from the sun's.
 * z covers first..last; said: which was used, for people ("" for the hinted one).
 * ERR_USAGE (the hinted zone is not known), ERR_DATA (nothing to go by, or more than LIMIT_DAYS), ERR_NOMEM. */
enum err_code day_zone_choose(const struct weather_file *f, const struct day_zone_file *own, int64_t first,
                              int64_t last, struct arena *a, struct clock_zone *z, char said[DAY_ZONE_SAID],
                              struct err *e);

#define DAY_ZONE_STRAY_H 3.5 /* legal time strays so far from the sun's, our judgement */

/* Hours between clocks so many seconds ahead of UTC and the sun over a longitude, round
 * the day: -12 to 12; NaN when one is not known. */
double day_zone_stray(double offset, double longitude);

#endif
