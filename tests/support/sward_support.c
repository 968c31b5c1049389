/* What the tests of the sward share. SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/sward_support.h"

#include "base/date.h"
#include "base/num.h"
#include "physics/sun.h"
#include "sward/canopy.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static const char *models = "models";

void support_models(const char *folder)
{
    models = folder;
}

const struct params *support_params(void)
{
    static struct params params;
    static struct arena arena;
    static bool read;
    if (!read) {
        struct err e = {0};
        arena_init(&arena);
        if (params_load(models, &arena, &params, &e) != ERR_OK) {
            char text[1024];
            err_format(&e, text, sizeof text);
            fprintf(stderr, "%s\n", text);
            exit(70);
        }
        read = true;
    }
    return &params;
}

static const struct grass *find_grass(const char *id)
{
    const struct grass *g = params_grass(support_params(), id);
    if (!g) {
        fprintf(stderr, "no grass %s\n", id);
        exit(70);
    }
    return g;
}

struct sward support_sward(size_t n, const char *const grass[], const double share[])
{
    const struct grass *g[LIMIT_MIX];
    struct sward s;
    for (size_t i = 0; i < n; i++) {
        g[i] = find_grass(grass[i]);
    }
    sward_init(&s, support_params()->kind, n, g, share, 120.0, 1.0);
    return s;
}

struct sward support_ryegrass(void)
{
    return support_sward(1, (const char *const[]){"ryegrass"}, (const double[]){1.0});
}

const struct sward_kind *support_kind(const char *grass)
{
    return &support_params()->kind[find_grass(grass)->type];
}

double support_day_length(double latitude, int day_of_year)
{
    double declination = -23.44 * NUM_RADIANS * cos(2 * NUM_PI * (day_of_year + 10) / 365.25);
    return 24 / NUM_PI * acos(num_clip(-tan(latitude * NUM_RADIANS) * tan(declination), -1, 1));
}

struct sward_day support_day(double tmin, double tmax, double rad, double latitude, int day_of_year)
{
    struct sward_day d;
    struct sward_weather w = {.date = date_make(2001, 1, 1) + day_of_year - 1,
                              .tmin = tmin,
                              .tmax = tmax,
                              .rad = rad,
                              .tmax_before = tmax,
                              .tmin_after = tmin};
    sward_day_force(&d, &w, support_day_length(latitude, day_of_year), false, false);
    return d;
}

struct held support_held(const char *grass, double structure, double lai, double sink, double source, double content)
{
    struct sward s = support_sward(1, &grass, (const double[]){1.0});
    return (struct held){.kind = s.kind[0],
                         .own = s.own[0],
                         .structure = structure,
                         .lai = lai,
                         .slow_lai = lai,
                         .sink = sink,
                         .source = source,
                         .sugar = content * structure / (1 - content)};
}

struct held_day support_hold(struct held *h, const struct sward_day *d, double soil_t)
{
    struct balance b;
    struct balance_factors f = {.lai = h->lai,
                                .sink = h->sink * canopy_sink_area(h->kind, h->slow_lai),
                                .source = h->source,
                                .wet = 1,
                                .soil_t = soil_t};
    struct held_day out = {.min = INFINITY};
    balance_prepare(&b, h->kind, &h->own, &f, d);
    for (int i = 0; i < 24; i++) {
        struct balance_flows flow = balance_hour(&b, i, h->sugar, h->structure, h->sugar / (h->structure + h->sugar));
        h->sugar += flow.supply - flow.upkeep - flow.growth * b.yield_inverse - flow.growth * h->sugar / h->structure;
        out.end = 1000 * h->sugar / (h->structure + h->sugar);
        out.growth += flow.growth;
        out.mean += out.end / 24;
        if (out.end < out.min) {
            out.min = out.end;
            out.hour_min = i + 1;
        }
        if (out.end > out.max) {
            out.max = out.end;
            out.hour_max = i + 1;
        }
    }
    return out;
}

struct held_day support_hold_days(struct held *h, const struct sward_day *d, int days)
{
    struct held_day out = {0};
    for (int i = 0; i < days; i++) {
        out = support_hold(h, d, 0.5 * (d->tmin + d->tmax));
    }
    return out;
}

/* g CO2 a g CH2O */
#define CO2_OF_SUGAR (44.0 / 30.0)

struct gases support_gases(const char *grass, double sink, double source, double tmin, double tmax, double rad,
                           double structure, double lai)
{
    struct held h = support_held(grass, structure, lai, sink, source, 0.12);
    struct sward_day d = support_day(tmin, tmax, rad, 45, 135);
    struct balance b;
    struct balance_factors f = {.lai = lai,
                                .sink = sink * canopy_sink_area(h.kind, lai),
                                .source = source,
                                .wet = 1,
                                .soil_t = (tmin + tmax) / 2};
    support_hold_days(&h, &d, 25);
    balance_prepare(&b, h.kind, &h.own, &f, &d);
    struct balance_day day = {.sums = {.sugar = h.sugar}, .structure = structure};
    balance_run(&b, &day);
    double above = 1 - h.kind->root_share;
    double respired = day.sums.upkeep + day.sums.growth * (1 / h.kind->growth_yield - 1);
    return (struct gases){CO2_OF_SUGAR * day.sums.supply / above, CO2_OF_SUGAR * respired / above};
}

double support_random(unsigned long long *state)
{
    *state ^= *state >> 12;
    *state ^= *state << 25;
    *state ^= *state >> 27;
    return (double)((*state * 2685821657736338717ull) >> 11) / 9007199254740992.0;
}

/* Uniform noise of one day, -1..1, the same whenever it is asked for. */
static double noise(const struct climate *c, int date, unsigned what)
{
    unsigned long long state = 88172645463325252ull ^ ((unsigned long long)(unsigned)date * 2654435761u) ^
                               ((unsigned long long)(c->seed * 8 + what + 1) << 40);
    for (int i = 0; i < 8; i++) {
        support_random(&state);
    }
    return 2 * support_random(&state) - 1;
}

/* Warmest on the day 200 of the northern year; half a year later in the south. */
static double seasonal(const struct climate *c, int day_of_year)
{
    double s = cos(2 * NUM_PI * (day_of_year - 200) / 365.25);
    return c->latitude < 0 ? -s : s;
}

static void temperatures(const struct climate *c, int date, double *tmin, double *tmax)
{
    double mean = c->t_mean + c->t_swing * seasonal(c, date_day_of_year(date)) + c->warming;
    mean += c->noise * noise(c, date, 0);
    *tmin = mean - 0.5 * c->t_range;
    *tmax = mean + 0.5 * c->t_range;
}

struct sward_weather support_climate(const struct climate *c, int date)
{
    struct sward_weather w = {.date = date};
    double unused, shower = noise(c, date, 1);
    temperatures(c, date, &w.tmin, &w.tmax);
    temperatures(c, date - 1, &unused, &w.tmax_before);
    temperatures(c, date + 1, &w.tmin_after, &unused);
    w.rad = c->clearness * (1 + 0.4 * noise(c, date, 2)) * sun_extraterrestrial(date_day_of_year(date), c->latitude);
    w.rain = shower > 0.2 ? c->rain / 0.4 : 0;
    w.et0 = c->et0_summer * (0.55 + 0.45 * seasonal(c, date_day_of_year(date)));
    return w;
}
