/* Grass that is not there is hay that must be: the advice's grazing held against what
 * the paddock can give. Pure. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_HAY_SUPPLY_H
#define SUGARLEA_HAY_SUPPLY_H

#include "hay/plan.h"

/* Grass that can be used of a stand, kg DM: so much of the herbage within reach ends in
 * animals, the rest is trodden, fouled or left (Penn State Agronomy Guide, table 1.8-9).
 * Divided by what the animals eat a day it is the days of grazing left. */
double hay_usable_kg(double area_ha, double herbage_kg_ha, double share);

/* The advice takes the grass of a paddock that is kept grazed as given: its sugar stops an
 * animal, its amount does not. So over a winter of next to no growth it would promise hay
 * for a few days only. Here each paddock has a pool of usable grass: the usable share of what
 * stands this morning within reach, plus the same share of each day's growth, less what its
 * groups eat, and never more than the usable share of the cover it is kept at (what grows
 * beyond is mown, trampled or dies; a stocked paddock's own sward keeps count instead). On a
 * day on which they want more than the pool holds, all eat the same part of what they want,
 * and hay takes the place of the rest, dry matter for dry matter.
 *
 * given: draw 0 of ask->e with hay and grass as they then are (kg as fed and kg DM a head),
 * members = years, its growth and sugar NULL. pasture: one a paddock. ask->now is needed.
 * Memory is the arena's. False: no memory. */
bool hay_supply(const struct hay_ask *ask, struct arena *a, struct ensemble *given, struct hay_pasture *pasture);

#endif
