/* A site-day among many: members of one weather with soils, nitrogen and sugar of their
 * own, stepped and grazed. bench_members FOLDER DAYS MEMBERS writes what it reads and finds
 * (raw doubles) for sward_numpy.py, and prints ns of processor time a site-day, the median
 * of five. SPDX-License-Identifier: GPL-3.0-or-later */
#include "bench/bench_support.h"
#include "support/sward_support.h"
#include "sward/many.h"

#include <stdio.h>
#include <stdlib.h>

enum { TRIES = 5, WEATHER_COLUMNS = 9, MEMBER_COLUMNS = 3 };

static const struct climate climate = {.latitude = 52,
                                       .t_mean = 10,
                                       .t_swing = 7,
                                       .t_range = 8,
                                       .clearness = 0.42,
                                       .rain = 2.3,
                                       .et0_summer = 3.4,
                                       .noise = 4,
                                       .seed = 1};

struct work {
    size_t days, members;
    double *weather, *member, *growth, *nsc;
    struct sward *sward;
    struct sward_result *result;
};

static void start(struct work *w)
{
    const struct sward plain = support_ryegrass();
    for (size_t m = 0; m < w->members; m++) {
        double part = (double)m / (double)w->members, *own = w->member + m;
        w->sward[m] = plain;
        own[0] = w->sward[m].capacity_mm = 60 + 120 * part;
        own[w->members] = w->sward[m].nitrogen = 1.1 - 0.4 * part * part;
        own[2 * w->members] = w->sward[m].own[0].half_sugar = 0.12 + 0.06 * part * (1 - part);
    }
}

static void make_day(const struct work *w, size_t i, struct sward_day *d)
{
    const struct sward_weather x = support_climate(&climate, (int)i);
    double length = support_day_length(climate.latitude, (int)(i % 365) + 1), *row = w->weather + i * WEATHER_COLUMNS;
    const double all[] = {x.date, x.tmin, x.tmax, x.rad, x.rain, x.et0, x.tmax_before, x.tmin_after, length};
    for (size_t k = 0; k < WEATHER_COLUMNS; k++) {
        row[k] = all[k];
    }
    sward_day_force(d, &x, length, false, false);
}

static void run(const struct work *w)
{
    for (size_t i = 0; i < w->days; i++) {
        struct sward_day d;
        make_day(w, i, &d);
        sward_step_many(w->sward, w->members, 1, &d, w->result);
        for (size_t m = 0; m < w->members; m++) {
            sward_graze_to_cover(&w->sward[m], 1800);
            w->growth[i * w->members + m] = w->result[m].growth;
            w->nsc[i * w->members + m] = w->result[m].nsc_mean;
        }
    }
}

int main(int argc, char **argv)
{
    if (argc != 4) {
        fprintf(stderr, "bench_members FOLDER DAYS MEMBERS\n");
        return 64;
    }
    struct work w = {.days = (size_t)atoi(argv[2]), .members = (size_t)atoi(argv[3])};
    double took[TRIES];
    w.weather = bench_array(w.days * WEATHER_COLUMNS);
    w.member = bench_array(w.members * MEMBER_COLUMNS);
    w.growth = bench_array(w.days * w.members);
    w.nsc = bench_array(w.days * w.members);
    w.sward = bench_room(w.members, sizeof *w.sward);
    w.result = bench_room(w.members, sizeof *w.result);
    for (size_t k = 0; k < TRIES; k++) {
        start(&w);
        double begun = bench_now_ns();
        run(&w);
        took[k] = (bench_now_ns() - begun) / (double)(w.days * w.members);
    }
    bench_keep(argv[1], "weather", w.weather, w.days * WEATHER_COLUMNS);
    bench_keep(argv[1], "member", w.member, w.members * MEMBER_COLUMNS);
    bench_keep(argv[1], "growth", w.growth, w.days * w.members);
    bench_keep(argv[1], "nsc", w.nsc, w.days * w.members);
    printf("ns %.1f %zu %zu\n", bench_median(took, TRIES), w.days, w.members);
    return 0;
}
