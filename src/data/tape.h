/* Body weight by tape: heart girth and length of a grown animal.
 *
 * The field formulas girth^2 length / 330 (horses) and / 300 (ponies, donkeys, goats,
 * sheep, cattle), inches and pounds, in cm and kg. A tenth out either way is usual
 * (limits: tape_error_pct): never to dose by. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_TAPE_H
#define SUGARLEA_TAPE_H

#include "data/animal.h"

enum tape_formula { TAPE_HORSE, TAPE_OTHER };

/* kg. Girth: round the chest behind elbow and withers. Length: point of the shoulder to
 * point of the buttock (pin bone). */
double tape_weight(enum tape_formula formula, double girth_cm, double length_cm);

/* The same by species: equids of horse_kg or more by the horse's formula are horses,
 * the others ponies and donkeys (our judgement). NaN for alpacas: no formula is known to
 * us, fleece or none. */
double tape_weight_of(enum species species, double horse_kg, double girth_cm, double length_cm);

#endif
