/* Position of the sun and day length from the Julian date: the low-precision
 * formulas of the Astronomical Almanac (from memory; confirmed numerically against
 * an ephemeris to 0.003 degree of declination, see tests/science/test_sun.c).
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/sun.h"

#include "base/num.h"

#include <assert.h>
#include <math.h>

#define NOON_2000 10957         /* 2000-01-01 as days since 1970-01-01 */
#define DAILY_MOTION 0.01720279 /* 0.9856474 degrees: mean motion in longitude, rad/d */

struct ecliptic {
    double mean_longitude;               /* degrees */
    double sin_lambda, cos_lambda;       /* of the apparent longitude */
    double sin_obliquity, cos_obliquity; /* of the ecliptic */
};

static struct ecliptic ecliptic_at(double n)
{
    struct ecliptic e = {.mean_longitude = 280.460 + 0.9856474 * n};
    double sin_g, cos_g;
    sincos((357.528 + 0.9856003 * n) * NUM_RADIANS, &sin_g, &cos_g);
    double centre = 1.915 * sin_g + 0.020 * 2 * sin_g * cos_g;
    sincos((e.mean_longitude + centre) * NUM_RADIANS, &e.sin_lambda, &e.cos_lambda);
    sincos((23.439 - 0.0000004 * n) * NUM_RADIANS, &e.sin_obliquity, &e.cos_obliquity);
    return e;
}

static double equation_min(const struct ecliptic *e)
{
    double right_ascension = atan2(e->cos_obliquity * e->sin_lambda, e->cos_lambda);
    return 4 * remainder(e->mean_longitude - right_ascension / NUM_RADIANS, 360);
}

struct sun_position sun_position(double days_since_2000)
{
    struct ecliptic e = ecliptic_at(days_since_2000);
    return (struct sun_position){.declination = asin(e.sin_obliquity * e.sin_lambda), .equation_min = equation_min(&e)};
}

struct sun_place sun_place_of(double latitude, double longitude, double altitude)
{
    assert(!(fabs(latitude) > 90));
    struct sun_place p = {.longitude = longitude, .sin_alt = sin(altitude * NUM_RADIANS)};
    sincos(latitude * NUM_RADIANS, &p.sin_lat, &p.cos_lat);
    return p;
}

/* Horizon geometry of one day: everything that rise and set need. */
struct horizon {
    double sin_dec, cos_dec;
    double half_day; /* radians, 0..pi */
};

static struct horizon horizon_of(const struct ecliptic *e, const struct sun_place *p)
{
    struct horizon h = {.sin_dec = e->sin_obliquity * e->sin_lambda};
    h.cos_dec = sqrt(1 - h.sin_dec * h.sin_dec);
    double above = p->sin_alt - p->sin_lat * h.sin_dec; /* sine that the hour angle has to make up */
    double reach = p->cos_lat * h.cos_dec;
    h.half_day = above >= reach ? 0 : above <= -reach ? NUM_PI : acos(above / reach);
    assert(!(h.half_day < 0) && !(h.half_day > NUM_PI));
    return h;
}

/* How much later (h) sunset and sunrise fall because the declination moves on while
 * the sun crosses half its arc: d(half day)/d(declination) times the declination's
 * daily motion times the part of a day gone. Held below half the distance to noon
 * and midnight, where the derivative grows without bound. */
static double lateness(const struct ecliptic *e, const struct horizon *h, const struct sun_place *p)
{
    double sine = sin(h->half_day);
    if (sine <= 0) {
        return 0;
    }
    double daily = e->sin_obliquity * e->cos_lambda * DAILY_MOTION / h->cos_dec;
    double per_radian = (p->sin_lat - p->sin_alt * h->sin_dec) / (p->cos_lat * h->cos_dec * h->cos_dec * sine);
    double late = per_radian * daily * h->half_day / (2 * NUM_PI) * 12 / NUM_PI;
    double half = h->half_day * 12 / NUM_PI;
    double room = fmin(half, 12 - half) / 2;
    return num_clip(late, -room, room);
}

static double days_at_noon(date_t date, double longitude)
{
    return date - NOON_2000 - longitude / 360;
}

struct sun_day sun_of_day(date_t date, double latitude, double longitude, double altitude)
{
    struct sun_place p = sun_place_of(latitude, longitude, altitude);
    struct ecliptic e = ecliptic_at(days_at_noon(date, longitude));
    struct horizon h = horizon_of(&e, &p);
    double half = h.half_day * 12 / NUM_PI, late = lateness(&e, &h, &p);
    return (struct sun_day){.declination = asin(h.sin_dec),
                            .equation_min = equation_min(&e),
                            .day_length_h = 2 * half,
                            .sunrise_h = 12 - half + late,
                            .sunset_h = 12 + half + late};
}

double sun_day_length(date_t date, const struct sun_place *place)
{
    struct ecliptic e = ecliptic_at(days_at_noon(date, place->longitude));
    return horizon_of(&e, place).half_day * 24 / NUM_PI;
}
