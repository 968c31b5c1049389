/* Swards stepped side by side against sward_step, over the real records of De Bilt (frost,
 * snow) and Shorter (drought; a warm-season grass that browns off). Every difference is
 * between two ways through the same equations. SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/daily.h"
#include "support/sward_support.h"
#include "sward/many.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

enum { MEMBERS = 37, STRIDE = 2 }; /* more than a block, and no whole number of registers */

static struct sward alone[MEMBERS], side[STRIDE * MEMBERS];
static struct sward_result one[MEMBERS], many[MEMBERS];

static void start(size_t grasses, const char *const grass[])
{
    const double share[] = {0.5, 0.3, 0.2};
    for (size_t m = 0; m < MEMBERS; m++) {
        double part = (double)m / MEMBERS;
        struct sward s = support_sward(grasses, grass, share);
        s.capacity_mm = 60 + 120 * part;
        s.nitrogen = 1.1 - 0.4 * part;
        s.water = 0.3 + 0.6 * part;
        for (size_t i = 0; i < grasses; i++) {
            s.own[i].pm20 *= 0.8 + 0.4 * part;
            s.own[i].growth_max *= 1.2 - 0.4 * part * part;
            s.own[i].half_sugar *= 0.9 + 0.2 * part;
        }
        alone[m] = side[STRIDE * m] = s;
    }
}

static double far(double a, double b)
{
    return fabs(a - b) / fmax(1.0, fabs(a));
}

static double result_far(const struct sward_result *a, const struct sward_result *b)
{
    const double x[] = {a->nsc_min, a->nsc_max, a->nsc_mean, a->wsc,         a->fructan,  a->starch, a->esc,
                        a->growth,  a->lai,     a->water,    a->assimilated, a->respired, a->built,  a->lost};
    const double y[] = {b->nsc_min, b->nsc_max, b->nsc_mean, b->wsc,         b->fructan,  b->starch, b->esc,
                        b->growth,  b->lai,     b->water,    b->assimilated, b->respired, b->built,  b->lost};
    double most = 0.0;
    for (size_t i = 0; i < sizeof x / sizeof x[0]; i++) {
        most = fmax(most, far(x[i], y[i]));
    }
    for (int h = 0; h < 24; h++) {
        most = fmax(most, far(a->nsc_hour[h], b->nsc_hour[h]));
    }
    bool same = a->heading == b->heading && a->drought == b->drought && a->killing_frost == b->killing_frost &&
                a->spread_factor == b->spread_factor;
    return same ? most : (double)INFINITY;
}

/* A third is grazed, a third mown now and then, a third left alone. */
static void manage(struct sward *s, size_t member, size_t day)
{
    if (member % 3 == 0) {
        sward_graze_to_cover(s, 1800);
    } else if (member % 3 == 1 && day % 40 == 17) {
        sward_cut(s, 5);
    }
}

/* The largest difference of any member on any day; and the doubt alone is that of the whole step. */
static double run(const char *file, double latitude, size_t grasses, const char *const grass[])
{
    const struct sward_place place = {.latitude = latitude, .snow_rule = true};
    struct table t;
    struct daily d;
    double most = 0.0;
    assert_true(table_read(&t, file));
    assert_true(daily_read(&d, &t, NULL, latitude, 50));
    start(grasses, grass);
    for (size_t i = 0; i < d.n; i++) {
        struct sward_day day;
        sward_day_make(&day, &d.day[i], &place);
        sward_step_many(side, MEMBERS, STRIDE, &day, many);
        for (size_t m = 0; m < MEMBERS; m++) {
            double doubt = sward_doubt(&alone[m], &day);
            sward_step(&alone[m], &day, &one[m]);
            assert_true(doubt == one[m].spread_factor);
            most = fmax(most, result_far(&one[m], &many[m]));
            manage(&alone[m], m, i);
            manage(&side[STRIDE * m], m, i);
        }
    }
    daily_free(&d);
    table_free(&t);
    return most;
}

static void side_by_side_is_as_alone(void **state)
{
    (void)state;
    assert_true(run("data/real/de_bilt_2005-2019.csv", 52.1, 1, (const char *const[]){"ryegrass"}) < 1e-9);
    assert_true(run("data/real/de_bilt_2005-2019.csv", 52.1, 3,
                    (const char *const[]){"ryegrass", "cocksfoot", "white-clover"}) < 1e-9);
    assert_true(run("data/real/shorter_al_us_2010-2019.csv", 32.4, 2, (const char *const[]){"bermuda", "tall-fescue"}) <
                1e-9);
}

