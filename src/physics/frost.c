/* Ground frost from daily weather: the fit and its use.
 *
 * The night of a day is frosty when its morning was or the evening before was, each by
 * a logistic of its own (noisy-or):
 *   chance = 1 - (1 - morning) (1 - evening);
 * the grass minimum likewise is the soft minimum (-log sum exp(-x), scale 1 C) of two
 * linear estimates. Two halves, because daily extremes belong to calendar days: the low
 * that the grass thermometer shows at 09 UTC may have fallen in the evening of the day
 * before, and the day's own screen minimum may belong to its late evening.
 *
 * Data: Dublin Airport (Met Eireann, CC BY 4.0), grass minimum read 09 UTC, dated by the
 * morning (its correlation with the screen minimum is 0.90 for the same date, 0.82 for
 * the day before, 0.66 for the day after). Fit on 1983-2001 by penalised likelihood and
 * least squares (ridge 1 on standardised inputs), terms chosen by cross-validation
 * within those years. Scores on 2002-2020, which the fit has not seen:
 *                     hit rate  false-alarm ratio  CSI    minimum: bias, RMSE (C)
 *   LIKELY, full        0.88        0.22           0.70       -0.2, 1.9
 *   LIKELY, bare        0.88        0.25           0.67       -0.3, 2.0
 *   CAUTIOUS, full      0.92        0.29           0.67
 *   CAUTIOUS, bare      0.92        0.32           0.64
 * The standard error of CSI is 0.012 (years resampled). About 2008 the station's grass
 * thermometer reads 0.5 C warmer against the screen than before: CSI is 0.74 in
 * 2002-2007 and 0.68 in 2008-2020. Several forms were compared with both halves in
 * view before this one was settled, so the scores above flatter a little (1983-2001
 * by cross-validation: 0.69). On the blind years 2020-11 to 2025-09, scored once, at the
 * end: LIKELY 0.88, 0.28, CSI 0.66; CAUTIOUS 0.91, 0.34. A linear regression on Tmin,
 * wind, sunshine and range has CSI 0.64 in 2002-2020 and 0.58-0.60 in the blind years.
 * Mean humidity adds nothing to the rest (De Bilt, CSI 0.836 with, 0.834 without), so it
 * is not asked for.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/frost.h"

#include "base/num.h"
#include "base/vector.h"
#include "physics/sun.h"

#include <assert.h>
#include <math.h>

enum input {
    ONE,
    TMIN,         /* C */
    TMIN_BEFORE,  /* C, of the day before */
    TMIN_HIGHER,  /* C, the higher of the two: what the midnight between cannot be below */
    TMAX_BEFORE,  /* C */
    TMAX_RISE,    /* C, tmax - tmax of the day before */
    RISE_BEFORE,  /* C, how much tmin rose from the day before, else 0 */
    FALL_BEFORE,  /* C, how much it fell, else 0 */
    RISE_AFTER,   /* C, how much tmin will rise to the day after, else 0 */
    FALL_AFTER,   /* C, how much it will fall, else 0 */
    WIND,         /* ln(m/s + 0.3) */
    WIND_BEFORE,  /* the same, day before */
    CLEAR,        /* radiation / extraterrestrial */
    CLEAR_BEFORE, /* the same, day before */
    NIGHT,        /* h */
    RAIN,         /* ln(1 + mm) */
    RAIN_BEFORE,  /* the same, day before */
    INPUTS
};

/* Centre and scale that the coefficients are for; beyond low and high (the middle 99 %
 * of the fit's years, temperatures free) an input counts as the limit. */
struct range {
    double centre, scale, low, high;
};

static const struct range ranges[INPUTS] = {
    [ONE] = {0, 1, 1, 1},
    [TMIN] = {6.28, 4.33, -60, 60},
    [TMIN_BEFORE] = {6.28, 4.34, -60, 60},
    [TMIN_HIGHER] = {7.25, 4.18, -60, 60},
    [TMAX_BEFORE] = {13.19, 4.91, 2.3, 24.5},
    [TMAX_RISE] = {0.0, 2.26, -6.4, 6.0},
    [RISE_BEFORE] = {0.97, 1.69, 0.0, 8.3},
    [FALL_BEFORE] = {0.97, 1.36, 0.0, 6.6},
    [RISE_AFTER] = {0.97, 1.69, 0.0, 8.3},
    [FALL_AFTER] = {0.97, 1.36, 0.0, 6.6},
    [WIND] = {1.33, 0.48, -0.22, 2.27},
    [WIND_BEFORE] = {1.33, 0.48, -0.22, 2.27},
    [CLEAR] = {0.39, 0.17, 0.05, 0.74},
    [CLEAR_BEFORE] = {0.39, 0.17, 0.05, 0.74},
    [NIGHT] = {12.03, 3.27, 7.23, 16.77},
    [RAIN] = {0.65, 0.83, 0.0, 3.24},
    [RAIN_BEFORE] = {0.65, 0.83, 0.0, 3.24},
};

