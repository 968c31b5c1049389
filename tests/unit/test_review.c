/* Scores of hand-made replays: every expected value is counted or worked out here from
 * the definition. SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>

#include "season/review.h"
#include "season/review_terms.h"
#include "season/review_tests.h"
#include "support/starve.h"

enum { DAYS = 1500 };

static struct arena arena;
static struct replay replay;

static double *missing(void)
{
    double *x = arena_alloc(&arena, DAYS, sizeof *x);
    assert_non_null(x);
    for (int i = 0; i < DAYS; i++) {
        x[i] = NAN;
    }
    return x;
}

static int start(void **state)
{
    (void)state;
    arena_init(&arena);
    replay = (struct replay){.days = DAYS, .paddocks = 1, .groups = 1, .weather_sd = 0.10};
    replay.paddock = arena_alloc(&arena, 1, sizeof *replay.paddock);
    replay.group = arena_alloc(&arena, 1, sizeof *replay.group);
    struct replay_series *all[] = {&replay.paddock[0][REPLAY_NSC], &replay.paddock[0][REPLAY_GROWTH],
                                   &replay.group[0].turnout};
    for (size_t k = 0; k < 3; k++) {
        all[k]->truth = missing();
        for (size_t lead = 0; lead < REPLAY_LEADS; lead++) {
            all[k]->said[lead] = missing();
        }
    }
    for (size_t lead = 0; lead < REPLAY_LEADS; lead++) {
        replay.group[0].members[lead] = arena_alloc(&arena, DAYS, sizeof(struct replay_members));
    }
    return 0;
}

static int stop(void **state)
{
    (void)state;
    arena_release(&arena);
    return 0;
}

static void level(int i, double truth, double said)
{
    replay.paddock[0][REPLAY_NSC].truth[i] = truth;
    replay.paddock[0][REPLAY_NSC].said[0][i] = said;
}

static void turnout(int i, enum turnout truth, enum turnout said, int members_not_free)
{
    replay.group[0].turnout.truth[i] = truth;
    replay.group[0].turnout.said[0][i] = said;
    replay.group[0].members[0][i] =
        (struct replay_members){.of = {[TURNOUT_FREE] = (unsigned char)(REPLAY_MEMBERS - members_not_free),
                                       [TURNOUT_TIMED] = (unsigned char)members_not_free}};
}

static double value(const struct review *r, enum review_what what, const char *score, enum review_rival rival)
{
    const struct review_score *s = review_get(r, what, 0, 0, score, rival);
    assert_non_null(s);
    return s->value;
}

static void near(double got, double expected)
{
    if (!(fabs(got - expected) < 1e-9)) {
        fail_msg("%.12g, expected %.12g", got, expected);
    }
}

static void test_levels(void **state)
{
    struct review r;
    (void)state;
    level(9, 100, NAN);
    level(10, 100, 110);
    level(11, 130, 120);
    level(12, 150, NAN); /* nothing said: not scored, and yet the next day's yesterday */
    level(13, 150, 200);
    level(15, 150, 150); /* no yesterday */
    assert_true(review_find(&replay, 10, 20, &arena, &r));
    assert_int_equal(r.mornings, 5);
    assert_int_equal(review_get(&r, REVIEW_NSC, 0, 0, "mae", REVIEW_OURS)->n, 3);
    near(value(&r, REVIEW_NSC, "me", REVIEW_OURS), (10 - 10 + 50) / 3.0);
    near(value(&r, REVIEW_NSC, "mae", REVIEW_OURS), 70 / 3.0);
    near(value(&r, REVIEW_NSC, "rmse", REVIEW_OURS), sqrt((100 + 100 + 2500) / 3.0));
    near(value(&r, REVIEW_NSC, "mae", REVIEW_PERSISTENCE), (0 + 30 + 0) / 3.0);
    near(value(&r, REVIEW_NSC, "mae_gain", REVIEW_PERSISTENCE), (30 - 70) / 3.0);
    near(value(&r, REVIEW_NSC, "crps", REVIEW_PERSISTENCE), 10);
    /* band of 8 in 10 about the level: times and over exp(1.2816 x 0.10) = 1.137 */
    near(value(&r, REVIEW_NSC, "coverage80", REVIEW_OURS), 2 / 3.0);
    assert_true(value(&r, REVIEW_NSC, "crps", REVIEW_OURS) < 70 / 3.0); /* it said how unsure it was */
    assert_true(isnan(value(&r, REVIEW_NSC, "mae", REVIEW_NORMALS)));
    assert_true(isnan(value(&r, REVIEW_NSC, "mae_gain", REVIEW_NORMALS)));
    assert_true(isnan(value(&r, REVIEW_GROWTH, "mae", REVIEW_OURS)));
    assert_true(isnan(review_get(&r, REVIEW_NSC, 0, 1, "mae", REVIEW_OURS)->value));
    assert_null(review_get(&r, REVIEW_GROWTH, 0, 0, "crps", REVIEW_OURS));
}

