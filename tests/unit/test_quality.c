/* Doubts about weather: what each check names, and what it leaves alone. Values are
 * invented; expected ones follow from the rules in weather/quality.h.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/quality.h"

#include "base/limits.h"
#include "physics/sun.h"
#include "support/sward_support.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#define VARS (1u << WEATHER_TMIN | 1u << WEATHER_TMAX | 1u << WEATHER_RAIN | 1u << WEATHER_RAD | 1u << WEATHER_WIND)

static const struct site place = {.latitude = 52, .longitude = 0, .elevation_m = 50};

struct made {
    struct arena arena;
    struct err e;
    struct weather_days w;
    struct quality q;
};

static double noise(unsigned *state)
{
    double sum = 0;
    for (int k = 0; k < 12; k++) { /* twelve uniform numbers add up to a normal one */
        *state = *state * 1664525u + 1013904223u;
        sum += (double)(*state >> 8) / 16777216.0;
    }
    return sum - 6;
}

static double tenths(double x)
{
    return round(x * 10) / 10;
}

/* Invented weather from 2018-01-01: a year's wave, days that hang together, tenths. */
static void make(struct made *m, size_t n)
{
    unsigned state = 12345;
    double warm = 0;
    arena_init(&m->arena);
    err_clear(&m->e);
    assert_true(weather_days_alloc(&m->w, &m->arena, date_make(2018, 1, 1), n, VARS));
    for (size_t i = 0; i < n; i++) {
        int day = date_day_of_year(m->w.day0 + (date_t)i);
        double season = 10 - 8 * cos((day - 20) * 6.2832 / 365.25),
               sun = 0.25 + 0.1 * fmin(fabs(noise(&state)) * 2, 4.5);
        warm = 0.7 * warm + 2 * noise(&state);
        m->w.col[WEATHER_TMIN][i] = tenths(season + warm - 4 - fabs(noise(&state)));
        m->w.col[WEATHER_TMAX][i] = tenths(season + warm + 2 + 6 * sun + fabs(noise(&state)));
        m->w.col[WEATHER_RAIN][i] = sun < 0.4 ? tenths(fabs(4 * noise(&state))) : 0;
        m->w.col[WEATHER_RAD][i] = tenths(sun * sun_extraterrestrial(day, 52));
        m->w.col[WEATHER_WIND][i] = tenths(2 + fabs(noise(&state)));
        m->w.origin[i] = ORIGIN_RECORDED;
    }
}

static void check(struct made *m)
{
    const struct params *p = support_params();
    if (quality_check(&m->w, &place, &p->quality, &m->arena, &m->q, &m->e) != ERR_OK) {
        fail_msg("%s", m->e.what);
    }
}

/* The doubt of this kind that names day i, or NULL. */
static const struct doubt *named(const struct made *m, enum doubt_kind kind, size_t i)
{
    date_t date = m->w.day0 + (date_t)i;
    for (size_t k = 0; k < m->q.n; k++) {
        const struct doubt *d = &m->q.doubt[k];
        if (d->kind == kind && d->date <= date && d->last >= date) {
            return d;
        }
    }
    return NULL;
}

static void says(const struct doubt *d, const char *words)
{
    char text[LIMIT_TEXT];
    assert_non_null(d);
    assert_string_equal(quality_text(d, SHOW_METRIC, text, sizeof text), words);
}

