/* What the fetcher reads of its requests. SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <string.h>

#include "fetch/request.h"
#include "support/starve.h"

static const char one[] =
    "{\"service\":\"nasa-power\",\"latitude\":52.19,\"longitude\":-2.71,\"elevation\":null,\"timezone\":\"\","
    "\"station\":\"\","
    "\"today\":20420,\"from\":20360,\"to\":20419,\"url\":\"\",\"key_file\":\"\",\"cache_days\":1}";

static bool made(struct arena *a, void *context)
{
    const struct buf *text = context;
    struct fetch_request *r;
    size_t n;
    struct err e;
    err_clear(&e);
    enum err_code code = requests_read(text->text, text->length, a, &r, &n, &e);
    if (code != ERR_OK) {
        assert_int_equal(code, ERR_NOMEM);
        assert_non_null(strstr(e.what, "out of memory"));
        return false;
    }
    assert_int_equal(n, 1);
    assert_string_equal(r[0].service->name, "nasa-power");
    assert_int_equal(r[0].ask.from, 20360);
    return true;
}

/* Memory that runs out is told as that, not as a list that is too long. */
static void memory_that_runs_out(void **state)
{
    (void)state;
    struct buf text;
    buf_init(&text);
    buf_addf(&text, "[%s]", one);
    assert_true(starve(made, &text) > 1);
    buf_release(&text);
}

static void lists_that_are_none(void **state)
{
    (void)state;
    struct arena a;
    struct fetch_request *r;
    struct buf many;
    size_t n;
    struct err e;
    arena_init(&a);
    buf_init(&many);
    for (int i = 0; i <= FETCH_REQUESTS_MOST; i++) {
        buf_addf(&many, "%s%s", i ? "," : "[", one);
    }
    buf_add(&many, "]");
    const char *text[] = {"{}", "7", many.text};
    for (size_t i = 0; i < 3; i++) {
        err_clear(&e);
        assert_int_equal(requests_read(text[i], strlen(text[i]), &a, &r, &n, &e), ERR_DATA);
        assert_non_null(strstr(e.what, "a list of at most"));
    }
    buf_release(&many);
    arena_release(&a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(memory_that_runs_out), cmocka_unit_test(lists_that_are_none)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
