/* The grass tests of a diary, held against the model. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_CMD_TESTED_H
#define SUGARLEA_CMD_TESTED_H

#include "cmd/context.h"
#include "out/tune.h"

/* Runs the paddocks as they are without tuning (c->untuned) through the record and fits
 * each to its tests of NSC and WSC. Fills v->diary, v->paddock and v->paddocks: those with
 * tests, in the holding's order. ERR_NOMEM. */
enum err_code tested_find(struct context *c, struct tune_view *v, struct err *e);

#endif
