/* Point forecast of the Norwegian service, compact or complete, bare or within the file
 * that a client kept ({status_code, headers, data}).
 *
 * Steps are an hour apart at first, later six. Each has the state at its instant; the
 * rain of the hour, or the six hours, that follow stands beside it. Rain of six hours also
 * stands on hourly steps: it is used only where the next step is six hours away. Extremes
 * of six hours (complete only) count where they can: at six-hour steps to the day of
 * their middle, at hourly ones when they lie within one day. All times are UTC, all of it
 * is forecast, wind is that at 10 m, there is no radiation (the service's documentation;
 * from memory).
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/limits.h"
#include "weather/day_zone.h"
#include "weather/hours.h"
#include "weather/instant.h"
#include "weather/json_days.h"
#include "weather/note.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define BLOCK "properties.timeseries"
#define HOUR 3600
#define LONG_STEP (6 * HOUR)
#define STEPS_MOST 10000

enum field { TEMPERATURE, WARMEST, COLDEST, HUMIDITY, DEW_POINT, WIND, RAIN, FIELDS };

static const struct field_row {
    const char *name;
    enum weather_var var; /* its units and its range */
} rows[FIELDS] = {
    [TEMPERATURE] = {"air_temperature", WEATHER_TMAX},     [WARMEST] = {"air_temperature_max", WEATHER_TMAX},
    [COLDEST] = {"air_temperature_min", WEATHER_TMIN},     [HUMIDITY] = {"relative_humidity", WEATHER_RH},
    [DEW_POINT] = {"dew_point_temperature", WEATHER_TDEW}, [WIND] = {"wind_speed", WEATHER_WIND},
    [RAIN] = {"precipitation_amount", WEATHER_RAIN},
};

struct forecast {
    const struct weather_file *f; /* its root is the bare forecast */
    struct quantity_unit unit[FIELDS];
    bool unit_known[FIELDS];
    size_t n;
    int64_t *at;
    struct hours h;
    int64_t rain_to;   /* end of the rain added so far */
    int64_t coarse_at; /* first six-hour step without extremes; INT64_MAX none */
};

static const cJSON *steps_of(const struct weather_file *f)
{
    return json_get(json_get(f->doc.root, "properties"), "timeseries");
}

/* The bare forecast and the key under which it stands, "" none. */
static struct weather_file unwrap(const struct weather_file *f, const char **key)
{
    struct weather_file bare = *f;
    const cJSON *data = json_get(f->doc.root, "data");
    *key = data && !steps_of(f) ? "data" : "";
    bare.doc.root = **key ? (cJSON *)(uintptr_t)data : f->doc.root;
    return bare;
}

bool norwegian_json_is(const struct weather_file *f)
{
    const char *key;
    struct weather_file bare = unwrap(f, &key);
    return cJSON_IsArray(steps_of(&bare));
}

static void read_units(struct forecast *c)
{
    const cJSON *units = json_get(json_get(json_get(c->f->doc.root, "properties"), "meta"), "units");
    for (int k = 0; k < FIELDS; k++) {
        const cJSON *unit = json_get(units, rows[k].name);
        if (!unit && (k == WARMEST || k == COLDEST)) {
            unit = json_get(units, rows[TEMPERATURE].name);
        }
        c->unit_known[k] = unit && cJSON_IsString(unit) &&
                           quantity_unit_of(rows[k].var, unit->valuestring, strlen(unit->valuestring), &c->unit[k]);
    }
    c->unit[WIND].scale *= WIND_10M_TO_2M;
}

static enum err_code read_times(struct forecast *c, struct arena *a, struct err *e)
{
    const cJSON *step, *steps = steps_of(c->f);
    int room = cJSON_GetArraySize(steps);
    if (room < 2 || room > STEPS_MOST) {
        return json_fail(&c->f->doc, ERR_DATA, BLOCK, e, "%d time steps; 2 to %d are read", room, STEPS_MOST);
    }
    c->at = arena_alloc(a, (size_t)room, sizeof *c->at);
    if (!c->at) {
        return err_set(e, ERR_NOMEM, "out of memory while reading %s", c->f->path);
    }
    cJSON_ArrayForEach(step, steps)
    {
        char path[64];
        bool zoned;
        const cJSON *time = json_get(step, "time");
        snprintf(path, sizeof path, BLOCK "[%zu].time", c->n);
        if (!cJSON_IsString(time) ||
            !instant_parse(time->valuestring, strlen(time->valuestring), &c->at[c->n], &zoned) || !zoned) {
            return json_fail(&c->f->doc, ERR_DATA, path, e, "not a time; \"2025-05-04T07:00:00Z\" is expected");
        }
        if (c->n > 0 && c->at[c->n] <= c->at[c->n - 1]) {
            return json_fail(&c->f->doc, ERR_DATA, path, e, "the time steps do not follow one another");
        }
        c->n++;
    }
    return ERR_OK;
}

/* The value of field k among the details of `part` of step i; NaN when there is none. */
static enum err_code value_of(const struct forecast *c, const cJSON *data, size_t i, const char *part, enum field k,
                              double *x, struct err *e)
{
    char path[128];
    const cJSON *cell = json_get(json_get(json_get(data, part), "details"), rows[k].name);
    *x = NAN;
    if (!cell) {
        return ERR_OK;
    }
    snprintf(path, sizeof path, BLOCK "[%zu].data.%s.details.%s", i, part, rows[k].name);
    if (!c->unit_known[k]) {
        return json_fail(&c->f->doc, ERR_DATA, path, e,
                         "the file says no unit for it that is known (properties.meta.units); %s are allowed",
                         quantity_units_allowed(rows[k].var));
    }
    return json_days_value(c->f, path, rows[k].var, &c->unit[k], NAN, cell, x, e);
}

