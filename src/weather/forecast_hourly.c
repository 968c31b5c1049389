/* The block of hours of a forecast service's answer, handed to the reducer.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/limits.h"
#include "weather/forecast_json.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define BLOCK "hourly"
#define STEP_LEAST (15 * 60)
#define STEP_MOST (6 * 3600)
#define STEPS_MOST (LIMIT_DAYS * 24)
#define JOULE_PER_MJ 1e6
/* Means of radiation, W/m2: a little below 0 is the zero error of the model or of the
 * instrument; the sun gives 1361 outside the air (from memory), bright clouds add some.
 * Limits: our judgement. */
#define RAD_ZERO_ERROR (-10.0)
#define RAD_MOST 1600.0

static const struct name_row {
    const char *name;
    enum weather_var var;
} name_rows[] = {
    {"temperature_2m", WEATHER_TMAX},     {"relative_humidity_2m", WEATHER_RH},
    {"relativehumidity_2m", WEATHER_RH},  {"dew_point_2m", WEATHER_TDEW},
    {"dewpoint_2m", WEATHER_TDEW},        {"precipitation", WEATHER_RAIN},
    {"shortwave_radiation", WEATHER_RAD}, {"wind_speed_10m", WEATHER_WIND},
    {"windspeed_10m", WEATHER_WIND},      {"et0_fao_evapotranspiration", WEATHER_ET0},
};

static enum err_code read_times(const struct forecast_answer *r, struct arena *a, struct forecast_hours *hours,
                                struct err *e)
{
    const struct json_doc *doc = &r->f->doc;
    const cJSON *time, *times = json_get(json_get(doc->root, BLOCK), "time");
    size_t room = cJSON_IsArray(times) ? (size_t)cJSON_GetArraySize(times) : 0;
    if (room < 2 || room > STEPS_MOST) {
        return json_fail(doc, ERR_DATA, BLOCK ".time", e, "%zu hours; 2 to %d are read", room, STEPS_MOST);
    }
    hours->at = arena_alloc(a, room, sizeof *hours->at);
    if (!hours->at) {
        return err_set(e, ERR_NOMEM, "out of memory while reading %s", r->f->path);
    }
    cJSON_ArrayForEach(time, times)
    {
        char path[64];
        size_t i = hours->n;
        snprintf(path, sizeof path, BLOCK ".time[%zu]", i);
        if (!forecast_instant(r, time, &hours->at[i])) {
            return json_fail(doc, ERR_DATA, path, e,
                             "not a time; \"2025-05-04T07:00\" beside \"utc_offset_seconds\", or seconds are expected");
        }
        hours->step = i == 1 ? hours->at[1] - hours->at[0] : hours->step;
        if (i > 0 && (hours->at[i] <= hours->at[i - 1] || hours->at[i] - hours->at[i - 1] < hours->step)) {
            return json_fail(doc, ERR_DATA, path, e, "the hours do not follow one another");
        }
        hours->n++;
    }
    if (hours->step < STEP_LEAST || hours->step > STEP_MOST) {
        return json_fail(doc, ERR_DATA, BLOCK ".time[1]", e, "steps of a quarter of an hour to 6 hours are read");
    }
    return ERR_OK;
}

static enum err_code pick_one(const struct forecast_answer *r, const cJSON *item, enum weather_var v,
                              struct forecast_hours *hours, struct err *e)
{
    const struct weather_file *f = r->f;
    char path[128];
    const cJSON *unit = json_get(json_get(f->doc.root, "hourly_units"), item->string);
    snprintf(path, sizeof path, BLOCK ".%s", item->string);
    enum err_code code = json_days_unit(f, path, v, unit, &hours->unit[v], e);
    if (code == ERR_OK && v == WEATHER_RAD && !strchr(unit->valuestring, 'W')) {
        return json_fail(&f->doc, ERR_DATA, path, e, "the unit \"%.40s\" is not read in hours; W/m2 is allowed",
                         unit->valuestring);
    }
    if (code == ERR_OK && (!cJSON_IsArray(item) || (size_t)cJSON_GetArraySize(item) != hours->n)) {
        return json_fail(&f->doc, ERR_DATA, path, e, "must be an array with one value for each of the %zu hours",
                         hours->n);
    }
    hours->values[v] = item;
    return code;
}

