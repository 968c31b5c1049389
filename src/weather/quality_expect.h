/* What the days around, and the other values of a day, lead one to expect of its
 * temperatures. Everything is in spreads from the middle of the season, so that one
 * regression serves a season; its covariances serve every choice of what is known.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_QUALITY_EXPECT_H
#define SUGARLEA_WEATHER_QUALITY_EXPECT_H

#include "weather/quality_inner.h"

enum expect_term {
    E_MIN_BEFORE,
    E_MAX_BEFORE,
    E_MIN,
    E_MAX,
    E_MIN_AFTER,
    E_MAX_AFTER,
    E_SUN_BEFORE,
    E_SUN,
    E_SUN_AFTER,
    E_HUMID_BEFORE,
    E_HUMID,
    E_HUMID_AFTER,
    E_WIND,
    E_RAIN,
    E_ONE,
    E_TERMS
};

/* A temperature from all but the other temperature of the day, or with it; and, for
 * values that may stand on the wrong day, Tmax and rain from what surrounds them but is
 * read by other instruments. */
enum expect_model {
    MIN_ALONE,
    MAX_ALONE,
    MIN_GIVEN,
    MAX_GIVEN,
    EXPECT_JUDGED, /* those above are judged */
    MAX_AROUND = EXPECT_JUDGED,
    RAIN_AROUND,
    EXPECT_MODELS
};
enum expect_side { BOTH_SIDES, BEFORE_ONLY, AFTER_ONLY, EXPECT_SIDES };
enum { EXPECT_SEASONS = 4 };

struct expect_fit {
    double weight[E_TERMS];
    double sd; /* of the residual, by the covariances */
};

struct expect {
    double *series[E_TERMS]; /* of the day's own terms (E_MIN, E_MAX, E_SUN, E_HUMID, E_WIND, E_RAIN); NULL: none */
    struct expect_fit fit[EXPECT_SEASONS][EXPECT_SIDES][EXPECT_MODELS];
    struct season residual[EXPECT_JUDGED]; /* of BOTH_SIDES */
};

/* Fits it to the whole record. Both temperatures must have quality_enough. False: no memory. */
bool expect_fit(struct quality_work *k, struct expect *x);

/* What is known of a day beside its temperatures. */
struct expect_day {
    double term[E_TERMS];
    enum expect_side side;
    bool known; /* one of the days beside has both temperatures */
    size_t i;
};
void expect_day(const struct quality_work *k, const struct expect *x, size_t i, struct expect_day *d);

/* How far the day's temperatures (C, NaN missing) lie from what is expected, in robust
 * spreads of that; NaN where a temperature that is needed is missing. */
void expect_judge(const struct quality_work *k, const struct expect *x, const struct expect_day *d, double low,
                  double high, double off[EXPECT_JUDGED]);

/* The value of the model's temperature that would be in the middle, C. */
double expect_value(const struct quality_work *k, const struct expect *x, const struct expect_day *d,
                    enum expect_model m, double low, double high);

/* What the model leads one to expect, as the series has it: spreads, root of rain. */
double expect_predict(const struct quality_work *k, const struct expect *x, const struct expect_day *d,
                      enum expect_model m);

/* Standard deviation of what is left of it at that time of the year. */
double expect_sd(const struct quality_work *k, const struct expect *x, size_t i, enum expect_model m);

/* A term of a series, cut to what the fit takes it for; NaN counts as the middle. */
double expect_cut(double x);

#endif