/* Persistence of a lead: the last full day before the morning that spoke. */
/* The first day of a record has no yesterday, and nothing is scored on it. */
static void test_from_the_first_day_on(void **state)
{
    struct review r;
    (void)state;
    level(0, 100, 110);
    level(1, 130, 120);
    assert_true(review_find(&replay, 0, 2, &arena, &r));
    assert_int_equal(r.mornings, 2);
    assert_int_equal(review_get(&r, REVIEW_NSC, 0, 0, "mae", REVIEW_OURS)->n, 1);
    near(value(&r, REVIEW_NSC, "me", REVIEW_OURS), -10);
    near(value(&r, REVIEW_NSC, "rmse", REVIEW_OURS), 10);
    level(1, 130, 130.25);
    assert_true(review_find(&replay, 0, 2, &arena, &r));
    near(value(&r, REVIEW_NSC, "rmse", REVIEW_OURS), 0.25);
    assert_null(review_get(&r, REVIEW_NSC, 0, 0, "no such score", REVIEW_OURS));
    assert_null(review_get(&r, REVIEW_NSC, 1, 0, "mae", REVIEW_OURS));
}

static void test_persistence_of_leads(void **state)
{
    struct review r;
    (void)state;
    for (int i = 5; i <= 20; i++) {
        level(i, i * i, NAN);
        replay.paddock[0][REPLAY_NSC].said[1][i] = replay.paddock[0][REPLAY_NSC].said[2][i] = i * i;
    }
    assert_true(review_find(&replay, 10, 10, &arena, &r));
    near(review_get(&r, REVIEW_NSC, 0, 1, "mae", REVIEW_PERSISTENCE)->value, 100 - 64);
    near(review_get(&r, REVIEW_NSC, 0, 2, "mae", REVIEW_PERSISTENCE)->value, 100 - 36);
    near(review_get(&r, REVIEW_NSC, 0, 2, "mae", REVIEW_OURS)->value, 0);
}

