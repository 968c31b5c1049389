/* How much of a record is estimate. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/weather.h"

#include <math.h>

#define REACH 365  /* days: what lies further back the grass has forgotten */
#define FILLED 0.7 /* error of a filled day over that of a day of means: our judgement from test_gaps_scored */

/* The doubt that all days up to an age put into the sugar together is age / (age +
 * half): that of one day is what it adds. */
static double weight(double age, double half)
{
    return half / ((age + half) * (age + half - 1));
}

double weather_estimated(const struct weather_days *w, size_t end, double half_days)
{
    double variance = 0, days = end < REACH ? (double)end : REACH;
    for (size_t age = 1; age <= REACH && age <= end; age++) {
        uint8_t origin = w->origin[end - age];
        if (origin == ORIGIN_NORMAL || origin == ORIGIN_FILLED) {
            variance += weight((double)age, half_days) * (origin == ORIGIN_NORMAL ? 1 : FILLED * FILLED);
        }
    }
    return end > 0 ? sqrt(variance / (days / (days + half_days))) : 0;
}
