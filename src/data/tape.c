/* Body weight by tape. SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/tape.h"

#include <assert.h>
#include <math.h>

double tape_weight(enum tape_formula formula, double girth_cm, double length_cm)
{
    assert(formula == TAPE_HORSE || formula == TAPE_OTHER);
    /* 11,880 cm3/kg is in use as printed (330 is 11,922 exactly); 10,840 is 300
     * converted (10,838 exactly). */
    static const double cm3_kg[] = {[TAPE_HORSE] = 11880.0, [TAPE_OTHER] = 10840.0};
    return girth_cm * girth_cm * length_cm / cm3_kg[formula];
}

double tape_weight_of(enum species species, double horse_kg, double girth_cm, double length_cm)
{
    assert(species < SPECIES_COUNT);
    double horse = tape_weight(TAPE_HORSE, girth_cm, length_cm);
    if (species == SPECIES_ALPACA) {
        return (double)NAN;
    }
    return species == SPECIES_EQUID && horse >= horse_kg ? horse : tape_weight(TAPE_OTHER, girth_cm, length_cm);
}
