/* Weekly means and shares. SPDX-License-Identifier: GPL-3.0-or-later */
#include "season/fan.h"

#include "season/spells.h"

#include <assert.h>
#include <gsl/gsl_sort.h>

const double fan_probability[FAN_LINES] = {0.1, 0.25, 0.5, 0.75, 0.9};

size_t fan_weeks(const struct ensemble *e)
{
    return (e->days + FAN_DAYS - 1) / FAN_DAYS;
}

static void set_days(const struct ensemble *e, size_t k, struct fan_week *week)
{
    assert(k < fan_weeks(e));
    week->from = k * FAN_DAYS;
    week->days = e->days - week->from < FAN_DAYS ? e->days - week->from : FAN_DAYS;
}

static double mean_of(const float *x, size_t days)
{
    assert(days > 0);
    double sum = 0.0;
    for (size_t k = 0; k < days; k++) {
        sum += (double)x[k];
    }
    return sum / (double)days;
}

bool fan_make(const struct ensemble *e, const float *x, size_t i, struct arena *a, struct fan_week *week)
{
    assert(i < e->paddocks);
    size_t first = e->draws ? e->years : 0, n = e->members - first;
    double *value = arena_alloc(a, n, sizeof *value);
    for (size_t k = 0; value && k < fan_weeks(e); k++) {
        set_days(e, k, &week[k]);
        for (size_t m = 0; m < n; m++) {
            value[m] = mean_of(&x[ensemble_at(e, i, first + m, week[k].from)], week[k].days);
        }
        gsl_sort(value, 1, n);
        for (int l = 0; l < FAN_LINES; l++) {
            week[k].value[l] = outlook_quantile(value, n, e->years, fan_probability[l]);
        }
    }
    return value;
}

static double share(const struct ensemble *e, size_t i, const struct fan_week *week, bool brief)
{
    assert(i < e->animals);
    assert(week->from + week->days <= e->days);
    size_t n = 0;
    for (size_t year = 0; year < e->years; year++) {
        for (size_t k = week->from; k < week->from + week->days; k++) {
            double hours = (double)e->hours[ensemble_at(e, i, year, k)];
            n += brief ? hours <= e->brief_h : hours < SPELL_SUGAR_HOURS;
        }
    }
    return (double)n / (double)(e->years * week->days);
}

double fan_share_restricted(const struct ensemble *e, size_t i, const struct fan_week *week)
{
    return share(e, i, week, false);
}

double fan_share_brief(const struct ensemble *e, size_t i, const struct fan_week *week)
{
    return share(e, i, week, true);
}
