/* sugarlea season: the run over a stretch of the record, as a table or a picture.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/season.h"
#include "cmd/context.h"
#include "cmd/today.h"
#include "cmd/trust.h"
#include "out/series.h"
#include "out/text.h"
#include "physics/frost.h"

#include <string.h>

enum { DAYS_SHOWN = 365, CAPTION_WIDTH = 78 };

struct picture {
    const char *name;
    date_t usual; /* days shown when --from does not say */
    date_t most;
    void (*plot)(const struct series *s, struct plot *p);
    void (*text)(const struct series *s, struct buf *b);
};

static const struct picture picture_table[] = {
    {"days", DAYS_SHOWN, LIMIT_DAYS, picture_days, picture_days_text},
    {"years", LIMIT_DAYS, LIMIT_DAYS, picture_years, picture_years_text},
    {"hours", PICTURE_HOURS_USUAL, PICTURE_HOURS_MOST, picture_hours, picture_hours_text},
};
enum { PICTURES = sizeof picture_table / sizeof picture_table[0], PADDOCKS_ALL = -1 };

/* What is asked for. */
struct season {
    const struct picture *picture; /* NULL none */
    enum season_form form;
    bool table; /* the table is wanted, with or without a picture */
    int paddock;
    enum units units;   /* of the table as text */
    size_t first, last; /* days of the weather */
};

const char *season_picture(size_t i)
{
    return i < PICTURES ? picture_table[i].name : NULL;
}

static enum err_code check_options(const struct options *o, struct err *e)
{
    if (o->term && (o->json || o->csv)) {
        return options_wrong(e, "--term", "draws in the place of the table: leave out --json and --csv, or it");
    }
    if (o->picture && !o->plot && !o->term) {
        return options_wrong(e, "--picture", "says what is drawn: give --plot FILE or --term with it");
    }
    return ERR_OK;
}

static enum err_code find_picture(const char *wanted, const struct picture **found, struct err *e)
{
    const char *name[PICTURES];
    for (int i = 0; i < PICTURES; i++) {
        name[i] = picture_table[i].name;
        if (strcmp(wanted, name[i]) == 0) {
            *found = &picture_table[i];
            return ERR_OK;
        }
    }
    const char *near = err_did_you_mean(wanted, name, PICTURES);
    err_set(e, ERR_USAGE, "there is no picture \"%.40s\"%s%s; there are days, years and hours", wanted,
            near ? "; did you mean " : "", near ? near : "");
    return err_at(e, NULL, 0, 0, "--picture");
}

/* What can be said before anything is read. */
static enum err_code find_season(const struct options *o, struct season *s, struct err *e)
{
    bool drawn = o->plot || o->term;
    s->form = o->json ? SEASON_JSON : o->csv ? SEASON_CSV : SEASON_TEXT;
    s->table = o->json || o->csv || !drawn;
    enum err_code code = check_options(o, e);
    return code == ERR_OK && drawn ? find_picture(o->picture ? o->picture : "days", &s->picture, e) : code;
}

static enum err_code find_paddock(struct context *c, const struct options *o, struct season *s, struct err *e)
{
    const char **id = arena_alloc(&c->arena, c->holding.paddocks, sizeof *id);
    s->paddock = PADDOCKS_ALL;
    for (size_t i = 0; id && o->paddock && i < c->holding.paddocks; i++) {
        id[i] = c->holding.paddock[i].id;
        s->paddock = strcmp(o->paddock, id[i]) == 0 ? (int)i : s->paddock;
    }
    if (id && o->paddock && s->paddock == PADDOCKS_ALL) {
        const char *near = err_did_you_mean(o->paddock, id, c->holding.paddocks);
        err_set(e, ERR_USAGE, "the holding has no paddock \"%.40s\"; %s \"%s\"", o->paddock,
                near ? "did you mean" : "its first is", near ? near : id[0]);
        return err_at(e, NULL, 0, 0, "--paddock");
    }
    return id ? ERR_OK : err_set(e, ERR_NOMEM, "out of memory");
}

/* The days asked for, within the weather. */
static enum err_code find_days(const struct context *c, const struct options *o, struct season *s, struct err *e)
{
    char begins[DATE_TEXT], ends[DATE_TEXT];
    date_t day0 = c->weather.day0, end = day0 + (date_t)c->weather.n - 1;
    date_t to = o->to != DATE_NONE ? o->to : end;
    date_t from = o->from != DATE_NONE ? o->from : to - (s->picture ? s->picture->usual : DAYS_SHOWN) + 1;
    if (o->from == DATE_NONE && from < day0) {
        from = day0;
    }
    if (from > to) {
        return options_wrong(e, "--from", "lies after the end of the weather");
    }
    if (from < day0 || to > end) {
        return err_set(e, ERR_NOINPUT, "the weather goes from %s to %s; ask for days within it",
                       date_format(day0, begins), date_format(end, ends));
    }
    if (s->picture && to - from >= s->picture->most) {
        err_set(e, ERR_USAGE, "the picture \"%s\" has room for %d days, not for %d; ask for fewer", s->picture->name,
                s->picture->most, to - from + 1);
        return err_at(e, NULL, 0, 0, "--from");
    }
    s->first = (size_t)(from - day0);
    s->last = (size_t)(to - day0);
    return ERR_OK;
}

