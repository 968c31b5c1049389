/* Signs that people see on an animal come before any sugar figure. Neither a diagnosis
 * nor a dose: whom to ring, how soon, and what to do until then.
 * Rules and their evidence: models/METHOD.md. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_SIGNS_H
#define SUGARLEA_SIGNS_H

#include "data/animal.h"
#include "data/diary.h"

enum signs_urgency { SIGNS_GONE, SIGNS_SAME_DAY, SIGNS_AT_ONCE };

/* How soon a vet is needed. words: bits of enum diary_sign; rules: after history;
 * others: another group of the holding has signs too. Without signs a class that does not graze, an acute
 * case, needs one the same day. */
enum signs_urgency signs_urgency(unsigned words, const struct animal_class *rules, bool others);

/* "Ring the vet today." ...; "" when the signs are gone. */
const char *signs_call(enum signs_urgency u);

extern const char signs_others[]; /* behind it, where another group has signs too */

/* What to do while waiting, in order; SIGNS_ACTIONS static sentences. */
enum { SIGNS_ACTIONS = 6 };
extern const char *const signs_actions[SIGNS_ACTIONS];

/* The look-over of every morning: what is to be seen, and the word for the diary where it is not. */
struct signs_check {
    const char *well, *word; /* word NULL: it has none of its own */
    unsigned species;        /* bits 1 << enum species of those it is looked for in; 0 all */
};
enum { SIGNS_CHECKS = 12, SIGNS_SAME_DAY_CASES = 3, SIGNS_AT_ONCE_CASES = 4 };
extern const struct signs_check signs_checks[SIGNS_CHECKS];
extern const char signs_alike[]; /* what else looks so */

/* When to ring the vet the same day, and when at once. */
extern const char *const signs_same_day[SIGNS_SAME_DAY_CASES];
extern const char *const signs_at_once[SIGNS_AT_ONCE_CASES];

#endif
