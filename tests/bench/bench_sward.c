/* What a day of one paddock costs: the weather's course and the sward's step.
 * Prints ns per site-day and a checksum of the sugar, so that a faster build can be
 * seen to give the same answer. SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/sward_support.h"

#include <stdio.h>
#include <time.h>

#define YEARS 30
#define DAYS (YEARS * 365)

static const struct climate climate = {.latitude = 52,
                                       .t_mean = 10,
                                       .t_swing = 7,
                                       .t_range = 8,
                                       .clearness = 0.42,
                                       .rain = 2.3,
                                       .et0_summer = 3.4,
                                       .noise = 4,
                                       .seed = 1};

static double now_ns(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return 1e9 * (double)t.tv_sec + (double)t.tv_nsec;
}

static void report(const char *what, double ns, double sum)
{
    printf("%-40s %7.0f ns per site-day   checksum %.6f\n", what, ns / DAYS, sum);
}

static void bench_make(const struct sward_weather *w, const struct sward_place *place)
{
    struct sward_day d;
    double sum = 0, start = now_ns();
    for (size_t i = 0; i < DAYS; i++) {
        sward_day_make(&d, &w[i], place);
        sum += d.temperature[12];
    }
    report("sward_day_make", now_ns() - start, sum);
}

static void bench_step(const char *what, struct sward s, const struct sward_weather *w, const struct sward_place *place)
{
    double sum = 0, start = now_ns();
    for (size_t i = 0; i < DAYS; i++) {
        struct sward_day d;
        struct sward_result r;
        sward_day_make(&d, &w[i], place);
        sward_step(&s, &d, &r);
        sward_graze_to_cover(&s, 1800);
        sum += r.nsc_mean;
    }
    report(what, now_ns() - start, sum);
}

int main(void)
{
    static struct sward_weather w[DAYS];
    const struct sward_place place = {.latitude = climate.latitude};
    static const char *const mix[] = {"ryegrass", "cocksfoot", "white-clover"};
    static const double share[] = {0.5, 0.3, 0.2};
    for (int i = 0; i < DAYS; i++) {
        w[i] = support_climate(&climate, i);
    }
    bench_make(w, &place);
    bench_step("make, step and graze, one grass", support_ryegrass(), w, &place);
    bench_step("make, step and graze, mixture of three", support_sward(3, mix, share), w, &place);
    return 0;
}
