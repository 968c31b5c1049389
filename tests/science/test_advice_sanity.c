/* A tool that always says none, or always free, is useless: the advice over a real
 * record, printed as shares of days and held to our trial run's.
 *
 * Ryegrass held at 1,800 kg DM/ha, De Bilt 2005-2019 (KNMI), first year left out,
 * ln-SD 0.36 and nothing else, no muzzle. Our trial run on 1981-2019 took dawn rising
 * to the day's mean for the sessions (computed by us). SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/date.h"
#include "support/advice_support.h"
#include "support/daily.h"
#include "sward/sward.h"

enum { MONTHS = 6 };
static const int months[MONTHS] = {1, 3, 5, 7, 9, 11};
static const double latitude = 52.1, elevation_m = 2.0, cover = 1800.0;

struct day {
    int month;
    struct advice_grass grass;
};
static struct day days[6000];
static size_t n_days;
static struct advice_tables tables;

static int run_the_record(void **state)
{
    (void)state;
    struct table t;
    struct daily d;
    const struct sward_place place = {.latitude = latitude, .snow_rule = true};
    struct sward s = support_ryegrass();
    advice_tables_make(&support_params()->limits, &tables);
    if (!table_read(&t, "data/real/de_bilt_2005-2019.csv") || !daily_read(&d, &t, NULL, latitude, elevation_m)) {
        return -1;
    }
    for (size_t i = 0; i < d.n; i++) {
        struct sward_day w;
        struct sward_result r;
        sward_day_make(&w, &d.day[i], &place);
        sward_step(&s, &w, &r);
        sward_graze_to_cover(&s, cover);
        if (i >= 365) {
            struct day *day = &days[n_days++];
            day->month = date_split(d.day[i].date).month;
            day->grass = advice_flat_grass(0.0);
            memcpy(day->grass.nsc, r.nsc_hour, sizeof r.nsc_hour);
            day->grass.ln_sd = support_params()->limits.spread_paddock;
            day->grass.dawn_h = 12.0 - w.day_length_h / 2.0;
        }
    }
    daily_free(&d);
    table_free(&t);
    return 0;
}

struct expected { /* shares of days in %, of free, timed, brief, none; what is left is under 5 */
    const char *class_id;
    double hay_pct;
    double share[MONTHS][4];
};

static const struct expected trial[] = {
    {"equid-at-risk",
     9.5,
     {{61, 32, 7, 0}, {0, 29, 70, 0}, {0, 69, 29, 0}, {0, 63, 34, 0}, {14, 76, 10, 0}, {69, 30, 0, 0}}},
    {"equid-laminitis-history",
     9.5,
     {{0, 57, 36, 7}, {0, 0, 29, 70}, {0, 0, 70, 27}, {0, 0, 64, 35}, {0, 18, 72, 10}, {0, 65, 35, 0}}},
    {"pony", 9.5, {{87, 13, 0, 0}, {13, 87, 0, 0}, {34, 66, 0, 0}, {38, 62, 0, 0}, {79, 19, 0, 0}, {98, 0, 0, 0}}},
    {"horse", 9.5, {{99, 0, 0, 0}, {53, 47, 0, 0}, {88, 12, 0, 0}, {72, 28, 0, 0}, {94, 0, 0, 0}, {100, 0, 0, 0}}},
    {"goat-dry", 9.5, {{81, 19, 0, 0}, {8, 92, 0, 0}, {19, 81, 0, 0}, {21, 75, 4, 0}, {67, 33, 0, 0}, {97, 0, 0, 0}}},
    {"equid-at-risk",
     12.8,
     {{0, 69, 31, 0}, {0, 0, 80, 18}, {0, 11, 87, 0}, {0, 9, 75, 16}, {0, 49, 48, 0}, {0, 84, 16, 0}}},
    {"equid-laminitis-history",
     12.8,
     {{0, 63, 32, 5}, {0, 0, 33, 65}, {0, 0, 73, 21}, {0, 0, 64, 32}, {0, 32, 59, 9}, {0, 74, 25, 0}}},
    {"goat-dry",
     12.8,
     {{81, 18, 0, 0}, {0, 52, 41, 0}, {19, 74, 7, 0}, {21, 55, 24, 0}, {67, 28, 0, 0}, {97, 0, 0, 0}}},
};

static void shares_of_month(const struct advice_subject *s, int month, double share[4])
{
    double n = 0.0;
    for (size_t i = 0; i < n_days; i++) {
        struct advice a;
        if (days[i].month == month) {
            advise_with(&tables, &days[i].grass, &s->animal, &support_params()->limits, &a);
            share[a.turnout] += 1.0;
            n += 1.0;
        }
    }
    for (int w = 0; w < 4; w++) {
        share[w] *= 100.0 / n;
    }
}

static double worst_of(const struct expected *t)
{
    struct advice_subject s;
    double worst = 0.0;
    advice_subject(&s, t->class_id);
    s.animal.hay_nsc_pct = t->hay_pct;
    printf("# %s, hay %.1f %%:", t->class_id, t->hay_pct);
    for (int m = 0; m < MONTHS; m++) {
        double share[4] = {0};
        shares_of_month(&s, months[m], share);
        printf("  %d: %.0f/%.0f/%.0f/%.0f", months[m], share[0], share[1], share[2], share[3]);
        for (int w = 0; w < 4; w++) {
            worst = fmax(worst, fabs(share[w] - t->share[m][w]));
        }
    }
    printf("\n");
    return worst;
}

/* Fifteen points either way: other years and whole windows in place of the trial's
 * short cut. */
static void test_shares_are_the_trials(void **state)
{
    (void)state;
    double worst = 0.0;
    printf("# month: %% of days free/timed/brief/none\n");
    for (size_t t = 0; t < sizeof trial / sizeof trial[0]; t++) {
        worst = fmax(worst, worst_of(&trial[t]));
    }
    printf("# worst difference from the trial run: %.0f points\n", worst);
    assert_true(worst < 15.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_shares_are_the_trials),
    };
    return cmocka_run_group_tests(tests, run_the_record, NULL);
}
