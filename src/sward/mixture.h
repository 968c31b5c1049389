/* What the parts of a sward share: the ground they stand on, and their sums.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_MIXTURE_H
#define SUGARLEA_MIXTURE_H

#include "sward/sward.h"

/* Leaf area of the whole ground, m2/m2. */
double mixture_lai(const struct sward *s);

/* What a morning's weather makes of the ground; lai is the whole ground's, of the morning. */
struct ground {
    double water, snow_mm, st; /* as in the sward */
    bool covered;              /* snow lies deep enough to cover it */
};
struct ground mixture_wet(const struct sward *s, const struct sward_day *d, double lai);

/* That, soil temperature and leaf clock put into the sward; is it covered? */
bool mixture_ground(struct sward *s, const struct sward_day *d, double lai);

/* Sum over the parts of share x (what of each part), kg DM/ha. */
enum mixture_of { MIXTURE_GREEN, MIXTURE_ALL };
double mixture_mass(const struct sward *s, enum mixture_of what);

#endif
