/* Growth of mown plots as the trials measured it: staggered series of cuts, each
 * harvest spread over its days. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_TESTS_GROWTH_TRIAL_H
#define SUGARLEA_TESTS_GROWTH_TRIAL_H

#include "support/daily.h"

/* One trial year of the lowland-grassland network by the protocol of models/METHOD.md:
 * four series of cuts every 28 days, perennial ryegrass, 120 mm, nitrogen 1, no snow
 * rule; kg DM/ha/d of each month, 0 January. False when the weather does not hold
 * the year and the one before. */
bool growth_trial_year(const struct daily *d, double latitude, int year, bool irrigated, double month[12]);

struct growth_trial_plots { /* the fortnightly series of a permanent sward */
    const char *grass;
    double latitude, capacity_mm, nitrogen;
    int first_cut; /* day of the year */
    bool snow_rule;
};

/* Two series, 14 days apart, cut every 28 days from first_cut on; growth of each day of
 * the record, kg DM/ha/d (n of d values). */
void growth_trial_plots(const struct daily *d, const struct growth_trial_plots *p, double *growth);

#endif
