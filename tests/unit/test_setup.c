/* What people type: places as maps print them, amounts with units, and which class and
 * history an animal comes to. SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/clock.h"
#include "setup/coordinates.h"
#include "setup/kinds.h"
#include "setup/question.h"

static struct arena arena;
static struct params params;
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

static void near(double got, double wanted, const char *of)
{
    if (!(fabs(got - wanted) <= 1e-4)) {
        fail_msg("%s: %.6f, wanted %.6f", of, got, wanted);
    }
}

static void at(const char *text, double latitude, double longitude)
{
    double north = NAN, east = NAN;
    err_clear(&err);
    if (coordinates_read(text, &north, &east, &err) != ERR_OK) {
        fail_msg("%s: %s", text, err.what);
    }
    near(north, latitude, text);
    near(east, longitude, text);
}

/* The Royal Observatory at Greenwich, 51 28 40 N 0 0 5 W, and the opera house of Sydney, 33 51 25 S
 * 151 12 55 E (encyclopaedia, from memory), in the ways that maps write places. */
static void test_places(void **state)
{
    (void)state;
    at("51.47778, -0.00139", 51.47778, -0.00139);
    at("51.47778 -0.00139", 51.47778, -0.00139);
    at("51.47778,-0.00139", 51.47778, -0.00139);
    at("51°28'40\"N 0°0'5\"W", 51.47778, -0.00139);
    at("51°28′40″N, 0°00′05″W", 51.47778, -0.00139);
    at("51° 28’ 40” N / 0° 0’ 5” W", 51.47778, -0.00139);
    at("N 51 28 40 W 0 0 5", 51.47778, -0.00139);
    at("51 28 40 n, 0 0 5 w", 51.47778, -0.00139);
    at("N51° 28.6667' W000° 00.0833'", 51.47778, -0.00139);
    at("0 0 5 W 51 28 40 N", 51.47778, -0.00139);
    at("33°51'25\"S 151°12'55\"E", -33.85694, 151.21528);
    at("\xe2\x88\x92"
       "33.85694, 151.21528",
       -33.85694, 151.21528);
    at("S33.85694 E151.21528", -33.85694, 151.21528);
    at("33:51:25 S 151:12:55 E", -33.85694, 151.21528);
    at("52,19; -2,71", 52.19, -2.71);
    at("52,19 -2,71", 52.19, -2.71);
    at("52,19, -2,71", 52.19, -2.71);
    at("52, -2", 52, -2);
    at("52,-2", 52, -2);
    at("-0.5, 36", -0.5, 36);
    at("-0 30 0, 36 0 0", -0.5, 36);
    at("(52.19, -2.71)", 52.19, -2.71);
}

static void nowhere(const char *text, const char *what)
{
    double north = 1, east = 2;
    err_clear(&err);
    if (coordinates_read(text, &north, &east, &err) != ERR_USAGE || !strstr(err.what, what)) {
        fail_msg("%s: gives %g, %g, \"%s\"; wanted \"%s\"", text, north, east, err.what, what);
    }
    assert_true(north == 1 && east == 2);
}

static void test_no_places(void **state)
{
    (void)state;
    char longest[400];
    memset(longest, '5', sizeof longest);
    longest[sizeof longest - 1] = 0;
    nowhere("", "not clear");
    nowhere("52,19", "not clear");
    nowhere("52.19", "not clear");
    nowhere("here", "no place");
    nowhere("1 2 3 4", "not clear");
    nowhere("52.19, x", "no place");
    nowhere("52 60 0 N 2 0 0 W", "below 60");
    nowhere("52.5 30 N 2 0 W", "no place");
    nowhere("52 1 2 3 N 2 W", "no place");
    nowhere("-52 N 2 W", "no place");
    nowhere("52d11m24s N 2d42m36s W", "no place");
    nowhere("52 N 2 S", "one direction twice");
    nowhere("2 E 3 W", "one direction twice");
    nowhere("91, 0", "longitude first");
    nowhere("151.2, -33.9", "longitude first");
    nowhere("151.2, -133.9", "90 at most");
    nowhere("10, 181", "180 at most");
    nowhere("nan, inf", "no place");
    nowhere("1e1, 0", "no place");
    nowhere(longest, "not clear");
}

static double amount(const char *text, const struct unit *units)
{
    double x = NAN;
    err_clear(&err);
    return measure_read(text, units, &x, &err) == ERR_OK ? x : (double)NAN;
}

