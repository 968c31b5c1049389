/* Answer of the forecast service for one place: a block of days, a block of hours, or
 * both.
 *
 * Days are preferred where they are cut at the place's midnight, hours fill what they
 * lack, cut at the same midnight. Days cut elsewhere give way to hours, which can be cut
 * rightly; without hours they are used, with a doubt.
 *
 * The layout does not say where the record ends and the forecast begins. What can be
 * known from the content: the day of the "current" block, when it was asked for: days
 * before it are recorded (analysed), that day and later ones forecast. Without one, an
 * answer of more than 108 days can only be the archive's (a forecast reaches back 92
 * days and ahead 16), so all of it is recorded; a shorter one is all marked forecast,
 * the careful choice: any recorded file wins over it when the two are merged.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/forecast_json.h"

#include "weather/day_zone.h"
#include "weather/instant.h"
#include "weather/note.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define FORECAST_DAYS_MOST (92 + 16)
#define DAYS_ALIKE_S 3600 /* days cut an hour apart share 23 hours: the same days, our judgement */
#define SECONDS_MOST 1e10 /* the year 2286 */

bool forecast_json_is(const struct weather_file *f)
{
    return cJSON_IsObject(json_get(f->doc.root, "daily")) || cJSON_IsObject(json_get(f->doc.root, "hourly"));
}

static double clock_offset(const struct forecast_answer *r)
{
    return isnan(r->offset) ? 0 : r->offset;
}

static bool seconds_of(const cJSON *time, int64_t *s)
{
    if (!cJSON_IsNumber(time) || !(fabs(time->valuedouble) < SECONDS_MOST)) {
        return false;
    }
    *s = (int64_t)time->valuedouble;
    return true;
}

date_t forecast_date(const struct forecast_answer *r, const cJSON *time)
{
    int64_t s;
    if (cJSON_IsString(time)) {
        size_t n = strlen(time->valuestring);
        bool plain = n == 10 || (n > 10 && time->valuestring[10] == 'T');
        return plain ? date_parse_iso(time->valuestring, 10) : DATE_NONE;
    }
    return seconds_of(time, &s) ? (date_t)floor(((double)s + clock_offset(r)) / CLOCK_DAY_SECONDS) : DATE_NONE;
}

bool forecast_instant(const struct forecast_answer *r, const cJSON *time, int64_t *instant)
{
    bool zoned;
    if (!cJSON_IsString(time)) {
        return seconds_of(time, instant);
    }
    if (!instant_parse(time->valuestring, strlen(time->valuestring), instant, &zoned)) {
        return false;
    }
    *instant -= zoned ? 0 : (int64_t)clock_offset(r);
    return zoned || !isnan(r->offset);
}

static struct forecast_answer answer_of(const struct weather_file *f)
{
    const cJSON *root = f->doc.root, *zone = json_get(root, "timezone");
    struct forecast_answer r = {.f = f,
                                .place = {.latitude = json_days_number(root, "latitude"),
                                          .longitude = json_days_number(root, "longitude"),
                                          .elevation_m = json_days_number(root, "elevation")},
                                .offset = json_days_number(root, "utc_offset_seconds")};
    if (!(fabs(r.offset) <= CLOCK_DAY_SECONDS)) {
        r.offset = NAN;
    }
    if (cJSON_IsString(zone)) {
        snprintf(r.place.timezone, sizeof r.place.timezone, "%s", zone->valuestring);
    }
    return r;
}

static const cJSON *present_of(const struct forecast_answer *r)
{
    const cJSON *current = json_get(r->f->doc.root, "current");
    return json_get(current ? current : json_get(r->f->doc.root, "current_weather"), "time");
}

static void set_origins(struct weather_days *w, date_t today)
{
    date_t none = w->n > FORECAST_DAYS_MOST ? w->day0 + (date_t)w->n : w->day0;
    today = today == DATE_NONE ? none : today;
    for (size_t i = 0; i < w->n; i++) {
        w->origin[i] = w->day0 + (date_t)i < today ? ORIGIN_RECORDED : ORIGIN_FORECAST;
    }
}

/* Cells that the days lack; minimum and maximum together or not at all. */
static void fill_from_hours(struct weather_days *w, const struct hours *h)
{
    for (size_t i = 0; i < w->n; i++) {
        int64_t k = (int64_t)w->day0 + (int64_t)i - h->day0;
        if (k < 0 || k >= (int64_t)h->n) {
            continue;
        }
        bool cold = isnan(w->col[WEATHER_TMIN][i]) && isnan(w->col[WEATHER_TMAX][i]);
        for (int v = 0; v < WEATHER_VARS; v++) {
            bool wanted = v == WEATHER_TMIN || v == WEATHER_TMAX ? cold : isnan(w->col[v][i]);
            w->col[v][i] = wanted ? hours_value(h, (enum weather_var)v, (size_t)k) : w->col[v][i];
        }
    }
}

