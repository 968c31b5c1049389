/* exp and log in plain C that the compiler can turn into vector code: no call, no branch,
 * no table. The same bits at any vector width, so long as multiplications and additions
 * are not fused.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_EXP_LOG_H
#define SUGARLEA_EXP_LOG_H

#include <stdint.h>
#include <string.h>

/* Within 2 units in the last place of the C library's for -700..700, beyond which the
 * argument is held; NaN in gives NaN out. */
static inline double exp_inline(double x)
{
    const double per_ln2 = 0x1.71547652b82fep+0;                                   /* 1 / ln 2 */
    const double ln2_high = 0x1.62e42fee00000p-1, ln2_low = 0x1.a39ef35793c76p-33; /* ln 2 in two parts */
    const double shift = 0x1.8p52; /* added, it rounds to a whole number that stands in the low bits */
    x = x < -700.0 ? -700.0 : x;
    x = x > 700.0 ? 700.0 : x;
    double octaves = x * per_ln2 + shift, scale;
    uint64_t bits;
    memcpy(&bits, &octaves, sizeof bits);
    bits = (bits + 1023) << 52;
    memcpy(&scale, &bits, sizeof scale);
    octaves -= shift;
    double r = (x - octaves * ln2_high) - octaves * ln2_low;
    double p = 1.0 / 6227020800; /* Taylor's series to r^13 / 13!; |r| <= ln 2 / 2 */
    p = p * r + 1.0 / 479001600;
    p = p * r + 1.0 / 39916800;
    p = p * r + 1.0 / 3628800;
    p = p * r + 1.0 / 362880;
    p = p * r + 1.0 / 40320;
    p = p * r + 1.0 / 5040;
    p = p * r + 1.0 / 720;
    p = p * r + 1.0 / 120;
    p = p * r + 1.0 / 24;
    p = p * r + 1.0 / 6;
    p = p * r + 0.5;
    p = p * r + 1.0;
    p = p * r + 1.0;
    return p * scale;
}

/* Of normal positive numbers, within 2 units in the last place of the C library's, or
 * 2e-16 near 1; of all others the value means nothing. */
static inline double log_inline(double x)
{
    const double ln2_high = 0x1.62e42fee00000p-1, ln2_low = 0x1.a39ef35793c76p-33;
    const uint64_t fraction = 0x000fffffffffffff, one = 0x3ff0000000000000, two52 = 0x4330000000000000;
    uint64_t bits, mantissa_bits;
    double exponent, m;
    memcpy(&bits, &x, sizeof bits);
    mantissa_bits = (bits & fraction) | one;
    bits = (bits >> 52) | two52; /* as a double: 2^52 and the exponent */
    memcpy(&m, &mantissa_bits, sizeof m);
    memcpy(&exponent, &bits, sizeof exponent);
    exponent -= 0x1p52 + 1023.0;
    double large = m > 0x1.6a09e667f3bcdp+0 ? 1.0 : 0.0; /* above the root of 2 */
    m = large > 0.0 ? 0.5 * m : m;
    exponent += large;
    double s = (m - 1.0) / (m + 1.0), z = s * s; /* ln m = 2 (s + s^3 / 3 + ... + s^19 / 19) */
    double p = 2.0 / 19;
    p = p * z + 2.0 / 17;
    p = p * z + 2.0 / 15;
    p = p * z + 2.0 / 13;
    p = p * z + 2.0 / 11;
    p = p * z + 2.0 / 9;
    p = p * z + 2.0 / 7;
    p = p * z + 2.0 / 5;
    p = p * z + 2.0 / 3;
    return exponent * ln2_high + (exponent * ln2_low + s * z * p + 2.0 * s);
}

#endif
