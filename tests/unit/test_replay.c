/* Replay: truth and forecasts of made-up days, members, and the run left as it would be.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <stdio.h>

#include "season/replay.h"

enum { DAYS = 40 };

static struct arena arena;
static struct params params;

static int load(void **state)
{
    struct err e = {0};
    (void)state;
    arena_init(&arena);
    return params_load("models", &arena, &params, &e) == ERR_OK ? 0 : -1;
}

static int release(void **state)
{
    (void)state;
    arena_release(&arena);
    return 0;
}

static void holding_of(const char *class_id, const char *kept, struct holding *h)
{
    char text[1024];
    struct err e = {0};
    int n = snprintf(text, sizeof text,
                     "{\"sugarlea\":1,\"name\":\"t\",\"site\":{\"latitude\":52},\"paddocks\":[{\"id\":\"p\","
                     "\"area_ha\":1,\"grass\":\"ryegrass\",\"kept\":%s}],\"animals\":[{\"id\":\"a\",\"class\":\"%s\","
                     "\"count\":2}]}",
                     kept, class_id);
    assert_int_equal(holding_parse(text, (size_t)n, "t.json", &params, &arena, h, &e), ERR_OK);
}

static struct sward_weather weather_of(int day, double warmer)
{
    return (struct sward_weather){.date = date_make(2025, 4, 1) + day,
                                  .tmin = 4 + warmer,
                                  .tmax = 14 + warmer,
                                  .rad = 14,
                                  .rain = 2,
                                  .et0 = 2,
                                  .tmax_before = 14,
                                  .tmin_after = 4};
}

/* As seen on the morning of day i: every day ahead 1 C warmer for each day ahead. */
static void see(int i, double recorded_warmer, struct run_day seen[REPLAY_AHEAD + 1])
{
    for (int k = 0; k <= REPLAY_AHEAD; k++) {
        seen[k] = (struct run_day){
            .recorded = weather_of(i + k, recorded_warmer), .morning = weather_of(i + k, k + 1.0), .assumed = true};
    }
}

static void replay_of(const struct holding *h, double recorded_warmer, struct run *r, struct replay *p)
{
    struct run_day seen[REPLAY_AHEAD + 1];
    assert_true(run_init(r, &params, h, &arena));
    assert_true(replay_init(p, r, DAYS, &arena));
    for (int i = 0; i < DAYS; i++) {
        see(i, recorded_warmer, seen);
        replay_day(p, r, (size_t)i, seen, i != 20);
    }
}

/* The same mornings and evenings without a replay. */
static void plain_run(const struct holding *h, double recorded_warmer, int days, struct run *r)
{
    struct run_day seen[REPLAY_AHEAD + 1];
    assert_true(run_init(r, &params, h, &arena));
    for (int i = 0; i < days; i++) {
        see(i, recorded_warmer, seen);
        run_morning(r, &seen[0]);
        run_evening(r, &seen[0]);
    }
}

static void test_run_is_left_alone(void **state)
{
    static const char *const kept[] = {"{\"how\":\"stocked\"}", "{\"how\":\"grazed\",\"cover_kg_dm_ha\":1800}"};
    (void)state;
    for (int k = 0; k < 2; k++) {
        struct holding h;
        struct run replayed, plain;
        struct replay p;
        holding_of("pony", kept[k], &h);
        replay_of(&h, 0, &replayed, &p);
        plain_run(&h, 0, DAYS, &plain);
        assert_int_equal(replayed.days, plain.days);
        assert_true(sward_green_kg_ha(&replayed.paddock[0].sward) == sward_green_kg_ha(&plain.paddock[0].sward));
        assert_true(replayed.paddock[0].day.nsc_mean == plain.paddock[0].day.nsc_mean);
        assert_true(p.paddock[0][REPLAY_NSC].truth[DAYS - 1] == plain.paddock[0].day.nsc_mean);
        assert_true(p.paddock[0][REPLAY_GROWTH].truth[DAYS - 1] == plain.paddock[0].day.growth);
    }
}

/* What was: the turnout on the weather as recorded, none of it assumed, also where the doubt of assumed weather
 * would have kept the animal in longer. */
