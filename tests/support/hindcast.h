/* Outlooks into the past, held against what the model made of the weather that came.
 *
 * "Truth" here is the model itself, run through the recorded weather with its central
 * parameters: it tells whether past years stand for a coming one, never whether the
 * model is right about a paddock. So the model's own paddock is judged (no draws): a
 * paddock's own level and vigour are not in that truth. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_TESTS_HINDCAST_H
#define SUGARLEA_TESTS_HINDCAST_H

#include "cmd/context.h"

enum { HINDCAST_DAYS = 92, HINDCAST_SPAN = 90, HINDCAST_LEADS = 3 };
extern const int hindcast_lead[HINDCAST_LEADS]; /* days */

struct hindcast_place {
    const char *name, *file, *latitude, *elevation, *animal;
    int late; /* years: the last so many only, and by the years before, as an outlook is used; 0 whole record */
};

struct hindcast_held {  /* how often a range of 80 % held what came */
    double closed;      /* share of hindcasts within p10..p90, ends included */
    double even;        /* the same with ties split evenly: 0.8 when all is well */
    double type7;       /* closed, by GSL's own quantiles of the members */
    double width, bias; /* means: p90 - p10; what came less p50 */
};

struct hindcast_score {
    size_t n;
    size_t years;                                         /* members of an outlook */
    struct hindcast_held restricted, brief, growth;       /* of the next HINDCAST_SPAN days; days, days, kg DM/ha */
    double brier[HINDCAST_LEADS], normal[HINDCAST_LEADS]; /* "this day is not free": outlook, day-of-year share */
};

/* One outlook from each first of a month with a year of weather before it and the span
 * after it, its own year left out. Ends the program when the record cannot be read. */
struct hindcast_score hindcast_run(const struct hindcast_place *place);

/* 1 - BS/BS of the normals. */
double hindcast_skill(const struct hindcast_score *s, int lead);

void hindcast_print(const struct hindcast_place *place, const struct hindcast_score *s);

#endif
