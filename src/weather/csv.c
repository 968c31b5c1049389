/* Any table with a row of column names. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/csv.h"

#include <math.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

#define LET_GO_BYTES (8u << 20) /* of a mapped file stay in memory behind the reader */

bool csv_is(const struct weather_file *f)
{
    (void)f;
    return true;
}

/* Gives pages already read back to the system. They come again when looked at. */
static void let_go(struct csv *c)
{
    size_t page = (size_t)sysconf(_SC_PAGESIZE), done = (size_t)(c->row - (const char *)c->file->mapping) / page * page;
    madvise((char *)c->file->mapping + c->let_go, done - c->let_go, MADV_DONTNEED);
    c->let_go = done;
}

static void clear_row(struct csv *c)
{
    c->date = DATE_NONE;
    c->name = "";
    c->name_length = 0;
    for (int role = 0; role < ROLE_COUNT; role++) {
        c->part[role] = 0;
        c->place[role] = NAN;
    }
}

static enum err_code check_row(struct csv *c)
{
    enum err_code code = ERR_OK;
    if (c->column_of[ROLE_DATE] < 0) {
        code = csv_date_of_parts(c, &c->date);
    } else if (c->date == DATE_NONE) {
        code = csv_fail(c, c->date_at, c->column_of[ROLE_DATE], "the row has values and no date");
    }
    double low = weather_at(&c->days, WEATHER_TMIN, c->days.n), high = weather_at(&c->days, WEATHER_TMAX, c->days.n);
    if (code == ERR_OK && low > high) {
        char date[DATE_TEXT];
        code = csv_fail(c, c->date_at, -1, "on %s the minimum of %.6g C is above the maximum of %.6g C",
                        date_format(c->date, date), low, high);
    }
    return code;
}

static enum err_code read_rows(struct csv *c)
{
    bool parts = c->column_of[ROLE_DATE] < 0 || c->column_of[ROLE_LATITUDE] >= 0 || c->column_of[ROLE_LONGITUDE] >= 0 ||
                 c->column_of[ROLE_ELEVATION] >= 0;
    clear_row(c);
    while (c->p < c->end) {
        bool blank;
        if (parts) {
            clear_row(c);
        }
        enum err_code code = csv_row(c, &blank);
        if (code == ERR_OK && !blank) {
            code = check_row(c);
            code = code == ERR_OK ? csv_site_add(c) : code;
        }
        if (code != ERR_OK) {
            return code;
        }
        csv_skip_line_end(c);
        if (c->file->mapping && (size_t)(c->row - c->file->bytes) > c->let_go + LET_GO_BYTES) {
            let_go(c);
        }
    }
    return ERR_OK;
}

static enum err_code start(struct csv *c)
{
    c->days.origin = arena_alloc(&c->scratch, LIMIT_DAYS, sizeof *c->days.origin);
    bool room = c->days.origin;
    for (size_t i = 0; i < c->n_vars; i++) {
        double *cell = arena_alloc(&c->scratch, LIMIT_DAYS, sizeof *cell);
        c->days.col[c->var[i]] = c->column[c->var_column[i]].cell = cell;
        room = room && cell;
    }
    return room ? ERR_OK : err_set(c->e, ERR_NOMEM, "out of memory while reading %s", c->file->path);
}

static enum err_code read_all(struct csv *c, struct weather_set *set)
{
    enum err_code code = csv_header(c);
    code = code == ERR_OK ? csv_date_settle(c) : code;
    code = code == ERR_OK ? start(c) : code;
    code = code == ERR_OK ? read_rows(c) : code;
    code = code == ERR_OK ? csv_site_finish_all(c, set) : code;
    if (code == ERR_OK) {
        set->ignored = csv_ignored(c);
        code = set->ignored ? ERR_OK : err_set(c->e, ERR_NOMEM, "out of memory while reading %s", c->file->path);
    }
    return code;
}

enum err_code csv_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    struct err unused = {0};
    struct csv *c = arena_alloc(a, 1, sizeof *c);
    if (!c) {
        return err_set(e, ERR_NOMEM, "out of memory while reading %s", f->path);
    }
    c->file = f;
    c->end = f->bytes + f->size;
    c->arena = a;
    c->e = e ? e : &unused;
    arena_init(&c->scratch);
    enum err_code code = read_all(c, set);
    arena_release(&c->scratch);
    return code;
}
