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
_Static_assert((int)AMISS_MOST == (int)TODAY_ALARMS, "each of them has room at the top of the advice");

struct amiss_sore { /* foot signs that reach no animal: whose they may be */
    size_t n;
    const struct animal_group *of[AMISS_MOST]; /* NULL: anybody's */
};
void amiss_sore(const struct context *c, struct amiss_sore *s);

/* May some of those be of another group than this one? */
bool amiss_beside(const struct amiss_sore *s, const struct animal_group *g);

/* Foot signs that reach no animal, by the diary alone, the first TODAY_ALARMS_WHOLE at length; r has been through
 * run_look_over or run_morning. Returns how many. */
size_t amiss_signs(const struct context *c, const struct run *r, struct amiss found[AMISS_MOST]);

/* The same as alarms of the view, and a note for each other entry that is passed over. ERR_NOMEM. */
enum err_code amiss_say(struct context *c, struct today_view *v, struct err *e);

#endif