/* coefficient times a times b: of the logistic and of the minimum (C) */
struct term {
    enum input a, b;
    double chance, minimum;
};

static const struct term full_morning[] = {
    {ONE, ONE, -4.199, 4.482},         {TMIN, ONE, -4.047, 4.053},         {WIND, ONE, -0.67, 0.512},
    {CLEAR, ONE, 0.374, -0.485},       {CLEAR_BEFORE, ONE, 0.236, -0.294}, {NIGHT, ONE, 0.154, -0.329},
    {RISE_AFTER, ONE, -0.53, -0.451},  {FALL_AFTER, ONE, -0.365, 0.296},   {TMAX_BEFORE, ONE, -0.301, 0.393},
    {WIND, CLEAR, -0.095, 0.187},      {TMIN, RISE_AFTER, -1.016, -0.096}, {TMAX_RISE, ONE, -0.073, 0.11},
    {RISE_BEFORE, ONE, -0.401, 0.219}, {FALL_BEFORE, ONE, -0.545, 0.694},
};
static const struct term full_evening[] = {
    {ONE, ONE, -6.633, 7.986},        {TMIN_BEFORE, ONE, -2.241, 1.626},  {TMIN_HIGHER, ONE, -0.944, 1.714},
    {WIND_BEFORE, ONE, -0.87, 0.983}, {CLEAR_BEFORE, ONE, 0.676, -1.062}, {TMAX_BEFORE, ONE, -0.298, 1.306},
    {NIGHT, ONE, 1.636, -1.601},      {WIND, ONE, 0.572, -0.528},         {CLEAR, ONE, -0.072, 0.139},
};
static const struct term bare_morning[] = {
    {ONE, ONE, -3.979, 4.387},        {TMIN, ONE, -4.5, 4.827},          {NIGHT, ONE, 0.072, -0.29},
    {RAIN, ONE, -0.482, 0.419},       {RAIN_BEFORE, ONE, -0.139, 0.219}, {RISE_AFTER, ONE, -0.561, -0.368},
    {FALL_AFTER, ONE, -0.377, 0.347}, {TMAX_BEFORE, ONE, 0.437, -0.489}, {TMIN, RISE_AFTER, -1.033, -0.067},
    {TMAX_RISE, ONE, 0.158, -0.144},  {RISE_BEFORE, ONE, -0.202, 0.122}, {FALL_BEFORE, ONE, -0.556, 0.79},
};
static const struct term bare_evening[] = {
    {ONE, ONE, -6.053, 8.76},        {TMIN_BEFORE, ONE, -2.354, 2.318}, {TMIN_HIGHER, ONE, -0.846, 1.536},
    {TMAX_BEFORE, ONE, 0.027, 1.11}, {NIGHT, ONE, 1.322, -1.766},       {RAIN_BEFORE, ONE, -0.421, 0.518},
    {RAIN, ONE, 0.161, -0.322},      {TMAX_RISE, ONE, 0.235, -0.106},
};

#define TERMS(table) table, sizeof(table) / sizeof((table)[0])

struct half {
    const struct term *term;
    size_t n;
};

struct fit {
    struct half morning, evening;
};

static const struct fit full = {{TERMS(full_morning)}, {TERMS(full_evening)}};
static const struct fit bare = {{TERMS(bare_morning)}, {TERMS(bare_evening)}};

_Static_assert(sizeof ranges / sizeof ranges[0] == INPUTS, "each input has its range");
/* NaN compares false, so it must be let through by hand. */
static double above(double a, double b)
{
    double d = a - b;
    return d < 0 ? 0 : d;
}

static double either(double a, double otherwise)
{
    return isnan(a) ? otherwise : a;
}

