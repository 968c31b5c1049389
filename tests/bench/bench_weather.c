/* What the checks and the filling of a record cost, by its length: the shipped record of
 * De Bilt, its days repeated to make decades. Prints ms and ns a day; a morning's whole
 * budget is 15 ms for two years. SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/sward_support.h"
#include "weather/quality.h"
#include "weather/weather.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { ROUNDS = 5, YEARS_MOST = 40 };

static const struct site place = {.latitude = 52.1, .longitude = 5.2, .elevation_m = 2};

static double now_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return 1e3 * (double)t.tv_sec + 1e-6 * (double)t.tv_nsec;
}

/* n days from the record, begun again when it ends; every 50th day is missing. */
static bool repeat(const struct weather_days *from, size_t n, struct arena *a, struct weather_days *w)
{
    unsigned vars = 0;
    for (int v = 0; v < WEATHER_VARS; v++) {
        vars |= from->col[v] ? 1u << v : 0;
    }
    if (!weather_days_alloc(w, a, from->day0, n, vars)) {
        return false;
    }
    for (size_t i = 0; i < n; i++) {
        size_t k = i % (from->n / 1461 * 1461); /* whole leap cycles */
        bool gone = i % 50 == 25;
        w->origin[i] = gone ? ORIGIN_NONE : from->origin[k];
        for (int v = 0; v < WEATHER_VARS; v++) {
            if (from->col[v]) {
                w->col[v][i] = gone ? (double)NAN : from->col[v][k];
            }
        }
    }
    return true;
}

static bool bench(const struct weather_days *record, size_t years)
{
    double check = 0, fill = 0;
    size_t n = years * 365, doubts = 0;
    for (int round = 0; round < ROUNDS; round++) {
        struct arena a;
        struct weather_days w;
        struct quality q;
        struct weather_report report;
        struct err e;
        arena_init(&a);
        if (!repeat(record, n, &a, &w)) {
            return false;
        }
        double start = now_ms();
        bool good = quality_check(&w, &place, &support_params()->quality, &a, &q, &e) == ERR_OK;
        double checked = now_ms();
        good = good && weather_complete(&w, &place, &support_params()->limits, &a, &report, &e) == ERR_OK;
        check += (checked - start) / ROUNDS;
        fill += (now_ms() - checked) / ROUNDS;
        doubts = q.total;
        arena_release(&a);
        if (!good) {
            return false;
        }
    }
    printf("%2zu years: checks %6.2f ms (%4.0f ns a day), filling %6.2f ms (%4.0f ns a day), %zu doubts\n", years,
           check, 1e6 * check / (double)n, fill, 1e6 * fill / (double)n, doubts);
    return true;
}

int main(void)
{
    static const size_t years[] = {2, 10, YEARS_MOST};
    struct arena a;
    struct weather_set set;
    struct err e;
    arena_init(&a);
    bool good = weather_read("data/real/de_bilt_2005-2019.csv", NULL, &a, &set, &e) == ERR_OK;
    for (size_t i = 0; good && i < sizeof years / sizeof years[0]; i++) {
        good = bench(&set.site[0].days, years[i]);
    }
    arena_release(&a);
    return good ? EXIT_SUCCESS : EXIT_FAILURE;
}