static enum err_code add_state(struct forecast *c, const cJSON *data, size_t i, struct err *e)
{
    static const enum field means[] = {HUMIDITY, DEW_POINT, WIND};
    int64_t at = c->at[i], to = i + 1 < c->n ? c->at[i + 1] : at;
    double x;
    to = to < at + LONG_STEP ? to : at + LONG_STEP;
    enum err_code code = value_of(c, data, i, "instant", TEMPERATURE, &x, e);
    if (code == ERR_OK && !isnan(x)) {
        hours_instant(&c->h, at, to, x);
    }
    for (size_t k = 0; k < 3 && code == ERR_OK; k++) {
        code = value_of(c, data, i, "instant", means[k], &x, e);
        if (code == ERR_OK && !isnan(x)) {
            hours_mean(&c->h, rows[means[k]].var, at, to, x);
        }
    }
    return code;
}

static bool is_long_step(const struct forecast *c, size_t i)
{
    return i + 1 == c->n || c->at[i + 1] - c->at[i] >= LONG_STEP;
}

static enum err_code add_rain(struct forecast *c, const cJSON *data, size_t i, struct err *e)
{
    int64_t at = c->at[i], to = at + HOUR;
    double x = NAN;
    if (at < c->rain_to) {
        return ERR_OK;
    }
    enum err_code code = value_of(c, data, i, "next_1_hours", RAIN, &x, e);
    if (code == ERR_OK && isnan(x) && is_long_step(c, i)) {
        to = at + LONG_STEP;
        code = value_of(c, data, i, "next_6_hours", RAIN, &x, e);
    }
    if (code == ERR_OK && !isnan(x)) {
        hours_amount(&c->h, WEATHER_RAIN, at, to, x);
        c->rain_to = to;
    }
    return code;
}

static enum err_code add_extremes(struct forecast *c, const cJSON *data, size_t i, struct err *e)
{
    int64_t at = c->at[i];
    double high, low = NAN;
    bool inside = !is_long_step(c, i);
    enum err_code code = value_of(c, data, i, "next_6_hours", WARMEST, &high, e);
    code = code == ERR_OK ? value_of(c, data, i, "next_6_hours", COLDEST, &low, e) : code;
    if (code != ERR_OK) {
        return code;
    }
    if (!isnan(high)) {
        hours_extreme(&c->h, WEATHER_TMAX, at, at + LONG_STEP, high, inside);
    }
    if (!isnan(low)) {
        hours_extreme(&c->h, WEATHER_TMIN, at, at + LONG_STEP, low, inside);
    }
    if (!inside && i + 1 < c->n && (isnan(high) || isnan(low)) && at < c->coarse_at) {
        c->coarse_at = at;
    }
    return ERR_OK;
}

static enum err_code add_steps(struct forecast *c, struct err *e)
{
    const cJSON *step, *steps = steps_of(c->f);
    size_t i = 0;
    cJSON_ArrayForEach(step, steps)
    {
        const cJSON *data = json_get(step, "data");
        enum err_code code = add_state(c, data, i, e);
        code = code == ERR_OK ? add_rain(c, data, i, e) : code;
        code = code == ERR_OK ? add_extremes(c, data, i, e) : code;
        if (code != ERR_OK) {
            return code;
        }
        i++;
    }
    return ERR_OK;
}

/* The whole days as the one site of the set. */
static enum err_code finish(struct forecast *c, const struct clock_zone *z, const struct site *place, struct arena *a,
                            struct weather_set *set, struct err *e)
{
    struct weather_days days;
    enum err_code code = json_days_of_hours(c->f, BLOCK, &c->h, set, a, &days, e);
    if (code != ERR_OK) {
        return code;
    }
    if (c->coarse_at != INT64_MAX) {
        char date[DATE_TEXT];
        code =
            note_add(set, a, e,
                     "from %s on it has the temperature every 6 hours only, so minima are too high and maxima too low",
                     date_format(clock_zone_date(z, c->coarse_at), date));
    }
    memset(days.origin, ORIGIN_FORECAST, days.n);
    return code == ERR_OK ? json_days_finish(c->f, BLOCK, a, &days, place, set, e) : code;
}

static enum err_code read_bare(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    struct forecast c = {.f = f, .rain_to = INT64_MIN, .coarse_at = INT64_MAX};
    struct site place = json_days_point(f->doc.root);
    struct day_zone_file own = {"", NAN, place.longitude};
    struct clock_zone z;
    char said[DAY_ZONE_SAID];
    read_units(&c);
    enum err_code code = read_times(&c, a, e);
    code = code == ERR_OK ? day_zone_choose(f, &own, c.at[0], c.at[c.n - 1], a, &z, said, e) : code;
    code = code == ERR_OK ? hours_begin(&c.h, &z, c.at[0], c.at[c.n - 1] + LONG_STEP, f->path, a, e) : code;
    code = code == ERR_OK ? add_steps(&c, e) : code;
    code = code == ERR_OK && said[0] ? note_add(set, a, e, "%s", said) : code;
    return code == ERR_OK ? finish(&c, &z, &place, a, set, e) : code;
}

enum err_code norwegian_json_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    const char *key;
    struct weather_file bare = unwrap(f, &key);
    enum err_code code = read_bare(&bare, a, set, e);
    return *key ? json_days_within(f, key, code, e) : code;
}
