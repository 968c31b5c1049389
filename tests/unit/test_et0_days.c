/* Columns of ET0: agrees with the single day, falls back as FAO-56 says, keeps its
 * head in polar night. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/date.h"
#include "physics/et0.h"
#include "physics/humidity.h"
#include "physics/sun.h"
#include "support/physics_rows.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#define N 800
#define MISSING ((double)NAN)

struct made {
    double tmin[N], tmax[N], rad[N], rh[N], wind[N], tdew[N], out[N];
};

static date_t day0(void)
{
    return date_make(2023, 11, 20); /* crosses a leap year's end */
}

static void fill(struct made *m)
{
    for (int i = 0; i < N; i++) {
        double season = sin(i * 0.0172 - 1.9);
        m->tmin[i] = 5 + 6 * season + 3 * sin(i * 1.7);
        m->tmax[i] = m->tmin[i] + 8 + 4 * sin(i * 0.9);
        m->rad[i] = 9 + 7 * season + sin(i * 2.3);
        m->rh[i] = 80 + 15 * sin(i * 0.7);
        m->wind[i] = 2.5 + 2 * sin(i * 0.3);
        m->tdew[i] = m->tmin[i] - 1;
    }
}

static double single(const struct made *m, int i, double ea, double wind)
{
    double ra = sun_extraterrestrial(date_day_of_year(day0() + i), 53.4);
    return et0_day(m->tmin[i], m->tmax[i], m->rad[i], ea, wind, 71, ra, 0).et0;
}

static void columns_agree_with_days(void **state)
{
    (void)state;
    struct made m;
    fill(&m);
    struct et0_columns in = {.tmin = m.tmin, .tmax = m.tmax, .rad = m.rad, .rh = m.rh, .wind = m.wind, .tdew = m.tdew};
    et0_days(&in, N, day0(), 53.4, 71, m.out);
    for (int i = 0; i < N; i++) {
        physics_near("dew point wins", m.out[i], single(&m, i, humidity_saturation(m.tdew[i]), m.wind[i]), 1e-12);
    }
    in.tdew = NULL;
    et0_days(&in, N, day0(), 53.4, 71, m.out);
    for (int i = 0; i < N; i++) {
        double ea = humidity_actual_mean(m.tmin[i], m.tmax[i], m.rh[i]);
        physics_near("then humidity", m.out[i], single(&m, i, ea, m.wind[i]), 1e-12);
    }
}

static void missing_cells_fall_back(void **state)
{
    (void)state;
    struct made m;
    fill(&m);
    m.tdew[3] = m.rh[4] = m.tdew[4] = m.wind[5] = m.rad[6] = m.tmin[7] = MISSING;
    struct et0_columns in = {.tmin = m.tmin, .tmax = m.tmax, .rad = m.rad, .rh = m.rh, .wind = m.wind, .tdew = m.tdew};
    et0_days(&in, 9, day0(), 53.4, 71, m.out);
    double by_rh = humidity_actual_mean(m.tmin[3], m.tmax[3], m.rh[3]);
    physics_near("Eq. 19 for one cell", m.out[3], single(&m, 3, by_rh, m.wind[3]), 1e-12);
    double by_tmin = humidity_saturation(m.tmin[4]);
    physics_near("Eq. 48 for one cell", m.out[4], single(&m, 4, by_tmin, m.wind[4]), 1e-12);
    physics_near("2 m/s", m.out[5], single(&m, 5, humidity_saturation(m.tdew[5]), 2), 1e-12);
    assert_true(isnan(m.out[6]) && isnan(m.out[7]) && !isnan(m.out[8]));
    struct et0_columns bare = {.tmin = m.tmin, .tmax = m.tmax, .rad = m.rad};
    et0_days(&bare, 2, day0(), 53.4, 71, m.out);
    physics_near("no columns", m.out[1], single(&m, 1, humidity_saturation(m.tmin[1]), 2), 1e-12);
    double at_sea = 0;
    et0_days(&bare, 1, day0(), 53.4, 0, &at_sea);
    et0_days(&bare, 1, day0(), 53.4, MISSING, m.out);
    assert_true(m.out[0] == at_sea);
}

static void extremes_stay_sensible(void **state)
{
    (void)state;
    double tmin = -25, tmax = -20, rad = 0, rh = 130, wind = 0, out = -1;
    struct et0_columns in = {.tmin = &tmin, .tmax = &tmax, .rad = &rad, .rh = &rh, .wind = &wind};
    et0_days(&in, 1, date_make(2025, 12, 21), 80, 10, &out);
    assert_true(out == 0); /* polar night, air supersaturated */
    rad = 35, tmin = 20, tmax = 38, rh = 15, wind = 4;
    et0_days(&in, 1, date_make(2025, 6, 21), 40, 10, &out);
    assert_true(out > 9 &&
                out < 16); /* hot, dry, windy: above the 6-9 of warm arid climates (FAO-56 Table 2, from memory) */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(columns_agree_with_days),
        cmocka_unit_test(missing_cells_fall_back),
        cmocka_unit_test(extremes_stay_sensible),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
