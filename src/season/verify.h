/* How good forecasts were: scores of yes or no, of probabilities, of amounts.
 *
 * A score whose denominator is zero is not defined and is NaN, never 0. Values that are
 * missing (NaN) on either side are left out. Pure. Definitions: the verification pages of
 * the WWRP/WGNE Joint Working Group on Forecast Verification Research, and Wilks,
 * Statistical Methods in the Atmospheric Sciences, where nothing else is named.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_VERIFY_H
#define SUGARLEA_VERIFY_H

#include <stdbool.h>
#include <stddef.h>

/* --- yes or no --- */

struct verify_table { /* counts; of a weighted or resampled set they need not be whole */
    double hits, false_alarms, misses, rejections;
};

struct verify_scores {
    double n;
    double accuracy;          /* share called right */
    double base_rate;         /* share that happened */
    double bias;              /* called / happened */
    double hit_rate;          /* of what happened, called (POD) */
    double false_alarm_ratio; /* of what was called, did not happen (FAR) */
    double false_alarm_rate;  /* of what did not happen, called (POFD) */
    double threat;            /* critical success index */
    double random_hits;       /* that a blind caller with the same rates would have */
    double gilbert;           /* equitable threat score: threat without random hits */
    double peirce;            /* hit rate less false-alarm rate: Hanssen-Kuipers, true skill, Youden */
    double heidke;            /* accuracy above that of a blind caller */
    double odds_ratio;
    double yule; /* odds ratio on -1..1 */
    double clayton;
    double sedi; /* symmetric extremal dependence index (Ferro & Stephenson 2011) */
};

void verify_table_add(struct verify_table *t, bool called, bool happened);
void verify_table_scores(const struct verify_table *t, struct verify_scores *s);

/* --- amounts --- */

struct verify_errors {
    size_t n;
    double me, mae, rmse; /* forecast less observed */
    double r;             /* Pearson */
    double nse;           /* Nash-Sutcliffe efficiency: 1 best, 0 as good as the mean observed */
};

void verify_errors_find(const double *forecast, const double *observed, size_t n, struct verify_errors *e);

/* Continuous ranked probability score, in the unit of y: of m equally likely members; the
 * same without the penalty for having few of them ("fair", Ferro 2014; NaN below 2); of a
 * normal distribution; of a ln-normal one, whose logarithm has that mean and SD (Gneiting &
 * Raftery 2007; ln-normal: Baran & Lerch 2015). An SD of 0 gives the absolute error. */
double verify_crps(const double *member, size_t m, double y);
double verify_crps_fair(const double *member, size_t m, double y);
double verify_crps_normal(double mean, double sd, double y);
double verify_crps_ln_normal(double ln_mean, double ln_sd, double y);

/* Quantile of n rising values, type 7 of Hyndman & Fan 1996; NaN for none. p in 0..1. */
double verify_quantile(const double *sorted, size_t n, double p);

/* --- probabilities --- */

struct verify_bin {     /* the cases that were given one probability */
    double p;           /* as forecast */
    double n, happened; /* cases, and those in which it happened; weights will do */
};

/* Sets up bins of the probabilities 0, 1/(bins-1), .. 1 (bins at least 2), empty. */
void verify_bins_init(struct verify_bin *bin, size_t bins);

/* Counts a case in the bin nearest to p: what is scored is the rounded probability, so
 * that the decomposition below is exact. */
void verify_bins_add(struct verify_bin *bin, size_t bins, double p, bool happened);

/* Brier score = reliability - resolution + uncertainty (Murphy 1973). */
struct verify_brier {
    double n, brier;
    double reliability; /* mean square of the bins' probability less their frequency: small is good */
    double resolution;  /* mean square of the bins' frequency less the overall one: large is good */
    double uncertainty; /* of the event itself */
    double skill;       /* 1 - brier / uncertainty: against saying the overall frequency */
};
void verify_brier_find(const struct verify_bin *bin, size_t bins, struct verify_brier *b);

/* Area under the relative operating characteristic, by trapezoids: the chance that a case
 * in which it happened had the higher probability. Bins with rising p. */
double verify_roc_area(const struct verify_bin *bin, size_t bins);

/* Ranked probability score of ordered classes: sum of squares of cumulated differences,
 * not divided by the number of classes. observed is an index. */
double verify_rps(const double *p, size_t classes, size_t observed);

#endif
