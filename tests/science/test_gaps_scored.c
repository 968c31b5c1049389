/* How well gaps are filled: real days are hidden in gaps of 1 to 5 days at fixed seeds,
 * filled, and compared with what was measured, beside what simpler ways would have put
 * there: the line between the ends, the last value, no rain. Bounds on the errors:
 * computed by us, so that they guard what was reached.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/hidden.h"
#include "support/sward_support.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

enum { RECORDS = 3, SEEDS = 8 };

/* Places: data/SOURCES.md. rmse: most that the filled values may be off, by kind of gap
 * and variable (C, C, mm, MJ/m2); 0: not hidden. */
static const struct {
    const char *path;
    double latitude, elevation;
    double rmse[HIDE_KINDS][WEATHER_RAD + 1];
} records[RECORDS] = {
    {"data/real/dublin_airport_2010-2020.csv",
     53.428,
     71,
     {{2.9, 2.2, 4.5, 4.1}, {2.6, 2.1, 0, 0}, {0, 0, 4.5, 0}, {0, 0, 0, 3.3}}},
    {"data/real/de_bilt_2005-2019.csv",
     52.10,
     2,
     {{2.8, 2.75, 4.9, 4.3}, {2.65, 2.75, 0, 0}, {0, 0, 4.9, 0}, {0, 0, 0, 3.3}}},
    {"data/real/shorter_al_us_2010-2019.csv",
     32.443,
     132,
     {{3.3, 3.25, 8.0, 4.9}, {2.75, 2.8, 0, 0}, {0, 0, 8.0, 0}, {0, 0, 0, 4.1}}},
};

static void score(size_t record, enum hide_kind kind, struct hidden *h)
{
    struct site site = {.latitude = records[record].latitude, .longitude = 0, .elevation_m = records[record].elevation};
    *h = (struct hidden){0};
    for (unsigned long long seed = 1; seed <= SEEDS; seed++) {
        struct err e;
        if (hidden_score(records[record].path, &site, &support_params()->limits, kind, seed, h, &e) != ERR_OK) {
            fail_msg("%s", e.what);
        }
    }
    hidden_print(h, kind);
}

/* Better than the line and the last value by the mean square. (By the mean of absolute
 * errors no rain at all looks best, since more than half of all days have next to none:
 * that would starve the soil.) */
static void filled_values_are_nearer_than_simpler_ones(void **state)
{
    (void)state;
    for (size_t r = 0; r < RECORDS; r++) {
        printf("# %s: mean absolute error, root mean square, bias\n", records[r].path);
        for (enum hide_kind kind = HIDE_DAYS; kind < HIDE_KINDS; kind++) {
            struct hidden h;
            score(r, kind, &h);
            for (enum weather_var v = WEATHER_TMIN; v <= WEATHER_RAD; v++) {
                if (records[r].rmse[kind][v] > 0) {
                    double ours = hidden_rmse(&h, WAY_OURS, v);
                    assert_true(h.error[WAY_OURS][v].n > 1000);
                    assert_true(ours <= records[r].rmse[kind][v]);
                    assert_true(ours < hidden_rmse(&h, WAY_LINE, v));
                    assert_true(ours < hidden_rmse(&h, WAY_LAST, v));
                }
            }
            if (h.error[WAY_OURS][WEATHER_RAIN].n) {
                assert_true(hidden_rmse(&h, WAY_OURS, WEATHER_RAIN) < hidden_rmse(&h, WAY_NOTHING, WEATHER_RAIN));
            }
        }
    }
}

/* What is put in is right in the mean: water in the soil adds up. */
static void filled_values_are_right_in_the_mean(void **state)
{
    static const double most[WEATHER_RAD + 1] = {0.25, 0.25, 0.15, 0.3}; /* C, C, mm, MJ/m2 */
    (void)state;
    for (size_t r = 0; r < RECORDS; r++) {
        struct hidden h;
        score(r, HIDE_DAYS, &h);
        for (enum weather_var v = WEATHER_TMIN; v <= WEATHER_RAD; v++) {
            assert_true(fabs(hidden_bias(&h, WAY_OURS, v)) <= most[v]);
        }
        assert_true(fabs(hidden_bias(&h, WAY_OURS, WEATHER_RAIN)) <
                    0.1 * fabs(hidden_bias(&h, WAY_NOTHING, WEATHER_RAIN)));
    }
}

/* The report says how far the rain put in may be off: two in three times by less. */
static void the_doubt_about_rain_is_honest(void **state)
{
    size_t within = 0, all = 0;
    (void)state;
    for (size_t r = 0; r < RECORDS; r++) {
        for (unsigned long long seed = 1; seed <= 2 * SEEDS; seed++) {
            struct site site = {.latitude = records[r].latitude, .longitude = 0, .elevation_m = records[r].elevation};
            struct hidden h = {0};
            struct err e;
            assert_int_equal(hidden_score(records[r].path, &site, &support_params()->limits, HIDE_RAIN, seed, &h, &e),
                             ERR_OK);
            within += fabs(h.report.rain_mm - h.rain_last_year) < h.report.rain_sd_mm;
            all++;
        }
    }
    printf("# rain of the last year within one standard deviation: %zu of %zu\n", within, all);
    assert_true((double)within > 0.5 * (double)all && (double)within < 0.9 * (double)all);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(filled_values_are_nearer_than_simpler_ones),
        cmocka_unit_test(filled_values_are_right_in_the_mean),
        cmocka_unit_test(the_doubt_about_rain_is_honest),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
