/* Day-of-year normals from a record. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_NORMALS_H
#define SUGARLEA_NORMALS_H

#include "data/weather_days.h"

#define NORMALS_HALF_WINDOW 7 /* days either side: our choice */

/* Mean of a variable over the days within the half window of date's day of year, of
 * the days before index `end` of the table; NaN with fewer than 15 such days. */
double normals_at(const struct weather_days *w, enum weather_var v, date_t date, size_t end);

#endif
