/* The rules of an animal class after its history.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/history.h"

#include "data/params.h"

#include <assert.h>
#include <math.h>

const char *const history_words[HISTORY_WORDS] = {
    "laminitis", "insulin-dysregulation", "overweight", "pregnant", "lactating", "poor-teeth"};

bool history_suits_feed(unsigned history, const struct feed *f, bool soaked)
{
    return !(history & HISTORY_POOR_TEETH) || !f->is_coarse || (soaked && !f->is_straw);
}

/* fmin and fmax take the number where the other is NaN: a limit that only one has holds. */
static void stricter_limits(struct animal_class *rules, const struct animal_class *from)
{
    assert(rules->species == from->species);
    rules->nsc_caution_pct = fmin(rules->nsc_caution_pct, from->nsc_caution_pct);
    rules->nsc_stop_pct = fmin(rules->nsc_stop_pct, from->nsc_stop_pct);
    rules->level_probability = fmax(rules->level_probability, from->level_probability);
    rules->max_hours = fmin(rules->max_hours, from->max_hours);
    rules->starch_meal_g_kg = fmin(rules->starch_meal_g_kg, from->starch_meal_g_kg);
    rules->starch_day_g_kg = fmin(rules->starch_day_g_kg, from->starch_day_g_kg);
    rules->bucket_nsc_meal_g_kg = fmin(rules->bucket_nsc_meal_g_kg, from->bucket_nsc_meal_g_kg);
    rules->max_concentrate_pct = fmin(rules->max_concentrate_pct, from->max_concentrate_pct);
}

static enum err_code higher_floors(struct animal_class *rules, const struct animal_class *from, const char *word,
                                   struct err *e)
{
    assert(rules->species == from->species);
    double floor = from->min_forage_pct;
    if (floor > rules->intake_pct) {
        if (isnan(rules->intake_low_pct)) {
            return err_set(e, ERR_CONFIG,
                           "%s is fed a ration of %g %% of its body weight, below the %g %% of forage that a %s animal "
                           "must have; give the class \"%s\" with this animal's other history, and ask the vet",
                           rules->id, rules->intake_pct, floor, word, from->id);
        }
        floor = rules->intake_pct;
    }
    rules->min_forage_pct = fmax(rules->min_forage_pct, floor);
    rules->min_ndf_pct = fmax(rules->min_ndf_pct, from->min_ndf_pct);
    rules->min_adf_pct = fmax(rules->min_adf_pct, from->min_adf_pct);
    rules->hay_pct = fmax(rules->hay_pct, rules->min_forage_pct);
    rules->max_concentrate_pct = fmin(rules->max_concentrate_pct, from->max_concentrate_pct);
    rules->concentrate_rise_g_day = fmin(rules->concentrate_rise_g_day, from->concentrate_rise_g_day);
    rules->needs_no_bucket = rules->needs_no_bucket && from->needs_no_bucket;
    rules->evidence_no_slimming = true;
    return ERR_OK;
}

static const struct animal_class *lender(const struct params *p, enum species species, unsigned bit)
{
    for (size_t i = 0; i < p->histories; i++) {
        if (p->history[i].species == species && p->history[i].history == bit) {
            return &p->animal[p->history[i].animal];
        }
    }
    return NULL;
}

enum err_code animal_rules(const struct params *p, const struct animal_class *base, unsigned history,
                           struct animal_class *rules, struct err *e)
{
    assert(history < 1u << HISTORY_WORDS);
    enum err_code code = ERR_OK;
    *rules = *base;
    for (unsigned i = 0; i < HISTORY_WORDS && code == ERR_OK; i++) {
        unsigned bit = history & (1u << i);
        const struct animal_class *from = lender(p, base->species, bit);
        if (bit == 0 || bit == HISTORY_POOR_TEETH) {
            continue;
        }
        if (!from) {
            return err_set(e, ERR_CONFIG,
                           "there are no rules for the history \"%s\" of this species (%s): leave it out, and let the "
                           "vet set this animal's limits",
                           history_words[i], species_names[base->species]);
        }
        if (bit & (HISTORY_PREGNANT | HISTORY_LACTATING)) {
            code = higher_floors(rules, from, history_words[i], e);
        } else {
            stricter_limits(rules, from);
        }
    }
    return code;
}
