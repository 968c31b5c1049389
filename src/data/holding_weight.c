/* What an animal group weighs: by the scales, by tape, or as its class does.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/holding_read.h"
#include "data/tape.h"

#include <assert.h>
#include <math.h>

/* Bounds of entry, our judgement: from the young of small breeds to the heaviest on record. */
void holding_weight_range(enum species s, double *low, double *high)
{
    assert(s < SPECIES_COUNT);
    static const double range[SPECIES_COUNT][2] = {[SPECIES_GOAT] = {5, 180},
                                                   [SPECIES_EQUID] = {40, 1500},
                                                   [SPECIES_SHEEP] = {5, 250},
                                                   [SPECIES_ALPACA] = {5, 250},
                                                   [SPECIES_CATTLE] = {30, 1500}};
    *low = range[s][0];
    *high = range[s][1];
    assert(*low < *high);
}

static enum err_code by_tape(const struct holding_reader *r, const char *path, const struct animal_class *base,
                             struct animal_group *g)
{
    assert(g->girth_cm > 0 && g->length_cm > 0);
    const struct advice_limits *l = &r->p->limits;
    double low, high;
    char at[HOLDING_PATH];
    holding_join(at, path, "girth_cm");
    if (!base->grown) {
        return json_fail(r->doc, ERR_CONFIG, at, r->e,
                         "the tape formulas are for grown animals, and %s is none: weigh it and give \"weight_kg\"",
                         base->id);
    }
    g->weight_kg = tape_weight_of(base->species, l->tape_horse_kg, g->girth_cm, g->length_cm);
    g->weight_error_pct = l->tape_error_pct;
    if (isnan(g->weight_kg)) {
        return json_fail(r->doc, ERR_CONFIG, at, r->e,
                         "no tape formula is known for the species (%s): give \"weight_kg\"",
                         species_names[base->species]);
    }
    holding_weight_range(base->species, &low, &high);
    if (g->weight_kg < low || g->weight_kg > high) {
        return json_fail(r->doc, ERR_CONFIG, at, r->e,
                         "girth and length make %.0f kg, and %g to %g is allowed: measure again, in centimetres",
                         g->weight_kg, low, high);
    }
    return ERR_OK;
}

enum err_code holding_read_weight(const struct holding_reader *r, const cJSON *animal, const char *path,
                                  const struct animal_class *base, struct animal_group *g)
{
    double low, high;
    bool taped = json_get(animal, "girth_cm") || json_get(animal, "length_cm");
    g->weight_kg = base->weight_kg;
    g->girth_cm = g->length_cm = NAN;
    g->weighed = DATE_NONE;
    holding_weight_range(base->species, &low, &high);
    enum err_code code = json_read_number(r->doc, animal, path, "weight_kg", false, low, high, &g->weight_kg, r->e);
    if (code != ERR_OK || !taped) {
        return code;
    }
    if (json_get(animal, "weight_kg")) {
        return json_fail(r->doc, ERR_CONFIG, path, r->e,
                         "give \"weight_kg\", or \"girth_cm\" with \"length_cm\", and not both");
    }
    code = json_read_number(r->doc, animal, path, "girth_cm", true, 30, 300, &g->girth_cm, r->e);
    if (code == ERR_OK) {
        code = json_read_number(r->doc, animal, path, "length_cm", true, 20, 300, &g->length_cm, r->e);
    }
    return code == ERR_OK ? by_tape(r, path, base, g) : code;
}