static void test_truth_is_not_in_doubt(void **state)
{
    struct holding h;
    struct run r, by_hand;
    struct replay p;
    struct run_day seen[REPLAY_AHEAD + 1];
    int other = 0;
    (void)state;
    holding_of("goat-laminitis-history", "{\"how\":\"grazed\",\"cover_kg_dm_ha\":1800}", &h);
    for (int warmer = -4; warmer <= 8; warmer += 2) {
        replay_of(&h, warmer, &r, &p);
        for (int i = 0; i < 20; i++) {
            plain_run(&h, warmer, i, &by_hand);
            see(i, warmer, seen);
            seen[0].morning = seen[0].recorded;
            run_morning(&by_hand, &seen[0]);
            enum turnout in_doubt = by_hand.animal[0].advice.turnout;
            seen[0].assumed = false;
            run_morning(&by_hand, &seen[0]);
            assert_true(p.group[0].turnout.truth[i] == (double)by_hand.animal[0].advice.turnout);
            other += in_doubt != by_hand.animal[0].advice.turnout;
        }
    }
    assert_true(other > 0); /* the test saw the case, else it proves nothing */
}

static void test_leads(void **state)
{
    enum { ISSUED = 10 };
    struct holding h;
    struct run r, by_hand;
    struct replay p;
    struct run_day seen[REPLAY_AHEAD + 1];
    (void)state;
    holding_of("pony", "{\"how\":\"stocked\"}", &h);
    replay_of(&h, 0, &r, &p);
    plain_run(&h, 0, ISSUED, &by_hand);
    see(ISSUED, 0, seen);
    const struct replay_series *nsc = &p.paddock[0][REPLAY_NSC];
    for (size_t k = 0, lead = 0; k <= REPLAY_AHEAD; k++) {
        run_morning(&by_hand, &seen[k]);
        if (k == replay_lead[lead]) {
            assert_true(nsc->said[lead][ISSUED + k] == by_hand.paddock[0].expected.nsc_mean);
            assert_true(p.paddock[0][REPLAY_GROWTH].said[lead][ISSUED + k] == by_hand.paddock[0].expected.growth);
            assert_true(p.group[0].turnout.said[lead][ISSUED + k] == (double)by_hand.animal[0].advice.turnout);
            lead++;
        }
        seen[k].recorded = seen[k].morning; /* the day passes as that morning believed */
        run_evening(&by_hand, &seen[k]);
    }
    plain_run(&h, 0, ISSUED, &by_hand); /* what was: the record itself, nothing assumed */
    see(ISSUED, 0, seen);
    seen[0].morning = seen[0].recorded;
    seen[0].assumed = false;
    run_morning(&by_hand, &seen[0]);
    assert_true(nsc->truth[ISSUED] == by_hand.paddock[0].expected.nsc_mean);
    assert_true(p.group[0].turnout.truth[ISSUED] == (double)by_hand.animal[0].advice.turnout);
    for (size_t lead = 0; lead < REPLAY_LEADS; lead++) { /* before the first morning could speak */
        for (size_t i = 0; i < replay_lead[lead]; i++) {
            assert_true(isnan(nsc->said[lead][i]) && isnan(p.paddock[0][REPLAY_GROWTH].said[lead][i]));
            assert_true(isnan(p.group[0].turnout.said[lead][i]));
        }
    }
    assert_false(isnan(nsc->said[2][REPLAY_AHEAD]));
    assert_true(isnan(nsc->truth[20]) && isnan(p.group[0].turnout.truth[20])); /* not recorded */
    assert_false(isnan(nsc->said[0][20]));
}

