/* What one holding has for the round. SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/round_look.h"

#include "cmd/ahead.h"
#include "cmd/amiss.h"
#include "cmd/morning.h"
#include "cmd/trust.h"
#include "hay/plan.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { FAULT_TEXT = 1024 };

struct look {
    struct options options; /* the round's, with this holding */
    struct context c;
    struct today_view v;
    bool advised; /* v holds this morning's advice, and the weather is whole */
    struct round_found *f;
};

static bool at_risk(const struct look *l, const struct animal_group *g)
{
    return g->rules.level_probability >= l->c.params.limits.at_risk_probability;
}

static void add_fault(struct look *l, const struct err *e, const char *so)
{
    char text[FAULT_TEXT];
    err_format(e, text, sizeof text);
    size_t n = strlen(text);
    snprintf(text + n, sizeof text - n, "%s", so);
    round_fault(l->f, text);
}

/* "; a vet came on 22 April 2025", by the diary since the signs began; "" else. */
static const char *visit_text(const struct look *l, size_t animal, date_t since, char *text, size_t size)
{
    char day[TEXT_DAY];
    text[0] = 0;
    for (size_t i = 0; i < l->c.known; i++) {
        const struct diary_entry *d = &l->c.diary.entry[i];
        if (d->what == DIARY_VET && d->subject == animal && d->date >= since && (d->words & (unsigned)VET_VISITED)) {
            snprintf(text, size, "; a vet came on %s", text_day(d->date, day));
        }
    }
    return text;
}

static void find_signs(struct look *l, const struct run *r)
{
    struct amiss_sore lost;
    char words[LIMIT_TEXT], day[TEXT_DAY], visit[2 * TEXT_DAY];
    amiss_sore(&l->c, &lost);
    for (size_t i = 0; i < r->animals; i++) {
        const struct run_animal *a = &r->animal[i];
        bool others = a->seen.words && (run_others_sore(r, a->group) || amiss_beside(&lost, a->group));
        enum signs_urgency u = signs_urgency(a->seen.words, &a->group->rules, others);
        if (a->seen.words) {
            diary_words_text(&diary_kinds[DIARY_FOOT_SIGNS], a->seen.words, ", ", words, sizeof words);
            round_add(l->f, round_of_signs(u), DATE_NONE, "%s: a vet is needed %s; foot signs since %s (%s)%s.",
                      a->group->id, u == SIGNS_AT_ONCE ? "at once" : "today", text_day(a->seen.since, day), words,
                      visit_text(l, i, a->seen.since, visit, sizeof visit));
        } else if (u != SIGNS_GONE) {
            round_add(l->f, ROUND_ACUTE, DATE_NONE,
                      "%s: a vet is needed today; kept as an acute case (%s), without foot signs in the diary.",
                      a->group->id, a->group->class_id);
        }
    }
}

/* Of an animal that the holding does not have: it may be one that goes out today. */
static void find_lost_signs(struct look *l, const struct run *r)
{
    struct amiss found[AMISS_MOST];
    size_t n = amiss_signs(&l->c, r, found);
    for (size_t i = 0; i < n; i++) {
        bool at_once = found[i].urgency == SIGNS_AT_ONCE;
        round_add(l->f, at_once ? ROUND_SIGNS_AT_ONCE : ROUND_SIGNS_LOST, DATE_NONE, "%s", found[i].text);
    }
}

static void find_all_signs(struct look *l)
{
    struct run r;
    if (!context_run(&l->c, true, &r)) {
        round_fault(l->f, "out of memory");
        return;
    }
    run_look_over(&r, l->c.until);
    find_signs(l, &r);
    find_lost_signs(l, &r);
}

/* Said as long as today says it. */
static void find_insulin(struct look *l)
{
    char day[TEXT_DAY];
    for (size_t i = 0; i < l->c.holding.animals; i++) {
        const struct diary_entry *d = trust_insulin(&l->c, i);
        if (d) {
            round_add(l->f, ROUND_INSULIN, DATE_NONE,
                      "%s: insulin %g uIU/ml on %s, by the diary; the advice does not judge it.",
                      l->c.holding.animal[i].id, d->value, text_day(d->date, day));
        }
    }
}

struct signs_end { /* of a group's last foot signs */
    date_t seen;   /* the last of them */
    date_t ended;  /* by the keeper; DATE_NONE no */
    bool cleared;  /* by the vet, since they were seen */
};

static struct signs_end signs_end_of(const struct look *l, size_t animal)
{
    struct signs_end s = {DATE_NONE, DATE_NONE, false};
    for (size_t k = 0; k < l->c.known; k++) {
        const struct diary_entry *d = &l->c.diary.entry[k];
        if (!diary_tells_of_signs(d) || d->subject != animal) {
            continue;
        }
        if (diary_ends_signs(d)) {
            s.cleared = s.cleared || d->what == DIARY_VET;
            s.ended = d->what == DIARY_VET || s.ended != DATE_NONE ? s.ended : d->date;
        } else if (d->what == DIARY_FOOT_SIGNS) {
            s = (struct signs_end){d->date, DATE_NONE, false};
        }
    }
    return s;
}

