/* Day-of-year means for closing gaps. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/gap_normals.h"

#include <math.h>
#include <string.h>

#define REACH 7       /* days of the year to each side, our judgement: a fortnight steadies a mean of few years */
#define YEAR_MOST 366 /* days */
#define LEAST 20      /* values: more than one year has within reach; of one alone the gap's own days are the mean */

bool gap_read(const struct weather_days *w, enum weather_var v, size_t i)
{
    return !isnan(weather_at(w, v, i)) && !(w->filled[i] >> v & 1);
}

struct sums {
    double x, xx;
    size_t n;
};

static void take(struct sums *all, const struct sums *day, double sign)
{
    all->x += sign * day->x;
    all->xx += sign * day->xx;
    all->n += sign > 0 ? day->n : -day->n;
}

void gap_normals_make(const struct weather_days *w, enum weather_var v, struct gap_normals *normals)
{
    struct sums days[YEAR_MOST], window = {0, 0, 0};
    memset(days, 0, sizeof days);
    for (size_t i = 0; i < w->n; i++) {
        if (gap_read(w, v, i)) {
            struct sums *day = &days[date_day_of_year(w->day0 + (date_t)i) - 1];
            double x = w->col[v][i];
            take(day, &(struct sums){x, x * x, 1}, 1);
        }
    }
    for (int d = -REACH; d < REACH; d++) {
        take(&window, &days[(d + YEAR_MOST) % YEAR_MOST], 1);
    }
    for (int d = 0; d < YEAR_MOST; d++) {
        take(&window, &days[(d + REACH) % YEAR_MOST], 1);
        normals->n[d + 1] = window.n;
        normals->mean[d + 1] = window.n ? window.x / (double)window.n : (double)NAN;
        normals->square[d + 1] = window.n ? window.xx / (double)window.n : (double)NAN;
        take(&window, &days[(d - REACH + YEAR_MOST) % YEAR_MOST], -1);
    }
}

double gap_usual(const struct gap_normals *normals, date_t date)
{
    int d = date_day_of_year(date);
    return normals->n[d] >= LEAST ? normals->mean[d] : (double)NAN;
}
