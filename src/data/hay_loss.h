/* What hay loses in the store and at feeding: models/hay-losses.json.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_HAY_LOSS_H
#define SUGARLEA_HAY_LOSS_H

#include "base/limits.h"

enum hay_loss_kind { HAY_LOSS_STORAGE, HAY_LOSS_FEEDING, HAY_LOSS_KINDS };

struct hay_loss { /* % of dry matter; NaN where the source gives none */
    char id[LIMIT_NAME];
    enum hay_loss_kind kind;
    char species[LIMIT_NAME]; /* of the trial: "horse", "sheep, goat"; "" any */
    char description[LIMIT_TEXT], note[LIMIT_TEXT];
    double low_pct, typical_pct, high_pct;
};

/* What to plan with: typical, else the upper bound. Never NaN: one is always given. */
double hay_loss_planning_pct(const struct hay_loss *loss);

#endif