static void each_fault_has_its_name(void **state)
{
    struct made m;
    (void)state;
    make(&m, 1500);
    double *low = m.w.col[WEATHER_TMIN], *high = m.w.col[WEATHER_TMAX];
    low[100] = 14.2; /* 11 April 2018 */
    high[100] = 9.1;
    low[200] -= 15;
    low[300] = tenths(low[300] * 1.8 + 32);
    high[300] = tenths(high[300] * 1.8 + 32);
    low[400] *= 10;
    high[400] *= 10;
    for (size_t i = 501; i < 505; i++) {
        high[i] = high[500];
    }
    for (int v = 0; v < WEATHER_VARS; v++) {
        if (m.w.col[v]) {
            m.w.col[v][600] = m.w.col[v][599];
        }
    }
    m.w.col[WEATHER_RAD][700] = 60;
    m.w.col[WEATHER_RAD][701] = 0;
    m.w.col[WEATHER_RAD][900] = 0.85 * sun_extraterrestrial(date_day_of_year(m.w.day0 + 900), 52);
    check(&m);
    says(named(&m, DOUBT_CROSSED, 100),
         "11 April 2018: the minimum of 14.2 C is above the maximum of 9.1 C; both are taken as missing.");
    assert_non_null(named(&m, DOUBT_STEP, 200));
    assert_non_null(named(&m, DOUBT_FAHRENHEIT, 300));
    assert_non_null(named(&m, DOUBT_TENTHS, 400));
    assert_non_null(named(&m, DOUBT_FROZEN, 500));
    assert_true(named(&m, DOUBT_FROZEN, 502)->other == 5);
    assert_non_null(named(&m, DOUBT_DOUBLED, 600));
    assert_non_null(named(&m, DOUBT_ABOVE_AIR, 700));
    assert_non_null(named(&m, DOUBT_DARK, 701));
    assert_null(named(&m, DOUBT_ABOVE_CLEAR, 700));
    assert_null(named(&m, DOUBT_ABOVE_CLEAR, 900)); /* clear sky is 0.751 Ra, and 1.15 of it 0.864 */
    m.w.col[WEATHER_RAD][900] *= 0.88 / 0.85;
    check(&m);
    assert_non_null(named(&m, DOUBT_ABOVE_CLEAR, 900));
    arena_release(&m.arena);
}

static void a_lost_sign_and_a_fit_that_is_none(void **state)
{
    struct made m;
    (void)state;
    make(&m, 2000);
    double *low = m.w.col[WEATHER_TMIN], *high = m.w.col[WEATHER_TMAX];
    size_t cold = 380;
    while (low[cold] > -4.5 || high[cold] < 1 - low[cold]) {
        cold++;
    }
    low[cold] = -low[cold];
    high[1000] = 55; /* a day beyond all others, and no slip that explains it */
    check(&m);
    assert_non_null(named(&m, DOUBT_SIGN, cold));
    assert_true(named(&m, DOUBT_SIGN, cold)->other == -low[cold]);
    assert_non_null(named(&m, DOUBT_UNUSUAL, 1000));
    arena_release(&m.arena);
}

/* The newest day has no day after it, and is the one that a morning hangs on. */
static void the_last_day_is_looked_at_too(void **state)
{
    struct made m;
    (void)state;
    make(&m, 1500);
    m.w.col[WEATHER_TMIN][1499] -= 11.3;
    check(&m);
    assert_non_null(named(&m, DOUBT_STEP, 1499));
    arena_release(&m.arena);
}

static double clearness(const struct made *m, size_t i)
{
    return m->w.col[WEATHER_RAD][i] / sun_extraterrestrial(date_day_of_year(m->w.day0 + (date_t)i), 52);
}

/* It rains in the made record on dark days only. */
static void rain_under_the_sun_is_doubted(void **state)
{
    struct made m;
    size_t sunny = 800, dark = 800;
    (void)state;
    make(&m, 2000);
    for (size_t i = 800; i < 1200; i++) {
        sunny = clearness(&m, i) > clearness(&m, sunny) ? i : sunny;
        dark = clearness(&m, i) < clearness(&m, dark) ? i : dark;
    }
    m.w.col[WEATHER_RAIN][sunny] = 12;
    m.w.col[WEATHER_RAIN][dark] = 12;
    check(&m);
    assert_non_null(named(&m, DOUBT_RAIN, sunny));
    assert_null(named(&m, DOUBT_RAIN, dark));
    arena_release(&m.arena);
}

static void late_by_a_day(struct made *m, enum weather_var v, size_t first, size_t last)
{
    double *x = m->w.col[v];
    memmove(&x[first + 1], &x[first], (last - first) * sizeof *x);
}

