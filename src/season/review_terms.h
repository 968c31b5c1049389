/* What each day adds to the sums that scores are made of. Inside src/season only.
 *
 * A row is the count 1, then for ours, persistence and normals in turn the same columns,
 * 0 where a rival is left out. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_REVIEW_TERMS_H
#define SUGARLEA_REVIEW_TERMS_H

#include "season/review.h"

enum { REVIEW_N = 0, REVIEW_HALF_WINDOW = 7 };

enum { LEVEL_ERROR = 1, LEVEL_ABSOLUTE, LEVEL_SQUARE, LEVEL_CRPS, LEVEL_IN_BAND, LEVEL_COLUMNS = 5 };
enum { EVENT_HIT = 1, EVENT_FALSE_ALARM, EVENT_MISS, EVENT_REJECTION, EVENT_SQUARE, EVENT_COLUMNS = 5 };
enum { TURNOUT_RPS = 1, TURNOUT_SAME, TURNOUT_COLUMNS = 2 };

struct review_shares { /* of each turnout; they add up to 1 */
    double of[REPLAY_TURNOUTS];
};

struct review_days { /* the days on which all can be scored */
    size_t lead, n, *day;
    bool normals; /* are scored too */
};

struct review_terms {
    double *row;
    size_t days, columns; /* columns of one of the three; a row has 1 + 3 of them */
    bool normals;
};

/* Mean of n values over the days within REVIEW_HALF_WINDOW of that time of year in other
 * years than that of index i; NaN with fewer than one whole window of them. */
double review_normal(const double *x, size_t n, size_t i);

/* All memory is the arena's; false: no memory.
 * normal: `step` values for each day of the replay, NaN where there are none. */
bool review_days_find(const struct replay_series *s, const double *normal, size_t step, size_t lead, size_t first,
                      size_t last, struct arena *a, struct review_days *out);

/* A level of a paddock; ln_sd: of what the morning said. */
bool review_level_terms(const struct replay_series *s, const double *normal, double ln_sd, const struct review_days *d,
                        struct arena *a, struct review_terms *out);

/* A turnout stricter than `above`, of a group; normal: the frequencies of the turnouts. */
bool review_event_terms(const struct replay_group *g, const struct review_shares *normal, enum turnout above,
                        const struct review_days *d, struct arena *a, struct review_terms *out);

/* Cases and happenings of each of the REVIEW_BINS probabilities of that event, in turn:
 * rows of 2 REVIEW_BINS, ours alone and without a count. */
bool review_bin_terms(const struct replay_group *g, enum turnout above, const struct review_days *d, struct arena *a,
                      struct review_terms *out);

/* Which turnout it was. */
bool review_turnout_terms(const struct replay_group *g, const struct review_shares *normal, const struct review_days *d,
                          struct arena *a, struct review_terms *out);

#endif
