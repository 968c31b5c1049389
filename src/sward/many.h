/* Many swards under one day's weather. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_MANY_H
#define SUGARLEA_MANY_H

#include "sward/sward.h"

/* sward_step of each of n swards, to 1e-9 of it, in a third of the time or less when there
 * are many. They are of the same grasses in the same order (one paddock's members, or sites
 * alike): what each has of its own (sward_own), water, nitrogen and all of the state may
 * differ. s: the first of them; each is stride swards on. r: n results. */
void sward_step_many(struct sward *s, size_t n, size_t stride, const struct sward_day *d, struct sward_result *r);

#endif
