/* Rain against what the rest of the day leads one to expect. A rain of 30 mm is nothing
 * odd on a dark, damp day and very odd under the sun; so the days are put in groups by
 * the rain that sun, humidity and temperatures lead one to expect. In each group the
 * tail of the amounts is taken to fall by a power (Pareto's law),
 * as it does from drizzle to cloudburst, and rain so large that hardly a day in a
 * thousand of that group would have it is doubted. Where the file has neither sun nor
 * humidity little is left of the groups, and only very large rain is doubted.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/quality_expect.h"

#include <math.h>
#include <string.h>

#define GROUPS 12       /* of equal size: our judgement */
#define QUANTILE 0.95   /* of a group's rain, above which its tail begins: our judgement */
#define LEAST_MM 1.0    /* and where that is less, from here: a wet day by the usual count */
#define LEAST_TAIL 8    /* days of a tail that say how it falls */
#define USUAL_FALL 0.5  /* as a tail with fewer falls: our judgement */
#define DOUBT_MM 5.0    /* smaller rain is of no account to the grass, whatever the day */
#define FEW_YEARS 1.0   /* so few know little of large rain: our judgement */
#define RAIN_STEP 0.25  /* mm, of the histogram */
#define ROOT_LOW (-2.0) /* expected roots of rain, in the measure of expect.c, from here */
#define ROOT_STEP 0.01

struct group {
    uint32_t rain[QUALITY_BINS], days;
    double limit; /* mm */
};

struct groups {
    uint16_t of[QUALITY_BINS]; /* of a bin of expected rain */
    struct group group[GROUPS];
};

static size_t bin(double x, double low, double step)
{
    double at = (x - low) / step;
    return (size_t)(at < 0 ? 0 : at > QUALITY_BINS - 1 ? QUALITY_BINS - 1 : at);
}

/* Bin of the rain expected of each day; days without rain read keep bin 0. */
static void expect_rain(const struct quality_work *k, const struct expect *x, uint16_t *expected)
{
    for (size_t i = 0; i < k->n; i++) {
        struct expect_day d;
        if (!isnan(k->x[WEATHER_RAIN][i])) {
            expect_day(k, x, i, &d);
            expected[i] = (uint16_t)bin(expect_predict(k, x, &d, RAIN_AROUND), ROOT_LOW, ROOT_STEP);
        }
    }
}

static void make_groups(const struct quality_work *k, const uint16_t *expected, struct groups *g)
{
    uint32_t count[QUALITY_BINS] = {0}, below = 0;
    for (size_t i = 0; i < k->n; i++) {
        count[expected[i]] += !isnan(k->x[WEATHER_RAIN][i]);
    }
    for (size_t b = 0; b < QUALITY_BINS; b++) {
        g->of[b] = (uint16_t)((uint64_t)below * GROUPS / (k->count[WEATHER_RAIN] + 1));
        below += count[b];
    }
    for (size_t i = 0; i < k->n; i++) {
        if (!isnan(k->x[WEATHER_RAIN][i])) {
            struct group *at = &g->group[g->of[expected[i]]];
            at->rain[bin(k->x[WEATHER_RAIN][i], 0, RAIN_STEP)]++;
            at->days++;
        }
    }
}

/* The amount that a share of the group's days stays under, mm. */
static double quantile(const struct group *g, double share)
{
    double below = 0, wanted = share * g->days;
    size_t b = 0;
    while (b < QUALITY_BINS - 1 && below + g->rain[b] < wanted) {
        below += g->rain[b++];
    }
    double within = g->rain[b] ? (wanted - below) / g->rain[b] : 0;
    return ((double)b + within) * RAIN_STEP;
}

/* Where the tail begins and how it falls; by its middle, which a few faults do not move. */
static double limit_of(const struct group *g, double chance)
{
    double tail = 1 - QUANTILE, from = quantile(g, QUANTILE), fall = USUAL_FALL;
    while (from < LEAST_MM && tail * g->days >= 2 * LEAST_TAIL) { /* hardly ever wet: further up, not to a lone day */
        tail /= 2;
        from = quantile(g, 1 - tail);
    }
    if (tail * g->days >= LEAST_TAIL) {
        fall = log(quantile(g, 1 - tail / 2) / from) / log(2);
    }
    return fmax(from, LEAST_MM) * pow(fmax(tail / chance, 1), fall);
}

/* More expected rain never means a lower limit. */
static void set_limits(const struct quality_work *k, struct groups *g)
{
    double limit = DOUBT_MM, years = quality_years(k, WEATHER_RAIN);
    double chance = k->limits->rain_chance * years / (years + FEW_YEARS);
    for (struct group *at = g->group; at < g->group + GROUPS; at++) {
        limit = fmax(limit, limit_of(at, chance));
        at->limit = limit;
    }
}

bool quality_rain(struct quality_work *k, const struct expect *x)
{
    if (!quality_enough(k, WEATHER_RAIN)) {
        return true;
    }
    uint16_t *expected = arena_alloc(k->arena, k->n, sizeof *expected);
    struct groups *g = arena_alloc(k->arena, 1, sizeof *g);
    if (!expected || !g) {
        return false;
    }
    expect_rain(k, x, expected);
    make_groups(k, expected, g);
    set_limits(k, g);
    for (size_t i = 0; i < k->n; i++) {
        double limit = g->group[g->of[expected[i]]].limit;
        if (k->x[WEATHER_RAIN][i] > limit) {
            quality_name(k, DOUBT_RAIN, WEATHER_RAIN, i, limit);
        }
    }
    return true;
}
