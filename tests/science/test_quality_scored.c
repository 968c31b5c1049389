/* How much of what is wrong the checks find, and how often they doubt an honest day:
 * errors of ten kinds planted, at fixed seeds, in three real records that are clean as
 * far as we can see. All bounds: computed by us, so that they only guard what was
 * reached; the aim of 90 % found at 1 % false alarms is the project's own.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/err.h"
#include "support/planting.h"
#include "support/sward_support.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

enum { RECORDS = 3, ROUNDS = 4, ERRORS = 600 };

/* Places: data/SOURCES.md. each: errors of a kind, 50 in all. */
static const struct {
    const char *path;
    double latitude, elevation;
    size_t each;
} records[RECORDS] = {{"data/real/dublin_airport_2010-2020.csv", 53.428, 71, 17},
                      {"data/real/de_bilt_2005-2019.csv", 52.10, 2, 17},
                      {"data/real/shorter_al_us_2010-2019.csv", 32.443, 132, 16}};

struct tally {
    size_t planted, found;
};

struct reading {
    struct arena arena;
    struct weather_days w;
    struct site site;
    struct quality q;
};

static void read_record(struct reading *r, size_t record)
{
    struct weather_set set;
    struct err e;
    err_clear(&e);
    arena_init(&r->arena);
    if (weather_read(records[record].path, NULL, &r->arena, &set, &e) != ERR_OK) {
        fail_msg("%s", e.what);
    }
    r->w = set.site[0].days;
    r->site =
        (struct site){.latitude = records[record].latitude, .longitude = 0, .elevation_m = records[record].elevation};
}

/* Leaves the reading `n` days from `from`. */
static void slice(struct reading *r, size_t from, size_t n)
{
    for (int v = 0; v < WEATHER_VARS; v++) {
        r->w.col[v] = r->w.col[v] ? r->w.col[v] + from : NULL;
    }
    r->w.origin += from;
    r->w.filled += from;
    r->w.day0 += (date_t)from;
    r->w.n = n;
}

static void check(struct reading *r)
{
    struct err e;
    assert_int_equal(quality_check(&r->w, &r->site, &support_params()->quality, &r->arena, &r->q, &e), ERR_OK);
}

static void plant_and_count(unsigned kinds, unsigned long long seed, struct tally tally[PLANT_KINDS])
{
    for (size_t record = 0; record < RECORDS; record++) {
        static struct plant plants[ERRORS];
        struct reading r;
        read_record(&r, record);
        size_t n = plant_errors(&r.w, &r.site, kinds, records[record].each, 10 * seed + record, plants, ERRORS);
        check(&r);
        plant_look(&r.q, r.w.day0, plants, n);
        for (size_t p = 0; p < n; p++) {
            tally[plants[p].kind].planted++;
            tally[plants[p].kind].found += plants[p].found;
        }
        arena_release(&r.arena);
    }
}

static double percent(const struct tally *t)
{
    return 100.0 * (double)t->found / (double)t->planted;
}

/* Least found of each kind, %, over ROUNDS plantings of 50. */
static const double least[PLANT_COUNTED] = {
    [PLANT_STEP] = 86, [PLANT_FROZEN] = 97,  [PLANT_SWAPPED] = 100, [PLANT_TENTHS] = 96,     [PLANT_FAHRENHEIT] = 100,
    [PLANT_SIGN] = 85, [PLANT_SHIFTED] = 80, [PLANT_DOUBLED] = 100, [PLANT_RADIATION] = 100, [PLANT_RAIN] = 37};

static void nine_in_ten_errors_are_found(void **state)
{
    struct tally tally[PLANT_KINDS] = {{0, 0}};
    (void)state;
    for (unsigned long long seed = 1; seed <= ROUNDS; seed++) {
        struct tally round = {0, 0}, before = {0, 0};
        for (int kind = 0; kind < PLANT_COUNTED; kind++) {
            before.found += tally[kind].found;
        }
        plant_and_count((1u << PLANT_COUNTED) - 1, seed, tally);
        for (int kind = 0; kind < PLANT_COUNTED; kind++) {
            round.found += tally[kind].found;
        }
        round.found -= before.found;
        round.planted = 50 * PLANT_COUNTED;
        printf("# planting %llu: %zu of %zu errors found\n", seed, round.found, round.planted);
        assert_true(percent(&round) >= 88); /* one planting of 500: give or take 1.1, by the binomial law */
    }
    struct tally all = {0, 0};
    for (int kind = 0; kind < PLANT_COUNTED; kind++) {
        printf("# %-18s %5.1f %% of %zu\n", plant_names[kind], percent(&tally[kind]), tally[kind].planted);
        assert_int_equal(tally[kind].planted, 50 * ROUNDS);
        assert_true(percent(&tally[kind]) >= least[kind]);
        all.planted += tally[kind].planted;
        all.found += tally[kind].found;
    }
    printf("# all                %5.1f %%\n", percent(&all));
    assert_true(percent(&all) >= 90);
}

