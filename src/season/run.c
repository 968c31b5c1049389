/* Morning and evening of a holding. SPDX-License-Identifier: GPL-3.0-or-later */
#include "season/run.h"

#include "base/num.h"
#include "season/events.h"
#include "season/tune.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>
#include <string.h>

#define Z80 1.2815515655446004 /* normal quantile of 0.9 */

void run_band(double level, double ln_sd, double *low, double *high)
{
    assert(ln_sd >= 0.0);
    *low = level * exp(-Z80 * ln_sd);
    *high = level * exp(Z80 * ln_sd);
}

double run_dawn_nsc(const struct run_paddock *p, const struct sward_result *day)
{
    assert(p->dawn_h >= 0.0 && p->dawn_h <= 12.0);
    return day->nsc_hour[(int)p->dawn_h];
}

const struct hay_lot *run_hay_of(const struct holding *h, const struct animal_group *g)
{
    assert(h->lots > 0);
    const struct hay_lot *coarse = NULL; /* to be soaked: nearer to what poor teeth need than straw */
    for (size_t i = 0; i < h->lots; i++) {
        const struct hay_lot *lot = &h->lot[i];
        if (lot->feed->is_straw) { /* no hay: only where there is no other */
            continue;
        }
        if (history_suits_feed(g->history, lot->feed, !isnan(lot->soaked_h))) {
            return lot;
        }
        coarse = coarse ? coarse : lot;
    }
    return coarse ? coarse : &h->lot[0];
}

static void init_animal(struct run_animal *a, const struct holding *h, const struct animal_group *g)
{
    assert(g->paddock < h->paddocks);
    a->group = g;
    a->advised = a->signs.since = a->seen.since = DATE_NONE;
    a->out_h = NAN;
    a->input = (struct advice_animal){
        .rules = &g->rules, .weight_kg = g->weight_kg, .history = g->history, .feds = g->feds, .fed = g->fed};
    advice_give_hay(&a->input, run_hay_of(h, g));
}

bool run_init(struct run *r, const struct params *p, const struct holding *h, struct arena *a)
{
    assert(h->paddocks > 0);
    *r = (struct run){.params = p, .paddocks = h->paddocks, .animals = h->animals, .live = DATE_NONE};
    double longitude = isnan(h->site.longitude) ? 0.0 : h->site.longitude;
    r->sun = sun_place_of(h->site.latitude, longitude, SUN_GEOMETRIC);
    r->south = h->site.latitude < 0.0;
    r->paddock = arena_alloc(a, h->paddocks, sizeof *r->paddock);
    r->animal = arena_alloc(a, h->animals, sizeof *r->animal);
    if (!r->paddock || !r->animal) {
        return false;
    }
    advice_tables_make(&p->limits, &r->tables);
    for (size_t i = 0; i < h->paddocks; i++) {
        const struct paddock *k = &h->paddock[i];
        r->paddock[i].kept = k;
        r->paddock[i].now = (struct run_kept){
            .how = k->kept.how, .cover_kg_ha = k->kept.cover_kg_ha, .since = DATE_NONE, .cut = DATE_NONE};
        r->paddock[i].level = exp(k->tuned.theta);
        r->paddock[i].level_sd = tune_spread(&p->limits, &p->tune, &k->tuned);
        sward_init(&r->paddock[i].sward, p->kind, k->grasses, k->grass, k->share, k->soil->capacity_mm, k->nitrogen);
    }
    for (size_t i = 0; i < h->animals; i++) {
        init_animal(&r->animal[i], h, &h->animal[i]);
    }
    return true;
}

bool run_copy(struct run *to, const struct run *from, struct arena *a)
{
    *to = *from;
    to->paddock = arena_alloc(a, from->paddocks, sizeof *to->paddock);
    to->animal = arena_alloc(a, from->animals, sizeof *to->animal);
    if (!to->paddock || !to->animal) {
        return false;
    }
    run_set(to, from);
    return true;
}

