/* A system that starts no thread: the work of an ensemble is done all the same, and comes to the same.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <errno.h>
#include <pthread.h>
#include <string.h>

#include "season/ensemble.h"
#include "support/sward_support.h"

enum { YEARS = 5, DAYS = 6 };

static int refused;

/* In place of the C library's. */
int pthread_create(pthread_t *thread, const pthread_attr_t *attributes, void *(*work)(void *), void *argument)
{
    (void)thread;
    (void)attributes;
    (void)work;
    (void)argument;
    refused++;
    return EAGAIN;
}

static void no_year_is_left_out(void **state)
{
    static const char text[] = "{\"sugarlea\":1,\"site\":{\"latitude\":52},\"paddocks\":[{\"id\":\"p\",\"area_ha\":1}],"
                               "\"animals\":[{\"id\":\"a\",\"class\":\"pony\"}]}";
    struct run_day day[YEARS * DAYS];
    struct arena arena;
    struct holding holding;
    struct run run;
    struct ensemble one, four;
    struct err e = {0};
    (void)state;
    arena_init(&arena);
    assert_int_equal(holding_parse(text, strlen(text), "t.json", support_params(), &arena, &holding, &e), ERR_OK);
    assert_true(run_init(&run, support_params(), &holding, &arena));
    for (int i = 0; i < YEARS * DAYS; i++) {
        struct sward_weather w = {.date = date_make(2025, 4, 1) + i % DAYS,
                                  .tmin = 2 + i / DAYS,
                                  .tmax = 14 + i % DAYS,
                                  .rad = 10 + i / DAYS,
                                  .rain = 2,
                                  .et0 = 2,
                                  .tmax_before = 14,
                                  .tmin_after = 4};
        day[i] = (struct run_day){.recorded = w, .morning = w};
    }
    struct ensemble_ask ask = {
        .now = &run, .years = YEARS, .days = DAYS, .draws = 2, .day = day, .seed = 3, .threads = 1};
    ensemble_doubts(&support_params()->list, ask.doubt);
    assert_true(ensemble_run(&ask, &arena, &one));
    assert_int_equal(refused, 0);
    ask.threads = 4;
    assert_true(ensemble_run(&ask, &arena, &four));
    assert_int_equal(refused, 3);
    size_t bytes = one.members * DAYS * sizeof(float);
    assert_memory_equal(one.growth, four.growth, bytes);
    assert_memory_equal(one.sugar, four.sugar, bytes);
    assert_memory_equal(one.hours, four.hours, bytes);
    assert_memory_equal(one.hay, four.hay, bytes);
    assert_true(one.growth[ensemble_at(&one, 0, YEARS - 1, DAYS - 1)] > 0.0F);
    arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(no_year_is_left_out)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
