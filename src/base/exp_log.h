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
    /* Taylor's series to r^13 / 13!, |r| <= ln 2 / 2, by pairs: no long chain of operations that wait for each other */
    double r2 = r * r, r4 = r2 * r2;
    double low = (0.5 + 1.0 / 6 * r) + r2 * (1.0 / 24 + 1.0 / 120 * r);
    double middle = (1.0 / 720 + 1.0 / 5040 * r) + r2 * (1.0 / 40320 + 1.0 / 362880 * r);
    double high = (1.0 / 3628800 + 1.0 / 39916800 * r) + r2 * (1.0 / 479001600 + 1.0 / 6227020800 * r);
    double p = 1.0 + (r + r2 * (low + r4 * (middle + r4 * high)));
    return p * scale;
}

/* Of normal positive numbers, within 2 units in the last place of the C library's, or
 * 2e-16 near 1; of all others the value means nothing. */
static inline double log_inline(double x)
{
    const double ln2_high = 0x1.62e42fee00000p-1, ln2_low = 0x1.a39ef35793c76p-33;
    const uint64_t fraction = 0x000fffffffffffff, half_root = 0x3fe6a09e667f3bcd,
                   to_one = 0x3ff0000000000000 - half_root, two52 = 0x4330000000000000;
    uint64_t bits, mantissa;
    double exponent, m;
    memcpy(&bits, &x, sizeof bits);
    bits += to_one; /* what lies above the root of 2 counts to the next exponent */
    mantissa = (bits & fraction) + half_root;
    bits = (bits >> 52) | two52; /* as a double: 2^52 and the exponent */
    memcpy(&m, &mantissa, sizeof m);
    memcpy(&exponent, &bits, sizeof exponent);
    exponent -= 0x1p52 + 1023.0;
    double s = (m - 1.0) / (m + 1.0);           /* m: from the root of a half to that of 2 */
    double z = s * s, z2 = z * z, z4 = z2 * z2; /* ln m = 2 (s + s^3 / 3 + ... + s^19 / 19), by pairs */
    double low = (2.0 / 3 + 2.0 / 5 * z) + z2 * (2.0 / 7 + 2.0 / 9 * z);
    double high = (2.0 / 11 + 2.0 / 13 * z) + z2 * (2.0 / 15 + 2.0 / 17 * z) + z4 * (2.0 / 19);
    return exponent * ln2_high + (exponent * ln2_low + s * z * (low + z4 * high) + 2.0 * s);
}

#endif
