/* The holding that options alone describe: its defaults, and options that are refused.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <string.h>

#include "data/holding.h"

static struct arena arena;
static struct params params;
static struct holding holding;
static struct err err;

static int load(void **state)
{
    (void)state;
    arena_init(&arena);
    return params_load("models", &arena, &params, &err);
}

static int unload(void **state)
{
    (void)state;
    arena_release(&arena);
    return 0;
}

/* cmocka takes NaN for equal to anything. */
#define SAME(a, b) assert_true(fabs((double)(a) - (double)(b)) <= 1e-6 * fabs((double)(b)) + 1e-9)

static void test_options(void **state)
{
    (void)state;
    struct holding_options o = {.latitude = 52.1,
                                .longitude = NAN,
                                .elevation_m = NAN,
                                .weight_kg = NAN,
                                .cover_kg_ha = NAN,
                                .animal = "equid-at-risk",
                                .weather_file = "w.csv"};
    err = (struct err){0};
    assert_int_equal(holding_from_options(&o, &params, &arena, &holding, &err), ERR_OK);
    assert_string_equal(holding.path, "");
    assert_string_equal(holding.source[0].file, "w.csv");
    assert_string_equal(holding.paddock[0].grass[0]->id, "unknown-mixed");
    assert_string_equal(holding.paddock[0].soil->id, "unknown");
    SAME(holding.paddock[0].kept.cover_kg_ha, 1800);
    SAME(holding.animal[0].weight_kg, 300);
    assert_string_equal(holding.lot[0].feed->id, "grass-hay-mature");
    o.animal = NULL;
    o.weather_file = NULL;
    assert_int_equal(holding_from_options(&o, &params, &arena, &holding, &err), ERR_OK);
    assert_int_equal(holding.animals, 0);
    assert_int_equal(holding.sources, 0);
}

static void test_wrong_options(void **state)
{
    (void)state;
    const struct holding_options base = {
        .latitude = 52.1, .longitude = NAN, .elevation_m = NAN, .weight_kg = NAN, .cover_kg_ha = NAN, .animal = "pony"};
    struct holding_options o[7];
    static const struct {
        const char *field, *what;
    } wanted[] = {{"--latitude", "-90 to 90"},          {"--animal", "did you mean \"pony\"?"},
                  {"--weight", "40 to 1500"},           {"--grass", "did you mean \"ryegrass\"?"},
                  {"--soil", "did you mean \"clay\"?"}, {"--nitrogen", "allowed: none, low, normal, heavy"},
                  {"--cover", "540 to 12000"}};
    for (size_t i = 0; i < 7; i++) {
        o[i] = base;
    }
    o[0].latitude = 91;
    o[1].animal = "pon";
    o[2].weight_kg = 5;
    o[3].grass = "ryegras";
    o[4].soil = "clya";
    o[5].nitrogen = "much";
    o[6].cover_kg_ha = 3;
    for (size_t i = 0; i < 7; i++) {
        err = (struct err){0};
        assert_int_equal(holding_from_options(&o[i], &params, &arena, &holding, &err), ERR_USAGE);
        assert_int_equal(err.code, ERR_USAGE);
        assert_string_equal(err.field, wanted[i].field);
        if (!strstr(err.what, wanted[i].what)) {
            fail_msg("\"%s\" lacks \"%s\"", err.what, wanted[i].what);
        }
    }
}

static void test_missing_file(void **state)
{
    (void)state;
    err = (struct err){0};
    assert_int_equal(holding_load("tests/no-such-holding.json", &params, &arena, &holding, &err), ERR_NOINPUT);
    assert_non_null(strstr(err.file, "no-such-holding.json"));
}

static void test_demo_holding(void **state)
{
    (void)state;
    err = (struct err){0};
    assert_int_equal(holding_load("data/demo/holding.json", &params, &arena, &holding, &err), ERR_OK);
    assert_string_equal(holding.path, "data/demo/holding.json");
    assert_true(holding.animals >= 1 && holding.paddocks >= 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_options),
        cmocka_unit_test(test_missing_file),
        cmocka_unit_test(test_demo_holding),
        cmocka_unit_test(test_wrong_options),
    };
    return cmocka_run_group_tests(tests, load, unload);
}
