/* Temperatures against their season, the days beside them, and each other; and the
 * slip that would explain a doubtful one. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/quality_expect.h"
#include "weather/quantity.h"

#include <math.h>

#define SIGN_LEAST 2.0 /* C: the sign of less matters little, and is hard to tell from weather: our judgement */
#define FEW_YEARS 0.5  /* years: spreads learnt from so few are as unsure again by half: our judgement */

/* A way in which a day's temperatures may have been written; `undo` gives the right ones. */
struct slip {
    enum doubt_kind kind;
    bool of_low, of_high;
    double scale, offset; /* right = written * scale + offset */
};

static const struct slip slips[] = {
    {DOUBT_TENTHS, true, true, 0.1, 0},
    {DOUBT_TENTHS, true, true, 10, 0},
    {DOUBT_FAHRENHEIT, true, true, 1 / 1.8, -32 / 1.8},
    {DOUBT_SIGN, true, true, -1, 0},
    {DOUBT_SIGN, true, false, -1, 0},
    {DOUBT_SIGN, false, true, -1, 0},
    {DOUBT_TENTHS, true, false, 0.1, 0},
    {DOUBT_TENTHS, false, true, 0.1, 0},
    {DOUBT_TENTHS, true, false, 10, 0},
    {DOUBT_TENTHS, false, true, 10, 0},
    {DOUBT_FAHRENHEIT, true, false, 1 / 1.8, -32 / 1.8},
    {DOUBT_FAHRENHEIT, false, true, 1 / 1.8, -32 / 1.8},
};

struct temperature {
    struct quality_work *k;
    const struct expect *x;
    double most; /* spreads: further off is a step */
    double *odd; /* of each day: the larger misfit of its temperatures, squared spreads */
};

/* Squared distance of the two temperatures from what is expected; of one, when the
 * other is missing. */
static double distance(const double off[EXPECT_JUDGED])
{
    double low = off[MIN_ALONE], high = off[MAX_ALONE];
    if (isnan(low) || isnan(high)) {
        return isnan(low) ? high * high : low * low;
    }
    return fmax(low * low + off[MAX_GIVEN] * off[MAX_GIVEN], high * high + off[MIN_GIVEN] * off[MIN_GIVEN]);
}

/* What a slip must gain to be believed. A unit is mixed up for both temperatures of a
 * day; of one alone that is hardly more likely than any other fault. */
static double gain_wanted(const struct temperature *t, const struct slip *s)
{
    const struct quality_limits *l = t->k->limits;
    return s->kind == DOUBT_SIGN ? l->sign_gain : s->of_low && s->of_high ? l->slip_gain : t->most * t->most;
}

/* The day's temperatures as they were before the slip; false when it cannot have been. */
static bool undo(const struct slip *s, double *low, double *high)
{
    double right_low = s->of_low ? *low * s->scale + s->offset : *low;
    double right_high = s->of_high ? *high * s->scale + s->offset : *high;
    bool lost = s->kind != DOUBT_SIGN || ((!s->of_low || *low >= SIGN_LEAST) && (!s->of_high || *high >= SIGN_LEAST));
    bool there = !(s->of_low && isnan(*low)) && !(s->of_high && isnan(*high));
    *low = right_low;
    *high = right_high;
    return lost && there && !(right_low > right_high);
}

/* The slip that makes the day fit best, or NULL when none does. */
static const struct slip *explain(const struct temperature *t, const struct expect_day *d, double written)
{
    const struct quality_limits *l = t->k->limits;
    const struct slip *best = NULL;
    double least = l->slip_fit;
    for (size_t s = 0; s < sizeof slips / sizeof slips[0]; s++) {
        double off[EXPECT_JUDGED], low = t->k->x[WEATHER_TMIN][d->i], high = t->k->x[WEATHER_TMAX][d->i];
        double gain = gain_wanted(t, &slips[s]);
        if (written < gain || !undo(&slips[s], &low, &high)) {
            continue;
        }
        expect_judge(t->k, t->x, d, low, high, off);
        if (distance(off) < least && distance(off) < written - gain) {
            least = distance(off);
            best = &slips[s];
        }
    }
    return best;
}