static void days_on_the_wrong_date_are_told(void **state)
{
    struct made m;
    (void)state;
    make(&m, 2000);
    check(&m);
    assert_null(named(&m, DOUBT_SHIFTED, 925));
    late_by_a_day(&m, WEATHER_TMAX, 900, 950);
    late_by_a_day(&m, WEATHER_RAIN, 900, 950);
    check(&m);
    const struct doubt *d = named(&m, DOUBT_SHIFTED, 925);
    assert_non_null(d);
    assert_true(d->var == WEATHER_TMAX && d->value == 1 && d->last - d->date < 70);
    late_by_a_day(&m, WEATHER_RAIN, 0, 1999);
    check(&m);
    d = named(&m, DOUBT_SHIFTED, 0);
    assert_non_null(d);
    assert_true(d->var == WEATHER_RAIN && d->value == 1 && d->last == m.w.day0 + 1999);
    arena_release(&m.arena);
}

static void only_what_was_recorded_is_doubted(void **state)
{
    struct made m;
    (void)state;
    make(&m, 1500);
    m.w.col[WEATHER_TMIN][100] = 40;
    m.w.origin[100] = ORIGIN_FORECAST;
    m.w.col[WEATHER_TMIN][200] = 40;
    m.w.filled[200] = 1u << WEATHER_TMIN;
    check(&m);
    for (size_t i = 0; i < m.q.n; i++) {
        assert_true(m.q.doubt[i].date != m.w.day0 + 100 && m.q.doubt[i].date != m.w.day0 + 200);
    }
    arena_release(&m.arena);
}

static void gaps_are_listed(void **state)
{
    struct made m;
    (void)state;
    make(&m, 400);
    for (size_t i = 50; i < 53; i++) {
        for (int v = 0; v < WEATHER_VARS; v++) {
            if (m.w.col[v]) {
                m.w.col[v][i] = NAN;
            }
        }
        m.w.origin[i] = ORIGIN_NONE;
    }
    m.w.col[WEATHER_RAIN][53] = NAN;
    m.w.col[WEATHER_RAIN][0] = m.w.col[WEATHER_RAIN][399] = NAN; /* not yet, and no more: no gaps */
    check(&m);
    assert_int_equal(m.q.of_kind[DOUBT_MISSING], 2);
    says(&m.q.doubt[0], "20 February 2018 to 22 February 2018: no weather at all (3 days).");
    says(&m.q.doubt[1], "23 February 2018: no rain (1 day).");
    arena_release(&m.arena);
}

static void a_wind_from_higher_up_is_told(void **state)
{
    struct made m;
    (void)state;
    make(&m, 400);
    check(&m);
    assert_int_equal(m.q.of_kind[DOUBT_WIND_HEIGHT], 0);
    for (size_t i = 0; i < m.w.n; i++) {
        m.w.col[WEATHER_WIND][i] += 4;
    }
    check(&m);
    assert_int_equal(m.q.of_kind[DOUBT_WIND_HEIGHT], 1);
    arena_release(&m.arena);
}

/* Ten days say nothing of what is usual, and no latitude nothing of the sun. */
static void little_is_checked_as_far_as_it_goes(void **state)
{
    struct made m;
    struct site nowhere = {.latitude = NAN, .elevation_m = NAN};
    (void)state;
    make(&m, 10);
    m.w.col[WEATHER_TMAX][3] = m.w.col[WEATHER_TMIN][3] - 1;
    m.w.col[WEATHER_TMAX][5] = 99;
    m.w.col[WEATHER_RAD][7] = 49;
    assert_int_equal(quality_check(&m.w, &nowhere, &support_params()->quality, &m.arena, &m.q, &m.e), ERR_OK);
    assert_int_equal(m.q.total, 2);
    assert_int_equal(m.q.doubt[0].kind, DOUBT_CROSSED);
    says(&m.q.doubt[1], "6 January 2018: the maximum of 99.0 C was never measured anywhere; correct it.");
    m.w.n = 0;
    check(&m);
    assert_int_equal(m.q.total, 0);
    arena_release(&m.arena);
}

