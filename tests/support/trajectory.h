/* Comparison of the sward with a daily trajectory written by tests/bench/oracle.py.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_TESTS_TRAJECTORY_H
#define SUGARLEA_TESTS_TRAJECTORY_H

#include "support/table.h"

#define TRAJECTORY_RELATIVE 0.005 /* of states, leaf area, growth */
#define TRAJECTORY_NSC 1.0        /* g/kg */

struct trajectory_result {
    size_t days;
    double worst_relative; /* of the states and growth; tiny values are compared to 1e-3 of their unit */
    double worst_nsc;      /* g/kg */
    char where[96];        /* column and date of the worst relative difference */
};

/* how: "cut" (28 days apart, from day 85 to 309) or "grazed" (held at 1,800 kg DM/ha);
 * day length as in the reference outputs, start state, 120 mm, no snow rule. */
struct trajectory_result trajectory_compare(const struct table *t, const char *how, double latitude);

#endif
