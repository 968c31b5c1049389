/* What the sugar consists of. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_FRACTIONS_H
#define SUGARLEA_FRACTIONS_H

#include "sward/sward.h"

/* g/kg DM. nsc = wsc + starch; wsc = simple sugars + fructan. */
struct fractions {
    double wsc, fructan, starch, esc;
};

/* Starch share of NSC: the grass's own, else by the mean temperature of the day. */
double fractions_starch_share(const struct sward_kind *k, double own, double t);

/* Fractions of a day's mean nsc; p's memory of the last WSC moves on by the day.
 * days_seen counts the days before this one; t7 is the 7-day mean temperature. */
struct fractions fractions_of_day(const struct sward_kind *k, struct sward_part *p, double nsc, double starch_share,
                                  double esc_fructan, unsigned days_seen, double t7);

#endif
