/* A measured daily record of tests/science/data, and scores against it.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_TESTS_PHYSICS_RECORD_H
#define SUGARLEA_TESTS_PHYSICS_RECORD_H

#include "data/weather_days.h"

#include <stdbool.h>
#include <stddef.h>

#define PHYSICS_RECORD_DAYS 8800
#define PHYSICS_RECORD_COLUMNS 8

struct physics_record {
    struct weather_days weather;                                /* tmin, tmax, rain, rad, rh; wind brought to 2 m */
    double column[PHYSICS_RECORD_COLUMNS][PHYSICS_RECORD_DAYS]; /* in file order, after the date */
    char name[PHYSICS_RECORD_COLUMNS][16];
};

/* Reads "# comments", a header and one row a day without gaps; an empty cell is NaN.
 * Fails the running test when the file is otherwise. The record is the caller's, and
 * weather points into it. */
void physics_record_read(const char *path, struct physics_record *r);

/* A column by its name in the header; fails the running test when it is not there. */
const double *physics_record_column(const struct physics_record *r, const char *name);

/* Errors of a continuous quantity. */
struct physics_error {
    size_t n;
    double sum, squares;
};
void physics_error_add(struct physics_error *e, double got, double measured); /* NaN on either side: left out */
double physics_bias(const struct physics_error *e);
double physics_rmse(const struct physics_error *e);

/* The 2 x 2 table of a yes/no forecast. */
struct physics_events {
    size_t hits, false_alarms, misses, rejections;
};
void physics_events_add(struct physics_events *t, bool said, bool seen);
double physics_hit_rate(const struct physics_events *t);
double physics_false_alarm_ratio(const struct physics_events *t);
double physics_threat_score(const struct physics_events *t); /* CSI */

#endif