/* One day in a hundred, and no fault that only a clean record could be spared. */
static void honest_days_are_left_alone(void **state)
{
    size_t alarms = 0, days = 0;
    (void)state;
    for (size_t record = 0; record < RECORDS; record++) {
        struct reading r;
        read_record(&r, record);
        check(&r);
        size_t here = plant_false_alarms(&r.q, &r.w, NULL, 0);
        printf("# %s: %zu of %zu days doubted\n", records[record].path, here, r.w.n);
        alarms += here;
        days += r.w.n;
        assert_int_equal(r.q.of_kind[DOUBT_CROSSED] + r.q.of_kind[DOUBT_IMPOSSIBLE] + r.q.of_kind[DOUBT_FAHRENHEIT] +
                             r.q.of_kind[DOUBT_DOUBLED] + r.q.of_kind[DOUBT_ABOVE_AIR] +
                             r.q.of_kind[DOUBT_WIND_HEIGHT] + r.q.of_kind[DOUBT_MISSING],
                         0);
        arena_release(&r.arena);
    }
    printf("# false alarms: %.2f %% of days\n", 100.0 * (double)alarms / (double)days);
    assert_true((double)alarms <= 0.01 * (double)days);
}

/* Most keepers have a few years: the same records cut into pieces of two. */
static void two_years_do_nearly_as_well(void **state)
{
    enum { DAYS = 731, EACH = 2 };
    struct tally all = {0, 0};
    size_t alarms = 0, days = 0;
    (void)state;
    for (size_t record = 0; record < RECORDS; record++) {
        for (size_t from = 0, n = DAYS; n >= DAYS; from += DAYS) {
            static struct plant plants[ERRORS];
            struct reading r;
            read_record(&r, record);
            n = r.w.n - from;
            if (n >= DAYS) {
                slice(&r, from, DAYS);
                check(&r);
                alarms += plant_false_alarms(&r.q, &r.w, NULL, 0);
                days += DAYS;
                size_t planted =
                    plant_errors(&r.w, &r.site, (1u << PLANT_COUNTED) - 1, EACH, from + record + 1, plants, ERRORS);
                check(&r);
                plant_look(&r.q, r.w.day0, plants, planted);
                for (size_t p = 0; p < planted; p++) {
                    all.planted++;
                    all.found += plants[p].found;
                }
            }
            arena_release(&r.arena);
        }
    }
    printf("# two years: %.1f %% of %zu found, false alarms %.2f %% of days\n", percent(&all), all.planted,
           100.0 * (double)alarms / (double)days);
    assert_true(percent(&all) >= 84 && (double)alarms <= 0.013 * (double)days);
}

/* What daily data do not show: see quality.h. The miss is stated; were it to vanish,
 * this test would have to say so. */
static void what_is_missed_is_known(void **state)
{
    struct tally tally[PLANT_KINDS] = {{0, 0}};
    (void)state;
    for (unsigned long long seed = 11; seed < 11 + ROUNDS; seed++) {
        plant_and_count(1u << PLANT_RAIN | 1u << PLANT_SMALL_SIGN | 1u << PLANT_LATE, seed, tally);
    }
    static const struct {
        enum plant_kind kind;
        double low, high;
    } missed[] = {{PLANT_RAIN, 40, 65}, {PLANT_SMALL_SIGN, 5, 40}, {PLANT_LATE, 15, 60}};
    for (size_t m = 0; m < sizeof missed / sizeof missed[0]; m++) {
        const struct tally *t = &tally[missed[m].kind];
        printf("# %-18s %5.1f %% of %zu\n", plant_names[missed[m].kind], percent(t), t->planted);
        assert_true(percent(t) >= missed[m].low && percent(t) <= missed[m].high);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nine_in_ten_errors_are_found),
        cmocka_unit_test(honest_days_are_left_alone),
        cmocka_unit_test(two_years_do_nearly_as_well),
        cmocka_unit_test(what_is_missed_is_known),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
