/* A holding's hay analysis, soaked and steamed hay, weights by tape; what is refused.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/arena.h"
#include "data/holding.h"
#include "support/sward_support.h"

static struct arena arena;
static struct holding holding;
static struct err err;

static int release(void **state)
{
    (void)state;
    arena_release(&arena);
    return 0;
}

/* A holding whose first animal and first hay lot hold these entries. */
static enum err_code parse(const char *animal, const char *lot)
{
    char text[2048];
    snprintf(text, sizeof text,
             "{\"sugarlea\": 1, \"site\": {\"latitude\": 52}, \"paddocks\": [{\"id\": \"p\", \"area_ha\": 1}],\n"
             "\"animals\": [{\"id\": \"a\", %s}],\n"
             "\"hay\": {\"stock\": [{%s}]}}",
             animal, lot);
    arena_release(&arena);
    arena_init(&arena);
    err = (struct err){0};
    return holding_parse(text, strlen(text), "h.json", support_params(), &arena, &holding, &err);
}

static const char pony[] = "\"class\": \"pony\"", hay[] = "\"feed\": \"grass-hay-mature\"";

static void refused(const char *animal, const char *lot, const char *field, const char *what)
{
    assert_int_equal(parse(animal, lot), ERR_CONFIG);
    if (strcmp(err.field, field) != 0 || !strstr(err.what, what)) {
        fail_msg("\"%s: %s\" is not \"%s: ...%s\"", err.field, err.what, field, what);
    }
}

static void assert_near(double value, double expected)
{
    if (!(fabs(value - expected) <= 1e-9 * (1.0 + fabs(expected)))) {
        fail_msg("%.12g is not %.12g", value, expected);
    }
}

static void test_analysis_overrides_the_table(void **state)
{
    (void)state;
    assert_int_equal(parse(pony, "\"feed\": \"grass-hay-mature\", \"nsc_percent\": 9.2, \"nsc_is\": \"wsc+starch\", "
                                 "\"starch_percent\": 0.9, \"ndf_percent\": 61.5, \"dm_percent\": 84, "
                                 "\"energy_mj_kg\": 8.368"),
                     ERR_OK);
    const struct feed *f = &holding.lot->contents;
    assert_near(f->nsc_pct, 9.2);
    assert_near(f->starch_pct, 0.9);
    assert_near(f->ndf_pct, 61.5);
    assert_near(f->dm_pct, 84);
    assert_near(f->de_mcal_kg, 2.0); /* 4.184 MJ a Mcal, by definition */
    assert_string_equal(f->id, "grass-hay-mature");
    assert_near(holding.lot->feed->ndf_pct, 66.7); /* NASEM 2021: the table stays as it is */
    assert_true(isnan(f->wsc_pct));
}

static void test_what_is_not_analysed_stays_the_tables(void **state)
{
    (void)state;
    assert_int_equal(parse(pony, hay), ERR_OK);
    const struct feed *f = &holding.lot->contents;
    assert_near(f->dm_pct, 89.8); /* NASEM 2021 */
    assert_near(f->wsc_pct, 10.8);
    assert_true(isnan(holding.lot->starch_pct) && isnan(holding.lot->dm_pct));
    /* starch of a table cannot be more than the sugar and starch that were measured */
    assert_int_equal(parse(pony, "\"feed\": \"wheat-hay-headed\", \"nsc_percent\": 8, \"nsc_is\": \"wsc+starch\""),
                     ERR_OK);
    assert_near(holding.lot->contents.starch_pct, 8);
    assert_false(hay_lot_is_esc(holding.lot));
    /* ESC + starch is another sum than the table's, and takes the place of none; an analysed starch does */
    assert_int_equal(parse(pony, "\"feed\": \"wheat-hay-headed\", \"nsc_percent\": 8, \"nsc_is\": \"esc+starch\""),
                     ERR_OK);
    assert_true(hay_lot_is_esc(holding.lot));
    assert_near(holding.lot->nsc_pct, 8);
    assert_near(holding.lot->contents.nsc_pct, 21.8); /* NASEM 2021 */
    assert_near(holding.lot->contents.starch_pct, 12.2);
    assert_int_equal(parse(pony, "\"feed\": \"wheat-hay-headed\", \"nsc_percent\": 8, \"nsc_is\": \"esc+starch\", "
                                 "\"starch_percent\": 3"),
                     ERR_OK);
    assert_near(holding.lot->contents.starch_pct, 3);
    /* nor a table's ADF as much as the NDF that was measured */
    assert_int_equal(parse(pony, "\"feed\": \"grass-hay-mature\", \"ndf_percent\": 40"), ERR_OK);
    assert_true(isnan(holding.lot->contents.adf_pct));
}

