/* sugarlea outlook: the coming months as probabilities.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/outlook.h"

#include "base/term.h"
#include "cmd/ahead.h"
#include "cmd/today.h"
#include "cmd/trust.h"

#include <math.h>
#include <unistd.h>

enum { MONTHS = 6 };

struct asked {
    int months;
    size_t draws;
    unsigned long seed;
};

static enum err_code whole(double given, double otherwise, const char *option, double *value, struct err *e)
{
    *value = isnan(given) ? otherwise : given;
    if (*value != floor(*value)) {
        err_set(e, ERR_USAGE, "\"%g\" is not a whole number", *value);
        return err_at(e, NULL, 0, 0, option);
    }
    return ERR_OK;
}

static enum err_code read_asked(const struct options *o, struct asked *a, struct err *e)
{
    double months, draws, seed;
    enum err_code code = whole(o->months, MONTHS, "--months", &months, e);
    code = code == ERR_OK ? whole(o->draws, AHEAD_DRAWS, "--draws", &draws, e) : code;
    code = code == ERR_OK ? whole(o->seed, AHEAD_SEED, "--seed", &seed, e) : code;
    if (code == ERR_OK) {
        *a = (struct asked){(int)months, (size_t)draws, (unsigned long)seed};
    }
    return code;
}

static enum err_code check_plot(const struct options *o, struct err *e)
{
    enum plot_format format;
    return o->plot && plot_format_of(o->plot, &format, e) != ERR_OK ? err_at(e, NULL, 0, 0, "--plot") : ERR_OK;
}

static enum err_code draw(struct context *c, const struct options *o, const struct outlook_view *v, struct err *e)
{
    struct plot p;
    enum err_code code =
        outlook_picture(v, &c->arena, &p) ? plot_write(&p, o->plot, e) : err_set(e, ERR_NOMEM, "out of memory");
    plot_release(&p);
    return code;
}

static void name_thin(struct context *c, const struct ahead *h, struct today_view *v)
{
    if (h->years < AHEAD_YEARS_WANTED) {
        trust_warn(c, v,
                   "THIN: only %zu past years of these days are on record (%d or more are wanted). The range is no "
                   "more than that of these years; take it as examples.",
                   h->years, AHEAD_YEARS_WANTED);
    }
}

static enum err_code find_outlook(struct context *c, const struct options *o, const struct asked *a,
                                  struct outlook_view *v, struct err *e)
{
    struct today_view trust = {.holding = &c->holding};
    struct ahead h;
    struct outlook summary;
    enum err_code code = trust_age(c, o, c->until, &trust, e);
    if (code != ERR_OK) {
        return code;
    }
    trust_doubts(c, o, c->until, &trust);
    code = weather_assume(&c->weather, &c->holding.site, c->until - 1, &c->arena, e);
    size_t days = outlook_days(c->until, a->months);
    code = code == ERR_OK ? ahead_find(c, days, a->draws, a->seed, &h, e) : code;
    if (code == ERR_OK && !outlook_make(&h.ensemble, &c->arena, &summary)) {
        code = err_set(e, ERR_NOMEM, "out of memory");
    }
    if (code != ERR_OK) {
        return code;
    }
    name_thin(c, &h, &trust);
    *v = (struct outlook_view){.holding = &c->holding,
                               .ensemble = h.ensemble,
                               .outlook = summary,
                               .recorded_to = trust.recorded_to,
                               .forecast_to = trust.forecast_to >= c->until ? trust.forecast_to : DATE_NONE,
                               .first_year = h.first_year,
                               .last_year = h.last_year,
                               .seed = a->seed,
                               .warnings = trust.warnings,
                               .credits = trust.credits};
    for (size_t i = 0; i < trust.warnings; i++) {
        v->warning[i] = trust.warning[i];
    }
    for (size_t i = 0; i < trust.credits; i++) {
        v->credit[i] = trust.credit[i];
    }
    return ERR_OK;
}

enum err_code cmd_outlook(const struct options *o, struct buf *out, int *status, struct err *e)
{
    struct context c;
    struct outlook_view v;
    struct asked asked;
    (void)status;
    context_init(&c);
    c.morning = true;
    c.until = o->date;
    enum err_code code = read_asked(o, &asked, e);
    code = code == ERR_OK ? check_plot(o, e) : code;
    code = code == ERR_OK ? context_load(&c, o, e) : code;
    code = code == ERR_OK ? find_outlook(&c, o, &asked, &v, e) : code;
    code = code == ERR_OK && o->plot ? draw(&c, o, &v, e) : code;
    if (code == ERR_OK && o->json) {
        outlook_json(&v, out);
    } else if (code == ERR_OK) {
        outlook_text(&v, !o->plain && !o->no_colour && term_colour(STDOUT_FILENO),
                     o->plain ? 100 : term_width(STDOUT_FILENO), out);
    }
    context_release(&c);
    return code;
}
