/* What soaking and steaming do to hay: models/soaking.json.
 *
 * A credit is for planning and never a pass: the loss differs several-fold between
 * hays, so a hay counts as it is dry until it was tested after soaking.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_SOAKING_H
#define SUGARLEA_SOAKING_H

#include "base/limits.h"

#include <stdbool.h>
#include <stddef.h>

struct soaking { /* NaN where the source gives none */
    char id[LIMIT_NAME];
    char description[LIMIT_TEXT], note[LIMIT_TEXT];
    double hours_low, hours_high, water_c;
    double wsc_loss_pct, starch_loss_pct; /* % of what is there dry */
    double dm_loss_low_pct, dm_loss_high_pct;
    double wsc_before_g_kg, wsc_after_g_kg; /* g/kg DM */
    double hays_over_100, bacteria_cfu_g;
    bool is_credit; /* may be planned with, from hours_low at water_c (NaN: any) on */
};

/* The largest credit that a soak of so many hours in water of so many C (NaN: not
 * known, taken as cold) earns; NULL when it is too short for any. */
const struct soaking *soaking_credit(const struct soaking *row, size_t n, double hours, double water_c);

/* NSC of the hay, % of DM, as it would be about after the soak: the credit off its WSC,
 * the starch as it is. NaN where NSC or starch is not known. */
double soaking_planned_nsc(const struct soaking *credit, double nsc_pct, double starch_pct);

#endif
