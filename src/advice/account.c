/* The parts of a day's ration and their sums. SPDX-License-Identifier: GPL-3.0-or-later */
#include "advice/account.h"

#include "animal/ration.h"
#include "base/units.h"

#include <assert.h>
#include <math.h>

static const char pasture_id[] = "pasture-grass"; /* what the sward does not say of its grass */

static double known_or(double x, double otherwise)
{
    return isnan(x) ? otherwise : x;
}

double account_amount(const struct account_part *part, enum account_content c)
{
    assert(c < CONTENTS);
    assert(part->dm_kg >= 0.0);
    if (part->dm_kg == 0.0) {
        return 0.0;
    }
    return part->dm_kg * part->content[c] * (c == CONTENT_ENERGY ? 1.0 : 10.0);
}

/* What the feed table adds to an item of the advice. */
static struct account_part make_part(const struct feed *f, const struct ration_item *item, enum account_kind kind)
{
    struct account_part part = {.id = f ? f->id : "",
                                .name = f ? f->name : "",
                                .kind = kind,
                                .coarse = f && f->is_coarse,
                                .straw = f && f->is_straw,
                                .dm_kg = item->dm_kg,
                                .content = {[CONTENT_NSC] = item->nsc_pct,
                                            [CONTENT_SUGAR] = item->nsc_pct - item->starch_pct,
                                            [CONTENT_STARCH] = item->starch_pct,
                                            [CONTENT_NDF] = item->ndf_pct,
                                            [CONTENT_ADF] = f ? f->adf_pct : (double)NAN,
                                            [CONTENT_CP] = f ? f->cp_pct : (double)NAN,
                                            [CONTENT_ENERGY] = f ? f->de_mcal_kg * UNITS_MJ_OF_MCAL : (double)NAN}};
    return part;
}

static void set_fed(struct account_part *part, double dm_pct)
{
    assert(dm_pct > 0.0);
    part->dm_pct = dm_pct;
    part->fed_kg = ration_as_fed(part->dm_kg, dm_pct);
}

/* Of the grass eaten: the share of NSC that is starch in the sward, of the NSC judged. */
static double grass_starch(const struct advice_grass *grass, const struct account *a, const struct params *p)
{
    double judged = a->advice->ration.grass_nsc_pct, modelled = a->grass_mean_g_kg / 10.0;
    double starch = modelled > 0.0 ? grass->starch_pct / modelled * judged : (double)NAN;
    return fmin(known_or(starch, p->limits.grass_starch_pct), judged); /* starch is a part of NSC */
}

static void add_grass(const struct advice_grass *grass, const struct params *p, struct account *a)
{
    const struct feed *pasture = params_feed(p, pasture_id);
    const struct ration *r = &a->advice->ration;
    for (int i = 0; i < 24; i++) {
        a->grass_mean_g_kg += grass->nsc[i] / 24.0;
    }
    struct ration_item item = {.dm_kg = r->grass_dm_kg,
                               .nsc_pct = r->grass_nsc_pct,
                               .starch_pct = grass_starch(grass, a, p),
                               .ndf_pct = known_or(grass->ndf_pct, p->limits.grass_ndf_pct),
                               .is_forage = true};
    struct account_part *part = &a->part[a->parts++];
    *part = make_part(pasture, &item, PART_GRASS);
    assert(a->parts == 1);
    part->id = part->name = "grass";
    part->from = FROM_MODEL;
    set_fed(part, known_or(pasture ? pasture->dm_pct : (double)NAN, 100.0));
}

static void add_hay(const struct advice_animal *animal, struct account *a)
{
    assert(a->parts == 1);
    assert(animal->hay != NULL);
    const struct feed *hay = animal->hay;
    const struct advice_limits *l = a->limits;
    double nsc = a->advice->hay_nsc_pct;
    struct ration_item item = {.dm_kg = a->advice->ration.hay_dm_kg,
                               .nsc_pct = known_or(nsc, fmax(animal->rules->nsc_caution_pct, animal->hay_nsc_pct)),
                               .starch_pct = feed_starch(hay, l->grass_starch_pct),
                               .ndf_pct = hay->ndf_pct,
                               .is_forage = true};
    struct account_part *part = &a->part[a->parts++];
    *part = make_part(hay, &item, PART_HAY);
    part->from = isnan(nsc)                      ? FROM_NOBODY
                 : a->advice->hay_analysed       ? FROM_ANALYSIS
                 : a->advice->hay_esc_pct >= nsc ? FROM_ESC
                                                 : FROM_TABLE;
    part->hard = !history_suits_feed(animal->history, hay, animal->hay_soaked);
    set_fed(part, known_or(hay->dm_pct, l->bale_dm_pct));
}