/* Factors: the international yard and pound of 1959 (0.9144 m, 0.45359237 kg). */
static void test_amounts(void **state)
{
    (void)state;
    near(amount("1", units_area), 1, "ha");
    near(amount("2.5 acres", units_area), 2.5 * 4840 * 0.9144 * 0.9144 / 1e4, "acres");
    near(amount("3,7ha", units_area), 3.7, "decimal comma");
    near(amount("600 lb", units_weight), 600 * 0.45359237, "lb");
    near(amount("610LBS", units_weight), 610 * 0.45359237, "lbs");
    near(amount("400 ft", units_height), 400 * 0.3048, "ft");
    near(amount("-12", units_height), -12, "below the sea");
    near(amount("4 in", units_length), 10.16, "in");
    near(amount("3.5\"", units_length), 8.89, "inch sign");
    assert_true(isnan(amount("1,250", units_weight)));
    assert_non_null(strstr(err.what, "two ways"));
    assert_true(isnan(amount("1.250,5", units_weight)));
    assert_non_null(strstr(err.what, "two ways"));
    assert_true(isnan(amount("12 stone", units_weight)));
    assert_non_null(strstr(err.what, "kg"));
    assert_true(isnan(amount("heavy", units_weight)));
    assert_true(isnan(amount("", units_weight)));
    assert_true(isnan(amount("0x10", units_weight)));
    assert_true(isnan(amount("1e3", units_weight)));
    assert_true(isnan(amount("12 kg", units_none)));
}

static const struct stage *stage_of(const char *kind, const char *name)
{
    for (size_t i = 0; i < stage_count; i++) {
        if (strcmp(kinds[stages[i].kind].word, kind) == 0 && strcmp(stages[i].name.word, name) == 0) {
            return &stages[i];
        }
    }
    fail_msg("no stage %s of %s", name, kind);
    return NULL;
}

/* Whatever may be answered is a class with a history that the rules accept; every class can be
 * come to; and what the file says of an animal leads back to the same answers. */
static void test_every_answer_has_rules(void **state)
{
    (void)state;
    bool *seen = calloc(params.animals, sizeof *seen);
    assert_non_null(seen);
    for (size_t i = 0; i < stage_count; i++) {
        for (unsigned trouble = 0; trouble < 1u << TROUBLES; trouble++) {
            unsigned history, allowed = 0;
            struct animal_class rules;
            for (unsigned t = 0; t < TROUBLES; t++) {
                bool one = trouble >> t & 1u && trouble_allowed(&params, &stages[i], (enum trouble)(1u << t));
                allowed |= one ? 1u << t : 0u;
            }
            if (allowed != trouble) {
                continue;
            }
            const struct animal_class *c = params_animal(&params, stage_class(&stages[i], trouble, &history));
            assert_non_null(c);
            seen[c - params.animal] = true;
            if (animal_rules(&params, c, history, &rules, &err) != ERR_OK) {
                fail_msg("%s %s %x: %s", kinds[stages[i].kind].word, stages[i].name.word, trouble, err.what);
            }
            unsigned had = trouble_had(c->id, history), visible = TROUBLE_LAMINITIS | TROUBLE_INSULIN | TROUBLE_FAT;
            assert_int_equal(had & trouble & visible, trouble & visible);
        }
    }
    for (size_t i = 0; i < params.animals; i++) {
        if (!seen[i]) {
            fail_msg("no answers lead to %s", params.animal[i].id);
        }
    }
    free(seen);
}

/* The stricter class wins, and a mare stays a mare. */
static void test_classes(void **state)
{
    (void)state;
    unsigned history;
    const struct stage *pony = stage_of("pony", "grown"), *mare = stage_of("horse", "pregnant");
    assert_string_equal(stage_class(pony, 0, &history), "pony");
    assert_int_equal(history, 0);
    assert_string_equal(stage_class(pony, TROUBLE_FAT, &history), "equid-at-risk");
    assert_int_equal(history, HISTORY_OVERWEIGHT);
    assert_string_equal(stage_class(pony, TROUBLE_FAT | TROUBLE_LAMINITIS, &history), "equid-laminitis-history");
    assert_string_equal(stage_class(pony, TROUBLE_NOW | TROUBLE_LAMINITIS, &history), "equid-acute");
    assert_string_equal(stage_class(mare, TROUBLE_LAMINITIS, &history), "mare-pregnant");
    assert_int_equal(history, HISTORY_LAMINITIS);
    assert_string_equal(stage_class(mare, TROUBLE_NOW, &history), "equid-acute");
    assert_int_equal(history, HISTORY_PREGNANT);
    assert_string_equal(stage_class(stage_of("donkey", "milking"), 0, &history), "donkey");
    assert_int_equal(history, HISTORY_LACTATING);
    assert_string_equal(stage_class(stage_of("goat", "grown"), TROUBLE_LAMINITIS, &history), "goat-laminitis-history");
    assert_string_equal(stage_class(stage_of("goat", "milking"), TROUBLE_LAMINITIS, &history), "goat-lactating");
    assert_false(trouble_allowed(&params, stage_of("sheep", "grown"), TROUBLE_LAMINITIS));
    assert_true(trouble_allowed(&params, stage_of("sheep", "grown"), TROUBLE_TEETH));
}

