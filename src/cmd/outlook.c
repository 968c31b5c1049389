/* sugarlea outlook: the coming months as probabilities.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/outlook.h"

#include "cmd/ahead.h"
#include "cmd/today.h"
#include "cmd/trust.h"

#include <math.h>
#include <string.h>

enum { MONTHS = 6 };

static enum err_code draw(struct context *c, const struct options *o, const struct outlook_view *v, struct err *e)
{
    struct plot p;
    bool drawn = outlook_picture(v, &c->arena, &p);
    plot_caption(&p, trust_credit_line(c));
    enum err_code code = drawn ? plot_write(&p, o->plot, e) : err_set(e, ERR_NOMEM, "out of memory");
    plot_release(&p);
    return code;
}

static double given(double value, double otherwise)
{
    return isnan(value) ? otherwise : value;
}

static enum err_code find_outlook(struct context *c, const struct options *o, struct outlook_view *v, struct err *e)
{
    unsigned long seed = (unsigned long)given(o->seed, AHEAD_SEED);
    size_t days = outlook_days(c->until, (int)given(o->months, MONTHS));
    struct today_view trust = {.holding = &c->holding, .units = options_units(o)};
    struct ahead h;
    struct outlook summary;
    enum err_code code = trust_age(c, o, c->until, &trust, e);
    if (code != ERR_OK) {
        return code;
    }
    if (days == 0) {
        return options_wrong(
            e, "--date",
            "is too late: no month after December 2200 is looked at; give an earlier day, or fewer --months");
    }
    trust_doubts(c, o, c->until, &trust);
    code = weather_assume(&c->weather, &c->holding.site, c->until - 1, &c->arena, e);
    code = code == ERR_OK ? ahead_find(c, days, (size_t)given(o->draws, AHEAD_DRAWS), seed, &h, e) : code;
    if (code == ERR_OK && !outlook_make(&h.ensemble, &c->arena, &summary)) {
        code = err_set(e, ERR_NOMEM, "out of memory");
    }
    if (code != ERR_OK) {
        return code;
    }
    ahead_thin(c, &h, &trust);
    *v = (struct outlook_view){.holding = &c->holding,
                               .ensemble = h.ensemble,
                               .outlook = summary,
                               .recorded_to = trust.recorded_to,
                               .forecast_to = trust.forecast_to >= c->until ? trust.forecast_to : DATE_NONE,
                               .first_year = h.first_year,
                               .last_year = h.last_year,
                               .seed = seed,
                               .units = options_units(o),
                               .warnings = trust.warnings,
                               .warning = trust.warning,
                               .credits = trust.credits};
    memcpy(v->credit, trust.credit, sizeof v->credit);
    return ERR_OK;
}

enum err_code cmd_outlook(const struct options *o, struct buf *out, int *status, struct err *e)
{
    struct context c;
    struct outlook_view v;
    (void)status;
    context_init(&c);
    c.morning = true;
    c.until = o->date;
    enum err_code code = context_load(&c, o, e);
    code = code == ERR_OK ? find_outlook(&c, o, &v, e) : code;
    code = code == ERR_OK && o->plot ? draw(&c, o, &v, e) : code;
    if (code == ERR_OK && o->json) {
        outlook_json(&v, out);
    } else if (code == ERR_OK) {
        struct page page = options_page(o, out);
        outlook_text(&v, page.colour, page.width, out);
    }
    context_release(&c);
    return code;
}
