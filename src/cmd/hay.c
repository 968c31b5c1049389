/* sugarlea hay: will the hay last, how much to buy, by when to order.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/hay.h"

#include "cmd/ahead.h"
#include "cmd/today.h"
#include "cmd/trust.h"

#include <math.h>

/* Days from the morning to the last one. */
static enum err_code find_days(const struct context *c, const struct options *o, size_t *days, struct err *e)
{
    date_t first = c->until, last = o->until;
    if (last == DATE_NONE && isnan(c->holding.site.latitude)) {
        return options_wrong(e, "--until",
                             "is needed, or --latitude: when the lean season ends depends on the hemisphere");
    }
    last = last == DATE_NONE ? hay_lean_end(first, c->holding.site.latitude) : last;
    if (last < first || last - first >= HAY_DAYS_MOST) {
        char from[DATE_TEXT], to[DATE_TEXT];
        err_set(e, ERR_USAGE, "the plan can end on any day from %s to %s, a year ahead", date_format(first, from),
                date_format(first + HAY_DAYS_MOST - 1, to));
        return err_at(e, NULL, 0, 0, "--until");
    }
    *days = (size_t)(last - first) + 1;
    return ERR_OK;
}

static enum err_code check_animals(const struct holding *h, struct err *e)
{
    if (h->animals > 0) {
        return ERR_OK;
    }
    if (!h->path[0]) {
        return options_wrong(e, "--animal", "is needed: who eats the hay, such as goat-dry or pony");
    }
    err_set(e, ERR_CONFIG, "no animals stand in the holding, and so nobody eats the hay: add them");
    return err_at(e, h->path, 0, 0, "animals");
}

/* What the holding leaves open, and what stands in for it. */
static void name_defaults(struct context *c, const struct hay_plan *p, struct today_view *v)
{
    const struct holding *h = &c->holding;
    if (!h->stored[0] || !h->fed_from[0]) {
        trust_warn(c, v, "assumed, as the holding does not say%s%s: losses of %g %% in the store, %g %% at feeding.",
                   h->stored[0] ? "" : " how the hay is \"stored\"",
                   h->fed_from[0] ? ""
                   : h->stored[0] ? " what it is \"fed_from\""
                                  : " and what it is \"fed_from\"",
                   p->losses.store_pct, p->losses.feed_pct);
    }
    if (!p->stock.bale_known) {
        char kg[UNITS_TEXT];
        trust_warn(c, v, "assumed: bales of %s, as no lot says how heavy they are.",
                   units_text(v->units, AMOUNT_MASS, p->stock.bale_kg, UNITS_SHORT, kg));
    }
    if (p->stock.unknown > 0 && p->stock.unknown < p->stock.lots) {
        trust_warn(c, v, "%zu of the %zu lots of hay have no amount and count as nothing.", p->stock.unknown,
                   p->stock.lots);
    }
    if (p->stock.straw > 0) {
        trust_warn(c, v, "straw is no hay, and is counted neither in the store nor in the need.");
    }
}

/* What the advice says of a group's hay stands here too, so that the next hay bought is another. */
static void name_hay(struct context *c, const struct animal_group *g, struct today_view *v)
{
    struct advice_animal a = {.history = g->history};
    const struct hay_lot *lot = run_hay_of(&c->holding, g);
    advice_give_hay(&a, lot);
    if (advice_teeth_text(&a)[0]) {
        trust_warn(c, v, "%s, for %s: %s", lot->id, g->id, advice_teeth_text(&a));
    }
    for (size_t k = 0; k < g->feds; k++) {
        const struct feed *f = g->fed[k].feed;
        if (f->is_straw && !history_suits_feed(g->history, f, true)) {
            trust_warn(c, v, "%s has poor teeth and is fed %s: hay in its place is not in this plan.", g->id, f->id);
        }
    }
}

/* Lots of which only ESC + starch is known, once each. */
static void name_esc(struct context *c, struct today_view *v)
{
    char text[LIMIT_TEXT];
    for (size_t i = 0; i < c->holding.lots; i++) {
        struct advice_animal a = {0};
        advice_give_hay(&a, &c->holding.lot[i]);
        if (a.hay_esc) {
            advice_esc_text(a.hay_nsc_pct, advice_hay_nsc(&a, &c->params.limits), text, sizeof text);
            trust_warn(c, v, "%s: %s", c->holding.lot[i].id, text);
        }
    }
}

/* The plan is for animals that are well. */
static void name_signs(struct context *c, struct today_view *v)
{
    struct run r;
    if (!context_run(c, true, &r)) {
        return;
    }
    run_look_over(&r, c->until);
    for (size_t i = 0; i < c->holding.animals; i++) {
        if (r.animal[i].seen.words) {
            trust_warn(c, v,
                       "foot signs stand in the diary for %s, which keep it off grass; the plan counts it as well "
                       "again: reckon with \"off grass\" in the table, or --no-grass for all.",
                       c->holding.animal[i].id);
        }
    }
}

