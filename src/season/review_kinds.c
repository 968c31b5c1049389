/* Sums to scores. SPDX-License-Identifier: GPL-3.0-or-later */
#include "season/review_kinds.h"

#include "season/verify.h"

#include <math.h>

static double mean(const double *sum)
{
    return sum[0] > 0.0 ? sum[1] / sum[0] : (double)NAN;
}

static double root_mean(const double *sum)
{
    return sqrt(fmax(0.0, mean(sum)));
}

double review_gain(const double *sum)
{
    return sum[0] > 0.0 ? (sum[2] - sum[1]) / sum[0] : (double)NAN;
}

static struct verify_scores table_of(const double *sum)
{
    const struct verify_table t = {.hits = sum[0], .false_alarms = sum[1], .misses = sum[2], .rejections = sum[3]};
    struct verify_scores s;
    verify_table_scores(&t, &s);
    return s;
}

static double base_rate(const double *sum)
{
    return table_of(sum).base_rate;
}

static double hit_rate(const double *sum)
{
    return table_of(sum).hit_rate;
}

static double false_alarm_ratio(const double *sum)
{
    return table_of(sum).false_alarm_ratio;
}

static double false_alarm_rate(const double *sum)
{
    return table_of(sum).false_alarm_rate;
}

static double peirce(const double *sum)
{
    return table_of(sum).peirce;
}

static void bins_of(const double *sum, struct verify_bin bin[REVIEW_BINS])
{
    verify_bins_init(bin, REVIEW_BINS);
    for (size_t k = 0; k < REVIEW_BINS; k++) {
        bin[k].n = sum[2 * k];
        bin[k].happened = sum[2 * k + 1];
    }
}

static struct verify_brier brier_of(const double *sum)
{
    struct verify_bin bin[REVIEW_BINS];
    struct verify_brier b;
    bins_of(sum, bin);
    verify_brier_find(bin, REVIEW_BINS, &b);
    return b;
}

static double reliability(const double *sum)
{
    return brier_of(sum).reliability;
}

static double resolution(const double *sum)
{
    return brier_of(sum).resolution;
}

static double uncertainty(const double *sum)
{
    return brier_of(sum).uncertainty;
}

static double roc_area(const double *sum)
{
    struct verify_bin bin[REVIEW_BINS];
    bins_of(sum, bin);
    return verify_roc_area(bin, REVIEW_BINS);
}

const struct review_kind review_level_kinds[REVIEW_LEVEL_KINDS] = {
    {"me", mean, 2, {REVIEW_N, LEVEL_ERROR}, false, NULL},
    {"mae", mean, 2, {REVIEW_N, LEVEL_ABSOLUTE}, true, "mae_gain"},
    {"rmse", root_mean, 2, {REVIEW_N, LEVEL_SQUARE}, true, NULL},
    {"crps", mean, 2, {REVIEW_N, LEVEL_CRPS}, true, "crps_gain"},
    {"coverage80", mean, 2, {REVIEW_N, LEVEL_IN_BAND}, false, NULL},
};

#define TABLE                                                                                                          \
    {                                                                                                                  \
        EVENT_HIT, EVENT_FALSE_ALARM, EVENT_MISS, EVENT_REJECTION                                                      \
    }
const struct review_kind review_event_kinds[REVIEW_EVENT_KINDS] = {
    {"base_rate", base_rate, 4, TABLE, false, NULL},
    {"hit_rate", hit_rate, 4, TABLE, true, NULL},
    {"false_alarm_ratio", false_alarm_ratio, 4, TABLE, true, NULL},
    {"false_alarm_rate", false_alarm_rate, 4, TABLE, true, NULL},
    {"peirce", peirce, 4, TABLE, true, NULL},
    {"brier", mean, 2, {REVIEW_N, EVENT_SQUARE}, true, "brier_gain"},
};

const struct review_kind review_bin_kinds[REVIEW_BIN_KINDS] = {
    /* of all columns */
    {"reliability", reliability, 0, {0}, false, NULL},
    {"resolution", resolution, 0, {0}, false, NULL},
    {"uncertainty", uncertainty, 0, {0}, false, NULL},
    {"roc_area", roc_area, 0, {0}, false, NULL},
};

const struct review_kind review_turnout_kinds[REVIEW_TURNOUT_KINDS] = {
    {"rps", mean, 2, {REVIEW_N, TURNOUT_RPS}, true, "rps_gain"},
    {"same", mean, 2, {REVIEW_N, TURNOUT_SAME}, true, NULL},
};
