/* The run of a holding: mornings leave the grass alone, evenings manage it; drivers.
 * Weather and holding are made up here. SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "support/near.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "data/normals.h"
#include "season/drivers.h"

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

static void holding_of(const char *kept, int count, struct holding *h)
{
    char text[1024];
    struct err e = {0};
    int n =
        snprintf(text, sizeof text,
                 "{\"sugarlea\":1,\"name\":\"t\",\"site\":{\"latitude\":52},\"paddocks\":[{\"id\":\"p\",\"area_ha\":1,"
                 "\"grass\":\"ryegrass\",\"kept\":%s}],\"animals\":[{\"id\":\"a\",\"class\":\"horse\",\"count\":%d}]}",
                 kept, count);
    assert_int_equal(holding_parse(text, (size_t)n, "t.json", &params, &arena, h, &e), ERR_OK);
}

static struct run_day day_of(date_t date, double tmin, double tmax, double rad)
{
    struct sward_weather w = {.date = date,
                              .tmin = tmin,
                              .tmax = tmax,
                              .rad = rad,
                              .rain = 3,
                              .et0 = 2,
                              .tmax_before = tmax,
                              .tmin_after = tmin};
    return (struct run_day){.recorded = w, .morning = w};
}

/* Spring weather from 1 March; what stands on the day `days` later, kg DM/ha. */
static double stands_after(const char *kept, int count, int days)
{
    struct holding h;
    struct run r;
    holding_of(kept, count, &h);
    assert_true(run_init(&r, &params, &h, &arena));
    for (int i = 0; i < days; i++) {
        struct run_day d = day_of(date_make(2023, 3, 1) + i, 6, 15, 15);
        run_morning(&r, &d);
        run_evening(&r, &d);
    }
    return sward_total_kg_ha(&r.paddock[0].sward);
}

static void a_morning_leaves_the_grass_alone(void **state)
{
    struct holding h;
    struct run r;
    struct run_day d = day_of(date_make(2023, 5, 1), 4, 16, 18);
    (void)state;
    holding_of("{\"how\":\"rested\"}", 1, &h);
    assert_true(run_init(&r, &params, &h, &arena));
    run_evening(&r, &d);
    const struct sward before = r.paddock[0].sward;
    run_morning(&r, &d);
    assert_memory_equal(&before, &r.paddock[0].sward, sizeof before);
    /* what the morning expects is what the evening brings when the weather holds */
    double expected = r.paddock[0].expected.nsc_mean;
    run_evening(&r, &d);
    assert_true(r.paddock[0].day.nsc_mean == expected);
}

static void a_run_set_back_goes_on_from_there(void **state)
{
    struct holding h;
    struct run r, ahead;
    struct run_day d = day_of(date_make(2023, 5, 1), 4, 16, 18);
    (void)state;
    holding_of("{\"how\":\"rested\"}", 1, &h);
    assert_true(run_init(&r, &params, &h, &arena) && run_copy(&ahead, &r, &arena));
    run_evening(&ahead, &d);
    ahead.next++;
    assert_true(ahead.days == r.days + 1);
    run_set(&ahead, &r);
    assert_true(ahead.days == r.days && ahead.next == r.next);
    assert_memory_equal(&ahead.paddock[0].sward, &r.paddock[0].sward, sizeof r.paddock[0].sward);
}

static void doubt_about_the_day_widens_the_spread(void **state)
{
    struct holding h;
    struct run r;
    struct run_day d = day_of(date_make(2023, 5, 1), 4, 16, 18);
    (void)state;
    holding_of("{\"how\":\"rested\"}", 1, &h);
    assert_true(run_init(&r, &params, &h, &arena));
    run_morning(&r, &d);
    /* under 300 days of weather: 0.36 x 1.25 = 0.45; with assumed weather its root sum with 0.10 */
    assert_near(r.paddock[0].ln_sd, 0.45, 1e-12);
    d.assumed = true;
    run_morning(&r, &d);
    assert_near(r.paddock[0].ln_sd, sqrt(0.45 * 0.45 + 0.01), 1e-12);
    /* with half of what was before estimated: half of 0.25 more */
    d.estimated = 0.5;
    run_morning(&r, &d);
    assert_near(r.paddock[0].ln_sd, sqrt(0.45 * 0.45 + 0.01 + 0.125 * 0.125), 1e-12);
}

