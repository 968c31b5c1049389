/* Need, run-out, purchase and grass of ensembles made by hand.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "hay/plan.h"
#include "hay/supply.h"
#include "support/sward_support.h"

#define CLOSE(a, b, most) assert_true(fabs((double)(a) - (double)(b)) <= (most))

enum { YEARS = 9, DAYS = 100 };

static struct arena arena;
static struct holding holding;
static struct run run;
static struct ensemble e;

static int start(void **state)
{
    (void)state;
    arena_init(&arena);
    return 0;
}

static int stop(void **state)
{
    (void)state;
    arena_release(&arena);
    return 0;
}

/* Two goats' groups on a hectare and a pony on a stocked one; hay as said. */
static void make_holding(const char *hay)
{
    char text[2048];
    struct err err = {0};
    snprintf(text, sizeof text,
             "{\"sugarlea\":1,\"site\":{\"latitude\":52},\"paddocks\":[{\"id\":\"p\",\"area_ha\":1},"
             "{\"id\":\"q\",\"area_ha\":1,\"kept\":{\"how\":\"stocked\"}}],\"animals\":["
             "{\"id\":\"a\",\"class\":\"goat-dry\",\"count\":4,\"paddock\":\"p\"},"
             "{\"id\":\"b\",\"class\":\"goat-dry\",\"count\":1,\"paddock\":\"p\"},"
             "{\"id\":\"c\",\"class\":\"pony\",\"paddock\":\"q\"}],\"hay\":%s}",
             hay);
    if (holding_parse(text, strlen(text), "t.json", support_params(), &arena, &holding, &err) != ERR_OK) {
        fail_msg("%s: %s", err.field, err.what);
    }
    assert_true(run_init(&run, support_params(), &holding, &arena));
}

/* Year y: group a is given 1 + y/10 kg a head, b 2 kg, c none; nobody grazes. */
static void make_ensemble(void)
{
    e = (struct ensemble){.first = date_make(2020, 12, 1),
                          .years = YEARS,
                          .days = DAYS,
                          .paddocks = 2,
                          .animals = 3,
                          .members = YEARS,
                          .brief_h = 1};
    size_t cells = 3 * (size_t)YEARS * DAYS;
    e.growth = arena_alloc(&arena, cells, sizeof(float));
    e.sugar = arena_alloc(&arena, cells, sizeof(float));
    e.hours = arena_alloc(&arena, cells, sizeof(float));
    e.hay = arena_alloc(&arena, cells, sizeof(float));
    e.grass = arena_alloc(&arena, cells, sizeof(float));
    for (size_t y = 0; y < YEARS; y++) {
        for (size_t k = 0; k < DAYS; k++) {
            e.hay[ensemble_at(&e, 0, y, k)] = 1.0F + (float)y / 10.0F;
            e.hay[ensemble_at(&e, 1, y, k)] = 2.0F;
        }
    }
}

static struct hay_plan plan_of(double doubt, bool with_grass)
{
    struct hay_plan plan;
    const struct hay_ask ask = {.e = &e,
                                .h = &holding,
                                .p = support_params(),
                                .now = with_grass ? &run : NULL,
                                .losses = hay_losses_of(&holding, support_params()),
                                .doubt = doubt};
    assert_true(hay_plan_make(&ask, &arena, &plan));
    return plan;
}

#define STORE "\"stored\":\"default-inside\",\"fed_from\":\"default-goat-keyhole\"" /* 6 % and 10 % */

/* By hand: year y eats 4 (1 + y/10) + 2 kg a day: 6 .. 9.2, of 9 years p10 6.0, p50 7.6, p90 9.2
 * (places 1, 5, 9). 100 days, / (0.94 x 0.90): 709.2, 898.3, 1087.5 kg. 40 bales of 20 kg are
 * 800: empty on day 800 x 0.846/7.6 = 89.05, the 90th, index 89; in the worst year at 800 x
 * 0.846/9.2 = 73.6, index 73; never in the best. p80 is place 8, year 7: 8.8 kg: 1040.2 kg, 240.2
 * short, 12.0095 bales, and a hundredth is let go: 12; p95 the worst year: 287.5, 15 bales. */
