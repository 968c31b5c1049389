/* Growth of mown plots as the trials measured it. SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/growth_trial.h"

#include "base/date.h"
#include "support/sward_support.h"

#include <string.h>

#define INTERVAL 28 /* days between cuts */
#define SERIES 4
#define CUT_CM 5

static bool cut_before_trial(int day_of_year)
{
    static const int days[] = {135, 165, 193, 221, 249, 277, 305};
    for (size_t i = 0; i < sizeof days / sizeof days[0]; i++) {
        if (days[i] == day_of_year) {
            return true;
        }
    }
    return false;
}

static void spread(double harvest, int day_of_year, double growth[367])
{
    for (int i = 0; i < INTERVAL && day_of_year - i >= 1; i++) {
        growth[day_of_year - i] += harvest / INTERVAL;
    }
}

/* One series of plots: growth[day of the trial year] += its part. */
static void run_series(const struct daily *d, double latitude, int year, bool irrigated, int series, double growth[367])
{
    const struct sward_place place = {.latitude = latitude};
    struct sward s = support_ryegrass();
    size_t first = daily_index(d, date_make(year - 1, 1, 1)), last = daily_index(d, date_make(year, 12, 31));
    for (size_t i = first; i <= last; i++) {
        struct sward_day day;
        struct sward_result r;
        int day_of_year = date_day_of_year(d->day[i].date);
        bool trial = date_split(d->day[i].date).year == year;
        sward_day_make(&day, &d->day[i], &place);
        s.water = irrigated ? 1 : s.water;
        sward_step(&s, &day, &r);
        if (trial && (day_of_year - 1 - 7 * series) % INTERVAL == 0 && day_of_year > 7 * series) {
            spread(sward_cut(&s, CUT_CM), day_of_year, growth);
        } else if (!trial && cut_before_trial(day_of_year)) {
            sward_cut(&s, CUT_CM);
        }
    }
}

bool growth_trial_year(const struct daily *d, double latitude, int year, bool irrigated, double month[12])
{
    double growth[367] = {0};
    int day = 1;
    if (daily_index(d, date_make(year - 1, 1, 1)) == d->n || daily_index(d, date_make(year, 12, 31)) == d->n) {
        return false;
    }
    for (int series = 0; series < SERIES; series++) {
        run_series(d, latitude, year, irrigated, series, growth);
    }
    for (int m = 0; m < 12; m++) {
        int days = date_days_in_month(year, m + 1);
        month[m] = 0;
        for (int i = 0; i < days; i++) {
            month[m] += growth[day++] / SERIES / days;
        }
    }
    return true;
}

static void run_plots(const struct daily *d, const struct growth_trial_plots *p, int late, double *growth)
{
    const struct sward_place place = {.latitude = p->latitude, .snow_rule = p->snow_rule};
    struct sward s = support_sward(1, &p->grass, (const double[]){1});
    size_t last_cut = 0;
    s.capacity_mm = p->capacity_mm;
    s.nitrogen = p->nitrogen;
    for (size_t i = 0; i < d->n; i++) {
        struct sward_day day;
        struct sward_result r;
        int since = date_day_of_year(d->day[i].date) - p->first_cut - late;
        sward_day_make(&day, &d->day[i], &place);
        sward_step(&s, &day, &r);
        if (since >= 0 && since % INTERVAL == 0) {
            double harvest = sward_cut(&s, CUT_CM);
            size_t days = i - last_cut < INTERVAL ? i - last_cut : INTERVAL;
            for (size_t k = 0; k < days; k++) {
                growth[i - k] += 0.5 * harvest / INTERVAL;
            }
            last_cut = i;
        }
    }
}

void growth_trial_plots(const struct daily *d, const struct growth_trial_plots *p, double *growth)
{
    memset(growth, 0, d->n * sizeof *growth);
    run_plots(d, p, 0, growth);
    run_plots(d, p, INTERVAL / 2, growth);
}
