/* Within-day temperature and light from daily extremes and sums.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/diurnal.h"

#include "base/num.h"
#include "base/vector.h"

#include <assert.h>
#include <math.h>

#define LAG_H 1.5       /* P: maximum after noon. Goudriaan & van Laar 1994, from memory */
#define COOLING_H 4.0   /* TC: time constant of the night. The same source */
#define ARC_LEAST 3.0   /* h of day length at which tmax is just reached: 2 P */
#define ARC_MOST 21.0   /* h; leaves a night of 2 P for the way back to tmin */
#define PAR_SHARE 0.5   /* of global radiation, MJ/MJ: common practice */
#define STEPS_A_DAY 144 /* of 10 minutes */

/* The day's sine at h hours after sunrise, 0 at sunrise, 1 at 12 + LAG_H. */
static double day_sine(double h, double day_length)
{
    return sin(NUM_PI * h / (day_length + 2 * LAG_H));
}

static double between(double a, double b, double share)
{
    return a + (b - a) * share;
}

static void polar_night(const struct diurnal_day *d, double temperature[24], double par[24])
{
    assert(d->day_length_h <= 0);
    for (int i = 0; i < 24; i++) {
        double from_noon = fabs(i + 0.5 - 12);
        temperature[i] = between(d->tmax, d->tmin, from_noon / 12);
        par[i] = 0;
    }
}

/* Sines of equally spaced angles by the addition theorem: a quarter of the cost of
 * 24 calls, and within 1e-14 of them. */
struct rotation {
    double sine, cosine, step_sine, step_cosine;
};

static struct rotation rotation_start(double angle_per_h, double first_h)
{
    struct rotation r;
    sincos(angle_per_h * first_h, &r.sine, &r.cosine);
    sincos(angle_per_h, &r.step_sine, &r.step_cosine);
    return r;
}

static void rotation_step(struct rotation *r)
{
    double sine = r->sine * r->step_cosine + r->cosine * r->step_sine;
    r->cosine = r->cosine * r->step_cosine - r->sine * r->step_sine;
    r->sine = sine;
}

/* Both courses of the day at its 24 hours, 1 at their highest. */
struct sines {
    double warm[24], light[24];
};

static void find_sines(double day_length, double first, struct sines *s)
{
    struct rotation warm = rotation_start(NUM_PI / (day_length + 2 * LAG_H), first);
    struct rotation light = rotation_start(NUM_PI / day_length, first);
    for (int i = 0; i < 24; i++) {
        s->warm[i] = warm.sine;
        s->light[i] = light.sine;
        rotation_step(&warm);
        rotation_step(&light);
    }
}

/* By day the sine, by night a line from the evening to the next minimum. */
VECTOR static void find_temperatures(const struct diurnal_day *d, const double *restrict sine,
                                     double *restrict temperature)
{
    assert(d->day_length_h > 0 && d->day_length_h <= 24);
    double n = d->day_length_h, night = 24 - n, sunrise = 12 - n / 2, sunset = 12 + n / 2;
    double end = day_sine(n, n), tmin = d->tmin, tmax = d->tmax, tmin_after = d->tmin_after;
    double last_evening = between(tmin, d->tmax_before, end), evening = between(tmin, tmax, end);
    for (int i = 0; i < 24; i++) {
        double t = i + 0.5, share = (t < sunrise ? sunrise - t : t - sunset) / night;
        double by_night = t < sunrise ? between(tmin, last_evening, share) : between(evening, tmin_after, share);
        temperature[i] = t < sunrise || t > sunset ? by_night : between(tmin, tmax, sine[i]);
    }
}

VECTOR static void find_light(double noon, double day_length, double first, const double *restrict sine,
                              double *restrict par)
{
    for (int i = 0; i < 24; i++) {
        double h = i + first;
        par[i] = h <= 0 || h >= day_length ? 0 : noon * sine[i];
    }
}

void diurnal_sward(const struct diurnal_day *d, double temperature[24], double par[24])
{
    struct sines s;
    double n = d->day_length_h;
    if (n <= 0) {
        polar_night(d, temperature, par);
        return;
    }
    double first = 0.5 - (12 - n / 2); /* h from sunrise to the first of the hours */
    double noon = PAR_SHARE * d->rad * 1e6 * (NUM_PI / 2) / (3600 * n);
    find_sines(n, first, &s);
    find_temperatures(d, s.warm, temperature);
    find_light(noon, n, first, s.light, par);
}

/* One day of the normalised sine-exponential with its constants worked out. */
struct course {
    double tmin, tmax, tmin_after;
    double length, sunrise, sunset, night;
    double evening, last_evening; /* C at sunset, today and yesterday */
};

static struct course course_of(const struct diurnal_day *d)
{
    assert(d->day_length_h >= 0 && d->day_length_h <= 24);
    double n = num_clip(d->day_length_h, ARC_LEAST, ARC_MOST);
    double end = day_sine(n, n);
    return (struct course){.tmin = d->tmin,
                           .tmax = d->tmax,
                           .tmin_after = d->tmin_after,
                           .length = n,
                           .sunrise = 12 - n / 2,
                           .sunset = 12 + n / 2,
                           .night = 24 - n,
                           .evening = between(d->tmin, d->tmax, end),
                           .last_evening = between(d->tmin, d->tmax_before, end)};
}

/* Exponential from a at sunset to b exactly at the next sunrise. */
static double cooling(double a, double b, double hours, double night)
{
    assert(night > 0);
    double rest = exp(-night / COOLING_H);
    return (b - a * rest + (a - b) * exp(-hours / COOLING_H)) / (1 - rest);
}

static double course_at(const struct course *c, double t)
{
    assert(c->sunrise < c->sunset);
    if (t < c->sunrise) {
        return cooling(c->last_evening, c->tmin, t + 24 - c->sunset, c->night);
    }
    if (t > c->sunset) {
        return cooling(c->evening, c->tmin_after, t - c->sunset, c->night);
    }
    return between(c->tmin, c->tmax, day_sine(t - c->sunrise, c->length));
}

double diurnal_temperature(const struct diurnal_day *d, double hour)
{
    assert(hour >= 0 && hour <= 24);
    struct course c = course_of(d);
    return course_at(&c, hour);
}

double diurnal_hours_below(const struct diurnal_day *d, double threshold)
{
    struct course c = course_of(d);
    int below = 0;
    for (int i = 0; i < STEPS_A_DAY; i++) {
        below += course_at(&c, (i + 0.5) * 24 / STEPS_A_DAY) < threshold;
    }
    return below * 24.0 / STEPS_A_DAY;
}