static void quantiles_run_out_and_purchase(void **state)
{
    (void)state;
    make_holding("{\"stock\":[{\"feed\":\"grass-hay-mature\",\"bales\":40,\"bale_kg\":20}]," STORE
                 ",\"price_per_bale\":5}");
    make_ensemble();
    struct hay_plan plan = plan_of(0.0, false);
    CLOSE(plan.need_kg.p10, 709.2, 0.1);
    CLOSE(plan.need_kg.p50, 898.3, 0.1);
    CLOSE(plan.need_kg.p90, 1087.5, 0.1);
    assert_true(plan.runs_out.p10 == e.first + 73 && plan.runs_out.p50 == e.first + 89 && isnan(plan.runs_out.p90));
    assert_true(plan.bales_p80 == 12 && plan.bales_p95 == 15 && plan.cost_p80 == 60 && plan.cost_p95 == 75);
    /* with everybody off grass too, the stock need not be bought again */
    assert_true(plan.off_grass_kg > 900);
    CLOSE(plan.off_grass_bales, ceil((plan.off_grass_kg - 800) / 20 - 0.01), 0);
    /* three weeks before the worst tenth runs out: 1 December and 73 days, less 21 */
    assert_int_equal(plan.order_by, date_make(2020, 12, 1) + 73 - 21);
    CLOSE(plan.group[0].eaten_kg_head, 1.4, 1e-6);
    CLOSE(plan.group[1].eaten_kg_head, 2.0, 1e-6);
    CLOSE(plan.group[1].need_kg.p50, 200 / 0.846, 0.1);
    CLOSE(plan.left_middle[9], 800 - 76 / 0.846, 0.1);
    CLOSE(plan.left_low[99], 0, 0);
    assert_int_equal(plan.until, date_make(2020, 12, 1) + 99);
}

/* The doubt is log-normal about the middle: with one weather p90/p50 is exp(1.28 x 0.1) but
 * for the 101 points that stand for it; and more doubt is more to buy, never a different middle. */
static void doubt_widens_and_does_not_move(void **state)
{
    (void)state;
    make_holding("{\"stock\":[{\"feed\":\"grass-hay-mature\",\"kg\":800}]," STORE "}");
    make_ensemble();
    for (size_t i = 0; i < 2 * (size_t)YEARS * DAYS; i++) {
        e.hay[i] = 1.0F;
    }
    struct hay_plan sure = plan_of(0.0, false), vague = plan_of(0.1, false);
    CLOSE(sure.need_kg.p90, sure.need_kg.p10, 1e-6);
    CLOSE(vague.need_kg.p50, sure.need_kg.p50, 1e-3 * sure.need_kg.p50);
    double ratio = vague.need_kg.p90 / vague.need_kg.p50; /* 9 years on record push p90 out to their 0.944 */
    assert_true(ratio > exp(1.28 * 0.1) && ratio < exp(1.7 * 0.1));
    assert_true(vague.need_p95 > vague.need_p80 && vague.need_p80 > sure.need_p80);
}

static void no_stock_is_said(void **state)
{
    (void)state;
    make_holding("{" STORE "}");
    make_ensemble();
    struct hay_plan plan = plan_of(0.0, false);
    assert_true(isnan(plan.stock.kg) && isnan(plan.runs_out.p10) && plan.left_middle == NULL);
    assert_int_equal(plan.order_by, DATE_NONE);
    assert_true(plan.bales_p95 == ceil(1087.5 / 18)); /* all of the need, in usual bales */
    assert_true(isnan(plan.cost_p95) && !plan.stock.bale_known);
    make_holding("{\"stock\":[{\"feed\":\"grass-hay-mature\",\"bales\":0,\"bale_kg\":20}]," STORE "}");
    plan = plan_of(0.0, false);
    assert_true(plan.stock.kg == 0.0 && plan.runs_out.p50 == e.first && plan.order_by == e.first);
}

/* Lots of other dry matter count by it (grass-silage 38.8 %, grass-hay-mature 89.8 %, NASEM 2021),
 * straw does not count, and hay fed daily is drawn from the store: mixed-hay is 86.4 %. */
static void lots_and_hay_fed_daily(void **state)
{
    (void)state;
    make_holding("{\"stock\":[{\"feed\":\"grass-hay-mature\",\"kg\":100},{\"feed\":\"grass-silage\",\"kg\":1000},"
                 "{\"feed\":\"wheat-straw\",\"kg\":500},{\"feed\":\"mixed-hay\"}]," STORE "}");
    make_ensemble();
    struct hay_plan plan = plan_of(0.0, false);
    CLOSE(plan.stock.kg, 100 + 1000 * 38.8 / 89.8, 0.01);
    CLOSE(plan.stock.weighed_kg, 1100, 1e-9);
    assert_true(isnan(plan.stock.counted));
    assert_int_equal(plan.stock.lots, 3);
    assert_int_equal(plan.stock.unknown, 1);
    assert_int_equal(plan.stock.straw, 1);
    struct fed daily[] = {{params_feed(support_params(), "mixed-hay"), 1.0},
                          {params_feed(support_params(), "wheat-straw"), 1.0}};
    holding.animal[1].fed[0] = daily[0];
    holding.animal[1].fed[1] = daily[1];
    holding.animal[1].feds = 2;
    CLOSE(plan_of(0.0, false).group[1].eaten_kg_head, 2.0 + 86.4 / 89.8, 1e-4);
}

