/* The sun: position, day length, radiation above the air.
 *
 * Two chains on purpose. For anything shown or used by the sward: the Julian-date
 * low-precision sun (Astronomical Almanac), good to 0.5 min of day length up to 65
 * degrees. Inside the FAO-56 chain: Eq. 21-25 as printed, so that its examples
 * reproduce. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_SUN_H
#define SUGARLEA_SUN_H

#include "base/date.h"

/* Altitude of the sun's centre that counts as rise and set, degrees. */
#define SUN_ALMANAC (-0.8333) /* upper limb with refraction: what calendars print */
#define SUN_GEOMETRIC 0.0     /* centre, no refraction: FAO-56 Eq. 34, and the sward */
#define SUN_CIVIL (-6.0)

struct sun_day {
    double declination;    /* radians at solar noon */
    double equation_min;   /* equation of time, minutes: solar minus mean time */
    double day_length_h;   /* 0 polar night, 24 polar day */
    double sunrise_h, sunset_h; /* solar time; 12 and 12 in polar night, 0 and 24 in polar day */
};

/* date's sun at a latitude (degrees, -90..90) and longitude (degrees east; noon
 * there sets the instant; 0 will do when unknown: the error is under 0.2 min below
 * 65 degrees). altitude: SUN_ALMANAC, SUN_GEOMETRIC, SUN_CIVIL. */
struct sun_day sun_of_day(date_t date, double latitude, double longitude, double altitude);

/* FAO-56 Eq. 21 (MJ/m2/d), 34 (h), with Eq. 23-25; day_of_year 1..366; the
 * arccosine's argument is clamped, so polar days give N 24 or 0 and Ra >= 0. */
double sun_extraterrestrial(int day_of_year, double latitude);
double sun_fao_day_length(int day_of_year, double latitude);

/* FAO-56 Eq. 37: clear-sky radiation, MJ/m2/d; elevation in m. */
double sun_clear_sky(double extraterrestrial, double elevation_m);

/* FAO-56 Eq. 50: radiation from the temperature range, capped at clear sky.
 * k_rs 0.16 interior, 0.19 coast, 0.17 where unknown (our choice). */
double sun_from_range(double tmin, double tmax, double extraterrestrial, double elevation_m, double k_rs);

/* FAO-56 Eq. 35 with 0.25, 0.50: radiation from sunshine hours n of N. */
double sun_from_sunshine(double sunshine_h, double day_length_h, double extraterrestrial);

#endif
