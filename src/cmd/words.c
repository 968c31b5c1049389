/* Words that options take, from the tables that know them. SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/words.h"

#include "cmd/today.h"
#include "data/holding.h"
#include "weather/layout.h"
#include "weather/service.h"

#include <string.h>

static const char *class_at(const struct params *p, size_t i)
{
    return p && i < p->animals ? p->animal[i].id : NULL;
}

static const char *grass_at(const struct params *p, size_t i)
{
    return p && i < p->grasses ? p->grass[i].id : NULL;
}

static const char *soil_at(const struct params *p, size_t i)
{
    return p && i < p->soils ? p->soil[i].id : NULL;
}

static const char *nitrogen_at(const struct params *p, size_t i)
{
    (void)p;
    return i < NITROGENS ? holding_nitrogens[i] : NULL;
}

/* Without the layouts that are known only to be refused. */
static const char *layout_at(const struct params *p, size_t i)
{
    (void)p;
    for (size_t k = 0; k < weather_layout_count; k++) {
        if (weather_layouts[k].what && i-- == 0) {
            return weather_layouts[k].name;
        }
    }
    return NULL;
}

static const char *units_at(const struct params *p, size_t i)
{
    (void)p;
    return i + UNITS_METRIC < WEATHER_UNITS ? weather_units_names[i + UNITS_METRIC] : NULL;
}

static const char *picture_at(const struct params *p, size_t i)
{
    (void)p;
    return season_picture(i);
}

static const char *system_at(const struct params *p, size_t i)
{
    (void)p;
    return i < OPTIONS_SYSTEMS ? options_systems[i] : NULL;
}

static const char *service_at(const struct params *p, size_t i)
{
    (void)p;
    return i < service_count ? services[i].name : NULL;
}

static const struct {
    const char *value; /* in the option table */
    const char *(*at)(const struct params *p, size_t i);
} lists[] = {
    {"CLASS", class_at},       {"GRASS", grass_at},   {"SOIL", soil_at},
    {"NITROGEN", nitrogen_at}, {"LAYOUT", layout_at}, {"UNITS", units_at},
    {"PICTURE", picture_at},   {"SYSTEM", system_at}, {"SERVICE", service_at},
};

const char *words_of(const struct option_row *o, const struct params *p, size_t i)
{
    for (size_t k = 0; o->value && k < sizeof lists / sizeof lists[0]; k++) {
        if (strcmp(o->value, lists[k].value) == 0) {
            return lists[k].at(p, i);
        }
    }
    return NULL;
}

bool words_file(const struct option_row *o)
{
    return o->value && strncmp(o->value, "FILE", 4) == 0; /* FILE, FILE.ics */
}