/* Grass that is not there is hay. By hand: 1 ha kept at 1800 kg, 3 cm (540 kg) out of reach: at
 * most 0.6 x 1260 = 756 kg count when no more stands now. 5 goats that graze 2 kg DM take 10 a day,
 * nothing grows: on the 76th day (index 75) 6 kg are left, each goat gets 1.2 of its 2 kg and
 * 0.8/0.898 kg of hay more; on the next none and 2/0.898 kg. */
static void grass_that_is_not_there_is_hay(void **state)
{
    struct ensemble given;
    struct hay_pasture pasture[2];
    (void)state;
    make_holding("{" STORE "}");
    make_ensemble();
    sward_graze_to_cover(&run.paddock[0].sward, 1200); /* less than it is kept at: grown back first */
    for (size_t i = 0; i < 2 * (size_t)YEARS * DAYS; i++) {
        e.grass[i] = 2.0F;
    }
    for (size_t y = 0; y < YEARS; y++) {
        e.growth[ensemble_at(&e, 0, y, 0)] = 1e5F; /* up to what it is kept at, on the first day */
    }
    memset(pasture, 0, sizeof pasture);
    const struct hay_ask ask = {.e = &e, .h = &holding, .p = support_params(), .now = &run};
    assert_true(hay_supply(&ask, &arena, &given, pasture));
    size_t before = ensemble_at(&given, 0, 4, 74), on = before + 1, after = on + 1;
    CLOSE(given.grass[before], 2.0, 1e-6);
    CLOSE(given.hay[before], 1.4, 1e-6);
    CLOSE(given.grass[on], 1.2, 1e-3);
    CLOSE(given.hay[on], 1.4 + 0.8 / 0.898, 1e-3);
    CLOSE(given.grass[after], 0.0, 1e-6);
    CLOSE(given.hay[after], 1.4 + 2.0 / 0.898, 1e-3);
    assert_true(pasture[0].short_from.p50 == e.first + 75);
    assert_int_equal(pasture[0].groups, 2);
    CLOSE(pasture[0].eaten_kg.p50, 756, 0.1);
    assert_true(isnan(pasture[1].short_from.p50)); /* a pony that is not on grass */
    assert_true(plan_of(0.0, true).need_kg.p50 > plan_of(0.0, false).need_kg.p50 + 10 * 24 / 0.846 / 0.898 - 20);
}

/* Paddocks drawn about the model's are for the outlook: the hay planned is by the model's own, and drawn ones
 * without a blade of grass and with heaps of hay change nothing. */
static void drawn_paddocks_are_not_planned_for(void **state)
{
    struct ensemble alone;
    (void)state;
    make_holding("{" STORE "}");
    make_ensemble();
    for (size_t i = 0; i < 3 * (size_t)YEARS * DAYS; i++) {
        e.grass[i] = 2.0F;
    }
    alone = e;
    struct hay_plan plain = plan_of(0.0, true);
    e.draws = 1;
    e.members = 2 * YEARS;
    e.hay = arena_alloc(&arena, 3 * e.members * DAYS, sizeof(float));
    e.grass = arena_alloc(&arena, 3 * e.members * DAYS, sizeof(float));
    e.growth = arena_alloc(&arena, 3 * e.members * DAYS, sizeof(float));
    for (size_t i = 0; i < 3; i++) {
        size_t of_model = YEARS * DAYS * sizeof(float);
        memcpy(e.hay + ensemble_at(&e, i, 0, 0), alone.hay + ensemble_at(&alone, i, 0, 0), of_model);
        memcpy(e.grass + ensemble_at(&e, i, 0, 0), alone.grass + ensemble_at(&alone, i, 0, 0), of_model);
        for (size_t k = 0; k < (size_t)YEARS * DAYS; k++) {
            e.hay[ensemble_at(&e, i, YEARS, k)] = 50.0F;
        }
    }
    struct ensemble given;
    struct hay_pasture pasture[2] = {0};
    const struct hay_ask ask = {.e = &e, .h = &holding, .p = support_params(), .now = &run};
    assert_true(hay_supply(&ask, &arena, &given, pasture));
    assert_int_equal(given.members, YEARS); /* the hay and grass given have room for no more */
    struct hay_plan drawn = plan_of(0.0, true);
    assert_true(drawn.need_kg.p50 == plain.need_kg.p50 && drawn.need_kg.p90 == plain.need_kg.p90);
    assert_true(drawn.pasture[0].eaten_kg.p50 == plain.pasture[0].eaten_kg.p50);
}

