/* Gaps, radiation, ET0, and what is known on a morning. Expected values follow from
 * the rules in weather.h; those of the sun and of ET0 from FAO-56 through src/physics,
 * which has its own tests against the printed examples.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/et0.h"
#include "physics/sun.h"
#include "weather/weather.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#define MISSING ((double)NAN)
#define READ (1u << WEATHER_TMIN | 1u << WEATHER_TMAX | 1u << WEATHER_RAIN | 1u << WEATHER_RAD)

static const struct site place = {.latitude = 52, .longitude = 0, .elevation_m = 50};
static const struct advice_limits limits = {.gap_fill_days = 5, .gap_recent_days = 60};

struct made {
    struct arena arena;
    struct err e;
    struct weather_days w;
    struct weather_report report;
};

/* Two years from 2022-01-01: Tmin i mod 10, Tmax 10 above, rain 2, half of Ra. */
static void make(struct made *m)
{
    arena_init(&m->arena);
    err_clear(&m->e);
    assert_true(weather_days_alloc(&m->w, &m->arena, date_make(2022, 1, 1), 730, READ));
    for (size_t i = 0; i < m->w.n; i++) {
        m->w.col[WEATHER_TMIN][i] = (double)(i % 10);
        m->w.col[WEATHER_TMAX][i] = (double)(i % 10) + 10;
        m->w.col[WEATHER_RAIN][i] = 2;
        m->w.col[WEATHER_RAD][i] = 0.5 * sun_extraterrestrial(date_day_of_year(m->w.day0 + (date_t)i), 52);
        m->w.origin[i] = ORIGIN_RECORDED;
    }
}

/* Takes variable v, or the whole day for v = -1, off days first to last. */
static void cut(struct made *m, int v, size_t first, size_t last)
{
    for (size_t i = first; i <= last; i++) {
        for (int k = 0; k < WEATHER_VARS; k++) {
            if (m->w.col[k] && (v < 0 || v == k)) {
                m->w.col[k][i] = MISSING;
            }
        }
        m->w.origin[i] = v < 0 ? ORIGIN_NONE : m->w.origin[i];
    }
}

static enum err_code complete(struct made *m)
{
    return weather_complete(&m->w, &place, &limits, &m->arena, &m->report, &m->e);
}

static void completed(struct made *m)
{
    if (complete(m) != ERR_OK) {
        fail_msg("%s", m->e.what);
    }
    for (size_t i = 0; i < m->w.n; i++) {
        static const enum weather_var needed[] = {WEATHER_TMIN, WEATHER_TMAX, WEATHER_RAIN, WEATHER_RAD, WEATHER_ET0};
        for (size_t k = 0; k < 5; k++) {
            assert_false(isnan(weather_at(&m->w, needed[k], i)));
        }
        assert_true(m->w.col[WEATHER_TMIN][i] <= m->w.col[WEATHER_TMAX][i]);
    }
}

static void a_full_record_stays_as_it_is(void **state)
{
    struct made m;
    (void)state;
    make(&m);
    completed(&m);
    assert_int_equal(m.report.recorded_to, date_make(2023, 12, 31));
    assert_int_equal(m.report.forecast_to, DATE_NONE);
    assert_int_equal(m.report.filled_days + m.report.estimated_rad_days + m.report.missing_days, 0);
    struct et0_columns in = {.tmin = m.w.col[WEATHER_TMIN], .tmax = m.w.col[WEATHER_TMAX], .rad = m.w.col[WEATHER_RAD]};
    double et0[730];
    et0_days(&in, 730, m.w.day0, 52, 50, et0);
    assert_memory_equal(et0, m.w.col[WEATHER_ET0], sizeof et0);
    arena_release(&m.arena);
}

