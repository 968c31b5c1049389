/* The daily step, in the order of models/METHOD.md. SPDX-License-Identifier: GPL-3.0-or-later */
#include "sward/sward.h"

#include "base/vector.h"
#include "sward/canopy.h"
#include "sward/step.h"

#include <assert.h>
#include <math.h>

static void init_part(struct sward *s, size_t i, const struct sward_kind *kind, const struct grass *grass)
{
    s->kind[i] = kind;
    s->own[i] = (struct sward_own){
        .pm20 = kind->pm20, .growth_max = kind->growth_max * grass->growth_factor, .half_sugar = grass->half_sugar};
    s->esc_fructan[i] = grass->esc_fructan;
    s->starch_share[i] = grass->starch_share;
    s->phyllochron[i] = grass->phyllochron;
    s->spread_factor = fmax(s->spread_factor, grass->spread_factor);
    s->part[i] = (struct sward_part){.leaf = kind->start_leaf,
                                     .sugar = kind->start_sugar,
                                     .dead = kind->start_dead,
                                     .leaf_age = kind->start_leaf_age,
                                     .slow_lai = kind->start_slow_lai,
                                     .frost = 1.0,
                                     .reproductive = true};
}

void sward_init(struct sward *s, const struct sward_kind kinds[SWARD_TYPES], size_t grasses,
                const struct grass *const grass[], const double share[], double capacity_mm, double nitrogen)
{
    assert(grasses > 0 && grasses <= LIMIT_MIX);
    assert(capacity_mm > 0.0);
    double sum = 0.0;
    *s = (struct sward){.parts = grasses,
                        .spread_factor = 1.0,
                        .capacity_mm = capacity_mm,
                        .nitrogen = nitrogen,
                        .days_since_grazed = SWARD_LONG_AGO,
                        .days_since_kill = SWARD_LONG_AGO};
    for (size_t i = 0; i < grasses; i++) {
        sum += share[i];
    }
    assert(sum > 0.0);
    for (size_t i = 0; i < grasses; i++) {
        init_part(s, i, &kinds[grass[i]->type], grass[i]);
        s->share[i] = share[i] / sum;
    }
    s->water = s->kind[0]->start_water;
    s->soil_t = s->kind[0]->start_soil_t;
}

struct hours { /* sums over the ground at each hour's end, g/m2 */
    double sugar[24], green[24];
};

/* Adds the part's hours to the ground's. */
VECTOR static void collect_hours(struct hours *restrict all, double share, const struct balance_day *restrict day)
{
    for (int h = 0; h < 24; h++) {
        double green = share * day->green[h];
        all->green[h] += green;
        all->sugar[h] += green * day->content[h];
    }
}

VECTOR static void find_hours(const struct hours *restrict all, double *restrict nsc)
{
    for (int h = 0; h < 24; h++) {
        nsc[h] = G_KG * all->sugar[h] / all->green[h];
    }
}

static void report_sugar(struct sward_result *r, const struct hours *all)
{
    double sum = 0.0, lowest = INFINITY, highest = 0.0;
    find_hours(all, r->nsc_hour);
    for (int h = 0; h < 24; h++) {
        double nsc = r->nsc_hour[h];
        lowest = nsc < lowest ? nsc : lowest;
        highest = nsc > highest ? nsc : highest;
        sum += nsc;
    }
    r->nsc_min = lowest;
    r->nsc_max = highest;
    r->nsc_mean = sum / 24.0;
}

struct walk { /* of a sward through its day, a part at a time */
    struct sward *s;
    struct sward_result *r;
    struct step step;
    struct hours all;
    struct balance balance;
    struct balance_day part;
};

static void begin_day(struct walk *w, struct sward *s, const struct sward_day *d, struct sward_result *r)
{
    w->s = s;
    w->r = r;
    w->all = (struct hours){0};
    step_begin(s, d, &w->step, r);
}

/* Up to the hours of part i. */
static void begin_part(struct walk *w, size_t i)
{
    struct sward *s = w->s;
    struct sward_part *p = &s->part[i];
    struct balance_factors factors;
    struct season_phase phase = season_phase(s->kind[i], s->st, w->step.day->season_day);
    step_morning(s, i, &phase, &w->step, &factors);
    factors.sink *= canopy_sink_area(s->kind[i], p->slow_lai);
    balance_prepare(&w->balance, s->kind[i], &s->own[i], &factors, w->step.day);
    w->part.sums.sugar = p->sugar;
    w->part.structure = p->leaf + p->stem;
}

static void end_part(struct walk *w, size_t i)
{
    collect_hours(&w->all, w->s->share[i], &w->part);
    step_evening(w->s, i, &w->step, &w->part.sums, w->r);
}

static void end_day(struct walk *w)
{
    report_sugar(w->r, &w->all);
    step_end(w->s, &w->step, w->r);
}

void sward_step(struct sward *s, const struct sward_day *d, struct sward_result *r)
{
    struct walk w;
    begin_day(&w, s, d, r);
    for (size_t i = 0; i < s->parts; i++) {
        begin_part(&w, i);
        balance_run(&w.balance, &w.part);
        end_part(&w, i);
    }
    end_day(&w);
}

void sward_step_two(struct sward *const s[2], const struct sward_day *const d[2], struct sward_result *const r[2])
{
    struct walk w[2];
    assert(s[0] != s[1] && s[0]->parts == s[1]->parts);
    for (int k = 0; k < 2; k++) {
        begin_day(&w[k], s[k], d[k], r[k]);
    }
    for (size_t i = 0; i < s[0]->parts; i++) {
        begin_part(&w[0], i);
        begin_part(&w[1], i);
        balance_run_two(&w[0].balance, &w[0].part, &w[1].balance, &w[1].part);
        end_part(&w[0], i);
        end_part(&w[1], i);
    }
    end_day(&w[0]);
    end_day(&w[1]);
}
