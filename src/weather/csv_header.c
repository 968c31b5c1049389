/* The row of column names: where it is, what its columns mean.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/num.h"
#include "weather/csv.h"

#include <stdio.h>
#include <string.h>

#define PREAMBLE_LINES 80 /* the row of names is looked for so far down */
#define SNIFF_LINES 40    /* rows looked at for the decimal sign */

struct header_place {
    const char *row;
    size_t line;
    char delimiter;
    int score; /* 0: nothing known there */
};

static void go_to(struct csv *c, const char *row, size_t line)
{
    c->p = c->row = row;
    c->line = line;
}

static void skip_row(struct csv *c)
{
    while (!csv_at_line_end(c)) {
        c->p++;
    }
    csv_skip_line_end(c);
}

/* How well the row at c->p with this delimiter names the columns of weather: known
 * columns, and 100 more for a date together with a variable. */
static int score_row(struct csv *c, char delimiter)
{
    int known = 0;
    bool dated = false, valued = false;
    struct csv_field f;
    c->p = c->row;
    c->delimiter = delimiter;
    for (size_t n = 1; n <= LIMIT_COLUMNS; n++, c->p++) {
        if (!csv_next_field(c, &f)) {
            return 0;
        }
        enum column_role role = quantity_of_name(f.text, f.n).role;
        known += role != ROLE_IGNORE;
        dated = dated || role == ROLE_DATE || role == ROLE_YEAR;
        valued = valued || role == ROLE_VALUE;
        if (csv_at_line_end(c)) {
            return n == 1 ? known != 0 : known + (dated && valued ? 100 : 0);
        }
    }
    return 0;
}

/* The best row within the first lines, at once when it has a date and a variable. */
static struct header_place find_header(struct csv *c)
{
    static const char delimiters[] = {';', '\t', ','};
    struct header_place best = {.row = c->row, .line = 1, .delimiter = ','};
    bool first = true;
    for (; c->p < c->end && c->line <= PREAMBLE_LINES && best.score < 100; skip_row(c)) {
        if (csv_at_line_end(c)) {
            continue;
        }
        if (first) {
            best.row = c->row;
            best.line = c->line;
            first = false;
        }
        for (size_t i = 0; i < sizeof delimiters; i++) {
            int score = score_row(c, delimiters[i]);
            if (score > best.score) {
                best = (struct header_place){c->row, c->line, delimiters[i], score};
            }
        }
        c->p = c->row;
    }
    err_clear(c->e); /* rows that are no row of names may be anything */
    return best;
}

static enum err_code add_column(struct csv *c, const struct csv_field *f)
{
    struct quantity_name name = quantity_of_name(f->text, f->n);
    int k = (int)c->n_columns;
    if (c->n_columns == LIMIT_COLUMNS) {
        return csv_fail(c, f->at, -1, "more than %d columns", LIMIT_COLUMNS);
    }
    struct csv_column *column = &c->column[c->n_columns++];
    *column = (struct csv_column){.role = name.role,
                                  .var = name.var,
                                  .weak = name.weak,
                                  .stated = name.stated,
                                  .unit = name.unit,
                                  .name = f->text,
                                  .name_length = f->n};
    if (name.bad_unit[0]) {
        return csv_fail(c, f->text, k, "the unit \"%s\" is not known; %s are allowed", name.bad_unit,
                        quantity_units_allowed(name.var));
    }
    return ERR_OK;
}

static enum err_code read_names(struct csv *c, const struct header_place *place)
{
    struct csv_field f;
    enum err_code code;
    go_to(c, place->row, place->line);
    c->delimiter = place->delimiter;
    c->header = place->row;
    c->header_line = place->line;
    do {
        c->p += c->n_columns > 0;
        if (!csv_next_field(c, &f)) {
            return ERR_DATA;
        }
        code = add_column(c, &f);
    } while (code == ERR_OK && !csv_at_line_end(c));
    return code;
}

/* Which column serves a role or variable; a weak one gives way, two equal ones are
 * an error. `holder` is the column found so far. */
static enum err_code claim(struct csv *c, int k, int *holder)
{
    struct csv_column *now = &c->column[k];
    if (*holder < 0) {
        *holder = k;
        return ERR_OK;
    }
    struct csv_column *before = &c->column[*holder];
    if (!now->weak && before->weak) {
        before->role = ROLE_IGNORE;
        *holder = k;
    } else if (now->weak) {
        now->role = ROLE_IGNORE;
    } else {
        return csv_fail(c, now->name, k, "means the same as the column \"%.*s\"; rename or remove one of the two",
                        CSV_SHOW(before->name_length), before->name);
    }
    return ERR_OK;
}

