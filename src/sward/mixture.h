/* What the parts of a sward share: the ground they stand on, and their sums.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_MIXTURE_H
#define SUGARLEA_MIXTURE_H

#include "sward/sward.h"

/* Leaf area of the whole ground, m2/m2. */
double mixture_lai(const struct sward *s);

/* Snow, temperature sum, soil temperature, water, leaf clock: one morning's change
 * of the common state. lai is the whole ground's, of the morning. */
void mixture_ground(struct sward *s, const struct sward_day *d, double lai);

/* Snow lies deep enough to cover the sward. */
bool mixture_covered(const struct sward *s, const struct sward_day *d);

/* Sum over the parts of share x (what of each part), kg DM/ha. */
enum mixture_of { MIXTURE_GREEN, MIXTURE_ALL };
double mixture_mass(const struct sward *s, enum mixture_of what);

#endif
