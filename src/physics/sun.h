/* The sun: position, day length, radiation above the air.
 *
 * Two chains on purpose. For anything shown or used by the sward: the Julian-date
 * low-precision sun (Astronomical Almanac), good to 0.5 min of day length up to 65
 * degrees. Inside the FAO-56 chain: Eq. 21-25 as printed, so that its examples
 * reproduce. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_SUN_H
#define SUGARLEA_SUN_H

#include "base/date.h"

#include <stdbool.h>

/* Altitude of the sun's centre that counts as rise and set, degrees. */
#define SUN_ALMANAC (-0.8333) /* upper limb with refraction: what calendars print */
#define SUN_GEOMETRIC 0.0     /* centre, no refraction: FAO-56 Eq. 34, and the sward */
#define SUN_CIVIL (-6.0)

struct sun_position {
    double declination;  /* radians */
    double equation_min; /* equation of time, minutes: solar minus mean time */
};

/* The sun at an instant: days since 2000-01-01 12:00 UTC. Within 0.01 degree from
 * 1950 to 2050, slowly worse beyond. */
struct sun_position sun_position(double days_since_2000);

struct sun_day {
    double declination;  /* radians at solar noon */
    double equation_min; /* equation of time, minutes: solar minus mean time */
    double day_length_h; /* 0 polar night, 24 polar day */
    /* Solar time; their difference is the day length. Not quite even about noon: the
     * sun's declination moves on between rise and set (up to a minute at 65
     * degrees). 12 and 12 in polar night, 0 and 24 in polar day. */
    double sunrise_h, sunset_h;
};

/* date's sun at a latitude (degrees, -90..90) and longitude (degrees east; noon
 * there sets the instant; 0 will do when unknown: that costs up to 0.3 min of day
 * length for each 15 degrees of longitude at 65 degrees, 0.15 min at 50). altitude: SUN_ALMANAC,
 * SUN_GEOMETRIC, SUN_CIVIL. Clock time in UTC is
 * solar time - equation_min / 60 - longitude / 15. */
struct sun_day sun_of_day(date_t date, double latitude, double longitude, double altitude);

/* sun_of_day's day length alone, h: for those who need nothing else, day after day at one place. */
struct sun_place {
    double longitude; /* degrees east */
    double sin_lat, cos_lat, sin_alt;
};
struct sun_place sun_place_of(double latitude, double longitude, double altitude);
double sun_day_length(date_t date, const struct sun_place *place);

/* ---- FAO-56 ---- day_of_year 1..366; latitude in degrees. */

struct sun_fao {
    double distance;     /* dr, Eq. 23: inverse relative distance */
    double declination;  /* Eq. 24, radians */
    double sunset_angle; /* ws, Eq. 25, radians; 0 polar night, pi polar day */
};
struct sun_fao sun_fao(int day_of_year, double latitude);

/* Eq. 21 (MJ/m2/d), Eq. 34 (h); the arccosine's argument is clamped, so polar days
 * give N 24 or 0 and Ra >= 0. */
double sun_extraterrestrial(int day_of_year, double latitude);
double sun_fao_day_length(int day_of_year, double latitude);

/* Both of one day after the other, each day of the year worked out once. */
struct sun_over {
    double ra, day_length_h;
};
enum { SUN_YEAR_MOST = 366 };
struct sun_year {
    double latitude;
    struct sun_over over[SUN_YEAR_MOST + 1];
    bool made[SUN_YEAR_MOST + 1];
    date_t day;    /* the next that is asked for */
    int left, doy; /* days left of its year; its day of year */
};
void sun_year_begin(struct sun_year *y, date_t day0, double latitude);
struct sun_over sun_year_next(struct sun_year *y);

/* Eq. 32-33: seasonal correction of solar time, h. */
double sun_fao_correction(int day_of_year);

/* Eq. 31: solar time angle, radians, at clock hour t; longitudes of the clock's
 * meridian and of the place in degrees WEST of Greenwich, as printed. */
double sun_fao_hour_angle(double t, double zone_west, double longitude_west, double correction_h);

/* Eq. 28: radiation between two solar time angles (from < to), MJ/m2; what lies
 * before sunrise or after sunset does not count. */
double sun_extraterrestrial_between(int day_of_year, double latitude, double from, double to);

/* Eq. 37: clear-sky radiation; elevation in m. Unit of the argument. */
double sun_clear_sky(double extraterrestrial, double elevation_m);

/* Eq. 50: radiation from the temperature range, capped at clear sky.
 * k_rs 0.16 interior, 0.19 coast, 0.17 where unknown (our choice). */
double sun_from_range(double tmin, double tmax, double extraterrestrial, double elevation_m, double k_rs);

/* Eq. 35 with 0.25, 0.50: radiation from sunshine hours n of N. */
double sun_from_sunshine(double sunshine_h, double day_length_h, double extraterrestrial);

#endif
