/* Daily CSV of the Queensland climate service, for one station or one cell of its grid:
 * the date is named YYYY-MM-DD, a code of its source stands behind each value, and the
 * last column of the first rows tells of the place in words.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/num.h"
#include "weather/station_table.h"

#include <math.h>
#include <string.h>

/* A value of code 7 is the long-term average of its day of the year; 75, its code of two
 * digits, is from memory. 0 is observed, others are interpolated or worked out. */
static bool judge_source(const char *text, size_t n, double *x)
{
    long code;
    if (!num_parse_long(text, n, 0, 99, &code)) {
        return false;
    }
    *x = code == 7 || code == 75 ? (double)NAN : *x;
    return true;
}

static const struct csv_known columns[] = {
    {"station", ROLE_SITE, 0, 0, 0, false, NULL},
    {"latitude", ROLE_LATITUDE, 0, 0, 0, false, NULL},
    {"longitude", ROLE_LONGITUDE, 0, 0, 0, false, NULL},
    {"YYYY-MM-DD", ROLE_DATE, 0, 0, 0, false, NULL},
    {"daily_rain", ROLE_VALUE, WEATHER_RAIN, 0, 0, false, NULL},
    {"daily_rain_source", ROLE_FLAG, WEATHER_RAIN, 0, 0, false, judge_source},
    {"max_temp", ROLE_VALUE, WEATHER_TMAX, 0, 0, false, NULL},
    {"max_temp_source", ROLE_FLAG, WEATHER_TMAX, 0, 0, false, judge_source},
    {"min_temp", ROLE_VALUE, WEATHER_TMIN, 0, 0, false, NULL},
    {"min_temp_source", ROLE_FLAG, WEATHER_TMIN, 0, 0, false, judge_source},
    {"radiation", ROLE_VALUE, WEATHER_RAD, 0, 0, false, NULL},
    {"radiation_source", ROLE_FLAG, WEATHER_RAD, 0, 0, false, judge_source},
};

static const struct station_table table = {
    .all = {"YYYY-MM-DD"},
    .any = {"daily_rain_source", "max_temp_source", "min_temp_source", "radiation_source"},
    .names = "station,YYYY-MM-DD,daily_rain,daily_rain_source,...",
    .why = "the service put long-term averages (code 7) in their place, which are no weather",
    .known = columns,
    .n_known = sizeof columns / sizeof columns[0],
    .alone = true,
};

bool patched_point_is(const struct weather_file *f)
{
    struct line l;
    return station_table_find(f, &table, &l);
}

/* The number behind `"latitude=` at the end of a row; *x stays when there is none. */
static void number_behind(const struct line *l, const char *name, double *x)
{
    const char *text = memmem(l->text, l->n, name, strlen(name));
    if (!text) {
        return;
    }
    const char *stop = l->text + l->n;
    size_t n = 0;
    double value;
    for (text += strlen(name); text < stop && *text == ' ';) {
        text++;
    }
    while (text + n < stop && strchr("+-.0123456789", text[n]) && text[n]) {
        n++;
    }
    if (num_parse(text, n, '.', &value)) {
        *x = value;
    }
}

enum err_code patched_point_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    struct station_about about = {.place = csv_no_place()};
    struct line l = {0};
    while (line_next(f, &l)) {
        number_behind(&l, "\"latitude=", &about.place.latitude);
        number_behind(&l, "\"longitude=", &about.place.longitude);
        number_behind(&l, "\"elevation=", &about.place.elevation_m);
    }
    enum err_code code = station_table_read(f, &table, &about, a, set, e);
    for (size_t i = 0; code == ERR_OK && set->n > 1 && i < set->n; i++) {
        set->site[i].place = csv_no_place(); /* the words are of one of them */
    }
    return code;
}