/* Every class, off grass or on grass that runs out: forage never below its least, models/animals.json. */
static void never_less_forage_than_the_floor(void **state)
{
    const struct params *p = support_params();
    struct ensemble table;
    (void)state;
    for (size_t i = 0; i < p->animals; i++) {
        const struct animal_class *c = &p->animal[i];
        char text[512];
        struct err err = {0};
        snprintf(text, sizeof text,
                 "{\"sugarlea\":1,\"site\":{\"latitude\":52},\"paddocks\":[{\"id\":\"p\",\"area_ha\":0.01}],"
                 "\"animals\":[{\"id\":\"a\",\"class\":\"%s\",\"fed_daily\":[{\"feed\":\"oats\",\"kg\":%g}]}]}",
                 c->id, c->weight_kg / 40.0); /* a bucket of 2.5 % of the weight: hay is cut to the floor */
        assert_int_equal(holding_parse(text, strlen(text), "t.json", p, &arena, &holding, &err), ERR_OK);
        assert_true(run_init(&run, p, &holding, &arena));
        assert_true(hay_table_days(&holding, p, 0, 1, &arena, &table));
        double floor_kg = c->min_forage_pct / 100.0 * c->weight_kg;
        double dm = hay_lot_dm_pct(&holding.lot[0], p) / 100.0;
        if (isnan(floor_kg)) {
            continue;
        }
        assert_true((double)table.hay[0] * dm >= floor_kg - 1e-4);
        /* the advice gives `grass` to graze and hay to the floor; the paddock of 100 m2 has next to nothing */
        float growth = 0.0F, grass = (float)(0.4 * floor_kg), hay = (float)(0.6 * floor_kg / dm), hours = 4.0F;
        const struct ensemble thin = {.years = 1,
                                      .days = 1,
                                      .members = 1,
                                      .animals = 1,
                                      .paddocks = 1,
                                      .growth = &growth,
                                      .grass = &grass,
                                      .hay = &hay,
                                      .hours = &hours};
        struct ensemble given;
        struct hay_pasture pasture = {0};
        const struct hay_ask ask = {.e = &thin, .h = &holding, .p = p, .now = &run};
        assert_true(hay_supply(&ask, &arena, &given, &pasture));
        assert_true((double)given.hay[0] * dm + (double)given.grass[0] >= floor_kg * (1 - 1e-6));
    }
}

/* Hay of a table day is the class's intake less what is fed: goat-dry 2.5 % of 60 kg (models/animals.json),
 * 1.5 kg DM, as fed at 89.8 % 1.67 kg. */
static void a_table_day(void **state)
{
    (void)state;
    make_holding("{" STORE "}");
    assert_true(hay_table_days(&holding, support_params(), date_make(2020, 1, 1), 5, &arena, &e));
    CLOSE(e.hay[ensemble_at(&e, 0, 0, 4)], 0.025 * 60 / 0.898, 1e-3);
    CLOSE(e.grass[4], 0, 0);
    struct hay_plan plan;
    struct hay_ask ask = {.e = &e,
                          .h = &holding,
                          .p = support_params(),
                          .losses = hay_losses_of(&holding, support_params()),
                          .doubt = 0.1,
                          .by_table = true};
    assert_true(hay_plan_make(&ask, &arena, &plan));
    assert_int_equal(plan.years, 0);
    assert_true(plan.pasture == NULL);
    /* no years, and so no share for unseen ones: p90/p50 = exp(1.2816 x 0.1) = 1.137 */
    CLOSE(plan.need_kg.p90 / plan.need_kg.p50, 1.137, 0.005);
    CLOSE(plan.off_grass_kg, plan.need_kg.p50, 0.1);
}

static void losses_and_doubt_of_the_holding(void **state)
{
    (void)state;
    make_holding("{}");
    struct hay_losses l = hay_losses_of(&holding, support_params());
    assert_true(l.store_pct == support_params()->hay.store_loss_pct &&
                l.feed_pct == support_params()->hay.feed_loss_pct);
    CLOSE(hay_doubt(&holding, support_params()), support_params()->hay.doubt, 1e-12);
    /* outside, covered, on the ground: 15 to 35 %, typical 25 (Kentucky State): ln(0.85/0.65)/4 = 0.067 */
    make_holding("{\"stored\":\"out-cov-ground\",\"fed_from\":\"round-tomb-skirt\"}");
    l = hay_losses_of(&holding, support_params());
    assert_true(l.store_pct == 25 && l.feed_pct == 13);
    CLOSE(hay_doubt(&holding, support_params()), hypot(0.1, 0.0671), 1e-4);
}

