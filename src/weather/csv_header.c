/* The row of column names of any table: where it is, its units and its decimal sign.
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
    for (; c->p < c->end && c->line <= PREAMBLE_LINES && best.score < 100; csv_skip_row(c)) {
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

/* Decimal commas: a value with a comma among digits, and none with a point. */
void csv_settle_point(struct csv *c)
{
    const char *row = c->row;
    size_t line = c->line;
    bool comma = false, point = false;
    struct csv_field f;
    for (int rows = 0; rows < SNIFF_LINES && c->p < c->end; rows++, csv_skip_row(c)) {
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
    csv_go_to(c, row, line);
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
    csv_go_to(c, row, line);
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
    csv_skip_row(c);
    return ERR_OK;
}

static enum err_code describe(struct csv *c, const struct csv_field *f, struct csv_column *column)
{
    struct quantity_name name = quantity_of_name(f->text, f->n);
    column->role = name.role;
    column->var = name.var;
    column->weak = name.weak;
    column->stated = name.stated;
    column->unit = name.unit;
    return name.bad_unit[0]
               ? csv_fail(c, f->text, (int)(column - c->column), "the unit \"%s\" is not known; %s are allowed",
                          name.bad_unit, quantity_units_allowed(name.var))
               : ERR_OK;
}

enum err_code csv_header(struct csv *c)
{
    csv_go_to(c, c->file->bytes, 1);
    struct header_place place = find_header(c);
    csv_go_to(c, place.row, place.line);
    c->delimiter = place.delimiter;
    enum err_code code = csv_columns_read(c, describe);
    code = code == ERR_OK ? csv_columns_map(c) : code;
    if (code != ERR_OK) {
        return code;
    }
    csv_skip_line_end(c);
    if (is_unit_row(c)) {
        code = read_unit_row(c);
    }
    if (code == ERR_OK) {
        csv_settle_point(c);
    }
    return code;
}