static void name_slip(struct quality_work *k, const struct slip *s, size_t i)
{
    enum weather_var v = s->of_low ? WEATHER_TMIN : WEATHER_TMAX;
    quality_name(k, s->kind, v, i, k->x[v][i] * s->scale + s->offset);
    k->named[i] |= (uint8_t)(s->of_high ? 1u << WEATHER_TMAX : 0);
}

static bool unusual(struct temperature *t, enum weather_var v, size_t i)
{
    struct quality_work *k = t->k;
    size_t day = k->day_of_year[i];
    double spreads = quality_spreads(&k->season[v], day, k->x[v][i]);
    const struct quantity_range *range = quantity_range(v);
    bool possible = !(k->x[v][i] < range->low || k->x[v][i] > range->high);
    if (fabs(spreads) > k->limits->range_spreads && possible) {
        quality_name(k, DOUBT_UNUSUAL, v, i, k->season[v].middle[day]);
        return true;
    }
    return !possible; /* named by quality_range */
}

static void step(struct temperature *t, const struct expect_day *d, double low, double high,
                 const double off[EXPECT_JUDGED])
{
    enum expect_model worst = MIN_ALONE;
    for (enum expect_model m = MIN_ALONE; m < EXPECT_JUDGED; m++) {
        worst = isnan(off[worst]) || fabs(off[m]) > fabs(off[worst]) ? m : worst;
    }
    if (fabs(off[worst]) > t->most) {
        enum weather_var v = worst == MIN_ALONE || worst == MIN_GIVEN ? WEATHER_TMIN : WEATHER_TMAX;
        quality_name(t->k, DOUBT_STEP, v, d->i, expect_value(t->k, t->x, d, worst, low, high));
    }
}

/* A fault shows in the days beside it, too: only the day that fits least is named. */
static bool worse_beside(const struct temperature *t, size_t i)
{
    return (i > 0 && t->odd[i - 1] > t->odd[i]) || (i + 1 < t->k->n && t->odd[i + 1] > t->odd[i]);
}

static bool judge_day(const struct temperature *t, size_t i, struct expect_day *d, double off[EXPECT_JUDGED])
{
    double low = t->k->x[WEATHER_TMIN][i], high = t->k->x[WEATHER_TMAX][i];
    if (isnan(low) && isnan(high)) {
        return false;
    }
    expect_day(t->k, t->x, i, d);
    expect_judge(t->k, t->x, d, low, high, off);
    return d->known && !isnan(distance(off));
}

static void check_day(struct temperature *t, size_t i)
{
    struct expect_day d;
    double off[EXPECT_JUDGED];
    double low = t->k->x[WEATHER_TMIN][i], high = t->k->x[WEATHER_TMAX][i];
    const struct slip *slip = NULL;
    bool judged = judge_day(t, i, &d, off), alone = judged && !worse_beside(t, i);
    if (alone) {
        slip = explain(t, &d, t->odd[i]);
    }
    if (slip) {
        name_slip(t->k, slip, i);
        return;
    }
    bool odd_low = unusual(t, WEATHER_TMIN, i), odd_high = unusual(t, WEATHER_TMAX, i);
    if (alone && !odd_low && !odd_high) {
        step(t, &d, low, high, off);
    }
}

bool quality_temperature(struct quality_work *k, const struct expect *x)
{
    struct temperature t = {.k = k, .x = x};
    t.most = k->limits->step_spreads * sqrt(1 + FEW_YEARS / quality_years(k, WEATHER_TMIN));
    t.odd = arena_alloc(k->arena, k->n, sizeof *t.odd);
    if (!t.odd) {
        return false;
    }
    for (size_t i = 0; i < k->n; i++) {
        struct expect_day d;
        double off[EXPECT_JUDGED];
        t.odd[i] = judge_day(&t, i, &d, off) ? distance(off) : 0;
    }
    for (size_t i = 0; i < k->n; i++) {
        check_day(&t, i);
    }
    return true;
}
