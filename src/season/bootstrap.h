/* How sure a score is: resampling of whole blocks of days.
 *
 * Days follow each other, so that single days are no independent cases: circular moving
 * blocks are drawn (Politis & Romano 1992, from memory), as long as Wilks 1997 advises.
 * A score is given as a function of sums over days; what a day adds to each sum is one row
 * of terms. Two forecasts are compared by terms of both in one row and a score that is
 * their difference: then both are resampled on the same days. Several paddocks share
 * their weather: add up their terms day by day.
 *
 * Pure: the same seed gives the same interval. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_BOOTSTRAP_H
#define SUGARLEA_BOOTSTRAP_H

#include "base/arena.h"

#include <stdbool.h>
#include <stddef.h>

#define BOOTSTRAP_SEED 20240229ul /* any will do, as long as it stays */

enum {
    BOOTSTRAP_REPLICATES = 1000,
    BOOTSTRAP_BLOCKS_LEAST = 20, /* with fewer there is no interval: common practice */
    BOOTSTRAP_TERMS_MOST = 32
};

/* Days of a block: L = (n - L + 1)^((2/3)(1 - n'/n)), n' = n (1 - r1) / (1 + r1), for a
 * series of n days with lag-1 autocorrelation r1 (Wilks 1997, from memory). At least 1. */
double bootstrap_block(double n, double r1);

struct bootstrap_ask {
    const double *term; /* days rows of `terms` values */
    size_t days, terms;
    const size_t *use; /* the columns of term that the score is made of: at most BOOTSTRAP_TERMS_MOST */
    size_t uses;
    double (*score)(const double *sum); /* of the sums of those columns, in that order; NaN: not defined */
    double level;                       /* 0.90: the interval leaves out 5 % at either end */
    unsigned long seed;
};

struct bootstrap_interval {
    double value;     /* the score of all days; NaN: not defined */
    double low, high; /* NaN: under BOOTSTRAP_BLOCKS_LEAST blocks, or a score that is often not defined */
    size_t block;     /* days */
};

/* The autocorrelation that sets the block is that of what each day does to the score (its
 * influence, by the slopes of the score at the sums): our choice. Room is taken beside what the
 * arena holds, and given back. False: no memory. */
bool bootstrap_find(const struct bootstrap_ask *ask, struct bootstrap_interval *out);

#endif