static void test_events(void **state)
{
    struct review r;
    (void)state;
    turnout(9, TURNOUT_FREE, TURNOUT_FREE, 0);
    turnout(10, TURNOUT_TIMED, TURNOUT_TIMED, 10); /* hit; yesterday missed it */
    turnout(11, TURNOUT_BRIEF, TURNOUT_TIMED, 5);  /* hit, yet not of strict */
    turnout(12, TURNOUT_FREE, TURNOUT_BRIEF, 5);   /* false alarm of both */
    turnout(13, TURNOUT_NONE, TURNOUT_FREE, 4);    /* miss of both */
    turnout(14, TURNOUT_FREE, TURNOUT_FREE, 1);
    assert_true(review_find(&replay, 10, 14, &arena, &r));
    near(value(&r, REVIEW_RESTRICTED, "base_rate", REVIEW_OURS), 3 / 5.0);
    near(value(&r, REVIEW_RESTRICTED, "hit_rate", REVIEW_OURS), 2 / 3.0);
    near(value(&r, REVIEW_RESTRICTED, "false_alarm_ratio", REVIEW_OURS), 1 / 3.0);
    near(value(&r, REVIEW_RESTRICTED, "false_alarm_rate", REVIEW_OURS), 1 / 2.0);
    near(value(&r, REVIEW_RESTRICTED, "peirce", REVIEW_OURS), 2 / 3.0 - 1 / 2.0);
    near(value(&r, REVIEW_RESTRICTED, "hit_rate", REVIEW_PERSISTENCE), 1 / 3.0);
    near(value(&r, REVIEW_RESTRICTED, "false_alarm_ratio", REVIEW_PERSISTENCE), 2 / 3.0);
    double brier = (0 + 0.25 + 0.25 + 0.36 + 0.01) / 5.0;
    near(value(&r, REVIEW_RESTRICTED, "brier", REVIEW_OURS), brier);
    near(value(&r, REVIEW_RESTRICTED, "reliability", REVIEW_OURS) -
             value(&r, REVIEW_RESTRICTED, "resolution", REVIEW_OURS) +
             value(&r, REVIEW_RESTRICTED, "uncertainty", REVIEW_OURS),
         brier);
    near(value(&r, REVIEW_RESTRICTED, "uncertainty", REVIEW_OURS), 0.6 * 0.4);
    /* the diagram holds the same days: chances 1.0 (came), .5 (came, not), .4 (came), .1 (not) */
    assert_int_equal(r.reliabilities, 2 * REPLAY_LEADS);
    const struct review_reliability *d = &r.reliability[0];
    assert_int_equal(d->what, REVIEW_RESTRICTED);
    assert_int_equal(d->lead, 0);
    static const double n[REVIEW_BINS] = {[1] = 1, [4] = 1, [5] = 2, [10] = 1};
    static const double came[REVIEW_BINS] = {[4] = 1, [5] = 1, [10] = 1};
    for (size_t i = 0; i < REVIEW_BINS; i++) {
        near(d->n[i], n[i]);
        near(d->happened[i], came[i]);
    }
    near(value(&r, REVIEW_RESTRICTED, "brier", REVIEW_PERSISTENCE), 4 / 5.0);
    /* pairs of a day it came and one it did not: 6; right way round 1.0>.5, 1.0>.1, .5>.1, .4>.1, a tie .5=.5 */
    near(value(&r, REVIEW_RESTRICTED, "roc_area", REVIEW_OURS), 4.5 / 6.0);
    near(value(&r, REVIEW_STRICT, "hit_rate", REVIEW_OURS), 0);
    near(value(&r, REVIEW_STRICT, "false_alarm_ratio", REVIEW_OURS), 1);
    near(value(&r, REVIEW_TURNOUT, "same", REVIEW_OURS), 2 / 5.0);
    /* cumulated shares: sure and right 0; half timed for brief .25 + 1; half timed for free .25;
     * .4 timed for none .36 + 1 + 1; .1 timed for free .01 */
    near(value(&r, REVIEW_TURNOUT, "rps", REVIEW_OURS), (0 + 1.25 + 0.25 + 2.36 + 0.01) / 5.0);
    /* steps between neighbours: 1, 1, 2, 3, 3 */
    near(value(&r, REVIEW_TURNOUT, "rps", REVIEW_PERSISTENCE), 10 / 5.0);
}

static void test_nothing_happened(void **state)
{
    struct review r;
    (void)state;
    for (int i = 5; i <= 60; i++) {
        turnout(i, TURNOUT_FREE, TURNOUT_FREE, 0);
    }
    assert_true(review_find(&replay, 10, 60, &arena, &r));
    near(value(&r, REVIEW_RESTRICTED, "base_rate", REVIEW_OURS), 0);
    assert_true(isnan(value(&r, REVIEW_RESTRICTED, "hit_rate", REVIEW_OURS)));
    assert_true(isnan(value(&r, REVIEW_RESTRICTED, "false_alarm_ratio", REVIEW_OURS)));
    assert_true(isnan(value(&r, REVIEW_RESTRICTED, "roc_area", REVIEW_OURS)));
    near(value(&r, REVIEW_RESTRICTED, "brier", REVIEW_OURS), 0);
}

/* Some scores mean nothing of a rival, and have no row; a gain is never ours. */
static void test_scores_without_a_rival(void **state)
{
    static const struct {
        enum review_what what;
        const char *score;
        bool rivals, gain;
    } row[] = {{REVIEW_NSC, "me", false, false},
               {REVIEW_NSC, "coverage80", false, false},
               {REVIEW_NSC, "rmse", true, false},
               {REVIEW_NSC, "mae_gain", true, true},
               {REVIEW_NSC, "crps_gain", true, true},
               {REVIEW_GROWTH, "mae_gain", true, true},
               {REVIEW_RESTRICTED, "base_rate", false, false},
               {REVIEW_STRICT, "reliability", false, false},
               {REVIEW_STRICT, "resolution", false, false},
               {REVIEW_STRICT, "uncertainty", false, false},
               {REVIEW_STRICT, "roc_area", false, false},
               {REVIEW_STRICT, "peirce", true, false},
               {REVIEW_STRICT, "brier_gain", true, true},
               {REVIEW_TURNOUT, "same", true, false},
               {REVIEW_TURNOUT, "rps_gain", true, true}};
    struct review r;
    (void)state;
    level(9, 100, 100);
    level(10, 100, 100);
    assert_true(review_find(&replay, 10, 20, &arena, &r));
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        for (size_t lead = 0; lead < REPLAY_LEADS; lead++) {
            const struct review_score *ours = review_get(&r, row[i].what, 0, lead, row[i].score, REVIEW_OURS);
            assert_true((ours != NULL) == !row[i].gain);
            for (enum review_rival rival = REVIEW_PERSISTENCE; rival < REVIEW_RIVALS; rival++) {
                assert_true((review_get(&r, row[i].what, 0, lead, row[i].score, rival) != NULL) == row[i].rivals);
            }
        }
    }
    assert_null(review_get(&r, REVIEW_GROWTH, 0, 0, "crps", REVIEW_OURS)); /* growth has no spread of its own */
}

