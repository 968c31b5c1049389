/* Hay by table values: what a group is given on a day off grass.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "hay/plan.h"

#include <assert.h>
#include <math.h>

/* The advice for a group with grass of which nothing is known: off it, hay and bucket. */
static void advise_off_grass(const struct holding *h, const struct params *p, const struct animal_group *g,
                             struct advice *out)
{
    assert(g->feds <= LIMIT_FED);
    struct advice_animal animal = {
        .rules = &g->rules, .weight_kg = g->weight_kg, .history = g->history, .feds = g->feds, .fed = g->fed};
    advice_give_hay(&animal, run_hay_of(h, g));
    struct advice_grass grass = {.ndf_pct = NAN, .starch_pct = NAN, .available_kg_head = NAN, .lasting_kg_head = NAN};
    for (int i = 0; i < 24; i++) {
        grass.nsc[i] = NAN;
    }
    grass.days_since_killing_frost = INT32_MAX;
    advise(&grass, &animal, &p->limits, out);
}

bool hay_table_days(const struct holding *h, const struct params *p, date_t first, size_t days, struct arena *a,
                    struct ensemble *e)
{
    struct advice advice;
    *e = (struct ensemble){
        .first = first, .years = 1, .days = days, .animals = h->animals, .members = 1, .brief_h = p->limits.brief_h};
    e->hours = arena_alloc(a, h->animals * days, sizeof *e->hours);
    e->hay = arena_alloc(a, h->animals * days, sizeof *e->hay);
    e->grass = arena_alloc(a, h->animals * days, sizeof *e->grass);
    if (!e->hours || !e->hay || !e->grass) {
        return false;
    }
    for (size_t i = 0; i < h->animals; i++) {
        advise_off_grass(h, p, &h->animal[i], &advice);
        for (size_t k = 0; k < days; k++) {
            e->hay[ensemble_at(e, i, 0, k)] = (float)advice.hay_kg;
        }
    }
    return true;
}
