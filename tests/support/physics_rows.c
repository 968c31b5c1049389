/* Comparing with published worked examples. SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/physics_rows.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

void physics_near(const char *what, double got, double expected, double tolerance)
{
    if (!(fabs(got - expected) <= tolerance * (1 + 1e-9))) {
        fail_msg("%s: got %.9g, expected %.9g within %g", what, got, expected, tolerance);
    }
}

/* Half a unit of the sixth significant digit, and a little for its own rounding. */
static double sixth_digit(double x)
{
    return x == 0 ? 1e-12 : 0.51 * pow(10, floor(log10(fabs(x))) - 5);
}

void physics_check_rows(const char *source, const struct physics_row *rows, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        const struct physics_row *r = &rows[i];
        if (!(fabs(r->got - r->printed) <= r->tolerance * (1 + 1e-9))) {
            fail_msg("%s, %s: got %.9g, printed %g within %g", source, r->quantity, r->got, r->printed, r->tolerance);
        }
        if (!(fabs(r->got - r->unrounded) <= sixth_digit(r->unrounded))) {
            fail_msg("%s, %s: got %.9g, unrounded %g", source, r->quantity, r->got, r->unrounded);
        }
    }
}
