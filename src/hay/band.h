/* Quantiles of the members of a hay plan. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_HAY_BAND_H
#define SUGARLEA_HAY_BAND_H

#include "season/outlook.h"

#define HAY_LASTS 1e9 /* day of what does not happen before the end */

/* p10, p50, p90 of n values, which are sorted by it; years as outlook_quantile has them. */
struct outlook_band hay_band(double *value, size_t n, size_t years);

/* The same of days from e->first on: days since 1970, NaN where it does not happen. */
struct outlook_band hay_band_dates(double *day, size_t n, size_t years, const struct ensemble *e);

#endif
