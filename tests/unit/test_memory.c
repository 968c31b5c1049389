/* Whatever part of the memory is not there, each step says so and no more: nothing is made half.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <stdio.h>
#include <string.h>

#include "base/clock.h"
#include "cmd/amiss.h"
#include "data/diary.h"
#include "data/tuning.h"
#include "hay/supply.h"
#include "season/drivers.h"
#include "season/fan.h"
#include "season/past_years.h"
#include "season/review.h"
#include "season/tune.h"
#include "support/starve.h"
#include "support/sward_support.h"

enum { YEARS = 2, DAYS = 9, DRAWS = 2, RECORD = 400 };

static const char holding_text[] =
    "{\"sugarlea\":1,\"name\":\"t\",\"site\":{\"latitude\":52},\"weather\":[{\"file\":\"w.csv\"}],"
    "\"paddocks\":[{\"id\":\"p\",\"area_ha\":1},{\"id\":\"q\",\"area_ha\":2}],\"animals\":["
    "{\"id\":\"a\",\"class\":\"goat-dry\",\"count\":4,\"paddock\":\"p\"},"
    "{\"id\":\"b\",\"class\":\"pony\",\"paddock\":\"q\"}],"
    "\"hay\":{\"stock\":[{\"feed\":\"grass-hay-mature\",\"kg\":900}]}}";

/* What is there before the memory runs short. */
static struct arena arena;
static struct holding holding;
static struct run run;
static struct run_day day[YEARS * DAYS];
static struct ensemble_ask ask;
static struct ensemble ensemble;
static struct weather_days weather;
static struct replay replay;

static int make_all(void **state)
{
    struct err e = {0};
    (void)state;
    arena_init(&arena);
    for (int i = 0; i < YEARS * DAYS; i++) {
        struct sward_weather w = {.date = date_make(2025, 4, 1) + i % DAYS,
                                  .tmin = 4,
                                  .tmax = 14 + i % 3,
                                  .rad = 14,
                                  .rain = 2,
                                  .et0 = 2,
                                  .tmax_before = 14,
                                  .tmin_after = 4};
        day[i] = (struct run_day){.recorded = w, .morning = w};
    }
    bool ok =
        holding_parse(holding_text, strlen(holding_text), "t.json", support_params(), &arena, &holding, &e) == ERR_OK &&
        run_init(&run, support_params(), &holding, &arena);
    ask = (struct ensemble_ask){
        .now = &run, .years = YEARS, .days = DAYS, .draws = DRAWS, .day = day, .seed = 1, .threads = 2};
    unsigned vars =
        1u << WEATHER_TMIN | 1u << WEATHER_TMAX | 1u << WEATHER_RAIN | 1u << WEATHER_RAD | 1u << WEATHER_ET0;
    ok = ok && ensemble_run(&ask, &arena, &ensemble) &&
         weather_days_alloc(&weather, &arena, date_make(2024, 1, 1), RECORD, vars) &&
         replay_init(&replay, &run, RECORD, &arena);
    for (size_t i = 0; ok && i < RECORD; i++) {
        replay.paddock[0][REPLAY_NSC].truth[i] = replay.paddock[0][REPLAY_NSC].said[0][i] = 100.0 + (double)(i % 7);
        replay.group[0].turnout.truth[i] = replay.group[0].turnout.said[0][i] = (double)(i % 3);
    }
    return ok ? 0 : -1;
}

static int release(void **state)
{
    (void)state;
    arena_release(&arena);
    return 0;
}

static bool parse_holding(struct arena *a, void *text)
{
    struct holding h;
    struct err e = {0};
    enum err_code code = holding_parse(text, strlen(text), "t.json", support_params(), a, &h, &e);
    assert_true(code == ERR_OK || (code == ERR_NOMEM && strstr(e.what, "out of memory")));
    return code == ERR_OK;
}

static bool take_options(struct arena *a, void *context)
{
    const struct holding_options *o = context;
    struct holding h;
    struct err e = {0};
    enum err_code code = holding_from_options(o, support_params(), a, &h, &e);
    assert_true(code == ERR_OK || code == ERR_NOMEM);
    return code == ERR_OK;
}