static void drop(struct csv *c, enum column_role role)
{
    if (c->column_of[role] >= 0) {
        c->column[c->column_of[role]].role = ROLE_IGNORE;
        c->column_of[role] = -1;
    }
}

/* A whole date beats its parts; month and day beat the day of the year; a day beside
 * a year without a month is the day of the year. */
static void choose_date(struct csv *c)
{
    int *of = c->column_of;
    if (of[ROLE_DATE] >= 0) {
        drop(c, ROLE_YEAR);
        drop(c, ROLE_MONTH);
        drop(c, ROLE_DAY);
        drop(c, ROLE_DAY_OF_YEAR);
    } else if (of[ROLE_MONTH] >= 0 && of[ROLE_DAY] >= 0) {
        drop(c, ROLE_DAY_OF_YEAR);
    } else if (of[ROLE_DAY_OF_YEAR] >= 0) {
        drop(c, ROLE_MONTH);
        drop(c, ROLE_DAY);
    } else if (of[ROLE_YEAR] >= 0 && of[ROLE_DAY] >= 0) {
        c->column[of[ROLE_DAY]].role = ROLE_DAY_OF_YEAR;
        of[ROLE_DAY_OF_YEAR] = of[ROLE_DAY];
        of[ROLE_DAY] = -1;
    }
}

static enum err_code map_columns(struct csv *c)
{
    int of_var[WEATHER_VARS];
    memset(of_var, -1, sizeof of_var);
    memset(c->column_of, -1, sizeof c->column_of);
    for (int k = 0; k < (int)c->n_columns; k++) {
        struct csv_column *column = &c->column[k];
        if (column->role == ROLE_IGNORE) {
            continue;
        }
        bool valued = column->role == ROLE_VALUE;
        enum err_code code = claim(c, k, valued ? &of_var[column->var] : &c->column_of[column->role]);
        if (code != ERR_OK) {
            return code;
        }
        const struct quantity_range *range = quantity_range(column->var);
        column->low = range->low;
        column->high = column->var == WEATHER_RH ? 100 : range->high;
    }
    choose_date(c);
    for (int v = 0; v < WEATHER_VARS; v++) {
        if (of_var[v] >= 0) {
            c->var_column[c->n_vars] = of_var[v];
            c->var[c->n_vars++] = (enum weather_var)v;
        }
    }
    return ERR_OK;
}

static void list_names(const struct csv *c, bool ignored_only, char *text, size_t size)
{
    size_t used = 0;
    text[0] = 0;
    for (size_t k = 0; k < c->n_columns && used < size; k++) {
        const struct csv_column *column = &c->column[k];
        if (column->name_length && (!ignored_only || column->role == ROLE_IGNORE)) {
            int more = snprintf(text + used, size - used, "%s%.*s", used ? ", " : "", CSV_SHOW(column->name_length),
                                column->name);
            used += more > 0 ? (size_t)more : 0;
        }
    }
}

const char *csv_ignored(struct csv *c)
{
    char text[LIMIT_TEXT];
    list_names(c, true, text, sizeof text);
    return arena_strdup(c->arena, text);
}

static bool has(const struct csv *c, enum weather_var v)
{
    for (size_t i = 0; i < c->n_vars; i++) {
        if (c->var[i] == v) {
            return true;
        }
    }
    return false;
}

/* What is missing among the columns of the date, or NULL. */
static const char *lack_of_date(const struct csv *c)
{
    const int *of = c->column_of;
    if (of[ROLE_DATE] >= 0) {
        return NULL;
    }
    if (of[ROLE_YEAR] < 0) {
        return c->n_vars ? "no column of dates (date, or year with month and day, or year with day of year)"
                         : "no row of column names with a date and weather";
    }
    if (of[ROLE_MONTH] >= 0 && of[ROLE_DAY] < 0) {
        return "these are monthly values: a year and a month and no day; daily values are needed";
    }
    return of[ROLE_DAY_OF_YEAR] < 0 && of[ROLE_MONTH] < 0 ? "a year and neither month and day nor day of year" : NULL;
}