static void add_fed(const struct advice_animal *animal, const struct fed *fed, struct account *a)
{
    assert(a->parts >= 2 && a->parts < ACCOUNT_PARTS);
    assert(fed->feed != NULL);
    const struct feed *f = fed->feed;
    bool left_out = a->advice->bucket_dropped && !f->is_forage;
    struct ration_item item = ration_of_feed(f, left_out ? 0.0 : fed->kg, animal->rules->nsc_caution_pct, a->limits);
    struct account_part *part = &a->part[a->parts++];
    *part = make_part(f, &item, f->is_forage ? PART_FORAGE : PART_BUCKET);
    part->from = isnan(feed_nsc(f, a->limits->grass_starch_pct)) ? FROM_NOBODY : FROM_TABLE;
    part->left_out = left_out;
    part->hard = !history_suits_feed(animal->history, f, false);
    set_fed(part, known_or(f->dm_pct, a->limits->bale_dm_pct));
}

bool account_has(const struct account *a, enum account_kind kind)
{
    for (size_t i = 0; i < a->parts; i++) {
        if (a->part[i].kind == kind && a->part[i].dm_kg > 0.0) {
            return true;
        }
    }
    return false;
}

/* Shared figures are the advice's own; the others are added up here. */
static void add_up(struct account *a)
{
    assert(a->weight_kg > 0.0);
    const struct ration *r = &a->advice->ration;
    a->dm_kg = r->dm_kg;
    a->forage_kg = r->forage_pct_bw / 100.0 * a->weight_kg;
    for (int c = 0; c < CONTENTS; c++) {
        for (size_t i = 0; i < a->parts; i++) {
            a->amount[c] += account_amount(&a->part[i], (enum account_content)c);
        }
        a->content[c] = a->amount[c] / a->dm_kg / (c == CONTENT_ENERGY ? 1.0 : 10.0);
    }
    a->content[CONTENT_NSC] = r->nsc_pct;
    a->content[CONTENT_NDF] = r->ndf_pct;
    for (size_t i = 0; i < a->parts; i++) {
        bool fed = a->part[i].dm_kg > 0.0;
        a->unknown = a->unknown || (fed && a->part[i].from == FROM_NOBODY);
        a->by_table = a->by_table || (fed && a->part[i].from == FROM_TABLE);
    }
}

/* What the soak would make of the hay, and of the ration: told, never judged by. */
static void plan_soak(const struct params *p, struct account *a)
{
    assert(a->part[1].kind == PART_HAY);
    const struct account_part *hay = &a->part[1];
    a->soaked_hay_nsc_pct = a->soaked_nsc_pct = NAN;
    if (isnan(a->lot->soaked_h) || a->lot->tested_after || hay->from == FROM_NOBODY) {
        return;
    }
    assert(!isnan(hay->content[CONTENT_STARCH])); /* at most what NSC is not known to be WSC */
    a->credit = soaking_credit(p->soaking, p->soakings, a->lot->soaked_h, a->lot->water_c);
    if (a->credit) {
        a->soaked_hay_nsc_pct = soaking_planned_nsc(a->credit, hay->content[CONTENT_NSC], hay->content[CONTENT_STARCH]);
        double less_g = 10.0 * hay->dm_kg * (hay->content[CONTENT_NSC] - a->soaked_hay_nsc_pct);
        a->soaked_nsc_pct = (a->amount[CONTENT_NSC] - less_g) / 10.0 / a->dm_kg;
    }
}

void account_make(const struct advice *advice, const struct advice_animal *animal, const struct advice_grass *grass,
                  const struct animal_group *group, const struct hay_lot *lot, const struct params *p,
                  struct account *out)
{
    assert(animal->feds + 2 <= ACCOUNT_PARTS);
    *out = (struct account){.advice = advice,
                            .animal = animal,
                            .group = group,
                            .lot = lot,
                            .limits = &p->limits,
                            .weight_kg = known_or(animal->weight_kg, animal->rules->weight_kg),
                            .hay_only_nsc_pct = advice->base_nsc_pct,
                            .esc = hay_lot_is_esc(lot) && advice->ration.hay_dm_kg > 0.0};
    add_grass(grass, p, out);
    add_hay(animal, out);
    for (size_t i = 0; i < animal->feds; i++) {
        add_fed(animal, &animal->fed[i], out);
    }
    add_up(out);
    plan_soak(p, out);
    account_judge(out);
    account_write_steps(out);
}
