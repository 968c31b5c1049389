/* The run up to a morning, and the mornings after it that a forecast reaches.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_CMD_MORNING_H
#define SUGARLEA_CMD_MORNING_H

#include "cmd/context.h"
#include "out/today.h"

enum { MORNING_DAYS_BEFORE = 3, MORNING_DAYS_MOST = 16 };

/* Fills v->day, v->days and v->solar for `date` and the days - 1 mornings after it, as
 * far as the weather of those days is forecast. The weather reaches to the day before
 * `date` at least, and holds MORNING_DAYS_BEFORE days before it. ERR_NOMEM. */
enum err_code mornings_find(struct context *c, date_t date, size_t days, struct today_view *v, struct err *e);

/* Lets the days from..to - 1 of the weather pass over the run. Advice is found on the
 * way only where a paddock's past depends on it. */
void mornings_pass(const struct context *c, size_t from, size_t to, struct run *r);

#endif
