/* SPDX-License-Identifier: GPL-3.0-or-later
 * Means by season, walking back a year at a time. */
#include "data/normals.h"

#include <assert.h>
#include <math.h>

double normals_at(const struct weather_days *w, enum weather_var v, date_t date, size_t end)
{
    assert(v < WEATHER_VARS);
    assert(end <= w->n);
    double sum = 0.0;
    int n = 0;
    for (int years = 0; years <= (int)(w->n / 365) + 1; years++) {
        date_t centre = date - (date_t)lround(365.25 * years);
        for (date_t d = centre - NORMALS_HALF_WINDOW; d <= centre + NORMALS_HALF_WINDOW; d++) {
            if (d < w->day0 || (size_t)(d - w->day0) >= end) {
                continue;
            }
            double x = weather_at(w, v, (size_t)(d - w->day0));
            if (!isnan(x)) {
                sum += x;
                n++;
            }
        }
    }
    return n < 2 * NORMALS_HALF_WINDOW + 1 ? (double)NAN : sum / n;
}
