/* Days whose minimum is above their maximum. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/crossed.h"

#include <math.h>

struct crossed crossed_days(const struct weather_days *w)
{
    struct crossed days = {0};
    const double *low = w->col[WEATHER_TMIN], *high = w->col[WEATHER_TMAX];
    for (size_t i = 0; low && high && i < w->n; i++) {
        if (low[i] > high[i]) {
            days.first = days.n ? days.first : i;
            days.n++;
        }
        days.paired += !isnan(low[i]) && !isnan(high[i]);
    }
    return days;
}

bool crossed_mostly(const struct crossed *days)
{
    return days->n * 2 > days->paired;
}

void crossed_drop(struct weather_days *w)
{
    double *low = w->col[WEATHER_TMIN], *high = w->col[WEATHER_TMAX];
    for (size_t i = 0; low && high && i < w->n; i++) {
        if (low[i] > high[i]) {
            low[i] = high[i] = NAN;
        }
    }
}
