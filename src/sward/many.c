/* A block of swards goes through its day together: what is done once a day a sward at a
 * time (step.h), the hours side by side (lanes.h).
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "sward/many.h"

#include "sward/canopy.h"
#include "sward/lanes.h"
#include "sward/step.h"

#include <assert.h>
#include <math.h>
#include <string.h>

struct shared { /* what the swards of a day share of one part; nothing yet where kind is NULL */
    const struct sward_kind *kind;
    double soil_t, st;
    struct season_phase phase; /* at st */
    struct lanes_kind lanes;
};

struct block {
    struct sward *s;
    size_t n, stride;
    const struct sward_day *day;
    struct sward_result *r;
    struct step st[LANES];
    struct lanes_part part;
    struct lanes_ground ground;
    struct shared shared[LIMIT_MIX];
};

static struct sward *sward_of(const struct block *b, size_t lane)
{
    return &b->s[lane * b->stride];
}

/* The lanes up to a full register do what the first does; nobody looks at them. */
static size_t padded(size_t n)
{
    return (n + LANES_STEP - 1) / LANES_STEP * LANES_STEP;
}

static void share_kind(struct lanes_kind *p, const struct sward_kind *k, double soil_t, const struct sward_day *d)
{
    struct balance b;
    balance_common(&b, k, d);
    p->sugar_max_inverse = b.sugar_max_inverse;
    p->sugar_exponent = b.sugar_exponent;
    p->ramp_inverse = b.ramp_inverse;
    p->sugar_min = b.sugar_min;
    p->yield_inverse = b.yield_inverse;
    p->sugar_floor = b.sugar_floor;
    p->supply_scale = canopy_supply_scale(k);
    p->through = 1.0 - k->transmission;
    p->extinction = k->extinction;
    p->sink_extinction = k->sink_extinction;
    p->sink_full_area = k->sink_full_area;
    canopy_curve(&k->photo, d->temperature, p->photo);
    balance_growth_curve(k, soil_t, d, p->growth);
    memcpy(p->par, d->par, sizeof p->par);
    memcpy(p->upkeep, b.upkeep, sizeof p->upkeep);
}

/* The same for all blocks of a day, as a rule. */
static struct shared *shared_of(struct block *b, size_t i)
{
    const struct sward_kind *k = b->s->kind[i];
    struct shared *all = &b->shared[i];
    if (all->kind != k || all->soil_t != b->s->soil_t) {
        share_kind(&all->lanes, k, b->s->soil_t, b->day);
        all->kind = k;
        all->soil_t = b->s->soil_t;
        all->st = (double)NAN;
    }
    return all;
}

static const struct season_phase *phase_of(const struct block *b, struct shared *all, double st)
{
    if (all->st != st) {
        all->phase = season_phase(all->kind, st, b->day->season_day);
        all->st = st;
    }
    return &all->phase;
}

static void set_lane(struct lanes_part *p, size_t l, const struct sward *s, size_t i, const struct balance_factors *f)
{
    const struct sward_kind *k = s->kind[i];
    const struct sward_own *own = &s->own[i];
    p->share[l] = s->share[i];
    p->half_sugar[l] = own->half_sugar;
    p->growth_most[l] = f->dormant ? 0.0 : balance_growth_scale(k, own->growth_max, f);
    p->pm[l] = f->dormant ? 0.0 : own->pm20 * f->source;
    p->light[l] = canopy_light(k, f->wet);
    p->lai[l] = f->lai;
    p->slow_lai[l] = s->part[i].slow_lai;
    p->sugar[l] = s->part[i].sugar;
    p->structure[l] = s->part[i].leaf + s->part[i].stem;
}

/* Part i of all swards, into the evening. */
static void step_part(struct block *b, size_t i)
{
    struct shared *shared = shared_of(b, i);
    struct lanes_part *p = &b->part;
    struct balance_factors f = {0};
    assert(b->n > 0); /* the lanes of padding do as the last one does */
    for (size_t l = 0; l < b->n; l++) {
        struct sward *s = sward_of(b, l);
        step_morning(s, i, phase_of(b, shared, s->st), &b->st[l], &f);
        set_lane(p, l, s, i, &f);
    }
    for (size_t l = b->n; l < padded(b->n); l++) {
        set_lane(p, l, b->s, i, &f);
    }
    lanes_hours(&shared->lanes, p, padded(b->n), i == 0, &b->ground);
    for (size_t l = 0; l < b->n; l++) {
        const struct balance_sums sums = {.sugar = p->sugar[l],
                                          .supply = p->supplied[l],
                                          .upkeep = p->kept_up[l],
                                          .growth = p->grown[l],
                                          .nsc = p->nsc[l]};
        step_evening(sward_of(b, l), i, &b->st[l], &sums, &b->r[l]);
    }
}

/* Is the soil as warm under all of them, and will be? It follows the air and the snow alone, so
 * that members which began alike always are. */
static bool soils_alike(const struct block *b)
{
    for (size_t l = 1; l < b->n; l++) {
        const struct sward *s = sward_of(b, l);
        if (s->soil_t != b->s->soil_t || s->snow_mm != b->s->snow_mm) {
            return false;
        }
    }
    return true;
}

static void step_block(struct block *b)
{
    struct lanes_report report;
    for (size_t l = 0; l < b->n; l++) {
        step_begin(sward_of(b, l), b->day, &b->st[l], &b->r[l]);
    }
    for (size_t i = 0; i < b->s->parts; i++) {
        step_part(b, i);
    }
    lanes_sugar(&b->ground, padded(b->n), &report);
    for (size_t l = 0; l < b->n; l++) {
        struct sward_result *r = &b->r[l];
        lanes_pick(&report, l, r->nsc_hour);
        r->nsc_min = report.nsc_min[l];
        r->nsc_max = report.nsc_max[l];
        r->nsc_mean = report.nsc_mean[l];
        step_end(sward_of(b, l), &b->st[l], r);
    }
}

void sward_step_many(struct sward *s, size_t n, size_t stride, const struct sward_day *d, struct sward_result *r)
{
    struct block b;
    b.stride = stride;
    b.day = d;
    for (size_t i = 0; n > 0 && i < s->parts; i++) {
        b.shared[i].kind = NULL;
        b.shared[i].soil_t = s->soil_t; /* read by nobody; gcc's analyzer cannot see that */
    }
    for (size_t from = 0; from < n; from += LANES) {
        b.s = s + from * stride;
        b.n = n - from < LANES ? n - from : LANES;
        b.r = r + from;
        if (soils_alike(&b)) {
            step_block(&b);
            continue;
        }
        for (size_t l = 0; l < b.n; l++) {
            sward_step(sward_of(&b, l), d, &b.r[l]);
        }
    }
}
