/* Decimal text to double without the locale. Up to 19 digits and a power of ten
 * within 1e22 the quotient of two exact doubles is correctly rounded (Clinger
 * 1990); the rare rest goes to strtod, whose locale the program keeps at "C".
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/num.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#define EXACT_DIGITS 15
#define EXACT_POWER 22
#define SLOW_MOST 400 /* longest number text that strtod is asked to read */

static const double power_of_ten[EXACT_POWER + 1] = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                                     1e8,  1e9,  1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
                                                     1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};

struct decimal {
    uint64_t mantissa;
    int digits;   /* significant digits read into mantissa */
    int exponent; /* of ten */
    bool negative, exact;
};

static void add_digit(struct decimal *d, char c, bool after_point)
{
    if (d->digits < EXACT_DIGITS + 3) {
        d->mantissa = d->mantissa * 10 + (uint64_t)(c - '0');
        d->digits += d->mantissa != 0;
        d->exponent -= after_point;
    } else {
        d->exact = false;
        d->exponent += !after_point;
    }
}

/* The exponent part from text[i] on; the index after it, or 0 when it is broken. */
static size_t read_exponent(const char *text, size_t i, size_t n, struct decimal *d)
{
    assert(i <= n);
    int sign = 1, value = 0;
    size_t start;
    if (i < n && (text[i] == '+' || text[i] == '-')) {
        sign = text[i++] == '-' ? -1 : 1;
    }
    for (start = i; i < n && text[i] >= '0' && text[i] <= '9'; i++) {
        value = value < 10000 ? value * 10 + (text[i] - '0') : value;
    }
    d->exponent += sign * value;
    return i > start ? i : 0;
}

/* The run of digits from text[i] on; the index after it. */
static size_t read_digits(const char *text, size_t i, size_t n, bool after_point, struct decimal *d)
{
    for (; i < n && text[i] >= '0' && text[i] <= '9'; i++) {
        add_digit(d, text[i], after_point);
    }
    return i;
}

/* False when text is not a decimal number from end to end. */
static bool read_decimal(const char *text, size_t n, char point, struct decimal *d)
{
    size_t i = 0;
    *d = (struct decimal){.exact = true};
    if (i < n && (text[i] == '+' || text[i] == '-')) {
        d->negative = text[i++] == '-';
    }
    size_t start = i;
    i = read_digits(text, i, n, false, d);
    bool seen = i > start;
    if (i < n && text[i] == point) {
        start = ++i;
        i = read_digits(text, i, n, true, d);
        seen = seen || i > start;
    }
    if (seen && i < n && (text[i] == 'e' || text[i] == 'E')) {
        i = read_exponent(text, i + 1, n, d);
    }
    return seen && i == n;
}

static bool parse_slowly(const char *text, size_t n, char point, double *value)
{
    assert(point == '.' || point == ',');
    char copy[SLOW_MOST + 1], *end;
    if (n > SLOW_MOST) {
        return false;
    }
    for (size_t i = 0; i < n; i++) {
        copy[i] = text[i] == point ? '.' : text[i];
    }
    copy[n] = 0;
    *value = strtod(copy, &end);
    return *end == 0 && isfinite(*value);
}

bool num_parse(const char *text, size_t n, char point, double *value)
{
    struct decimal d;
    if (!read_decimal(text, n, point, &d)) {
        return false;
    }
    if (!d.exact || d.digits > EXACT_DIGITS || d.exponent > EXACT_POWER || d.exponent < -EXACT_POWER) {
        return parse_slowly(text, n, point, value);
    }
    double x = (double)d.mantissa;
    x = d.exponent < 0 ? x / power_of_ten[-d.exponent] : x * power_of_ten[d.exponent];
    *value = d.negative ? -x : x;
    return true;
}

bool num_parse_long(const char *text, size_t n, long low, long high, long *value)
{
    assert(low <= high);
    size_t i = n && (text[0] == '-' || text[0] == '+');
    long sum = 0;
    if (i == n || n > 18) {
        return false;
    }
    for (; i < n; i++) {
        if (text[i] < '0' || text[i] > '9') {
            return false;
        }
        sum = sum * 10 + (text[i] - '0');
    }
    sum = text[0] == '-' ? -sum : sum;
    if (sum < low || sum > high) {
        return false;
    }
    *value = sum;
    return true;
}

double num_interpolate(const double *knot_x, const double *knot_y, size_t n, double x)
{
    assert(n > 0);
    if (x <= knot_x[0]) {
        return knot_y[0];
    }
    for (size_t i = 1; i < n; i++) {
        if (x < knot_x[i]) {
            double share = (x - knot_x[i - 1]) / (knot_x[i] - knot_x[i - 1]);
            return knot_y[i - 1] + share * (knot_y[i] - knot_y[i - 1]);
        }
    }
    return knot_y[n - 1];
}
