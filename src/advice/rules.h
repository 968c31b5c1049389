/* The hard rules, a table in rules.c. Inside src/advice only.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_ADVICE_RULES_H
#define SUGARLEA_ADVICE_RULES_H

#include "advice/case.h"

/* The longest session that the rules and the class allow, hours: 24 free, 0 none.
 * The bits of the rules that spoke go to *reasons. May leave the bucket out. */
double advice_rules_cap(struct advice_case *c, unsigned *reasons);

#endif