/* The keeper said that the signs are gone, and nobody else did. */
static void find_back_on_grass(struct look *l, size_t i)
{
    const struct run_animal *a = &l->v.day->run->animal[i];
    struct signs_end s = signs_end_of(l, i);
    char turnout[64], day[TEXT_DAY], visit[2 * TEXT_DAY];
    if (!a->input.back.after_signs || a->advice.turnout == TURNOUT_NONE || s.ended == DATE_NONE || s.cleared) {
        return;
    }
    round_add(
        l->f, ROUND_BACK_ON_GRASS, DATE_NONE,
        "%s: back on grass (%s, day %d of %d) after foot signs that the keeper ended on %s; the vet has not cleared "
        "it by the diary%s.",
        a->group->id, round_turnout_text(&a->advice, turnout, sizeof turnout), a->input.back.day, a->input.back.days,
        text_day(s.ended, day), visit_text(l, i, s.seen, visit, sizeof visit));
}

/* The strictest turnout of the morning. */
static void find_strictest(struct look *l, const struct run *now)
{
    char turnout[64];
    for (size_t i = 0; i < now->animals; i++) {
        const struct run_animal *a = &now->animal[i];
        if ((int)a->advice.turnout > l->f->turnout) {
            l->f->turnout = (int)a->advice.turnout;
            snprintf(l->f->strictest, sizeof l->f->strictest, "%s %s", a->group->id,
                     round_turnout_text(&a->advice, turnout, sizeof turnout));
        }
    }
}

/* Off grass by the keeper's own doing or for its feet: said elsewhere, or no news. */
static bool is_kept_off(const struct run_animal *a)
{
    return a->input.foot_signs || a->input.rested || !a->group->rules.grazing;
}

static void find_today(struct look *l, size_t i)
{
    const struct run_animal *a = &l->v.day->run->animal[i], *before = &l->v.yesterday[i];
    char today[64], yesterday[64];
    bool comparable = before->advised == l->c.until - 1 && !is_kept_off(a) && !is_kept_off(before);
    enum round_reason reason =
        comparable ? round_of_today(at_risk(l, a->group), a->advice.turnout, before->advice.turnout) : ROUND_REASONS;
    if (reason != ROUND_REASONS) {
        round_add(l->f, reason, DATE_NONE, "%s (%s): %s today; yesterday %s.", a->group->id, a->group->class_id,
                  round_turnout_text(&a->advice, today, sizeof today),
                  round_turnout_text(&before->advice, yesterday, sizeof yesterday));
    }
}

/* The first of the days ahead on which it gets stricter than today, and the strictest of them. */
static void find_ahead(struct look *l, size_t i)
{
    const struct run_animal *now = &l->v.day->run->animal[i];
    enum round_reason worst = ROUND_REASONS;
    const struct today_day *of = NULL;
    char today[64], coming[64], day[TEXT_DAY];
    for (size_t k = 1; k < l->v.days && !is_kept_off(now); k++) {
        const struct advice *x = &l->v.day[k].run->animal[i].advice;
        enum round_reason r = round_of_ahead(at_risk(l, now->group), x->turnout, now->advice.turnout);
        if (r < worst) {
            worst = r;
            of = &l->v.day[k];
        }
    }
    if (of) {
        round_add(l->f, worst, of->date, "%s (%s): %s on %s by the forecast; today %s.", now->group->id,
                  now->group->class_id, round_turnout_text(&of->run->animal[i].advice, coming, sizeof coming),
                  text_day(of->date, day), round_turnout_text(&now->advice, today, sizeof today));
    }
}

static enum err_code find_morning(struct look *l, struct err *e)
{
    struct context *c = &l->c;
    if (c->holding.sources == 0) {
        return err_set(e, ERR_NOINPUT,
                       "there is no weather: name a file or a service under \"weather\" in the holding");
    }
    enum err_code code = context_weather(c, &l->options, e);
    code = code == ERR_OK ? trust_age(c, &l->options, c->until, &l->v, e) : code;
    code = code == ERR_OK ? weather_assume(&c->weather, &c->holding.site, c->until - 1, &c->arena, e) : code;
    return code == ERR_OK ? mornings_find(c, c->until, 1 + (size_t)c->params.limits.round_ahead_days, &l->v, e) : code;
}