static enum err_code by_weather(struct context *c, const struct options *o, size_t days, struct ahead *h,
                                struct today_view *trust, struct err *e)
{
    enum err_code code = trust_age(c, o, c->until, trust, e);
    if (code != ERR_OK) {
        return code;
    }
    trust_doubts(c, o, c->until, trust);
    code = weather_assume(&c->weather, &c->holding.site, c->until - 1, &c->arena, e);
    return code == ERR_OK ? ahead_find(c, days, 0, AHEAD_SEED, h, e) : code;
}

/* Weather that is too old or too short for this is a reason to go by the tables, not to end. */
static enum err_code find_days_ahead(struct context *c, const struct options *o, size_t days, struct ahead *h,
                                     struct today_view *trust, struct err *e)
{
    struct err why;
    bool use = c->weather.n > 0 && !o->no_grass;
    err_clear(&why);
    *h = (struct ahead){0};
    enum err_code code = use ? by_weather(c, o, days, h, trust, &why) : ERR_NOINPUT;
    if (code == ERR_OK) {
        ahead_thin(c, h, trust);
        return ERR_OK;
    }
    if (code != ERR_NOINPUT) {
        *e = why;
        return code;
    }
    if (use) {
        *trust = (struct today_view){.holding = &c->holding, .recorded_to = DATE_NONE, .units = trust->units};
        trust_warn(c, trust, "the weather was not used: %s.", why.what);
    }
    bool room = hay_table_days(&c->holding, &c->params, c->until, days, &c->arena, &h->ensemble);
    return room ? ERR_OK : err_set(e, ERR_NOMEM, "out of memory");
}

static enum err_code find_plan(struct context *c, const struct options *o, struct today_view *trust, struct hay_view *v,
                               struct err *e)
{
    struct ahead h;
    size_t days = 0;
    enum err_code code = check_animals(&c->holding, e);
    code = code == ERR_OK ? find_days(c, o, &days, e) : code;
    code = code == ERR_OK ? find_days_ahead(c, o, days, &h, trust, e) : code;
    if (code != ERR_OK) {
        return code;
    }
    struct hay_ask ask = {.e = &h.ensemble,
                          .h = &c->holding,
                          .p = &c->params,
                          .now = h.now,
                          .losses = hay_losses_of(&c->holding, &c->params),
                          .doubt = hay_doubt(&c->holding, &c->params),
                          .by_table = h.years == 0};
    ask.losses.marked_up = o->mark_up;
    *v = (struct hay_view){.holding = &c->holding,
                           .params = &c->params,
                           .trust = trust,
                           .first_year = h.first_year,
                           .last_year = h.last_year,
                           .arithmetic = o->arithmetic};
    if (!hay_plan_make(&ask, &c->arena, &v->plan)) {
        return err_set(e, ERR_NOMEM, "out of memory");
    }
    name_signs(c, trust);
    name_esc(c, trust);
    for (size_t i = 0; i < c->holding.animals; i++) {
        name_hay(c, &c->holding.animal[i], trust);
    }
    name_defaults(c, &v->plan, trust);
    return ERR_OK;
}

static enum err_code draw(struct context *c, const struct options *o, const struct hay_view *v, struct err *e)
{
    struct plot p;
    if (!v->plan.left_middle || v->plan.stock.kg <= 0.0) {
        return options_wrong(e, "--plot", "draws what is left in the store, and the holding names no hay in it");
    }
    hay_picture(v, &p);
    plot_caption(&p, v->trust->credits ? trust_credit_line(c) : "");
    enum err_code code = plot_write(&p, o->plot, e);
    plot_release(&p);
    return code;
}

enum err_code cmd_hay(const struct options *o, struct buf *out, int *status, struct err *e)
{
    struct context c;
    struct hay_view v;
    (void)status;
    context_init(&c);
    struct today_view trust = {.holding = &c.holding, .recorded_to = DATE_NONE, .units = options_units(o)};
    c.morning = true;
    c.weather_optional = true;
    c.until = o->date;
    c.weather_unwanted = o->no_grass;
    enum err_code code = context_load(&c, o, e);
    code = code == ERR_OK ? find_plan(&c, o, &trust, &v, e) : code;
    code = code == ERR_OK && o->plot ? draw(&c, o, &v, e) : code;
    if (code == ERR_OK && o->json) {
        hay_json(&v, out);
    } else if (code == ERR_OK) {
        struct page page = options_page(o, out);
        hay_text(&v, page.colour, page.width, out);
    }
    context_release(&c);
    return code;
}