enum err_code forecast_hours_open(const struct forecast_answer *r, struct arena *a, struct forecast_hours *hours,
                                  struct err *e)
{
    const cJSON *item, *block = json_get(r->f->doc.root, BLOCK);
    enum err_code code = ERR_OK;
    *hours = (struct forecast_hours){0};
    if (block && !cJSON_IsObject(block) && !cJSON_IsNull(block)) {
        return json_fail(&r->f->doc, ERR_DATA, BLOCK, e,
                         "must be an object of arrays, one for \"time\" and one for each variable");
    }
    cJSON_ArrayForEach(item, block)
    {
        size_t k = 0;
        while (k < sizeof name_rows / sizeof name_rows[0] && strcmp(name_rows[k].name, item->string) != 0) {
            k++;
        }
        if (k == sizeof name_rows / sizeof name_rows[0]) {
            continue;
        }
        code = hours->n == 0 ? read_times(r, a, hours, e) : ERR_OK;
        code = code == ERR_OK ? pick_one(r, item, name_rows[k].var, hours, e) : code;
        if (code != ERR_OK) {
            return code;
        }
    }
    hours->unit[WEATHER_WIND].scale *= WIND_10M_TO_2M;
    return ERR_OK;
}

/* Radiation in W/m2; NaN for null. */
static enum err_code radiation(const struct weather_file *f, const char *path, const cJSON *cell, double *x,
                               struct err *e)
{
    *x = NAN;
    if (cJSON_IsNull(cell)) {
        return ERR_OK;
    }
    if (!cJSON_IsNumber(cell) || !(cell->valuedouble >= RAD_ZERO_ERROR && cell->valuedouble <= RAD_MOST)) {
        return json_fail(&f->doc, ERR_DATA, path, e, "must be a number of W/m2 from 0 to %g, or null", RAD_MOST);
    }
    *x = fmax(cell->valuedouble, 0);
    return ERR_OK;
}

static void hand_over(struct hours *h, const struct forecast_hours *hours, enum weather_var v, size_t i, double x)
{
    int64_t at = hours->at[i], step = hours->step;
    if (isnan(x)) {
        return;
    }
    switch (v) {
    case WEATHER_TMAX:
        hours_instant(h, at, at + step, x);
        break;
    case WEATHER_RAD:
        hours_amount(h, v, at - step, at, x * (double)step / JOULE_PER_MJ);
        if (i + 1 == hours->n && x == 0) { /* the hour that the last day lacks is as dark as the one before */
            hours_amount(h, v, at, at + step, 0);
        }
        break;
    case WEATHER_RAIN:
    case WEATHER_ET0:
        hours_amount(h, v, at - step, at, x);
        break;
    default:
        hours_mean(h, v, at, at + step, x);
    }
}

static enum err_code reduce_one(const struct forecast_answer *r, const struct forecast_hours *hours, enum weather_var v,
                                struct hours *h, struct err *e)
{
    const cJSON *cell;
    size_t i = 0;
    cJSON_ArrayForEach(cell, hours->values[v])
    {
        char path[128];
        double x;
        snprintf(path, sizeof path, BLOCK ".%s[%zu]", hours->values[v]->string, i);
        enum err_code code = v == WEATHER_RAD ? radiation(r->f, path, cell, &x, e)
                                              : json_days_value(r->f, path, v, &hours->unit[v], NAN, cell, &x, e);
        if (code != ERR_OK) {
            return code;
        }
        hand_over(h, hours, v, i++, x);
    }
    return ERR_OK;
}

enum err_code forecast_hours_reduce(const struct forecast_answer *r, const struct forecast_hours *hours,
                                    const struct clock_zone *z, struct arena *a, struct hours *h, struct err *e)
{
    int64_t first = hours->at[0] - hours->step, last = hours->at[hours->n - 1] + hours->step;
    enum err_code code = hours_begin(h, z, first, last, r->f->path, a, e);
    for (int v = 0; v < WEATHER_VARS && code == ERR_OK; v++) {
        code = hours->values[v] ? reduce_one(r, hours, (enum weather_var)v, h, e) : ERR_OK;
    }
    return code;
}
