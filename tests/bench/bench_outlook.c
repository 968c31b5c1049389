/* What an outlook costs: 30 years x 50 drawn paddocks x 180 days, as a multiple of as many
 * steps of the sward (each day's sun and hours made anew), for a cheap and a dear class.
 * The advice of each of these mornings is in it. SPDX-License-Identifier: GPL-3.0-or-later */
#include "season/ensemble.h"
#include "support/sward_support.h"

#include <stdio.h>
#include <time.h>

enum { YEARS = 30, DRAWS = 50, DAYS = 180, SPIN_UP = 400 };

static const struct climate mild = {.latitude = 52,
                                    .t_mean = 10,
                                    .t_swing = 7,
                                    .t_range = 8,
                                    .clearness = 0.42,
                                    .rain = 2.3,
                                    .et0_summer = 3.4,
                                    .noise = 4,
                                    .seed = 1};
static struct run_day day[YEARS * DAYS];

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static void make_days(void)
{
    for (size_t y = 0; y < YEARS; y++) {
        struct climate c = mild;
        c.seed = 2 + (unsigned)y;
        for (size_t k = 0; k < DAYS; k++) {
            struct run_day *d = &day[y * DAYS + k];
            d->recorded = support_climate(&c, (int)(SPIN_UP + k));
            d->morning = d->recorded;
            d->morning.tmax += 1.0;
            d->assumed = true;
        }
    }
}

/* Seconds of one site-day of the sward alone. */
static double step_cost(void)
{
    const struct sward_place place = {.latitude = mild.latitude};
    struct sward s = support_ryegrass();
    double start = now_s();
    for (int k = 0; k < YEARS * DAYS; k++) {
        struct sward_day d;
        struct sward_result r;
        sward_day_make(&d, &day[k].recorded, &place);
        sward_step(&s, &d, &r);
        sward_graze_to_cover(&s, 1800);
    }
    return (now_s() - start) / (YEARS * DAYS);
}

static void bench(const char *class_id, unsigned threads, double step)
{
    struct arena a;
    struct holding h;
    struct run r;
    struct ensemble e;
    struct err err;
    const struct holding_options o = {.latitude = 52,
                                      .longitude = 5,
                                      .elevation_m = 0,
                                      .animal = class_id,
                                      .grass = "ryegrass",
                                      .weight_kg = __builtin_nan(""),
                                      .cover_kg_ha = 1800,
                                      .weather_file = "none"};
    arena_init(&a);
    if (holding_from_options(&o, support_params(), &a, &h, &err) != ERR_OK || !run_init(&r, support_params(), &h, &a)) {
        fprintf(stderr, "bench_outlook: %s\n", err.what);
        return;
    }
    for (int i = 0; i < SPIN_UP; i++) {
        const struct sward_weather w = support_climate(&mild, i);
        const struct run_day d = {.recorded = w, .morning = w};
        run_evening(&r, &d);
    }
    struct ensemble_ask ask = {
        .now = &r, .years = YEARS, .days = DAYS, .draws = DRAWS, .day = day, .seed = 1, .threads = threads};
    ensemble_doubts(&support_params()->list, ask.doubt);
    double start = now_s(), sum = 0.0;
    if (!ensemble_run(&ask, &a, &e)) {
        fprintf(stderr, "bench_outlook: out of memory\n");
        return;
    }
    double took = now_s() - start;
    for (size_t i = 0; i < e.members * e.days; i++) {
        sum += (double)e.hours[i];
    }
    printf("%-16s %u threads: %5.2f s, %4.1f of a sward's step each   checksum %.1f\n", class_id, threads, took,
           took / ((double)(YEARS * DRAWS * DAYS) * step), sum);
    arena_release(&a);
}

int main(void)
{
    static const char *const class_id[] = {"goat-dry", "equid-at-risk"};
    make_days();
    double step = step_cost();
    for (size_t i = 0; i < sizeof class_id / sizeof class_id[0]; i++) {
        for (unsigned threads = 1; threads <= 2; threads++) {
            bench(class_id[i], threads, step);
        }
    }
    return 0;
}
