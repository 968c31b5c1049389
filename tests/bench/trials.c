/* Growth against measurement, and long records against our reference figures:
 *
 *   trials MODELS DATA [DAILY]
 *
 * DATA holds growth-trials.csv with growth-trial-daily.csv, and may hold
 * posieux-growth.csv with posieux-daily.csv and sward-trajectory.csv; DAILY holds
 * long daily records. The protocol stands in models/METHOD.md. Exit 1 when the RMSE
 * over all months is above the bar. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/date.h"
#include "support/growth_trial.h"
#include "support/sward_support.h"
#include "support/trajectory.h"
#include "support/whole_record.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define RMSE_BAR 22.0 /* kg DM/ha/d */

struct score {
    double squares, model, measured; /* sums; kg DM/ha/d */
    size_t n;
};

static void add(struct score *s, double model, double measured)
{
    s->squares += (model - measured) * (model - measured);
    s->model += model;
    s->measured += measured;
    s->n++;
}

static double rmse(const struct score *s)
{
    return s->n ? sqrt(s->squares / (double)s->n) : (double)NAN;
}

static void path_of(char *path, size_t size, const char *folder, const char *name)
{
    snprintf(path, size, "%s/%s", folder, name);
}

struct trials { /* the two files, and what was found */
    struct table measured, weather;
    struct score all, month[12];
    double model_t, measured_t; /* season totals over the months compared, summed over runs */
    size_t runs;
};

static bool same_run(const struct table *t, size_t a, size_t b)
{
    static const char *const key[] = {"site", "year", "water", "plot"};
    for (size_t i = 0; i < 4; i++) {
        size_t c = table_column(t, key[i]);
        if (strcmp(table_text(t, a, c), table_text(t, b, c)) != 0) {
            return false;
        }
    }
    return true;
}

/* The rows of one run from `row` on; the row after them. */
static size_t score_run(struct trials *t, const struct daily *d, size_t row, struct score *site)
{
    const struct table *m = &t->measured;
    size_t growth = table_column(m, "growth_kg_dm_ha_d"), month_of = table_column(m, "month"), first = row;
    double month[12];
    int year = atoi(table_text(m, row, table_column(m, "year")));
    bool irrigated = strcmp(table_text(m, row, table_column(m, "water")), "irrigated") == 0;
    if (!growth_trial_year(d, table_number(m, row, table_column(m, "lat")), year, irrigated, month)) {
        fprintf(stderr, "trials: no weather for %s %d\n", table_text(m, row, 0), year);
        exit(66);
    }
    for (; row < m->rows && same_run(m, first, row); row++) {
        int mo = atoi(table_text(m, row, month_of)) - 1;
        double want = table_number(m, row, growth), days = date_days_in_month(year, mo + 1);
        add(site, month[mo], want);
        add(&t->all, month[mo], want);
        add(&t->month[mo], month[mo], want);
        t->model_t += month[mo] * days / 1000;
        t->measured_t += want * days / 1000;
    }
    t->runs++;
    return row;
}

/* All runs of a site stand together in the file. */
static size_t score_site(struct trials *t, size_t row)
{
    const struct table *m = &t->measured;
    size_t site = table_column(m, "site");
    const char *name = table_text(m, row, site);
    struct score s = {0};
    struct daily d;
    if (!daily_read(&d, &t->weather, name, table_number(m, row, table_column(m, "lat")), NAN)) {
        daily_free(&d);
        while (row < m->rows && strcmp(table_text(m, row, site), name) == 0) {
            row++;
        }
        return row;
    }
    while (row < m->rows && strcmp(table_text(m, row, site), name) == 0) {
        row = score_run(t, &d, row, &s);
    }
    printf("%-16s RMSE %5.1f n %3zu  model %5.1f measured %5.1f\n", name, rmse(&s), s.n, s.model / (double)s.n,
           s.measured / (double)s.n);
    daily_free(&d);
    return row;
}

static void print_months(const struct trials *t)
{
    printf("month means, measured/model:");
    for (int m = 0; m < 12; m++) {
        const struct score *s = &t->month[m];
        if (s->n > 0) {
            printf(" %d %.0f/%.0f", m + 1, s->measured / (double)s->n, s->model / (double)s->n);
        }
    }
    printf("\n");
}

static bool run_trials(const char *folder)
{
    static struct trials t;
    char path[4096];
    path_of(path, sizeof path, folder, "growth-trials.csv");
    bool read = table_read(&t.measured, path);
    path_of(path, sizeof path, folder, "growth-trial-daily.csv");
    if (!read || !table_read(&t.weather, path)) {
        fprintf(stderr, "trials: %s: growth-trials.csv and growth-trial-daily.csv are needed\n", folder);
        exit(66);
    }
    for (size_t row = 0; row < t.measured.rows;) {
        row = score_site(&t, row);
    }
    print_months(&t);
    printf("season over the months compared, %zu runs: model %.2f t, measured %.2f t\n", t.runs,
           t.model_t / (double)t.runs, t.measured_t / (double)t.runs);
    printf("all RMSE %.2f n %zu %s\n", rmse(&t.all), t.all.n, rmse(&t.all) <= RMSE_BAR ? "pass" : "FAIL");
    table_free(&t.measured);
    table_free(&t.weather);
    return rmse(&t.all) <= RMSE_BAR;
}

