/* How good the mornings of a replay were: scores, beside those of two rivals who know no
 * model of the days to come.
 *
 * - Persistence: as the last full day before that morning turned out, by the record.
 * - Normals: as days of that time of the year turned out in the other years of the record,
 *   earlier and later (the mean, or the frequencies, of 7 days either side; the day's own year
 *   left out). Whether a class's turnout is not free: by the more frequent; its turnout: the
 *   most frequent.
 *
 * All three are scored on the same days: recorded, and said something about by each. Where
 * less than REVIEW_NORMALS_LEAST of them have normals, normals are left out instead.
 *
 * A sound forecast has a small "mae", "rmse", "crps", "brier", "rps", "false_alarm_ratio"
 * and "reliability", a large "hit_rate", "peirce", "resolution", "roc_area", "same", and
 * 0.8 for "coverage80". A "..._gain" is the rival's score less ours on the same days:
 * above 0 ours is better. Intervals: season/bootstrap.h, 90 %.
 *
 * Pure. models/METHOD.md has the sources. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_REVIEW_H
#define SUGARLEA_REVIEW_H

#include "season/replay.h"

#define REVIEW_NORMALS_LEAST 0.8
#define REVIEW_LEVEL 0.90 /* of the intervals */

enum { REVIEW_BINS = REPLAY_MEMBERS + 1 }; /* chances 0, 0.1 .. 1 */

enum review_what {
    REVIEW_NSC,        /* mean sugar and starch of a day, g/kg; subject: a paddock */
    REVIEW_GROWTH,     /* kg DM/ha/d; a paddock */
    REVIEW_RESTRICTED, /* turnout is not free; a group */
    REVIEW_STRICT,     /* turnout is brief or none; a group */
    REVIEW_TURNOUT,    /* which of the four; a group */
    REVIEW_WHATS
};

enum review_rival { REVIEW_OURS, REVIEW_PERSISTENCE, REVIEW_NORMALS, REVIEW_RIVALS };

extern const char *const review_what_name[REVIEW_WHATS];   /* "nsc_mean", "growth", ...: ids for machines */
extern const char *const review_rival_name[REVIEW_RIVALS]; /* NULL, "persistence", "normals" */

struct review_score {
    enum review_what what;
    size_t subject; /* index of the paddock or group */
    size_t lead;    /* index in replay_lead */
    const char *score;
    enum review_rival rival; /* whose score it is; of a gain, over whom */
    double value, low, high; /* NaN: not defined */
    size_t n;                /* days scored */
};

/* How often an event came of the mornings that gave it one of the chances 0, 0.1 .. 1. */
struct review_reliability {
    enum review_what what; /* REVIEW_RESTRICTED or REVIEW_STRICT */
    size_t subject, lead;
    double n[REVIEW_BINS], happened[REVIEW_BINS];
};

struct review {
    size_t mornings; /* days of the stretch that were recorded */
    size_t n;
    struct review_score *score;
    size_t reliabilities;
    struct review_reliability *reliability;
};

/* Scores the days first..last (indexes of the replay). Memory is the arena's. False: no
 * memory. */
bool review_find(const struct replay *p, size_t first, size_t last, struct arena *a, struct review *out);

/* The row, or NULL. */
const struct review_score *review_get(const struct review *r, enum review_what what, size_t subject, size_t lead,
                                      const char *score, enum review_rival rival);

#endif