/* A year alone does not tell what is usual: temperature goes along the line. */
static void short_gaps_are_closed_from_their_ends(void **state)
{
    struct made m;
    (void)state;
    make(&m);
    m.w.n = 365;
    cut(&m, -1, 355, 358); /* Tmin 4, gap, 9 */
    completed(&m);
    for (size_t i = 355; i <= 358; i++) {
        assert_true(fabs(m.w.col[WEATHER_TMIN][i] - (4 + (double)(i - 354))) < 1e-9);
        assert_true(fabs(m.w.col[WEATHER_TMAX][i] - (14 + (double)(i - 354))) < 1e-9);
        assert_true(fabs(m.w.col[WEATHER_RAIN][i] - 2) < 1e-9); /* every other day has that */
        int doy = date_day_of_year(m.w.day0 + (date_t)i);
        double ra = sun_extraterrestrial(doy, 52);
        assert_true(m.w.air[i] == ra && m.w.day_length_h[i] == sun_fao_day_length(doy, 52));
        assert_true(fabs(m.w.col[WEATHER_RAD][i] - sun_from_range(5, 15, ra, 50, m.report.k_rs)) < 1e-9);
        assert_int_equal(m.w.origin[i], ORIGIN_FILLED);
        assert_int_equal(m.w.filled[i], READ | 1u << WEATHER_ET0);
    }
    assert_int_equal(m.report.filled_days, 4);
    assert_int_equal(m.report.estimated_rad_days, 4);
    assert_int_equal(m.report.missing_days, 0);
    assert_int_equal(m.report.rain_days, 4);
    assert_true(fabs(m.report.rain_mm - 8) < 1e-9 && m.report.rain_sd_mm < 1e-6);
    arena_release(&m.arena);
}

/* In the made record Tmax is always 10 above Tmin; the two means of the season differ by
 * the days cut. */
static void one_temperature_follows_the_other(void **state)
{
    struct made m;
    (void)state;
    make(&m);
    cut(&m, WEATHER_TMIN, 500, 503);
    cut(&m, WEATHER_TMAX, 600, 600);
    cut(&m, WEATHER_TMIN, 300, 320); /* too long for its ends, not for the other temperature */
    completed(&m);
    for (size_t i = 500; i <= 503; i++) {
        assert_true(fabs(m.w.col[WEATHER_TMIN][i] - (double)(i % 10)) < 0.7);
    }
    assert_true(fabs(m.w.col[WEATHER_TMAX][600] - 10) < 0.3);
    for (size_t i = 300; i <= 320; i++) {
        assert_true(fabs(m.w.col[WEATHER_TMIN][i] - (double)(i % 10)) < 1);
        assert_int_equal(m.w.origin[i], ORIGIN_NORMAL);
    }
    arena_release(&m.arena);
}

/* Days that have nothing to do with one another: what is usual, whatever the ends. */
static void departures_fade_as_they_do_in_the_record(void **state)
{
    struct made m;
    unsigned chance = 1;
    (void)state;
    make(&m);
    for (size_t i = 0; i < m.w.n; i++) {
        chance = chance * 1664525u + 1013904223u;
        m.w.col[WEATHER_TMIN][i] = (chance >> 16) % 100 / 10.0;
        m.w.col[WEATHER_TMAX][i] = 20;
    }
    m.w.col[WEATHER_TMIN][599] = m.w.col[WEATHER_TMIN][605] = 9.9;
    cut(&m, -1, 600, 604);
    completed(&m);
    assert_true(fabs(m.w.col[WEATHER_TMIN][602] - 5) < 2);
    assert_true(fabs(m.w.col[WEATHER_TMAX][602] - 20) < 1e-9);
    arena_release(&m.arena);
}