static void test_wrong_analysis(void **state)
{
    (void)state;
    refused(pony, "\"feed\": \"mixed-hay\", \"starch_percent\": 1", "hay.stock[0]", "a part of \"nsc_percent\"");
    refused(pony, "\"feed\": \"mixed-hay\", \"nsc_percent\": 9, \"nsc_is\": \"wsc+starch\", \"starch_percent\": 9.5",
            "hay.stock[0]", "starch no higher");
    refused(pony, "\"feed\": \"mixed-hay\", \"ndf_percent\": 0.6", "hay.stock[0].ndf_percent", "20 to 90 is allowed");
    refused(pony, "\"feed\": \"mixed-hay\", \"dm_percent\": \"86\"", "hay.stock[0].dm_percent", "must be a number");
    refused(pony, "\"feed\": \"mixed-hay\", \"energy_mj_kg\": 2.4", "hay.stock[0].energy_mj_kg", "4 to 16");
    refused(pony, "\"feed\": \"mixed-hay\", \"ndf_percnt\": 60", "hay.stock[0].ndf_percnt", "did you mean");
}

static void test_soaked_and_steamed(void **state)
{
    (void)state;
    assert_int_equal(parse(pony, "\"feed\": \"mixed-hay\", \"soaked\": {\"hours\": 10, \"water_c\": 16}"), ERR_OK);
    assert_near(holding.lot->soaked_h, 10);
    assert_near(holding.lot->water_c, 16);
    assert_near(holding.lot->contents.nsc_pct, 12.8); /* NASEM 2021: soaking changes no figure */
    assert_int_equal(parse(pony, "\"feed\": \"mixed-hay\", \"steamed\": true"), ERR_OK);
    assert_true(holding.lot->steamed && isnan(holding.lot->soaked_h));
    assert_int_equal(parse(pony, "\"feed\": \"mixed-hay\", \"nsc_percent\": 8, \"nsc_is\": \"wsc+starch\", "
                                 "\"soaked\": {\"hours\": 2}, \"tested_after\": true"),
                     ERR_OK);
    assert_true(holding.lot->tested_after && isnan(holding.lot->water_c));
}

static void test_wrong_soaking(void **state)
{
    (void)state;
    refused(pony, "\"feed\": \"mixed-hay\", \"soaked\": {\"water_c\": 10}", "hay.stock[0].soaked",
            "\"hours\" is missing");
    refused(pony, "\"feed\": \"mixed-hay\", \"soaked\": {\"hours\": 72}", "hay.stock[0].soaked.hours", "0.1 to 24");
    refused(pony, "\"feed\": \"mixed-hay\", \"soaked\": {\"hours\": 2, \"water_f\": 60}", "hay.stock[0].soaked.water_f",
            "did you mean \"water_c\"?");
    refused(pony, "\"feed\": \"mixed-hay\", \"steamed\": 1", "hay.stock[0].steamed", "true or false");
    refused(pony, "\"feed\": \"mixed-hay\", \"tested_after\": true", "hay.stock[0]", "measured after soaking");
    refused(pony, "\"feed\": \"mixed-hay\", \"soaked\": {\"hours\": 2}, \"tested_after\": true", "hay.stock[0]",
            "give \"nsc_percent\"");
    refused(pony, "\"feed\": \"grass-silage\", \"soaked\": {\"hours\": 2}", "hay.stock[0].soaked", "never soaked");
}

