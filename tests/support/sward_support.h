/* What the tests of the sward share. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_TESTS_SWARD_SUPPORT_H
#define SUGARLEA_TESTS_SWARD_SUPPORT_H

#include "data/params.h"
#include "sward/balance.h"
#include "sward/sward.h"

/* The shipped parameters, read once; ends the program when they cannot be read. */
const struct params *support_params(void);
void support_models(const char *folder); /* another folder than models, before the first use */
const struct sward_kind *support_kind(const char *grass);

/* A sward of n grasses, loam of 120 mm, nitrogen 1, in the start state. */
struct sward support_sward(size_t n, const char *const grass[], const double share[]);
struct sward support_ryegrass(void);

/* h, with the declination -23.44 cos(2 pi (doy + 10) / 365.25) of the reference outputs. */
double support_day_length(double latitude, int day_of_year);

/* A day of the reference outputs: no rain, no ET0, its own neighbours. */
struct sward_day support_day(double tmin, double tmax, double rad, double latitude, int day_of_year);

/* A sward held at one structure: what grows is taken off with its share of sugar. */
struct held {
    const struct sward_kind *kind;
    struct sward_own own;
    double structure, lai, slow_lai; /* g/m2, m2/m2 */
    double sink, source;             /* fPh (with fN), fQ */
    double sugar;                    /* g/m2 */
};
struct held support_held(const char *grass, double structure, double lai, double sink, double source, double content);

struct held_day {
    double min, max, mean, end; /* g/kg */
    int hour_min, hour_max;     /* hour ending, solar */
    double growth;              /* g/m2 */
};
struct held_day support_hold(struct held *h, const struct sward_day *d, double soil_t);

/* Identical days with Ts = T; the last. */
struct held_day support_hold_days(struct held *h, const struct sward_day *d, int days);

struct gases { /* sums of a day, g CO2/m2, roots included */
    double gross, respired;
};
/* Of a held sward after 25 days of that weather, latitude 45, day 135. */
struct gases support_gases(const char *grass, double sink, double source, double tmin, double tmax, double rad,
                           double structure, double lai);

/* A year-round climate for whole runs: sines of temperature, radiation, rain in
 * showers. Deterministic in day and seed. */
struct climate {
    double latitude, t_mean, t_swing; /* degrees; C; C */
    double t_range;                   /* C, Tmax - Tmin */
    double clearness;                 /* of the extraterrestrial radiation */
    double rain;                      /* mm/d, mean */
    double et0_summer;                /* mm/d, at the warmest day */
    double noise;                     /* C, day to day */
    unsigned seed;
    double warming; /* C, added to all temperatures */
};
struct sward_weather support_climate(const struct climate *c, int date);

/* Uniform 0..1 from a state of one's own (xorshift64*). */
double support_random(unsigned long long *state);

#endif
