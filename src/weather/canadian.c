/* Daily values of the Canadian weather service: one station and year or month a file,
 * everything in quotes, and behind each value a column with its flag. Old files tell of
 * the station in a preamble, new ones in columns; both run ahead of time with empty rows.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/num.h"
#include "weather/canadian_flag.h"
#include "weather/station_table.h"

#include <string.h>

static const struct csv_known columns[] = {
    {"Date/Time", ROLE_DATE, 0, 0, 0, false, NULL},
    {"Station Name", ROLE_SITE, 0, 0, 0, false, NULL},
    {"Latitude (y)", ROLE_LATITUDE, 0, 0, 0, false, NULL},
    {"Longitude (x)", ROLE_LONGITUDE, 0, 0, 0, false, NULL},
    {"Min Temp (C)", ROLE_VALUE, WEATHER_TMIN, 0, 0, false, NULL},
    {"Min Temp Flag", ROLE_FLAG, WEATHER_TMIN, 0, 0, false, canadian_flag},
    {"Max Temp (C)", ROLE_VALUE, WEATHER_TMAX, 0, 0, false, NULL},
    {"Max Temp Flag", ROLE_FLAG, WEATHER_TMAX, 0, 0, false, canadian_flag},
    {"Total Precip (mm)", ROLE_VALUE, WEATHER_RAIN, 0, 0, false, NULL},
    {"Total Precip Flag", ROLE_FLAG, WEATHER_RAIN, 0, 0, false, canadian_flag},
};

static const struct station_table table = {
    .all = {"Date/Time", "Max Temp Flag"},
    .names = "\"Date/Time\", \"Max Temp (C)\", \"Max Temp Flag\", ...",
    .why = CANADIAN_FLAG_WHY,
    .known = columns,
    .n_known = sizeof columns / sizeof columns[0],
};

bool canadian_is(const struct weather_file *f)
{
    struct line l;
    return station_table_find(f, &table, &l);
}

static bool is_wrapping(char x)
{
    return x == ' ' || x == '"';
}

static size_t skip_wrapping(const struct line *l, size_t i)
{
    while (i < l->n && is_wrapping(l->text[i])) {
        i++;
    }
    return i;
}

/* What stands behind name and a delimiter; false on other lines. */
static bool told(const struct line *l, const char *name, const char **text, size_t *n)
{
    size_t length = strlen(name), i = skip_wrapping(l, 0);
    if (l->n - i < length || memcmp(l->text + i, name, length) != 0) {
        return false;
    }
    i = skip_wrapping(l, i + length);
    if (i == l->n || !strchr(",;\t", l->text[i])) {
        return false;
    }
    i = skip_wrapping(l, i + 1);
    *text = l->text + i;
    *n = l->n - i;
    while (*n && is_wrapping((*text)[*n - 1])) {
        --*n;
    }
    return true;
}

static void number_told(const struct line *l, const char *name, double *x)
{
    const char *text;
    size_t n;
    double value;
    if (told(l, name, &text, &n) && num_parse(text, n, '.', &value)) {
        *x = value;
    }
}

/* What the lines of an old preamble say of the station. */
static bool read_preamble(const struct weather_file *f, struct station_about *about, struct arena *a)
{
    struct line l = {0};
    const char *text;
    size_t n;
    while (line_next(f, &l) && !line_has_cell(&l, "Max Temp Flag")) {
        if (told(&l, "Station Name", &text, &n)) {
            about->site = arena_strndup(a, text, n < LIMIT_NAME ? n : LIMIT_NAME - 1);
            if (!about->site) {
                return false;
            }
        }
        number_told(&l, "Latitude", &about->place.latitude);
        number_told(&l, "Longitude", &about->place.longitude);
        number_told(&l, "Elevation", &about->place.elevation_m);
    }
    return true;
}

enum err_code canadian_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    struct station_about about = {.place = csv_no_place()};
    if (!read_preamble(f, &about, a)) {
        return err_set(e, ERR_NOMEM, "out of memory while reading %s", f->path);
    }
    return station_table_read(f, &table, &about, a, set, e);
}
