/* base: the JSON checks that cJSON lacks; file views, replace, append.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/file.h"
#include "base/json.h"
#include "base/limits.h"

static enum err_code parse(const char *text, struct err *e)
{
    struct json_doc doc;
    err_clear(e);
    enum err_code code = json_parse(text, strlen(text), "t.json", &doc, e);
    json_release(&doc);
    return code;
}

static void json_refuses_what_is_not_json(void **state)
{
    static const struct {
        const char *text, *says;
        size_t line, column;
    } bad[] = {
        {"{\"a\":1} x", "after the end", 1, 9},
        {"{\"a\":1,\n \"a\":2}", "twice", 2, 2},
        {"{\"a\":1e999}", "not a number", 1, 6},
        {"{\"a\":01}", "not a number", 1, 6},
        {"{\"a\":1.}", "not a number", 1, 6},
        {"{\"a\":nan}", "a value was expected", 1, 6},
        {"{\"a\":\"\xff\"}", "not UTF-8", 1, 7},
        {"{\"a\":\"\xc0\xaf\"}", "not UTF-8", 1, 7},
        {"{\"a\":[1,2", "cut short", 1, 10},
        {"{\"a\":\"x", "cut short", 1, 8},
        {"", "cut short", 1, 1},
        {"{a:1}", "double quotes", 1, 2},
        {"[1,]", "a value was expected", 1, 4},
        {"{\"a\":\"\\u0000\"}", "NUL", 1, 8},
        {"{\"a\":\"line\nbreak\"}", "line break", 1, 11},
    };
    struct err e;
    (void)state;
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        assert_int_equal(parse(bad[i].text, &e), ERR_DATA);
        assert_non_null(strstr(e.what, bad[i].says));
        assert_int_equal(e.line, bad[i].line);
        assert_int_equal(e.column, bad[i].column);
    }
    char deep[400];
    memset(deep, '[', 200);
    memset(deep + 200, ']', 199);
    deep[399] = 0;
    assert_int_equal(parse(deep, &e), ERR_DATA);
    assert_non_null(strstr(e.what, "too deep"));
    assert_int_equal(parse("\xef\xbb\xbf{\"a\":[1,-2.5e3,true,null,\"\\u00e9\"],\"A\":{}}", &e), ERR_OK);
}

static void json_finds_places(void **state)
{
    static const char text[] =
        "{\n  \"site\": { \"latitude\": 95 },\n  \"animals\": [ {},\n    { \"count\": \"x\" } ]\n}";
    struct json_doc doc;
    struct err e = {0};
    double value = 7;
    static const char *const known[] = {"latitude", "longitude"};
    (void)state;
    assert_int_equal(json_parse(text, sizeof text - 1, "h.json", &doc, &e), ERR_OK);
    const cJSON *site = json_get(doc.root, "site");
    assert_null(json_get(doc.root, "SITE"));
    assert_int_equal(json_read_number(&doc, site, "site", "latitude", true, -90, 90, &value, &e), ERR_CONFIG);
    assert_true(e.line == 2 && e.column == 25 && value == 7);
    assert_string_equal(e.field, "site.latitude");
    assert_int_equal(json_read_number(&doc, site, "site", "longitude", true, -90, 90, &value, &e), ERR_CONFIG);
    assert_int_equal(json_read_number(&doc, site, "site", "longitude", false, -90, 90, &value, &e), ERR_OK);
    const cJSON *second = cJSON_GetArrayItem(json_get(doc.root, "animals"), 1);
    assert_int_equal(json_read_number(&doc, second, "animals[1]", "count", true, 1, 9, &value, &e), ERR_CONFIG);
    assert_true(e.line == 4 && e.column == 16);
    assert_int_equal(json_check_keys(&doc, second, "animals[1]", known, 2, &e), ERR_CONFIG);
    assert_int_equal(json_check_keys(&doc, site, "site", known, 2, &e), ERR_OK);
    json_release(&doc);
}

static char folder[64];

static int make_folder(void **state)
{
    (void)state;
    snprintf(folder, sizeof folder, "/tmp/sugarlea-test-XXXXXX");
    return mkdtemp(folder) ? 0 : -1;
}

static int drop_folder(void **state)
{
    char path[128];
    static const char *const names[] = {"a.txt", "log.csv"};
    (void)state;
    for (size_t i = 0; i < 2; i++) {
        snprintf(path, sizeof path, "%s/%s", folder, names[i]);
        unlink(path);
    }
    return rmdir(folder); /* fails when a temporary file was left behind */
}

static void files_are_replaced_whole(void **state)
{
    char path[128];
    struct err e = {0};
    struct file_view v;
    struct stat s;
    (void)state;
    snprintf(path, sizeof path, "%s/a.txt", folder);
    assert_int_equal(file_replace(path, "one\n", 4, &e), ERR_OK);
    assert_int_equal(chmod(path, 0600), 0);
    assert_int_equal(file_replace(path, "three\n", 6, &e), ERR_OK);
    assert_int_equal(stat(path, &s), 0);
    assert_int_equal(s.st_mode & 0777, 0600);
    assert_int_equal(file_view(path, 100, &v, &e), ERR_OK);
    assert_int_equal(v.size, 6);
    assert_memory_equal(v.data, "three\n", 6);
    file_unview(&v);
    assert_int_equal(file_view(path, 5, &v, &e), ERR_DATA);
    assert_int_equal(file_view(folder, 100, &v, &e), ERR_NOINPUT);
    assert_non_null(strstr(e.what, "folder"));
    assert_int_equal(file_view("/nowhere/at/all", 100, &v, &e), ERR_NOINPUT);
    assert_int_equal(file_replace("/nowhere/at/all", "x", 1, &e), ERR_CREATE);
    assert_int_equal(file_view("/dev/null", 100, &v, &e), ERR_OK);
    assert_int_equal(v.size, 0);
    file_unview(&v);
}