/* A year is left out of its own normal; 365.25 days are a year. */
static void test_normal_of_a_day(void **state)
{
    static double x[DAYS];
    (void)state;
    for (int i = 0; i < DAYS; i++) {
        x[i] = i < 365 ? 1.0 : i < 731 ? 2.0 : i < 1096 ? 4.0 : 9.0;
    }
    near(review_normal(x, DAYS, 100), (2.0 + 4.0 + 9.0) / 3.0); /* days 465, 830 or 831, 1196 */
    near(review_normal(x, DAYS, 500), (1.0 + 4.0 + 9.0) / 3.0);
    for (int i = 365; i < DAYS; i++) {
        x[i] = NAN;
    }
    near(review_normal(x, DAYS, 500), 1.0);
    assert_true(isnan(review_normal(x, DAYS, 100))); /* no other year */
    x[130] = NAN;
    assert_true(isnan(review_normal(x, DAYS, 500))); /* 14 days are too few: 128 to 142 less one */
    near(review_normal(x, DAYS, 520), 1.0);
}

/* Four years of the same course with an offset: the usual for the date is known exactly. */
static void test_normals_as_rival(void **state)
{
    struct review r;
    (void)state;
    for (int i = 0; i < 1461; i++) {
        int year = i / 365 < 3 ? i / 365 : 3;
        level(i, 100 + 10 * year, 100 + 10 * year + 1);
    }
    assert_true(review_find(&replay, 465, 640, &arena, &r)); /* well within the second year */
    /* the others are 100, 120 and 130: their mean is 350 / 3, the truth is 110 */
    near(value(&r, REVIEW_NSC, "mae", REVIEW_NORMALS), 350 / 3.0 - 110);
    near(value(&r, REVIEW_NSC, "mae", REVIEW_OURS), 1.0);
    near(value(&r, REVIEW_NSC, "mae_gain", REVIEW_NORMALS), 350 / 3.0 - 111);
    /* the CRPS of a bare figure is its absolute error: no doubt is made up for the others */
    near(value(&r, REVIEW_NSC, "crps", REVIEW_NORMALS), 350 / 3.0 - 110);
    const struct review_score *s = review_get(&r, REVIEW_NSC, 0, 0, "mae", REVIEW_OURS);
    near(s->low, 1.0); /* each day the same: sure */
    near(s->high, 1.0);
}

/* The other years' turnouts are the usual ones: shares of timed and brief in three years, and never
 * the own year's. Ours is sure of the truth, timed. */
static void score_turnouts(const enum turnout of_year[4], struct review *r)
{
    for (int i = 0; i < 1461; i++) {
        turnout(i, of_year[i / 365 < 3 ? i / 365 : 3], TURNOUT_TIMED, REPLAY_MEMBERS);
    }
    assert_true(review_find(&replay, 465, 640, &arena, r)); /* well within the second year */
}

