/* sugarlea sheet: the morning's advice as a page for the stable door.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/sheet.h"
#include "base/file.h"
#include "cmd/morning.h"
#include "cmd/today.h"
#include "physics/frost.h"

#include <string.h>

static enum err_code no_memory(struct err *e)
{
    return err_set(e, ERR_NOMEM, "out of memory");
}

/* A holding file or a diary must not be overwritten by a slip. */
static enum err_code check_file(const char *path, struct err *e)
{
    const char *dot = path ? strrchr(path, '.') : NULL;
    if (!path) {
        return options_wrong(e, "--output",
                             "is needed: the file of the page, such as -o sheet.html, or - for standard "
                             "output");
    }
    if (strcmp(path, "-") != 0 && !(dot && (strcmp(dot, ".html") == 0 || strcmp(dot, ".htm") == 0))) {
        return options_wrong(e, "--output", "names a page: it ends in .html or .htm, or is - for standard output");
    }
    return ERR_OK;
}

/* The days from `first` up to yesterday, each with the advice of its morning. */
static void run_season(const struct context *c, size_t first, size_t today, struct run *r, struct series *season)
{
    struct run_day d;
    mornings_pass(c, 0, first, r);
    for (size_t i = first; i < today; i++) {
        context_day(c, i, &d);
        run_morning(r, &d);
        run_evening(r, &d);
        struct frost_night night = frost_night_of(&c->weather, i, c->holding.site.latitude);
        for (size_t p = 0; p < r->paddocks; p++) {
            series_add(&season[p],
                       &(struct season_row){.paddock = p,
                                            .date = d.recorded.date,
                                            .origin = day_origin_name((enum day_origin)c->weather.origin[i]),
                                            .weather = &d.recorded,
                                            .run = r,
                                            .green_kg_ha = sward_green_kg_ha(&r->paddock[p].sward),
                                            .ground_frost = frost_ground_chance(&night) >= FROST_CAUTIOUS});
        }
    }
}

static enum err_code find_season(struct context *c, struct series **season, struct err *e)
{
    size_t today = (size_t)(c->until - c->weather.day0);
    size_t first = today > SHEET_SEASON_DAYS ? today - SHEET_SEASON_DAYS : 0;
    struct run r;
    bool room = context_run(c, true, &r);
    *season = arena_alloc(&c->arena, c->holding.paddocks, sizeof **season);
    for (size_t p = 0; room && *season && p < c->holding.paddocks; p++) {
        room = series_init(&(*season)[p], &c->holding, p, c->holding.name, c->weather.day0 + (date_t)first,
                           today - first, &c->arena);
    }
    if (!room || !*season) {
        return no_memory(e);
    }
    run_season(c, first, today, &r, *season);
    return ERR_OK;
}

static enum err_code write_page(const char *path, const struct sheet *s, struct buf *out, struct err *e)
{
    char day[TEXT_DAY];
    struct buf page;
    if (strcmp(path, "-") == 0) {
        sheet_page(s, out);
        return ERR_OK;
    }
    buf_init(&page);
    sheet_page(s, &page);
    enum err_code code = page.failed ? no_memory(e) : file_replace(path, page.text, page.length, e);
    buf_release(&page);
    if (code == ERR_OK) {
        buf_add_clean(out, path, strlen(path), strlen(path));
        buf_addf(out, ": the sheet for %s, %zu group%s\n", text_day(s->v->day->date, day), s->v->day->run->animals,
                 s->v->day->run->animals == 1 ? "" : "s");
    }
    return code;
}

enum err_code cmd_sheet(const struct options *o, struct buf *out, int *status, struct err *e)
{
    struct context c;
    struct today_view v = {.on_sheet = true};
    struct series *season = NULL;
    (void)status;
    context_init(&c);
    c.mornings = SHEET_DAYS;
    enum err_code code = check_file(o->output, e);
    code = code == ERR_OK ? today_find(&c, o, &v, e) : code;
    code = code == ERR_OK ? find_season(&c, &season, e) : code;
    code = code == ERR_OK ? write_page(o->output, &(struct sheet){&v, season}, out, e) : code;
    if (code == ERR_OK) { /* a page that stands is told, whether or not it can be said */
        code = strcmp(o->output, "-") == 0 ? today_tell(o, &v, out, e) : today_note(o, &v, e);
    }
    context_release(&c);
    return code;
}
