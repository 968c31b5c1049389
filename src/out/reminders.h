/* What is due on a holding, as its file and its diary say: tests, weights, entries.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_REMINDERS_H
#define SUGARLEA_REMINDERS_H

#include "out/today.h"

enum reminder {
    REMIND_SIGNS,      /* foot signs that stand */
    REMIND_HAY_TEST,   /* hay that is fed and was never analysed, or long ago */
    REMIND_GRASS_TEST, /* of paddocks with animals */
    REMIND_WEIGHT,
    REMIND_CONDITION,
    REMIND_HEIGHT, /* of the sward of grazed paddocks */
    REMIND_STOCK,  /* hay of which nobody wrote down how much there is */
    REMIND_LAST,   /* what the diary last said */
    REMINDERS
};

/* Adds the sentence; false, and nothing added, where nothing is due. How old is old stands in
 * models/limits.json (remind_*). Nothing is due without a holding file. */
bool reminders_text(const struct today_view *v, enum reminder which, struct buf *b);

#endif
