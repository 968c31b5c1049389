/* The morning advice: weather up to that morning, the run, the view.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/today.h"

#include "base/file.h"
#include "cmd/morning.h"
#include "cmd/trust.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { STATUS_FIRST = 10 };

static void name_origins(const struct context *c, struct today_view *v)
{
    unsigned seen = v->day->assumed ? 1u << ORIGIN_ASSUMED : 0u;
    for (size_t i = 0; i < c->weather.n; i++) {
        seen |= 1u << c->weather.origin[i];
    }
    for (unsigned k = ORIGIN_RECORDED; k <= ORIGIN_ASSUMED; k++) {
        if (seen >> k & 1u) {
            v->origins[v->n_origins++] = day_origin_name((enum day_origin)k);
        }
    }
}

static enum err_code write_log(const struct today_view *v, struct err *e)
{
    char log[LIMIT_PATH + 32];
    struct buf b;
    file_beside(v->holding->path, "advice-log.csv", log, sizeof log);
    buf_init(&b);
    today_log(v, &b);
    enum err_code code =
        b.failed ? err_set(e, ERR_NOMEM, "out of memory") : file_append(log, today_log_header, b.text, b.length, e);
    buf_release(&b);
    return code;
}

static enum err_code answer(const struct options *o, const struct today_view *v, struct buf *out, int *status,
                            struct err *e)
{
    if (o->json) {
        today_json(v, out);
    } else if (o->csv) {
        today_csv(v, out);
    } else {
        struct page page = options_page(o, out);
        today_text(v, page.colour, page.width, out);
    }
    for (size_t i = 0; o->exit_status && i < v->day->run->animals; i++) {
        int level = STATUS_FIRST + (int)v->day->run->animal[i].advice.turnout;
        *status = level > *status ? level : *status;
    }
    bool logged = v->holding->path[0] && strcmp(v->holding->path, "-") != 0 && !o->no_log && v->day->run->animals;
    return logged ? write_log(v, e) : ERR_OK;
}

/* How far the forecast reached, when it was asked to reach farther. */
static void name_reach(struct context *c, size_t asked, struct today_view *v)
{
    char last[DATE_TEXT];
    if (v->days < asked && v->forecast_to != DATE_NONE && v->forecast_to >= v->day->date) {
        trust_warn(c, v, "the forecast ends on %s: %zu of the %zu mornings asked for can be advised on.",
                   date_format(v->forecast_to, last), v->days, asked);
    } else if (v->days < asked) {
        trust_warn(c, v, "there is no forecast for the days ahead: only this morning can be advised on.");
    }
}

static enum err_code find_advice(struct context *c, const struct options *o, struct today_view *v, struct err *e)
{
    size_t days = isnan(o->days) ? 1 : (size_t)o->days;
    enum err_code code = trust_age(c, o, c->until, v, e);
    if (code != ERR_OK) {
        return code;
    }
    trust_doubts(c, o, c->until, v);
    code = weather_assume(&c->weather, &c->holding.site, c->until - 1, &c->arena, e);
    code = code == ERR_OK ? mornings_find(c, c->until, days, v, e) : code;
    if (code == ERR_OK) {
        v->days_asked = !isnan(o->days);
        name_origins(c, v);
        trust_diary(c, v);
        name_reach(c, days, v);
    }
    return code;
}

enum err_code today_find(struct context *c, const struct options *o, struct today_view *v, struct err *e)
{
    c->morning = true;
    c->until = o->date;
    v->holding = &c->holding;
    enum err_code code = context_load(c, o, e);
    return code == ERR_OK ? find_advice(c, o, v, e) : code;
}

enum err_code cmd_today(const struct options *o, struct buf *out, int *status, struct err *e)
{
    struct context c;
    struct today_view v = {0};
    context_init(&c);
    enum err_code code = today_find(&c, o, &v, e);
    code = code == ERR_OK ? answer(o, &v, out, status, e) : code;
    context_release(&c);
    return code;
}
