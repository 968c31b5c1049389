/* Reference evapotranspiration over arrays: bench_et0 FOLDER SITES YEARS writes what it
 * reads (raw doubles, site after site) and what it finds, and prints ns of processor time
 * a site-day, the median of nine. et0_numpy.py reads the same.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/date.h"
#include "bench/bench_support.h"
#include "physics/et0.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { TRIES = 9, COLUMNS = 5 };

static const char *const column_name[COLUMNS] = {"tmin", "tmax", "rad", "rh", "wind"};

static void fill(double *x[COLUMNS], size_t n)
{
    for (size_t i = 0; i < n; i++) {
        double k = (double)i, season = sin(k * 0.0172 - 1.9);
        x[0][i] = 5 + 7 * season + 4 * sin(k * 1.7);
        x[1][i] = x[0][i] + 8 + 5 * sin(k * 0.9);
        x[2][i] = 11 + 8 * season + 2 * sin(k * 2.3);
        x[3][i] = 75 + 20 * sin(k * 0.7);
        x[4][i] = 2.5 + 2.4 * sin(k * 0.3);
    }
}

int main(int argc, char **argv)
{
    size_t sites = argc == 4 ? (size_t)atoi(argv[2]) : 0, days = argc == 4 ? (size_t)(atoi(argv[3]) * 365.25) : 0;
    size_t n = sites * days;
    double *x[COLUMNS + 1], took[TRIES];
    if (n == 0) {
        fprintf(stderr, "bench_et0 FOLDER SITES YEARS\n");
        return 64;
    }
    for (size_t i = 0; i <= COLUMNS; i++) {
        x[i] = bench_array(n);
    }
    fill(x, n);
    for (size_t k = 0; k < TRIES; k++) {
        double start = bench_now_ns();
        for (size_t s = 0; s < sites; s++) {
            const size_t at = s * days;
            const struct et0_columns in = {
                .tmin = x[0] + at, .tmax = x[1] + at, .rad = x[2] + at, .rh = x[3] + at, .wind = x[4] + at};
            et0_days(&in, days, date_make(1991, 1, 1), 40 + 0.1 * (double)s, 100, x[COLUMNS] + at);
        }
        took[k] = (bench_now_ns() - start) / (double)n;
    }
    for (size_t i = 0; i < COLUMNS; i++) {
        bench_keep(argv[1], column_name[i], x[i], n);
    }
    printf("ns %.2f %zu %zu\n", bench_median(took, TRIES), sites, days);
    bench_keep(argv[1], "et0", x[COLUMNS], n);
    return 0;
}
