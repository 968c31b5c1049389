/* exp in plain C that the compiler can turn into vector code: no call, no branch, no
 * table. Within 2 units in the last place of the C library's for -700..700, beyond which
 * the argument is held; NaN in gives NaN out. The same bits at any vector width, so long
 * as multiplications and additions are not fused.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_EXP_INLINE_H
#define SUGARLEA_EXP_INLINE_H

#include <stdint.h>
#include <string.h>

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

#endif
