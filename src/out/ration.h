/* What a day's feed adds up to, for people and for machines.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_OUT_RATION_H
#define SUGARLEA_OUT_RATION_H

#include "advice/account.h"
#include "out/text.h"
#include "out/today_words.h"

/* The account of one group on the morning of v. */
void ration_account(const struct today_view *v, const struct run_animal *a, struct account *out);

/* For the morning advice: the sums in one sentence, and one for each limit that is broken. */
void ration_lines(const struct account *a, enum units units, const struct today_to *to);

/* The whole of a morning, group by group; with `arithmetic` every product and sum. */
void ration_text(const struct today_view *v, bool arithmetic, bool colour, int width, struct buf *b);
void ration_arithmetic(const struct page *page, const struct account *a);

/* {"dm_kg":...} without the braces' id: for `ration --json`, and as today's "ration". */
void ration_members(const struct account *a, struct buf *b);
void ration_json(const struct today_view *v, struct buf *b);

#endif
