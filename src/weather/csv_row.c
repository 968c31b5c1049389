/* One row of a CSV file, with care.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/num.h"
#include "weather/csv.h"

#include <math.h>
#include <string.h>

#define FAHRENHEIT_MOST 140.0 /* 60 C, the limit of what is taken */

/* A maximum that no place on earth has, and that any summer has in Fahrenheit. */
static bool fits_fahrenheit(const struct csv_column *column, const struct csv_field *f)
{
    double x;
    bool warmth = column->var == WEATHER_TMIN || column->var == WEATHER_TMAX;
    return warmth && !column->converted && num_parse(f->text, f->n, '.', &x) && x > 0 && x <= FAHRENHEIT_MOST;
}

static enum err_code impossible_value(struct csv *c, int k, const struct csv_field *f)
{
    const struct csv_column *column = &c->column[k];
    if (column->stated && fits_fahrenheit(column, f)) {
        return csv_fail(c, f->text, k,
                        "\"%.*s\" is not possible; %s is allowed. Is it Fahrenheit? Then let the column's name say so, "
                        "such as %s",
                        CSV_SHOW(f->n), f->text, quantity_range(column->var)->allowed,
                        column->var == WEATHER_TMIN ? "tmin_f" : "tmax_f");
    }
    if (column->stated) {
        return csv_fail(c, f->text, k, "\"%.*s\" is not possible; %s is allowed", CSV_SHOW(f->n), f->text,
                        quantity_range(column->var)->allowed);
    }
    if (c->preset) {
        return csv_fail(c, f->text, k, "\"%.*s\" is not possible; %s is allowed. If the file has other units, %s",
                        CSV_SHOW(f->n), f->text, quantity_range(column->var)->allowed, c->preset->unit_help);
    }
    return csv_fail(c, f->text, k,
                    "\"%.*s\" is not possible; %s is allowed. If the file has another unit, say it in the column "
                    "name in brackets: %s",
                    CSV_SHOW(f->n), f->text, quantity_range(column->var)->allowed, quantity_units_allowed(column->var));
}

/* A value outside what is usual: missing, cut, or refused, perhaps only when its flag
 * has been read. */
static enum err_code odd_value(struct csv *c, int k, const struct csv_field *f, double raw, double *x)
{
    if (quantity_judge(c->column[k].var, raw, x) != QUANTITY_IMPOSSIBLE) {
        return ERR_OK;
    }
    c->doubtful = *f;
    return c->column[k].flagged ? ERR_OK : impossible_value(c, k, f);
}

static enum err_code careful_number(struct csv *c, int k, const struct csv_field *f, double *raw)
{
    const char *text = f->text;
    size_t n = f->n;
    if (n > 1 && text[0] == '+') {
        text++;
        n--;
    }
    if (num_parse(text, n, c->point, raw)) {
        return ERR_OK;
    }
    char other = c->point == '.' ? ',' : '.';
    return csv_fail(c, f->text, k, "\"%.*s\" is not a number; %s, or leave the field empty when nothing was measured",
                    CSV_SHOW(f->n), f->text,
                    memchr(f->text, other, f->n) ? (c->point == '.' ? "write the decimals after a point (12.5)"
                                                                    : "write the decimals after a comma (12,5)")
                                                 : "write digits (12 or 12.5)");
}

static bool usual(const struct csv_column *column, double x)
{
    return x >= column->low && x <= column->high;
}

/* The cell of a value that is not missing. */
static enum err_code judge_cell(struct csv *c, int k, const struct csv_field *f, double *value)
{
    const struct csv_column *column = &c->column[k];
    const struct quantity_unit *unit = &column->unit;
    double raw = NAN;
    if (column->reader) {
        bool plain = num_parse(f->text, f->n, c->point, &raw) && usual(column, raw * unit->scale + unit->offset);
        if (!plain && column->reader(f->text, f->n, &raw)) {
            *value = raw * unit->scale + unit->offset;
            return isnan(raw) || usual(column, *value) ? ERR_OK : odd_value(c, k, f, raw, value);
        }
    }
    enum err_code code = careful_number(c, k, f, &raw);
    if (code == ERR_OK) {
        *value = raw * unit->scale + unit->offset;
        code = usual(column, *value) ? ERR_OK : odd_value(c, k, f, raw, value);
    }
    return code;
}

