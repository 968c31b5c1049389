/* What an entry of the diary is asked before it is written. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_CMD_RECORD_CHECK_H
#define SUGARLEA_CMD_RECORD_CHECK_H

#include "cmd/context.h"
#include "data/diary.h"

/* ERR_USAGE for a weight that the species cannot have, which would be passed over each morning. */
enum err_code record_check_weight(const struct holding *h, const struct diary_entry *entry, struct err *e);

/* ERR_USAGE for a hay test with less sugar than any hay holds. */
enum err_code record_check_hay(const struct params *p, const struct diary_entry *entry, struct err *e);

/* ERR_USAGE where `value`, written by people who see pounds and inches, is a bare number that would be
 * taken for kilograms or centimetres. */
enum err_code record_check_unit(const char *value, const struct diary_entry *entry, struct err *e);

/* Adds a line where a weight, a girth or hay looks like a slip against what is known in c's holding and
 * the diary of that path: it is kept all the same. Changes the weights of the holding. ERR_NOMEM. */
enum err_code record_doubt(struct context *c, const char *diary, const struct diary_entry *entry, enum units units,
                           struct buf *out, struct err *e);

#endif
