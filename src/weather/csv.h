/* Inside of the CSV reader: its state and the steps that share it.
 *
 * One pass over the bytes. A row is parsed column by column in place; plain numbers
 * and the date after the last one take a fast path (csv_quick.c), everything else a
 * careful one (csv_row.c), with the same result. The days of a site collect in columns that are
 * reused for the next site and copied, trimmed, into the caller's arena.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_CSV_H
#define SUGARLEA_WEATHER_CSV_H

#include "base/limits.h"
#include "weather/csv_preset.h"

struct csv_column {
    enum column_role role;
    enum weather_var var;
    bool weak;      /* gives way to another of the same meaning */
    bool stated;    /* the unit was said */
    bool converted; /* the unit is not ours */
    bool flagged;   /* a column of flags behind it has the last word */
    int owner;      /* of ROLE_FLAG: the column of its values */
    csv_cell_reader *reader;
    struct quantity_unit unit;
    double low, high; /* no question is asked within */
    double *cell;     /* of ROLE_VALUE: its days of the site being read */
    const char *name; /* in the file, not closed */
    size_t name_length;
};

#define CSV_QUICK_ROOM 80 /* bytes readable from the start of a row that is read quickly */
#define CSV_DATE_ROOM 40  /* longest date field that is foreseen */

struct csv_field {
    const char *at; /* where the field starts, with its blanks and quotes */
    const char *text;
    size_t n;
};

struct csv_name {
    size_t line; /* on which the site begins */
    char name[LIMIT_NAME];
};

struct csv {
    const struct weather_file *file;
    const struct csv_preset *preset; /* NULL: any table */
    const char *p, *end;             /* what is left to read */
    const char *quick_end;           /* rows that start before it may be read quickly */
    const char *row;                 /* start of the row being read */
    size_t line;                     /* its number */
    size_t let_go;                   /* bytes of the mapping given back */
    char delimiter, point;
    size_t n_columns;
    struct csv_column column[LIMIT_COLUMNS];
    int column_of[ROLE_COUNT];          /* -1: none */
    enum weather_var var[WEATHER_VARS]; /* the variables that the file has */
    int var_column[WEATHER_VARS];       /* and their columns */
    size_t n_vars;
    bool flagged;       /* some column has flags */
    bool steady;        /* rows hold a date in one field, no place and no flags */
    const char *header; /* start of the row of names; NULL: there is none */
    size_t header_line;
    enum csv_date_layout date_layout;
    size_t date_clue;              /* line that settled day-month order, 0: none did */
    char next_date[CSV_DATE_ROOM]; /* the field of the day after the last one, as the file writes it */
    size_t next_date_length;       /* 0: not foreseen */
    size_t next_at[3];             /* where year, month and day stand in it */
    struct date_parts next;
    int century, century_year; /* with years of two digits: the century and the year last read */

    /* the row being read; its values go into the columns, one behind the days so far */
    bool any_value;
    unsigned taken;            /* bit v set: its flag took the value of v back */
    struct csv_field doubtful; /* an impossible value that its flag may explain */
    date_t date;
    const char *date_at; /* where it stands */
    int part[ROLE_COUNT];
    double place[ROLE_COUNT];
    const char *name; /* in the file, in `unquoted`, or `site_name` */
    size_t name_length;
    char unquoted[LIMIT_NAME]; /* a name with doubled quotes, each made one */

    /* the site being read: columns of LIMIT_DAYS, reused */
    struct arena scratch;
    struct weather_days days;
    char site_name[LIMIT_NAME];
    size_t site_name_length;
    double site_place[ROLE_COUNT];
    size_t crossed, crossed_line; /* days with Tmin above Tmax, and the line of the first */

    /* what is finished */
    struct arena *arena;
    struct weather_site *site;
    double *piece; /* finished columns of a large file are cut from it */
    size_t piece_left;
    size_t n_sites, room;
    void *names;                    /* of the sites so far, a tree of struct csv_name (search.h), scratch */
    const struct csv_name *started; /* of the site being read, in it */
    struct err *e;
};

