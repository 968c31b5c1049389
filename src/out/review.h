/* Scores of past mornings, for people and for machines. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_OUT_REVIEW_H
#define SUGARLEA_OUT_REVIEW_H

#include "base/buf.h"
#include "data/holding.h"
#include "out/plot.h"
#include "out/tune.h"
#include "season/review.h"
#include "season/review_tests.h"

struct review_view {
    const struct holding *holding;
    const struct review *review;
    date_t first, last;            /* of the stretch */
    double weather_sd;             /* ln-SD that the morning adds for weather it assumes */
    const struct tune_view *tests; /* grass tests beside the untuned model; NULL: the diary has none */
};

void review_text(const struct review_view *v, int width, struct buf *b);

/* {"schema":1,"first","last","mornings","scores":[{"what","lead_days","score","value","low","high","rival","n"}]
 * and "reliability":[{"what","lead_days","bins":[{"chance","happened","n"}]}].
 * what is review_what_name:id of the paddock or group, value, low and high are null where not
 * defined, rival is null for our own score. */
void review_json(const struct review_view *v, struct buf *b);

/* Reliability diagrams: of each group (the first few) the chance that was named for a
 * restricted day, or for a strict one where all or no days are restricted, against how often
 * it came, at each lead. False: no group has an event to tell apart. p is set up all the
 * same; the caller releases it. */
bool review_picture(const struct review_view *v, struct plot *p);

/* The tests of a paddock by its id that count; n 0 without any. */
struct review_tests review_tests_find(const struct review_view *v, const char *id);

/* The id of the paddock or group that a score is about. */
const char *review_id(const struct review_view *v, enum review_what what, size_t subject);

#endif
