/* What an animal has behind it or carries, and the classes that lend it rules:
 * "histories" of models/animals.json. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_HISTORY_H
#define SUGARLEA_HISTORY_H

#include "base/err.h"
#include "data/animal.h"

#include <stddef.h>

enum history { /* bits */
               HISTORY_LAMINITIS = 1,
               HISTORY_INSULIN = 2,
               HISTORY_OVERWEIGHT = 4,
               HISTORY_PREGNANT = 8,
               HISTORY_LACTATING = 16,
               HISTORY_POOR_TEETH = 32
};
enum { HISTORY_WORDS = 6 };

/* The words in the order of the bits: word i is bit 1 << i. */
extern const char *const history_words[HISTORY_WORDS];

struct history_rule { /* an animal of the species with this history takes rules from that class */
    enum species species;
    unsigned history; /* one bit */
    size_t animal;    /* index of the class in params */
};

/* May an animal with this history have the feed? With poor teeth no straw, and no coarse hay that is not soaked. */
bool history_suits_feed(unsigned history, const struct feed *f, bool soaked);

struct params;

/* The rules of a class after a history (bits). Intake and planning hay stay the
 * class's; every rule is the stricter of the two, so a history never loosens one:
 * - laminitis, insulin-dysregulation, overweight: NSC limits, probability, cap on
 *   hours, starch and bucket limits of the class that the species names for it;
 * - pregnant, lactating: forage and fibre floors of that class, its share and steps of concentrate, and no
 *   slimming; such an animal may need a bucket. A
 *   floor above what the class eats becomes all that it eats; where that is a ration
 *   and no appetite (equid-laminitis-history), the entry is refused;
 * - poor-teeth changes no number: straw and coarse hay are a matter of the feed.
 * ERR_CONFIG, without place, for a history that the species has no rules for. */
enum err_code animal_rules(const struct params *p, const struct animal_class *base, unsigned history,
                           struct animal_class *rules, struct err *e);

#endif
