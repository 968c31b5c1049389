/* Daily answer of the forecast service: arrays by name in a block of days.
 *
 * The layout does not say where the record ends and the forecast begins. What can be
 * known from the content: the day of the "current" block, when it was asked for: days
 * before it are recorded (analysed), that day and later ones forecast. Without one, an
 * answer of more than 108 days can only be the archive's (a forecast reaches back 92
 * days and ahead 16), so all of it is recorded; a shorter one is all marked forecast,
 * the careful choice: any recorded file wins over it when the two are merged.
 * Wind: only the mean is used; the day's strongest wind says nothing about the day.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/limits.h"
#include "weather/json_days.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define BLOCK "daily"
#define FORECAST_DAYS_MOST (92 + 16)
#define DAY_SECONDS 86400.0
#define SHIFT_HOURS_MOST 3.5 /* legal time strays so far from the sun's, our judgement */

bool forecast_json_is(const struct weather_file *f)
{
    return cJSON_IsObject(json_get(f->doc.root, "daily"));
}

static const cJSON *unit_of(const struct weather_file *f, const char *name)
{
    return json_get(json_get(f->doc.root, "daily_units"), name);
}

static double number_of(const struct weather_file *f, const char *key)
{
    const cJSON *item = json_get(f->doc.root, key);
    return cJSON_IsNumber(item) ? item->valuedouble : (double)NAN;
}

/* A date as "2025-05-04", with or without a time behind it, or in seconds of UTC, to
 * which the offset of the place is added first. */
static date_t date_of(const struct weather_file *f, const cJSON *time)
{
    if (cJSON_IsString(time)) {
        size_t n = strlen(time->valuestring);
        bool plain = n == 10 || (n > 10 && time->valuestring[10] == 'T');
        return plain ? date_parse_iso(time->valuestring, 10) : DATE_NONE;
    }
    if (!cJSON_IsNumber(time)) {
        return DATE_NONE;
    }
    double offset = number_of(f, "utc_offset_seconds");
    double day = floor((time->valuedouble + (isnan(offset) ? 0 : offset)) / DAY_SECONDS);
    return day > -100000 && day < 100000 ? (date_t)day : DATE_NONE;
}

static enum err_code read_times(const struct weather_file *f, date_t *first, size_t *n, struct err *e)
{
    const cJSON *time, *times = json_get(json_get(f->doc.root, BLOCK), "time");
    *n = 0;
    cJSON_ArrayForEach(time, times)
    {
        char path[64];
        date_t date = date_of(f, time);
        snprintf(path, sizeof path, BLOCK ".time[%zu]", *n);
        if (date == DATE_NONE) {
            return json_fail(&f->doc, ERR_DATA, path, e, "not a date; \"2025-05-04\" or seconds are expected");
        }
        *first = *n == 0 ? date : *first;
        if (date - *first != (date_t)*n) {
            return json_fail(&f->doc, ERR_DATA, path, e, "the days do not follow one another");
        }
        if (++*n >= LIMIT_DAYS) {
            return json_fail(&f->doc, ERR_DATA, path, e, "more than %d days", LIMIT_DAYS);
        }
    }
    return *n ? ERR_OK : json_fail(&f->doc, ERR_DATA, BLOCK, e, "has no days (\"time\" is missing or empty)");
}

static enum err_code fill_column(const struct weather_file *f, const struct json_series *s, enum weather_var v,
                                 struct weather_days *w, struct err *e)
{
    char path[128];
    const cJSON *cell;
    size_t i = 0;
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

/* The first day that is forecast. */
static date_t forecast_from(const struct weather_file *f, const struct weather_days *w)
{
    const cJSON *current = json_get(f->doc.root, "current");
    current = current ? current : json_get(f->doc.root, "current_weather");
    date_t today = date_of(f, json_get(current, "time"));
    if (today != DATE_NONE) {
        return today;
    }
    return w->n > FORECAST_DAYS_MOST ? w->day0 + (date_t)w->n : w->day0;
}

/* Days cut at another place's midnight mix two nights: worth telling, not refusing. */
static const char *note_of(const struct weather_file *f, struct arena *a, const struct site *place)
{
    double offset = number_of(f, "utc_offset_seconds"), shift = offset / 3600 - place->longitude / 15;
    shift -= 24 * round(shift / 24);
    if (!(fabs(shift) > SHIFT_HOURS_MOST)) {
        return "";
    }
    char text[200];
    snprintf(text, sizeof text,
             "its days begin about %.0f h away from the midnight of the place; ask the service for the place's own "
             "time zone (timezone=auto)",
             fabs(shift));
    return arena_strdup(a, text);
}

enum err_code forecast_json_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    struct json_series series[WEATHER_VARS];
    struct weather_days days;
    date_t first = 0;
    size_t n;
    enum err_code code = json_days_pick(f, BLOCK, json_get(f->doc.root, BLOCK), unit_of, series, e);
    code = code == ERR_OK ? read_times(f, &first, &n, e) : code;
    if (code != ERR_OK) {
        return code;
    }
    if (!weather_days_alloc(&days, a, first, n, json_days_vars(series))) {
        return err_set(e, ERR_NOMEM, "out of memory while reading %s", f->path);
    }
    code = fill_all(f, series, &days, e);
    date_t today = forecast_from(f, &days);
    for (size_t i = 0; i < n; i++) {
        days.origin[i] = days.day0 + (date_t)i < today ? ORIGIN_RECORDED : ORIGIN_FORECAST;
    }
    struct site place = {.latitude = number_of(f, "latitude"),
                         .longitude = number_of(f, "longitude"),
                         .elevation_m = number_of(f, "elevation")};
    code = code == ERR_OK ? json_days_finish(f, BLOCK, a, &days, &place, set, e) : code;
    if (code == ERR_OK) {
        set->note = note_of(f, a, &place);
        code = set->note ? ERR_OK : err_set(e, ERR_NOMEM, "out of memory while reading %s", f->path);
    }
    return code;
}
