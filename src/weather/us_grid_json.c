/* Forecast of the United States' service on its grid: layers of values, each for an
 * interval ("2022-02-04T01:00:00+00:00/PT10H"), equal ones joined to one long interval.
 *
 * A value holds for all of its interval; rain is the sum over it and is shared out in
 * proportion across midnight. Maxima and minima stand for a day or a night and count to
 * the local date of their middle, beside the hourly temperatures. All of it is forecast;
 * wind is that at 10 m; there is no radiation; times are UTC.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/day_zone.h"
#include "weather/instant.h"
#include "weather/json_days.h"
#include "weather/note.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define BLOCK "properties"

enum use { LEVEL, EXTREME, MEAN, SUM };

static const struct layer {
    const char *name;
    enum weather_var var;
    enum use use;
} layers[] = {
    {"temperature", WEATHER_TMAX, LEVEL},
    {"maxTemperature", WEATHER_TMAX, EXTREME},
    {"minTemperature", WEATHER_TMIN, EXTREME},
    {"relativeHumidity", WEATHER_RH, MEAN},
    {"dewpoint", WEATHER_TDEW, MEAN},
    {"windSpeed", WEATHER_WIND, MEAN},
    {"quantitativePrecipitation", WEATHER_RAIN, SUM},
};

/* One interval of a layer, checked. */
struct piece {
    int64_t from, to;
    double x; /* NaN: not known */
};

static const cJSON *values_of(const struct weather_file *f, const char *layer)
{
    return json_get(json_get(json_get(f->doc.root, "properties"), layer), "values");
}

bool us_grid_json_is(const struct weather_file *f)
{
    return cJSON_IsArray(values_of(f, "temperature")) &&
           cJSON_IsString(json_get(values_of(f, "temperature")->child, "validTime"));
}

/* "wmoUnit:degC" names its unit after the colon. */
static enum err_code unit_of(const struct weather_file *f, const struct layer *l, struct quantity_unit *unit,
                             struct err *e)
{
    char path[64];
    const cJSON *layer = json_get(json_get(f->doc.root, "properties"), l->name), *text = json_get(layer, "uom");
    text = text ? text : json_get(layer, "unitCode");
    const char *colon = cJSON_IsString(text) ? strchr(text->valuestring, ':') : NULL;
    const char *name = colon ? colon + 1 : cJSON_IsString(text) ? text->valuestring : "";
    if (!quantity_unit_of(l->var, name, strlen(name), unit)) {
        snprintf(path, sizeof path, BLOCK ".%s", l->name);
        return json_fail(&f->doc, ERR_DATA, path, e, "the unit \"%.40s\" (\"uom\") is not known; %s are allowed", name,
                         quantity_units_allowed(l->var));
    }
    unit->scale *= l->var == WEATHER_WIND ? WIND_10M_TO_2M : 1;
    return ERR_OK;
}

static enum err_code piece_of(const struct weather_file *f, const struct layer *l, const struct quantity_unit *unit,
                              const cJSON *item, size_t i, struct piece *p, struct err *e)
{
    char path[96];
    const cJSON *time = json_get(item, "validTime"), *value = json_get(item, "value");
    snprintf(path, sizeof path, BLOCK ".%s.values[%zu].validTime", l->name, i);
    if (!cJSON_IsString(time) || !instant_interval(time->valuestring, &p->from, &p->to)) {
        return json_fail(&f->doc, ERR_DATA, path, e,
                         "not an interval; \"2022-02-04T01:00:00+00:00/PT10H\" (P1D, P1DT6H ...) is expected");
    }
    snprintf(path, sizeof path, BLOCK ".%s.values[%zu].value", l->name, i);
    return value ? json_days_value(f, path, l->var, unit, NAN, value, &p->x, e)
                 : json_fail(&f->doc, ERR_DATA, path, e, "has no value; a number or null is expected");
}

static void hand_over(struct hours *h, const struct layer *l, const struct piece *p)
{
    if (isnan(p->x)) {
        return;
    }
    switch (l->use) {
    case LEVEL:
        hours_level(h, p->from, p->to, p->x);
        break;
    case EXTREME:
        hours_extreme(h, l->var, p->from, p->to, p->x, false);
        break;
    case MEAN:
        hours_mean(h, l->var, p->from, p->to, p->x);
        break;
    case SUM:
        hours_amount(h, l->var, p->from, p->to, p->x);
        break;
    }
}

