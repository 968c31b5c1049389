/* Animals, grass and hay for the tests of the advice. SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/advice_support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

void advice_subject(struct advice_subject *s, const char *class_id)
{
    const struct params *p = support_params();
    const struct animal_class *found = params_animal(p, class_id);
    if (!found) {
        fprintf(stderr, "no class %s\n", class_id);
        exit(1);
    }
    *s = (struct advice_subject){.rules = *found};
    s->rules.muzzle_offered = false;
    s->animal = (struct advice_animal){.rules = &s->rules,
                                       .weight_kg = s->rules.weight_kg,
                                       .fed = s->fed,
                                       .hay = params_feed(p, "grass-hay-mature"),
                                       .hay_nsc_pct = 9.5};
}

void advice_feed(struct advice_subject *s, const char *feed_id, double kg)
{
    s->fed[s->animal.feds++] = (struct fed){params_feed(support_params(), feed_id), kg};
}

struct advice_grass advice_flat_grass(double nsc_pct)
{
    struct advice_grass g = {.ndf_pct = (double)NAN,
                             .starch_pct = (double)NAN,
                             .days_since_killing_frost = 1000,
                             .available_kg_head = (double)NAN,
                             .lasting_kg_head = (double)NAN,
                             .dawn_h = 6.0};
    for (int i = 0; i < 24; i++) {
        g.nsc[i] = 10.0 * nsc_pct;
    }
    return g;
}

double advice_random(unsigned long long *state)
{
    *state = *state * 6364136223846793005ULL + 1442695040888963407ULL;
    return (double)(*state >> 11) / 9007199254740992.0;
}