/* 4 mm every other day: the days beside tell which it was. */
static void rain_is_what_such_days_have(void **state)
{
    struct made m;
    (void)state;
    make(&m);
    for (size_t i = 0; i < m.w.n; i++) {
        m.w.col[WEATHER_RAIN][i] = i % 2 ? 0 : 4;
    }
    cut(&m, WEATHER_RAIN, 500, 500);
    cut(&m, WEATHER_RAIN, 601, 601);
    cut(&m, WEATHER_RAIN, 700, 702);
    completed(&m);
    assert_true(fabs(m.w.col[WEATHER_RAIN][500] - 4) < 0.2);
    assert_true(m.w.col[WEATHER_RAIN][601] < 0.1);
    assert_true(fabs(m.w.col[WEATHER_RAIN][701] - 2) < 0.2); /* the middle of a gap: the usual */
    assert_int_equal(m.report.rain_days, 5);
    assert_true(fabs(m.report.rain_sd_mm - 2 * sqrt(5)) < 0.1); /* each is 0 or 4 about 2 */
    assert_int_equal(m.w.origin[701], ORIGIN_FILLED);
    arena_release(&m.arena);
}

static void radiation_is_estimated_with_the_records_own_factor(void **state)
{
    struct made m;
    struct advice_limits late = limits;
    (void)state;
    make(&m);
    cut(&m, WEATHER_RAD, 700, 729);
    completed(&m); /* half of Ra at a range of 10 C */
    double ra = sun_extraterrestrial(date_day_of_year(m.w.day0 + 710), 52);
    assert_true(fabs(m.report.k_rs - 0.5 / sqrt(10)) < 1e-9);
    assert_true(fabs(m.w.col[WEATHER_RAD][710] - 0.5 * ra) < 1e-9);
    arena_release(&m.arena);
    make(&m);
    cut(&m, WEATHER_RAD, 700, 729);
    late.k_rs_days = 701;
    assert_int_equal(weather_complete(&m.w, &place, &late, &m.arena, &m.report, &m.e), ERR_OK);
    assert_true(m.report.k_rs == 0.16);
    arena_release(&m.arena);
}

static void what_is_estimated_counts_by_its_age(void **state)
{
    struct made m;
    (void)state;
    make(&m);
    assert_true(weather_estimated(&m.w, 0, 4) == 0 && weather_estimated(&m.w, 730, 4) == 0);
    for (size_t i = 0; i < m.w.n; i++) {
        m.w.origin[i] = i < 730 - 4 ? ORIGIN_NORMAL : ORIGIN_RECORDED;
    }
    /* the last 4 of 365 days have half of it, but for what lies beyond 365 */
    assert_true(fabs(weather_estimated(&m.w, 730, 4) - sqrt(1 - 0.5 / (365.0 / 369))) < 1e-9);
    assert_true(fabs(weather_estimated(&m.w, 700, 4) - 1) < 1e-9);
    assert_true(fabs(weather_estimated(&m.w, 20, 4) - 1) < 1e-9);
    m.w.origin[0] = ORIGIN_FILLED;
    assert_true(fabs(weather_estimated(&m.w, 1, 4) - 0.7) < 1e-9);
    arena_release(&m.arena);
}

static void the_length_of_a_gap_decides(void **state)
{
    (void)state;
    for (size_t length = 5; length <= 6; length++) {
        struct made m;
        make(&m);
        cut(&m, -1, 710, 709 + length);
        assert_int_equal(complete(&m), length == 5 ? ERR_OK : ERR_NOINPUT);
        if (length == 6) {
            assert_int_equal(m.e.code, ERR_NOINPUT);
            assert_non_null(strstr(m.e.what, "minimum temperature from 2023-12-12 to 2023-12-17 (6 days)"));
        }
        arena_release(&m.arena);
    }
}

static void the_recent_stretch_is_sixty_days(void **state)
{
    (void)state;
    for (size_t last = 669; last <= 670; last++) { /* day 670 is the 60th from the end */
        struct made m;
        make(&m);
        cut(&m, -1, last - 9, last);
        assert_int_equal(complete(&m), last == 669 ? ERR_OK : ERR_NOINPUT);
        arena_release(&m.arena);
    }
}