void run_set(struct run *to, const struct run *from)
{
    assert(to->paddocks == from->paddocks && to->animals == from->animals);
    memcpy(to->paddock, from->paddock, from->paddocks * sizeof *to->paddock);
    memcpy(to->animal, from->animal, from->animals * sizeof *to->animal);
    to->days = from->days;
    to->next = from->next;
}

double run_doubt(const struct run *r, const struct sward_result *day)
{
    const struct advice_limits *l = &r->params->limits;
    return (double)r->days < l->min_days ? fmax(day->spread_factor, l->spread_short_record) : day->spread_factor;
}

double run_spread(const struct run *r, const struct sward_result *day, const struct run_day *d, double level_sd)
{
    assert(d->estimated >= 0.0 && d->estimated <= 1.0);
    const struct advice_limits *l = &r->params->limits;
    double sd = hypot(level_sd * run_doubt(r, day), l->spread_estimated * d->estimated);
    double days = 1.0 + l->spread_late_day * d->late_days;
    return d->assumed ? hypot(sd, l->spread_assumed_weather * sqrt(days)) : sd;
}

static int head_on(const struct run *r, size_t paddock)
{
    int head = 0;
    for (size_t i = 0; i < r->animals; i++) {
        head += r->animal[i].group->paddock == paddock ? r->animal[i].group->count : 0;
    }
    return head;
}

/* A paddock whose grass is not followed bite by bite can go on giving what grows, and what stands shared
 * out over the days until its height is to be measured again. */
static double lasting_kg_ha(const struct run *r, const struct run_paddock *p)
{
    double standing = sward_available_kg_ha(&p->sward) / r->params->limits.remind_height_days;
    return r->params->hay.usable_share * (standing + fmax(p->expected.growth, 0.0));
}

static void offer(const struct run *r, size_t paddock, struct advice_grass *g)
{
    const struct run_paddock *p = &r->paddock[paddock];
    int head = head_on(r, paddock);
    assert(head > 0);
    memcpy(g->nsc, p->expected.nsc_hour, sizeof g->nsc);
    g->ln_sd = p->ln_sd;
    g->ndf_pct = NAN;
    g->starch_pct = p->expected.starch / 10.0;
    /* the sward counted up to last evening; this is the next morning */
    g->days_since_killing_frost = p->expected.killing_frost ? 0 : p->sward.days_since_kill + 1;
    g->available_kg_head = g->lasting_kg_head = NAN;
    if (p->now.how == KEPT_STOCKED) {
        g->available_kg_head = sward_available_kg_ha(&p->sward) * p->kept->area_ha / head;
    } else if (r->depth == RUN_REASONS) {
        g->lasting_kg_head = lasting_kg_ha(r, p) * p->kept->area_ha / head;
    }
    g->dawn_h = p->dawn_h;
}

/* What a day would bring; the sward stays as it is. Only what a step changes is kept aside. */
static void try_step(struct sward *s, const struct sward_day *day, struct sward_result *r)
{
    enum { FIRST = offsetof(struct sward, part), BYTES = sizeof(struct sward) - FIRST };
    unsigned char kept[BYTES];
    memcpy(kept, (unsigned char *)s + FIRST, BYTES);
    sward_step(s, day, r);
    memcpy((unsigned char *)s + FIRST, kept, BYTES);
}

/* What the grass tests of the paddock put on the sugar of a day. */
static void correct_level(const struct run_paddock *p, struct sward_result *r)
{
    double *const sugar[] = {&r->nsc_min, &r->nsc_max, &r->nsc_mean, &r->wsc, &r->fructan, &r->starch, &r->esc};
    if (p->kept->tuned.tests == 0) {
        return;
    }
    for (int h = 0; h < 24; h++) {
        r->nsc_hour[h] *= p->level;
    }
    for (size_t k = 0; k < sizeof sugar / sizeof sugar[0]; k++) {
        *sugar[k] *= p->level;
    }
}

static void make_day(const struct run *r, const struct sward_weather *w, struct sward_day *d)
{
    sward_day_force(d, w, sun_day_length(w->date, &r->sun), r->south, true);
}

