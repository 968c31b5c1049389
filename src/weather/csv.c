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

/* Flags may have taken back the values of the row. */
static void look_again(struct csv *c)
{
    c->any_value = false;
    for (size_t i = 0; i < c->n_vars; i++) {
        enum weather_var v = c->var[i];
        c->any_value = c->any_value || !isnan(c->days.col[v][c->days.n]);
        if (c->preset->taken) {
            c->preset->taken[v] += c->taken >> v & 1;
        }
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
    if (c->flagged) {
        look_again(c);
    }
    return code;
}

static enum err_code read_rows(struct csv *c)
{
    bool parts = c->column_of[ROLE_DATE] < 0 || c->column_of[ROLE_LATITUDE] >= 0 || c->column_of[ROLE_LONGITUDE] >= 0 ||
                 c->column_of[ROLE_ELEVATION] >= 0;
    c->steady = !parts && !c->flagged;
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

/* Quickly read is a row that a whole block of bytes holds, without runs of blanks. */
static const char *quick_end(const struct csv *c)
{
    bool possible = c->delimiter != ' ' && c->file->size > CSV_QUICK_ROOM;
    return possible ? c->end - CSV_QUICK_ROOM + 1 : c->file->bytes;
}

static enum err_code start(struct csv *c)
{
    c->quick_end = quick_end(c);
    c->days.origin = arena_alloc(&c->scratch, LIMIT_DAYS, sizeof *c->days.origin);
    c->days.filled = arena_alloc(&c->scratch, LIMIT_DAYS, sizeof *c->days.filled);
    bool room = c->days.origin && c->days.filled;
    for (size_t i = 0; i < c->n_vars; i++) {
        double *cell = arena_alloc(&c->scratch, LIMIT_DAYS, sizeof *cell);
        c->days.col[c->var[i]] = c->column[c->var_column[i]].cell = cell;
        room = room && cell;
    }
    for (size_t k = 0; k < c->n_columns; k++) {
        struct csv_column *column = &c->column[k];
        column->converted = column->unit.scale != 1 || column->unit.offset != 0;
        column->cell = column->role == ROLE_FLAG ? c->column[column->owner].cell : column->cell;
    }
    return room ? ERR_OK : err_set(c->e, ERR_NOMEM, "out of memory while reading %s", c->file->path);
}

/* What the layout knows of a site that the rows do not say. */
static void name_sites(const struct csv *c, struct weather_set *set)
{
    for (size_t i = 0; c->preset && i < set->n; i++) {
        struct weather_site *site = &set->site[i];
        const struct site *known = &c->preset->place;
        site->name = !site->name[0] && c->preset->site ? c->preset->site : site->name;
        site->place.latitude = isnan(site->place.latitude) ? known->latitude : site->place.latitude;
        site->place.longitude = isnan(site->place.longitude) ? known->longitude : site->place.longitude;
        site->place.elevation_m = isnan(site->place.elevation_m) ? known->elevation_m : site->place.elevation_m;
    }
}

static enum err_code read_all(struct csv *c, struct weather_set *set)
{
    enum err_code code = c->preset ? csv_preset_header(c) : csv_header(c);
    code = code == ERR_OK ? csv_date_settle(c) : code;
    code = code == ERR_OK ? start(c) : code;
    code = code == ERR_OK ? read_rows(c) : code;
    code = code == ERR_OK ? csv_site_finish_all(c, set) : code;
    if (code == ERR_OK) {
        name_sites(c, set);
        set->ignored = csv_ignored(c);
        code = set->ignored ? ERR_OK : err_set(c->e, ERR_NOMEM, "out of memory while reading %s", c->file->path);
    }
    return code;
}

enum err_code csv_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    return csv_read_preset(f, NULL, a, set, e);
}

enum err_code csv_read_preset(const struct weather_file *f, const struct csv_preset *preset, struct arena *a,
                              struct weather_set *set, struct err *e)
{
    struct err unused = {0};
    struct csv *c = arena_alloc(a, 1, sizeof *c);
    if (!c) {
        return err_set(e, ERR_NOMEM, "out of memory while reading %s", f->path);
    }
    c->file = f;
    c->preset = preset;
    c->end = f->bytes + f->size;
    c->arena = a;
    c->e = e ? e : &unused;
    arena_init(&c->scratch);
    enum err_code code = read_all(c, set);
    csv_site_release(c);
    arena_release(&c->scratch);
    return code;
}
