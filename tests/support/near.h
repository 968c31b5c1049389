/* Two numbers within a tolerance, as doubles. cmocka's assert_float_equal compares in
 * single precision and lets a NaN pass. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_TEST_NEAR_H
#define SUGARLEA_TEST_NEAR_H

#include <math.h>

#define assert_near(found, expected, tolerance)                                                                        \
    do {                                                                                                               \
        double found_ = (double)(found), expected_ = (double)(expected);                                               \
        if (!(fabs(found_ - expected_) <= (tolerance))) {                                                              \
            fail_msg("%.9g, expected %.9g within %g", found_, expected_, (double)(tolerance));                         \
        }                                                                                                              \
    } while (0)

#endif
