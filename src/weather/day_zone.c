/* By whose midnight the hours of a file become days. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/day_zone.h"

#include "base/limits.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define LONGITUDE_MOST 360 /* some count eastwards all the way round */
#define NEAR_GREENWICH_H 1 /* days cut an hour apart share 23 hours, our judgement */

double day_zone_stray(double offset, double longitude)
{
    double shift = offset / 3600 - longitude / 15;
    return shift - 24 * round(shift / 24);
}

/* What is written when nobody asked for a zone, at a place that is not near Greenwich. */
static bool is_default(const struct day_zone_file *own, double longitude)
{
    static const char *const names[] = {"", "GMT", "UTC", "Etc/GMT", "Etc/UTC"};
    if (!(fabs(round(longitude / 15)) > NEAR_GREENWICH_H)) {
        return false;
    }
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        if (strcmp(own->name, names[i]) == 0) {
            return own->offset == 0 || isnan(own->offset);
        }
    }
    return false;
}

static bool believed(double offset, double longitude)
{
    double stray = day_zone_stray(offset, longitude);
    return isnan(stray) || fabs(stray) <= DAY_ZONE_STRAY_H;
}

/* "UTC+5:30" */
static void say_offset(char *text, size_t size, const char *before, double offset)
{
    int minutes = (int)(fabs(offset) / 60 + 0.5);
    snprintf(text, size, "%s (UTC%c%d:%02d)", before, offset < 0 ? '-' : '+', minutes / 60, minutes % 60);
}

static enum err_code hinted(const struct weather_file *f, int64_t first, int64_t last, struct arena *a,
                            struct clock_zone *z, struct err *e)
{
    enum err_code code = clock_zone_load(z, f->hints->timezone, first, last, a, e);
    if (code == ERR_NOINPUT) {
        return err_set(e, ERR_USAGE, "the time zone \"%.60s\" is not known; a name such as \"Europe/Dublin\" is needed",
                       f->hints->timezone);
    }
    return code;
}

/* The zone that the file names, or else the offset that it states. False: neither is the
 * place's. */
static bool own_zone(const struct day_zone_file *own, double longitude, int64_t first, int64_t last, struct arena *a,
                     struct clock_zone *z, char said[DAY_ZONE_SAID], enum err_code *code, struct err *e)
{
    if (is_default(own, longitude)) {
        return false;
    }
    if (own->name[0] && clock_zone_known(own->name)) {
        snprintf(said, DAY_ZONE_SAID, "its hours are put into days by the zone that it names, %.60s", own->name);
        *code = clock_zone_load(z, own->name, first, last, a, e);
        return *code != ERR_OK || believed(clock_zone_offset(z, first), longitude);
    }
    if (isnan(own->offset) || !believed(own->offset, longitude)) {
        return false;
    }
    say_offset(said, DAY_ZONE_SAID, "its hours are put into days by the offset that it states", own->offset);
    *code = clock_zone_fixed(z, (int32_t)own->offset, a, e);
    return true;
}

enum err_code day_zone_choose(const struct weather_file *f, const struct day_zone_file *own, int64_t first,
                              int64_t last, struct arena *a, struct clock_zone *z, char said[DAY_ZONE_SAID],
                              struct err *e)
{
    enum err_code code = ERR_OK;
    double longitude = isnan(own->longitude) ? f->hints->longitude : own->longitude;
    longitude = fabs(longitude) <= LONGITUDE_MOST ? longitude : (double)NAN;
    said[0] = 0;
    if (last < first || last - first > (int64_t)LIMIT_DAYS * CLOCK_DAY_SECONDS) {
        return json_fail(&f->doc, ERR_DATA, "", e, "its hours span more than %d days", LIMIT_DAYS);
    }
    if (f->hints->timezone && f->hints->timezone[0]) {
        return hinted(f, first, last, a, z, e);
    }
    if (own_zone(own, longitude, first, last, a, z, said, &code, e)) {
        return code;
    }
    if (isnan(longitude)) {
        return json_fail(&f->doc, ERR_DATA, "", e,
                         "says neither the zone of its hours nor the longitude; name the zone of the place");
    }
    double sun = round(longitude / 15);
    sun = (sun - 24 * round(sun / 24)) * 3600;
    say_offset(said, DAY_ZONE_SAID, "its hours are put into days by the sun over its longitude", sun);
    return clock_zone_fixed(z, (int32_t)sun, a, e);
}
