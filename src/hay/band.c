/* Quantiles of sums and of days. SPDX-License-Identifier: GPL-3.0-or-later */
#include "hay/band.h"

#include <assert.h>
#include <gsl/gsl_sort.h>
#include <math.h>

struct outlook_band hay_band(double *value, size_t n, size_t years)
{
    assert(n > 0 && years > 0);
    gsl_sort(value, 1, n);
    return (struct outlook_band){outlook_quantile(value, n, years, 0.1), outlook_quantile(value, n, years, 0.5),
                                 outlook_quantile(value, n, years, 0.9)};
}

static double date_or_none(double day, const struct ensemble *e)
{
    return day >= (double)e->days ? (double)NAN : (double)e->first + floor(day);
}

struct outlook_band hay_band_dates(double *day, size_t n, size_t years, const struct ensemble *e)
{
    assert(e->days > 0);
    struct outlook_band b = hay_band(day, n, years);
    return (struct outlook_band){date_or_none(b.p10, e), date_or_none(b.p50, e), date_or_none(b.p90, e)};
}