static void long_gaps_long_ago_take_normals(void **state)
{
    struct made m;
    (void)state;
    make(&m);
    for (size_t i = 0; i < m.w.n; i++) {
        m.w.col[WEATHER_TMIN][i] = i < 365 ? 3 : 7;
        m.w.col[WEATHER_TMAX][i] = i < 365 ? 13 : 17;
        m.w.col[WEATHER_RAIN][i] = i < 365 ? 1 : 3;
    }
    cut(&m, -1, 100, 130); /* of the first year: only the second has these days */
    completed(&m);
    assert_true(fabs(m.w.col[WEATHER_TMIN][115] - 7) < 1e-9);
    assert_true(fabs(m.w.col[WEATHER_RAIN][115] - 3) < 1e-9);
    assert_int_equal(m.w.origin[115], ORIGIN_NORMAL);
    assert_int_equal(m.report.missing_days, 31);
    assert_int_equal(m.report.filled_days, 0);
    assert_int_equal(m.w.filled[115] & READ, READ);
    arena_release(&m.arena);
}

static void a_gap_without_another_year_is_told(void **state)
{
    struct made m;
    (void)state;
    make(&m);
    cut(&m, WEATHER_TMAX, 100, 140);
    cut(&m, WEATHER_TMAX, 465, 505);
    assert_int_equal(complete(&m), ERR_NOINPUT);
    assert_non_null(strstr(m.e.what, "maximum temperature from 2022-04-11 to 2022-05-21"));
    assert_non_null(strstr(m.e.what, "no other year"));
    arena_release(&m.arena);
}

static void the_ends_are_cut_to_days_with_temperature(void **state)
{
    struct made m;
    (void)state;
    make(&m);
    cut(&m, WEATHER_TMIN, 0, 9);
    cut(&m, WEATHER_TMAX, 728, 729);
    completed(&m);
    assert_int_equal(m.w.day0, date_make(2022, 1, 11));
    assert_int_equal(m.w.n, 718);
    assert_int_equal(m.report.recorded_to, date_make(2023, 12, 29));
    assert_int_equal(m.report.filled_days, 0);
    arena_release(&m.arena);
}

static void impossible_radiation_is_not_believed(void **state)
{
    struct made m;
    (void)state;
    make(&m);
    double ra = sun_extraterrestrial(date_day_of_year(m.w.day0 + 500), 52);
    m.w.col[WEATHER_RAD][500] = ra + 0.1;
    m.w.col[WEATHER_RAD][501] = 0;
    cut(&m, WEATHER_RAD, 600, 729); /* any length: comes late, or from another file */
    completed(&m);
    assert_int_equal(m.report.doubtful_rad_days, 2);
    assert_int_equal(m.report.estimated_rad_days, 132);
    assert_int_equal(m.report.filled_days, 0);
    assert_true(m.w.col[WEATHER_RAD][500] < ra && m.w.col[WEATHER_RAD][501] > 0);
    assert_int_equal(m.w.origin[500], ORIGIN_RECORDED);
    assert_int_equal(m.w.filled[500] & 1u << WEATHER_RAD, 1u << WEATHER_RAD);
    arena_release(&m.arena);
}

static void a_crossed_day_is_not_believed(void **state)
{
    struct made m;
    (void)state;
    make(&m);
    m.w.col[WEATHER_TMIN][500] = 12;
    m.w.col[WEATHER_TMAX][500] = 1;
    m.w.col[WEATHER_TMIN][729] = 12; /* the last day is cut off, as one without temperatures */
    m.w.col[WEATHER_TMAX][729] = 1;
    completed(&m);
    assert_int_equal(m.report.filled_days, 1);
    assert_int_equal(m.report.recorded_to, date_make(2023, 12, 30));
    assert_int_equal(m.w.filled[500] & READ, 1u << WEATHER_TMIN | 1u << WEATHER_TMAX);
    assert_true(m.w.col[WEATHER_TMAX][500] > 9);
    arena_release(&m.arena);
}

static void no_radiation_at_all_is_estimated(void **state)
{
    struct made m;
    (void)state;
    make(&m);
    m.w.col[WEATHER_RAD] = NULL;
    completed(&m);
    assert_int_equal(m.report.estimated_rad_days, 730);
    arena_release(&m.arena);
}

