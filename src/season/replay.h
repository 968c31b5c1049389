/* Past mornings once more: what each said of its own day and of days ahead, beside what
 * the full record gives for those days.
 *
 * The truth of a day is the program's own day with its recorded weather, from the same
 * evening before: what is scored is what a morning could not know, not the model against
 * grass. Days ahead are run on a copy by the weather that the morning assumes for them.
 *
 * A morning's probabilities: the day's sugar is taken as ln-normal about the level that
 * the morning expects, with the ln-SD that is added for assumed weather
 * (spread_assumed_weather). REPLAY_MEMBERS equally likely levels of it, the middles of as
 * many equal shares, are each advised on as if they were the record; the share of them
 * with a turnout is its probability.
 *
 * Arrays hold one value for each day of the weather, NaN where there is none.
 * Pure. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_REPLAY_H
#define SUGARLEA_REPLAY_H

#include "season/run.h"

enum {
    REPLAY_LEADS = 3,
    REPLAY_AHEAD = 3, /* days, the longest lead */
    REPLAY_MEMBERS = 10,
    REPLAY_TURNOUTS = TURNOUT_NONE + 1,
    REPLAY_LEVELS = 2
};
extern const size_t replay_lead[REPLAY_LEADS]; /* days ahead: 0, 1, 3 */

enum replay_level { REPLAY_NSC, REPLAY_GROWTH }; /* g/kg, the day's mean; kg DM/ha */

struct replay_series {
    double *truth;
    double *said[REPLAY_LEADS]; /* of that day, by the morning so many days before */
};

struct replay_members { /* with each turnout, in all REPLAY_MEMBERS */
    unsigned char of[REPLAY_TURNOUTS];
};

struct replay_group {
    struct replay_series turnout; /* values of enum turnout */
    struct replay_members *members[REPLAY_LEADS];
};

struct replay {
    size_t days, paddocks, groups;
    struct replay_series (*paddock)[REPLAY_LEVELS];
    struct replay_group *group;
    double weather_sd; /* ln-SD of a level, for assumed weather */
    double factor[REPLAY_MEMBERS];
    struct run ahead; /* where days ahead are tried */
};

/* For the days of a record; r is the run that replay_day is given. Memory is the
 * arena's. False: no memory. */
bool replay_init(struct replay *p, const struct run *r, size_t days, struct arena *a);

/* Day i passes: its truth (when `recorded`), its morning, and its evening in the run r.
 * seen[k] is day i + k as the morning of day i sees it, k = 0 .. REPLAY_AHEAD. */
void replay_day(struct replay *p, struct run *r, size_t i, const struct run_day seen[REPLAY_AHEAD + 1], bool recorded);

/* How many of the members (255 at most), grass times factor[0] .. factor[n - 1] (rising), get each
 * turnout, added to count. The more sugar, the stricter the turnout: only where it changes
 * is searched. */
void replay_members(const struct run *r, const struct advice_grass *grass, const struct advice_animal *animal,
                    const double *factor, size_t n, struct replay_members *count);

#endif
