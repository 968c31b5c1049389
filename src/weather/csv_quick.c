/* Plain rows of a CSV file, one after the other.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/csv.h"
#include "weather/csv_fast.h"

#include <assert.h>
#include <math.h>

/* A field of a row: its bytes, and the first of its decimal sign and its end. */
struct quick_field {
    const char *at, *first, *stop;
};

static inline bool quick_value(struct csv *c, const struct csv_column *column, const struct quick_field *f)
{
    double x, *cell = &column->cell[c->days.n];
    if (!csv_fast_number(f->at, f->first, f->stop, &x)) {
        *cell = (double)NAN;
        return f->at == f->stop;
    }
    if (column->converted) {
        x = x * column->unit.scale + column->unit.offset;
    }
    *cell = x;
    bool usual = x >= column->low && x <= column->high;
    c->any_value |= usual;
    return usual;
}

/* The n bytes that are foreseen; n 0: none are. */
static inline bool is_foreseen(const struct quick_field *f, const char *text, size_t n)
{
    return (size_t)(f->stop - f->at) == n && n > 0 && csv_fast_same(f->at, text, n);
}

static inline bool quick_date(struct csv *c, const struct quick_field *f)
{
    if (!is_foreseen(f, c->next_date, c->next_date_length)) {
        return false;
    }
    c->date_at = f->at;
    c->date = c->days.day0 + (date_t)c->days.n;
    char *last = &c->next_date[c->next_at[2] + 1];
    if (c->next.day < 28 && *last < '9') { /* the last digit alone changes on most days */
        c->next.day++;
        ++*last;
    } else {
        csv_date_foresee_next(c);
    }
    return true;
}

static inline bool quick_name(struct csv *c, const struct quick_field *f)
{
    if (!is_foreseen(f, c->site_name, c->site_name_length)) {
        return false;
    }
    c->name = c->site_name;
    c->name_length = c->site_name_length;
    return true;
}

/* Reads the field, when it is just what was expected. */
static inline bool quick_field(struct csv *c, const struct csv_column *column, const struct quick_field *f)
{
    if (column->role == ROLE_VALUE) { /* most are */
        return quick_value(c, column, f);
    }
    switch (column->role) {
    case ROLE_DATE:
        return quick_date(c, f);
    case ROLE_SITE:
        return quick_name(c, f);
    case ROLE_IGNORE:
        return f->at == f->stop || *f->at != '"';
    default:
        return false;
    }
}

/* Reads a row whose separators are all in sight, as many as there are columns; a field
 * that is not plain is read with care in its place. */
static inline bool quick_row(struct csv *c)
{
    _Static_assert(CSV_QUICK_ROOM >= CSV_FAST_ROW + 16, "a row is looked at in blocks");
    const char *row = c->row;
    assert(row != NULL && c->n_columns > 0);
    if (row >= c->quick_end || row - c->file->bytes < CSV_FAST_BEFORE) {
        return false;
    }
    struct csv_marks m = csv_fast_marks(row, c->delimiter, c->point);
    m.separators &= m.ends ^ (m.ends - 1); /* up to the first end */
    if (!m.ends) {
        return false;
    }
    struct quick_field f = {.at = row};
    for (const struct csv_column *column = c->column, *after = column + c->n_columns; column < after; column++) {
        if (!m.separators) {
            return false;
        }
        f.stop = row + __builtin_ctzll(m.separators);
        f.first = row + __builtin_ctzll(m.stops);
        if (!quick_field(c, column, &f)) {
            c->p = f.at;
            if (csv_row_field(c, (int)(column - c->column)) != ERR_OK || c->p != f.stop) {
                return false;
            }
        }
        uint64_t done = m.separators ^ (m.separators - 1);
        m.separators &= ~done;
        m.stops &= ~done;
        f.at = f.stop + 1;
    }
    c->p = f.stop;
    return !m.separators;
}

/* Whether the row is the day after the last one of the site, as nearly all are. */
static inline bool next_day(const struct csv *c)
{
    size_t n = c->days.n;
    bool same_site = c->name_length == c->site_name_length && (!c->name_length || c->name == c->site_name);
    return c->steady && n > 0 && same_site && c->date == c->days.day0 + (date_t)n && n + 1 < LIMIT_DAYS;
}

bool csv_quick_rows(struct csv *c)
{
    for (;;) {
        c->any_value = false;
        c->taken = 0;
        if (!quick_row(c)) {
            return false;
        }
        if (!next_day(c)) {
            return true;
        }
        csv_site_push(c);
        csv_skip_line_end(c);
    }
}
