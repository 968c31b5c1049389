/* Programs started, heard and ended. SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>

#include "base/child.h"
#include "base/clock.h"

struct heard {
    struct buf output, errors;
    struct child_end end;
    struct err e;
    enum err_code code;
};

/* sh is only the program that is started here: what it runs is written in this file. */
static void run_sh(struct heard *h, const char *script, const char *input, double deadline, size_t most)
{
    char name[] = "sh", option[] = "-c", *text = strdup(script);
    char *const arguments[] = {name, option, text, NULL};
    const struct child_job job = {.program = name,
                                  .arguments = arguments,
                                  .input = input,
                                  .input_size = strlen(input),
                                  .deadline_s = deadline,
                                  .output_most = most};
    buf_init(&h->output);
    buf_init(&h->errors);
    h->code = child_run(&job, &h->output, &h->errors, &h->end, &h->e);
    free(text);
}

static void drop(struct heard *h)
{
    buf_release(&h->output);
    buf_release(&h->errors);
}

static void test_talks(void **state)
{
    struct heard h;
    (void)state;
    run_sh(&h, "cat; echo complaint >&2; exit 3", "what it hears\n", 10, 100);
    assert_int_equal(h.code, ERR_OK);
    assert_int_equal(h.end.fate, CHILD_EXITED);
    assert_int_equal(h.end.status, 3);
    assert_string_equal(h.output.text, "what it hears\n");
    assert_string_equal(h.errors.text, "complaint\n");
    drop(&h);
}

/* More than any pipe holds, both ways at once. */
static void test_much(void **state)
{
    enum { MUCH = 1 << 20 };
    char *input = malloc(MUCH + 1);
    struct heard h;
    (void)state;
    assert_non_null(input);
    memset(input, 'x', MUCH);
    input[MUCH] = 0;
    run_sh(&h, "cat", input, 20, 2 * MUCH);
    assert_int_equal(h.end.fate, CHILD_EXITED);
    assert_int_equal(h.output.length, MUCH);
    drop(&h);
    free(input);
}

static void test_hears_nothing(void **state)
{
    struct heard h;
    (void)state;
    run_sh(&h, "exec <&-; sleep 0.1; echo deaf", "a line that nobody reads\n", 10, 100);
    assert_int_equal(h.code, ERR_OK);
    assert_string_equal(h.output.text, "deaf\n");
    drop(&h);
}

/* Late ones are killed with all that they started: whether they hold their output open or not. */
static void test_late(void **state)
{
    static const char *const script[] = {"sleep 60", "sleep 60 & sleep 60", "exec >&- 2>&-; sleep 60",
                                         "trap '' TERM; sleep 60"};
    (void)state;
    for (size_t i = 0; i < sizeof script / sizeof script[0]; i++) {
        struct heard h;
        double start = clock_ticks();
        run_sh(&h, script[i], "", 0.2, 100);
        assert_int_equal(h.end.fate, CHILD_LATE);
        assert_true(clock_ticks() - start < 10.0);
        drop(&h);
    }
}

static void test_talkative(void **state)
{
    struct heard h;
    (void)state;
    run_sh(&h, "yes", "", 20, 5000);
    assert_int_equal(h.end.fate, CHILD_TALKATIVE);
    assert_int_equal(h.output.length, 5000);
    drop(&h);
    run_sh(&h, "yes | head -c 200000 >&2; echo done", "", 20, 5000);
    assert_string_equal(h.output.text, "done\n");
    assert_int_equal(h.errors.length, CHILD_ERRORS_MOST);
    drop(&h);
}

static void test_signalled(void **state)
{
    struct heard h;
    (void)state;
    run_sh(&h, "kill -9 $$", "", 10, 100);
    assert_int_equal(h.end.fate, CHILD_SIGNALLED);
    assert_int_equal(h.end.status, SIGKILL);
    drop(&h);
}

static void test_absent(void **state)
{
    char name[] = "no-such-program-anywhere";
    char *const arguments[] = {name, NULL};
    const struct child_job job = {
        .program = name, .arguments = arguments, .input = "", .deadline_s = 5, .output_most = 100};
    struct child_end end;
    struct buf output;
    struct err e;
    (void)state;
    buf_init(&output);
    assert_int_equal(child_run(&job, &output, NULL, &end, &e), ERR_NOINPUT);
    assert_non_null(strstr(e.what, name));
    buf_release(&output);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_talks),  cmocka_unit_test(test_much),      cmocka_unit_test(test_hears_nothing),
        cmocka_unit_test(test_late),   cmocka_unit_test(test_talkative), cmocka_unit_test(test_signalled),
        cmocka_unit_test(test_absent),
    };
    signal(SIGPIPE, SIG_IGN); /* as main does */
    return cmocka_run_group_tests(tests, NULL, NULL);
}
