/* Weather layouts: one row of the table in layouts.c and one small .c file each.
 *
 * To add a layout:
 *  1. write src/weather/NAME.c with a recogniser (looks at the content only) and a
 *     reader (fills the whole set, or an error with line and column, never a part).
 *     A delimited table whose columns are known is not read anew: fill a csv_preset
 *     (csv_preset.h: names, units, flags, place) and call csv_read_preset;
 *  2. declare both here;
 *  3. add one row to the table in layouts.c, before any row that would also say yes;
 *  4. add its cases to tests/unit/test_weather_NAME.c: a good file, and each way a
 *     file of this kind can be wrong.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_LAYOUT_H
#define SUGARLEA_WEATHER_LAYOUT_H

#include "base/json.h"
#include "weather/weather.h"

/* A file to recognise and read. Nothing beyond bytes + size may be looked at. */
struct weather_file {
    const char *bytes; /* after a UTF-8 byte-order mark */
    size_t size;
    const char *path; /* for messages */
    void *mapping;    /* where the file is mapped, NULL when it is not: parts already read may be let go */
    const struct weather_hints *hints; /* never NULL */
    enum weather_units units;          /* as hinted */
    weather_visit *visit;              /* csv_read hands each site to it and keeps none; NULL: the set is wanted */
    void *visitor;                     /* its context */
    struct json_doc doc;               /* parsed when the content is JSON, else its root is NULL */
};

struct layout {
    const char *name; /* lower case and hyphens, as --layout takes it */
    const char *what; /* in a few words, for the help; NULL: knows the layout, and why it cannot be used */
    bool (*is)(const struct weather_file *f);
    enum err_code (*read)(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e);
};

extern const struct layout weather_layouts[];
extern const size_t weather_layout_count;

/* csv.c: any table with a row of column names. Always says yes, so it stands last. */
bool csv_is(const struct weather_file *f);
enum err_code csv_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e);

/* tidy_csv.c: our own export, a table with the origin of each day. */
bool tidy_csv_is(const struct weather_file *f);
enum err_code tidy_csv_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e);

/* reanalysis_json.c: a global reanalysis, one point, daily. */
bool reanalysis_json_is(const struct weather_file *f);
enum err_code reanalysis_json_read(const struct weather_file *f, struct arena *a, struct weather_set *set,
                                   struct err *e);

/* forecast_json.c: a forecast service's answer with a block of days, of hours or both. */
bool forecast_json_is(const struct weather_file *f);
enum err_code forecast_json_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e);

/* forecast_many.c: the same for several places. */
bool forecast_many_is(const struct weather_file *f);
enum err_code forecast_many_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e);

/* norwegian_json.c: a point forecast in hours and six hours. */
bool norwegian_json_is(const struct weather_file *f);
enum err_code norwegian_json_read(const struct weather_file *f, struct arena *a, struct weather_set *set,
                                  struct err *e);

/* us_grid_json.c: a forecast on a grid, in layers of intervals. */
bool us_grid_json_is(const struct weather_file *f);
enum err_code us_grid_json_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e);

/* Station tables, one file each: Austria (hub CSV), Canada (daily, and extracts of one
 * variable), Queensland's patched points, Australia (one variable), Switzerland. */
bool austrian_is(const struct weather_file *f);
enum err_code austrian_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e);
bool canadian_is(const struct weather_file *f);
enum err_code canadian_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e);
bool canadian_element_is(const struct weather_file *f);
enum err_code canadian_element_read(const struct weather_file *f, struct arena *a, struct weather_set *set,
                                    struct err *e);
bool patched_point_is(const struct weather_file *f);
enum err_code patched_point_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e);
bool australian_is(const struct weather_file *f);
enum err_code australian_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e);
bool swiss_is(const struct weather_file *f);
enum err_code swiss_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e);

/* blank_table.c: a row of column names, set apart by blanks. */
bool blank_table_is(const struct weather_file *f);
enum err_code blank_table_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e);

/* six_columns.c: numbers without names. */
bool six_columns_is(const struct weather_file *f);
enum err_code six_columns_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e);

/* summaries_json.c, summaries_csv.c: United States daily summaries, whose units must be told by their values. */
bool summaries_json_is(const struct weather_file *f);
enum err_code summaries_json_read(const struct weather_file *f, struct arena *a, struct weather_set *set,
                                  struct err *e);
bool summaries_csv_is(const struct weather_file *f);
enum err_code summaries_csv_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e);

/* ghcn_by_year.c, ghcn_dly.c: the global daily climatology, in tenths. */
bool ghcn_by_year_is(const struct weather_file *f);
enum err_code ghcn_by_year_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e);
bool ghcn_dly_is(const struct weather_file *f);
enum err_code ghcn_dly_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e);

/* reanalysis_csv.c: the same reanalysis as CSV with a header block. */
bool reanalysis_csv_is(const struct weather_file *f);
enum err_code reanalysis_csv_read(const struct weather_file *f, struct arena *a, struct weather_set *set,
                                  struct err *e);

/* irish.c, dutch.c, german.c: daily station files of the three weather services. */
bool irish_daily_is(const struct weather_file *f);
enum err_code irish_daily_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e);
bool dutch_daily_is(const struct weather_file *f);
enum err_code dutch_daily_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e);
bool dutch_rain_is(const struct weather_file *f); /* dates lie one day before those of the file */
enum err_code dutch_rain_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e);
bool german_daily_is(const struct weather_file *f);
enum err_code german_daily_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e);

/* refuse_bytes.c, refuse_json.c, refuse_text.c: what is known and not daily weather
 * that we read; each says what the file is and what is needed instead. */
bool refuse_bytes_is(const struct weather_file *f);
enum err_code refuse_bytes(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e);
bool refuse_json_is(const struct weather_file *f);
enum err_code refuse_json(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e);
bool refuse_text_is(const struct weather_file *f);
enum err_code refuse_text(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e);

#endif