static void lines_are_appended_under_a_header(void **state)
{
    char path[128];
    struct err e = {0};
    struct file_view v;
    (void)state;
    snprintf(path, sizeof path, "%s/log.csv", folder);
    assert_int_equal(file_append(path, "a,b\n", "1,2\n", 4, &e), ERR_OK);
    assert_int_equal(file_append(path, "a,b\n", "3,4\n", 4, &e), ERR_OK);
    assert_int_equal(file_view(path, 100, &v, &e), ERR_OK);
    assert_int_equal(v.size, 12);
    assert_memory_equal(v.data, "a,b\n1,2\n3,4\n", 12);
    file_unview(&v);
    assert_int_equal(file_append("/nowhere/at/all", NULL, "x", 1, &e), ERR_CREATE);
}

static enum err_code refuse(const char *bytes, size_t n, struct buf *out, void *context, struct err *e)
{
    (void)bytes;
    (void)context;
    buf_addf(out, "%zu bytes", n);
    return err_set(e, ERR_DATA, "not this one");
}

/* What cannot be done says so with the code of its kind, and leaves everything as it was. */
static void files_that_cannot_be_written(void **state)
{
    char place[] = "/tmp/sugarlea_refused_XXXXXX", path[128], inner[160], name[LIMIT_PATH + 10];
    struct file_view v;
    struct err e = {0};
    (void)state;
    assert_non_null(mkdtemp(place));
    snprintf(path, sizeof path, "%s/file", place);
    snprintf(inner, sizeof inner, "%s/none/file", place);
    memset(name, 'n', sizeof name);
    name[sizeof name - 1] = '\0';
    assert_int_equal(file_replace(name, "x", 1, &e), ERR_CREATE);
    assert_non_null(strstr(e.what, "longer than"));
    assert_int_equal(file_replace(place, "x", 1, &e), ERR_CREATE); /* a folder stands there */
    assert_int_equal(file_append(place, NULL, "x", 1, &e), ERR_CREATE);
    assert_int_equal(file_append(inner, "h\n", "x", 1, &e), ERR_CREATE);
    assert_non_null(strstr(e.what, "its folder is not there"));
    assert_int_equal(file_update(path, 100, refuse, NULL, &e), ERR_NOINPUT);
    assert_int_equal(file_replace(path, "as it was\n", 10, &e), ERR_OK);
    assert_int_equal(file_update(path, 100, refuse, NULL, &e), ERR_DATA);
    assert_int_equal(file_update(path, 5, refuse, NULL, &e), ERR_DATA);
    assert_int_equal(file_view(path, 100, &v, &e), ERR_OK);
    assert_true(v.size == 10 && memcmp(v.data, "as it was\n", 10) == 0);
    file_unview(&v);
    assert_int_equal(file_view("/dev/zero", 200000, &v, &e), ERR_DATA); /* without end */
    assert_non_null(strstr(e.what, "longer than the 200000 bytes"));
    assert_int_equal(unlink(path), 0);
    assert_int_equal(rmdir(place), 0); /* nothing is left behind */
}

/* The variable where it is set, else beside the program, else where it was installed. */
static void own_folders_are_found(void **state)
{
    char place[LIMIT_PATH];
    (void)state;
    assert_int_equal(setenv("SUGARLEA_TEST_FOLDER", "/somewhere", 1), 0);
    file_own_folder("models", "SUGARLEA_TEST_FOLDER", place, sizeof place);
    assert_string_equal(place, "/somewhere");
    assert_int_equal(setenv("SUGARLEA_TEST_FOLDER", "", 1), 0);
    file_own_folder("no-such-folder", "SUGARLEA_TEST_FOLDER", place, sizeof place);
    assert_string_equal(place, SUGARLEA_DATADIR "/no-such-folder");
    assert_int_equal(unsetenv("SUGARLEA_TEST_FOLDER"), 0);
    file_own_folder("test_base_files", "SUGARLEA_TEST_FOLDER", place, sizeof place); /* this program, beside itself */
    assert_non_null(strstr(place, "/test_base_files"));
    assert_null(strstr(place, SUGARLEA_DATADIR));
    file_beside("/a/b/holding.json", "diary.csv", place, sizeof place);
    assert_string_equal(place, "/a/b/diary.csv");
    file_beside("holding.json", "diary.csv", place, sizeof place);
    assert_string_equal(place, "./diary.csv");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(json_refuses_what_is_not_json),
        cmocka_unit_test(json_finds_places),
        cmocka_unit_test_setup_teardown(files_are_replaced_whole, make_folder, drop_folder),
        cmocka_unit_test_setup_teardown(lines_are_appended_under_a_header, make_folder, drop_folder),
        cmocka_unit_test(files_that_cannot_be_written),
        cmocka_unit_test(own_folders_are_found),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
