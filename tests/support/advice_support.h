/* Animals, grass and hay for the tests of the advice, from the shipped models.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_ADVICE_SUPPORT_H
#define SUGARLEA_ADVICE_SUPPORT_H

#include "advice/advice.h"
#include "support/sward_support.h"

/* The class with its own copy of the rules, so that a test may change one. */
struct advice_subject {
    struct animal_class rules;
    struct fed fed[2];
    struct advice_animal animal;
};
/* Typical weight, hay of 9.5 % NSC analysed (NDF and DM of mature grass hay), nothing
 * else fed, no muzzle. */
void advice_subject(struct advice_subject *s, const char *class_id);
void advice_feed(struct advice_subject *s, const char *feed_id, double kg);

/* Grass of the same NSC at every hour, % of DM, known without doubt. */
struct advice_grass advice_flat_grass(double nsc_pct);

/* The same numbers on every machine: 0 <= x < 1. */
double advice_random(unsigned long long *state);

#endif