static void score_plots(const struct table *measured, const struct daily *d, const char *grass, bool snow_rule)
{
    const struct growth_trial_plots p = {.grass = grass,
                                         .latitude = 46.77,
                                         .capacity_mm = 130,
                                         .nitrogen = 0.9,
                                         .first_cut = 75,
                                         .snow_rule = snow_rule};
    size_t date = table_column(measured, "end_of_fortnight"), value = table_column(measured, "growth_kg_dm_ha_d");
    double *growth = calloc(d->n + 1, sizeof *growth);
    struct score s = {0};
    if (!growth) {
        abort();
    }
    growth_trial_plots(d, &p, growth);
    for (size_t row = 0; row < measured->rows; row++) {
        size_t end = daily_index(d, table_date(measured, row, date));
        double mean = 0;
        for (size_t k = 0; k < 14 && end < d->n && end >= k; k++) {
            mean += growth[end - k] / 14;
        }
        add(&s, mean, table_number(measured, row, value));
    }
    printf("Posieux, %s%s: RMSE %.1f n %zu, model %.1f measured %.1f\n", grass, snow_rule ? ", snow rule" : "",
           rmse(&s), s.n, s.model / (double)s.n, s.measured / (double)s.n);
    free(growth);
}

static void run_posieux(const char *folder)
{
    struct table measured, weather;
    struct daily d;
    char path[4096];
    path_of(path, sizeof path, folder, "posieux-growth.csv");
    if (!table_read(&measured, path)) {
        return;
    }
    path_of(path, sizeof path, folder, "posieux-daily.csv");
    if (table_read(&weather, path) && daily_read(&d, &weather, NULL, 46.77, NAN)) {
        score_plots(&measured, &d, "ryegrass", false);
        score_plots(&measured, &d, "unknown-mixed", false);
        score_plots(&measured, &d, "unknown-mixed", true);
        daily_free(&d);
    }
    table_free(&measured);
    table_free(&weather);
}

static bool run_trajectory(const char *folder)
{
    static const char *const runs[] = {"cut", "grazed"};
    struct table t;
    char path[4096];
    bool good = true;
    path_of(path, sizeof path, folder, "sward-trajectory.csv");
    if (!table_read(&t, path)) {
        return true;
    }
    for (size_t i = 0; i < 2; i++) {
        struct trajectory_result r = trajectory_compare(&t, runs[i], 50.77);
        bool pass = r.worst_relative <= TRAJECTORY_RELATIVE && r.worst_nsc <= TRAJECTORY_NSC;
        printf("trajectory %s, %zu days: off by at most %.2g relative, %.2g g/kg %s\n", runs[i], r.days,
               r.worst_relative, r.worst_nsc, pass ? "pass" : "FAIL");
        good = good && pass;
    }
    table_free(&t);
    return good;
}

static void print_record(const char *name, const struct whole_record *w)
{
    printf("%-28s NSC   ", name);
    for (int m = 0; m < 12; m++) {
        printf(" %3.0f", w->nsc[m]);
    }
    printf("\n%-28s growth", "");
    for (int m = 0; m < 12; m++) {
        printf(" %3.0f", w->growth[m]);
    }
    printf("\n");
}

static void run_records(const char *folder)
{
    static const struct {
        const char *file;
        double latitude, elevation_m;
    } record[] = {{"dublin_airport_ie.csv", 53.43, 71},
                  {"de_bilt_nl.csv", 52.10, 2},
                  {"naracoorte_sa_au_silo.csv", -36.96, 58},
                  {"shorter_al_us_power.csv", 32.4, 70}};
    for (size_t i = 0; i < sizeof record / sizeof record[0]; i++) {
        struct table t;
        struct daily d;
        char path[4096];
        path_of(path, sizeof path, folder, record[i].file);
        if (!table_read(&t, path)) {
            continue;
        }
        if (daily_read(&d, &t, NULL, record[i].latitude, record[i].elevation_m)) {
            struct whole_record w = whole_record_run(&d, record[i].latitude);
            print_record(record[i].file, &w);
        }
        daily_free(&d);
        table_free(&t);
    }
}

int main(int argc, char **argv)
{
    if (argc < 3 || argc > 4) {
        fprintf(stderr, "usage: trials MODELS DATA [DAILY]\n");
        return 64;
    }
    support_models(argv[1]);
    if (argc == 4) {
        run_records(argv[3]);
    }
    bool good = run_trajectory(argv[2]);
    run_posieux(argv[2]);
    return run_trials(argv[2]) && good ? 0 : 1;
}