static bool parse_diary(struct arena *a, void *text)
{
    struct diary d;
    struct err e = {0};
    enum err_code code = diary_parse(text, strlen(text), "diary.csv", &holding, a, &d, &e);
    assert_true(code == ERR_OK || (code == ERR_NOMEM && strstr(e.what, "out of memory")));
    return code == ERR_OK;
}

static bool parse_tuning(struct arena *a, void *text)
{
    struct tuning_file f;
    struct err e = {0};
    enum err_code code = tuning_parse(text, strlen(text), "tuning.json", a, &f, &e);
    assert_true(code == ERR_OK || code == ERR_NOMEM);
    return code == ERR_OK;
}

static bool load_params(struct arena *a, void *context)
{
    struct params p;
    struct err e = {0};
    (void)context;
    enum err_code code = params_load("models", a, &p, &e);
    assert_true(code == ERR_OK || (code == ERR_NOMEM && strstr(e.what, "out of memory")));
    return code == ERR_OK;
}

static void what_is_read_is_read_whole(void **state)
{
    struct holding_options o = {.latitude = 52,
                                .longitude = 0,
                                .elevation_m = 0,
                                .weather_file = "w.csv",
                                .animal = "pony",
                                .weight_kg = 250,
                                .cover_kg_ha = 1800};
    char diary[8192] = "date,time,subject,what,value,unit,note\n",
         tuning[] =
             "{\"sugarlea_tuning\":1,\"model\":\"m\",\"paddocks\":[{\"id\":\"p\",\"theta\":0,\"sd\":0.1,\"tests\":1,"
             "\"date\":\"2025-04-01\"}]}";
    (void)state;
    for (int i = 0; i < 80; i++) { /* more than the first room holds; and a subject that is gone */
        size_t n = strlen(diary);
        snprintf(diary + n, sizeof diary - n, "2025-04-%02d,,%s,weight,61,kg,note\n", 1 + i % 28,
                 i % 9 == 8 ? "gone" : "a");
    }
    char text[sizeof holding_text];
    memcpy(text, holding_text, sizeof text);
    assert_true(starve(parse_holding, text) >= 4); /* sources, paddocks, animals, hay */
    assert_true(starve(take_options, &o) >= 4);
    assert_true(starve(parse_diary, diary) > 70); /* the row, its table twice, each note and each stranger */
    assert_true(starve(parse_tuning, tuning) >= 1);
    assert_true(starve(load_params, NULL) > 20);
}

static bool init_run(struct arena *a, void *context)
{
    struct run r;
    (void)context;
    return run_init(&r, support_params(), &holding, a);
}

static bool copy_run(struct arena *a, void *context)
{
    struct run r;
    (void)context;
    return run_copy(&r, &run, a);
}

static bool find_drivers(struct arena *a, void *context)
{
    struct driver_normal normal[3] = {{4, 14, 14, 2}, {4, 14, 14, 2}, {4, 14, 14, 2}};
    struct driver found[2 * DRIVERS];
    (void)context;
    return drivers_find(&run, day, normal, 2, a, found);
}

static bool run_ensemble(struct arena *a, void *context)
{
    struct ensemble e;
    (void)context;
    return ensemble_run(&ask, a, &e);
}

static bool make_outlook(struct arena *a, void *context)
{
    struct outlook o;
    (void)context;
    return outlook_make(&ensemble, a, &o);
}

static bool make_fan(struct arena *a, void *context)
{
    struct fan_week week[2];
    (void)context;
    return fan_make(&ensemble, ensemble.growth, 0, a, week);
}

static bool join_years(struct arena *a, void *context)
{
    struct weather_days w;
    (void)context;
    return past_years_join(&weather, 20, 5, 10, a, &w);
}

static bool copy_weather(struct arena *a, void *context)
{
    struct weather_days w;
    (void)context;
    return weather_days_copy(&w, &weather, a);
}

static bool init_replay(struct arena *a, void *context)
{
    struct replay p;
    (void)context;
    return replay_init(&p, &run, RECORD, a);
}

static bool find_review(struct arena *a, void *context)
{
    struct review r;
    (void)context;
    return review_find(&replay, 10, 30, a, &r);
}

static bool fit(struct arena *a, void *context)
{
    const struct tune_test test[2] = {{.y = 0.1, .sd = 0.2}, {.y = 0.2, .sd = 0.2}};
    struct tune_fit f;
    (void)context;
    return tune_fit(test, 2, &support_params()->tune, a, &f);
}

