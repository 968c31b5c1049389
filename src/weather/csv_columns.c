/* The columns of a table: read from the row of names, then which serves which role.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/csv.h"

#include <stdio.h>
#include <string.h>

static enum err_code add_column(struct csv *c, const struct csv_field *f, csv_describe *describe)
{
    if (c->n_columns == LIMIT_COLUMNS) {
        return csv_fail(c, f->at, -1, "more than %d columns", LIMIT_COLUMNS);
    }
    struct csv_column *column = &c->column[c->n_columns++];
    *column = (struct csv_column){.name = f->text, .name_length = f->n};
    return describe(c, f, column);
}

enum err_code csv_columns_read(struct csv *c, csv_describe *describe)
{
    struct csv_field f;
    enum err_code code;
    c->header = c->row;
    c->header_line = c->line;
    do {
        c->p += c->n_columns > 0;
        if (!csv_next_field(c, &f)) {
            return ERR_DATA;
        }
        code = add_column(c, &f, describe);
    } while (code == ERR_OK && !csv_at_row_end(c));
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

/* The column of values that the flags of column k belong to: the last of its variable
 * before it; -1 none. */
static int owner_of(const struct csv *c, int k)
{
    int owner = k - 1;
    while (owner >= 0 && (c->column[owner].role == ROLE_FLAG || c->column[owner].role == ROLE_IGNORE ||
                          c->column[owner].var != c->column[k].var)) {
        owner--;
    }
    return owner;
}

/* Before columns give way to others: flags go with the column in front of them. */
static void find_owners(struct csv *c)
{
    for (int k = 0; k < (int)c->n_columns; k++) {
        c->column[k].owner = c->column[k].role == ROLE_FLAG ? owner_of(c, k) : -1;
    }
}

static void give_flags(struct csv *c)
{
    for (size_t k = 0; k < c->n_columns; k++) {
        struct csv_column *column = &c->column[k];
        if (column->role != ROLE_FLAG) {
            continue;
        }
        if (column->owner >= 0 && c->column[column->owner].role == ROLE_VALUE) {
            c->column[column->owner].flagged = c->flagged = true;
        } else {
            column->role = ROLE_IGNORE;
        }
    }
}

static enum err_code claim_all(struct csv *c, int of_var[WEATHER_VARS])
{
    for (int k = 0; k < (int)c->n_columns; k++) {
        struct csv_column *column = &c->column[k];
        if (column->role == ROLE_IGNORE || column->role == ROLE_FLAG) {
            continue;
        }
        bool valued = column->role == ROLE_VALUE;
        enum err_code code = claim(c, k, valued ? &of_var[column->var] : &c->column_of[column->role]);
        if (code != ERR_OK) {
            return code;
        }
        const struct quantity_range *range = quantity_range(column->var);
        column->low = range->usual_low;
        column->high = range->usual_high;
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
    if (c->preset && c->preset->alone) {
        return c->n_vars ? NULL : "no column of weather that is used here";
    }
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
    if (c->preset) {
        return csv_fail(c, NULL, -1, "%s. Found: %s", what, found);
    }
    return csv_fail(c, NULL, -1,
                    "%s. Needed: date, tmin_c, tmax_c, and if there are rain_mm, rad_mj_m2, rh_pct, wind_m_s, "
                    "separated by comma, semicolon, tab or blanks. Found: %s",
                    what, found);
}

enum err_code csv_columns_map(struct csv *c)
{
    int of_var[WEATHER_VARS];
    memset(of_var, -1, sizeof of_var);
    memset(c->column_of, -1, sizeof c->column_of);
    find_owners(c);
    enum err_code code = claim_all(c, of_var);
    if (code != ERR_OK) {
        return code;
    }
    give_flags(c);
    choose_date(c);
    for (int v = 0; v < WEATHER_VARS; v++) {
        if (of_var[v] >= 0) {
            c->var_column[c->n_vars] = of_var[v];
            c->var[c->n_vars++] = (enum weather_var)v;
        }
    }
    return check_needed(c);
}
