/* sugarlea season: the run over a stretch of the record, as a table or a picture.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/season_many.h"
#include "cmd/season_rows.h"
#include "cmd/today.h"
#include "cmd/trust.h"
#include "out/text.h"

#include <string.h>

enum { CAPTION_WIDTH = 78 };

struct picture {
    const char *name;
    date_t usual; /* days shown when --from does not say */
    date_t most;
    void (*plot)(const struct series *s, struct plot *p);
    void (*text)(const struct series *s, struct buf *b);
};

static const struct picture picture_table[] = {
    {"days", SEASON_DAYS_SHOWN, LIMIT_DAYS, picture_days, picture_days_text},
    {"years", LIMIT_DAYS, LIMIT_DAYS, picture_years, picture_years_text},
    {"hours", PICTURE_HOURS_USUAL, PICTURE_HOURS_MOST, picture_hours, picture_hours_text},
};
enum { PICTURES = sizeof picture_table / sizeof picture_table[0] };

/* What is asked for. */
struct season {
    const struct picture *picture; /* NULL none */
    struct season_ask ask;         /* of the table, with or without a picture */
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
    s->ask.form = o->json ? SEASON_JSON : o->csv ? SEASON_CSV : SEASON_TEXT;
    s->ask.table = o->json || o->csv || !drawn;
    enum err_code code = check_options(o, e);
    return code == ERR_OK && drawn ? find_picture(o->picture ? o->picture : "days", &s->picture, e) : code;
}

static enum err_code find_paddock(struct context *c, const struct options *o, struct season *s, struct err *e)
{
    const char **id = arena_alloc(&c->arena, c->holding.paddocks, sizeof *id);
    s->ask.paddock = SEASON_ALL_PADDOCKS;
    for (size_t i = 0; id && o->paddock && i < c->holding.paddocks; i++) {
        id[i] = c->holding.paddock[i].id;
        s->ask.paddock = strcmp(o->paddock, id[i]) == 0 ? (int)i : s->ask.paddock;
    }
    if (id && o->paddock && s->ask.paddock == SEASON_ALL_PADDOCKS) {
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
    date_t from = o->from != DATE_NONE ? o->from : to - (s->picture ? s->picture->usual : SEASON_DAYS_SHOWN) + 1;
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
    s->ask.first = (size_t)(from - day0);
    s->ask.last = (size_t)(to - day0);
    return ERR_OK;
}

/* The picture's file, and its caption where no table is asked for. */
static enum err_code write_plot(struct context *c, const struct options *o, const struct season *s,
                                const struct series *drawn, struct buf *out, struct err *e)
{
    struct plot p;
    s->picture->plot(drawn, &p);
    plot_caption(&p, trust_credit_line(c));
    enum err_code code = plot_write(&p, o->plot, e);
    if (code == ERR_OK && !s->ask.table && !o->term) {
        const struct page page = {.b = out, .width = CAPTION_WIDTH};
        struct buf line;
        buf_init(&line);
        buf_addf(&line, "%s: %s. %s.", o->plot, p.title.text, p.about.text);
        text_wrap(&page, "", line.text);
        text_wrap(&page, "", p.caption.text);
        buf_release_into(&line, out);
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
    size_t paddock = s->ask.paddock == SEASON_ALL_PADDOCKS ? 0 : (size_t)s->ask.paddock;
    bool room = context_run(c, true, &r);
    if (room && s->picture) {
        room = series_init(&drawn, &c->holding, paddock, place_of(&c->holding, o),
                           c->weather.day0 + (date_t)s->ask.first, s->ask.last - s->ask.first + 1, &c->arena);
    }
    if (!room) {
        return err_set(e, ERR_NOMEM, "out of memory");
    }
    if (s->ask.table) {
        season_begin(s->ask.form, s->ask.units, false, &r, out);
    }
    struct season_walk walk = {.c = c, .ask = &s->ask, .run = &r, .drawn = s->picture ? &drawn : NULL, .out = out};
    season_rows(&walk);
    if (s->ask.table) {
        season_end(s->ask.form, out);
    }
    if (o->term) {
        s->picture->text(&drawn, out);
    }
    if (!o->json && !o->csv) {
        const struct page page = options_page(o, out);
        trust_credit_text(c, &page);
    }
    return o->plot ? write_plot(c, o, s, &drawn, out, e) : ERR_OK;
}

static enum err_code check_list(const struct options *o, struct err *e)
{
    if (!o->csv || o->plot || o->term) {
        return options_wrong(e, "--list", "is for the table of many places: give --csv with it, and no picture");
    }
    return o->weather ? options_wrong(e, "--list", "and --weather are too much: give one of them") : ERR_OK;
}

/* A table of many sites, or a list of files. */
static enum err_code answer_many(struct context *c, const struct options *o, struct season *s, struct err *e)
{
    enum err_code code = o->list ? check_list(o, e) : ERR_OK;
    c->weather_unwanted = true;
    code = code == ERR_OK ? context_read(c, o, e) : code;
    if (code == ERR_OK && c->holding.path[0]) {
        return options_wrong(e, "--list", "goes without a holding: --animal, --grass and so on say what is there");
    }
    code = code == ERR_OK ? find_paddock(c, o, s, e) : code;
    return code == ERR_OK ? season_many(c, o, &s->ask, e) : code;
}

static enum err_code answer_one(struct context *c, const struct options *o, struct season *s, struct buf *out,
                                struct err *e)
{
    enum err_code code = context_load(c, o, e);
    code = code == ERR_OK ? find_paddock(c, o, s, e) : code;
    code = code == ERR_OK ? find_days(c, o, s, e) : code;
    return code == ERR_OK ? answer(c, o, s, out, e) : code;
}

enum err_code cmd_season(const struct options *o, struct buf *out, int *status, struct err *e)
{
    struct context c;
    struct season s = {.ask = {.units = options_units(o)}};
    bool many;
    (void)status;
    context_init(&c);
    enum err_code code = find_season(o, &s, e);
    code = code == ERR_OK ? season_is_many(o, &many, e) : code;
    if (code == ERR_OK) {
        code = many ? answer_many(&c, o, &s, e) : answer_one(&c, o, &s, out, e);
    }
    context_release(&c);
    return code;
}
