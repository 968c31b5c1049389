/* Values that stand still: one variable over days, or a whole day written twice. How
 * often that happens by chance, the record itself says: a maximum in whole degrees
 * repeats itself often, one in tenths hardly ever.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/quality_inner.h"

#include <math.h>

#define TRUST 60.0 /* days for which the record's chance stands in that of one value: our judgement */

/* A value that many days share by nature says nothing when it repeats. */
static bool common(enum weather_var v, double x)
{
    return ((v == WEATHER_RAIN || v == WEATHER_WIND || v == WEATHER_RAD || v == WEATHER_ET0) && x <= 0) ||
           (v == WEATHER_RH && x >= 100);
}

static bool same(const double *x, size_t i)
{
    return x[i] == x[i - 1];
}

/* Chance that a day's value is that of the day before: runs begun, so that one long
 * run, which may be a fault, counts once. */
double quality_chance(const struct quality_work *k, enum weather_var v, bool of_common)
{
    const double *x = k->x[v];
    size_t pairs = 0, begun = 0;
    for (size_t i = 1; i < k->n; i++) {
        if (isnan(x[i]) || isnan(x[i - 1])) {
            continue;
        }
        pairs++;
        begun += same(x, i) && common(v, x[i]) == of_common && (of_common || i == 1 || !same(x, i - 1));
    }
    return pairs ? fmax((double)begun, 0.5) / (double)pairs : 1;
}

/* The same for one value, from the days outside the run: a light wind of 0.3 m/s may
 * stand for a week where the record has hardly another in summer. */
static double chance_of_value(const struct quality_work *k, enum weather_var v, size_t first, size_t after, double p)
{
    const double *x = k->x[v];
    double days = TRUST, pairs = p * TRUST;
    for (size_t i = 1; i < k->n; i++) {
        if ((i < first || i >= after) && x[i] == x[first]) {
            days++;
            pairs += same(x, i);
        }
    }
    return pairs / days;
}

static void frozen(struct quality_work *k, enum weather_var v)
{
    const double *x = k->x[v], p = quality_chance(k, v, false), days = (double)k->count[v];
    for (size_t i = 1, first = 0; i <= k->n; i++) {
        if (i < k->n && same(x, i) && !common(v, x[i])) {
            continue;
        }
        double length = (double)(i - first), most = k->limits->chance_runs / days;
        if (length >= k->limits->frozen_days && pow(p, length - 1) < most &&
            pow(chance_of_value(k, v, first, i, p), length - 1) < most) {
            quality_add(k, (struct doubt){k->w->day0 + (date_t)first, k->w->day0 + (date_t)i - 1, v, DOUBT_FROZEN,
                                          x[first], length});
        }
        first = i;
    }
}

struct chances {
    double of[WEATHER_VARS], of_common[WEATHER_VARS];
};

/* Is day i, in everything, the day before, and is that more than chance? */
static bool doubled(const struct quality_work *k, size_t i, const struct chances *c)
{
    double expected = (double)k->n;
    for (int v = 0; v < WEATHER_VARS; v++) {
        const double *x = k->x[v];
        if (!x || (isnan(x[i]) && isnan(x[i - 1]))) {
            continue;
        }
        if (!same(x, i)) {
            return false;
        }
        expected *= common((enum weather_var)v, x[i]) ? c->of_common[v] : c->of[v];
    }
    return expected < k->limits->chance_runs;
}

void quality_repeats(struct quality_work *k)
{
    struct chances c;
    for (int v = 0; v < WEATHER_VARS; v++) {
        if (k->x[v]) {
            c.of[v] = quality_chance(k, (enum weather_var)v, false);
            c.of_common[v] = quality_chance(k, (enum weather_var)v, true);
            if (v != WEATHER_RAIN || quality_enough(k, WEATHER_RAIN)) {
                frozen(k, (enum weather_var)v);
            }
        }
    }
    for (size_t i = 1; k->x[WEATHER_TMIN] && k->x[WEATHER_TMAX] && i < k->n; i++) {
        if (same(k->x[WEATHER_TMIN], i) && same(k->x[WEATHER_TMAX], i) && doubled(k, i, &c)) {
            quality_name(k, DOUBT_DOUBLED, WEATHER_TMIN, i, NAN);
        }
    }
}
