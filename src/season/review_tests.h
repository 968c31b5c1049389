/* How far grass tests lay from what the model said, without any tuning by them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_REVIEW_TESTS_H
#define SUGARLEA_REVIEW_TESTS_H

#include <stddef.h>

struct review_tests {
    size_t n;        /* tests that count */
    double mae, me;  /* of ln(measured/modelled); NaN without tests */
    double coverage; /* share within the 80 % band of paddock and test together */
};

/* y: ln(measured/modelled); sd: ln-SD of each test's own error; spread: ln-SD of the level
 * of an untested paddock. Pure. */
struct review_tests review_tests_of(const double *y, const double *sd, size_t n, double spread);

#endif
