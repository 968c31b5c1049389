/* More published worked examples of rations, and what a feed table misses.
 *
 * With test_ration.c these are the examples on intake, rations and weights. Those on
 * grazing area and on hay stock (bales, loose hay, winters) belong to the plans made of
 * them. Not used as oracles, because they are wrong as printed, or two conventions: see
 * test_ration.c. SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <stdio.h>

#include "advice/account.h"
#include "animal/ration.h"
#include "data/tape.h"
#include "support/advice_support.h"

static void assert_close(double value, double expected, double tolerance)
{
    if (!(fabs(value - expected) <= tolerance)) {
        fail_msg("%.8g is not %g +- %g", value, expected, tolerance);
    }
}

/* eXtension 2009 (Langston University): 2.27 lb DM of bermudagrass hay of 50 % TDN and 9 %
 * CP: 1.14 lb TDN, 76 % of a need of 1.50 lb; 0.20 lb CP, 111 % of a need of 0.18 lb (by
 * the rounded 0.20; 113.5 unrounded); at 60 % TDN 1.36 lb. Our sums of a content know no
 * unit: lb in, hundredths of lb out. */
static void test_langston_hay(void **state)
{
    (void)state;
    struct account_part hay = {.dm_kg = 2.27, .content = {[CONTENT_CP] = 9.0, [CONTENT_NDF] = 50.0}};
    double tdn = account_amount(&hay, CONTENT_NDF) / 1000.0; /* any content adds up alike */
    assert_close(tdn, 1.14, 0.005 + 1e-9);
    assert_close(100.0 * tdn / 1.50, 76.0, 0.5);
    double cp = account_amount(&hay, CONTENT_CP) / 1000.0;
    assert_close(cp, 0.20, 0.005);
    assert_close(100.0 * 0.20 / 0.18, 111.0, 0.5);
    assert_close(100.0 * cp / 0.18, 113.5, 0.05);
    hay.content[CONTENT_NDF] = 60.0;
    assert_close(account_amount(&hay, CONTENT_NDF) / 1000.0, 1.36, 0.005);
}

/* A keepers' forum: hay of 4.64 % fructan at 2 % of 1,100 lb holds "about" 1 lb a day (1.02
 * unrounded, computed by us). */
static void test_fructan_of_a_day(void **state)
{
    (void)state;
    struct animal_class horse = {.intake_pct = 2.0};
    struct ration_item hay = {intake_day(&horse, 1100.0), 4.64, 0.0, 60.0, true};
    assert_close(ration_add_up(&hay, 1).nsc_g / 1000.0, 1.02, 0.005);
}

/* Kentucky extension: the winter ration is 2.5 % of body weight; NC State (Poore): twenty
 * head of 1,000 lb eat 500 lb of dry matter. Our class of beef cattle eats just that. */
static void test_cattle_in_winter(void **state)
{
    (void)state;
    const struct animal_class *cattle = params_animal(support_params(), "cattle");
    assert_close(20.0 * intake_day(cattle, 1000.0), 500.0, 1e-9);
}

/* A feed page on starch: so many kg as fed hold 1 kg starch, by its own starch contents.
 * NASEM 2021's grains hold less, which lets 11 to 26 % more of them pass a limit: a known
 * miss, left as the tables are. The label on the bag beats both. */
static void test_known_miss_starch_of_grains(void **state)
{
    (void)state;
    static const struct {
        const char *id;
        double printed_kg, miss_pct;
    } row[] = {{"oats", 2.0, 25.3}, {"barley", 1.79, 11.1}, {"wheat", 1.5, 23.5}, {"maize", 1.4, 16.8}};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const struct feed *f = params_feed(support_params(), row[i].id);
        double kg = ration_as_fed(1.0 / (feed_starch(f, 2.1) / 100.0), f->dm_pct);
        double miss = 100.0 * (kg / row[i].printed_kg - 1.0);
        printf("# 1 kg starch in %s: %.2f kg, printed %.2f\n", row[i].id, kg, row[i].printed_kg);
        assert_close(miss, row[i].miss_pct, 0.2);
    }
}

/* A goat girth chart without a length: 10.75 in 5 lb, 20 in 30 lb, 32 in 100 lb (+-5 %).
 * No oracle for a formula of girth and length; but the length that would make ours agree
 * must be a goat's, near its girth. */
static void test_chart_without_length(void **state)
{
    (void)state;
    static const double chart[][2] = {{10.75, 5}, {20, 30}, {32, 100}};
    for (size_t i = 0; i < 3; i++) {
        double per_in = tape_weight(TAPE_OTHER, chart[i][0] * 2.54, 2.54) / 0.45359237; /* lb for an inch of length */
        double ratio = chart[i][1] / per_in / chart[i][0];
        assert_true(ratio > 0.85 && ratio < 1.25);
    }
}

/* The two formulas differ by their divisors alone: a pony reads 9.6 % heavier by its own
 * than by the horse's. Sheep or goat of 35 and 30 in: 122.5 lb (Washington State University
 * Extension); horse of 76 and 65 in: 1,137.7 lb (a horse-weight page, by 330). */
static void test_formulas_by_species(void **state)
{
    (void)state;
    double pony = tape_weight_of(SPECIES_EQUID, 350.0, 152.0, 134.0);
    assert_close(pony / tape_weight(TAPE_HORSE, 152.0, 134.0), 11880.0 / 10840.0, 1e-12);
    assert_close(tape_weight_of(SPECIES_GOAT, 350.0, 88.9, 76.2) / 0.45359237, 122.5, 0.1);
    assert_close(tape_weight_of(SPECIES_CATTLE, 350.0, 200.0, 160.0), 200.0 * 200.0 * 160.0 / 10840.0, 1e-9);
    assert_close(tape_weight_of(SPECIES_EQUID, 350.0, 193.04, 165.1) / 0.45359237, 1137.7, 0.004 * 1137.7);
    assert_true(isnan(tape_weight_of(SPECIES_ALPACA, 350.0, 90.0, 80.0)));
}

/* Starch is a part of NSC, ADF of NDF, in every row of the table. */
static void test_parts_of_feeds(void **state)
{
    (void)state;
    const struct params *p = support_params();
    size_t with_adf = 0;
    for (size_t i = 0; i < p->feeds; i++) {
        const struct feed *f = &p->feed[i];
        assert_true(!(feed_starch(f, 2.1) > feed_nsc(f, 2.1)));
        assert_true(!(f->adf_pct >= f->ndf_pct));
        with_adf += !isnan(f->adf_pct);
    }
    assert_true(with_adf >= 15);
}

/* The sward's fibre is that of the table's pasture: two files, one figure. */
static void test_grass_is_the_tables_pasture(void **state)
{
    (void)state;
    const struct feed *pasture = params_feed(support_params(), "pasture-grass");
    assert_close(pasture->ndf_pct, support_params()->limits.grass_ndf_pct, 0.0);
    assert_close(pasture->starch_pct, support_params()->limits.grass_starch_pct, 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_langston_hay),         cmocka_unit_test(test_fructan_of_a_day),
        cmocka_unit_test(test_cattle_in_winter),     cmocka_unit_test(test_known_miss_starch_of_grains),
        cmocka_unit_test(test_chart_without_length), cmocka_unit_test(test_formulas_by_species),
        cmocka_unit_test(test_parts_of_feeds),       cmocka_unit_test(test_grass_is_the_tables_pasture),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
