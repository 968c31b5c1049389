/* How fast weather is read: one large file of many sites, and a decade of one farm.
 *
 *   bench_reader --make FILE [SITES YEARS]   writes the invented file, always the same
 *   bench_reader FILE                        times weather_read on it, and the floor
 *
 * The companion bench_reader.sh makes the file in a temporary folder, runs this and
 * R's fread on it, and prints the ratio. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/weather.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>
#include <unistd.h>

#define RUNS 3
#define FARM_RUNS 101

static double seconds(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static double median(double *x, size_t n)
{
    qsort(x, n, sizeof *x, by_size);
    return x[n / 2];
}

/* Numerical Recipes' "quick and dirty" generator: the same file on every machine. */
static unsigned draw(unsigned *state, unsigned below)
{
    *state = *state * 1664525u + 1013904223u;
    return (*state >> 8) % below;
}

static void write_day(FILE *out, const char *site, date_t date, unsigned *state)
{
    char text[DATE_TEXT];
    int doy = date_day_of_year(date);
    int season = doy < 183 ? doy : 366 - doy; /* 0 midwinter .. 183 midsummer */
    double tmin = -8 + season * 0.1 + draw(state, 100) * 0.1, range = 2 + draw(state, 140) * 0.1;
    unsigned wet = draw(state, 2);
    fprintf(out, "%s%s,%.1f,%.1f,%g,%.1f,%u,%.1f\n", site, date_format(date, text), tmin, tmin + range,
            wet ? draw(state, 250) * 0.1 : 0.0, 1 + season * 0.12 + draw(state, 500) * 0.01, 50 + draw(state, 50),
            draw(state, 90) * 0.1);
}

static int make(const char *path, int sites, int years)
{
    FILE *out = fopen(path, "w");
    unsigned state = 1;
    if (!out) {
        perror(path);
        return 1;
    }
    fprintf(out, "%sdate,tmin_c,tmax_c,rain_mm,rad_mj_m2,rh_pct,wind_m_s\n", sites > 1 ? "site," : "");
    date_t first = date_make(2010, 1, 1), after = date_make(2010 + years, 1, 1);
    for (int s = 0; s < sites; s++) {
        char site[16] = "";
        if (sites > 1) {
            snprintf(site, sizeof site, "S%d,", s);
        }
        for (date_t d = first; d < after; d++) {
            write_day(out, site, d, &state);
        }
    }
    return fclose(out) == 0 ? 0 : 1;
}

/* Bytes read in blocks and their newlines counted: nothing that reads can be faster. */
static double floor_seconds(const char *path)
{
    static char block[1u << 20];
    double start = seconds();
    int fd = open(path, O_RDONLY);
    volatile size_t lines = 0;
    for (ssize_t got; fd >= 0 && (got = read(fd, block, sizeof block)) > 0;) {
        for (const char *p = block; (p = memchr(p, '\n', (size_t)(block + got - p))); p++) {
            lines = lines + 1;
        }
    }
    close(fd);
    return seconds() - start;
}

static double read_seconds(const char *path, size_t *rows, double *bytes)
{
    struct arena a;
    struct weather_set set;
    struct err e;
    arena_init(&a);
    err_clear(&e);
    double start = seconds();
    enum err_code code = weather_read(path, NULL, &a, &set, &e);
    double took = seconds() - start;
    *rows = 0;
    *bytes = 0;
    for (size_t i = 0; code == ERR_OK && i < set.n; i++) {
        *rows += set.site[i].days.n;
        for (int v = 0; v < WEATHER_VARS; v++) {
            *bytes += set.site[i].days.col[v] ? 8.0 * (double)set.site[i].days.n : 0;
        }
    }
    if (code != ERR_OK) {
        fprintf(stderr, "bench_reader: %s\n", e.what);
        exit(1);
    }
    arena_release(&a);
    return took;
}

int main(int argc, char **argv)
{
    if (argc >= 3 && strcmp(argv[1], "--make") == 0) {
        return make(argv[2], argc > 4 ? atoi(argv[3]) : 2000, argc > 4 ? atoi(argv[4]) : 10);
    }
    if (argc != 2) {
        fputs("bench_reader: run through tests/bench/bench_reader.sh\n", stderr);
        return 0;
    }
    double took[FARM_RUNS], bytes;
    size_t rows, runs = 1;
    for (size_t i = 0; i < runs; i++) {
        took[i] = read_seconds(argv[1], &rows, &bytes);
        runs = i == 0 ? (took[0] < 0.1 ? FARM_RUNS : RUNS) : runs;
    }
    struct rusage use;
    getrusage(RUSAGE_SELF, &use);
    double middle = median(took, runs);
    printf("rows %zu\nseconds %.6f %.6f\nfloor_seconds %.6f\ncolumn_mb %.1f\npeak_mb %.1f\n", rows, middle, took[0],
           floor_seconds(argv[1]), bytes / 1e6, (double)use.ru_maxrss * 1024 / 1e6);
    return 0;
}
