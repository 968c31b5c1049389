/* Where it is: coordinates, height, time zone. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/clock.h"
#include "setup/coordinates.h"
#include "setup/question.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>

/* No place's clock is so far from the sun's (our judgement: western China comes to 3 h, summer time
 * is one more). */
#define ZONE_FAR_H 4.5

enum { DAY_H = 24, HALF_DAY_H = 12 };

static double site_number(const struct setup *s, const char *key)
{
    const cJSON *item = json_get(json_get(s->now.root, "site"), key);
    return cJSON_IsNumber(item) ? item->valuedouble : (double)NAN;
}

static bool place_offer(struct setup *s, char text[ANSWER])
{
    const struct site *file = &s->now.facts.place;
    double latitude = site_number(s, "latitude"), longitude = site_number(s, "longitude");
    bool old = !isnan(latitude), in_file = s->now.facts.site_in_file && !isnan(file->longitude);
    if (old && isnan(longitude)) {
        snprintf(text, ANSWER, AS_IT_IS);
    } else if (old || in_file) {
        snprintf(text, ANSWER, "%.6g, %.6g", old ? latitude : file->latitude, old ? longitude : file->longitude);
    }
    return old || in_file;
}

static enum err_code place_take(struct setup *s, const char *answer, struct err *e)
{
    double latitude, longitude;
    if (strcmp(answer, AS_IT_IS) == 0 && !isnan(site_number(s, "latitude"))) {
        return ERR_OK;
    }
    enum err_code code = coordinates_read(answer, &latitude, &longitude, e);
    if (code == ERR_OK) {
        cJSON *site = tree_section(s, "site", false);
        tree_number(s, site, "latitude", latitude);
        tree_number(s, site, "longitude", longitude);
        setup_say(s, "That is %.4f degrees %s, %.4f degrees %s.", fabs(latitude), latitude < 0 ? "south" : "north",
                  fabs(longitude), longitude < 0 ? "west" : "east");
    }
    return code;
}

static bool elevation_offer(struct setup *s, char text[ANSWER])
{
    double old = site_number(s, "elevation_m"), file = s->now.facts.place.elevation_m;
    bool known = !isnan(old) || (s->now.facts.site_in_file && !isnan(file));
    if (known) {
        snprintf(text, ANSWER, "%.6g m", isnan(old) ? file : old);
    } else {
        snprintf(text, ANSWER, "unknown");
    }
    return true;
}

static enum err_code elevation_take(struct setup *s, const char *answer, struct err *e)
{
    double x = NAN;
    bool unknown = strcasecmp(answer, "unknown") == 0;
    enum err_code code = unknown ? ERR_OK : measure_read(answer, units_height, &x, e);
    if (code == ERR_OK) {
        tree_number(s, tree_section(s, "site", false), "elevation_m", x);
    }
    return code;
}

/* Hours between the clock of the zone, which must have been entered, and the sun, round the day. */
static double far_from_sun(const struct setup *s, const char *zone)
{
    double longitude = site_number(s, "longitude");
    double h = clock_from_solar(zone, clock_today(zone), isnan(longitude) ? 0 : longitude, 0);
    h = fabs(remainder(h, DAY_H));
    return isnan(longitude) ? 0 : h > HALF_DAY_H ? DAY_H - h : h;
}

static bool zone_offer(struct setup *s, char text[ANSWER])
{
    const char *old = tree_string(json_get(s->now.root, "site"), "timezone");
    char zone[LIMIT_NAME];
    if (old[0]) {
        snprintf(text, ANSWER, "%s", old);
    } else if (clock_system_zone(zone, sizeof zone) && clock_enter(zone, NULL) == ERR_OK &&
               far_from_sun(s, zone) <= ZONE_FAR_H) {
        snprintf(text, ANSWER, "%s", zone);
    } else {
        snprintf(text, ANSWER, "sun");
    }
    return true;
}

