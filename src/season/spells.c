/* Runs and sums over one growth year. SPDX-License-Identifier: GPL-3.0-or-later */
#include "season/spells.h"

#include <assert.h>
#include <math.h>

#define SAME 1e-9 /* sums of tenths of a degree: 200.0 reaches 200 whatever the binary digits say */

enum {
    MISSING_MOST = 5,      /* days, in a temperature sum */
    FIRST_GROWTH_DAY = 30, /* of the criteria of Schaumberger 2011 */
    WINDOW_DAYS = 10,
    WINDOW_RUN = 5
};
#define WINDOW_MEAN 6.0
#define WINDOW_COLDEST 2.0
#define EQUATOR_DEGREES 10.0

struct growth_year growth_year_of(int year, bool south)
{
    int month = south ? 7 : 1;
    date_t first = date_make(year, month, 1);
    return (struct growth_year){.first = first, .days = (int)(date_make(year + 1, month, 1) - first)};
}

bool spells_seasonal(double latitude)
{
    return fabs(latitude) > EQUATOR_DEGREES;
}

int spells_first_run(const double *x, int n, int from, int length, bool above, double threshold)
{
    assert(from >= 1 && length >= 1);
    int run = 0;
    for (int day = from; day <= n; day++) {
        bool in = above ? x[day - 1] > threshold : x[day - 1] < threshold; /* a missing value is neither */
        run = in ? run + 1 : 0;
        if (run == length) {
            return day - length + 1;
        }
    }
    return SPELL_NONE;
}

/* The first day of the growth year's second half: 1 July or 1 January. */
static int second_half(const struct growth_year *y)
{
    struct date_parts first = date_split(y->first);
    date_t half = first.month == 1 ? date_make(first.year, 7, 1) : date_make(first.year + 1, 1, 1);
    return (int)(half - y->first) + 1;
}

struct spell_season spells_growing(const double *t, const struct growth_year *y, int run)
{
    int start = spells_first_run(t, y->days, 1, run, true, SPELL_GROWTH_C);
    if (start == SPELL_NONE) {
        return (struct spell_season){SPELL_NONE, SPELL_NONE, 0};
    }
    int half = second_half(y);
    int end = spells_first_run(t, y->days, start > half ? start : half, run, false, SPELL_GROWTH_C);
    end = end == SPELL_NONE ? y->days + 1 : end;
    return (struct spell_season){start, end, end - start};
}

int spells_tsum(const double *t, const struct growth_year *y, bool weighted)
{
    struct date_parts first = date_split(y->first);
    int one = date_days_in_month(first.year, first.month);
    int two = one + date_days_in_month(first.year, first.month + 1);
    double sum = 0.0;
    int missing = 0;
    for (int day = 1; day <= y->days; day++) {
        if (isnan(t[day - 1])) {
            missing++;
            continue;
        }
        double weight = !weighted || day > two ? 1.0 : day > one ? 0.75 : 0.5;
        sum += weight * fmax(0.0, t[day - 1]);
        if (sum >= SPELL_TSUM - SAME) {
            return missing > MISSING_MOST ? SPELL_NONE : day;
        }
    }
    return SPELL_NONE;
}

/* Is the window from that day warm enough? A missing value makes it unfit. */
static bool window_is_warm(const double *t, int day)
{
    assert(day >= 1);
    double sum = 0.0, coldest = INFINITY;
    for (int k = 0; k < WINDOW_DAYS; k++) {
        sum += t[day - 1 + k];
        coldest = fmin(coldest, t[day - 1 + k]);
    }
    return sum >= WINDOW_MEAN * WINDOW_DAYS - SAME && coldest >= WINDOW_COLDEST;
}

int spells_many_criteria(const double *t, const struct growth_year *y)
{
    for (int day = 1; day + WINDOW_DAYS - 1 <= y->days; day++) {
        int from = day > FIRST_GROWTH_DAY ? day : FIRST_GROWTH_DAY;
        int start = spells_first_run(t, day + WINDOW_DAYS - 1, from, WINDOW_RUN, true, SPELL_GROWTH_C);
        if (start != SPELL_NONE && window_is_warm(t, day)) {
            return start;
        }
    }
    return SPELL_NONE;
}

struct spell_season spells_sugar(const double *hours, int n, double enough_h, int run)
{
    assert(run >= 1);
    struct spell_season s = {SPELL_NONE, SPELL_NONE, 0};
    int from = 1, day;
    while ((day = spells_first_run(hours, n, from, run, false, enough_h)) != SPELL_NONE) {
        s.start = s.start == SPELL_NONE ? day : s.start;
        for (from = day; from <= n && hours[from - 1] < enough_h; from++) {
        }
        s.end = from;
    }
    s.length = s.start == SPELL_NONE ? 0 : s.end - s.start;
    return s;
}
