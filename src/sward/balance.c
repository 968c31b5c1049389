/* What the canopy fixes becomes sugar; upkeep and growth take it away. Hourly
 * Euler steps from the state at the start of the hour.
 * Sink: growth saturates with sugar (K is the species' own) and stops at sugar_min.
 * Upkeep: Robson 1981, Q10 2 (the same). Supply falls as the pool fills.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "sward/balance.h"

#include "base/exp_log.h"
#include "base/vector.h"
#include "sward/canopy.h"

#include <assert.h>

#define REFERENCE_T 15.0 /* C, at which `respiration` is given */

VECTOR static void prepare_upkeep(struct balance *b, const struct sward_kind *k, const struct sward_day *d)
{
    const double rate = log(k->q10) / 10.0, reference = k->respiration / 24.0;
    for (int h = 0; h < 24; h++) {
        b->upkeep[h] = reference * exp_inline((d->temperature[h] - REFERENCE_T) * rate);
    }
}

double balance_growth_scale(const struct sward_kind *k, double growth_max, const struct balance_factors *f)
{
    assert(k->root_share < 1.0);
    return (1.0 - k->root_share) * growth_max / 24.0 * f->sink;
}

void balance_growth_curve(const struct sward_kind *k, double soil_t, const struct sward_day *d, double curve[24])
{
    double felt[24];
    for (int h = 0; h < 24; h++) {
        felt[h] = k->air_share * d->temperature[h] + (1.0 - k->air_share) * soil_t;
    }
    canopy_curve(&k->growth, felt, curve);
}

void balance_common(struct balance *b, const struct sward_kind *k, const struct sward_day *d)
{
    assert(k->sugar_max > k->sugar_min);
    assert(k->growth_yield > 0.0);
    b->sugar_max_inverse = 1.0 / k->sugar_max;
    b->sugar_exponent = k->sugar_exponent;
    b->ramp_inverse = 1.0 / k->respiration_ramp;
    b->sugar_min = k->sugar_min;
    b->yield_inverse = 1.0 / k->growth_yield;
    b->sugar_floor = k->sugar_floor;
    prepare_upkeep(b, k, d);
}

void balance_prepare(struct balance *b, const struct sward_kind *k, const struct sward_own *own,
                     const struct balance_factors *f, const struct sward_day *d)
{
    double scale = balance_growth_scale(k, own->growth_max, f);
    balance_common(b, k, d);
    b->half_sugar = own->half_sugar;
    if (f->dormant) {
        for (int h = 0; h < 24; h++) {
            b->supply[h] = b->growth[h] = 0.0;
        }
        return;
    }
    balance_growth_curve(k, f->soil_t, d, b->growth);
    for (int h = 0; h < 24; h++) {
        b->growth[h] *= scale;
    }
    canopy_supply(k, f->lai, own->pm20 * f->source, f->wet, d, b->supply);
}

struct course { /* of one part through its hours */
    double sugar, structure, content, contents;
};

static inline struct course begin_course(struct balance_day *day)
{
    assert(day->structure > 0.0);
    struct balance_sums *sums = &day->sums;
    sums->supply = sums->upkeep = sums->growth = 0.0;
    return (struct course){sums->sugar, day->structure, sums->sugar / (day->structure + sums->sugar), 0.0};
}

static inline void pass_hour(const struct balance *b, int h, struct course *c, struct balance_day *day)
{
    struct balance_flows f = balance_hour(b, h, c->sugar, c->structure, c->content);
    c->sugar += f.supply - f.upkeep - f.growth * b->yield_inverse;
    c->structure += f.growth;
    day->sums.supply += f.supply;
    day->sums.upkeep += f.upkeep;
    day->sums.growth += f.growth;
    day->green[h] = c->structure + c->sugar;
    day->content[h] = c->content = c->sugar / day->green[h];
    c->contents += c->content;
}

static inline void end_course(const struct course *c, struct balance_day *day)
{
    assert(c->structure >= day->structure);
    day->sums.sugar = c->sugar;
    day->sums.nsc = G_KG * c->contents / 24.0;
    day->structure = c->structure;
}

void balance_run(const struct balance *b, struct balance_day *day)
{
    struct course c = begin_course(day);
    for (int h = 0; h < 24; h++) {
        pass_hour(b, h, &c, day);
    }
    end_course(&c, day);
}

void balance_run_two(const struct balance *b, struct balance_day *day, const struct balance *other,
                     struct balance_day *other_day)
{
    struct course c = begin_course(day), d = begin_course(other_day);
    for (int h = 0; h < 24; h++) {
        pass_hour(b, h, &c, day);
        pass_hour(other, h, &d, other_day);
    }
    end_course(&c, day);
    end_course(&d, other_day);
}
