/* Sums by month and member, and their quantiles. SPDX-License-Identifier: GPL-3.0-or-later */
#include "season/outlook.h"

#include "base/num.h"
#include "season/spells.h"

#include <assert.h>
#include <gsl/gsl_sort.h>
#include <gsl/gsl_statistics_double.h>
#include <math.h>

#define NEVER 1e9 /* day of what does not happen within the outlook */

struct scratch { /* room for one value a member, one a day */
    double *value, *day;
};

size_t outlook_days(date_t first, int months)
{
    assert(months > 0);
    struct date_parts p = date_split(first);
    int last = p.month - 2 + months + (p.day > 1), year = p.year + last / 12, month = last % 12 + 1;
    date_t begins = date_make(year, month, 1);
    return begins == DATE_NONE ? 0 : (size_t)(begins - first) + (size_t)date_days_in_month(year, month);
}

double outlook_quantile(const double *sorted, size_t n, size_t years, double p)
{
    assert(n > 0 && years > 0);
    assert(p >= 0.0 && p <= 1.0);
    double moved = ((double)(years + 1) * p - 0.5) / (double)years;
    double place = (double)n * moved + 0.5; /* Hazen's, from 1 */
    double f = n > 1 ? (place - 1.0) / (double)(n - 1) : 0.0;
    return gsl_stats_quantile_from_sorted_data(sorted, 1, n, num_clip(f, 0.0, 1.0));
}

static struct outlook_band band_of(double *value, size_t n, size_t years)
{
    if (n == 0) {
        return (struct outlook_band){NAN, NAN, NAN};
    }
    gsl_sort(value, 1, n);
    return (struct outlook_band){outlook_quantile(value, n, years, 0.1), outlook_quantile(value, n, years, 0.5),
                                 outlook_quantile(value, n, years, 0.9)};
}

static double date_or_none(double day, const struct ensemble *e)
{
    return day > (double)e->days ? (double)NAN : (double)e->first + round(day);
}

static struct outlook_band dates_of(double *day, size_t n, const struct ensemble *e)
{
    struct outlook_band b = band_of(day, n, e->years);
    return (struct outlook_band){date_or_none(b.p10, e), date_or_none(b.p50, e), date_or_none(b.p90, e)};
}

static void split_months(const struct ensemble *e, struct outlook *o)
{
    for (size_t k = 0; k < e->days && o->months < OUTLOOK_MONTHS; o->months++) {
        struct date_parts p = date_split(e->first + (date_t)k);
        size_t days = (size_t)date_days_in_month(p.year, p.month) - (size_t)p.day + 1;
        days = k + days < e->days ? days : e->days - k;
        o->month[o->months] = (struct outlook_month){p.year, p.month, k, days};
        k += days;
    }
}

enum what { RESTRICTED, BRIEF, SUM };

static double count(const float *x, size_t days, enum what what, double brief_h)
{
    double sum = 0.0;
    for (size_t k = 0; k < days; k++) {
        sum += what == SUM ? (double)x[k] : what == BRIEF ? (double)x[k] <= brief_h : (double)x[k] < SPELL_SUGAR_HOURS;
    }
    return sum;
}

/* One month's band of thing i over members first..last; `scale` of each member's sum. */
static struct outlook_band month_of(const struct ensemble *e, const float *x, size_t i, size_t first, size_t last,
                                    const struct outlook_month *m, enum what what, double scale, double *value)
{
    assert(m->from + m->days <= e->days);
    size_t n = 0;
    for (size_t k = first; k < last; k++) {
        value[n++] = scale * count(&x[ensemble_at(e, i, k, m->from)], m->days, what, e->brief_h);
    }
    return band_of(value, n, e->years);
}

static void find_season(const struct ensemble *e, size_t i, const struct scratch *s, struct outlook_animal *a)
{
    double *onset = s->value, *end = s->value + e->years;
    size_t ended = 0, none = 0, now = 0, on = 0;
    for (size_t year = 0; year < e->years; year++) {
        for (size_t k = 0; k < e->days; k++) {
            s->day[k] = (double)e->hours[ensemble_at(e, i, year, k)];
        }
        struct spell_season found = spells_sugar(s->day, (int)e->days, SPELL_SUGAR_HOURS, SPELL_SUGAR_DAYS);
        bool has = found.start != SPELL_NONE;
        none += !has;
        now += found.start == 1;
        onset[year] = has ? found.start - 1 : NEVER;
        on += has && found.end > (int)e->days;
        if (has) {
            end[ended++] = found.end > (int)e->days ? NEVER : found.end - 1;
        }
    }
    assert(ended + none == e->years);
    a->onset = dates_of(onset, e->years, e);
    a->onset_p80 = date_or_none(outlook_quantile(onset, e->years, e->years, 0.8), e);
    a->end = dates_of(end, ended, e);
    a->share_none = (double)none / (double)e->years;
    a->share_now = (double)now / (double)e->years;
    a->share_on = (double)on / (double)e->years;
}

bool outlook_make(const struct ensemble *e, struct arena *a, struct outlook *o)
{
    assert(e->members == e->years * (1 + e->draws));
    const struct scratch s = {arena_alloc(a, e->members + 2 * e->years, sizeof(double)),
                              arena_alloc(a, e->days, sizeof(double))};
    *o = (struct outlook){.animal = arena_alloc(a, e->animals, sizeof *o->animal),
                          .paddock = arena_alloc(a, e->paddocks, sizeof *o->paddock)};
    if (!s.value || !s.day || !o->animal || !o->paddock) {
        return false;
    }
    split_months(e, o);
    size_t own = e->years, all = e->members, drawn = e->draws ? own : 0;
    for (size_t i = 0; i < e->animals; i++) {
        struct outlook_animal *to = &o->animal[i];
        find_season(e, i, &s, to);
        for (size_t m = 0; m < o->months; m++) {
            const struct outlook_month *month = &o->month[m];
            to->restricted[m] = month_of(e, e->hours, i, 0, own, month, RESTRICTED, 1.0, s.value);
            to->brief[m] = month_of(e, e->hours, i, 0, own, month, BRIEF, 1.0, s.value);
            to->tested[m] = month_of(e, e->hours, i, own, all, month, RESTRICTED, 1.0, s.value);
        }
    }
    for (size_t i = 0; i < e->paddocks; i++) {
        struct outlook_paddock *to = &o->paddock[i];
        for (size_t m = 0; m < o->months; m++) {
            const struct outlook_month *month = &o->month[m];
            to->growth[m] = month_of(e, e->growth, i, drawn, all, month, SUM, 1.0, s.value);
            to->sugar[m] = month_of(e, e->sugar, i, drawn, all, month, SUM, 1.0 / (double)month->days, s.value);
        }
    }
    return true;
}
