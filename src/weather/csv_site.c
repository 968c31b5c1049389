/* Sites of a CSV file: rows in, finished columns out.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/crossed.h"
#include "weather/csv.h"

#include <math.h>
#include <search.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>

#define PIECE_BYTES (34u << 20) /* above the size from which malloc maps afresh; untouched parts cost nothing */
#define PIECE_FILE (4u << 20)   /* bytes of the least file whose columns are worth a piece */
#define PAGE_LARGE ((uintptr_t)2 << 20)

static enum err_code no_memory(struct csv *c)
{
    return err_set(c->e, ERR_NOMEM, "out of memory while reading %s", c->file->path);
}

static enum err_code make_room(struct csv *c)
{
    if (c->n_sites < c->room) {
        return ERR_OK;
    }
    size_t room = c->room ? c->room * 2 : 8;
    struct weather_site *site = arena_alloc(&c->scratch, room, sizeof *site);
    if (!site) {
        return no_memory(c);
    }
    memcpy(site, c->site ? c->site : site, c->n_sites * sizeof *site);
    c->site = site;
    c->room = room;
    return ERR_OK;
}

static bool all_missing(const double *x, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        if (!isnan(x[i])) {
            return false;
        }
    }
    return true;
}

/* Room for one finished column. Of a large file it is cut from large pieces on which
 * the system is asked for large pages: taking days page by page costs nearly as long
 * as reading them. A small file takes what it needs. */
static double *take_column(struct csv *c, size_t n)
{
    if (c->file->size < PIECE_FILE || n * sizeof(double) > PIECE_BYTES) {
        return arena_alloc(c->arena, n, sizeof(double));
    }
    if (c->piece_left < n) {
        c->piece = arena_alloc(c->arena, PIECE_BYTES, 1);
        c->piece_left = c->piece ? PIECE_BYTES / sizeof(double) : 0;
        if (!c->piece) {
            return NULL;
        }
        uintptr_t start = ((uintptr_t)c->piece + PAGE_LARGE - 1) / PAGE_LARGE * PAGE_LARGE;
        uintptr_t stop = ((uintptr_t)c->piece + PIECE_BYTES) / PAGE_LARGE * PAGE_LARGE;
        madvise((char *)c->piece + (start - (uintptr_t)c->piece), stop - start, MADV_HUGEPAGE); /* only a wish */
    }
    double *column = c->piece;
    c->piece += n;
    c->piece_left -= n;
    return column;
}

/* The columns collected, at their true length; one without any value is left out. */
static bool copy_days(struct csv *c, struct weather_days *w)
{
    size_t n = c->days.n;
    *w = (struct weather_days){.day0 = c->days.day0, .n = n};
    w->origin = arena_alloc(c->arena, n, sizeof *w->origin);
    w->filled = arena_alloc(c->arena, n, sizeof *w->filled);
    if (!w->origin || !w->filled) {
        return false;
    }
    memcpy(w->origin, c->days.origin, n);
    for (size_t i = 0; i < c->n_vars; i++) {
        enum weather_var v = c->var[i];
        if (all_missing(c->days.col[v], n)) {
            continue;
        }
        w->col[v] = take_column(c, n);
        if (!w->col[v]) {
            return false;
        }
        memcpy(w->col[v], c->days.col[v], n * sizeof *w->col[v]);
    }
    return true;
}

/* A crossed day here and there is a doubt about that day (quality.h). Where most days
 * are so the columns are exchanged, and the file is refused. */
static enum err_code check_crossed(struct csv *c)
{
    struct crossed days = c->crossed ? crossed_days(&c->days) : (struct crossed){0};
    if (!crossed_mostly(&days)) {
        return ERR_OK;
    }
    char date[DATE_TEXT];
    c->line = c->crossed_line;
    return csv_fail(c, NULL, -1, CROSSED_SENTENCE, date_format(c->days.day0 + (date_t)days.first, date),
                    c->days.col[WEATHER_TMIN][days.first], c->days.col[WEATHER_TMAX][days.first], days.n, days.paired);
}

/* The finished site, but for its days. */
static struct weather_site describe(const struct csv *c)
{
    return (struct weather_site){.name = c->started->name,
                                 .place = {.latitude = c->site_place[ROLE_LATITUDE],
                                           .longitude = c->site_place[ROLE_LONGITUDE],
                                           .elevation_m = c->site_place[ROLE_ELEVATION]}};
}

static enum err_code keep(struct csv *c)
{
    enum err_code code = make_room(c);
    if (code == ERR_OK) {
        struct weather_site *site = &c->site[c->n_sites];
        *site = describe(c);
        site->name = arena_strdup(c->arena, site->name);
        code = site->name && copy_days(c, &site->days) ? ERR_OK : no_memory(c);
    }
    return code;
}

/* The days as they were collected; a column without any value is left out. */
static enum err_code show(struct csv *c)
{
    struct weather_site site = describe(c);
    site.days = c->days;
    for (size_t i = 0; i < c->n_vars; i++) {
        enum weather_var v = c->var[i];
        site.days.col[v] = all_missing(c->days.col[v], c->days.n) ? NULL : c->days.col[v];
    }
    return c->file->visit(c->file->visitor, &site, c->e);
}

