/* How a species goes back to grass, from models/reintroduction.json.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WAY_BACK_H
#define SUGARLEA_WAY_BACK_H

#include "base/limits.h"

struct way_back_rules {
    char id[LIMIT_NAME];       /* of the species */
    double away_days;          /* off grass, from which the way back is needed */
    double first_min;          /* the first day on grass */
    double step_min;           /* more each day */
    double full_h;             /* then free */
    double least_days;         /* of the whole way */
    double episode_step_days;  /* after foot signs: days a step */
    double episode_least_days; /* after foot signs: of the whole way */
    double grass_low_cm;       /* height of the sward it should begin on; NaN: none is published */
    double grass_high_cm;
};

#endif
