/* From a test in the diary to what the model had on that day and hour.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/tested.h"

#include "base/clock.h"
#include "cmd/morning.h"
#include "physics/sun.h"

#include <math.h>
#include <string.h>

#define DAYS_A_YEAR 365.25
#define MINUTES_AN_HOUR 60.0

/* The solar hour of a test; NaN when the diary does not say the time. */
static double solar_hour(const struct context *c, const struct diary_entry *d)
{
    const struct site *s = &c->holding.site;
    double hour = d->minute / MINUTES_AN_HOUR;
    if (d->minute < 0) {
        return NAN;
    }
    if (!s->timezone[0] || isnan(s->longitude)) {
        return hour; /* times are solar then, as the advice's are */
    }
    struct sun_day sun = sun_of_day(d->date, s->latitude, s->longitude, SUN_GEOMETRIC);
    return hour - clock_from_solar(s->timezone, d->date, s->longitude, sun.equation_min);
}

static void hold(const struct context *c, const struct run *r, size_t i, date_t latest, struct tune_row *row)
{
    const struct diary_entry *d = row->entry;
    const struct run_paddock *p = &r->paddock[d->subject];
    struct run_day day;
    context_day(c, i, &day);
    day.assumed = day.assumed && i >= c->weather.n; /* the record says it by now */
    row->modelled = tune_modelled(&p->day, d->what == DIARY_GRASS_WSC ? TUNE_WSC : TUNE_NSC, solar_hour(c, d));
    row->sd = tune_test_sd(&c->params.tune, run_spread(r, &p->day, &day, c->params.tune.rest), d->minute >= 0,
                           (latest - d->date) / DAYS_A_YEAR, row->below);
}

/* The last test of the paddock. */
static date_t latest_of(const struct diary *d, size_t paddock)
{
    date_t latest = DATE_NONE;
    for (size_t i = 0; i < d->n; i++) {
        latest = diary_is_grass_test(&d->entry[i]) && d->entry[i].subject == paddock ? d->entry[i].date : latest;
    }
    return latest;
}

/* All tests by date: the run passes each day once. row has room for the diary's entries. */
static bool hold_all(struct context *c, struct tune_row *row, size_t *rows)
{
    struct run r;
    size_t at = 0;
    *rows = 0;
    if (!context_run(c, true, &r)) {
        return false;
    }
    for (size_t k = 0; k < c->diary.n; k++) {
        const struct diary_entry *d = &c->diary.entry[k];
        if (!diary_is_grass_test(d)) {
            continue;
        }
        struct tune_row *t = &row[(*rows)++];
        *t = (struct tune_row){.entry = d, .below = d->note[0] == '<', .modelled = NAN, .sd = NAN};
        if (d->date < c->weather.day0 + MORNING_DAYS_BEFORE) {
            t->passed_over = "passed over: before the weather begins";
        } else if (d->date > c->weather.day0 + (date_t)c->weather.n) {
            t->passed_over = "passed over: after the weather ends";
        } else {
            size_t i = (size_t)(d->date - c->weather.day0);
            mornings_pass(c, at, i + 1, &r);
            at = i + 1;
            hold(c, &r, i, latest_of(&c->diary, d->subject), t);
        }
    }
    return true;
}

static bool fit(struct context *c, const struct tune_row *row, size_t rows, size_t paddock, struct tune_paddock *out)
{
    struct tune_row *own = arena_alloc(&c->arena, rows, sizeof *own);
    struct tune_test *test = arena_alloc(&c->arena, rows, sizeof *test);
    size_t n = 0, used = 0;
    date_t last = DATE_NONE;
    if (!own || !test) {
        return false;
    }
    for (size_t i = 0; i < rows; i++) {
        if (row[i].entry->subject != paddock) {
            continue;
        }
        own[n++] = row[i];
        if (!row[i].passed_over) {
            test[used++] = (struct tune_test){log(row[i].entry->value / row[i].modelled), row[i].sd, row[i].below};
            last = row[i].entry->date;
        }
    }
    *out = (struct tune_paddock){.kept = &c->holding.paddock[paddock], .row = own, .rows = n};
    if (!tune_fit(test, used, &c->params.tune, &c->arena, &out->fit)) {
        return false;
    }
    for (size_t i = 0, k = 0; i < n; i++) {
        own[i].doubtful = !own[i].passed_over && tune_doubtful(&test[k++], &out->fit, &c->params.tune);
    }
    if (used > 0) {
        out->tuned = (struct tuning){out->fit.theta, out->fit.sd, (int)used, last};
    }
    out->spread_out = c->params.limits.spread_paddock;
    out->spread_now = tune_spread(&c->params.limits, &c->params.tune, &out->tuned);
    return true;
}

enum err_code tested_find(struct context *c, struct tune_view *v, struct err *e)
{
    struct tune_row *row = arena_alloc(&c->arena, c->diary.n, sizeof *row);
    struct tune_paddock *paddock = arena_alloc(&c->arena, c->holding.paddocks, sizeof *paddock);
    size_t rows = 0;
    if (!row || !paddock || !hold_all(c, row, &rows)) {
        return err_set(e, ERR_NOMEM, "out of memory");
    }
    v->diary = &c->diary;
    v->paddock = paddock;
    v->paddocks = 0;
    for (size_t i = 0; i < c->holding.paddocks; i++) {
        if (!fit(c, row, rows, i, &paddock[v->paddocks])) {
            return err_set(e, ERR_NOMEM, "out of memory");
        }
        v->paddocks += paddock[v->paddocks].rows > 0;
    }
    return ERR_OK;
}