static void management_acts_in_the_evening(void **state)
{
    (void)state;
    double rested = stands_after("{\"how\":\"rested\"}", 1, 90);
    double grazed = stands_after("{\"how\":\"grazed\",\"cover_kg_dm_ha\":1800}", 1, 90);
    double cut = stands_after("{\"how\":\"cut\",\"dates\":[\"05-29\"],\"to_cm\":5}", 1, 90); /* day 90 is 29 May */
    double day_before = stands_after("{\"how\":\"cut\",\"dates\":[\"05-30\"],\"to_cm\":5}", 1, 90);
    double every = stands_after("{\"how\":\"cut\",\"every_days\":10,\"from\":\"05-19\",\"to_cm\":5}", 1, 90);
    double few = stands_after("{\"how\":\"stocked\"}", 1, 90), many = stands_after("{\"how\":\"stocked\"}", 8, 90);
    assert_true(grazed < rested && grazed > 1700 && grazed < 2100);
    assert_true(cut < 0.4 * rested && day_before == rested);
    assert_true(every < 0.4 * rested);
    assert_true(many < few && few < rested);
}

/* Of a paddock so kept, after nights that alone were colder than usual. */
static void cold_nights_are_named(const char *kept)
{
    struct holding h;
    struct run r;
    struct run_day day[DRIVER_DAYS + 1];
    struct driver_normal normal[DRIVER_DAYS + 1];
    struct driver found[DRIVERS];
    holding_of(kept, 1, &h);
    assert_true(run_init(&r, &params, &h, &arena));
    for (int i = 0; i < 60; i++) {
        struct run_day d = day_of(date_make(2023, 3, 1) + i, 6, 15, 15);
        run_morning(&r, &d);
        run_evening(&r, &d);
    }
    for (int i = 0; i <= DRIVER_DAYS; i++) {
        day[i] = day_of(date_make(2023, 4, 30) + i, -1, 15, 15); /* only the nights differ */
        normal[i] = (struct driver_normal){6, 15, 15, 3};
    }
    assert_true(drivers_find(&r, day, normal, DRIVER_DAYS, &arena, found));
    /* cold nights load the grass (direction: Parsons et al. 2004, Robson 1981) */
    assert_string_equal(found[0].id, "cold-nights");
    assert_true(found[0].effect > 10.0);
    for (int k = 1; k < DRIVERS; k++) {
        assert_true(fabs(found[k].effect) < 1e-9);
    }
}

static void drivers_name_what_differs(void **state)
{
    (void)state;
    cold_nights_are_named("{\"how\":\"grazed\",\"cover_kg_dm_ha\":1800}");
    cold_nights_are_named("{\"how\":\"stocked\"}"); /* its evenings need their mornings */
}

/* Ten dry days where three mm a day are normal: it is the rain that lacked. */
static void a_dry_spell_is_named(void **state)
{
    struct holding h;
    struct run r;
    struct run_day day[DRIVER_DAYS + 1];
    struct driver_normal normal[DRIVER_DAYS + 1];
    struct driver found[DRIVERS];
    (void)state;
    holding_of("{\"how\":\"rested\"}", 1, &h);
    assert_true(run_init(&r, &params, &h, &arena));
    for (int i = 0; i <= DRIVER_DAYS + 30; i++) {
        struct run_day d = day_of(date_make(2023, 4, 1) + i, 6, 15, 15);
        d.recorded.et0 = d.morning.et0 = 6;
        d.recorded.rain = d.morning.rain = 0;
        if (i >= 30) {
            day[i - 30] = d;
            normal[i - 30] = (struct driver_normal){6, 15, 15, 3};
            continue;
        }
        run_morning(&r, &d);
        run_evening(&r, &d);
    }
    assert_true(drivers_find(&r, day, normal, DRIVER_DAYS, &arena, found));
    assert_string_equal(found[0].id, "dry-days");
    assert_true(fabs(found[0].effect) > 0.1);
}

/* No all-clear for 7 days after a killing frost (extension advice): the night's own
 * morning and the seven after it, then no more. */
