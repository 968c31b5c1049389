/* Six columns of numbers without names, as climate-extremes programs take them: year,
 * month, day, rain in mm, maximum and minimum temperature in C, -99.9 for missing.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/num.h"
#include "weather/csv_preset.h"
#include "weather/lines.h"
#include "weather/note.h"

#include <math.h>
#include <string.h>

#define COLUMNS 6
#define ROWS_LOOKED_AT 5
#define DAYS_TO_JUDGE 30 /* and */
#define ZERO_MOST 4      /* one day in so many: our judgement; 0.0 C to a tenth is far rarer */

static const struct csv_known columns[COLUMNS] = {
    {"year", ROLE_YEAR, 0, 0, 0, false, NULL},
    {"month", ROLE_MONTH, 0, 0, 0, false, NULL},
    {"day", ROLE_DAY, 0, 0, 0, false, NULL},
    {"rain", ROLE_VALUE, WEATHER_RAIN, 0, 0, false, NULL},
    {"tmax", ROLE_VALUE, WEATHER_TMAX, 0, 0, false, NULL},
    {"tmin", ROLE_VALUE, WEATHER_TMIN, 0, 0, false, NULL},
};

static bool is_gap(char x, char delimiter)
{
    return x == delimiter || (delimiter == ' ' && x == '\t');
}

/* Six numbers, the first three a date. */
static bool is_row(const struct line *l, char delimiter)
{
    static const long low[3] = {1800, 1, 1}, high[3] = {2100, 12, 31};
    size_t i = 0, k = 0;
    for (; k < COLUMNS; k++) {
        size_t n = 0;
        long part;
        double x;
        while (i < l->n && (l->text[i] == ' ' || l->text[i] == '\t')) {
            i++;
        }
        while (i + n < l->n && !is_gap(l->text[i + n], delimiter)) {
            n++;
        }
        if (k < 3 ? !num_parse_long(l->text + i, n, low[k], high[k], &part) : !num_parse(l->text + i, n, '.', &x)) {
            return false;
        }
        i += n + (i + n < l->n && delimiter != ' ');
    }
    while (i < l->n && (l->text[i] == ' ' || l->text[i] == '\t')) {
        i++;
    }
    return i == l->n;
}

static char delimiter_of(const struct line *l)
{
    return memchr(l->text, ',', l->n) ? ',' : ' ';
}

static bool is_blank(const struct line *l)
{
    for (size_t i = 0; i < l->n; i++) {
        if (l->text[i] != ' ' && l->text[i] != '\t') {
            return false;
        }
    }
    return true;
}

/* The first row, when the first few rows are of this kind. */
static bool find_first(const struct weather_file *f, struct line *first)
{
    struct line l = {0};
    size_t rows = 0;
    *first = l;
    while (rows < ROWS_LOOKED_AT && line_next(f, &l)) {
        if (is_blank(&l)) {
            continue;
        }
        if (!is_row(&l, delimiter_of(&l))) {
            return false;
        }
        if (rows++ == 0) {
            *first = l;
        }
    }
    return rows > 0;
}

bool six_columns_is(const struct weather_file *f)
{
    struct line first;
    return find_first(f, &first);
}

/* A minimum of exactly 0 on so many days is the rain of a file in another order. */
static enum err_code check_order(const struct weather_file *f, const struct weather_days *w, struct err *e)
{
    size_t days = 0, zero = 0;
    for (size_t i = 0; i < w->n; i++) {
        double x = weather_at(w, WEATHER_TMIN, i);
        days += !isnan(x);
        zero += x == 0;
    }
    if (days < DAYS_TO_JUDGE || zero * ZERO_MOST < days) {
        return ERR_OK;
    }
    err_set(e, ERR_DATA,
            "the last of its six columns without names should be the minimum temperature, and is 0 on %zu of %zu days, "
            "as rain is. Write a row of names above the rows: year,month,day,tmin_c,tmax_c,rain_mm",
            zero, days);
    return err_at(e, f->path, 1, 0, NULL);
}

enum err_code six_columns_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    struct line first;
    if (!find_first(f, &first)) {
        err_set(e, ERR_DATA,
                "has no rows of six numbers (year month day rain tmax tmin, without names), as this layout has");
        return err_at(e, f->path, 1, 0, NULL);
    }
    struct csv_preset preset = {.rows = first.text,
                                .line = first.number,
                                .delimiter = delimiter_of(&first),
                                .known = columns,
                                .n_known = COLUMNS,
                                .unit_help =
                                    "write a row of names with units above the rows: year,month,day,rain_inch,...",
                                .place = csv_no_place()};
    enum err_code code = csv_read_preset(f, &preset, a, set, e);
    code = code == ERR_OK ? check_order(f, &set->site[0].days, e) : code;
    code = code == ERR_OK ? note_trim(set, f->path, e) : code;
    return code == ERR_OK
               ? note_add(set, a, e,
                          "its columns have no names and were taken as year, month, day, rain in mm, maximum "
                          "and minimum temperature in C")
               : code;
}
