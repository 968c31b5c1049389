/* Published hay sums done again. Sources stand beside each value; most were read on pages
 * that report them (seen second-hand). Examples known to be wrong are refused below.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>

#include "animal/ration.h"
#include "hay/stock.h"
#include "hay/supply.h"
#include "support/sward_support.h"

#define LB 0.45359237 /* kg */
#define FT 0.3048     /* m */
#define CLOSE(a, b, most) assert_true(fabs((a) - (b)) <= (most))

static const struct hay_losses no_loss = {0};

static void bales_of_a_winter(void **state)
{
    static const struct {
        double need, bale, bales;
    } row[] = {
        {25.0 * 214.0, 50.0, 107.0}, /* University of Minnesota Extension 2017: 1000-lb horse, 25 lb, 214 d: 5350 lb */
        {25.0 * 214.0, 900.0, 6.0},  /* the same in rounds of 900 lb; 5.94 */
        {20.0 * 214.0, 50.0, 86.0},  /* the same with 5 lb of grain: 4280 lb; 85.6 */
        {20.0 * 214.0, 900.0, 5.0},  /* 4.76 */
    };
    (void)state;
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        assert_true(hay_bales(LB * hay_gross(row[i].need, &no_loss), LB * row[i].bale) == row[i].bales);
    }
}

/* Computed by us: 12 goats of 60 kg at 2.5 % for 180 d are 3240 kg DM, at 88 % DM 3681.82 kg;
 * 6 % lost in the store and 15 % at feeding: 4608.03 kg, 256.002 bales of 18 kg. A plain
 * ceiling buys a 257th for 2 g of hay in each kg of a bale: the rule lets a hundredth go. */
static void a_hundredth_of_a_bale_is_let_go(void **state)
{
    const struct hay_losses l = {.store_pct = 6, .feed_pct = 15};
    (void)state;
    double buy = hay_gross(ration_as_fed(12 * 60 * 0.025 * 180, 88), &l);
    CLOSE(buy, 4608.03, 0.005);
    assert_true(hay_bales(buy, 18) == 256.0);
    assert_true(hay_bales(18 * 256.02, 18) == 257.0);
    assert_true(hay_bales(18, 18) == 1.0 && hay_bales(0, 18) == 0.0 && hay_bales(-500, 18) == 0.0);
}

/* Losses divide: West Virginia Farm Bureau 2014, 48.5 t and 15 %: 57.1 t. NC State (Poore):
 * 500 lb at 75 % used: 667 lb. Others mark up: University of Missouri (Meusch), 114 t and 20 %:
 * 137 t. Each rule gives its own source's figure and not the other's. */
static void two_rules_for_losses(void **state)
{
    const struct hay_losses l15 = {.store_pct = 15}, m15 = {.store_pct = 15, .marked_up = true};
    const struct hay_losses l20 = {.feed_pct = 20}, m20 = {.feed_pct = 20, .marked_up = true};
    const struct hay_losses l25 = {.feed_pct = 25};
    (void)state;
    CLOSE(hay_gross(48.5, &l15), 57.1, 0.05);
    assert_true(fabs(hay_gross(48.5, &m15) - 57.1) > 1.0);
    CLOSE(hay_gross(500, &l25), 667, 0.5);
    CLOSE(hay_gross(114, &m20), 137, 0.5);
    assert_true(hay_gross(114, &l20) > 142.0);
    const struct hay_losses both = {.store_pct = 6, .feed_pct = 15, .marked_up = true};
    CLOSE(hay_gross(1000, &both), 1000 * 1.06 * 1.15, 1e-9);
    assert_true(isnan(hay_gross(1, &(struct hay_losses){.store_pct = 100})));
}

/* Missouri's whole sum: 50 cows of 1300 lb at 3 % and 85 % DM: about 2300 lb a day; 99 d: almost 114 short tons. */
static void a_herd_of_cows(void **state)
{
    (void)state;
    double day = ration_as_fed(50 * 1300 * 0.03, 85);
    CLOSE(day, 2300, 10);
    CLOSE(day * 99 / 2000, 114, 0.6);
}

static struct hay_lot measured(enum hay_shape shape, double a, double b, double c)
{
    return (struct hay_lot){
        .bales = 1, .bale_kg = NAN, .kg = NAN, .m3 = NAN, .shape = shape, .bale_m = {a, b, c}, .nsc_pct = NAN};
}

/* Texas A&M E-319 (source seen), width x diameter in feet at 11.21 lb/ft3: 4x4 563 lb, 4x5 880
 * (computed by us there), 5x5 1100, 5x6 1584. Ours at the shipped density; and the
 * other edition's 10.61 lb/ft3: 4x5 833, 5x6 1500 (AgriLife, source seen). */
static void round_bales_by_their_measures(void **state)
{
    static const struct {
        double width, diameter, lb, other;
    } row[] = {{4, 4, 563, NAN}, {4, 5, 880, 833}, {5, 5, 1100, NAN}, {5, 6, 1584, 1500}};
    struct hay_limits l = support_params()->hay;
    (void)state;
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const struct hay_lot lot = measured(HAY_ROUND, row[i].diameter * FT, row[i].width * FT, NAN);
        l.round_kg_m3 = support_params()->hay.round_kg_m3;
        CLOSE(hay_bale_kg(&lot, &l) / LB, row[i].lb, 1.2);
        CLOSE(hay_lot_kg(&lot, &l) / LB, row[i].lb, 1.2);
        l.round_kg_m3 = 10.61 * LB / (FT * FT * FT);
        if (!isnan(row[i].other)) {
            CLOSE(hay_bale_kg(&lot, &l) / LB, row[i].other, 1.0);
        }
    }
}

