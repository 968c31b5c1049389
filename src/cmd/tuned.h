/* What tests and readings say of the paddocks, given to a holding: tuning.json and the
 * heights of diary.csv, both beside the holding file. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_CMD_TUNED_H
#define SUGARLEA_CMD_TUNED_H

#include "cmd/context.h"
#include "out/today.h"

/* tuning.json beside the holding file, or a name made of it by `more` (""); "" where the
 * holding has no file of its own. */
void tuned_path(const struct holding *h, const char *more, char *path, size_t size);

/* Reads tuning.json, where there is one, into c->tuning. ERR_CONFIG when it is damaged. */
enum err_code tuned_read(struct context *c, struct err *e);

/* Gives c->tuning and the heights of c->diary to the paddocks: of a morning only what was
 * known on it. ERR_NOMEM. */
enum err_code tuned_give(struct context *c, struct err *e);

/* Adds the notes about a tuning: of paddocks that are gone, by other model files, by tests
 * made after the morning. */
void tuned_doubts(struct context *c, struct today_view *v);

#endif
