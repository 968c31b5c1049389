/* What a new holding is proposed to hold, from models/starter.json: swards by their looks.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_STARTER_H
#define SUGARLEA_STARTER_H

#include "base/limits.h"

#include <stddef.h>

enum { STARTER_GRASSES = 14 };

/* The id of the grass that share[i] is of. */
const char *starter_grass(size_t i);

struct sward_look {
    char id[LIMIT_NAME];
    char seen[LIMIT_TEXT];         /* for people */
    double share[STARTER_GRASSES]; /* NaN: none of it; sums to 1 */
    double to_latitude;            /* it is rare nearer to a pole, and not shown there; NaN: it is shown everywhere */
};

struct clover_look {
    char id[LIMIT_NAME];
    char seen[LIMIT_TEXT];
    double share; /* of white clover */
};

#endif
