/* Steps that the JSON layouts share. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/json_days.h"

#include "weather/crossed.h"

#include "weather/note.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum err_code json_days_need_temperature(const struct weather_file *f, const char *path, const cJSON *block,
                                         const struct json_series series[WEATHER_VARS], struct err *e)
{
    char found[200] = "";
    size_t used = 0;
    const cJSON *item;
    if (series[WEATHER_TMIN].values && series[WEATHER_TMAX].values) {
        return ERR_OK;
    }
    cJSON_ArrayForEach(item, block)
    {
        int more = used < sizeof found
                       ? snprintf(found + used, sizeof found - used, "%s%.40s", used ? ", " : "", item->string)
                       : 0;
        used += more > 0 ? (size_t)more : 0;
    }
    return json_fail(&f->doc, ERR_DATA, path, e,
                     "has no daily minimum and maximum temperature; ask for them (T2M_MIN, T2M_MAX or "
                     "temperature_2m_min, temperature_2m_max) and for rain and radiation. Found: %s",
                     found);
}

enum err_code json_days_unit(const struct weather_file *f, const char *path, enum weather_var v, const cJSON *text,
                             struct quantity_unit *unit, struct err *e)
{
    if (!cJSON_IsString(text)) {
        return json_fail(&f->doc, ERR_DATA, path, e, "the file does not say the unit of this series");
    }
    if (!quantity_unit_of(v, text->valuestring, strlen(text->valuestring), unit)) {
        return json_fail(&f->doc, ERR_DATA, path, e, "the unit \"%.40s\" is not known; %s are allowed",
                         text->valuestring, quantity_units_allowed(v));
    }
    return ERR_OK;
}

enum err_code json_days_within(const struct weather_file *f, const char *key, enum err_code code, struct err *e)
{
    if (code == ERR_DATA && e) {
        char field[sizeof e->field];
        snprintf(field, sizeof field, "%s%s%.100s", key, e->field[0] && e->field[0] != '[' ? "." : "", e->field);
        json_locate(&f->doc, field, &e->line, &e->column);
        err_at(e, f->path, e->line, e->column, field);
    }
    return code;
}

double json_days_number(const cJSON *object, const char *key)
{
    const cJSON *item = json_get(object, key);
    return cJSON_IsNumber(item) ? item->valuedouble : (double)NAN;
}

enum err_code json_days_pick(const struct weather_file *f, const char *path, const cJSON *block, json_unit_of *unit_of,
                             struct json_series series[WEATHER_VARS], struct err *e)
{
    const cJSON *item;
    memset(series, 0, WEATHER_VARS * sizeof *series);
    cJSON_ArrayForEach(item, block)
    {
        struct quantity_name name = quantity_of_name(item->string, strlen(item->string));
        struct json_series *s = &series[name.var];
        if (name.role != ROLE_VALUE || (s->values && (name.weak || !s->weak))) {
            continue;
        }
        char where[128];
        struct quantity_unit unit = {1, 0};
        snprintf(where, sizeof where, "%s.%s", path, item->string);
        enum err_code code = json_days_unit(f, where, name.var, unit_of(f, item->string), &unit, e);
        if (code != ERR_OK) {
            return code;
        }
        unit.scale *= name.unit.scale; /* 10 m to 2 m */
        *s = (struct json_series){.values = item, .unit = unit, .weak = name.weak};
    }
    return ERR_OK;
}

unsigned json_days_vars(const struct json_series series[WEATHER_VARS])
{
    unsigned vars = 0;
    for (int v = 0; v < WEATHER_VARS; v++) {
        vars |= series[v].values ? 1u << v : 0;
    }
    return vars;
}

