/* Rows of a published worked example: what is printed, what the formula gives
 * unrounded (computed by us), what we got. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_TESTS_PHYSICS_ROWS_H
#define SUGARLEA_TESTS_PHYSICS_ROWS_H

#include <stddef.h>

struct physics_row {
    const char *quantity;
    double printed, unrounded, tolerance; /* tolerance: against printed */
    double got;
};

/* Fails the running cmocka test at the first row that is farther from printed than
 * its tolerance, or that differs from unrounded in its six significant digits. */
void physics_check_rows(const char *source, const struct physics_row *rows, size_t n);

#define PHYSICS_CHECK(source, rows) physics_check_rows(source, rows, sizeof(rows) / sizeof((rows)[0]))

/* Fails unless got lies within tolerance of expected; what names the value. */
void physics_near(const char *what, double got, double expected, double tolerance);

#endif