/* A height measured later is nothing that a morning before it could know. */
static void test_later_heights_unknown(void **state)
{
    enum { MEASURED = 12 };
    const struct cover_reading reading = {.date = weather_of(MEASURED, 0).date, .kg_ha = 600};
    struct holding h;
    struct run r;
    struct replay with, without;
    (void)state;
    holding_of("pony", "{\"how\":\"rested\"}", &h);
    replay_of(&h, 0, &r, &without);
    h.paddock[0].reading = &reading;
    h.paddock[0].readings = 1;
    replay_of(&h, 0, &r, &with);
    const struct replay_series *measured = &with.paddock[0][REPLAY_GROWTH], *never = &without.paddock[0][REPLAY_GROWTH];
    assert_true(measured->truth[MEASURED - 1] == never->truth[MEASURED - 1]);
    assert_true(measured->truth[MEASURED] != never->truth[MEASURED]);
    assert_true(measured->said[0][MEASURED] != never->said[0][MEASURED]); /* that very morning knows it */
    assert_true(measured->said[1][MEASURED] == never->said[1][MEASURED]); /* the morning before does not */
    assert_true(measured->said[2][MEASURED + 2] == never->said[2][MEASURED + 2]);
    assert_true(measured->said[2][MEASURED + 3] != never->said[2][MEASURED + 3]);
}

/* What the morning believes is what comes: the record then says nothing else. */
static void test_morning_that_knows(void **state)
{
    struct holding h;
    struct run r;
    struct replay p;
    (void)state;
    holding_of("pony", "{\"how\":\"grazed\",\"cover_kg_dm_ha\":1800}", &h);
    replay_of(&h, 1.0, &r, &p);
    for (int i = 0; i < DAYS; i++) {
        if (i != 20) {
            assert_true(p.paddock[0][REPLAY_NSC].said[0][i] == p.paddock[0][REPLAY_NSC].truth[i]);
        }
    }
    assert_true(p.paddock[0][REPLAY_NSC].said[1][5] != p.paddock[0][REPLAY_NSC].truth[5]);
}

/* Every member one by one, on grass from poor to rich and for all classes. */
static void test_members_one_by_one(void **state)
{
    (void)state;
    for (size_t k = 0; k < params.animals; k++) {
        struct holding h;
        struct run r;
        struct replay p;
        holding_of(params.animal[k].id, "{\"how\":\"grazed\",\"cover_kg_dm_ha\":1800}", &h);
        replay_of(&h, 0, &r, &p);
        for (double level = 20; level < 400; level *= 1.15) {
            struct replay_members quick = {{0}}, slow = {{0}};
            struct advice_grass grass = r.animal[0].grass;
            for (size_t m = 0; m < REPLAY_MEMBERS; m++) {
                struct advice_grass one = grass;
                struct advice advice;
                for (int hour = 0; hour < 24; hour++) {
                    grass.nsc[hour] = level * (1.0 + 0.2 * sin(hour / 24.0 * 6.28));
                    one.nsc[hour] = grass.nsc[hour] * p.factor[m];
                }
                one.starch_pct *= p.factor[m];
                advise_with(&r.tables, &one, &r.animal[0].input, &params.limits, &advice);
                slow.of[advice.turnout]++;
            }
            replay_members(&r, &grass, &r.animal[0].input, p.factor, REPLAY_MEMBERS, &quick);
            for (int t = 0; t < REPLAY_TURNOUTS; t++) {
                assert_true(quick.of[t] == slow.of[t]);
            }
        }
    }
}

/* The members are the middles of ten equal shares of a ln-normal distribution with the
 * ln-SD for assumed weather; 1.6449 is the normal quantile of 0.95 (any table). */
static void test_factors(void **state)
{
    struct holding h;
    struct run r;
    struct replay p;
    (void)state;
    holding_of("pony", "{\"how\":\"rested\"}", &h);
    assert_true(run_init(&r, &params, &h, &arena) && replay_init(&p, &r, 1, &arena));
    assert_true(p.weather_sd == params.limits.spread_assumed_weather);
    assert_true(fabs(log(p.factor[9]) / p.weather_sd - 1.6449) < 1e-4);
    for (size_t m = 0; m < REPLAY_MEMBERS; m++) {
        assert_true(fabs(p.factor[m] * p.factor[REPLAY_MEMBERS - 1 - m] - 1.0) < 1e-12);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_run_is_left_alone),
        cmocka_unit_test(test_truth_is_not_in_doubt),
        cmocka_unit_test(test_leads),
        cmocka_unit_test(test_morning_that_knows),
        cmocka_unit_test(test_members_one_by_one),
        cmocka_unit_test(test_factors),
        cmocka_unit_test(test_later_heights_unknown),
    };
    return cmocka_run_group_tests(tests, load, release);
}
