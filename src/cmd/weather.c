/* sugarlea weather: read, merge, doubt, show. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/weather.h"
#include "base/clock.h"
#include "cmd/context.h"
#include "cmd/today.h"

#include <stdio.h>

enum { NOTES_MOST = 2 * LIMIT_WEATHER_SOURCES + 1, NOTE_TEXT = 768 };

struct notes {
    struct arena *a;
    size_t n;
    const char *note[NOTES_MOST];
};

static void add_note(struct notes *n, const char *name, const char *what)
{
    char text[NOTE_TEXT];
    snprintf(text, sizeof text, "%s: %s", name, what);
    const char *kept = arena_strdup(n->a, text);
    if (kept && n->n < NOTES_MOST) {
        n->note[n->n++] = kept;
    }
}

static void note_sources(const struct context *c, enum units u, struct notes *n)
{
    char text[LIMIT_TEXT];
    for (size_t i = 0; i < c->sources.n; i++) {
        const struct source_read *s = &c->sources.source[i];
        if (s->note[0]) {
            add_note(n, s->name, s->note);
        }
        if (sources_place_doubt(s, &c->holding.site, &c->params.limits, u, text, sizeof text)) {
            add_note(n, s->name, text);
        }
    }
}

/* The table as an advice would use it, or why there can be none. */
static enum err_code try_to_fill(struct context *c, struct weather_days *whole, struct weather_view *v, struct err *e)
{
    struct err why;
    err_clear(&why);
    if (!weather_days_copy(whole, &c->weather, &c->arena)) {
        return err_set(e, ERR_NOMEM, "out of memory");
    }
    enum err_code code = weather_complete(whole, &c->holding.site, &c->params.limits, &c->arena, &c->report, &why);
    if (code == ERR_OK) {
        v->whole = whole;
        return ERR_OK;
    }
    v->stops = arena_strdup(&c->arena, why.what);
    return code == ERR_NOMEM || !v->stops ? err_set(e, ERR_NOMEM, "out of memory") : ERR_OK;
}

static enum err_code show(struct context *c, const struct options *o, struct buf *out, struct err *e)
{
    struct weather_days whole;
    struct quality q;
    struct notes notes = {.a = &c->arena};
    struct weather_view v = {.holding = c->holding.name,
                             .date = o->date != DATE_NONE ? o->date : clock_today(c->holding.site.timezone),
                             .sources = &c->sources,
                             .read = &c->weather,
                             .stops = "",
                             .units = options_units(o),
                             .quality = &q};
    enum err_code code = quality_check(&c->weather, &c->holding.site, &c->params.quality, &c->arena, &q, e);
    code = code == ERR_OK ? try_to_fill(c, &whole, &v, e) : code;
    if (code != ERR_OK) {
        return code;
    }
    note_sources(c, v.units, &notes);
    v.notes = notes.n;
    v.note = notes.note;
    if (o->json) {
        weather_json(&v, out);
    } else if (o->csv) {
        weather_csv(&v, out);
    } else if (o->quiet) {
        struct page page = options_page(o, out);
        weather_troubles(&v, &page);
    } else {
        struct page page = options_page(o, out);
        weather_text(&v, page.colour, page.width, out);
    }
    return ERR_OK;
}

enum err_code cmd_weather(const struct options *o, struct buf *out, int *status, struct err *e)
{
    struct context c;
    (void)status;
    context_init(&c);
    c.place_optional = true;
    enum err_code code = context_read(&c, o, e);
    code = code == ERR_OK ? show(&c, o, out, e) : code;
    context_release(&c);
    return code;
}