/* Fills e with a sentence placed at `at` within the current row (NULL: the row as a
 * whole) and the name of column k (-1: none). ERR_DATA. */
enum err_code csv_fail(struct csv *c, const char *at, int k, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/* The same placed at the name of column k in the row of names. */
enum err_code csv_fail_header(struct csv *c, int k, const char *format, ...) __attribute__((format(printf, 3, 4)));

/* Text of a file for a message: at most this many bytes of it. */
#define CSV_SHOW(n) ((int)((n) < 40 ? (n) : 40))

/* The field at c->p: blanks and quotes off. Moves c->p to the delimiter or line end
 * behind it. False, with the error filled, when a quote is not closed. */
bool csv_next_field(struct csv *c, struct csv_field *f);
bool csv_at_line_end(const struct csv *c);
bool csv_at_delimiter(const struct csv *c);
bool csv_at_row_end(struct csv *c); /* the same as line end, but blanks that delimit may stand before it */
void csv_skip_row(struct csv *c);
void csv_go_to(struct csv *c, const char *row, size_t line);

/* c->line, c->row follow. */
static inline void csv_skip_line_end(struct csv *c)
{
    if (c->p < c->end) {
        c->p += *c->p == '\r' && c->p + 1 < c->end && c->p[1] == '\n' ? 2 : 1;
    }
    c->row = c->p;
    c->line++;
}

/* csv_header.c: finds the row of names, the delimiter and the decimal sign; maps the
 * columns; leaves c->p at the first row of data. */
enum err_code csv_header(struct csv *c);

/* csv_preset.c: the same for a table of which a layout knows the columns. */
enum err_code csv_preset_header(struct csv *c);

/* csv_columns.c: reads the row of names at c->p into columns, each described by
 * `describe` (name and place in c->column are there already); then which column serves
 * which role, and whether all needed are there. */
typedef enum err_code csv_describe(struct csv *c, const struct csv_field *f, struct csv_column *column);
enum err_code csv_columns_read(struct csv *c, csv_describe *describe);
enum err_code csv_columns_map(struct csv *c);
const char *csv_ignored(struct csv *c); /* names of unused columns, from the arena */
void csv_settle_point(struct csv *c);   /* csv_header.c */

/* csv_date.c: the layout of the dates, from the first row or, where day and month can
 * be mixed up, from the first row that tells them apart. */
enum err_code csv_date_settle(struct csv *c);
enum err_code csv_date_parse(struct csv *c, const struct csv_field *f, int k, date_t *date);
enum err_code csv_date_of_parts(struct csv *c, date_t *date); /* year with month and day or day of year */
void csv_date_foresee(struct csv *c, const struct csv_field *f, date_t date);
void csv_date_foresee_next(struct csv *c);

/* csv_row.c: reads one row into the row fields of c; *blank when it holds nothing. Usual
 * days before it are added to their site on the way. */
enum err_code csv_row(struct csv *c, bool *blank);
enum err_code csv_row_field(struct csv *c, int k); /* the field of column k at c->p, with care */

/* csv_quick.c: adds days to the site as long as each stands in a plain row, belongs to the
 * site and follows the one before. Then reads the row after them as csv_row does; false when
 * that is not plain and wants reading from its start. */
bool csv_quick_rows(struct csv *c);

/* csv_doubt.c: refuses a finished site whose values, in a unit that the file does not
 * say, look like those of another unit. */
enum err_code csv_doubt(struct csv *c);

/* csv_site.c: adds the row to its site; closes the last site. */
enum err_code csv_site_add(struct csv *c);
enum err_code csv_site_finish_all(struct csv *c, struct weather_set *set);
void csv_site_release(struct csv *c);

/* The row becomes a day of its site. */
static inline void csv_site_push(struct csv *c)
{
    struct weather_days *w = &c->days;
    if (weather_at(w, WEATHER_TMIN, w->n) > weather_at(w, WEATHER_TMAX, w->n) && c->crossed++ == 0) {
        c->crossed_line = c->line;
    }
    w->origin[w->n++] = c->any_value ? ORIGIN_RECORDED : ORIGIN_NONE;
}

#endif
