/* exp and log in vector form against the C library's, which are right to a unit in the last place.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/exp_log.h"

#include <float.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static void agrees_with_the_library(void **state)
{
    (void)state;
    for (int i = -699999; i <= 699999; i += 7) {
        double x = i * 1e-3, wanted = exp(x);
        assert_true(fabs(exp_inline(x) - wanted) <= 2 * DBL_EPSILON * wanted);
    }
    assert_true(exp_inline(0.0) == 1.0);
}

static void holds_what_lies_beyond(void **state)
{
    (void)state;
    assert_true(isnan(exp_inline((double)NAN)));
    assert_true(exp_inline(1e9) == exp_inline(700.0) && isfinite(exp_inline((double)INFINITY)));
    assert_true(exp_inline(-1e9) == exp_inline(-700.0) && exp_inline(-(double)INFINITY) > 0.0);
}

static void log_agrees_with_the_library(void **state)
{
    (void)state;
    for (int i = -300000; i <= 300000; i += 7) {
        double x = exp(i * 1e-3), wanted = log(x);
        assert_true(fabs(log_inline(x) - wanted) <= 2 * DBL_EPSILON * fmax(fabs(wanted), 0.5));
        double near_one = 1.0 + i * 1e-6;
        assert_true(fabs(log_inline(near_one) - log(near_one)) <= DBL_EPSILON);
    }
    assert_true(log_inline(1.0) == 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(agrees_with_the_library),
        cmocka_unit_test(holds_what_lies_beyond),
        cmocka_unit_test(log_agrees_with_the_library),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
