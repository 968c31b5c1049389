/* Scores of amounts, and of distributions of amounts. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/num.h"
#include "season/verify.h"

#include <assert.h>
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_statistics_double.h>
#include <math.h>

struct sums {
    double n, error, absolute, squares; /* of forecast less observed */
    double forecast, observed;          /* then means */
};

static struct sums sum_up(const double *forecast, const double *observed, size_t n)
{
    struct sums s = {0};
    for (size_t i = 0; i < n; i++) {
        double error = forecast[i] - observed[i];
        if (!isnan(error)) {
            s.n += 1.0;
            s.error += error;
            s.absolute += fabs(error);
            s.squares += error * error;
            s.forecast += forecast[i];
            s.observed += observed[i];
        }
    }
    s.forecast /= s.n; /* none: NaN, and so is what follows from it */
    s.observed /= s.n;
    return s;
}

void verify_errors_find(const double *forecast, const double *observed, size_t n, struct verify_errors *e)
{
    struct sums s = sum_up(forecast, observed, n);
    double of_forecast = 0.0, of_observed = 0.0, of_both = 0.0;
    for (size_t i = 0; i < n; i++) {
        double f = forecast[i] - s.forecast, o = observed[i] - s.observed;
        if (!isnan(f) && !isnan(o)) {
            of_forecast += f * f;
            of_observed += o * o;
            of_both += f * o;
        }
    }
    bool varied = of_forecast > 0.0 && of_observed > 0.0;
    *e = (struct verify_errors){.n = (size_t)s.n,
                                .me = s.error / s.n,
                                .mae = s.absolute / s.n,
                                .rmse = sqrt(s.squares / s.n),
                                .r = varied ? of_both / sqrt(of_forecast * of_observed) : (double)NAN,
                                .nse = of_observed > 0.0 ? 1.0 - s.squares / of_observed : (double)NAN};
}

/* Mean distance from y, less what the distances between members take off (counted twice). */
static double crps(const double *member, size_t m, double y, double pairs)
{
    assert(m > 0 && pairs > 0.0);
    double from_y = 0.0, between = 0.0;
    for (size_t i = 0; i < m; i++) {
        from_y += fabs(member[i] - y);
        for (size_t j = i + 1; j < m; j++) {
            between += 2.0 * fabs(member[i] - member[j]);
        }
    }
    return from_y / (double)m - between / (2.0 * pairs);
}

double verify_crps(const double *member, size_t m, double y)
{
    return m > 0 ? crps(member, m, y, (double)m * (double)m) : (double)NAN;
}

double verify_crps_fair(const double *member, size_t m, double y)
{
    return m > 1 ? crps(member, m, y, (double)m * (double)(m - 1)) : (double)NAN;
}

double verify_crps_normal(double mean, double sd, double y)
{
    double z = (y - mean) / sd;
    if (sd <= 0.0) {
        return fabs(y - mean);
    }
    double density = exp(-z * z / 2.0) / sqrt(2.0 * NUM_PI);
    return sd * (z * (2.0 * gsl_cdf_ugaussian_P(z) - 1.0) + 2.0 * density - 1.0 / sqrt(NUM_PI));
}

double verify_crps_ln_normal(double ln_mean, double ln_sd, double y)
{
    double z = y > 0.0 ? (log(y) - ln_mean) / ln_sd : -(double)INFINITY;
    if (ln_sd <= 0.0) {
        return fabs(y - exp(ln_mean));
    }
    return y * (2.0 * gsl_cdf_ugaussian_P(z) - 1.0) -
           2.0 * exp(ln_mean + ln_sd * ln_sd / 2.0) *
               (gsl_cdf_ugaussian_P(z - ln_sd) + gsl_cdf_ugaussian_P(ln_sd / sqrt(2.0)) - 1.0);
}

double verify_quantile(const double *sorted, size_t n, double p)
{
    assert(p >= 0.0 && p <= 1.0);
    return n > 0 ? gsl_stats_quantile_from_sorted_data(sorted, 1, n, p) : (double)NAN;
}
