/* Steps that the JSON layouts share: a series in its unit, cells, one finished site.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_JSON_DAYS_H
#define SUGARLEA_WEATHER_JSON_DAYS_H

#include "weather/hours.h"
#include "weather/layout.h"
#include "weather/quantity.h"

struct json_series {
    const cJSON *values; /* the object or array of a variable; NULL: the file has none */
    struct quantity_unit unit;
    bool weak;
};

/* Picks the series of `block` (an object of series by name) that are weather, their
 * units from unit_of(f, name). Series that mean nothing to us are passed over. path is
 * the block's own, for messages. */
typedef const cJSON *json_unit_of(const struct weather_file *f, const char *name);
enum err_code json_days_pick(const struct weather_file *f, const char *path, const cJSON *block, json_unit_of *unit_of,
                             struct json_series series[WEATHER_VARS], struct err *e);

/* ERR_DATA, with the names that are there, when Tmin or Tmax is not among the series. */
enum err_code json_days_need_temperature(const struct weather_file *f, const char *path, const cJSON *block,
                                         const struct json_series series[WEATHER_VARS], struct err *e);

/* Bit v set: there is a series of v. */
unsigned json_days_vars(const struct json_series series[WEATHER_VARS]);

/* The value of one cell into *x (null and the fill value are NaN). path is the cell's. */
enum err_code json_days_value(const struct weather_file *f, const char *path, enum weather_var v,
                              const struct quantity_unit *unit, double fill, const cJSON *cell, double *x,
                              struct err *e);

/* Refuses a file most of whose days have Tmin above Tmax (a few are doubts, see
 * quality.h), leaves out columns without a value, takes the origin off
 * days without any, and makes the one site of the set. path as in json_days_pick. */
enum err_code json_days_finish(const struct weather_file *f, const char *path, struct arena *a,
                               struct weather_days *days, const struct site *place, struct weather_set *set,
                               struct err *e);

/* The unit that a file states (NULL: it states none) for variable v; path is that of the
 * series. */
enum err_code json_days_unit(const struct weather_file *f, const char *path, enum weather_var v, const cJSON *text,
                             struct quantity_unit *unit, struct err *e);

/* A part of a document read as one of its own: `key` ("data", "[3]") is put before the
 * field of the error of such a reading, and its line and column are found again. */
enum err_code json_days_within(const struct weather_file *f, const char *key, enum err_code code, struct err *e);

/* Longitude, latitude and height of a GeoJSON point (geometry.coordinates). */
struct site json_days_point(const cJSON *root);

/* The whole days of the hours read from `path` as a table, their origins left; the days
 * at the ends that lack hours are named in the set's note. ERR_DATA when no day is whole. */
enum err_code json_days_of_hours(const struct weather_file *f, const char *path, const struct hours *h,
                                 struct weather_set *set, struct arena *a, struct weather_days *days, struct err *e);

/* The number under key; NaN when there is none. */
double json_days_number(const cJSON *object, const char *key);

#endif
