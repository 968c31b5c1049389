/* Errors of the model on grass tests. SPDX-License-Identifier: GPL-3.0-or-later */
#include "season/review_tests.h"

#include "season/run.h"

#include <assert.h>
#include <math.h>

struct review_tests review_tests_of(const double *y, const double *sd, size_t n, double spread)
{
    assert(spread >= 0.0);
    struct review_tests t = {n, 0.0, 0.0, 0.0};
    for (size_t i = 0; i < n; i++) {
        double low, high;
        run_band(1.0, hypot(spread, sd[i]), &low, &high);
        t.mae += fabs(y[i]) / (double)n;
        t.me += y[i] / (double)n;
        t.coverage += (y[i] >= log(low) && y[i] <= log(high)) / (double)n;
    }
    if (n == 0) {
        t.mae = t.me = t.coverage = NAN;
    }
    return t;
}
