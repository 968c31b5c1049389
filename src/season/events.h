/* What the diary puts on a run: how paddocks are kept, signs, hours on grass. Inside
 * src/season only. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_EVENTS_H
#define SUGARLEA_EVENTS_H

#include "season/run.h"

/* Gives the animal the signs that this morning knows, and the bound of its way back. */
void events_morning(const struct run *r, struct run_animal *a, date_t date);

/* The entries up to this day come into force; the animals' day passes. Before the
 * paddocks' evening. */
void events_evening(struct run *r, date_t date);

#endif
