/* Intake and ration sums. Pure arithmetic; kg dry matter (DM) per head unless said.
 * NaN in, NaN out: a figure that is not known makes the sum unknown, never wrong.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_RATION_H
#define SUGARLEA_RATION_H

#include "data/advice_limits.h"
#include "data/animal.h"

#include <stddef.h>

/* What a head of the class eats in 24 hours: intake_pct of its weight, or the
 * planning hay where the class has no grazing intake (acute). */
double intake_day(const struct animal_class *c, double weight_kg);

/* Grazing intake of a session: intake_24h_kg (hours/24)^exponent; 0 below 0 h.
 * Hours short of a day are eaten faster: curve fitted on the four points of the
 * North Carolina trial (Glunk & Siciliano), see models/METHOD.md. A muzzle
 * multiplies it by intake_muzzle_factor (equids only: the caller's duty). */
double intake_session(double intake_24h_kg, double hours, double exponent);
double intake_muzzle_factor(const struct advice_limits *l, double weight_kg);

/* Mean NSC, g/kg, of what is eaten in a session from solar hour `from` for `hours`
 * (over 0, to 24), weighted by the front-loaded intake: eaten by t is proportional
 * to (t/hours)^exponent. nsc[24] are g/kg at the end of each solar hour, linear
 * between; the day repeats past midnight. Exact integral, straight from the law;
 * advice/session.h does the same through tables. */
double intake_session_nsc(const double nsc[24], double from, double hours, double exponent);

/* NSC of a feed, % of DM: the table's; else WSC and starch, where a forage's unknown
 * starch is forage_starch_pct; NaN when there is neither. */
double feed_nsc(const struct feed *f, double forage_starch_pct);

/* Starch of a feed, % of DM: the table's; else the most it can be, NSC less WSC; of a
 * forage whose WSC alone is known forage_starch_pct; NaN when there is none of these. */
double feed_starch(const struct feed *f, double forage_starch_pct);

struct ration_item {
    double dm_kg, nsc_pct, starch_pct, ndf_pct;
    bool is_forage;
};
/* A feed given by weight as an item: kg as fed, its DM the table's or bale_dm_pct; its
 * NSC nsc_else where nobody knows it, its starch then the most it can be. Weight below 0
 * or unknown counts as nothing. */
struct ration_item ration_of_feed(const struct feed *f, double fed_kg, double nsc_else, const struct advice_limits *l);

/* DM-weighted percentages of n items; NaN contents count as unknown and make the
 * sum NaN for that content only. An item of no weight has no say. nsc_g and
 * starch_g are grams a day. Percentages of an empty ration are NaN. */
struct ration_sum {
    double dm_kg, nsc_pct, nsc_g, starch_g, ndf_pct, forage_dm_kg;
};
struct ration_sum ration_add_up(const struct ration_item *item, size_t n);

/* As fed of dry matter, and what to buy for a need: losses divide
 * (need / ((1 - storage)(1 - feeding))), they are never added on top.
 * NaN for a loss below 0 or of all there is. */
double ration_as_fed(double dm_kg, double dm_pct);
double hay_to_buy(double need_kg, double storage_loss_pct, double feeding_loss_pct);

#endif
