/* The longest session that fits. Inside src/advice only.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_SEARCH_H
#define SUGARLEA_SEARCH_H

#include "advice/case.h"

struct session {       /* one way to graze the day */
    int length, start; /* slots; length 0: not at all, SLOTS_DAY: round the clock */
    bool muzzle;
    bool within_stop; /* over the caution limit, within the stop limit */
    double grass_kg, grass_nsc;
};

/* What a session of this length would be: its best window, whether it fits or not. */
struct session advice_session(const struct advice_case *c, int length, bool muzzle, double limit_pct);

/* The session of that length and no longer, its limit unchanged: a shorter one where it
 * does not fit; length 0, and no muzzle, where none does. */
struct session advice_cut_short(const struct advice_case *c, const struct session *s, int most);

/* The longest that keeps within the caution limit and is no longer than cap_h;
 * length 0 when none does. */
struct session advice_longest(const struct advice_case *c, double cap_h, bool muzzle);

/* Is there a session at all of advice_offer's? Tries the shortest first. */
bool advice_offers(const struct advice_case *c, double cap_h, bool muzzle);

/* The longest within caution; where that is not over brief_h, the brief session when
 * it keeps within stop. */
struct session advice_offer(const struct advice_case *c, double cap_h, bool muzzle);

#endif