static enum err_code read_value(struct csv *c, int k, double *value)
{
    struct csv_field f;
    *value = NAN;
    if (!csv_next_field(c, &f)) {
        return ERR_DATA;
    }
    if (quantity_is_missing_text(f.text, f.n)) {
        return ERR_OK;
    }
    enum err_code code = judge_cell(c, k, &f, value);
    c->any_value = c->any_value || !isnan(*value);
    return code;
}

/* What stands behind a value and may take it back. */
static enum err_code read_flag(struct csv *c, int k, double *value)
{
    const struct csv_column *column = &c->column[k];
    struct csv_field f;
    if (!csv_next_field(c, &f)) {
        return ERR_DATA;
    }
    bool there = !isnan(*value);
    if (f.n && !column->reader(f.text, f.n, value)) {
        return csv_fail(c, f.text, k, "the flag \"%.*s\" is not known", CSV_SHOW(f.n), f.text);
    }
    c->taken |= there && isnan(*value) ? 1u << column->var : 0;
    const struct quantity_range *range = quantity_range(column->var);
    return *value < range->low || *value > range->high ? impossible_value(c, column->owner, &c->doubtful) : ERR_OK;
}

static enum err_code read_date(struct csv *c, int k)
{
    c->date_at = c->p;
    struct csv_field f;
    if (!csv_next_field(c, &f)) {
        return ERR_DATA;
    }
    if (f.n == 0) {
        c->date = DATE_NONE; /* an error unless the whole row is blank */
        return ERR_OK;
    }
    enum err_code code = csv_date_parse(c, &f, k, &c->date);
    if (code == ERR_OK) {
        csv_date_foresee(c, &f, c->date);
    }
    return code;
}

/* Of a quoted field, where two quotes stand for one. */
static void unquote_name(struct csv *c)
{
    size_t n = 0;
    for (size_t i = 0; i < c->name_length; i++) {
        c->unquoted[n++] = c->name[i];
        i += c->name[i] == '"';
    }
    c->name = c->unquoted;
    c->name_length = n;
}

static enum err_code read_name(struct csv *c, int k)
{
    struct csv_field f;
    if (!csv_next_field(c, &f)) {
        return ERR_DATA;
    }
    if (f.n >= LIMIT_NAME) {
        return csv_fail(c, f.text, k, "\"%.*s...\" is too long for the name of a site; at most %d bytes are allowed",
                        CSV_SHOW(f.n), f.text, LIMIT_NAME - 1);
    }
    c->name = f.text;
    c->name_length = f.n;
    if (memchr(f.text, '"', f.n) && f.at[strspn(f.at, " \t")] == '"') {
        unquote_name(c);
    }
    return ERR_OK;
}

/* A year, month, day or day of the year. */
static enum err_code read_part(struct csv *c, int k)
{
    static const long most[ROLE_COUNT] = {
        [ROLE_YEAR] = 2200, [ROLE_MONTH] = 12, [ROLE_DAY] = 31, [ROLE_DAY_OF_YEAR] = 366};
    enum column_role role = c->column[k].role;
    struct csv_field f;
    long value = 0, least = role == ROLE_YEAR ? 1700 : 1;
    if (role == ROLE_YEAR) {
        c->date_at = c->p;
    }
    if (!csv_next_field(c, &f)) {
        return ERR_DATA;
    }
    if (f.n && !num_parse_long(f.text, f.n, least, most[role], &value)) {
        return csv_fail(c, f.text, k, "\"%.*s\" is not possible here; a whole number from %ld to %ld is allowed",
                        CSV_SHOW(f.n), f.text, least, most[role]);
    }
    c->part[role] = (int)value;
    return ERR_OK;
}