/* Where the soils are not alike each goes its own way. */
static void unlike_soils_are_stepped_alone(void **state)
{
    struct sward_day d = support_day(8, 18, 17, 52, 150);
    (void)state;
    start(1, (const char *const[]){"ryegrass"});
    alone[3].soil_t = side[STRIDE * 3].soil_t = 12.0;
    sward_step_many(side, MEMBERS, STRIDE, &d, many);
    for (size_t m = 0; m < MEMBERS; m++) {
        sward_step(&alone[m], &d, &one[m]);
        assert_true(result_far(&one[m], &many[m]) < 1e-9);
    }
    assert_true(many[3].growth > many[2].growth); /* a warmer soil grows more */
    start(1, (const char *const[]){"ryegrass"});
    alone[36].snow_mm = side[STRIDE * 36].snow_mm = 40.0; /* one under snow, the last of its block */
    sward_step_many(side, MEMBERS, STRIDE, &d, many);
    for (size_t m = 0; m < MEMBERS; m++) {
        sward_step(&alone[m], &d, &one[m]);
        assert_true(result_far(&one[m], &many[m]) < 1e-9);
    }
}

/* A pool that is empty, next to it, or full, and at last all of them in one block: what is not there is not spent,
 * and both ways agree. */
static void pools_of(const struct sward_kind *odd)
{
    enum { POOLS = 5 };
    static const double content[POOLS] = {0.0, 1e-6, 0.002, 0.3, 0.45};
    struct sward_day warm = support_day(24, 34, 4, 52, 170), bright = support_day(2, 12, 28, 52, 170);
    for (size_t k = 0; k <= POOLS; k++) {
        for (int b = 0; b < 2; b++) {
            start(1, (const char *const[]){"ryegrass"});
            for (size_t m = 0; m < MEMBERS; m++) {
                struct sward_part *p = &alone[m].part[0];
                double part = content[k < POOLS ? k : m % POOLS];
                p->sugar = part * (p->leaf + p->stem) / (1.0 - part);
                side[STRIDE * m].part[0].sugar = p->sugar;
                alone[m].kind[0] = side[STRIDE * m].kind[0] = odd ? odd : alone[m].kind[0];
            }
            sward_step_many(side, MEMBERS, STRIDE, b ? &bright : &warm, many);
            for (size_t m = 0; m < MEMBERS; m++) {
                double before = alone[m].part[0].sugar;
                sward_step(&alone[m], b ? &bright : &warm, &one[m]);
                double change = alone[m].part[0].sugar - before, after = alone[m].part[0].sugar;
                assert_true(result_far(&one[m], &many[m]) < 1e-9);
                assert_true(after >= 0.0 && one[m].nsc_min >= 0.0);
                assert_true(fabs(one[m].assimilated - one[m].respired - one[m].built - one[m].lost - change) < 1e-9);
            }
        }
    }
}

static void empty_and_full_pools(void **state)
{
    struct sward_kind odd = support_params()->kind[0];
    (void)state;
    pools_of(NULL);
    /* as far as both may be set (swards.json): upkeep and growth ask for sugar that is held back */
    odd.sugar_min = 0.005;
    odd.sugar_floor = 0.02;
    pools_of(&odd);
}

/* Two of a kind or of several, a hundred days apart in a record: to the last bit what each is alone. */
static void two_at_a_time_are_as_alone(void **state)
{
    enum { APART = 100 };
    const char *const mixture[] = {"ryegrass", "cocksfoot", "white-clover"};
    const struct sward_place place = {.latitude = 52.1, .snow_rule = true};
    struct table t;
    struct daily d;
    (void)state;
    assert_true(table_read(&t, "data/real/de_bilt_2005-2019.csv"));
    assert_true(daily_read(&d, &t, NULL, 52.1, 50));
    for (size_t grasses = 1; grasses <= 3; grasses += 2) {
        start(grasses, mixture);
        for (size_t i = 0; i + APART < d.n; i++) {
            struct sward_day day[2];
            sward_day_make(&day[0], &d.day[i], &place);
            sward_day_make(&day[1], &d.day[i + APART], &place);
            sward_step_two((struct sward *const[]){&side[0], &side[STRIDE]},
                           (const struct sward_day *const[]){&day[0], &day[1]},
                           (struct sward_result *const[]){&many[0], &many[1]});
            for (size_t m = 0; m < 2; m++) {
                sward_step(&alone[m], &day[m], &one[m]);
                assert_true(result_far(&one[m], &many[m]) == 0.0);
                manage(&alone[m], m, i);
                manage(&side[STRIDE * m], m, i);
            }
        }
    }
    daily_free(&d);
    table_free(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(side_by_side_is_as_alone),
        cmocka_unit_test(unlike_soils_are_stepped_alone),
        cmocka_unit_test(empty_and_full_pools),
        cmocka_unit_test(two_at_a_time_are_as_alone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