static void test_choosing(void **state)
{
    (void)state;
    struct choices c = {0};
    const char *word = NULL;
    choice_add(&c, "silt-loam", "silky as flour, short ribbon");
    choice_add(&c, "silty-clay-loam", "sticky: a longer ribbon");
    choice_add(&c, "clay", "very sticky");
    choice_add(&c, "lucerne-hay", "lucerne");
    static const char *const same[][2] = {{"1", "silt-loam"},         {"CLAY", "clay"},
                                          {"silt-", "silt-loam"},     {"sticky", "silty-clay-loam"},
                                          {"very", "clay"},           {"short silky", "silt-loam"},
                                          {"alfalfa", "lucerne-hay"}, {"silty", "silty-clay-loam"}};
    for (size_t i = 0; i < sizeof same / sizeof same[0]; i++) {
        assert_true(choose(&c, same[i][0], &word, &err));
        assert_string_equal(word, same[i][1]);
    }
    assert_false(choose(&c, "silt", &word, &err));
    assert_non_null(strstr(err.what, "could be silt-loam, silty-clay-loam"));
    assert_false(choose(&c, "5", &word, &err));
    assert_non_null(strstr(err.what, "from 1 to 4"));
    assert_false(choose(&c, "0", &word, &err));
    assert_false(choose(&c, "chalk", &word, &err));
    c.open = true;
    assert_true(choose(&c, "chalk", &word, &err));
    assert_string_equal(word, "chalk");
}

static void tidied(const char *from, const char *to)
{
    struct json_doc doc;
    struct buf b;
    buf_init(&b);
    assert_int_equal(json_parse(from, strlen(from), "x", &doc, &err), ERR_OK);
    tidy_json(doc.root, &b);
    assert_string_equal(b.text, to);
    json_release(&doc);
    buf_release(&b);
}

static void test_tidy(void **state)
{
    (void)state;
    tidied("{}", "{}\n");
    tidied("{\"name\":\"a\\\"\\\\b\",\"sugarlea\":1,\"hay\":{}}",
           "{\n  \"sugarlea\": 1,\n  \"name\": \"a\\\"\\\\b\",\n  \"hay\": {}\n}\n");
    tidied("{\"note\":\"n\",\"x\":[1.50,true,false,null,[]],\"site\":{\"longitude\":-2.710,\"latitude\":0.1}}",
           "{\n  \"site\": { \"latitude\": 0.1, \"longitude\": -2.71 },\n"
           "  \"x\": [ 1.5, true, false, null, [] ],\n  \"note\": \"n\"\n}\n");
}

static void test_system_zone(void **state)
{
    (void)state;
    char zone[64], *old = getenv("TZ") ? strdup(getenv("TZ")) : NULL;
    setenv("TZ", ":Europe/Dublin", 1);
    assert_true(clock_system_zone(zone, sizeof zone));
    assert_string_equal(zone, "Europe/Dublin");
    setenv("TZ", "CET-1CEST", 1); /* a rule, and no name */
    assert_false(clock_system_zone(zone, sizeof zone));
    if (old) {
        setenv("TZ", old, 1);
    } else {
        unsetenv("TZ");
    }
    free(old);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_places),  cmocka_unit_test(test_no_places),
        cmocka_unit_test(test_amounts), cmocka_unit_test(test_every_answer_has_rules),
        cmocka_unit_test(test_classes), cmocka_unit_test(test_choosing),
        cmocka_unit_test(test_tidy),    cmocka_unit_test(test_system_zone),
    };
    return cmocka_run_group_tests(tests, load, unload);
}