/* Many machines are left at UTC by those who set them up. */
static void zone_before(struct setup *s)
{
    char zone[LIMIT_NAME];
    bool named = tree_string(json_get(s->now.root, "site"), "timezone")[0] != 0;
    if (!named && clock_system_zone(zone, sizeof zone) && strstr(zone, "UTC")) {
        buf_add(&s->say, "\n");
        setup_say(s, "This machine's clock is UTC, which knows no summer time (daylight saving). If yours is another, "
                     "name a big city with "
                     "your time: the hours on grass would be wrong by one hour or more.");
    }
}

/* "new york" as a zone's last part, "New_York". */
static void as_city(const char *answer, char *city, size_t size)
{
    bool first = true;
    size_t n = 0;
    for (; *answer && n + 1 < size; answer++) {
        unsigned char c = (unsigned char)*answer;
        city[n++] = c == ' ' ? '_' : (char)(first ? toupper(c) : tolower(c));
        first = c == ' ' || c == '-';
    }
    city[n] = 0;
}

/* A zone by its name, or by its city alone. */
static bool find_zone(const char *answer, char zone[LIMIT_NAME])
{
    static const char *const parts[] = {"Europe", "America",  "Australia", "Pacific", "Asia",
                                        "Africa", "Atlantic", "Indian",    "US",      "Canada"};
    char city[LIMIT_NAME];
    snprintf(zone, LIMIT_NAME, "%s", answer);
    if (strchr(answer, '/') || strcmp(answer, "UTC") == 0) {
        return clock_zone_known(answer);
    }
    as_city(answer, city, sizeof city);
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        snprintf(zone, LIMIT_NAME, "%s/%.40s", parts[i], city);
        if (clock_zone_known(zone)) {
            return true;
        }
    }
    return false;
}

static enum err_code zone_take(struct setup *s, const char *answer, struct err *e)
{
    cJSON *site = tree_section(s, "site", false);
    char zone[LIMIT_NAME];
    if (strcasecmp(answer, "sun") == 0) {
        cJSON_DeleteItemFromObjectCaseSensitive(site, "timezone");
        return ERR_OK;
    }
    if (strlen(answer) >= LIMIT_NAME || !find_zone(answer, zone)) {
        return err_set(
            e, ERR_USAGE,
            "\"%.40s\" is no time zone that this machine knows; type part and city, such as Europe/London or "
            "America/Chicago, or sun",
            answer);
    }
    if (clock_enter(zone, e) != ERR_OK) {
        return e->code;
    }
    if (far_from_sun(s, zone) > ZONE_FAR_H) {
        return err_set(
            e, ERR_USAGE,
            "the clock of %s is %.0f h away from the sun at %.4g degrees east: is it another zone, or has the "
            "longitude lost its minus?",
            zone, far_from_sun(s, zone), site_number(s, "longitude"));
    }
    if (strcmp(answer, zone) != 0) {
        setup_say(s, "That is %s.", zone);
    }
    tree_text(s, site, "timezone", zone);
    return ERR_OK;
}

const struct question place_rows[] = {
    {.title = "Place",
     .key = true,
     .ask = "Latitude and longitude, as maps print them: 52.19, -2.71 or 52 11 24 N, 2 42 36 W.",
     .more =
         "Most maps show them when you press long on your field, or with the right mouse button. Degrees north come "
         "first; south and west have a minus, or S and W behind. Two decimals are enough: a kilometre.",
     .option = "latitude",
     .offer = place_offer,
     .take = place_take},
    {.title = "Height above the sea",
     .ask = "In metres, or in feet with ft behind.",
     .more = "It tells how thin the air is, and whether the weather station lies much higher or lower than you. Fifty "
             "metres either way do not matter.",
     .option = "elevation",
     .offer = elevation_offer,
     .take = elevation_take},
    {.title = "Time zone",
     .ask = "So that hours are told by your clock: part of the world and city, or the city alone. \"sun\": by the sun.",
     .more =
         "Such as Europe/London, America/Chicago, Australia/Melbourne: a big city with the same clock as yours. Summer "
         "time is then reckoned with. \"sun\" tells hours by the sun, with noon when it stands highest.",
     .option = "timezone",
     .before = zone_before,
     .offer = zone_offer,
     .take = zone_take},
};
