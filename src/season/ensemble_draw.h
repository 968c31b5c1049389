/* The draws of an ensemble. Inside src/season only. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_ENSEMBLE_DRAW_H
#define SUGARLEA_ENSEMBLE_DRAW_H

#include "season/ensemble.h"

struct ensemble_draw {   /* standard normal; one paddock of one member */
    double shown;        /* of the level: what a test would show */
    double hidden;       /* of the level: what it would not */
    double source, sink; /* of ln pm20 and ln growth_max */
};

/* draw[paddock * members + member] for n paddocks; each variable a Latin hypercube over
 * the members. False: no memory. */
bool ensemble_draws(unsigned long seed, size_t paddocks, size_t members, struct arena *a, struct ensemble_draw **draw);

/* The sward with the draw's source and sink, of each of its types. */
void ensemble_vary(struct sward *s, const struct ensemble_draw *d, const struct ensemble_doubt doubt[SWARD_TYPES]);

#endif
