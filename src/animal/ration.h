/* Intake and ration sums. Pure arithmetic; kg dry matter unless said.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_RATION_H
#define SUGARLEA_RATION_H

#include "data/advice_limits.h"
#include "data/animal.h"

#include <stddef.h>

/* Grazing intake of a session, kg DM per head: DMI24 sqrt(h/24), times the muzzle
 * factor where muzzled (equids only). Curve fitted on the four points of the North
 * Carolina trial (Glunk & Siciliano), see models/METHOD.md. */
double intake_session(double intake_24h_kg, double hours, double exponent);
double intake_muzzle_factor(const struct advice_limits *l, double weight_kg);

/* Mean NSC of what is eaten in a session from solar hour `from` for `hours`,
 * weighted by the front-loaded intake: eaten by t is proportional to
 * (t/hours)^exponent. nsc[24] are g/kg at the end of each solar hour; wraps round
 * midnight. */
double intake_session_nsc(const double nsc[24], double from, double hours, double exponent);

/* Body weight from girth and length, cm -> kg (horse 11,880; other species
 * 10,840 cm3/kg). +-10 %. */
double weight_from_girth(enum species s, double girth_cm, double length_cm);

struct ration_item {
    double dm_kg, nsc_pct, starch_pct, ndf_pct;
    bool is_forage;
};
/* DM-weighted percentages of n items; NaN contents count as unknown and make the
 * sum NaN for that content only. */
struct ration_sum {
    double dm_kg, nsc_pct, nsc_g, starch_g, ndf_pct, forage_dm_kg;
};
struct ration_sum ration_add_up(const struct ration_item *item, size_t n);

/* As fed of dry matter, and what to buy for a need: losses divide. */
double ration_as_fed(double dm_kg, double dm_pct);
double hay_to_buy(double need_kg, double storage_loss_pct, double feeding_loss_pct);

#endif
