/* What the diary says an animal weighs. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_DIARY_WEIGHT_H
#define SUGARLEA_DIARY_WEIGHT_H

#include "data/diary.h"

/* kg that an entry of a weight or a girth makes of an animal of the group; NaN: a girth that says none, for want of a
 * length or a formula. */
double diary_weight_of(const struct diary_entry *e, const struct advice_limits *l, const struct animal_group *g);

/* The newest weight of each group among the n entries takes the place of the holding's; a girth does
 * so by the tape formula, where the holding has the length and the species a formula. What the species
 * cannot weigh is passed over. Entries in the order of their days. */
void diary_weigh(const struct diary_entry *entry, size_t n, const struct advice_limits *l, struct holding *h);

#endif
