/* Foot signs in the morning advice: whom to ring, what to do, what to tell the vet; and
 * where the way back to grass stands. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_OUT_SIGNS_H
#define SUGARLEA_OUT_SIGNS_H

#include "advice/signs.h"
#include "out/text.h"
#include "out/today.h"

/* Signs that reach no animal, under the heading of a screen. */
void signs_alarms(const struct page *page, const struct today_view *v);

/* Foot signs in the diary, or kept as an acute case: the vet comes before any figure. */
bool signs_stand(const struct run_animal *a);

enum { SIGNS_TOLD = 8, SIGNS_LINE = 4 * LIMIT_TEXT };
struct signs_told { /* what the vet will want to know of such a group */
    enum signs_urgency urgency;
    bool others; /* another group has signs, too */
    size_t n;
    char line[SIGNS_TOLD][SIGNS_LINE];
};

/* False, and n 0, when none stand. */
bool signs_tell(const struct today_view *v, const struct run_animal *a, struct signs_told *t);

/* The look-over of every morning as a page of text. */
void signs_checklist(struct buf *b);

/* Nothing when none stand. */
void signs_text(const struct page *page, const struct today_view *v, const struct run_animal *a);

/* "signs":{...} or null, "acute":{...} or null (no signs are written down), "way_back":{...} or null. */
void signs_json(const struct today_view *v, const struct run_animal *a, struct buf *b);

/* For notes above the advice: which paddocks rest. Note i in words into text; false: there are no more. */
bool signs_resting(const struct today_view *v, size_t i, char *text, size_t size);

#endif
