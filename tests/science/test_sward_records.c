/* Whole years: both hemispheres, a warmer record, and the shipped records of Dublin
 * (Met Eireann), De Bilt (KNMI) and Shorter, Alabama (NASA POWER).
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/sward_support.h"
#include "support/whole_record.h"

#include "base/date.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static const struct climate temperate = {.latitude = 50,
                                         .t_mean = 10,
                                         .t_swing = 7,
                                         .t_range = 8,
                                         .clearness = 0.42,
                                         .rain = 2.4,
                                         .et0_summer = 3.4,
                                         .noise = 4,
                                         .seed = 7};

/* Steps one day and grazes to 1,800 kg DM/ha. */
static struct sward_result live(struct sward *s, const struct sward_weather *w, double latitude)
{
    const struct sward_place place = {.latitude = latitude};
    struct sward_day d;
    struct sward_result r;
    sward_day_make(&d, w, &place);
    sward_step(s, &d, &r);
    sward_graze_to_cover(s, 1800);
    return r;
}

/* The same weather half a year later at the mirrored latitude. 2002 and 2003 have no
 * leap day; 1 July is 181 days after 1 January. */
static void test_hemispheres(void **state)
{
    (void)state;
    struct sward north = support_ryegrass(), south = support_ryegrass();
    double growth_north = 0, growth_south = 0, worst = 0, off = 0;
    int first = date_make(2001, 1, 1), last = date_make(2003, 6, 30);
    for (int date = first; date <= last; date++) {
        struct sward_weather w = support_climate(&temperate, date), mirrored = w;
        mirrored.date = date + 181;
        struct sward_result n = live(&north, &w, 50), s = live(&south, &mirrored, -50);
        if (date >= date_make(2002, 1, 1) && date <= date_make(2002, 12, 31)) {
            growth_north += n.growth;
            growth_south += s.growth;
            worst = fmax(worst, fabs(n.nsc_mean - s.nsc_mean));
            off += fabs(n.nsc_mean - s.nsc_mean) / 365;
        }
    }
    print_message("# hemispheres: daily means differ by %.1f g/kg at most, %.2f in the mean; growth %.0f and %.0f\n",
                  worst, off, growth_north, growth_south);
    assert_true(worst <= 4);
    assert_true(fabs(growth_south / growth_north - 1) <= 0.01);
}

struct warmth {     /* of ten years */
    double start;   /* mean day of the year on which spring growth sets in */
    int frost_days; /* with photosynthesis held back by frost */
    int killing;    /* killing frosts */
};

static struct warmth warmed(double by)
{
    struct climate c = temperate;
    struct sward s = support_ryegrass();
    struct warmth out = {0};
    c.warming = by;
    for (int year = 2001; year <= 2010; year++) {
        int start = 0;
        for (int date = date_make(year, 1, 1); date <= date_make(year, 12, 31); date++) {
            struct sward_weather w = support_climate(&c, date);
            struct sward_result r = live(&s, &w, c.latitude);
            start = start == 0 && r.st >= s.kind[0]->st_spring ? date_day_of_year(date) : start;
            out.frost_days += s.part[0].frost < 1;
            out.killing += r.killing_frost;
        }
        assert_true(start > 0);
        out.start += start / 10.0;
    }
    return out;
}

static void test_warming(void **state)
{
    (void)state;
    struct warmth before = warmed(-6);
    assert_true(before.killing > 0);
    for (double by = -5; by <= 4; by += 1) {
        struct warmth now = warmed(by);
        assert_true(now.start <= before.start);
        assert_true(now.frost_days <= before.frost_days);
        assert_true(now.killing <= before.killing);
        before = now;
    }
}

/* Means of the months on the long records (1942-2020, 1980-2019, 1999-2019), computed by us. The shipped
 * extracts hold other years: 15 % of the record's mean and the same course. */
static const struct {
    const char *path;
    double latitude, elevation_m;
    double nsc[12], growth[12];
} records[] = {
    {"data/real/dublin_airport_2010-2020.csv",
     53.43,
     71,
     {99, 154, 197, 196, 186, 189, 199, 177, 150, 118, 92, 77},
     {16, 23, 38, 78, 116, 110, 82, 74, 64, 44, 25, 15}},
    {"data/real/de_bilt_2005-2019.csv",
     52.10,
     2,
     {96, 162, 196, 189, 164, 177, 177, 154, 132, 109, 87, 83},
     {9, 15, 33, 79, 124, 103, 83, 75, 63, 44, 22, 11}},
    {"data/real/shorter_al_us_2010-2019.csv",
     32.4,
     70,
     {157, 169, 144, 128, 127, 104, 85, 75, 87, 113, 137, 143},
     {38, 53, 106, 135, 101, 70, 48, 34, 36, 47, 52, 43}},
};

static double correlation(const double *a, const double *b)
{
    double ma = 0, mb = 0, ab = 0, aa = 0, bb = 0;
    for (int i = 0; i < 12; i++) {
        ma += a[i] / 12;
        mb += b[i] / 12;
    }
    for (int i = 0; i < 12; i++) {
        ab += (a[i] - ma) * (b[i] - mb);
        aa += (a[i] - ma) * (a[i] - ma);
        bb += (b[i] - mb) * (b[i] - mb);
    }
    return ab / sqrt(aa * bb);
}

static double ratio_of_means(const double *a, const double *b)
{
    double sa = 0, sb = 0;
    for (int i = 0; i < 12; i++) {
        sa += a[i];
        sb += b[i];
    }
    return sa / sb;
}

static void test_shipped_records(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof records / sizeof records[0]; i++) {
        struct table t;
        struct daily d;
        assert_true(table_read(&t, records[i].path));
        assert_true(daily_read(&d, &t, NULL, records[i].latitude, records[i].elevation_m));
        struct whole_record w = whole_record_run(&d, records[i].latitude);
        print_message("# %s: NSC x %.3f r %.3f, growth x %.3f r %.3f of the long record\n", records[i].path,
                      ratio_of_means(w.nsc, records[i].nsc), correlation(w.nsc, records[i].nsc),
                      ratio_of_means(w.growth, records[i].growth), correlation(w.growth, records[i].growth));
        assert_true(fabs(ratio_of_means(w.nsc, records[i].nsc) - 1) <= 0.15);
        assert_true(fabs(ratio_of_means(w.growth, records[i].growth) - 1) <= 0.15);
        assert_true(correlation(w.nsc, records[i].nsc) > 0.95);
        assert_true(correlation(w.growth, records[i].growth) > 0.95);
        daily_free(&d);
        table_free(&t);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_hemispheres),
        cmocka_unit_test(test_warming),
        cmocka_unit_test(test_shipped_records),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