/* What is missing among the columns that a file must have, or NULL. */
static const char *lack(const struct csv *c)
{
    const char *dates = lack_of_date(c);
    if (dates) {
        return dates;
    }
    bool cold = has(c, WEATHER_TMIN), warm = has(c, WEATHER_TMAX);
    if (cold != warm) {
        return cold ? "no column of daily maximum temperature (tmax_c)"
                    : "no column of daily minimum temperature (tmin_c)";
    }
    if (!cold && !has(c, WEATHER_RAIN) && !has(c, WEATHER_RAD)) {
        return "no columns of daily minimum and maximum temperature (tmin_c, tmax_c)";
    }
    return NULL;
}

/* A file may leave temperature out altogether (a rain gauge beside a station). */
static enum err_code check_needed(struct csv *c)
{
    const char *what = lack(c);
    if (!what) {
        return ERR_OK;
    }
    char found[200];
    list_names(c, false, found, sizeof found);
    return csv_fail(c, NULL, -1,
                    "%s. Needed: date, tmin_c, tmax_c, and if there are rain_mm, rad_mj_m2, rh_pct, wind_m_s, "
                    "separated by comma, semicolon or tab. Found: %s",
                    what, found);
}

/* Decimal commas: a value with a comma among digits, and none with a point. */
static void settle_point(struct csv *c)
{
    const char *row = c->row;
    size_t line = c->line;
    bool comma = false, point = false;
    struct csv_field f;
    for (int rows = 0; rows < SNIFF_LINES && c->p < c->end; rows++, skip_row(c)) {
        for (size_t k = 0; k < c->n_columns && csv_next_field(c, &f); k++) {
            if (c->column[k].role == ROLE_VALUE) {
                double x;
                comma = comma || (memchr(f.text, ',', f.n) && num_parse(f.text, f.n, ',', &x));
                point = point || (memchr(f.text, '.', f.n) && num_parse(f.text, f.n, '.', &x));
            }
            if (csv_at_line_end(c)) {
                break;
            }
            c->p++;
        }
    }
    c->point = comma && !point ? ',' : '.';
    err_clear(c->e);
    go_to(c, row, line);
}

static bool holds_digit(const struct csv_field *f)
{
    for (size_t i = 0; i < f->n; i++) {
        if (f->text[i] >= '0' && f->text[i] <= '9') {
            return true;
        }
    }
    return false;
}

/* A second row that holds units: words under the variables, no digit under the date. */
static bool is_unit_row(struct csv *c)
{
    struct csv_field f;
    size_t words = 0;
    bool units = true;
    const char *row = c->row;
    size_t line = c->line;
    for (size_t k = 0; k < c->n_columns && units && csv_next_field(c, &f); k++) {
        double x;
        enum column_role role = c->column[k].role;
        if (role == ROLE_VALUE && !quantity_is_missing_text(f.text, f.n)) {
            units = !num_parse(f.text, f.n, '.', &x) && !num_parse(f.text, f.n, ',', &x);
            words++;
        } else if (role == ROLE_DATE || role == ROLE_YEAR) {
            units = !holds_digit(&f);
        }
        if (csv_at_line_end(c)) {
            break;
        }
        c->p++;
    }
    err_clear(c->e);
    go_to(c, row, line);
    return units && words > 0;
}

static enum err_code read_unit_row(struct csv *c)
{
    struct csv_field f;
    for (size_t k = 0; k < c->n_columns && csv_next_field(c, &f); k++) {
        struct csv_column *column = &c->column[k];
        struct quantity_unit unit;
        if (column->role == ROLE_VALUE && !column->stated && !quantity_is_missing_text(f.text, f.n)) {
            if (!quantity_unit_of(column->var, f.text, f.n, &unit)) {
                return csv_fail(c, f.text, (int)k, "the unit \"%.*s\" is not known; %s are allowed", CSV_SHOW(f.n),
                                f.text, quantity_units_allowed(column->var));
            }
            column->unit.scale *= unit.scale; /* keeps what the height of the wind made of it */
            column->unit.offset = unit.offset;
            column->stated = true;
        }
        if (csv_at_line_end(c)) {
            break;
        }
        c->p++;
    }
    skip_row(c);
    return ERR_OK;
}

enum err_code csv_header(struct csv *c)
{
    go_to(c, c->file->bytes, 1);
    struct header_place place = find_header(c);
    enum err_code code = read_names(c, &place);
    code = code == ERR_OK ? map_columns(c) : code;
    code = code == ERR_OK ? check_needed(c) : code;
    if (code != ERR_OK) {
        return code;
    }
    csv_skip_line_end(c);
    if (is_unit_row(c)) {
        code = read_unit_row(c);
    }
    if (code == ERR_OK) {
        settle_point(c);
    }
    return code;
}
