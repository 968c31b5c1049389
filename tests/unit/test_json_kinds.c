/* JSON whose values are of another kind than is expected: each value of each kept input in turn is swapped for one of
 * every kind, and what comes of it is either read or refused in words.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/holding.h"
#include "support/weather_text.h"

#include <cjson/cJSON.h>
#include <glob.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#define WEATHER_CORPUS "tests/fuzz/corpus/json/*" /* the first byte of each is no part of the file */
#define HOLDING_FILES "data/demo/holding.json"
#define BYTES_MOST 4000 /* longer inputs hold more days, not more kinds */

/* Reads the text and says whether that went as it may; takes note of what was read. */
typedef bool read_text(const char *text);

static unsigned layouts_read;
static struct params params;

static bool in_words(enum err_code code, const struct err *e)
{
    return code == ERR_OK || ((code == ERR_DATA || code == ERR_CONFIG) && e->what[0]);
}

static bool read_weather(const char *text)
{
    static const char *const layouts[] = {"reanalysis-json",    "forecast-json",    "forecast-json-many",
                                          "norwegian-forecast", "us-grid-forecast", "summaries-json"};
    struct weather_text t;
    weather_text_read(&t, text);
    for (size_t i = 0; t.code == ERR_OK && i < sizeof layouts / sizeof layouts[0]; i++) {
        layouts_read |= strcmp(t.set.layout, layouts[i]) == 0 ? 1u << i : 0;
    }
    bool fine = in_words(t.code, &t.err);
    weather_text_release(&t);
    return fine;
}

static bool read_holding(const char *text)
{
    struct arena a;
    struct holding h;
    struct err e = {0};
    arena_init(&a);
    enum err_code code = holding_parse(text, strlen(text), "h.json", &params, &a, &h, &e);
    arena_release(&a);
    return in_words(code, &e);
}

static void try_text(const cJSON *root, read_text *read)
{
    char *text = cJSON_PrintUnformatted(root);
    assert_non_null(text);
    if (!read(text)) {
        fail_msg("neither read nor refused in words: %s", text);
    }
    free(text);
}

/* Each value at and below the item, its name and neighbours kept. */
static size_t swap_all(const cJSON *root, cJSON *item, read_text *read)
{
    char word[] = "x", name[] = "T2M_MIN";
    cJSON within = {.type = cJSON_Number, .valueint = 2, .valuedouble = 2, .string = name};
    const cJSON kinds[] = {
        {.type = cJSON_Array, .child = &within},
        {.type = cJSON_Object, .child = &within},
        {.type = cJSON_Object},
        {.type = cJSON_String, .valuestring = word},
        {.type = cJSON_Number, .valueint = 7, .valuedouble = 7},
        {.type = cJSON_NULL},
    };
    size_t swaps = 0;
    cJSON *child;
    cJSON_ArrayForEach(child, item)
    {
        cJSON kept = *child;
        swaps += swap_all(root, child, read);
        for (size_t k = 0; k < sizeof kinds / sizeof kinds[0]; k++, swaps++) {
            *child = kinds[k];
            child->next = kept.next;
            child->prev = kept.prev;
            child->string = kept.string;
            try_text(root, read);
        }
        *child = kept;
    }
    return swaps;
}

static cJSON *load(const char *path, size_t skipped)
{
    char text[BYTES_MOST];
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    size_t n = fread(text, 1, sizeof text, file);
    fclose(file);
    return n < sizeof text && n > skipped ? cJSON_ParseWithLength(text + skipped, n - skipped) : NULL;
}

static size_t swap_files(const char *pattern, size_t skipped, read_text *read)
{
    glob_t found;
    size_t swaps = 0;
    assert_int_equal(glob(pattern, 0, NULL, &found), 0);
    for (size_t i = 0; i < found.gl_pathc; i++) {
        cJSON *root = load(found.gl_pathv[i], skipped);
        swaps += root ? swap_all(root, root, read) : 0;
        cJSON_Delete(root);
    }
    globfree(&found);
    return swaps;
}

static void weather_of_any_kind_is_read_or_refused(void **state)
{
    (void)state;
    assert_true(swap_files(WEATHER_CORPUS, 1, read_weather) > 10000);
    assert_int_equal(layouts_read, 0x3f); /* every layout had something that it reads */
}

static void holdings_of_any_kind_are_read_or_refused(void **state)
{
    struct arena a;
    struct err e = {0};
    (void)state;
    arena_init(&a);
    assert_int_equal(params_load("models", &a, &params, &e), ERR_OK);
    assert_true(swap_files(HOLDING_FILES, 0, read_holding) > 500);
    arena_release(&a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(weather_of_any_kind_is_read_or_refused),
        cmocka_unit_test(holdings_of_any_kind_are_read_or_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
