/* The reader of scalar parameters: what it takes, and how it refuses.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <string.h>

#include "data/param_table.h"

struct target {
    double speed, age;
};

static const struct param_row table[] = {
    {"speed", offsetof(struct target, speed), "m/s", 0, 10},
    {"age", offsetof(struct target, age), "d", 1, 100},
};

#define AGE                                                                                                            \
    "\"age\": {\"value\": 7, \"unit\": \"d\", \"low\": 5, \"high\": 9, \"source\": \"\", \"evidence\": \"ours\"}"

struct run {
    struct arena arena;
    struct param_list list;
    struct target target;
    struct err err;
    enum err_code code;
};

static void run(struct run *r, const char *text)
{
    struct json_doc doc;
    *r = (struct run){0};
    arena_init(&r->arena);
    assert_int_equal(json_parse(text, strlen(text), "m.json", &doc, &r->err), ERR_OK);
    r->code = param_table_read(&doc, json_get(doc.root, "x"), "x", table, 2, &r->target, &r->list, &r->arena, &r->err);
    json_release(&doc);
}

/* Refused with ERR_CONFIG, at line 2 and this column, field and sentence. */
static void refused(const char *text, size_t column, const char *field, const char *what)
{
    struct run r;
    run(&r, text);
    assert_int_equal(r.code, ERR_CONFIG);
    assert_string_equal(r.err.file, "m.json");
    assert_int_equal(r.err.line, 2);
    assert_int_equal(r.err.column, column);
    assert_string_equal(r.err.field, field);
    assert_non_null(strstr(r.err.what, what));
    arena_release(&r.arena);
}

#define SPEED(value, unit, low, high, rest)                                                                            \
    "{\"x\": {" AGE ",\n\"speed\": {\"value\": " value ", \"unit\": \"" unit "\", \"low\": " low ", \"high\": " high   \
    ", \"source\": \"A 2001\", " rest "}}}"
#define SEEN "\"evidence\": \"source seen\""

static void test_reads_and_lists(void **state)
{
    (void)state;
    struct run r;
    run(&r, SPEED("2.5", "m/s", "2", "3", SEEN));
    assert_int_equal(r.code, ERR_OK);
    assert_true(r.target.speed == 2.5 && r.target.age == 7);
    assert_int_equal(r.list.n, 2);
    assert_string_equal(r.list.entry[0].path, "x.speed");
    assert_string_equal(r.list.entry[0].unit, "m/s");
    assert_string_equal(r.list.entry[0].source, "A 2001");
    assert_string_equal(r.list.entry[0].evidence, "source seen");
    assert_true(r.list.entry[0].value == 2.5 && r.list.entry[0].low == 2 && r.list.entry[0].high == 3);
    assert_string_equal(r.list.entry[1].path, "x.age");
    arena_release(&r.arena);
}

static void test_refuses_wrong_numbers(void **state)
{
    (void)state;
    refused(SPEED("4", "m/s", "2", "3", SEEN), 20, "x.speed.value", "4 is out of range; 2 to 3 is allowed");
    refused(SPEED("\"2\"", "m/s", "2", "3", SEEN), 20, "x.speed.value", "must be a number");
    refused(SPEED("2", "m/s", "2", "11", SEEN), 56, "x.speed.high", "11 is out of range; 0 to 10 is allowed");
    refused(SPEED("2", "m/s", "-1", "3", SEEN), 45, "x.speed.low", "-1 is out of range");
    refused(SPEED("2", "m/s", "3", "2", SEEN), 10, "x.speed", "low 3 is above high 2");
}

static void test_refuses_wrong_words(void **state)
{
    (void)state;
    refused(SPEED("2", "km/h", "2", "3", SEEN), 31, "x.speed.unit", "\"km/h\" is not the one");
    refused(SPEED("2", "m/s", "2", "3", "\"evidence\": \"\""), 10, "x.speed", "evidence is empty");
    refused(SPEED("2", "m/s", "2", "3", "\"evidenc\": \"\""), 90, "x.speed.evidenc", "did you mean \"evidence\"?");
    refused(SPEED("2", "m/s", "2", "3", "\"evidence\": 3"), 91, "x.speed.evidence", "must be text");
}

static void test_refuses_wrong_sets(void **state)
{
    (void)state;
    refused("{\"x\":\n{" AGE "}}", 1, "x", "the entry \"speed\" is missing");
    refused("{\"x\": {" AGE ",\n\"spead\": 3}}", 10, "x.spead", "did you mean \"speed\"?");
    refused("{\"x\":\n[]}", 1, "x", "must be an object");
    refused("{\"x\": {" AGE ",\n\"speed\": 3}}", 10, "x.speed", "must be an object");
}

static void test_list_grows(void **state)
{
    (void)state;
    struct arena a;
    struct param_list list = {0};
    arena_init(&a);
    for (int i = 0; i < 1000; i++) {
        assert_true(param_list_add(&list, &a, (struct param_entry){.value = i}));
    }
    assert_int_equal(list.n, 1000);
    for (int i = 0; i < 1000; i++) {
        assert_true(list.entry[i].value == i);
    }
    arena_release(&a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_reads_and_lists),     cmocka_unit_test(test_refuses_wrong_numbers),
        cmocka_unit_test(test_refuses_wrong_words), cmocka_unit_test(test_refuses_wrong_sets),
        cmocka_unit_test(test_list_grows),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
