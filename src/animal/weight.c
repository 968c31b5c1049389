/* Body weight by tape. SPDX-License-Identifier: GPL-3.0-or-later */
#include "animal/ration.h"

/* The field formulas girth^2 length / 330 (horses) and / 300 (others), inches and
 * pounds, in cm and kg. 11,880 cm3/kg is in use as printed (330 is 11,922 exactly);
 * 10,840 is 300 converted (10,838 exactly). */
static const double horse_cm3_kg = 11880.0;
static const double other_cm3_kg = 10840.0;

double weight_from_girth(bool horse, double girth_cm, double length_cm)
{
    return girth_cm * girth_cm * length_cm / (horse ? horse_cm3_kg : other_cm3_kg);
}
