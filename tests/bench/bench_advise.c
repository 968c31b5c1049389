/* What an advice costs, animal by animal, over random grass. Prints us per advice and
 * a checksum of the hours. SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/advice_support.h"

#include <math.h>
#include <stdio.h>
#include <time.h>

enum { DAYS = 1000 };

static double now_us(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return 1e6 * (double)t.tv_sec + 1e-3 * (double)t.tv_nsec;
}

static struct advice_grass random_grass(unsigned long long *seed)
{
    struct advice_grass g = advice_flat_grass(0.0);
    double level = 70.0 + 150.0 * advice_random(seed);
    double swing = 20.0 + 20.0 * advice_random(seed);
    for (int i = 0; i < 24; i++) {
        g.nsc[i] = level + swing * sin((i - 10.0) * 0.2617993878);
    }
    g.ln_sd = 0.36;
    return g;
}

static void bench(const char *class_id, bool muzzle)
{
    static struct advice_grass day[DAYS];
    const struct advice_limits *l = &support_params()->limits;
    struct advice_tables tables;
    struct advice_subject s;
    struct advice a;
    unsigned long long seed = 1;
    advice_tables_make(l, &tables);
    advice_subject(&s, class_id);
    s.rules.muzzle_offered = muzzle;
    for (int i = 0; i < DAYS; i++) {
        day[i] = random_grass(&seed);
    }
    double sum = 0.0, start = now_us();
    for (int i = 0; i < DAYS; i++) {
        advise_with(&tables, &day[i], &s.animal, l, &a);
        sum += a.hours;
    }
    double batch = now_us() - start;
    start = now_us();
    for (int i = 0; i < DAYS; i++) {
        advise(&day[i], &s.animal, l, &a);
    }
    double alone = now_us() - start;
    start = now_us();
    for (int i = 0; i < DAYS; i++) {
        advise_plainly(&tables, &day[i], &s.animal, l, &a);
    }
    printf("%-26s %5.1f us an advice, %5.1f with its own tables, %5.1f without reasons   checksum %.1f\n", class_id,
           batch / DAYS, alone / DAYS, (now_us() - start) / DAYS, sum);
}

int main(void)
{
    bench("horse", false);
    bench("pony", true);
    bench("equid-at-risk", true);
    bench("equid-laminitis-history", true);
    bench("goat-lactating", false);
    return 0;
}
