/* What the weather is worth on a morning: its age, its gaps, its doubts, in words.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_CMD_TRUST_H
#define SUGARLEA_CMD_TRUST_H

#include "cmd/context.h"
#include "out/today.h"

/* Sets the ages of the view and adds its notes. ERR_NOINPUT when the weather does not
 * reach the morning, begins too late for it, or is older than stale_refuse_days and
 * --allow-stale was not said. */
enum err_code trust_age(struct context *c, const struct options *o, date_t date, struct today_view *v, struct err *e);

/* Adds the notes about gaps, estimates, sources, and what was assumed. */
void trust_doubts(struct context *c, const struct options *o, date_t date, struct today_view *v);

/* Adds what the diary has to say before any advice; after mornings_find. ERR_NOMEM. */
enum err_code trust_diary(struct context *c, struct today_view *v, struct err *e);

/* The insulin reading of a group that is said beside the advice; NULL none, or it is too old. */
const struct diary_entry *trust_insulin(const struct context *c, size_t group);

/* Adds one note, printf-style; all memory is the arena's. */
void trust_warn(struct context *c, struct today_view *v, const char *format, ...) __attribute__((format(printf, 3, 4)));

/* "Weather: A; B": the lines that the licences of the services want said; "" for files
 * alone. The arena's. */
const char *trust_credit_line(struct context *c);

/* The same under a text for people, where there is any. */
void trust_credit_text(struct context *c, const struct page *page);

#endif