static void what_cannot_be_done_without_is_told(void **state)
{
    static const struct {
        enum weather_var v;
        const char *said;
    } needed[] = {
        {WEATHER_TMIN, "no minimum and maximum"}, {WEATHER_TMAX, "no minimum and maximum"}, {WEATHER_RAIN, "no rain"}};
    (void)state;
    for (size_t i = 0; i < 3; i++) {
        struct made m;
        make(&m);
        m.w.col[needed[i].v] = NULL;
        assert_int_equal(complete(&m), ERR_NOINPUT);
        assert_non_null(strstr(m.e.what, needed[i].said));
        arena_release(&m.arena);
        make(&m);
        cut(&m, needed[i].v, 0, 729);
        assert_int_equal(complete(&m), ERR_NOINPUT);
        assert_non_null(strstr(m.e.what, needed[i].said));
        arena_release(&m.arena);
    }
    struct made m;
    struct site nowhere = {.latitude = MISSING};
    make(&m);
    assert_int_equal(weather_complete(&m.w, &nowhere, &limits, &m.arena, &m.report, &m.e), ERR_NOINPUT);
    assert_non_null(strstr(m.e.what, "latitude"));
    arena_release(&m.arena);
}

static void an_estimate_gives_way_to_a_measured_end(void **state)
{
    struct made m;
    (void)state;
    make(&m);
    m.w.n = 365; /* along the line: with more the minimum would follow its maximum */
    m.w.col[WEATHER_TMIN][300] = MISSING;
    m.w.col[WEATHER_TMIN][299] = m.w.col[WEATHER_TMIN][301] = 9;
    m.w.col[WEATHER_TMAX][300] = 4;
    completed(&m);
    assert_true(m.w.col[WEATHER_TMAX][300] == 4 && m.w.col[WEATHER_TMIN][300] == 4);
    arena_release(&m.arena);
}

static void a_forecast_without_rain_is_dry(void **state)
{
    struct made m;
    (void)state;
    make(&m);
    for (size_t i = 720; i < 730; i++) {
        m.w.origin[i] = ORIGIN_FORECAST;
        m.w.col[WEATHER_RAIN][i] = MISSING;
    }
    completed(&m);
    assert_int_equal(m.report.recorded_to, date_make(2023, 12, 21));
    assert_int_equal(m.report.forecast_to, date_make(2023, 12, 31));
    assert_int_equal(m.w.origin[725], ORIGIN_FORECAST);
    assert_true(m.w.col[WEATHER_RAIN][725] == 0);
    assert_int_equal(m.report.filled_days, 0);
    arena_release(&m.arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_full_record_stays_as_it_is),
        cmocka_unit_test(short_gaps_are_closed_from_their_ends),
        cmocka_unit_test(one_temperature_follows_the_other),
        cmocka_unit_test(departures_fade_as_they_do_in_the_record),
        cmocka_unit_test(rain_is_what_such_days_have),
        cmocka_unit_test(radiation_is_estimated_with_the_records_own_factor),
        cmocka_unit_test(what_is_estimated_counts_by_its_age),
        cmocka_unit_test(the_length_of_a_gap_decides),
        cmocka_unit_test(the_recent_stretch_is_sixty_days),
        cmocka_unit_test(long_gaps_long_ago_take_normals),
        cmocka_unit_test(a_gap_without_another_year_is_told),
        cmocka_unit_test(the_ends_are_cut_to_days_with_temperature),
        cmocka_unit_test(impossible_radiation_is_not_believed),
        cmocka_unit_test(a_crossed_day_is_not_believed),
        cmocka_unit_test(no_radiation_at_all_is_estimated),
        cmocka_unit_test(what_cannot_be_done_without_is_told),
        cmocka_unit_test(an_estimate_gives_way_to_a_measured_end),
        cmocka_unit_test(a_forecast_without_rain_is_dry),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
