/* sugarlea season: the run over a stretch of the record.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/season.h"
#include "cmd/context.h"
#include "cmd/today.h"
#include "physics/frost.h"

enum { DAYS_SHOWN = 365 };

/* The days asked for, within the weather. */
static enum err_code find_days(const struct context *c, const struct options *o, size_t *first, size_t *last,
                               struct err *e)
{
    char begins[DATE_TEXT], ends[DATE_TEXT];
    date_t day0 = c->weather.day0, end = day0 + (date_t)c->weather.n - 1;
    date_t to = o->to != DATE_NONE ? o->to : end;
    date_t from = o->from != DATE_NONE ? o->from : to - DAYS_SHOWN + 1;
    if (o->from == DATE_NONE && from < day0) {
        from = day0;
    }
    if (from > to) {
        err_set(e, ERR_USAGE, "the season's --from lies after its --to");
        return err_at(e, NULL, 0, 0, "--from");
    }
    if (from < day0 || to > end) {
        return err_set(e, ERR_NOINPUT, "the weather goes from %s to %s; ask for days within it",
                       date_format(day0, begins), date_format(end, ends));
    }
    *first = (size_t)(from - day0);
    *last = (size_t)(to - day0);
    return ERR_OK;
}

static void run_season(const struct context *c, struct run *r, size_t first, size_t last, enum season_form form,
                       struct buf *out)
{
    struct run_day d;
    bool fresh = true;
    season_begin(form, r, out);
    for (size_t i = 0; i <= last; i++) {
        context_day(c, i, &d);
        run_morning(r, &d);
        run_evening(r, &d);
        struct frost_night night = frost_night_of(&c->weather, i, c->holding.site.latitude);
        for (size_t p = 0; i >= first && p < r->paddocks; p++) {
            const struct season_row row = {.paddock = p,
                                           .date = d.recorded.date,
                                           .origin = day_origin_name((enum day_origin)c->weather.origin[i]),
                                           .weather = &d.recorded,
                                           .run = r,
                                           .green_kg_ha = sward_green_kg_ha(&r->paddock[p].sward),
                                           .ground_frost = frost_ground_chance(&night) >= FROST_CAUTIOUS};
            season_add(form, &row, fresh, out);
            fresh = false;
        }
    }
    season_end(form, out);
}

enum err_code cmd_season(const struct options *o, struct buf *out, int *status, struct err *e)
{
    struct context c;
    struct run r;
    size_t first = 0, last = 0;
    (void)status;
    context_init(&c);
    enum err_code code = ERR_OK;
    if (o->from != DATE_NONE && o->to != DATE_NONE && o->from > o->to) {
        code = err_set(e, ERR_USAGE, "the season's --from lies after its --to");
    }
    if (code == ERR_OK) {
        code = context_load(&c, o, e);
    }
    if (code == ERR_OK) {
        code = find_days(&c, o, &first, &last, e);
    }
    if (code == ERR_OK && !run_init(&r, &c.params, &c.holding, &c.arena)) {
        code = err_set(e, ERR_NOMEM, "out of memory");
    }
    if (code == ERR_OK) {
        run_season(&c, &r, first, last, o->json ? SEASON_JSON : o->csv ? SEASON_CSV : SEASON_TEXT, out);
    }
    context_release(&c);
    return code;
}