static void the_lean_season_ends(void **state)
{
    (void)state;
    assert_int_equal(hay_lean_end(date_make(2025, 11, 25), 52), date_make(2026, 4, 30));
    assert_int_equal(hay_lean_end(date_make(2025, 4, 29), 52), date_make(2025, 4, 30));
    assert_int_equal(hay_lean_end(date_make(2025, 4, 30), 52), date_make(2026, 4, 30));
    assert_int_equal(hay_lean_end(date_make(2025, 11, 25), -37), date_make(2026, 10, 31));
    assert_int_equal(hay_lean_end(date_make(2025, 5, 1), -37), date_make(2025, 10, 31));
}

/* 500 kg of 1.523 a day and head are 761.7 eaten, 900.3 kg with losses: of 18 kg 51 bales, not 50. */
static void all_of_the_need_is_bought_without_a_stock(void **state)
{
    (void)state;
    make_holding("{" STORE "}");
    make_ensemble();
    for (size_t i = 0; i < 2 * (size_t)YEARS * DAYS; i++) {
        e.hay[i] = (float)(900.3 * 0.846 / 500);
    }
    struct hay_plan plan = plan_of(0.0, false);
    CLOSE(plan.need_p80, 900.3, 0.01);
    assert_true(plan.bales_p80 == 51 && plan.bales_p95 == 51);
    CLOSE(plan.off_grass_bales, ceil(plan.off_grass_kg / 18 - 0.01), 0);
}

/* Dry matter that no table knows is that of a usual bale: 86 % (models/limits.json); a loss without a
 * range adds no doubt. */
static void what_no_table_knows(void **state)
{
    struct feed unknown = *params_feed(support_params(), "mixed-hay");
    struct params p = *support_params();
    struct hay_loss loss[2];
    (void)state;
    make_holding("{\"stock\":[{\"feed\":\"grass-hay-mature\",\"kg\":100}]," STORE "}");
    make_ensemble();
    unknown.dm_pct = (double)NAN;
    holding.animal[1].fed[0] = (struct fed){&unknown, 1.0};
    holding.animal[1].feds = 1;
    CLOSE(plan_of(0.0, false).group[1].eaten_kg_head, 2.0 + 86.0 / 89.8, 1e-4);
    holding.lot[0].contents.dm_pct = (double)NAN;
    CLOSE(hay_lot_dm_pct(&holding.lot[0], &p), 86.0, 1e-9);
    make_holding("{\"stored\":\"out-cov-ground\",\"fed_from\":\"round-tomb-skirt\"}");
    for (int k = 0; k < 2; k++) {
        loss[0] = *params_loss(&p, HAY_LOSS_STORAGE, "out-cov-ground");
        loss[1] = *params_loss(&p, HAY_LOSS_FEEDING, "round-tomb-skirt");
        loss[0].low_pct = k == 0 ? (double)NAN : loss[0].low_pct;
        loss[0].high_pct = k == 1 ? (double)NAN : loss[0].high_pct;
        p.loss = loss;
        p.losses = 2;
        CLOSE(hay_doubt(&holding, &p), 0.1, 1e-12);
        p = *support_params();
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(quantiles_run_out_and_purchase, start, stop),
        cmocka_unit_test_setup_teardown(doubt_widens_and_does_not_move, start, stop),
        cmocka_unit_test_setup_teardown(no_stock_is_said, start, stop),
        cmocka_unit_test_setup_teardown(lots_and_hay_fed_daily, start, stop),
        cmocka_unit_test_setup_teardown(grass_that_is_not_there_is_hay, start, stop),
        cmocka_unit_test_setup_teardown(drawn_paddocks_are_not_planned_for, start, stop),
        cmocka_unit_test_setup_teardown(never_less_forage_than_the_floor, start, stop),
        cmocka_unit_test_setup_teardown(a_table_day, start, stop),
        cmocka_unit_test_setup_teardown(losses_and_doubt_of_the_holding, start, stop),
        cmocka_unit_test(the_lean_season_ends),
        cmocka_unit_test_setup_teardown(all_of_the_need_is_bought_without_a_stock, start, stop),
        cmocka_unit_test_setup_teardown(what_no_table_knows, start, stop),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
