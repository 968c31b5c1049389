/* A paddock's own level of sugar from a handful of grass tests.
 *
 * A test gives y = ln(measured/modelled). The paddock's level is exp(theta), theta one
 * number with prior N(0, sd^2): few tests move it little, many move it to their mean.
 * Each test errs by its own sd. theta is the one root of
 *
 *     theta/sd^2 = sum of psi((y - theta)/sd_i)/sd_i,   psi(z) = z within +-huber, +-huber beyond
 *
 * (Huber 1964, from memory; common practice is to reweight three to five times by
 * min(1, huber sd_i/|r|), and the root is where that ends). At the root no test moves theta by
 * more than it would alone: by its distance from theta without it, times
 * sd^2/(sd^2 + sd_i^2). With all tests within huber this is the closed form
 * theta = v sum(y/sd_i^2), v = 1/(1/sd^2 + sum(1/sd_i^2)).
 *
 * A result "below" a limit counts at the limit with twice its error, and only while the
 * level lies above it: a paddock reckoned to be under the limit agrees with it.
 *
 * The order of the tests does not matter, to the last bit. Pure.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_TUNE_H
#define SUGARLEA_TUNE_H

#include "base/arena.h"
#include "data/advice_limits.h"
#include "data/tune_limits.h"
#include "data/tuning.h"
#include "sward/sward.h"

struct tune_test {
    double y;   /* ln(measured/modelled) */
    double sd;  /* of its error, ln; doubled already when below */
    bool below; /* a "<" result: y is that of the limit */
};

struct tune_level { /* what tests say of the level, before the cap */
    double theta, sd;
};

/* The tests but for number `without` (n: all of them). huber INFINITY: plain least squares
 * with the prior; sd 0: the prior, whatever the tests; sd INFINITY: no prior. The tests'
 * scatter beyond their errors widens sd (Birge's ratio, common practice), never above the
 * prior's. Sums run in the order given. */
struct tune_level tune_level_of(const struct tune_test *test, size_t n, size_t without, double sd, double huber);

struct tune_fit {
    size_t tests;
    double found;         /* theta before the cap, and before it was switched off */
    double theta, sd;     /* as used; theta 0 when switched off, sd then about 0 */
    double before, after; /* mean absolute error, ln, of the uncorrected and the corrected model on tests left out one
                             by one, each weighed by 1/sd; NaN under two tests */
    bool capped, off;     /* off: the correction is no better on tests that it has not seen */
};

/* n tests in any order. False: no memory. */
bool tune_fit(const struct tune_test *test, size_t n, const struct tune_limits *l, struct arena *a,
              struct tune_fit *fit);

/* Is the test likelier to be a slip than a paddock of that kind: farther from the model than chance takes it,
 * or one of those by which the fit went beyond the cap? */
bool tune_doubtful(const struct tune_test *test, const struct tune_fit *fit, const struct tune_limits *l);

/* Does the level lie beyond that of 9 paddocks in 10? */
bool tune_unusual(const struct tuning *t, const struct tune_limits *l);

/* ln-SD of a test's error: laboratory, sample, the model's own on that day (rest_sd:
 * run_spread of tune_limits.rest), the hour when it is not known, what the paddock may have
 * changed since, in years. */
double tune_test_sd(const struct tune_limits *l, double rest_sd, bool hour_known, double years, bool below);

enum tune_what { TUNE_NSC, TUNE_WSC };

/* What the model holds against a test, g/kg: at a solar hour, or the day's mean when it is
 * NaN. WSC keeps its share of NSC through the day. */
double tune_modelled(const struct sward_result *day, enum tune_what what, double solar_h);

/* ln-SD of the level of a paddock (weather and season apart): spread_paddock untested, less
 * with tests, never below tune_limits.rest. */
double tune_spread(const struct advice_limits *a, const struct tune_limits *l, const struct tuning *t);

/* Share of the way, in ln, that a reading of the sward's height moves the modelled cover. */
double tune_cover_gain(const struct tune_limits *l);

#endif
