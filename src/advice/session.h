/* The best time of day for a grazing session of given length. SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is eaten in a session is front-loaded (animal/ration.h), so a window's NSC is
 * a weighted mean of the hours in it. By parts, with the grass's NSC n linear within
 * hours,
 *     mean = n(end) - sum over hours of slope (M(b) - M(a)) / P(length),
 * a and b the session's time at the hour's edges, P(t) = t^p, M(t) = t^(p+1)/(p+1).
 * All times lie on a grid of 5 minutes, so P and M are looked up.
 *
 * Cost: up to 47 lengths times 103 starts times up to 24 hours would be too much for
 * decades of days. Lengths are tried from the longest down, and a length is thrown
 * out without trying its windows when the bound session_lower_bound() of all its
 * windows is above what the ration bears. The bound is exact, never a guess: a mean
 * of any window differs from that of the nearest whole-hour start by at most half an
 * hour times the steepest slope of the day. */
#ifndef SUGARLEA_SESSION_H
#define SUGARLEA_SESSION_H

#include "data/advice_limits.h"

#include <stdbool.h>

enum { SLOT_MINUTES = 5, SLOTS_HOUR = 12, SLOTS_DAY = 288 };

/* Made once from the limits; const afterwards, shared by all animals and days. */
struct advice_tables {
    double power[SLOTS_DAY + 1];  /* t^p, t in h */
    double moment[SLOTS_DAY + 1]; /* t^(p+1)/(p+1) */
    double intake[SLOTS_DAY + 1]; /* of a session of so many slots, of what 24 h bring */
    int step;                     /* slots between lengths tried */
    int window_step;              /* slots between starts tried */
    int first, last;              /* slots of the day between which keepers turn out and bring in */
};
void advice_tables_make(const struct advice_limits *l, struct advice_tables *t);

/* A day's grass as sessions see it. */
struct session_grass {
    double value[49]; /* NSC at hours 0..48, g/kg */
    double slope[48]; /* from each hour to the next */
    double mean, lowest, steepest;
};
/* nsc[24] at the end of each solar hour, times factor. */
void session_grass_make(const double nsc[24], double factor, struct session_grass *g);

/* Intake-weighted mean NSC of the sessions of that length that begin `offset` slots (0..11) past
 * each whole hour, side by side: mean[start] of those starts, the others are left. The inner
 * loops run over starts. */
void session_means(const struct advice_tables *t, const struct session_grass *g, int offset, int length,
                   double mean[SLOTS_DAY]);

/* No practical window of this length has a lower mean: each begins within half an hour of a whole hour. */
double session_lower_bound(const struct advice_tables *t, const struct session_grass *g, int length);

/* Both ends at hours at which a keeper can be there. */
bool session_is_practical(const struct advice_tables *t, int start, int length);

/* The best practical start, slots, of a session: of those within `tie` (g/kg) of
 * the lowest mean and not above `most`, the one nearest to dawn. Its mean goes to
 * *nsc. When none is within `most`, the lowest; -1 when no window is practical. */
int session_best(const struct advice_tables *t, const struct session_grass *g, int length, int dawn, double tie,
                 double most, double *nsc);

#endif
