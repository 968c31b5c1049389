/* Temperatures against their season, the days beside them, and each other; and the
 * slip that would explain a doubtful one. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/quality_expect.h"
#include "weather/quantity.h"

#include <math.h>

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
    struct expect x;
    double *odd; /* of each day: the larger misfit of its temperatures, squared spreads */
};

/* Squared distance of the two temperatures from what is expected; of one, when the
 * other is missing. */
static double distance(const double off[EXPECT_MODELS])
{
    double low = off[MIN_ALONE], high = off[MAX_ALONE];
    if (isnan(low) || isnan(high)) {
        return isnan(low) ? high * high : low * low;
    }
    return fmax(low * low + off[MAX_GIVEN] * off[MAX_GIVEN], high * high + off[MIN_GIVEN] * off[MIN_GIVEN]);
}

/* The slip that makes the day fit best, or NULL when none does. */
static const struct slip *explain(const struct temperature *t, const struct expect_day *d, double low, double high,
                                  double written)
{
    const struct quality_limits *l = t->k->limits;
    const struct slip *best = NULL;
    double least = fmin(l->slip_fit, written - l->slip_gain);
    for (size_t s = 0; s < sizeof slips / sizeof slips[0]; s++) {
        double off[EXPECT_MODELS];
        double right_low = slips[s].of_low ? low * slips[s].scale + slips[s].offset : low;
        double right_high = slips[s].of_high ? high * slips[s].scale + slips[s].offset : high;
        if (right_low > right_high || (slips[s].of_low && isnan(low)) || (slips[s].of_high && isnan(high))) {
            continue;
        }
        expect_judge(t->k, &t->x, d, right_low, right_high, off);
        if (distance(off) < least) {
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
                 const double off[EXPECT_MODELS])
{
    enum expect_model worst = MIN_ALONE;
    for (enum expect_model m = MIN_ALONE; m < EXPECT_MODELS; m++) {
        worst = isnan(off[worst]) || fabs(off[m]) > fabs(off[worst]) ? m : worst;
    }
    if (fabs(off[worst]) > t->k->limits->step_spreads) {
        enum weather_var v = worst == MIN_ALONE || worst == MIN_GIVEN ? WEATHER_TMIN : WEATHER_TMAX;
        quality_name(t->k, DOUBT_STEP, v, d->i, expect_value(t->k, &t->x, d, worst, low, high));
    }
}

/* A fault shows in the days beside it, too: only the day that fits least is named. */
static bool worse_beside(const struct temperature *t, size_t i)
{
    return (i > 0 && t->odd[i - 1] > t->odd[i]) || (i + 1 < t->k->n && t->odd[i + 1] > t->odd[i]);
}

static bool judge_day(const struct temperature *t, size_t i, struct expect_day *d, double off[EXPECT_MODELS])
{
    double low = t->k->x[WEATHER_TMIN][i], high = t->k->x[WEATHER_TMAX][i];
    if (isnan(low) && isnan(high)) {
        return false;
    }
    expect_day(t->k, &t->x, i, d);
    expect_judge(t->k, &t->x, d, low, high, off);
    return d->known && !isnan(distance(off));
}

static void check_day(struct temperature *t, size_t i)
{
    struct expect_day d;
    double off[EXPECT_MODELS];
    double low = t->k->x[WEATHER_TMIN][i], high = t->k->x[WEATHER_TMAX][i];
    const struct slip *slip = NULL;
    bool judged = judge_day(t, i, &d, off), alone = judged && !worse_beside(t, i);
    if (alone && t->odd[i] > t->k->limits->slip_gain) {
        slip = explain(t, &d, low, high, t->odd[i]);
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

/* The distribution of every variable that has values enough. */
static bool describe_seasons(struct quality_work *k)
{
    static const struct season_scale scales[WEATHER_VARS] = {
        [WEATHER_TMIN] = {-45, 0.1, 0}, [WEATHER_TMAX] = {-40, 0.1, 0}, [WEATHER_RAD] = {0, 0.05, 0},
        [WEATHER_RH] = {0, 0.1, 0},     [WEATHER_WIND] = {0, 0.03, 0},
    };
    for (int v = 0; v < WEATHER_VARS; v++) {
        struct season_scale scale = scales[v];
        scale.half_window = (size_t)k->limits->season_days;
        if (scale.step > 0 && quality_enough(k, (enum weather_var)v) &&
            !quality_season(k->x[v], k->n, k->day_of_year, &scale, k->arena, &k->season[v])) {
            return false;
        }
    }
    return true;
}

bool quality_temperature(struct quality_work *k)
{
    struct temperature t = {.k = k};
    if (!describe_seasons(k)) {
        return false;
    }
    if (!quality_enough(k, WEATHER_TMIN) || !quality_enough(k, WEATHER_TMAX)) {
        return true;
    }
    t.odd = arena_alloc(k->arena, k->n, sizeof *t.odd);
    if (!t.odd || !expect_fit(k, &t.x)) {
        return false;
    }
    for (size_t i = 0; i < k->n; i++) {
        struct expect_day d;
        double off[EXPECT_MODELS];
        t.odd[i] = judge_day(&t, i, &d, off) ? distance(off) : 0;
    }
    for (size_t i = 0; i < k->n; i++) {
        check_day(&t, i);
    }
    return true;
}