void run_sky_make(struct run_sky *sky, const struct run_day *d, const struct run *r)
{
    make_day(r, &d->recorded, &sky->recorded);
    sward_day_again(&sky->morning, &d->morning, &sky->recorded, r->depth != RUN_TABLE || r->animals > 0);
}

static void expect_under(struct run *r, const struct run_day *d, const struct sward_day *day)
{
    for (size_t i = 0; i < r->paddocks; i++) {
        struct run_paddock *p = &r->paddock[i];
        if (r->depth == RUN_TABLE && head_on(r, i) == 0) {
            p->expected.nsc_mean = NAN;
            p->expected.spread_factor = sward_doubt(&p->sward, day);
        } else {
            try_step(&p->sward, day, &p->expected);
            correct_level(p, &p->expected);
        }
        p->ln_sd = run_spread(r, &p->expected, d, p->level_sd);
        if (r->depth == RUN_REASONS) {
            p->tested_ln_sd = run_spread(r, &p->expected, d, fmin(p->level_sd, r->params->limits.spread_tested));
        }
        p->dawn_h = 12.0 - day->day_length_h / 2.0;
        p->stock_dm_kg = 0.0;
    }
}

static void advise_animal(const struct run *r, struct run_animal *a)
{
    const struct advice_limits *l = &r->params->limits;
    bool hours_count =
        a->back.on || a->input.back.day > 0 || r->paddock[a->group->paddock].kept->kept.how == KEPT_STOCKED;
    if (r->depth == RUN_WHETHER && !hours_count) {
        a->advice = (struct advice){.hours = advise_any(&r->tables, &a->grass, &a->input, l)};
        return;
    }
    (r->depth == RUN_REASONS ? advise_with : advise_plainly)(&r->tables, &a->grass, &a->input, l, &a->advice);
}

static void morning_under(struct run *r, const struct run_day *d, const struct sward_day *day)
{
    date_t date = d->morning.date;
    expect_under(r, d, day);
    for (size_t i = 0; i < r->animals; i++) {
        struct run_animal *a = &r->animal[i];
        offer(r, a->group->paddock, &a->grass);
        if (r->follow_animals) {
            events_morning(r, a, date);
            a->input.rested = run_rests(&r->paddock[a->group->paddock]);
        }
        advise_animal(r, a);
        a->advised = date;
        r->paddock[a->group->paddock].stock_dm_kg += a->advice.ration.grass_dm_kg * a->group->count;
    }
}

bool run_is_stocked(const struct run *r)
{
    for (size_t i = 0; i < r->paddocks; i++) {
        if (r->paddock[i].kept->kept.how == KEPT_STOCKED) {
            return true;
        }
    }
    return false;
}

void run_look_over(struct run *r, date_t date)
{
    events_evening(r, date - 1);
    for (size_t i = 0; i < r->animals; i++) {
        events_morning(r, &r->animal[i], date);
    }
}

bool run_others_sore(const struct run *r, const struct animal_group *g)
{
    bool sore = false;
    for (size_t i = 0; i < r->animals; i++) {
        sore = sore || (r->animal[i].group != g && r->animal[i].seen.words != 0);
    }
    return sore;
}

void run_morning(struct run *r, const struct run_day *d)
{
    struct sward_day day;
    make_day(r, &d->morning, &day);
    morning_under(r, d, &day);
}

void run_expect(struct run *r, const struct run_day *d)
{
    struct sward_day day;
    make_day(r, &d->morning, &day);
    expect_under(r, d, &day);
}

void run_morning_under(struct run *r, const struct run_day *d, const struct run_sky *sky)
{
    morning_under(r, d, &sky->morning);
}

/* The day from which the mower of every so many days goes in the growth year of this date,
 * which begins on 1 January, in the south on 1 July. */