/* Walks a layer: hands it to h, or, where h is NULL, widens *all by its intervals. */
static enum err_code walk(const struct weather_file *f, const struct layer *l, struct hours *h, struct piece *all,
                          struct err *e)
{
    const cJSON *item, *values = values_of(f, l->name);
    struct quantity_unit unit = {1, 0};
    struct piece before = {.to = INT64_MIN};
    size_t i = 0;
    if (!values || !values->child) {
        return ERR_OK;
    }
    enum err_code code = unit_of(f, l, &unit, e);
    if (code != ERR_OK) {
        return code;
    }
    cJSON_ArrayForEach(item, values)
    {
        struct piece p = {0};
        code = piece_of(f, l, &unit, item, i, &p, e);
        if (code == ERR_OK && p.from < before.to) {
            char path[96];
            snprintf(path, sizeof path, BLOCK ".%s.values[%zu].validTime", l->name, i);
            return json_fail(&f->doc, ERR_DATA, path, e, "begins before the interval before it ends");
        }
        if (code != ERR_OK) {
            return code;
        }
        if (h) {
            hand_over(h, l, &p);
        }
        all->from = p.from < all->from ? p.from : all->from;
        all->to = p.to > all->to ? p.to : all->to;
        before = p;
        i++;
    }
    return ERR_OK;
}

static enum err_code walk_all(const struct weather_file *f, struct hours *h, struct piece *all, struct err *e)
{
    enum err_code code = ERR_OK;
    *all = (struct piece){.from = INT64_MAX, .to = INT64_MIN};
    for (size_t i = 0; i < sizeof layers / sizeof layers[0] && code == ERR_OK; i++) {
        code = walk(f, &layers[i], h, all, e);
    }
    return code;
}

/* The middle of the cell's corners; its first corner stands again as the last. */
static struct site place_of(const struct weather_file *f)
{
    const cJSON *corner, *ring = json_get(json_get(f->doc.root, "geometry"), "coordinates");
    const cJSON *height = json_get(json_get(json_get(f->doc.root, "properties"), "elevation"), "value");
    struct site place = {.latitude = NAN, .longitude = NAN, .elevation_m = NAN};
    double east = 0, north = 0;
    int n = 0;
    ring = cJSON_IsArray(ring) ? ring->child : NULL;
    cJSON_ArrayForEach(corner, ring)
    {
        const cJSON *x = corner->child, *y = x ? x->next : NULL;
        if (corner->next && x && y && cJSON_IsNumber(x) && cJSON_IsNumber(y)) {
            east += x->valuedouble;
            north += y->valuedouble;
            n++;
        }
    }
    if (n > 0) {
        place.longitude = east / n;
        place.latitude = north / n;
    }
    if (cJSON_IsNumber(height)) {
        place.elevation_m = height->valuedouble;
    }
    return place;
}

enum err_code us_grid_json_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    struct site place = place_of(f);
    struct day_zone_file own = {"", NAN, place.longitude};
    struct piece all;
    struct clock_zone z;
    struct hours h;
    struct weather_days days;
    char said[DAY_ZONE_SAID];
    enum err_code code = walk_all(f, NULL, &all, e);
    code = code == ERR_OK ? day_zone_choose(f, &own, all.from, all.to, a, &z, said, e) : code;
    code = code == ERR_OK ? hours_begin(&h, &z, all.from, all.to, f->path, a, e) : code;
    code = code == ERR_OK ? walk_all(f, &h, &all, e) : code;
    code = code == ERR_OK && said[0] ? note_add(set, a, e, "%s", said) : code;
    code = code == ERR_OK ? json_days_of_hours(f, BLOCK, &h, set, a, &days, e) : code;
    if (code != ERR_OK) {
        return code;
    }
    memset(days.origin, ORIGIN_FORECAST, days.n);
    return json_days_finish(f, BLOCK, a, &days, &place, set, e);
}
