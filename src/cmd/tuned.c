/* Tests and readings on their way to the paddocks. SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/tuned.h"

#include "base/file.h"
#include "cmd/trust.h"
#include "season/tune.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

void tuned_path(const struct holding *h, const char *more, char *path, size_t size)
{
    char name[32];
    path[0] = 0;
    if (h->path[0] && strcmp(h->path, "-") != 0) {
        snprintf(name, sizeof name, "tuning.json%s", more);
        file_beside(h->path, name, path, size);
    }
}

enum err_code tuned_read(struct context *c, struct err *e)
{
    char path[LIMIT_PATH + 32];
    tuned_path(&c->holding, "", path, sizeof path);
    if (!path[0] || access(path, F_OK) != 0) {
        return ERR_OK;
    }
    return tuning_load(path, &c->arena, &c->tuning, e);
}

/* Was it known on the morning that the command asks about? */
static bool known(const struct context *c, date_t date)
{
    return !c->morning || date <= c->until;
}

static struct paddock *paddock_of(struct context *c, const char *id)
{
    for (size_t i = 0; i < c->holding.paddocks; i++) {
        if (strcmp(c->holding.paddock[i].id, id) == 0) {
            return &c->holding.paddock[i];
        }
    }
    return NULL;
}

static bool is_reading(const struct diary_entry *d, size_t paddock)
{
    return (d->what == DIARY_SWARD_HEIGHT || d->what == DIARY_PLATE_HEIGHT) && d->subject == paddock;
}

static double cover_of(const struct context *c, const struct diary_entry *d)
{
    const struct tune_limits *l = &c->params.tune;
    return d->what == DIARY_SWARD_HEIGHT ? holding_cover_of_height(&c->params, d->value)
                                         : l->plate_kg_ha + l->plate_kg_ha_cm * d->value;
}

/* By date, as the diary is; of several on a date the last one counts. */
static bool give_readings(struct context *c, size_t paddock)
{
    struct paddock *p = &c->holding.paddock[paddock];
    size_t n = 0;
    for (size_t i = 0; i < c->known; i++) {
        n += is_reading(&c->diary.entry[i], paddock);
    }
    struct cover_reading *reading = arena_alloc(&c->arena, n, sizeof *reading);
    if (!reading) {
        return false;
    }
    p->reading = reading;
    p->readings = 0;
    for (size_t i = 0; i < c->known; i++) {
        const struct diary_entry *d = &c->diary.entry[i];
        if (is_reading(d, paddock)) {
            p->readings -= p->readings > 0 && reading[p->readings - 1].date == d->date;
            reading[p->readings++] = (struct cover_reading){d->date, cover_of(c, d)};
        }
    }
    return true;
}

enum err_code tuned_give(struct context *c, struct err *e)
{
    for (size_t i = 0; i < c->tuning.n; i++) {
        struct paddock *p = paddock_of(c, c->tuning.row[i].id);
        if (p && known(c, c->tuning.row[i].tuned.date)) {
            p->tuned = c->tuning.row[i].tuned;
        }
    }
    for (size_t i = 0; i < c->holding.paddocks; i++) {
        if (!give_readings(c, i)) {
            return err_set(e, ERR_NOMEM, "out of memory");
        }
    }
    return ERR_OK;
}

void tuned_doubts(struct context *c, struct today_view *v)
{
    char date[DATE_TEXT];
    for (size_t i = 0; i < c->tuning.n; i++) {
        const struct tuning_row *row = &c->tuning.row[i];
        if (!paddock_of(c, row->id)) {
            trust_warn(c, v, "tuning.json tells of a paddock \"%s\" that the holding does not have: passed over.",
                       row->id);
        } else if (!known(c, row->tuned.date)) {
            trust_warn(c, v,
                       "%s is tuned by tests as late as %s, which this morning did not know: it counts as not tested.",
                       row->id, date_format(row->tuned.date, date));
        } else if (tune_unusual(&row->tuned, &c->params.tune)) {
            trust_warn(c, v,
                       "%s is tuned to %.2g times the sugar that is reckoned for it, and 9 paddocks in 10 lie nearer: "
                       "look at its tests (\"sugarlea tune\"), the unit above all.",
                       row->id, exp(row->tuned.theta));
        }
    }
    if (c->tuning.n > 0 && strcmp(c->tuning.model, c->params.hash) != 0) {
        trust_warn(c, v,
                   "the paddocks were tuned to the grass tests by other model files than these. The tuning still "
                   "counts; renew it with \"sugarlea tune --apply\".");
    }
}
