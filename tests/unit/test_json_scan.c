/* The strict look at JSON before it is read: what it passes a second reader parses, too (cJSON), and what
 * RFC 8259 does not allow it refuses. Where the value of a path stands. SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cjson/cJSON.h>
#include <cmocka.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/json_scan.h"
#include "base/limits.h"

static bool passes(const char *text, size_t size)
{
    size_t at;
    const char *fault = json_scan(text, size, &at);
    assert_true(at <= size);
    return fault == NULL;
}

static void what_is_no_json_is_refused(void **state)
{
    static const char *const bad[] = {
        "",
        " ",
        "{",
        "}",
        "[",
        "]",
        "[1",
        "[1,",
        "[1,]",
        "[,1]",
        "[1 2]",
        "{\"a\"}",
        "{\"a\":}",
        "{\"a\":1,}",
        "{\"a\" 1}",
        "{a:1}",
        "{'a':1}",
        "{\"a\":1 \"b\":2}",
        "{\"a\":1,\"a\":2}",
        "{\"a\":{\"b\":1,\"b\":1}}",
        "[1}",
        "{\"a\":1]",
        "1 2",
        "[] []",
        "nul",
        "True",
        "nan",
        "NaN",
        "Infinity",
        "-",
        "+1",
        ".5",
        "1.",
        "1e",
        "1e+",
        "01",
        "-01",
        "0x1",
        "1e400",
        "--1",
        "1-",
        "\"",
        "\"a",
        "\"\\\"",
        "\"\\x\"",
        "\"\\u12\"",
        "\"\\u12g4\"",
        "\"\\u00",
        "\"\\u0000\"",
        "\"a\tb\"",
        "\"a\nb\"",
        "\"\x80\"",
        "\"\xc3\"",
        "\"\xc3\x28\"",
        "\"\xc0\x80\"",
        "\"\xe0\x80\x80\"",
        "\"\xed\xa0\x80\"",
        "\"\xf4\x90\x80\x80\"",
        "\"\xf8\x88\x80\x80\x80\"",
        "\"\xe2\x82\"",
        "// 1",
        "/* */ 1",
        "[1]x",
        "\xef\xbb\xbf[]",
    };
    (void)state;
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        if (passes(bad[i], strlen(bad[i]))) {
            fail_msg("%s passes for JSON", bad[i]);
        }
    }
    assert_false(passes("[\0]", 3));
    assert_false(passes("1\0", 2));
}

static void sound_json_passes(void **state)
{
    static const char *const good[] = {
        "0",
        "-0",
        "1",
        "-1.5",
        "1e3",
        "1E-3",
        "1.25e+2",
        "true",
        "false",
        "null",
        "\"\"",
        "[]",
        "{}",
        " [ ] ",
        "\t{\r\n}\n",
        "[[],{},[[]]]",
        "{\"a\":1,\"A\":2}",
        "{\"a\":{\"a\":{\"a\":1}}}",
        "\"\\\"\\\\\\/\\b\\f\\n\\r\\t\\u00e4\\uD83D\\uDE00\"",
        "\"\xc3\xa4 \xe2\x82\xac \xf0\x9f\x98\x80 \x7f\"",
        "[1,2.5,\"x\",true,null,{\"y\":[]}]",
    };
    (void)state;
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++) {
        if (!passes(good[i], strlen(good[i]))) {
            fail_msg("%s is refused", good[i]);
        }
    }
}

/* Every byte of a sound text replaced by each of many, and every place cut off. */
static void a_second_reader_reads_what_passes(void **state)
{
    static const char sound[] =
        "{\"a\":[1,-2.5e3,true,null,\"x\\u00e4\\n\"],\"b\":{\"c\":{},\"d\":\"\xc3\xa4\"},\"e\":0.125}";
    static const char byte[] = "\"\\{}[]:,0-+.eEut \t\n\x01\x7f\x80\xc3\xff";
    size_t n = strlen(sound), passed = 0, tried = 0;
    (void)state;
    for (size_t i = 0; i < n; i++) {
        assert_false(passes(sound, i)); /* cut short */
        for (size_t k = 0; k < sizeof byte; k++) {
            char text[sizeof sound];
            memcpy(text, sound, sizeof sound);
            text[i] = byte[k];
            bool pass = passes(text, n);
            cJSON *root = cJSON_ParseWithLength(text, n);
            assert_true(!pass || root != NULL);
            cJSON_Delete(root);
            passed += pass;
            tried++;
        }
    }
    assert_true(passed > 100 && passed < tried / 2); /* within texts and numbers much is allowed */
}

