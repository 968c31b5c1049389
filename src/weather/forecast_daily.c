/* The block of days of a forecast service's answer: arrays by name. Wind: only the mean
 * is used; the day's strongest wind says nothing about the day.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/limits.h"
#include "weather/forecast_json.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#define BLOCK "daily"
#define EVERY_COLUMN ((1u << WEATHER_VARS) - 1)

static const cJSON *unit_of(const struct weather_file *f, const char *name)
{
    return json_get(json_get(f->doc.root, "daily_units"), name);
}

static enum err_code read_times(const struct forecast_answer *r, date_t *first, size_t *n, struct err *e)
{
    const struct json_doc *doc = &r->f->doc;
    const cJSON *time, *times = json_get(json_get(doc->root, BLOCK), "time");
    *n = 0;
    cJSON_ArrayForEach(time, times)
    {
        char path[64];
        date_t date = forecast_date(r, time);
        snprintf(path, sizeof path, BLOCK ".time[%zu]", *n);
        if (date == DATE_NONE) {
            return json_fail(doc, ERR_DATA, path, e, "not a date; \"2025-05-04\" or seconds are expected");
        }
        *first = *n == 0 ? date : *first;
        if (date - *first != (date_t)*n) {
            return json_fail(doc, ERR_DATA, path, e, "the days do not follow one another");
        }
        if (++*n >= LIMIT_DAYS) {
            return json_fail(doc, ERR_DATA, path, e, "more than %d days", LIMIT_DAYS);
        }
    }
    return *n ? ERR_OK : json_fail(doc, ERR_DATA, BLOCK, e, "has no days (\"time\" is missing or empty)");
}

static enum err_code fill_column(const struct weather_file *f, const struct json_series *s, enum weather_var v,
                                 struct weather_days *w, struct err *e)
{
    char path[128];
    const cJSON *cell;
    size_t i = 0;
    assert(s->values != NULL);
    cJSON_ArrayForEach(cell, s->values)
    {
        snprintf(path, sizeof path, BLOCK ".%s[%zu]", s->values->string, i);
        if (i == w->n) {
            break;
        }
        enum err_code code = json_days_value(f, path, v, &s->unit, NAN, cell, &w->col[v][i++], e);
        if (code != ERR_OK) {
            return code;
        }
    }
    snprintf(path, sizeof path, BLOCK ".%s", s->values->string);
    if (i < w->n || cell || !cJSON_IsArray(s->values)) {
        return json_fail(&f->doc, ERR_DATA, path, e, "must be an array with one value for each of the %zu days", w->n);
    }
    return ERR_OK;
}

enum err_code forecast_daily_warmth(const struct forecast_answer *r, struct err *e)
{
    struct json_series series[WEATHER_VARS] = {{0}};
    const cJSON *item, *block = json_get(r->f->doc.root, BLOCK);
    cJSON_ArrayForEach(item, block)
    {
        struct quantity_name name = quantity_of_name(item->string, strlen(item->string));
        if (name.role == ROLE_VALUE) {
            series[name.var].values = item;
        }
    }
    return json_days_need_temperature(r->f, BLOCK, block, series, e);
}

enum err_code forecast_daily_read(const struct forecast_answer *r, struct arena *a, struct weather_days *days,
                                  struct err *e)
{
    struct json_series series[WEATHER_VARS];
    date_t first = 0;
    size_t n;
    enum err_code code = json_days_pick(r->f, BLOCK, json_get(r->f->doc.root, BLOCK), unit_of, series, e);
    code = code == ERR_OK ? read_times(r, &first, &n, e) : code;
    if (code == ERR_OK && !weather_days_alloc(days, a, first, n, EVERY_COLUMN)) {
        return err_set(e, ERR_NOMEM, "out of memory while reading %s", r->f->path);
    }
    for (int v = 0; v < WEATHER_VARS && code == ERR_OK; v++) {
        code = series[v].values ? fill_column(r->f, &series[v], (enum weather_var)v, days, e) : ERR_OK;
    }
    return code;
}