static enum err_code finish_site(struct csv *c)
{
    if (c->days.n == 0) {
        return ERR_OK;
    }
    enum err_code code = csv_doubt(c);
    code = code == ERR_OK ? check_crossed(c) : code;
    if (code == ERR_OK) {
        code = c->file->visit ? show(c) : keep(c);
    }
    c->n_sites++;
    c->days.n = 0;
    return code;
}

static int by_name(const void *a, const void *b)
{
    const struct csv_name *x = a, *y = b;
    return strcmp(x->name, y->name);
}

/* A name that comes back after another site would be two sites of one name. */
static enum err_code remember_name(struct csv *c)
{
    struct csv_name *name = arena_alloc(&c->scratch, 1, sizeof *name);
    if (c->n_sites == LIMIT_SITES) {
        return csv_fail(c, c->row, -1, "more than %d sites", LIMIT_SITES);
    }
    if (!name) {
        return no_memory(c);
    }
    memcpy(name->name, c->name, c->name_length);
    name->line = c->line;
    struct csv_name *const *found = tsearch(name, &c->names, by_name);
    if (!found) {
        return no_memory(c);
    }
    const struct csv_name *first = c->started = *found;
    return first == name
               ? ERR_OK
               : csv_fail(c, NULL, c->column_of[ROLE_SITE],
                          "the site \"%.*s\" began on line %zu and comes back here; the rows of a site must stand "
                          "together: sort by site, then date",
                          CSV_SHOW(c->name_length), first->name, first->line);
}

static void stay(void *name)
{
    (void)name; /* it is the arena's */
}

void csv_site_release(struct csv *c)
{
    tdestroy(c->names, stay);
}

static void start_site(struct csv *c)
{
    memcpy(c->site_name, c->name, c->name_length);
    c->site_name_length = c->name_length;
    c->crossed = 0;
    c->days.day0 = c->date;
    memcpy(c->site_place, c->place, sizeof c->site_place);
}

static bool same_site(const struct csv *c)
{
    return c->days.n && c->name_length == c->site_name_length &&
           (c->name == c->site_name || memcmp(c->name, c->site_name, c->name_length) == 0);
}

static enum err_code out_of_order(struct csv *c)
{
    char date[DATE_TEXT], last[DATE_TEXT];
    int k = c->column_of[ROLE_DATE] >= 0 ? c->column_of[ROLE_DATE] : c->column_of[ROLE_YEAR];
    date_format(c->date, date);
    date_format(c->days.day0 + (date_t)c->days.n - 1, last);
    if (c->date == c->days.day0 + (date_t)c->days.n - 1) {
        return csv_fail(c, c->date_at, k, "the date %s stands twice; one row a day is allowed", date);
    }
    return csv_fail(c, c->date_at, k, "the date %s comes after %s; sort the rows by date%s", date, last,
                    c->column_of[ROLE_SITE] >= 0 ? ", site by site" : "");
}

/* Moves the values of the row from one day to another. */
static void move_row(struct csv *c, size_t from, size_t to)
{
    for (size_t i = 0; i < c->n_vars; i++) {
        double *x = c->days.col[c->var[i]];
        x[to] = x[from];
    }
}

/* Days between the last row and this one are missing days. */
static enum err_code open_day(struct csv *c)
{
    struct weather_days *w = &c->days;
    int64_t index = (int64_t)c->date - w->day0;
    if (index < (int64_t)w->n) {
        return out_of_order(c);
    }
    if (index >= LIMIT_DAYS) {
        return csv_fail(c, c->date_at, -1, "more than %d days after the first row of the site", LIMIT_DAYS);
    }
    move_row(c, w->n, (size_t)index);
    for (; (int64_t)w->n < index; w->n++) {
        w->origin[w->n] = ORIGIN_NONE;
        for (size_t i = 0; i < c->n_vars; i++) {
            w->col[c->var[i]][w->n] = NAN;
        }
    }
    return ERR_OK;
}

enum err_code csv_site_add(struct csv *c)
{
    struct weather_days *w = &c->days;
    if (!same_site(c)) {
        size_t row = w->n;
        enum err_code code = finish_site(c);
        code = code == ERR_OK ? remember_name(c) : code;
        if (code != ERR_OK) {
            return code;
        }
        start_site(c);
        move_row(c, row, 0);
    }
    if (c->date != w->day0 + (date_t)w->n) {
        enum err_code code = open_day(c);
        if (code != ERR_OK) {
            return code;
        }
    }
    csv_site_push(c);
    return w->n < LIMIT_DAYS ? ERR_OK : csv_fail(c, c->date_at, -1, "more than %d days of one site", LIMIT_DAYS - 1);
}

enum err_code csv_site_finish_all(struct csv *c, struct weather_set *set)
{
    enum err_code code = finish_site(c);
    if (code != ERR_OK) {
        return code;
    }
    if (c->n_sites == 0) {
        return csv_fail(c, NULL, -1, "there are column names and no rows of data below them");
    }
    set->n = c->file->visit ? 0 : c->n_sites;
    set->site = arena_alloc(c->arena, set->n, sizeof *set->site);
    if (!set->site) {
        return no_memory(c);
    }
    memcpy(set->site, c->site ? c->site : set->site, set->n * sizeof *set->site);
    return ERR_OK;
}
