/* Dying and ageing, forms of Jouven, Carrere & Baumont 2006. The sugar of dying
 * tissue is partly moved back into the living; frost leaves no time for that.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "sward/turnover.h"

#include "base/num.h"

#include <assert.h>

double turnover_age_factor(double age)
{
    if (age < 1.0 / 3.0) {
        return 1.0;
    }
    return age < 1.0 ? 3.0 * age : 3.0;
}

static void find_dying(const struct sward_kind *k, const struct sward_part *p, const struct turnover_day *d,
                       double *leaf, double *stem)
{
    assert(d->grown >= 0.0);
    *leaf = *stem = 0.0;
    if (d->kill) {
        *leaf = p->leaf;
        *stem = p->stem;
    } else if (d->t > k->death_above) {
        *leaf = k->leaf_death * p->leaf * d->t * turnover_age_factor(p->leaf_age / k->leaf_life);
        *stem = k->stem_death * p->stem * d->t * turnover_age_factor(p->stem_age / k->stem_life);
    } else if (d->t < 0.0 && !d->sheltered) {
        *leaf = k->leaf_death * p->leaf * -d->t;
        *stem = k->stem_death * p->stem * -d->t;
    }
    *leaf = num_least(*leaf, num_most(0.0, p->leaf - k->leaf_floor));
    *stem = num_least(*stem, p->stem);
    assert(*leaf >= 0.0 && *leaf <= p->leaf);
    assert(*stem >= 0.0);
}

/* What stays grows older by the day's warmth, what is new has age 0. */
static double aged(double age, double stay, double grown, double t)
{
    return stay + grown > 0.0 ? stay / (stay + grown) * (age + num_most(0.0, t)) : 0.0;
}

double turnover_step(const struct sward_kind *k, struct sward_part *p, const struct turnover_day *d)
{
    double leaf, stem, to_stem = d->grown * d->stem_share, to_leaf = d->grown - to_stem;
    find_dying(k, p, d, &leaf, &stem);
    double share = (d->kill || d->t <= 0.0) ? 1.0 : k->dying_sugar_lost;
    double lost = p->sugar * share * (leaf + stem) / (p->leaf + p->stem + d->grown);
    assert(lost <= p->sugar);
    p->sugar -= lost;
    p->dead = p->dead * num_most(0.0, 1.0 - k->litter_decay * num_most(0.0, d->t)) + k->dead_share * (leaf + stem);
    p->leaf_age = aged(p->leaf_age, p->leaf - leaf, to_leaf, d->t);
    p->stem_age = aged(p->stem_age, p->stem - stem, to_stem, d->t);
    p->leaf += to_leaf - leaf;
    p->stem += to_stem - stem;
    return lost;
}