static void depth_has_a_limit(void **state)
{
    char text[4 * LIMIT_JSON_DEPTH];
    (void)state;
    for (int depth = LIMIT_JSON_DEPTH - 2; depth <= LIMIT_JSON_DEPTH + 2; depth++) {
        memset(text, '[', (size_t)depth);
        memset(text + depth, ']', (size_t)depth);
        assert_true(passes(text, 2 * (size_t)depth) == (depth <= LIMIT_JSON_DEPTH + 1));
    }
}

/* More keys than the first room for them, without and with one twice: the first and the last. */
static void many_keys(void **state)
{
    size_t size = 20 * 2000, at;
    char *text = malloc(size);
    (void)state;
    for (int twice = 0; twice < 2; twice++) {
        size_t n = (size_t)snprintf(text, size, "{\"key\":0");
        for (int i = 0; i < 1500; i++) {
            n += (size_t)snprintf(text + n, size - n, ",\"k%d\":%d", i, i);
        }
        n += (size_t)snprintf(text + n, size - n, ",\"%s\":0}", twice ? "key" : "yek");
        assert_true((json_scan(text, n, &at) != NULL) == (twice == 1));
        assert_true(!twice || at == n - strlen("\"key\":0}"));
    }
    free(text);
}

/* A path that is there; one whose end is not stops at what is there; "" is the value itself. */
static void paths_are_found(void **state)
{
    static const char text[] = " {\"a\": [10, {\"b\": 20}], \"c.d\": 1, \"e\": {\"f\": [ ]}}";
    static const struct {
        const char *path, *there;
    } row[] = {
        {"", "{\"a\""},     {"a", "[10"},      {"a[0]", "10,"},      {"a[1]", "{\"b\""}, {"a[1].b", "20}"},
        {"e.f", "[ ]"},     {"a[2]", "[10"},   {"a[1].x", "{\"b\""}, {"x", "{\"a\""},    {"a.b", "[10"},
        {"e[0]", "{\"f\""}, {"e.f[0]", "[ ]"}, {"a[1", "{\"b\""},    {"a[0].x", "10,"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        size_t at = json_scan_find(text, sizeof text - 1, row[i].path), line, column;
        if (strncmp(text + at, row[i].there, strlen(row[i].there)) != 0) {
            fail_msg("%s stands at \"%s\"", row[i].path, text + at);
        }
        json_scan_place(text, at, &line, &column);
        assert_true(line == 1 && column == at + 1);
    }
    size_t line, column;
    json_scan_place("ab\ncd\n\ne", 7, &line, &column);
    assert_true(line == 4 && column == 1);
}

/* RFC 3629: a letter of one byte, of two, three and four. */
static void letters_are_counted_and_stay_whole(void **state)
{
    (void)state;
    static const char text[] = "a\xc3\xa9\xe4\xba\x94\xf0\x9f\x90\x90z";
    static const size_t cut[] = {0, 1, 1, 3, 3, 3, 6, 6, 6, 6, 10, 11, 11, 11};
    assert_int_equal(json_scan_letters(text, strlen(text)), 5);
    for (size_t most = 0; most < sizeof cut / sizeof cut[0]; most++) {
        assert_int_equal(json_scan_cut(text, most), cut[most]);
    }
    assert_int_equal(json_scan_letters("", 0), 0);
    assert_int_equal(json_scan_cut("", 5), 0);
    /* What is no UTF-8: each byte by itself, and cut like others. */
    assert_int_equal(json_scan_letters("\xe9t\xe9\xc3", 4), 4);
    assert_int_equal(json_scan_letters(text, 2), 2);
    assert_int_equal(json_scan_cut("caf\xe9", 9), 4);
    assert_int_equal(json_scan_cut("\x80\x80\x80\x80\x80\x80\x80\x80", 6), 6);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_no_json_is_refused),
        cmocka_unit_test(sound_json_passes),
        cmocka_unit_test(a_second_reader_reads_what_passes),
        cmocka_unit_test(depth_has_a_limit),
        cmocka_unit_test(many_keys),
        cmocka_unit_test(paths_are_found),
        cmocka_unit_test(letters_are_counted_and_stay_whole),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