static void a_killing_frost_holds_for_a_week(void **state)
{
    struct holding h;
    struct run r;
    (void)state;
    holding_of("{\"how\":\"grazed\",\"cover_kg_dm_ha\":1800}", 1, &h);
    assert_true(run_init(&r, &params, &h, &arena));
    for (int i = -5; i <= 12; i++) {
        struct run_day d = day_of(date_make(2023, 4, 1) + i, i == 0 ? -9 : 4, 12, 14);
        run_morning(&r, &d);
        bool held = advice_has(&r.animal[0].advice, REASON_KILLING_FROST);
        assert_int_equal(held, i >= 0 && i <= 7);
        assert_true(!held || r.animal[0].advice.turnout != TURNOUT_FREE);
        run_evening(&r, &d);
    }
}

static void normals_are_means_of_the_season(void **state)
{
    struct weather_days w;
    (void)state;
    assert_true(weather_days_alloc(&w, &arena, date_make(2020, 1, 1), 1096, 1u << WEATHER_TMIN));
    for (size_t i = 0; i < w.n; i++) {
        int year = date_split(w.day0 + (date_t)i).year;
        w.col[WEATHER_TMIN][i] = year == 2020 ? 2 : year == 2021 ? 6 : 100;
    }
    size_t end = (size_t)(date_make(2022, 1, 1) - w.day0);
    /* 15 days of 2 C and 15 of 6 C; nothing of 2022, which lies behind `end` */
    assert_near(normals_at(&w, WEATHER_TMIN, date_make(2022, 5, 15), end), 4.0, 1e-12);
    assert_true(isnan(normals_at(&w, WEATHER_TMIN, date_make(2022, 5, 15), 20)));
    assert_true(isnan(normals_at(&w, WEATHER_RAIN, date_make(2022, 5, 15), end)));
}

/* A leaf clock at 0 tells of a mower: from 20 May on every ten days, and on no other. */
static void mowing_keeps_its_days(void **state)
{
    struct holding h;
    struct run r;
    (void)state;
    holding_of("{\"how\":\"cut\",\"every_days\":10,\"from\":\"05-20\",\"to_cm\":5}", 1, &h);
    assert_true(run_init(&r, &params, &h, &arena));
    for (date_t date = date_make(2023, 5, 1); date < date_make(2023, 7, 1); date++) {
        struct run_day d = day_of(date, 8, 18, 18);
        int since = date - date_make(2023, 5, 20);
        run_evening(&r, &d);
        assert_true((r.paddock[0].sward.leaf_clock == 0.0) == (since >= 0 && since % 10 == 0));
    }
}

/* Cuts on these days and on no other, 28 days apart from the first of each season on to the end of its growth year. */
static void mowing_runs(double latitude, const char *from, date_t begin, const date_t (*season)[2], size_t seasons)
{
    struct holding h;
    struct run r;
    char kept[80];
    snprintf(kept, sizeof kept, "{\"how\":\"cut\",\"every_days\":28,\"from\":\"%s\",\"to_cm\":5}", from);
    holding_of(kept, 1, &h);
    h.site.latitude = latitude;
    assert_true(run_init(&r, &params, &h, &arena));
    size_t k = 0;
    for (date_t date = begin; k < seasons; date++) {
        struct run_day d = day_of(date, 8, 18, 18);
        run_evening(&r, &d);
        bool mown = date >= season[k][0] && (date - season[k][0]) % 28 == 0;
        if ((r.paddock[0].sward.leaf_clock == 0.0) != mown) {
            fail_msg("%g, from %s: %s", latitude, from, date_format(date, (char[DATE_TEXT]){0}));
        }
        k += date == season[k][1];
    }
}

/* The season of mowing ends with the growth year: on 31 December, in the south on 30 June. */
static void mowing_ends_with_the_growth_year(void **state)
{
    (void)state;
    const date_t north[][2] = {{date_make(2000, 4, 15), date_make(2000, 12, 31)},
                               {date_make(2001, 4, 15), date_make(2001, 12, 31)}};
    mowing_runs(52.1, "04-15", date_make(2000, 1, 1), north, 2);
    const date_t south[][2] = {{date_make(2000, 9, 20), date_make(2001, 6, 30)},
                               {date_make(2001, 9, 20), date_make(2002, 6, 30)}};
    mowing_runs(-36.96, "09-20", date_make(2000, 7, 1), south, 2);
    const date_t late[][2] = {{date_make(2001, 2, 10), date_make(2001, 6, 30)},
                              {date_make(2002, 2, 10), date_make(2002, 6, 30)}};
    mowing_runs(-36.96, "02-10", date_make(2000, 7, 1), late, 2);
}

