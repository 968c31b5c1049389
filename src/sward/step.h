/* The day of a sward but for its hours, for one sward (sward.c) and for many (many.c):
 * step_begin; for each part step_morning, its hours, step_evening; the hours' sugar into
 * the result; step_end. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_STEP_H
#define SUGARLEA_STEP_H

#include "sward/balance.h"
#include "sward/season.h"

struct step { /* what the parts share on one day */
    const struct sward_day *day;
    double t;
    bool covered;
    bool kill;                                  /* of the part between its morning and evening */
    double mean_nsc, wsc, fructan, starch, esc; /* green-weighted sums, for the shares */
};

void step_begin(struct sward *s, const struct sward_day *d, struct step *st, struct sward_result *r);
/* phase: the part's of that day. The sink of f is without fA, canopy_sink_area, which the caller puts to it. */
void step_morning(struct sward *s, size_t i, const struct season_phase *phase, struct step *st,
                  struct balance_factors *f);
void step_evening(struct sward *s, size_t i, struct step *st, const struct balance_sums *day, struct sward_result *r);
void step_end(struct sward *s, const struct step *st, struct sward_result *r); /* nsc_mean is known */

#endif
