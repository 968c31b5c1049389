/* Maxima and rain that stand on the wrong day, as happens to who reads in the morning
 * and writes down the day of reading.
 *
 * A stretch: for each day the likelihood of its maximum and rain, given the minima, sun
 * and humidity around it, is compared with that of the next day's (or the day before's);
 * the sum of the logarithms, begun anew whenever it falls to nothing, climbs over a
 * stretch that is shifted (Page's cumulative sum, 1954, from memory). Such a stretch
 * often begins with a value written twice, which counts by how rare that is.
 *
 * The whole record: rain and sunshine exclude each other on the same day more than on
 * any other, if they stand on the same day.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/num.h"
#include "weather/quality_expect.h"

#include <math.h>

#define CUT_MAX 3.0        /* spreads: one outlier is no stretch */
#define CUT_RAIN 2.5       /* the same for rain, which is not normal */
#define RAIN_WEIGHT 0.9    /* of its likelihood, for the same reason */
#define FALL 8.0           /* below its peak the stretch is over */
#define DAYS_JUDGED 3653.0 /* of the record that shift_score holds for; a longer one has more chances */
#define CLEARER 0.05       /* of correlation, by which another day must fit a whole record better */

struct stretch {
    double score, peak;
    size_t first, last; /* to the peak */
};

/* Half the squared misfit of the value `lag` days on, taken for that of day d. */
static double misfit(const struct quality_work *k, const struct expect *x, const struct expect_day *d,
                     enum expect_model m, int lag)
{
    bool rain = m == RAIN_AROUND;
    const double *series = x->series[rain ? E_RAIN : E_MAX];
    size_t i = d->i + (size_t)lag;
    struct expect_day there = *d;
    there.term[E_MAX_BEFORE] = expect_cut(x->series[E_MAX][i - 1]);
    double off = (series[i] - expect_predict(k, x, &there, m)) / expect_sd(k, x, d->i, m);
    double most = rain ? CUT_RAIN : CUT_MAX;
    off = num_clip(off, -most, most);
    return isnan(series[i]) ? (double)NAN : off * off / 2;
}

/* What the other day gains; nothing where neither sun nor humidity tells the days apart. */
static double gain(const struct quality_work *k, const struct expect *x, const struct expect_day *d, int lag)
{
    bool sun = x->series[E_SUN] && !isnan(x->series[E_SUN][d->i]);
    bool humid = x->series[E_HUMID] && !isnan(x->series[E_HUMID][d->i]);
    if (!sun && !humid) {
        return 0;
    }
    double of_max = misfit(k, x, d, MAX_AROUND, 0) - misfit(k, x, d, MAX_AROUND, lag), of_rain = 0;
    if (x->series[E_RAIN]) {
        of_rain = RAIN_WEIGHT * (misfit(k, x, d, RAIN_AROUND, 0) - misfit(k, x, d, RAIN_AROUND, lag));
    }
    return (isnan(of_max) ? 0 : of_max) + (isnan(of_rain) ? 0 : of_rain);
}

/* What it tells for a stretch booked late to begin on day i that its values are those
 * of the day before: the logarithm of how rarely that happens. */
static double twice(const struct quality_work *k, size_t i, double of_max, double of_rain)
{
    const double *high = k->x[WEATHER_TMAX], *rain = k->x[WEATHER_RAIN];
    if (high[i] != high[i - 1] || (rain && rain[i] != rain[i - 1])) {
        return 0;
    }
    return of_max + (rain && rain[i] > 0 ? of_rain : 0);
}

static void close_stretch(struct quality_work *k, struct stretch *s, int lag)
{
    double longer = log((double)k->n / DAYS_JUDGED);
    if (s->peak > k->limits->shift_score + fmax(longer, 0)) {
        date_t day0 = k->w->day0;
        quality_add(k, (struct doubt){day0 + (date_t)s->first, day0 + (date_t)s->last, WEATHER_TMAX, DOUBT_SHIFTED, lag,
                                      s->peak});
    }
    *s = (struct stretch){0};
}

static void look_for_stretches(struct quality_work *k, const struct expect *x, int lag)
{
    struct stretch s = {0};
    double of_max = -log(quality_chance(k, WEATHER_TMAX, false));
    double of_rain = k->x[WEATHER_RAIN] ? -log(quality_chance(k, WEATHER_RAIN, false)) : 0;
    for (size_t i = 2; i + 2 < k->n; i++) {
        struct expect_day d;
        expect_day(k, x, i, &d);
        double begun = lag > 0 ? twice(k, i, of_max, of_rain) : 0;
        if (s.score <= begun) {
            close_stretch(k, &s, lag);
            s = (struct stretch){begun, 0, i, i};
        }
        s.score += gain(k, x, &d, lag);
        if (s.score > s.peak) {
            s.peak = s.score;
            s.last = i;
        } else if (s.score < s.peak - FALL) {
            close_stretch(k, &s, lag);
        }
    }
    close_stretch(k, &s, lag);
}

/* Correlation of sunshine with the root of the rain `lag` days later. */
static double sun_and_rain(const struct quality_work *k, const struct expect *x, int lag)
{
    double n = 0, sum_a = 0, sum_b = 0, aa = 0, bb = 0, ab = 0;
    for (size_t i = 1; i + 1 < k->n; i++) {
        double a = x->series[E_SUN][i], b = x->series[E_RAIN][i + (size_t)lag];
        if (!isnan(a) && !isnan(b)) {
            a = expect_cut(a);
            n++;
            sum_a += a;
            sum_b += b;
            aa += a * a;
            bb += b * b;
            ab += a * b;
        }
    }
    return (ab - sum_a * sum_b / n) / sqrt((aa - sum_a * sum_a / n) * (bb - sum_b * sum_b / n));
}

static void look_at_whole(struct quality_work *k, const struct expect *x)
{
    double here = sun_and_rain(k, x, 0), before = sun_and_rain(k, x, -1), after = sun_and_rain(k, x, 1);
    int lag = after < before ? 1 : -1;
    if (fmin(before, after) < here - CLEARER) {
        date_t day0 = k->w->day0;
        quality_add(k, (struct doubt){day0, day0 + (date_t)k->n - 1, WEATHER_RAIN, DOUBT_SHIFTED, lag, (double)NAN});
    }
}

void quality_shift(struct quality_work *k, const struct expect *x)
{
    look_for_stretches(k, x, 1);
    look_for_stretches(k, x, -1);
    if (x->series[E_SUN] && x->series[E_RAIN]) {
        look_at_whole(k, x);
    }
}