enum err_code json_days_value(const struct weather_file *f, const char *path, enum weather_var v,
                              const struct quantity_unit *unit, double fill, const cJSON *cell, double *x,
                              struct err *e)
{
    *x = NAN;
    if (cJSON_IsNull(cell)) {
        return ERR_OK;
    }
    if (!cJSON_IsNumber(cell)) {
        return json_fail(&f->doc, ERR_DATA, path, e, "must be a number, or null when nothing is known");
    }
    if (cell->valuedouble == fill) {
        return ERR_OK;
    }
    *x = cell->valuedouble * unit->scale + unit->offset;
    if (quantity_judge(v, cell->valuedouble, x) == QUANTITY_IMPOSSIBLE) {
        return json_fail(&f->doc, ERR_DATA, path, e, "%g is not possible; %s is allowed", cell->valuedouble,
                         quantity_range(v)->allowed);
    }
    return ERR_OK;
}

static enum err_code check_crossed(const struct weather_file *f, const char *path, const struct weather_days *w,
                                   struct err *e)
{
    struct crossed days = crossed_days(w);
    char date[DATE_TEXT];
    if (!crossed_mostly(&days)) {
        return ERR_OK;
    }
    return json_fail(&f->doc, ERR_DATA, path, e, CROSSED_SENTENCE, date_format(w->day0 + (date_t)days.first, date),
                     w->col[WEATHER_TMIN][days.first], w->col[WEATHER_TMAX][days.first], days.n, days.paired);
}

static bool any_value(const struct weather_days *w, size_t i)
{
    for (int v = 0; v < WEATHER_VARS; v++) {
        if (!isnan(weather_at(w, (enum weather_var)v, i))) {
            return true;
        }
    }
    return false;
}

static void leave_out_empty(struct weather_days *w)
{
    for (int v = 0; v < WEATHER_VARS; v++) {
        size_t i = 0;
        while (w->col[v] && i < w->n && isnan(w->col[v][i])) {
            i++;
        }
        w->col[v] = i < w->n ? w->col[v] : NULL;
    }
}

enum err_code json_days_finish(const struct weather_file *f, const char *path, struct arena *a,
                               struct weather_days *days, const struct site *place, struct weather_set *set,
                               struct err *e)
{
    enum err_code code = check_crossed(f, path, days, e);
    if (code != ERR_OK) {
        return code;
    }
    leave_out_empty(days);
    for (size_t i = 0; i < days->n; i++) {
        days->origin[i] = any_value(days, i) ? days->origin[i] : (uint8_t)ORIGIN_NONE;
    }
    set->site = arena_alloc(a, 1, sizeof *set->site);
    if (!set->site) {
        return err_set(e, ERR_NOMEM, "out of memory while reading %s", f->path);
    }
    set->n = 1;
    set->site[0] = (struct weather_site){.name = "", .place = *place, .days = *days};
    return ERR_OK;
}

struct site json_days_point(const cJSON *root)
{
    struct site place = {.latitude = NAN, .longitude = NAN, .elevation_m = NAN};
    double *part[] = {&place.longitude, &place.latitude, &place.elevation_m};
    const cJSON *number, *coordinates = json_get(json_get(root, "geometry"), "coordinates");
    size_t i = 0;
    cJSON_ArrayForEach(number, coordinates)
    {
        if (i < 3 && cJSON_IsNumber(number)) {
            *part[i] = number->valuedouble;
        }
        i++;
    }
    return place;
}

enum err_code json_days_of_hours(const struct weather_file *f, const char *path, const struct hours *h,
                                 struct weather_set *set, struct arena *a, struct weather_days *days, struct err *e)
{
    size_t first, n;
    char left_out[100];
    hours_whole(h, &first, &n);
    if (n == 0) {
        return json_fail(&f->doc, ERR_DATA, path, e,
                         "does not hold one whole day of the place%s%s; ask for more days, or for daily values",
                         set->note[0] ? "; " : "", set->note);
    }
    if (!hours_days(h, first, n, a, days)) {
        return err_set(e, ERR_NOMEM, "out of memory while reading %s", f->path);
    }
    hours_left_out(h, first, n, left_out, sizeof left_out);
    return left_out[0] ? note_add(set, a, e, "%s", left_out) : ERR_OK;
}