/* drawn: the series to fill, or NULL. */
static void run_season(const struct context *c, const struct season *s, struct run *r, struct series *drawn,
                       struct buf *out)
{
    struct run_day d;
    bool fresh = true;
    if (s->table) {
        season_begin(s->form, s->units, r, out);
    }
    for (size_t i = 0; i <= s->last; i++) {
        context_day(c, i, &d);
        run_morning(r, &d);
        run_evening(r, &d);
        struct frost_night night = frost_night_of(&c->weather, i, c->holding.site.latitude);
        for (size_t p = 0; i >= s->first && p < r->paddocks; p++) {
            const struct season_row row = {.paddock = p,
                                           .date = d.recorded.date,
                                           .origin = day_origin_name((enum day_origin)c->weather.origin[i]),
                                           .weather = &d.recorded,
                                           .run = r,
                                           .units = s->units,
                                           .green_kg_ha = sward_green_kg_ha(&r->paddock[p].sward),
                                           .ground_frost = frost_ground_chance(&night) >= FROST_CAUTIOUS};
            if (s->table && (s->paddock == PADDOCKS_ALL || s->paddock == (int)p)) {
                season_add(s->form, &row, fresh, out);
                fresh = false;
            }
            if (drawn) {
                series_add(drawn, &row);
            }
        }
    }
    if (s->table) {
        season_end(s->form, out);
    }
}

/* The picture's file, and its caption where no table is asked for. */
static enum err_code write_plot(struct context *c, const struct options *o, const struct season *s,
                                const struct series *drawn, struct buf *out, struct err *e)
{
    struct plot p;
    s->picture->plot(drawn, &p);
    plot_caption(&p, trust_credit_line(c));
    enum err_code code = plot_write(&p, o->plot, e);
    if (code == ERR_OK && !s->table && !o->term) {
        const struct page page = {.b = out, .width = CAPTION_WIDTH};
        struct buf line;
        buf_init(&line);
        buf_addf(&line, "%s: %s. %s.", o->plot, p.title.text, p.about.text);
        text_wrap(&page, "", line.text);
        text_wrap(&page, "", p.caption.text);
        buf_release(&line);
    }
    plot_release(&p);
    return code;
}

/* The holding's name, or the weather file's without its folder. */
static const char *place_of(const struct holding *h, const struct options *o)
{
    const char *slash = o->weather ? strrchr(o->weather, '/') : NULL;
    return h->path[0] ? h->name : slash ? slash + 1 : o->weather;
}

static enum err_code answer(struct context *c, const struct options *o, const struct season *s, struct buf *out,
                            struct err *e)
{
    struct run r;
    struct series drawn;
    size_t paddock = s->paddock == PADDOCKS_ALL ? 0 : (size_t)s->paddock;
    bool room = context_run(c, true, &r);
    if (room && s->picture) {
        room = series_init(&drawn, &c->holding, paddock, place_of(&c->holding, o), c->weather.day0 + (date_t)s->first,
                           s->last - s->first + 1, &c->arena);
    }
    if (!room) {
        return err_set(e, ERR_NOMEM, "out of memory");
    }
    run_season(c, s, &r, s->picture ? &drawn : NULL, out);
    if (o->term) {
        s->picture->text(&drawn, out);
    }
    if (!o->json && !o->csv) {
        const struct page page = options_page(o, out);
        trust_credit_text(c, &page);
    }
    return o->plot ? write_plot(c, o, s, &drawn, out, e) : ERR_OK;
}

enum err_code cmd_season(const struct options *o, struct buf *out, int *status, struct err *e)
{
    struct context c;
    struct season s = {.units = options_units(o)};
    (void)status;
    context_init(&c);
    enum err_code code = find_season(o, &s, e);
    code = code == ERR_OK ? context_load(&c, o, e) : code;
    code = code == ERR_OK ? find_paddock(&c, o, &s, e) : code;
    code = code == ERR_OK ? find_days(&c, o, &s, e) : code;
    code = code == ERR_OK ? answer(&c, o, &s, out, e) : code;
    context_release(&c);
    return code;
}
