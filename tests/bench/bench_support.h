/* What the benches share: processor time, so that what else runs on the machine counts
 * little; medians; arrays and files of raw doubles. They end the program when they fail.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_BENCH_SUPPORT_H
#define SUGARLEA_BENCH_SUPPORT_H

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

static inline double bench_now_ns(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return 1e9 * (double)t.tv_sec + (double)t.tv_nsec;
}

static inline int bench_by_size(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Sorts x. */
static inline double bench_median(double *x, size_t n)
{
    qsort(x, n, sizeof *x, bench_by_size);
    return x[n / 2];
}

static inline void *bench_room(size_t n, size_t size)
{
    void *room = calloc(n, size);
    if (!room) {
        fprintf(stderr, "bench: out of memory\n");
        exit(71);
    }
    return room;
}

static inline double *bench_array(size_t n)
{
    return bench_room(n, sizeof(double));
}

static inline void bench_keep(const char *folder, const char *name, const double *x, size_t n)
{
    char path[4096];
    snprintf(path, sizeof path, "%s/%s.f64", folder, name);
    FILE *f = fopen(path, "wb");
    size_t written = f ? fwrite(x, sizeof *x, n, f) : 0;
    if (!f || fclose(f) != 0 || written != n) {
        fprintf(stderr, "bench: cannot write %s\n", path);
        exit(73);
    }
}

#endif