static void the_list_is_bounded_and_all_are_counted(void **state)
{
    struct made m;
    (void)state;
    make(&m, LIMIT_DOUBTS + 100);
    for (size_t i = 0; i < m.w.n; i++) {
        m.w.col[WEATHER_RAD][i] = 0;
    }
    check(&m);
    assert_int_equal(m.q.n, LIMIT_DOUBTS);
    assert_true(m.q.total >= LIMIT_DOUBTS + 100);
    arena_release(&m.arena);
}

/* Tables of any length with holes, columns that are not there, values of one kind only,
 * and the sun of any latitude: doubts in order, each about days of the table. */
static void any_table_gives_sound_doubts(void **state)
{
    unsigned chance = 7;
    (void)state;
    for (int round = 0; round < 120; round++) {
        struct made m;
        make(&m, 1 + (size_t)(round * round) % 1700);
        struct site somewhere = {.latitude = -90 + 1.5 * round, .elevation_m = round % 3 ? 10.0 * round : (double)NAN};
        for (size_t i = 0; i < m.w.n; i++) {
            for (int v = 0; v < WEATHER_VARS; v++) {
                chance = chance * 1664525u + 1013904223u;
                unsigned dice = chance >> 20;
                if (m.w.col[v] && dice % 16 < (unsigned)round % 16) {
                    m.w.col[v][i] = round % 5 == 0 ? 3.0 : dice % 2 ? (double)NAN : (dice % 1000) / 10.0;
                }
                m.w.origin[i] = dice % 97 ? m.w.origin[i] : ORIGIN_FORECAST;
            }
        }
        m.w.col[round % WEATHER_VARS] = NULL;
        assert_int_equal(quality_check(&m.w, &somewhere, &support_params()->quality, &m.arena, &m.q, &m.e), ERR_OK);
        for (size_t i = 0; i < m.q.n; i++) {
            char text[LIMIT_TEXT];
            const struct doubt *d = &m.q.doubt[i];
            assert_true(d->date >= m.w.day0 && d->last >= d->date && d->last < m.w.day0 + (date_t)m.w.n);
            assert_true(i == 0 || d->date >= d[-1].date);
            assert_null(strstr(quality_text(d, SHOW_METRIC, text, sizeof text), "nan"));
        }
        arena_release(&m.arena);
    }
}

static void every_kind_has_an_id_and_a_sentence(void **state)
{
    (void)state;
    for (int kind = 0; kind < DOUBT_KINDS; kind++) {
        char text[LIMIT_TEXT], cut[20];
        struct doubt d = {
            date_make(2020, 2, 29), date_make(2020, 3, 1), WEATHER_TMAX, (enum doubt_kind)kind, -1234.5, -1234.5};
        quality_text(&d, SHOW_METRIC, text, sizeof text);
        assert_true(strlen(quality_id(d.kind)) > 2 && strlen(text) > 40);
        assert_int_equal(text[strlen(text) - 1], '.');
        assert_true(strlen(quality_text(&d, SHOW_METRIC, cut, sizeof cut)) < sizeof cut);
        for (int other = 0; other < kind; other++) {
            assert_string_not_equal(quality_id(d.kind), quality_id((enum doubt_kind)other));
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_fault_has_its_name),
        cmocka_unit_test(a_lost_sign_and_a_fit_that_is_none),
        cmocka_unit_test(the_last_day_is_looked_at_too),
        cmocka_unit_test(rain_under_the_sun_is_doubted),
        cmocka_unit_test(days_on_the_wrong_date_are_told),
        cmocka_unit_test(only_what_was_recorded_is_doubted),
        cmocka_unit_test(gaps_are_listed),
        cmocka_unit_test(a_wind_from_higher_up_is_told),
        cmocka_unit_test(little_is_checked_as_far_as_it_goes),
        cmocka_unit_test(the_list_is_bounded_and_all_are_counted),
        cmocka_unit_test(any_table_gives_sound_doubts),
        cmocka_unit_test(every_kind_has_an_id_and_a_sentence),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
