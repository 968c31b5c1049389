/* The scores of a review, one table for each thing that is judged. Inside src/season only.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_REVIEW_KINDS_H
#define SUGARLEA_REVIEW_KINDS_H

#include "season/review_terms.h"

enum {
    REVIEW_USES = 4, /* columns that a score is made of */
    REVIEW_LEVEL_KINDS = 5,
    REVIEW_GROWTH_KINDS = 3, /* the first of them: growth has no spread of its own */
    REVIEW_EVENT_KINDS = 6,
    REVIEW_BIN_KINDS = 4,
    REVIEW_TURNOUT_KINDS = 2
};

struct review_kind { /* a score and the columns of ours that it is made of; uses 0: of all */
    const char *name;
    double (*score)(const double *sum);
    size_t uses, use[REVIEW_USES];
    bool rivals;      /* scored for them too */
    const char *gain; /* the name of theirs less ours; NULL: not given. Of means only. */
};

extern const struct review_kind review_level_kinds[REVIEW_LEVEL_KINDS];
extern const struct review_kind review_event_kinds[REVIEW_EVENT_KINDS];
extern const struct review_kind review_bin_kinds[REVIEW_BIN_KINDS];
extern const struct review_kind review_turnout_kinds[REVIEW_TURNOUT_KINDS];

/* Of the sums of a count, of ours and of theirs: the mean of theirs less ours. */
double review_gain(const double *sum);

#endif
