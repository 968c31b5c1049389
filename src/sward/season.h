/* The course of the sward's year: temperature sum and phases.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_SEASON_PHASE_H
#define SUGARLEA_SEASON_PHASE_H

#include "sward/sward.h"

struct season_phase {
    double sink;   /* fPh, factor of growth */
    double source; /* fQ, factor of pm20 */
};

/* The weighted grassland temperature sum after a day of mean t: growth of the
 * first month of the growth year counts half, of the second three quarters (weather-service
 * rule for the lasting start of growth). */
double season_sum(const struct sward_kind *k, double st, const struct sward_day *d, double t);

/* By temperature sum up to st_end, by the calendar after it. */
struct season_phase season_phase(const struct sward_kind *k, double st, int season_day);

/* Is it the time at which this type of sward heads, whether or not it is let? Its sugar is less sure then. */
bool season_heading(const struct sward_kind *k, double st);

/* Share of new structure that is stem: while heading and the flag is up. */
double season_stem_share(const struct sward_kind *k, double st, bool reproductive);

#endif
