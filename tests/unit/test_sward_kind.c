/* The reader of models/swards.json: the shipped file, and faults put into it.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/file.h"
#include "data/params.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#define FILE_MOST (256u << 10)

/* Reads the shipped file with the first `from` replaced by `to`. */
static enum err_code read_with(const char *from, const char *to, struct arena *a, struct params *p, struct err *e)
{
    struct file_view view;
    struct json_doc doc;
    assert_int_equal(file_view("models/swards.json", FILE_MOST, &view, e), ERR_OK);
    char *text = arena_alloc(a, 1, view.size + strlen(to) + 1), *whole = arena_strndup(a, view.data, view.size);
    file_unview(&view);
    char *at = strstr(whole, from);
    assert_non_null(at);
    memcpy(text, whole, (size_t)(at - whole));
    strcpy(text + (at - whole), to);
    strcat(text, at + strlen(from));
    *p = (struct params){0};
    enum err_code code = json_parse(text, strlen(text), "swards.json", &doc, e);
    if (code == ERR_OK) {
        code = params_read_swards(&doc, a, p, e);
        json_release(&doc);
    }
    return code;
}

static void test_shipped(void **state)
{
    (void)state;
    struct arena a;
    struct params p;
    struct err e = {0};
    arena_init(&a);
    assert_int_equal(read_with("\"about\"", "\"about\"", &a, &p, &e), ERR_OK);
    assert_int_equal(p.grasses, 18);
    assert_int_equal(p.soils, 9);
    const struct grass *ryegrass = params_grass(&p, "ryegrass"), *bermuda = params_grass(&p, "bermuda");
    assert_true(ryegrass && ryegrass->half_sugar == 0.155 && ryegrass->type == SWARD_COOL_SEASON);
    assert_true(bermuda && isnan(bermuda->starch_share) && bermuda->type == SWARD_WARM_SEASON);
    assert_true(params_soil(&p, "sand")->capacity_mm == 60);
    assert_true(p.kind[SWARD_COOL_SEASON].photo.n == 7 && p.kind[SWARD_COOL_SEASON].photo.y[2] == 0.55);
    assert_true(isnan(p.kind[SWARD_COOL_SEASON].kill_tmin) && p.kind[SWARD_WARM_SEASON].kill_tmin == -2);
    assert_true(p.kind[SWARD_LEGUME].alpha == p.kind[SWARD_COOL_SEASON].alpha);
    for (size_t i = 0; i < p.list.n; i++) {
        const struct param_entry *entry = &p.list.entry[i];
        assert_true(entry->value >= entry->low && entry->value <= entry->high);
        assert_true(entry->evidence[0] != '\0');
    }
    arena_release(&a);
}

static void test_faults(void **state)
{
    (void)state;
    static const struct {
        const char *from, *to, *says; /* in the sentence or the path */
    } rows[] = {
        {"\"common\": {", "\"ordinary\": {", "ordinary"},
        {"\"alpha\":", "\"alfa\":", "alfa"},
        {"\"value\": 0.012", "\"value\": 12", "alpha"},
        {"\"unit\": \"mg CO2/J\"", "\"unit\": \"g CO2/J\"", "alpha"},
        {"\"value\": 390", "\"value\": 700", "must rise"},
        {"\"cool-season\": {", "\"cold-season\": {", "cold-season"},
        {"\"browning\": {", "\"browned\": {", "browned"},
        {"\"x\": [-4, 0,", "\"x\": [-4, -5,", "x must rise"},
        {"\"x\": [-4, 0,", "\"x\": [-4,", "as many numbers"},
        {"\"x\": [-4, 0, 5, 10, 18, 26, 40]", "\"x\": 5", "array"},
        {"\"y\": [0, 0.22,", "\"y\": [0, 1.22,", "0 to 1"},
        {"\"ryegrass\": {\"type\": \"cool-season\"", "\"ryegrass\": {\"type\": \"cool\"",
         "cool-season, warm-season, legume"},
        {"\"half_sugar\": 0.155", "\"half_sugar\": 4", "half_sugar"},
        {"\"half_sugar\": 0.155, ", "", "half_sugar"},
        {"\"ryegrass\":", "\"Rye grass\":", "a-z"},
        {"\"ryegrass-high-sugar\":", "\"ryegrass\":", "stands twice"},
        {"\"capacity_mm\": 60", "\"capacity\": 60", "capacity"},
        {"\"capacity_mm\": 60", "\"capacity_mm\": 6000", "capacity_mm"},
        {"\"evidence\": \"common practice\"}", "\"evidence\": \"\"}", "evidence"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct arena a;
        struct params p;
        struct err e = {0};
        char text[1024];
        arena_init(&a);
        enum err_code code = read_with(rows[i].from, rows[i].to, &a, &p, &e);
        err_format(&e, text, sizeof text);
        if (code == ERR_OK || !strstr(text, rows[i].says) || e.line == 0) {
            fail_msg("%s -> %s: code %d, \"%s\"", rows[i].from, rows[i].to, code, text);
        }
        arena_release(&a);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_shipped),
        cmocka_unit_test(test_faults),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
