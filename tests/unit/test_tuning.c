/* tuning.json: what is written is read again, and nothing else is. A tuned paddock in the
 * run. Files and weather are made up here. SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "season/run.h"
#include "season/tune.h"

static struct arena arena;
static struct params params;

static int load(void **state)
{
    struct err e = {0};
    (void)state;
    arena_init(&arena);
    return params_load("models", &arena, &params, &e) == ERR_OK ? 0 : -1;
}

static int release(void **state)
{
    (void)state;
    arena_release(&arena);
    return 0;
}

static void test_there_and_back(void **state)
{
    struct tuning_row row[] = {{"low-meadow", {0.1837, 0.131234, 3, date_make(2025, 4, 22)}},
                               {"Pré-haut", {-0.25, 0.2, 1, date_make(2024, 12, 31)}}};
    struct tuning_file f = {"0123456789abcdef", 2, row}, back;
    struct buf b, again;
    struct err e = {0};
    (void)state;
    buf_init(&b);
    buf_init(&again);
    tuning_print(&f, &b);
    assert_int_equal(tuning_parse(b.text, b.length, "tuning.json", &arena, &back, &e), ERR_OK);
    assert_string_equal(back.model, f.model);
    assert_int_equal(back.n, 2);
    assert_string_equal(back.row[1].id, "Pré-haut");
    assert_true(back.row[0].tuned.theta == 0.1837 && back.row[0].tuned.sd == 0.131234);
    assert_true(back.row[1].tuned.tests == 1 && back.row[1].tuned.date == date_make(2024, 12, 31));
    tuning_print(&back, &again);
    assert_string_equal(again.text, b.text);
    buf_clear(&b);
    f.n = 0;
    tuning_print(&f, &b);
    assert_int_equal(tuning_parse(b.text, b.length, "tuning.json", &arena, &back, &e), ERR_OK);
    assert_int_equal(back.n, 0);
    buf_release(&b);
    buf_release(&again);
}

#define ROW(fields) "{\"sugarlea_tuning\":1,\"model\":\"m\",\"paddocks\":[{" fields "}]}"
#define GOOD "\"id\":\"p\",\"theta\":0.1,\"sd\":0.2,\"tests\":2,\"date\":\"2025-04-22\""

static void test_refused(void **state)
{
    static const struct {
        const char *text, *says;
    } row[] = {
        {"", "not valid JSON"},
        {"{\"sugarlea_tuning\":1,", "not valid JSON"},
        {"[]", "must be an object"},
        {"{\"sugarlea_tuning\":2,\"model\":\"m\",\"paddocks\":[]}", "out of range"},
        {"{\"sugarlea_tuning\":1,\"paddocks\":[]}", "\"model\" is missing"},
        {"{\"sugarlea_tuning\":1,\"model\":\"m\"}", "must be a list"},
        {"{\"sugarlea_tuning\":1,\"model\":\"m\",\"paddock\":[]}", "did you mean \"paddocks\"?"},
        {ROW("\"id\":\"p\""), "\"theta\" is missing"},
        {ROW("\"id\":\"p\",\"theta\":\"0.1\",\"sd\":0.2,\"tests\":2,\"date\":\"2025-04-22\""), "without quotes"},
        {ROW("\"id\":\"p\",\"theta\":9,\"sd\":0.2,\"tests\":2,\"date\":\"2025-04-22\""), "out of range"},
        {ROW("\"id\":\"p\",\"theta\":0.1,\"sd\":-0.2,\"tests\":2,\"date\":\"2025-04-22\""), "out of range"},
        {ROW("\"id\":\"p\",\"theta\":0.1,\"sd\":0.2,\"tests\":0,\"date\":\"2025-04-22\""), "out of range"},
        {ROW("\"id\":\"p\",\"theta\":0.1,\"sd\":0.2,\"tests\":1.5,\"date\":\"2025-04-22\""), "whole number"},
        {ROW("\"id\":\"p\",\"theta\":0.1,\"sd\":0.2,\"tests\":2,\"date\":\"2025-02-30\""), "date of the calendar"},
        {ROW(GOOD "},{" GOOD), "twice"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        struct tuning_file f;
        struct err e = {0};
        char text[1024];
        assert_int_equal(tuning_parse(row[i].text, strlen(row[i].text), "tuning.json", &arena, &f, &e), ERR_CONFIG);
        err_format(&e, text, sizeof text);
        assert_non_null(strstr(text, row[i].says));
        assert_non_null(strstr(text, "tuning.json"));
    }
}

static struct run_day day_of(int i)
{
    struct sward_weather w = {.date = date_make(2023, 3, 1) + i,
                              .tmin = 3,
                              .tmax = 14,
                              .rad = 16,
                              .rain = 3,
                              .et0 = 2,
                              .tmax_before = 14,
                              .tmin_after = 3};
    return (struct run_day){.recorded = w, .morning = w};
}

/* A spring with that tuning and those readings of the height, and the morning after it. */
static void spring(const struct tuning *tuned, const struct cover_reading *reading, size_t readings, struct run *r)
{
    static const char text[] =
        "{\"sugarlea\":1,\"name\":\"t\",\"site\":{\"latitude\":52},\"paddocks\":[{\"id\":\"p\",\"area_ha\":1,"
        "\"grass\":\"ryegrass\",\"kept\":{\"how\":\"rested\"}}],\"animals\":[{\"id\":\"a\",\"class\":\"goat-dry\"}]}";
    struct holding *h = arena_alloc(&arena, 1, sizeof *h);
    struct err e = {0};
    assert_non_null(h);
    assert_int_equal(holding_parse(text, sizeof text - 1, "t.json", &params, &arena, h, &e), ERR_OK);
    h->paddock[0].tuned = tuned ? *tuned : h->paddock[0].tuned;
    h->paddock[0].reading = reading;
    h->paddock[0].readings = readings;
    assert_true(run_init(r, &params, h, &arena));
    for (int i = 0; i < 40; i++) {
        struct run_day d = day_of(i);
        run_morning(r, &d);
        run_evening(r, &d);
    }
    struct run_day d = day_of(40);
    run_morning(r, &d);
}