/* Washington State University Extension: sheep or goat, girth 35 in, length 30 in:
 * 122.5 lb, 55.6 kg; a horse-weight page: 76 and 65 in: 1,137.7 lb, 516 kg, by its 330. */
static void test_weight_by_tape(void **state)
{
    (void)state;
    assert_int_equal(parse("\"class\": \"goat-dry\", \"girth_cm\": 88.9, \"length_cm\": 76.2", hay), ERR_OK);
    const struct animal_group *g = holding.animal;
    assert_true(fabs(g->weight_kg - 122.5 * 0.45359237) < 0.1);
    assert_near(g->weight_error_pct, 10);
    assert_int_equal(parse("\"class\": \"horse\", \"girth_cm\": 193.04, \"length_cm\": 165.1", hay), ERR_OK);
    assert_true(fabs(holding.animal->weight_kg - 1137.7 * 0.45359237) < 0.005 * 516);
    assert_int_equal(parse("\"class\": \"pony\", \"weight_kg\": 250", hay), ERR_OK);
    assert_near(holding.animal->weight_error_pct, 0);
    assert_true(isnan(holding.animal->girth_cm));
}

/* Small equids by the ponies' formula, whatever the class is called; big ones by the horse's. */
static void test_formula_of_equids(void **state)
{
    (void)state;
    assert_int_equal(parse("\"class\": \"equid-at-risk\", \"girth_cm\": 152, \"length_cm\": 134", hay), ERR_OK);
    assert_near(holding.animal->weight_kg, 152.0 * 152.0 * 134.0 / 10840.0);
    assert_int_equal(parse("\"class\": \"equid-at-risk\", \"girth_cm\": 190, \"length_cm\": 160", hay), ERR_OK);
    assert_near(holding.animal->weight_kg, 190.0 * 190.0 * 160.0 / 11880.0);
}

static void test_wrong_tape(void **state)
{
    (void)state;
    refused("\"class\": \"pony\", \"girth_cm\": 152", hay, "animals[0]", "\"length_cm\" is missing");
    refused("\"class\": \"pony\", \"length_cm\": 152", hay, "animals[0]", "\"girth_cm\" is missing");
    refused("\"class\": \"pony\", \"weight_kg\": 250, \"girth_cm\": 152, \"length_cm\": 134", hay, "animals[0]",
            "and not both");
    refused("\"class\": \"pony\", \"girth_cm\": 60, \"length_cm\": 53", hay, "animals[0].girth_cm",
            "in centimetres"); /* 60 in measured, written as cm */
    refused("\"class\": \"pony\", \"girth_cm\": 1.52, \"length_cm\": 1.34", hay, "animals[0].girth_cm", "30 to 300");
    refused("\"class\": \"alpaca\", \"girth_cm\": 90, \"length_cm\": 80", hay, "animals[0].girth_cm",
            "no tape formula is known");
    refused("\"class\": \"goat-growing\", \"girth_cm\": 60, \"length_cm\": 50", hay, "animals[0].girth_cm",
            "for grown animals");
}

/* The credits of the planning table: 25 % of WSC cold, 35 % from 9 h at 15 C on (common
 * practice); starch stays. */