static void what_is_reckoned_is_reckoned_whole(void **state)
{
    (void)state;
    assert_true(starve(init_run, NULL) >= 2);
    assert_true(starve(copy_run, NULL) >= 2);
    assert_true(starve(find_drivers, NULL) >= 2 * (1 + DRIVERS));
    /* five results, order and draws, then swards, results and a copy of the run for each thread */
    assert_true(starve(run_ensemble, NULL) >= 5 + 2 + 2 * 4);
    assert_true(starve(make_outlook, NULL) >= 4);
    assert_true(starve(make_fan, NULL) >= 1);
    assert_true(starve(join_years, NULL) >= 2 + 5);
    assert_true(starve(copy_weather, NULL) >= 2 + 5);
    assert_true(starve(init_replay, NULL) > 2 * 2 * 4);
    assert_true(starve(find_review, NULL) >= 3); /* and within, at each of the sizes tried */
    assert_true(starve(fit, NULL) >= 1);
}

static bool plan_hay(struct arena *a, void *with_grass)
{
    struct hay_plan plan;
    const struct hay_ask q = {.e = &ensemble,
                              .h = &holding,
                              .p = support_params(),
                              .now = with_grass ? &run : NULL,
                              .losses = hay_losses_of(&holding, support_params()),
                              .doubt = 0.1};
    return hay_plan_make(&q, a, &plan);
}

/* A day of two goats' groups: the room for sums is larger than hay or grass. */
static bool supply(struct arena *a, void *context)
{
    struct ensemble short_one = ensemble, given;
    struct hay_pasture pasture[2] = {0};
    const struct hay_ask q = {.e = &short_one, .h = &holding, .p = support_params(), .now = &run};
    (void)context;
    short_one.days = 1;
    bool made = hay_supply(&q, a, &given, pasture);
    assert_true(!made || (given.hay && given.grass && pasture[0].standing_kg > 0.0));
    return made;
}

static bool table_days(struct arena *a, void *context)
{
    struct ensemble e;
    (void)context;
    return hay_table_days(&holding, support_params(), day[0].recorded.date, DAYS, a, &e);
}

static void a_plan_of_the_hay_is_whole(void **state)
{
    (void)state;
    /* groups, sums; eaten, values; three lines of what is left; three of table values */
    assert_true(starve(plan_hay, NULL) >= 2 + 2 + 3 + 3);
    /* and the pastures, room, hay and grass */
    assert_true(starve(plan_hay, &run) >= 2 + 4 + 2 + 3 + 3);
    assert_true(starve(supply, NULL) >= 3);
    assert_true(starve(table_days, NULL) >= 3);
}

/* Foot signs under an id that the holding does not have, and of a day to come. */
static bool say_amiss(struct arena *a, void *diary)
{
    struct context c = {.arena = *a, .params = *support_params(), .holding = holding, .diary = *(struct diary *)diary};
    struct today_day morning = {.run = &run};
    struct today_view v = {.holding = &holding, .day = &morning};
    struct err e = {0};
    c.until = clock_today("");
    enum err_code code = amiss_say(&c, &v, &e);
    assert_true(code == ERR_OK || (code == ERR_NOMEM && strstr(e.what, "out of memory")));
    assert_true(code == ERR_NOMEM || (v.alarms == 2 && v.others_lost[0] && v.others_lost[1]));
    *a = c.arena;
    return code == ERR_OK;
}

static void no_alarm_is_left_out(void **state)
{
    char text[256], date[DATE_TEXT];
    struct diary diary;
    struct err e = {0};
    (void)state;
    date_format(clock_today("") + 1, date);
    snprintf(text, sizeof text, "%s%s,,mare,foot-signs,hot-feet,,\n%s,,a,foot-signs,kneeling,,\n", diary_header, date,
             date);
    assert_int_equal(diary_parse(text, strlen(text), "diary.csv", &holding, &arena, &diary, &e), ERR_OK);
    assert_true(starve(say_amiss, &diary) >= 3); /* the groups, and each alarm */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_read_is_read_whole),
        cmocka_unit_test(what_is_reckoned_is_reckoned_whole),
        cmocka_unit_test(a_plan_of_the_hay_is_whole),
        cmocka_unit_test(no_alarm_is_left_out),
    };
    return cmocka_run_group_tests(tests, make_all, release);
}