static void test_level_in_the_run(void **state)
{
    const struct tuning none = {.theta = 0.0}, sweeter = {0.2, 0.12, 3, 0}, poorer = {-0.2, 0.12, 3, 0},
                        confirmed = {0.0, 0.12, 3, 0};
    struct run plain, up, down, same;
    (void)state;
    spring(&none, NULL, 0, &plain);
    spring(&sweeter, NULL, 0, &up);
    spring(&poorer, NULL, 0, &down);
    spring(&confirmed, NULL, 0, &same);
    const struct run_paddock *p = &plain.paddock[0], *u = &up.paddock[0];
    for (int h = 0; h < 24; h++) {
        assert_true(fabs(u->expected.nsc_hour[h] / p->expected.nsc_hour[h] - exp(0.2)) < 1e-12);
    }
    assert_true(fabs(u->day.wsc / p->day.wsc - exp(0.2)) < 1e-12);
    assert_true(fabs(u->expected.starch / p->expected.starch - exp(0.2)) < 1e-12);
    /* the grass itself grows as it did */
    assert_true(u->expected.growth == p->expected.growth);
    assert_true(sward_total_kg_ha(&u->sward) == sward_total_kg_ha(&p->sward));
    /* a narrower spread, by the share that the tests leave: doubt multiplies both */
    assert_true(fabs(u->ln_sd / p->ln_sd - hypot(0.12, params.tune.rest) / params.limits.spread_paddock) < 1e-9);
    /* and the hours follow: no fewer when the model is confirmed or grass is poorer, none more when it is richer */
    assert_true(same.animal[0].advice.hours >= plain.animal[0].advice.hours);
    assert_true(down.animal[0].advice.hours >= same.animal[0].advice.hours);
    assert_true(down.animal[0].advice.hours > up.animal[0].advice.hours);
}

static void test_height_in_the_run(void **state)
{
    date_t morning = day_of(40).recorded.date;
    double gain = tune_cover_gain(&params.tune);
    struct run plain, low, early;
    (void)state;
    spring(NULL, NULL, 0, &plain);
    double stood = sward_total_kg_ha(&plain.paddock[0].sward);
    /* two readings before the record are passed over; half of the cover on this very morning */
    struct cover_reading reading[] = {{morning - 400, 900}, {morning - 41, 900}, {morning, stood / 2}};
    spring(NULL, reading, 3, &low);
    assert_true(fabs(log(sward_total_kg_ha(&low.paddock[0].sward) / stood) - gain * log(0.5)) < 1e-9);
    /* a reading that agrees changes nothing; one far off is held to the factor of the limits */
    reading[2].kg_ha = stood;
    spring(NULL, &reading[2], 1, &early);
    assert_true(fabs(sward_total_kg_ha(&early.paddock[0].sward) / stood - 1.0) < 1e-12);
    reading[2].kg_ha = 100.0 * stood;
    spring(NULL, &reading[2], 1, &early);
    assert_true(fabs(sward_total_kg_ha(&early.paddock[0].sward) / stood - params.tune.factor_high) < 1e-12);
    /* shorter grass catches less light and grows less for a while */
    reading[2] = (struct cover_reading){morning - 1, stood / 3};
    spring(NULL, &reading[2], 1, &early);
    assert_true(early.paddock[0].day.growth < plain.paddock[0].day.growth);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_there_and_back),
        cmocka_unit_test(test_refused),
        cmocka_unit_test(test_level_in_the_run),
        cmocka_unit_test(test_height_in_the_run),
    };
    return cmocka_run_group_tests(tests, load, release);
}