/* The block of days, completed from the hours. */
static enum err_code read_days(const struct forecast_answer *r, const struct forecast_hours *hours, struct arena *a,
                               struct weather_days *w, struct err *e)
{
    enum err_code code = forecast_daily_read(r, a, w, e);
    if (code == ERR_OK && hours->n) {
        struct clock_zone z;
        struct hours h;
        code = clock_zone_fixed(&z, (int32_t)clock_offset(r), a, e);
        code = code == ERR_OK ? forecast_hours_reduce(r, hours, &z, a, &h, e) : code;
        if (code == ERR_OK) {
            fill_from_hours(w, &h);
        }
    }
    if (code == ERR_OK) {
        set_origins(w, forecast_date(r, present_of(r)));
    }
    return code;
}

/* The hours alone, cut into the days of z. */
static enum err_code read_hours(const struct forecast_answer *r, const struct forecast_hours *hours,
                                const struct clock_zone *z, struct arena *a, struct weather_days *w,
                                struct weather_set *set, struct err *e)
{
    struct hours h;
    int64_t present;
    enum err_code code = forecast_hours_reduce(r, hours, z, a, &h, e);
    code = code == ERR_OK ? json_days_of_hours(r->f, "hourly", &h, set, a, w, e) : code;
    if (code != ERR_OK) {
        return code;
    }
    set_origins(w, forecast_instant(r, present_of(r), &present) ? clock_zone_date(z, present) : DATE_NONE);
    return ERR_OK;
}

/* Days cut at another place's midnight mix two nights: worth telling, not refusing. */
static enum err_code doubt_days(const struct forecast_answer *r, struct arena *a, struct weather_set *set,
                                struct err *e)
{
    double stray = day_zone_stray(r->offset, r->place.longitude);
    if (!(fabs(stray) > DAY_ZONE_STRAY_H)) {
        return ERR_OK;
    }
    return note_add(set, a, e,
                    "its days begin about %.0f h away from the midnight of the place; ask the service for the place's "
                    "own time zone (timezone=auto)",
                    fabs(stray));
}

/* Reads the days when they are the place's, or when there is nothing else. */
static enum err_code read_better(const struct forecast_answer *r, const struct forecast_hours *hours, struct arena *a,
                                 struct weather_days *w, struct weather_set *set, struct err *e)
{
    bool days = cJSON_IsObject(json_get(r->f->doc.root, "daily"));
    if (!hours->values[WEATHER_TMAX]) {
        enum err_code code = days ? doubt_days(r, a, set, e) : ERR_OK;
        code = code == ERR_OK && days ? read_days(r, hours, a, w, e) : code;
        return days ? code
                    : json_fail(&r->f->doc, ERR_DATA, "hourly", e,
                                "has no temperature (temperature_2m); ask for it, for precipitation and "
                                "shortwave_radiation, or for daily values");
    }
    struct clock_zone z;
    char said[DAY_ZONE_SAID];
    struct day_zone_file own = {r->place.timezone, r->offset, r->place.longitude};
    enum err_code code = day_zone_choose(r->f, &own, hours->at[0], hours->at[hours->n - 1], a, &z, said, e);
    if (code != ERR_OK) {
        return code;
    }
    double apart = clock_zone_offset(&z, hours->at[hours->n / 2]) - clock_offset(r);
    if (days && fabs(apart) <= DAYS_ALIKE_S) {
        return read_days(r, hours, a, w, e);
    }
    code = said[0] ? note_add(set, a, e, "%s", said) : ERR_OK;
    if (code == ERR_OK && days) {
        code = note_add(set, a, e, "its own days begin %.1f h away from the midnight of the place and are not used",
                        fabs(apart) / 3600);
    }
    return code == ERR_OK ? read_hours(r, hours, &z, a, w, set, e) : code;
}

enum err_code forecast_json_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    struct forecast_answer r = answer_of(f);
    struct forecast_hours hours;
    struct weather_days days;
    const cJSON *daily = json_get(f->doc.root, "daily");
    enum err_code code = forecast_hours_open(&r, a, &hours, e);
    if (code == ERR_OK && cJSON_IsObject(daily) && !hours.values[WEATHER_TMAX]) {
        code = forecast_daily_warmth(&r, e);
    }
    code = code == ERR_OK ? read_better(&r, &hours, a, &days, set, e) : code;
    const char *block = cJSON_IsObject(daily) ? "daily" : "hourly";
    return code == ERR_OK ? json_days_finish(f, block, a, &days, &r.place, set, e) : code;
}
