/* Daily point answer of the global reanalysis: properties.parameter.NAME."YYYYMMDD",
 * units under parameters.NAME.units, one fill value for what is missing. The newest
 * days often have temperature and no radiation yet: that stays missing radiation.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/limits.h"
#include "base/num.h"
#include "weather/json_days.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define BLOCK "properties.parameter"
#define FILL_USUAL (-999.0)
/* Hourly files say "mm/day" of their hourly rain: refused rather than trusted. */
#define FETCH_DAILY                                                                                                    \
    "ask the service for daily ones of one point (temporal/daily/point with T2M_MIN, T2M_MAX, PRECTOTCORR, "           \
    "ALLSKY_SFC_SW_DWN)"

bool reanalysis_json_is(const struct weather_file *f)
{
    return cJSON_IsObject(json_get(json_get(f->doc.root, "properties"), "parameter"));
}

static const cJSON *unit_of(const struct weather_file *f, const char *name)
{
    return json_get(json_get(json_get(f->doc.root, "parameters"), name), "units");
}

static void path_of(char *path, size_t size, const cJSON *series, const cJSON *cell)
{
    snprintf(path, size, BLOCK ".%s.%s", series->string, cell->string);
}

static enum err_code date_of_key(const struct weather_file *f, const cJSON *series, const cJSON *cell, date_t *date,
                                 struct err *e)
{
    const char *key = cell->string;
    size_t n = strlen(key);
    long number = 0;
    char path[128];
    bool digits = num_parse_long(key, n, 0, 9999999999, &number) && key[0] != '+';
    path_of(path, sizeof path, series, cell);
    if (digits && n == 10) {
        return json_fail(&f->doc, ERR_DATA, path, e, "these are hourly values; " FETCH_DAILY);
    }
    if (digits && n == 6) {
        return json_fail(&f->doc, ERR_DATA, path, e, "these are monthly values; " FETCH_DAILY);
    }
    *date =
        digits && n == 8 ? date_make((int)(number / 10000), (int)(number / 100 % 100), (int)(number % 100)) : DATE_NONE;
    return *date != DATE_NONE
               ? ERR_OK
               : json_fail(&f->doc, ERR_DATA, path, e, "\"%.40s\" is not a date; 20240514 is expected", key);
}

static enum err_code not_by_date(const struct weather_file *f, const cJSON *series, struct err *e)
{
    char path[128];
    snprintf(path, sizeof path, BLOCK ".%s", series->string);
    return json_fail(&f->doc, ERR_DATA, path, e, "must be an object of dates and values: {\"20240514\": 12.5, ...}");
}

/* First and last date of all series. */
static enum err_code find_span(const struct weather_file *f, const struct json_series series[WEATHER_VARS],
                               date_t *first, date_t *last, struct err *e)
{
    *first = INT32_MAX;
    *last = DATE_NONE;
    for (int v = 0; v < WEATHER_VARS; v++) {
        const cJSON *cell, *values = series[v].values;
        if (values && !cJSON_IsObject(values)) {
            return not_by_date(f, values, e);
        }
        cJSON_ArrayForEach(cell, values)
        {
            date_t date = DATE_NONE;
            enum err_code code = date_of_key(f, values, cell, &date, e);
            if (code != ERR_OK) {
                return code;
            }
            *first = date < *first ? date : *first;
            *last = date > *last ? date : *last;
        }
    }
    if (*last == DATE_NONE) {
        return json_fail(&f->doc, ERR_DATA, BLOCK, e, "has no days");
    }
    if (*last - *first >= LIMIT_DAYS) {
        return json_fail(&f->doc, ERR_DATA, BLOCK, e, "spans more than %d days", LIMIT_DAYS);
    }
    return ERR_OK;
}

static double fill_value(const struct weather_file *f)
{
    const cJSON *fill = json_get(json_get(f->doc.root, "header"), "fill_value");
    return cJSON_IsNumber(fill) ? fill->valuedouble : FILL_USUAL;
}

static enum err_code fill_column(const struct weather_file *f, const struct json_series *s, enum weather_var v,
                                 struct weather_days *w, struct err *e)
{
    const cJSON *cell;
    double fill = fill_value(f);
    cJSON_ArrayForEach(cell, s->values)
    {
        date_t date = DATE_NONE;
        char path[128];
        path_of(path, sizeof path, s->values, cell);
        enum err_code code = date_of_key(f, s->values, cell, &date, e);
        if (code == ERR_OK) {
            code = json_days_value(f, path, v, &s->unit, fill, cell, &w->col[v][date - w->day0], e);
        }
        if (code != ERR_OK) {
            return code;
        }
    }
    return ERR_OK;
}

static enum err_code fill_all(const struct weather_file *f, const struct json_series series[WEATHER_VARS],
                              struct weather_days *w, struct err *e)
{
    for (int v = 0; v < WEATHER_VARS; v++) {
        enum err_code code = series[v].values ? fill_column(f, &series[v], (enum weather_var)v, w, e) : ERR_OK;
        if (code != ERR_OK) {
            return code;
        }
    }
    return ERR_OK;
}

enum err_code reanalysis_json_read(const struct weather_file *f, struct arena *a, struct weather_set *set,
                                   struct err *e)
{
    struct json_series series[WEATHER_VARS];
    struct weather_days days;
    date_t first, last;
    const cJSON *block = json_get(json_get(f->doc.root, "properties"), "parameter");
    const cJSON *any = block->child && cJSON_IsObject(block->child) ? block->child->child : NULL;
    date_t unused;
    enum err_code code =
        any ? date_of_key(f, block->child, any, &unused, e) : ERR_OK; /* hourly, monthly: say so first */
    code = code == ERR_OK ? json_days_pick(f, BLOCK, block, unit_of, series, e) : code;
    code = code == ERR_OK ? json_days_need_temperature(f, BLOCK, block, series, e) : code;
    code = code == ERR_OK ? find_span(f, series, &first, &last, e) : code;
    if (code != ERR_OK) {
        return code;
    }
    if (!weather_days_alloc(&days, a, first, (size_t)(last - first) + 1, json_days_vars(series))) {
        return err_set(e, ERR_NOMEM, "out of memory while reading %s", f->path);
    }
    memset(days.origin, ORIGIN_RECORDED, days.n);
    code = fill_all(f, series, &days, e);
    struct site place = json_days_point(f->doc.root);
    return code == ERR_OK ? json_days_finish(f, BLOCK, a, &days, &place, set, e) : code;
}
