/* The draws of an ensemble. Inside src/season only. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_ENSEMBLE_DRAW_H
#define SUGARLEA_ENSEMBLE_DRAW_H

#include "season/ensemble.h"

struct ensemble_draw { /* standard normal; one paddock of one member */
    double level;      /* of the sugar, whole */
    double test;       /* by how much a test would miss it */
    double source;     /* of ln pm20 */
    double sink;       /* of ln growth_max */
};

/* draw[paddock * members + member] for n paddocks; each variable a Latin hypercube over
 * the members. False: no memory. */
bool ensemble_draws(unsigned long seed, size_t paddocks, size_t members, struct arena *a, struct ensemble_draw **draw);

/* The sward with the draw's source and sink, of each of its types. */
void ensemble_vary(struct sward *s, const struct ensemble_draw *d, const struct ensemble_doubt doubt[SWARD_TYPES]);

/* ln of a paddock's level whose ln-SD is level_sd (run_paddock), and the part of it that a
 * test would show: what is left is normal with an SD of spread_tested, or level_sd where
 * that is less already. On a day without doubt; doubt multiplies both. */
double ensemble_level(const struct ensemble_draw *d, double level_sd);
double ensemble_shown(const struct ensemble_draw *d, const struct advice_limits *l, double level_sd);

#endif