static void test_normals_of_turnouts(void **state)
{
    static const enum turnout mostly_timed[] = {TURNOUT_TIMED, TURNOUT_TIMED, TURNOUT_TIMED, TURNOUT_BRIEF};
    static const enum turnout mostly_brief[] = {TURNOUT_TIMED, TURNOUT_TIMED, TURNOUT_BRIEF, TURNOUT_BRIEF};
    static const enum turnout never_timed[] = {TURNOUT_FREE, TURNOUT_FREE, TURNOUT_FREE, TURNOUT_NONE};
    struct review r;
    (void)state;
    score_turnouts(never_timed, &r); /* free 2/3, none 1/3, and free it was */
    near(value(&r, REVIEW_TURNOUT, "same", REVIEW_NORMALS), 1);
    near(value(&r, REVIEW_TURNOUT, "rps", REVIEW_NORMALS), 3 / 9.0); /* (2/3 - 1)^2 up to free, timed, brief */
    assert_true(isnan(value(&r, REVIEW_RESTRICTED, "hit_rate", REVIEW_NORMALS)));
    score_turnouts(mostly_timed, &r); /* timed 2/3, brief 1/3 */
    near(value(&r, REVIEW_RESTRICTED, "hit_rate", REVIEW_NORMALS), 1);
    near(value(&r, REVIEW_RESTRICTED, "brier", REVIEW_NORMALS), 0);
    assert_true(isnan(value(&r, REVIEW_STRICT, "false_alarm_ratio", REVIEW_NORMALS))); /* never called */
    near(value(&r, REVIEW_STRICT, "brier", REVIEW_NORMALS), 1 / 9.0);
    near(value(&r, REVIEW_STRICT, "brier_gain", REVIEW_NORMALS), 1 / 9.0);
    near(value(&r, REVIEW_TURNOUT, "same", REVIEW_NORMALS), 1);
    near(value(&r, REVIEW_TURNOUT, "rps", REVIEW_NORMALS), 1 / 9.0); /* (2/3 - 1)^2 up to timed */
    near(value(&r, REVIEW_TURNOUT, "rps", REVIEW_OURS), 0);
    near(value(&r, REVIEW_TURNOUT, "rps_gain", REVIEW_NORMALS), 1 / 9.0);
    near(value(&r, REVIEW_TURNOUT, "same", REVIEW_PERSISTENCE), 1);
    score_turnouts(mostly_brief, &r); /* timed 1/3, brief 2/3 */
    near(value(&r, REVIEW_STRICT, "false_alarm_ratio", REVIEW_NORMALS), 1);
    near(value(&r, REVIEW_STRICT, "false_alarm_rate", REVIEW_NORMALS), 1);
    near(value(&r, REVIEW_STRICT, "brier", REVIEW_NORMALS), 4 / 9.0);
    near(value(&r, REVIEW_TURNOUT, "same", REVIEW_NORMALS), 0);
    near(value(&r, REVIEW_TURNOUT, "rps", REVIEW_NORMALS), 4 / 9.0);
    near(value(&r, REVIEW_RESTRICTED, "hit_rate", REVIEW_NORMALS), 1);
}

/* By hand: |y| 0.1, 0.3, 0.2; bands of 8 in 10 are 1.2816 times hypot(0.36, sd): 0.528 for
 * sd 0.2, 0.461 for 0. */
static bool find_review(struct arena *a, void *context)
{
    struct review r;
    (void)context;
    return review_find(&replay, 10, 130, a, &r);
}

/* With intervals, which take memory of their own. */
static void test_no_memory_no_review(void **state)
{
    (void)state;
    for (int i = 9; i < 130; i++) {
        level(i, 100 + 10 * (i % 7), 100 + 10 * (i % 5));
    }
    assert_true(starve(find_review, NULL) > 10);
}

static void test_grass_tests(void **state)
{
    (void)state;
    struct review_tests t = review_tests_of((const double[]){0.1, -0.3, 0.2}, (const double[]){0.2, 0.2, 0.2}, 3, 0.36);
    near(t.mae, 0.2);
    near(t.me, 0.0);
    near(t.coverage, 1.0);
    t = review_tests_of((const double[]){0.5, 0.5}, (const double[]){0.2, 0.0}, 2, 0.36);
    near(t.me, 0.5);
    near(t.coverage, 0.5);
    t = review_tests_of((const double[]){-0.5, -0.5}, (const double[]){0.2, 0.0}, 2, 0.36);
    near(t.coverage, 0.5);
    double low, high; /* the ends of the band belong to it */
    run_band(1.0, 0.36, &low, &high);
    t = review_tests_of((const double[]){log(low), log(high)}, (const double[]){0.0, 0.0}, 2, 0.36);
    near(t.coverage, 1.0);
    assert_true(isnan(review_tests_of(NULL, NULL, 0, 0.36).mae));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_levels, start, stop),
        cmocka_unit_test_setup_teardown(test_from_the_first_day_on, start, stop),
        cmocka_unit_test_setup_teardown(test_persistence_of_leads, start, stop),
        cmocka_unit_test_setup_teardown(test_events, start, stop),
        cmocka_unit_test_setup_teardown(test_nothing_happened, start, stop),
        cmocka_unit_test_setup_teardown(test_scores_without_a_rival, start, stop),
        cmocka_unit_test_setup_teardown(test_normal_of_a_day, start, stop),
        cmocka_unit_test_setup_teardown(test_normals_as_rival, start, stop),
        cmocka_unit_test_setup_teardown(test_normals_of_turnouts, start, stop),
        cmocka_unit_test_setup_teardown(test_no_memory_no_review, start, stop),
        cmocka_unit_test(test_grass_tests),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
