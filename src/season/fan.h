/* An ensemble week by week, for pictures. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_FAN_H
#define SUGARLEA_FAN_H

#include "season/outlook.h"

enum { FAN_DAYS = 7, FAN_LINES = 5 };
extern const double fan_probability[FAN_LINES]; /* 0.1, 0.25, 0.5, 0.75, 0.9 */

struct fan_week {
    size_t from, days; /* of the ensemble; the last week may be short */
    double value[FAN_LINES];
};

/* Weeks that the ensemble's days make. */
size_t fan_weeks(const struct ensemble *e);

/* Quantiles of each member's mean of the week: x is e->growth or e->sugar, i the paddock;
 * over drawn paddocks, or with no draws over the years. week has fan_weeks rows. False: no
 * memory. */
bool fan_make(const struct ensemble *e, const float *x, size_t i, struct arena *a, struct fan_week *week);

/* Share of the days of `week`, over all years, on which group i is advised fewer hours
 * than free (24), or at most brief. */
double fan_share_restricted(const struct ensemble *e, size_t i, const struct fan_week *week);
double fan_share_brief(const struct ensemble *e, size_t i, const struct fan_week *week);

#endif
