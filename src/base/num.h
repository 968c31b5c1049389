/* Numbers from text, the same in every locale.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_NUM_H
#define SUGARLEA_NUM_H

#include <stdbool.h>
#include <stddef.h>

#define NUM_PI 3.14159265358979323846
#define NUM_RADIANS (NUM_PI / 180.0) /* degrees times this are radians */

/* Parses the decimal number that fills text[0..n) whole (sign, digits, one
 * `point`, exponent), correctly rounded. False when anything else stands there;
 * inf, nan and hexadecimal are refused, and so is a value beyond double range. */
bool num_parse(const char *text, size_t n, char point, double *value);

/* A whole number, decimal, that fills text[0..n) and lies in low..high. */
bool num_parse_long(const char *text, size_t n, long low, long high, long *value);

static inline double num_clip(double x, double low, double high)
{
    return x < low ? low : x > high ? high : x;
}

/* As fmin and fmax of numbers, without a call; where one is NaN, the second. */
static inline double num_least(double a, double b)
{
    return a < b ? a : b;
}

static inline double num_most(double a, double b)
{
    return a > b ? a : b;
}

/* Piecewise linear y(x) through n knots with rising x; the end values beyond. */
double num_interpolate(const double *knot_x, const double *knot_y, size_t n, double x);

#endif