enum { OFF_NIGHTS, OFF_DAYS, OFF_SUN, OFF_RAIN };

/* The mean sugar of the morning after ten days, with one driver off its normal or (-1) none. */
static double sugar_after(const struct run *before, int off, struct run_day day[DRIVER_DAYS + 1])
{
    struct run r;
    assert_true(run_copy(&r, before, &arena));
    for (int i = 0; i <= DRIVER_DAYS; i++) {
        double tmin = off == OFF_NIGHTS ? 9 : 6, tmax = off == OFF_DAYS ? 20 : 15;
        day[i] = day_of(date_make(2023, 5, 1) + i, tmin, tmax, off == OFF_SUN ? 22 : 15);
        day[i].recorded.tmax_before = day[i].morning.tmax_before = i == 0 ? 15 : tmax;
        day[i].recorded.tmin_after = day[i].morning.tmin_after = tmin;
        day[i].recorded.rain = day[i].morning.rain = off == OFF_RAIN ? 12 : 0;
        day[i].recorded.et0 = day[i].morning.et0 = 6; /* soil dry enough for rain to be felt */
        run_morning(&r, &day[i]);
        if (i < DRIVER_DAYS) {
            run_evening(&r, &day[i]);
        }
    }
    return r.paddock[0].expected.nsc_mean;
}

/* With one driver off its normal alone, the sugar without it is that of normal weather, to the digit. */
static void each_driver_is_taken_out_whole(const char *kept)
{
    static const char *const ids[] = {"warm-nights", "warm-days", "bright-days", "wet-days"};
    struct holding h;
    struct run before;
    holding_of(kept, 1, &h);
    assert_true(run_init(&before, &params, &h, &arena));
    for (int i = 0; i < 30; i++) {
        struct run_day d = day_of(date_make(2023, 4, 1) + i, 6, 15, 15);
        d.recorded.et0 = 6;
        d.recorded.rain = 0;
        run_morning(&before, &d);
        run_evening(&before, &d);
    }
    for (int k = 0; k < DRIVERS; k++) {
        struct run_day day[DRIVER_DAYS + 1];
        struct driver_normal normal[DRIVER_DAYS + 1];
        struct driver found[DRIVERS];
        double usual = sugar_after(&before, -1, day), as_it_was = sugar_after(&before, k, day);
        for (int i = 0; i <= DRIVER_DAYS; i++) {
            normal[i] = (struct driver_normal){6, 15, 15, 0};
        }
        assert_true(drivers_find(&before, day, normal, DRIVER_DAYS, &arena, found));
        assert_string_equal(found[0].id, ids[k]);
        assert_near(found[0].effect, as_it_was - usual, 1e-9);
        assert_true(fabs(found[0].effect) > 0.1);
        for (int j = 1; j < DRIVERS; j++) {
            assert_near(found[j].effect, 0.0, 1e-9);
        }
    }
}

static void a_driver_is_taken_out_whole(void **state)
{
    (void)state;
    each_driver_is_taken_out_whole("{\"how\":\"rested\"}");
    each_driver_is_taken_out_whole("{\"how\":\"stocked\"}"); /* what is eaten is decided in the mornings */
}

/* What a head can go on getting: 0.6 (hay-limits.json) of what grows and of a thirtieth (limits.json) of what
 * stands within reach, shared by the heads. Followed bite by bite, and in years to come, nothing is shared out. */
static void grass_is_shared_by_the_heads(void **state)
{
    (void)state;
    for (int count = 1; count <= 64; count *= 4) {
        struct holding h;
        struct run r;
        struct run_day d = day_of(date_make(2023, 1, 20), 2, 7, 3);
        holding_of("{\"how\":\"grazed\",\"cover_kg_dm_ha\":1800}", count, &h);
        assert_true(run_init(&r, &params, &h, &arena));
        run_morning(&r, &d);
        const struct run_paddock *p = &r.paddock[0];
        double kg = 0.6 * (p->expected.growth + sward_available_kg_ha(&p->sward) / 30.0);
        assert_true(kg > 10.0);
        assert_near(r.animal[0].grass.lasting_kg_head, kg / count, 1e-9);
        assert_true(r.animal[0].advice.ration.grass_dm_kg <= kg / count + 1e-9);
        assert_true((r.animal[0].advice.ration.lacking_dm_kg > 0.0) == (count > 1));
        r.depth = RUN_HOURS;
        run_morning(&r, &d);
        assert_true(isnan(r.animal[0].grass.lasting_kg_head));
        holding_of("{\"how\":\"stocked\"}", count, &h);
        assert_true(run_init(&r, &params, &h, &arena));
        run_morning(&r, &d);
        assert_near(r.animal[0].grass.available_kg_head, sward_available_kg_ha(&r.paddock[0].sward) / count, 1e-9);
        assert_true(isnan(r.animal[0].grass.lasting_kg_head));
    }
}