static void find_advice(struct look *l)
{
    struct err e;
    char day[TEXT_DAY];
    err_clear(&e);
    enum err_code code = find_morning(l, &e);
    if (code == ERR_NOINPUT || code == ERR_NETWORK) {
        char text[FAULT_TEXT];
        err_format(&e, text, sizeof text);
        bool refused = l->c.weather.n > 0;
        round_add(l->f, refused ? ROUND_WEATHER_REFUSED : ROUND_WEATHER_MISSING, DATE_NONE, "%s%s.",
                  refused ? "" : "no advice: ", text);
        return;
    }
    if (code != ERR_OK) {
        add_fault(l, &e, "");
        return;
    }
    l->advised = true;
    snprintf(l->f->credit, sizeof l->f->credit, "%s", trust_credit_line(&l->c));
    find_strictest(l, l->v.day->run);
    for (size_t i = 0; i < l->c.holding.animals; i++) {
        find_back_on_grass(l, i);
        find_today(l, i);
        find_ahead(l, i);
    }
    if (l->v.provisional) {
        round_add(l->f, ROUND_WEATHER_OLD, DATE_NONE,
                  "the weather was recorded to %s, %d days ago: its advice is provisional.",
                  text_day(l->v.recorded_to, day), l->v.age_days + 1);
    }
}

/* The plan of `days` from an ensemble. */
static bool plan_hay(struct look *l, const struct ahead *h, struct hay_plan *plan)
{
    struct context *c = &l->c;
    const struct hay_ask ask = {.e = &h->ensemble,
                                .h = &c->holding,
                                .p = &c->params,
                                .now = h->now,
                                .losses = hay_losses_of(&c->holding, &c->params),
                                .doubt = hay_doubt(&c->holding, &c->params),
                                .by_table = h->years == 0};
    return hay_plan_make(&ask, &c->arena, plan);
}

static void say_hay(struct look *l, const struct hay_plan *p)
{
    char early[TEXT_DAY], middle[TEXT_DAY], by[LIMIT_TEXT];
    enum round_reason reason = round_of_hay(p->runs_out.p10 - l->c.until, &l->c.params);
    if (reason == ROUND_REASONS) {
        return;
    }
    if (p->years) {
        snprintf(by, sizeof by, "by the weather of %zu past years", p->years);
    } else {
        snprintf(by, sizeof by, "by table values, as if no grass were eaten");
    }
    const char *first = text_day(p->runs_out.p10, early);
    if (p->stock.kg <= 0.0) {
        round_add(l->f, reason, l->c.until, "there is no hay in store, by the holding file.");
    } else if (isnan(p->runs_out.p50)) {
        round_add(l->f, reason, (date_t)p->runs_out.p10, "the hay may run out by %s (1 time in 10), %s.", first, by);
    } else {
        round_add(l->f, reason, (date_t)p->runs_out.p10, "the hay runs out about %s (1 time in 10 by %s), %s.",
                  text_day(p->runs_out.p50, middle), first, by);
    }
}

/* Table values first: they eat no grass, and what lasts by them lasts in any weather. Only where it does not
 * is the weather of past years asked, as `sugarlea hay` does. */
static void find_hay(struct look *l)
{
    struct context *c = &l->c;
    struct ahead h = {0};
    struct hay_plan plan;
    struct err why;
    size_t days = (size_t)fmax(c->params.hay.lead_days, c->params.limits.round_hay_days);
    err_clear(&why);
    if (c->holding.animals == 0) {
        return;
    }
    bool planned =
        hay_table_days(&c->holding, &c->params, c->until, days, &c->arena, &h.ensemble) && plan_hay(l, &h, &plan);
    if (planned && isnan(plan.runs_out.p10)) {
        return;
    }
    struct ahead by_years = {0};
    if (planned && l->advised && ahead_find(c, days, 0, AHEAD_SEED, &by_years, &why) == ERR_OK) {
        planned = plan_hay(l, &by_years, &plan);
    }
    if (planned && why.code != ERR_NOMEM) {
        say_hay(l, &plan);
    } else {
        round_fault(l->f, "out of memory: nothing is known of its hay");
    }
}

static void find_all(struct look *l)
{
    struct err e;
    err_clear(&e);
    enum err_code code = context_beside(&l->c, &l->options, &e);
    snprintf(l->f->name, sizeof l->f->name, "%s", l->c.holding.name);
    if (code != ERR_OK) {
        add_fault(l, &e, "; until then nothing is known of its animals' feet");
        return;
    }
    find_all_signs(l);
    find_insulin(l);
    find_advice(l);
    find_hay(l);
}

void round_look(const struct round_ask *ask, const char *path, struct round_found *f)
{
    struct look l = {.options = *ask->options, .f = f};
    *f = (struct round_found){.due = DATE_NONE, .turnout = ROUND_UNADVISED};
    l.options.holding = path;
    l.options.offline = ask->options->offline || !ask->options->fetch;
    l.options.fetch = false; /* hundreds of neighbours share what is kept: it is asked for once */
    context_init(&l.c);
    l.c.params = *ask->params;
    l.c.morning = l.c.doubts_unwanted = l.c.drivers_unwanted = true;
    l.c.until = ask->date;
    l.c.threads = 1;
    l.v.holding = &l.c.holding;
    find_all(&l);
    context_release(&l.c);
}
