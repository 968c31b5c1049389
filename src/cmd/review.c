/* sugarlea review: past mornings replayed, and scored.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/review.h"
#include "cmd/tested.h"
#include "cmd/today.h"
#include "cmd/trust.h"

enum { DAYS_BEFORE = 3 }; /* what a morning looks back at */

/* The last day of the record itself, without a forecast that follows it. */
static date_t recorded_end(const struct weather_days *w)
{
    size_t n = w->n;
    while (n > 0 && w->origin[n - 1] != ORIGIN_RECORDED) {
        n--;
    }
    return w->day0 + (date_t)n - 1;
}

static enum err_code find_days(const struct context *c, const struct options *o, size_t *first, size_t *last,
                               struct err *e)
{
    char begins[DATE_TEXT], ends[DATE_TEXT];
    date_t earliest = c->weather.day0 + DAYS_BEFORE, end = recorded_end(&c->weather);
    date_t settled = c->weather.day0 + (date_t)c->params.limits.min_days;
    date_t to = o->to != DATE_NONE ? o->to : end;
    date_t from = o->from != DATE_NONE ? o->from : settled;
    if (o->from == DATE_NONE && settled > to) {
        return err_set(e, ERR_NOINPUT,
                       "the weather goes from %s to %s: the first %g days are left for the sward to settle, and none "
                       "remain to review; give a longer record, or --from a day",
                       date_format(c->weather.day0, begins), date_format(end, ends), c->params.limits.min_days);
    }
    if (from > to) {
        return options_wrong(e, "--from", "lies after --to, or after the end of the weather");
    }
    if (from < earliest || to > end) {
        return err_set(e, ERR_NOINPUT, "mornings from %s to %s can be reviewed; ask for days within them",
                       date_format(earliest, begins), date_format(end, ends));
    }
    *first = (size_t)(from - c->weather.day0);
    *last = (size_t)(to - c->weather.day0);
    return ERR_OK;
}

/* Truths from the settled days on, or from the first day asked for: the normals are made of them. */
static enum err_code replay_all(struct context *c, size_t first, struct replay *p, struct err *e)
{
    struct run r;
    struct run_day seen[REPLAY_AHEAD + 1];
    size_t settled = (size_t)c->params.limits.min_days, truths = first < settled ? first : settled;
    if (!context_run(c, false, &r) || !replay_init(p, &r, c->weather.n, &c->arena)) {
        return err_set(e, ERR_NOMEM, "out of memory");
    }
    for (size_t i = 0; i < c->weather.n; i++) {
        if (i < DAYS_BEFORE) {
            context_day(c, i, &seen[0]);
            run_morning(&r, &seen[0]);
            run_evening(&r, &seen[0]);
            continue;
        }
        for (size_t k = 0; k <= REPLAY_AHEAD; k++) {
            context_day_ahead(c, i, k, &seen[k]);
        }
        /* the day before the first belongs to persistence */
        replay_day(p, &r, i, seen, i + REPLAY_AHEAD + 1 >= truths && c->weather.origin[i] == ORIGIN_RECORDED);
    }
    return ERR_OK;
}

static enum err_code find_review(struct context *c, const struct options *o, struct review *found,
                                 struct review_view *v, struct err *e)
{
    struct replay p;
    size_t first = 0, last = 0;
    enum err_code code = find_days(c, o, &first, &last, e);
    code = code == ERR_OK ? replay_all(c, first, &p, e) : code;
    if (code == ERR_OK && !review_find(&p, first, last, &c->arena, found)) {
        code = err_set(e, ERR_NOMEM, "out of memory");
    }
    if (code == ERR_OK) {
        *v = (struct review_view){.holding = &c->holding,
                                  .review = found,
                                  .first = c->weather.day0 + (date_t)first,
                                  .last = c->weather.day0 + (date_t)last,
                                  .weather_sd = p.weather_sd};
    }
    return code;
}

static bool has_tests(const struct diary *d)
{
    for (size_t i = 0; i < d->n; i++) {
        if (diary_is_grass_test(&d->entry[i])) {
            return true;
        }
    }
    return false;
}

/* The tests, held against paddocks that were never tuned by them: a context of its own. */
static enum err_code find_tests(struct context *untuned, const struct options *o, struct tune_view *tests,
                                struct err *e)
{
    untuned->untuned = true;
    tests->holding = &untuned->holding;
    enum err_code code = context_load(untuned, o, e);
    return code == ERR_OK ? tested_find(untuned, tests, e) : code;
}

static enum err_code draw(struct context *c, const struct review_view *v, const char *path, struct err *e)
{
    struct plot p;
    bool told = review_picture(v, &p);
    plot_caption(&p, trust_credit_line(c));
    enum err_code code = ERR_OK;
    if (!told) {
        code = err_set(e, ERR_NOINPUT, "nothing to draw: all mornings of each group were alike, or no animal is named");
    }
    code = code == ERR_OK ? plot_write(&p, path, e) : code;
    plot_release(&p);
    return code;
}

enum err_code cmd_review(const struct options *o, struct buf *out, int *status, struct err *e)
{
    struct context c, untuned;
    struct review found;
    struct review_view v;
    struct tune_view tests = {0};
    (void)status;
    context_init(&c);
    context_init(&untuned);
    enum err_code code = context_load(&c, o, e);
    bool tested = code == ERR_OK && has_tests(&c.diary);
    code = tested ? find_tests(&untuned, o, &tests, e) : code;
    code = code == ERR_OK ? find_review(&c, o, &found, &v, e) : code;
    v.tests = tested ? &tests : NULL;
    if (code == ERR_OK && o->plot) {
        code = draw(&c, &v, o->plot, e);
    }
    if (code == ERR_OK && o->json) {
        review_json(&v, out);
    } else if (code == ERR_OK) {
        const struct page page = options_page(o, out);
        review_text(&v, page.width, out);
        trust_credit_text(&c, &page);
    }
    context_release(&untuned);
    context_release(&c);
    return code;
}
