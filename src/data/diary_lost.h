/* Foot signs that stand under an id that the holding does not have. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_DIARY_LOST_H
#define SUGARLEA_DIARY_LOST_H

#include "data/diary.h"

enum { DIARY_LOST_MOST = 64 }; /* names; a diary with more is damaged otherwise */

struct diary_lost {
    const char *name;
    unsigned signs;                 /* bits of enum diary_sign; 0: the vet alone was written down */
    unsigned vet;                   /* bits of enum diary_vet */
    const struct diary_entry *last; /* the latest of its signs that stand; of its entries where there are none */
    size_t entries;                 /* that stand */
};

/* What stands under such names on a morning: of the last so many days, and not ended since under the same
 * name. Live, on the very day, its date hides no entry: that of a day to come may be a second slip. The latest
 * first; returns how many. */
size_t diary_lost_find(const struct diary *d, date_t morning, bool live, double days,
                       struct diary_lost lost[DIARY_LOST_MOST]);

#endif