/* What a test would leave in doubt: 0.25 (limits.json) of the paddock, and the morning's own 0.10 as before. */
static void a_test_leaves_the_morning_in_doubt(void **state)
{
    struct holding h;
    struct run r;
    struct run_day d = day_of(date_make(2023, 5, 1), 4, 16, 18);
    (void)state;
    holding_of("{\"how\":\"rested\"}", 1, &h);
    assert_true(run_init(&r, &params, &h, &arena));
    r.days = 1000; /* no short record */
    d.assumed = true;
    for (d.late_days = 0; d.late_days < 8; d.late_days++) {
        run_morning(&r, &d);
        const struct run_paddock *p = &r.paddock[0];
        double doubt = run_doubt(&r, &p->expected), late = 0.1 * sqrt(1 + 2 * d.late_days);
        assert_near(p->tested_ln_sd, hypot(0.25 * doubt, late), 1e-12);
        assert_near(p->ln_sd, hypot(p->level_sd * doubt, late), 1e-12);
        assert_true(p->level_sd > 0.25 && doubt >= 1.0);
    }
}

/* Poor teeth: the first lot that is not coarse, or is soaked and no straw; where there is none, the first hay, which
 * can be soaked; else straw, which is all there is. */
static void hay_suits_the_teeth(void **state)
{
    static const struct {
        const char *feed[3];
        bool soaked[3];
        size_t given;
    } row[] = {{{"grass-hay-mature", "mixed-hay", "grass-silage"}, {0}, 1},
               {{"grass-hay-mature", "bermuda-hay", "mixed-hay"}, {false, true, false}, 1},
               {{"wheat-straw", "mixed-hay", "bermuda-hay"}, {true, false, false}, 1},
               {{"wheat-straw", "bermuda-hay", "grass-hay-mature"}, {0}, 1},
               {{"wheat-straw", "barley-straw", "wheat-straw"}, {true, true, true}, 0}};
    (void)state;
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        struct hay_lot lot[3] = {0};
        struct holding h = {.lots = 3, .lot = lot};
        struct animal_group g = {.history = 0};
        for (size_t k = 0; k < h.lots; k++) {
            lot[k].feed = params_feed(&params, row[i].feed[k]);
            lot[k].soaked_h = row[i].soaked[k] ? 1.0 : (double)NAN;
            assert_non_null(lot[k].feed);
        }
        size_t hay = 0; /* who has good teeth gets the first that is no straw */
        while (hay < h.lots - 1 && lot[hay].feed->is_straw) {
            hay++;
        }
        assert_ptr_equal(run_hay_of(&h, &g), lot[hay].feed->is_straw ? &lot[0] : &lot[hay]);
        g.history = HISTORY_POOR_TEETH;
        assert_ptr_equal(run_hay_of(&h, &g), &lot[row[i].given]);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_morning_leaves_the_grass_alone),
        cmocka_unit_test(doubt_about_the_day_widens_the_spread),
        cmocka_unit_test(management_acts_in_the_evening),
        cmocka_unit_test(a_run_set_back_goes_on_from_there),
        cmocka_unit_test(drivers_name_what_differs),
        cmocka_unit_test(a_dry_spell_is_named),
        cmocka_unit_test(a_killing_frost_holds_for_a_week),
        cmocka_unit_test(normals_are_means_of_the_season),
        cmocka_unit_test(mowing_keeps_its_days),
        cmocka_unit_test(mowing_ends_with_the_growth_year),
        cmocka_unit_test(a_driver_is_taken_out_whole),
        cmocka_unit_test(hay_suits_the_teeth),
        cmocka_unit_test(a_test_leaves_the_morning_in_doubt),
        cmocka_unit_test(grass_is_shared_by_the_heads),
    };
    return cmocka_run_group_tests(tests, load, release);
}
