/* A ration's sums against the limits of its class: one row a limit.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "advice/account.h"

#include "animal/ration.h"

#include <assert.h>
#include <math.h>

#define ROUNDING 1e-9 /* as the advice's: rounding alone breaks no limit */

/* Feeds of much starch in the buckets, kg as fed: what counts as grain. What nobody knows
 * may be grain. */
static double grain_kg(const struct account *a)
{
    double kg = 0.0;
    for (size_t i = 0; i < a->parts; i++) {
        const struct account_part *p = &a->part[i];
        bool much = p->from == FROM_NOBODY || p->content[CONTENT_STARCH] >= a->limits->grain_starch_pct;
        bool grain = p->kind == PART_BUCKET && much;
        kg += grain ? p->fed_kg : 0.0;
    }
    return kg;
}

/* Of the ration's dry matter: all of the bucket counts, beet pulp and lucerne meal too. */
static double concentrate_pct(const struct account *a)
{
    double kg = 0.0;
    for (size_t i = 0; i < a->parts; i++) {
        kg += a->part[i].kind == PART_BUCKET ? a->part[i].dm_kg : 0.0;
    }
    return 100.0 * kg / a->dm_kg;
}

static double hard_kg(const struct account *a)
{
    double kg = 0.0;
    for (size_t i = 0; i < a->parts; i++) {
        kg += a->part[i].hard ? a->part[i].fed_kg : 0.0;
    }
    return kg;
}

static double grain_limit(const struct account *a)
{
    enum species s = a->group->rules.species;
    return s == SPECIES_GOAT || s == SPECIES_SHEEP ? a->limits->grain_meal_kg : (double)NAN;
}

static struct account_verdict judge(double value, double limit, bool at_least)
{
    assert(!(limit < 0.0));
    struct account_verdict v = {STATE_WITHIN, value, limit};
    if (isnan(limit)) {
        v.state = STATE_NONE;
    } else if (isnan(value)) {
        v.state = STATE_UNSURE;
    } else if (at_least && value < limit - ROUNDING) {
        v.state = STATE_UNDER;
    } else if (!at_least && value > limit + ROUNDING) {
        v.state = STATE_OVER;
    }
    return v;
}

void account_judge(struct account *a)
{
    assert(a->parts >= 2 && a->parts <= ACCOUNT_PARTS);
    assert(a->weight_kg > 0.0);
    const struct animal_class *c = &a->group->rules;
    const struct ration *r = &a->advice->ration;
    const struct {
        double value, limit;
        bool at_least;
    } row[VERDICTS] = {
        [VERDICT_NSC] = {r->nsc_pct, c->nsc_caution_pct, false},
        [VERDICT_NSC_DAY] = {r->nsc_g_kg_bw, a->advice->day_ceiling_g_kg, false},
        [VERDICT_STARCH] = {r->starch_meal_g_kg, c->starch_meal_g_kg, false},
        [VERDICT_STARCH_DAY] = {r->starch_meal_g_kg, c->starch_day_g_kg, false},
        [VERDICT_BUCKET_NSC] = {r->bucket_nsc_g_kg, c->bucket_nsc_meal_g_kg, false},
        [VERDICT_GRAIN] = {grain_kg(a), grain_limit(a), false},
        [VERDICT_CONCENTRATE] = {concentrate_pct(a), c->max_concentrate_pct, false},
        [VERDICT_TEETH] = {hard_kg(a), a->animal->history & HISTORY_POOR_TEETH ? 0.0 : (double)NAN, false},
        [VERDICT_FORAGE] = {r->forage_pct_bw, c->min_forage_pct, true},
        [VERDICT_INTAKE] = {100.0 * r->dm_kg / a->weight_kg, 100.0 * intake_day(c, a->weight_kg) / a->weight_kg, true},
        [VERDICT_NDF] = {r->ndf_pct, c->min_ndf_pct, true},
        [VERDICT_ADF] = {a->content[CONTENT_ADF], c->min_adf_pct, true},
    };
    for (int i = 0; i < VERDICTS; i++) {
        a->verdict[i] = judge(row[i].value, row[i].limit, row[i].at_least);
    }
    if (a->verdict[VERDICT_NSC].state == STATE_WITHIN && (a->esc || a->unknown)) {
        a->verdict[VERDICT_NSC].state = STATE_UNSURE;
    }
    if (a->verdict[VERDICT_ADF].state != STATE_NONE) {
        a->verdict[VERDICT_ADF].state = STATE_UNSURE;
    }
}
