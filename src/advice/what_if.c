/* The same animal with one thing different. SPDX-License-Identifier: GPL-3.0-or-later */
#include "advice/advice.h"
#include "advice/rules.h"
#include "advice/search.h"

#include <assert.h>
#include <math.h>

static double hours_with_muzzle(const struct advice_tables *t, const struct advice_grass *grass,
                                const struct advice_animal *animal, const struct advice_limits *limits)
{
    struct advice_case c;
    unsigned reasons = 0;
    if (!animal->rules->muzzle_offered) {
        return (double)NAN;
    }
    advice_case_make(t, grass, animal, limits, &c);
    double cap_h = fmin(advice_rules_cap(&c, &reasons), limits->muzzle_max_h);
    double hours = (double)advice_offer(&c, cap_h, true).length / SLOTS_HOUR;
    return animal->back.day > 0 ? fmin(hours, animal->back.most_h) : hours;
}

void advise_what_if(const struct advice_grass *grass, double tested_ln_sd, const struct advice_animal *animal,
                    const struct advice_limits *limits, struct advice_what_if *out)
{
    struct advice_tables tables;
    struct advice a;
    advice_tables_make(limits, &tables);

    struct advice_grass tested = *grass;
    tested.ln_sd = tested_ln_sd;
    advise_with(&tables, &tested, animal, limits, &a);
    out->hours_tested_grass = a.hours;

    struct advice_animal better = *animal;
    better.hay_esc = false;
    better.hay_nsc_pct = a.hay_nsc_pct <= limits->better_hay_nsc_pct ? a.hay_nsc_pct : limits->better_hay_nsc_pct;
    advise_with(&tables, grass, &better, limits, &a);
    out->hours_better_hay = a.hours;

    assert(a.hours >= 0.0 && a.hours <= 24.0);
    out->hours_muzzled = hours_with_muzzle(&tables, grass, animal, limits);
}