static enum err_code read_place(struct csv *c, int k)
{
    static const double most[ROLE_COUNT] = {[ROLE_LATITUDE] = 90, [ROLE_LONGITUDE] = 360, [ROLE_ELEVATION] = 9000};
    enum column_role role = c->column[k].role;
    struct csv_field f;
    double x = NAN;
    if (!csv_next_field(c, &f)) {
        return ERR_DATA;
    }
    if (!quantity_is_missing_text(f.text, f.n)) {
        enum err_code code = careful_number(c, k, &f, &x);
        if (code != ERR_OK) {
            return code;
        }
        if (fabs(x) > most[role]) {
            return csv_fail(c, f.text, k, "\"%.*s\" is not possible; -%g to %g is allowed", CSV_SHOW(f.n), f.text,
                            most[role], most[role]);
        }
    }
    c->place[role] = x;
    return ERR_OK;
}

enum err_code csv_row_field(struct csv *c, int k)
{
    switch (c->column[k].role) {
    case ROLE_VALUE:
        return read_value(c, k, &c->column[k].cell[c->days.n]);
    case ROLE_DATE:
        return read_date(c, k);
    case ROLE_FLAG:
        return read_flag(c, k, &c->column[k].cell[c->days.n]);
    case ROLE_SITE:
        return read_name(c, k);
    case ROLE_YEAR:
    case ROLE_MONTH:
    case ROLE_DAY:
    case ROLE_DAY_OF_YEAR:
        return read_part(c, k);
    case ROLE_LATITUDE:
    case ROLE_LONGITUDE:
    case ROLE_ELEVATION:
        return read_place(c, k);
    default:
        return csv_next_field(c, &(struct csv_field){0}) ? ERR_OK : ERR_DATA;
    }
}

static bool row_is_blank(const struct csv *c)
{
    for (const char *p = c->row; p < c->end && *p != '\n' && *p != '\r'; p++) {
        if (*p != ' ' && *p != '\t' && *p != c->delimiter) {
            return false;
        }
    }
    return true;
}

/* Behind the last column: nothing, or empty fields. */
static enum err_code end_row(struct csv *c)
{
    while (!csv_at_line_end(c)) {
        struct csv_field f;
        c->p++;
        if (!csv_next_field(c, &f)) {
            return ERR_DATA;
        }
        if (f.n) {
            return csv_fail(c, f.at, -1, "\"%.*s\" is one field more than the %zu column names", CSV_SHOW(f.n), f.text,
                            c->n_columns);
        }
    }
    if ((size_t)(c->p - c->row) > LIMIT_LINE_BYTES) {
        return csv_fail(c, NULL, -1, "the line has %zu bytes; at most %u are allowed", (size_t)(c->p - c->row),
                        LIMIT_LINE_BYTES);
    }
    return ERR_OK;
}

static enum err_code careful_row(struct csv *c, bool *blank)
{
    *blank = false;
    for (size_t k = 0; k < c->n_columns; k++) {
        if (k > 0) {
            if (csv_at_row_end(c) || !csv_at_delimiter(c)) {
                *blank = row_is_blank(c);
                return *blank ? ERR_OK
                              : csv_fail(c, c->p, -1, "the line has %zu field%s where %zu are named at the top", k,
                                         k > 1 ? "s" : "", c->n_columns);
            }
            c->p++;
        }
        enum err_code code = csv_row_field(c, (int)k);
        if (code != ERR_OK) {
            return code;
        }
    }
    *blank = c->date == DATE_NONE && !c->part[ROLE_YEAR] && row_is_blank(c);
    return end_row(c);
}

enum err_code csv_row(struct csv *c, bool *blank)
{
    if (!csv_quick_rows(c)) {
        c->p = c->row;
        c->any_value = false;
        c->taken = 0;
        return careful_row(c, blank);
    }
    *blank = c->date == DATE_NONE && !c->part[ROLE_YEAR] && row_is_blank(c);
    return ERR_OK;
}
