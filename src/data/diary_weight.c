/* SPDX-License-Identifier: GPL-3.0-or-later
 * Weights of the diary in the place of the holding's. */
#include "data/diary_weight.h"

#include "data/holding_read.h"
#include "data/tape.h"

#include <math.h>

double diary_weight_of(const struct diary_entry *e, const struct advice_limits *l, const struct animal_group *g)
{
    if (e->what == DIARY_WEIGHT) {
        return e->value;
    }
    return g->rules.grown ? tape_weight_of(g->rules.species, l->tape_horse_kg, e->value, g->length_cm) : (double)NAN;
}

static void weigh(const struct diary_entry *e, const struct advice_limits *l, struct animal_group *g)
{
    double low, high, kg = diary_weight_of(e, l, g);
    bool taped = e->what == DIARY_GIRTH;
    holding_weight_range(g->rules.species, &low, &high);
    if (!(kg >= low && kg <= high)) { /* NaN, too: no length, or no formula */
        return;
    }
    g->weight_kg = kg;
    g->girth_cm = taped ? e->value : g->girth_cm;
    g->weight_error_pct = taped ? l->tape_error_pct : 0;
    g->weighed = e->date;
}

void diary_weigh(const struct diary_entry *entry, size_t n, const struct advice_limits *l, struct holding *h)
{
    for (size_t i = 0; i < n; i++) {
        if (entry[i].what == DIARY_WEIGHT || entry[i].what == DIARY_GIRTH) {
            weigh(&entry[i], l, &h->animal[entry[i].subject]);
        }
    }
}
