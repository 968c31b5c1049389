/* What stands in the diary and reaches no animal: foot signs under an unknown id or of a day to
 * come, which must not be overlooked, and other entries that are passed over.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_CMD_AMISS_H
#define SUGARLEA_CMD_AMISS_H

#include "advice/signs.h"
#include "cmd/context.h"
#include "data/diary_lost.h"
#include "out/today.h"

struct amiss {
    enum signs_urgency urgency;
    char text[TODAY_WARNING_TEXT]; /* which line, what it says, what to do now, how to mend it */
};
enum { AMISS_AHEAD = 4, AMISS_MOST = DIARY_LOST_MOST + AMISS_AHEAD };

/* Foot signs that reach no animal, by the diary alone; returns how many. */
size_t amiss_signs(const struct context *c, struct amiss found[AMISS_MOST]);

/* The same as alarms of the view, and a note for each other entry that is passed over. */
void amiss_say(struct context *c, struct today_view *v);

#endif