/* A page of UK bale sizes (seen second-hand): 100 x 40 x 30 cm, 18 to 20 kg. Big squares of
 * 3 x 3 x 8 ft weigh 363 kg at least (seen second-hand): ours, at a small bale's density, is
 * a tenth lighter. */
static void square_bales_by_their_measures(void **state)
{
    const struct hay_limits *l = &support_params()->hay;
    const struct hay_lot small = measured(HAY_SQUARE, 1.0, 0.4, 0.3),
                         big = measured(HAY_SQUARE, 8 * FT, 3 * FT, 3 * FT);
    (void)state;
    assert_true(hay_bale_kg(&small, l) >= 18.0 && hay_bale_kg(&small, l) <= 20.0);
    assert_true(hay_bale_kg(&big, l) < 363.0 && hay_bale_kg(&big, l) > 0.87 * 363.0);
}

/* A goat-keeping page: 15 goats at 5 lb for 90 d are 6750 lb, 1800 ft3 of loose hay. (3.75 lb/ft3
 * is 60.07 kg/m3.) */
static void loose_hay_by_its_volume(void **state)
{
    const struct hay_lot heap = {
        .bales = NAN, .bale_kg = NAN, .kg = NAN, .m3 = 1800 * FT * FT * FT, .shape = HAY_LOOSE, .nsc_pct = NAN};
    (void)state;
    CLOSE(hay_lot_kg(&heap, &support_params()->hay) / LB, 15 * 5 * 90, 10);
}

/* Penn State Agronomy Guide, table 1.8-9 (source seen): acres an animal unit of 25 lb DM a
 * day needs, by days on the paddock (with the share that is used) and lb DM an acre on
 * offer; three decimals. What the printed area holds is eaten in just those days. */
static void acres_of_an_animal_unit(void **state)
{
    static const struct {
        double days, used_pct, acres[3]; /* of 750, 1000 and 1500 lb an acre */
    } row[] = {
        {1, 80, {0.042, 0.031, 0.021}}, {2, 75, {0.089, 0.067, 0.044}}, {3, 75, {0.133, 0.100, 0.067}},
        {4, 70, {0.190, 0.143, 0.095}}, {5, 65, {0.256, 0.192, 0.128}}, {6, 60, {0.333, 0.250, 0.167}},
        {7, 60, {0.389, 0.292, 0.194}},
    };
    static const double offer[] = {750, 1000, 1500};
    (void)state;
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        for (size_t k = 0; k < 3; k++) {
            double an_acre = hay_usable_kg(1, offer[k], row[i].used_pct / 100);
            CLOSE(25 * row[i].days / an_acre, row[i].acres[k], 0.0005 + 1e-9);
        }
    }
    /* NC State (Poore): 500 lb a day, three quarters used, 2000 lb an acre: a third of an acre a day */
    CLOSE(500 / hay_usable_kg(1, 2000, 0.75), 0.333, 0.0005);
}

/* Printed, and wrong by their own premises: none may be what we compute.
 * - A grazing-stick manual: 30 lb DM at 60 % moisture "= 50 lb"; 30/0.40 is 75.
 * - A horse owners' page takes 10 % off 25 lb to allow for losses ("22.5 lb", "8187.5 lb" for
 *   365 d); what is lost comes on top: 25/0.9 = 27.8 lb, 10,139 lb.
 * - AgriLife's 5x5 round "1046 lb" at 10.61 lb/ft3: its own density gives 1042.
 * - A hoop: 75 g on 8 ft of hoop (5.09 ft2) "= 143,040 lb on 20 acres"; it is 1414 lb an acre. */
static void wrong_examples_are_no_oracles(void **state)
{
    const struct hay_losses tenth = {.feed_pct = 10};
    struct hay_limits l = support_params()->hay;
    const struct hay_lot round = measured(HAY_ROUND, 5 * FT, 5 * FT, NAN);
    (void)state;
    CLOSE(ration_as_fed(30, 40), 75, 1e-9);
    CLOSE(hay_gross(25, &tenth), 27.8, 0.05);
    CLOSE(365 * hay_gross(25, &tenth), 10139, 1);
    l.round_kg_m3 = 10.61 * LB / (FT * FT * FT);
    CLOSE(hay_bale_kg(&round, &l) / LB, 1042, 0.5);
    CLOSE(75.0 / 1000 / LB / 5.09 * 43560, 1414, 2); /* 43,560 ft2 an acre */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bales_of_a_winter),
        cmocka_unit_test(a_hundredth_of_a_bale_is_let_go),
        cmocka_unit_test(two_rules_for_losses),
        cmocka_unit_test(a_herd_of_cows),
        cmocka_unit_test(round_bales_by_their_measures),
        cmocka_unit_test(square_bales_by_their_measures),
        cmocka_unit_test(loose_hay_by_its_volume),
        cmocka_unit_test(acres_of_an_animal_unit),
        cmocka_unit_test(wrong_examples_are_no_oracles),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