static void gather(const struct frost_night *n, double x[INPUTS])
{
    double before = either(n->tmin_before, n->tmin);
    x[ONE] = 1;
    x[TMIN] = n->tmin;
    x[TMIN_BEFORE] = before;
    x[TMIN_HIGHER] = n->tmin > before ? n->tmin : before;
    x[TMAX_BEFORE] = either(n->tmax_before, n->tmax);
    x[TMAX_RISE] = n->tmax - n->tmax_before;
    x[RISE_BEFORE] = above(n->tmin, n->tmin_before);
    x[FALL_BEFORE] = above(n->tmin_before, n->tmin);
    x[RISE_AFTER] = above(n->tmin_after, n->tmin);
    x[FALL_AFTER] = above(n->tmin, n->tmin_after);
    x[WIND] = log(n->wind + 0.3);
    x[WIND_BEFORE] = log(n->wind_before + 0.3);
    x[CLEAR] = n->clearness;
    x[CLEAR_BEFORE] = n->clearness_before;
    x[NIGHT] = n->night_h;
    x[RAIN] = log1p(n->rain);
    x[RAIN_BEFORE] = log1p(n->rain_before);
}

VECTOR static void standardise(double x[INPUTS])
{
    for (int i = ONE + 1; i < INPUTS; i++) {
        const struct range *r = &ranges[i];
        double standard = (num_clip(x[i], r->low, r->high) - r->centre) / r->scale;
        x[i] = isnan(x[i]) ? 0 : standard;
    }
}

/* The standardised inputs of a night and the fit that its knowledge allows. */
static const struct fit *prepare(const struct frost_night *n, double x[INPUTS])
{
    gather(n, x);
    standardise(x);
    return isnan(n->wind) || isnan(n->clearness) ? &bare : &full;
}

static double sum_chance(const struct half *h, const double x[INPUTS])
{
    assert(h->n > 0);
    double sum = 0;
    for (size_t i = 0; i < h->n; i++) {
        sum += h->term[i].chance * x[h->term[i].a] * x[h->term[i].b];
    }
    return 1 / (1 + exp(-sum));
}

static double sum_minimum(const struct half *h, const double x[INPUTS])
{
    assert(h->n > 0);
    double sum = 0;
    for (size_t i = 0; i < h->n; i++) {
        sum += h->term[i].minimum * x[h->term[i].a] * x[h->term[i].b];
    }
    return sum;
}

double frost_ground_chance(const struct frost_night *n)
{
    double x[INPUTS];
    if (isnan(n->tmin)) {
        return n->tmin;
    }
    const struct fit *f = prepare(n, x);
    return 1 - (1 - sum_chance(&f->morning, x)) * (1 - sum_chance(&f->evening, x));
}

double frost_ground_minimum(const struct frost_night *n)
{
    double x[INPUTS];
    if (isnan(n->tmin)) {
        return n->tmin;
    }
    const struct fit *f = prepare(n, x);
    double morning = sum_minimum(&f->morning, x), evening = sum_minimum(&f->evening, x);
    return (morning < evening ? morning : evening) - log1p(exp(-fabs(morning - evening)));
}

/* Day i's value, NaN outside the record. i may have wrapped below 0. */
static double value(const struct weather_days *w, enum weather_var v, size_t i)
{
    return i < w->n ? weather_at(w, v, i) : (double)NAN;
}

static double read_value(const struct weather_days *w, enum weather_var v, size_t i)
{
    bool made_by_us = i < w->n && w->filled && (w->filled[i] >> v & 1);
    return made_by_us ? (double)NAN : value(w, v, i);
}

static double clearness(const struct weather_days *w, size_t i, double latitude)
{
    double ra = w->air ? w->air[i] : sun_extraterrestrial(date_day_of_year(w->day0 + (date_t)i), latitude);
    return ra > 0.5 ? read_value(w, WEATHER_RAD, i) / ra : (double)NAN; /* polar night has no clearness */
}

static double night_h(const struct weather_days *w, size_t i, double latitude)
{
    return 24 -
           (w->day_length_h ? w->day_length_h[i] : sun_fao_day_length(date_day_of_year(w->day0 + (date_t)i), latitude));
}

struct frost_night frost_night_of(const struct weather_days *w, size_t i, double latitude)
{
    assert(i < w->n);
    return (struct frost_night){
        .tmin = value(w, WEATHER_TMIN, i),
        .tmin_before = value(w, WEATHER_TMIN, i - 1),
        .tmin_after = value(w, WEATHER_TMIN, i + 1),
        .tmax = value(w, WEATHER_TMAX, i),
        .tmax_before = value(w, WEATHER_TMAX, i - 1),
        .wind = read_value(w, WEATHER_WIND, i),
        .wind_before = read_value(w, WEATHER_WIND, i - 1),
        .clearness = clearness(w, i, latitude),
        .clearness_before = i > 0 ? clearness(w, i - 1, latitude) : (double)NAN,
        .rain = value(w, WEATHER_RAIN, i),
        .rain_before = value(w, WEATHER_RAIN, i - 1),
        .night_h = night_h(w, i, latitude),
    };
}
