/* Dying and ageing of leaf and stem. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_TURNOVER_H
#define SUGARLEA_TURNOVER_H

#include "sward/sward.h"

/* fs of Jouven et al. 2006: old tissue dies up to three times faster. age in life spans. */
double turnover_age_factor(double age);

struct turnover_day {
    double t;          /* mean temperature, C */
    double grown;      /* new structure, g/m2 */
    double stem_share; /* of it */
    bool sheltered;    /* under snow: frost takes nothing */
    bool kill;         /* a night that browns the sward */
};

/* Adds the new structure, lets tissue die into the standing dead, moves the ages.
 * p holds the morning's masses and the evening's sugar. Returns the sugar lost, g/m2. */
double turnover_step(const struct sward_kind *k, struct sward_part *p, const struct turnover_day *d);

#endif