static void test_soaking_credit(void **state)
{
    (void)state;
    const struct params *p = support_params();
    const double unknown = (double)NAN;
    assert_null(soaking_credit(p->soaking, p->soakings, 0.25, 40));
    assert_near(soaking_credit(p->soaking, p->soakings, 1, unknown)->wsc_loss_pct, 25);
    assert_near(soaking_credit(p->soaking, p->soakings, 9, unknown)->wsc_loss_pct, 25);
    assert_near(soaking_credit(p->soaking, p->soakings, 9, 14.9)->wsc_loss_pct, 25);
    assert_near(soaking_credit(p->soaking, p->soakings, 8.9, 15)->wsc_loss_pct, 25);
    const struct soaking *warm = soaking_credit(p->soaking, p->soakings, 9, 15);
    assert_near(warm->wsc_loss_pct, 35);
    assert_near(soaking_planned_nsc(warm, 12.8, 2.0), 2.0 + 0.65 * 10.8);
    assert_near(soaking_planned_nsc(warm, 6.0, 9.0), 6.0); /* all of it starch */
    assert_true(isnan(soaking_planned_nsc(warm, 12.8, unknown)));
    assert_true(isnan(soaking_planned_nsc(warm, unknown, 2.0)));
}

/* Moore-Colyer et al. 2014: 126 to 122 g/kg, about 3 %: steam earns no credit. */
static void test_steam_earns_nothing(void **state)
{
    (void)state;
    const struct params *p = support_params();
    size_t steamed = 0;
    for (size_t i = 0; i < p->soakings; i++) {
        const struct soaking *s = &p->soaking[i];
        if (s->wsc_before_g_kg > 0.0) {
            double loss = 1.0 - s->wsc_after_g_kg / s->wsc_before_g_kg;
            assert_true(loss > 0.03 && loss < 0.035 && !s->is_credit);
            steamed++;
        }
    }
    assert_int_equal(steamed, 1);
}

/* To name a lot renames no other, and no id means two. */
static void test_lots_are_named(void **state)
{
    (void)state;
    static const char two[] = "\"feed\": \"grass-hay-mature\"}, {\"feed\": \"oat-hay-mid\"}, "
                              "{\"feed\": \"grass-hay-mature\"",
                      first[] = "\"feed\": \"grass-hay-mature\", \"id\": \"barn\"}, {\"feed\": \"grass-hay-mature\"";
    assert_int_equal(parse(pony, hay), ERR_OK);
    assert_string_equal(holding.lot[0].id, "grass-hay-mature");
    assert_false(holding.lot[0].numbered);
    assert_int_equal(parse(pony, two), ERR_OK);
    assert_string_equal(holding.lot[0].id, "grass-hay-mature-1");
    assert_string_equal(holding.lot[1].id, "oat-hay-mid");
    assert_string_equal(holding.lot[2].id, "grass-hay-mature-2");
    assert_true(holding.lot[2].numbered && !holding.lot[1].numbered);
    assert_int_equal(parse(pony, first), ERR_OK);
    assert_string_equal(holding.lot[0].id, "barn");
    assert_string_equal(holding.lot[1].id, "grass-hay-mature-2");
    assert_true(holding.lot[0].named && !holding.lot[1].named);
    refused(pony, "\"feed\": \"teff-hay\", \"id\": \"a b\"", "hay.stock[0].id", "is no id");
    refused(pony, "\"feed\": \"teff-hay\", \"id\": \"oat-hay-mid\"}, {\"feed\": \"oat-hay-mid\"", "hay.stock[1].id",
            "used twice");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_analysis_overrides_the_table),
        cmocka_unit_test(test_what_is_not_analysed_stays_the_tables),
        cmocka_unit_test(test_wrong_analysis),
        cmocka_unit_test(test_soaked_and_steamed),
        cmocka_unit_test(test_wrong_soaking),
        cmocka_unit_test(test_weight_by_tape),
        cmocka_unit_test(test_formula_of_equids),
        cmocka_unit_test(test_wrong_tape),
        cmocka_unit_test(test_soaking_credit),
        cmocka_unit_test(test_steam_earns_nothing),
        cmocka_unit_test(test_lots_are_named),
    };
    return cmocka_run_group_tests(tests, NULL, release);
}
