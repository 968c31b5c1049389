/* Radiation above the air and at the ground: FAO-56 (Allen, Pereira, Raes & Smith
 * 1998), pages 46-61, as printed. SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/sun.h"

#include "base/num.h"

#include <assert.h>
#include <math.h>

#define SOLAR_CONSTANT 0.0820 /* Gsc, MJ/m2/min, FAO-56 p. 46 */
#define MINUTES_PER_TURN (24 * 60)

struct sun_fao sun_fao(int day_of_year, double latitude)
{
    assert(day_of_year >= 1 && day_of_year <= 366);
    double year = 2 * NUM_PI * day_of_year / 365;
    double declination = 0.409 * sin(year - 1.39);
    double reach = -tan(latitude * NUM_RADIANS) * tan(declination);
    return (struct sun_fao){
        .distance = 1 + 0.033 * cos(year), .declination = declination, .sunset_angle = acos(num_clip(reach, -1, 1))};
}

/* Not fmax: NaN has to stay NaN. */
static double positive(double x)
{
    return x < 0 ? 0 : x;
}

static double between(const struct sun_fao *s, double latitude, double from, double to)
{
    double phi = latitude * NUM_RADIANS;
    double beam = (to - from) * sin(phi) * sin(s->declination) + cos(phi) * cos(s->declination) * (sin(to) - sin(from));
    return MINUTES_PER_TURN / (2 * NUM_PI) * SOLAR_CONSTANT * s->distance * beam;
}

static double day_length(const struct sun_fao *s)
{
    return 24 / NUM_PI * s->sunset_angle;
}

static struct sun_over over_day(int day_of_year, double latitude)
{
    struct sun_fao s = sun_fao(day_of_year, latitude);
    return (struct sun_over){.ra = positive(between(&s, latitude, -s.sunset_angle, s.sunset_angle)),
                             .day_length_h = day_length(&s)};
}

double sun_extraterrestrial(int day_of_year, double latitude)
{
    return over_day(day_of_year, latitude).ra;
}

void sun_year_begin(struct sun_year *y, date_t day0, double latitude)
{
    *y = (struct sun_year){.latitude = latitude, .day = day0};
}

struct sun_over sun_year_next(struct sun_year *y)
{
    if (y->left == 0) {
        struct date_parts p = date_split(y->day);
        y->doy = date_day_of_year(y->day);
        y->left = (date_is_leap(p.year) ? SUN_YEAR_MOST : SUN_YEAR_MOST - 1) - y->doy + 1;
    }
    int doy = y->doy++;
    y->left--;
    y->day++;
    if (!y->made[doy]) {
        y->over[doy] = over_day(doy, y->latitude);
        y->made[doy] = true;
    }
    return y->over[doy];
}

double sun_extraterrestrial_between(int day_of_year, double latitude, double from, double to)
{
    assert(from <= to);
    struct sun_fao s = sun_fao(day_of_year, latitude);
    from = num_clip(from, -s.sunset_angle, s.sunset_angle);
    to = num_clip(to, -s.sunset_angle, s.sunset_angle);
    return positive(between(&s, latitude, from, to));
}

double sun_fao_day_length(int day_of_year, double latitude)
{
    struct sun_fao s = sun_fao(day_of_year, latitude);
    return day_length(&s);
}

double sun_fao_correction(int day_of_year)
{
    double b = 2 * NUM_PI * (day_of_year - 81) / 364;
    return 0.1645 * sin(2 * b) - 0.1255 * cos(b) - 0.025 * sin(b);
}

double sun_fao_hour_angle(double t, double zone_west, double longitude_west, double correction_h)
{
    return NUM_PI / 12 * (t + 0.06667 * (zone_west - longitude_west) + correction_h - 12);
}

double sun_clear_sky(double extraterrestrial, double elevation_m)
{
    return (0.75 + 2e-5 * elevation_m) * extraterrestrial;
}

double sun_from_range(double tmin, double tmax, double extraterrestrial, double elevation_m, double k_rs)
{
    double rad = k_rs * sqrt(positive(tmax - tmin)) * extraterrestrial;
    return num_clip(rad, 0, sun_clear_sky(extraterrestrial, elevation_m));
}

double sun_from_sunshine(double sunshine_h, double day_length_h, double extraterrestrial)
{
    double share = day_length_h > 0 ? sunshine_h / day_length_h : 0;
    return (0.25 + 0.50 * num_clip(share, 0, 1)) * extraterrestrial;
}