static date_t mowing_begins(const struct kept *k, date_t date, bool south)
{
    enum { JULY = 7 };
    int first = south ? JULY : 1, from_month = k->from_md / 100;
    struct date_parts p = date_split(date);
    int year = p.year - (p.month < first);
    return date_make(year + (from_month < first), from_month, k->from_md % 100);
}

/* Is the paddock mown on this date? */
static bool mown_on(const struct kept *k, date_t date, bool south)
{
    assert(k->cuts > 0 || k->every_days > 0);
    struct date_parts p = date_split(date);
    int month_day = 100 * p.month + p.day;
    for (size_t i = 0; i < k->cuts; i++) {
        if (k->cut_md[i] == month_day) {
            return true;
        }
    }
    if (k->every_days <= 0) {
        return false;
    }
    date_t since = date - mowing_begins(k, date, south);
    return since >= 0 && since % k->every_days == 0;
}

void run_manage(const struct run_paddock *p, struct sward *s, date_t date, bool south)
{
    const struct kept *k = &p->kept->kept;
    if (p->now.cut == date) {
        sward_cut(s, p->now.cut_cm);
    } else if (p->now.how == KEPT_GRAZED) {
        sward_graze_to_cover(s, p->now.cover_kg_ha);
    } else if (p->now.how == KEPT_STOCKED && p->stock_dm_kg > 0.0) {
        sward_graze_intake(s, p->stock_dm_kg / p->kept->area_ha, NULL);
    } else if (p->now.how == KEPT_CUT && mown_on(k, date, south)) {
        sward_cut(s, k->to_cm);
    }
}

/* Heights measured on a morning count from it on: the evening before is set right. */
static void correct_cover(const struct run *r, struct run_paddock *p, date_t morning)
{
    const struct tune_limits *l = &r->params->tune;
    for (size_t i = p->readings_seen; i < p->kept->readings && p->kept->reading[i].date <= morning; i++) {
        if (p->kept->reading[i].date == morning) {
            sward_correct_cover(&p->sward, p->kept->reading[i].kg_ha, tune_cover_gain(l), l->factor_low,
                                l->factor_high);
        }
        p->readings_seen = i + 1;
        assert(p->readings_seen <= p->kept->readings);
    }
}

/* What follows on a paddock's growth. */
static void settle(const struct run *r, struct run_paddock *p, date_t date)
{
    correct_level(p, &p->day);
    run_manage(p, &p->sward, date, r->south);
    correct_cover(r, p, date + 1);
}

static void evening_under(struct run *r, const struct run_day *d, const struct sward_day *day)
{
    events_evening(r, d->recorded.date);
    for (size_t i = 0; i < r->paddocks; i++) {
        struct run_paddock *p = &r->paddock[i];
        sward_step(&p->sward, day, &p->day);
        settle(r, p, d->recorded.date);
    }
    r->days++;
}

void run_evening(struct run *r, const struct run_day *d)
{
    struct sward_day day;
    make_day(r, &d->recorded, &day);
    evening_under(r, d, &day);
}

void run_evening_under(struct run *r, const struct run_day *d, const struct run_sky *sky)
{
    evening_under(r, d, &sky->recorded);
}

void run_evenings_under(const struct run_evening e[2])
{
    struct run *const r[] = {e[0].run, e[1].run};
    const struct sward_day *const day[] = {&e[0].sky->recorded, &e[1].sky->recorded};
    assert(r[0]->paddocks == r[1]->paddocks);
    for (int k = 0; k < 2; k++) {
        events_evening(r[k], e[k].day->recorded.date);
    }
    for (size_t i = 0; i < r[0]->paddocks; i++) {
        struct run_paddock *const p[] = {&r[0]->paddock[i], &r[1]->paddock[i]};
        sward_step_two((struct sward *const[]){&p[0]->sward, &p[1]->sward}, day,
                       (struct sward_result *const[]){&p[0]->day, &p[1]->day});
        for (int k = 0; k < 2; k++) {
            settle(r[k], p[k], e[k].day->recorded.date);
        }
    }
    r[0]->days++;
    r[1]->days++;
}
