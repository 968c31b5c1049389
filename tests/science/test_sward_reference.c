/* The reference outputs of the sward, computed by us from the equations of
 * models/METHOD.md before the C code was written; two of the chambers and the ratio
 * of the third have measured counterparts. SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/sward_support.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#define NSC_TOLERANCE 2.0     /* g/kg */
#define GROWTH_TOLERANCE 0.15 /* g/m2/d: the table has one decimal */
#define COUNT(table) (sizeof(table) / sizeof(table)[0])

struct row { /* identical days on a sward held at one structure, start 0.12 */
    const char *name;
    double tmin, tmax, rad, latitude;
    int day;
    double sink, source, half_sugar, lai, structure;
    int days;
    double min, max, mean; /* g/kg */
    int hour_min, hour_max;
    double growth; /* g/m2/d */
};

/* reference outputs computed by us */
static const struct row rows[] = {
    {"A May average", 7, 16, 17, 52, 135, 1.22, 1.5, 0.155, 2.5, 170, 25, 150, 183, 167, 6, 18, 13.0},
    {"B May sunny", 7, 17, 22, 52, 135, 1.22, 1.5, 0.155, 2.5, 170, 25, 164, 200, 183, 5, 18, 14.2},
    {"C May dull", 8, 13, 9, 52, 135, 1.22, 1.5, 0.155, 2.5, 170, 25, 107, 136, 122, 6, 18, 9.6},
    {"D July", 12, 21, 17, 52, 196, 0.81, 1, 0.155, 2.5, 170, 25, 139, 170, 155, 5, 18, 11.6},
    {"E October", 7, 14, 7, 52, 288, 0.71, 1, 0.155, 2.5, 170, 25, 116, 141, 128, 7, 16, 5.8},
    {"F October clear; cold", 0, 12, 10, 52, 288, 0.71, 1, 0.155, 2.5, 170, 25, 211, 226, 218, 7, 16, 4.4},
    {"G October mild; dull", 10, 14, 4, 52, 288, 0.71, 1, 0.155, 2.5, 170, 25, 65, 87, 76, 7, 16, 4.2},
    {"H November clear", -2, 7, 5, 52, 320, 0.71, 1, 0.155, 2.5, 170, 25, 245, 252, 248, 8, 16, 1.5},
    {"I warm-summer July", 19, 31, 21, 38, 196, 0.81, 1, 0.155, 2.5, 170, 25, 93, 133, 114, 5, 18, 11.0},
    {"J warm-summer late April", 8, 20, 18, 38, 115, 1.22, 1.5, 0.155, 2.5, 170, 25, 120, 166, 143, 6, 17, 14.2},
    {"M January", 1, 7, 2.2, 52, 15, 0.71, 1, 0.155, 2.5, 170, 25, 116, 127, 121, 8, 15, 1.9},
    {"N clear March", -1, 11, 12, 52, 80, 0.71, 1, 0.155, 2.5, 170, 25, 248, 259, 253, 7, 17, 3.9},
    {"A short sward", 7, 16, 17, 52, 135, 1.22, 1.5, 0.155, 1, 80, 25, 127, 166, 147, 5, 18, 7.0},
    {"A tall sward", 7, 16, 17, 52, 135, 1.22, 1.5, 0.155, 4, 300, 40, 163, 187, 175, 6, 18, 15.6},
    {"winter; thin", 3, 8, 2, 53, 15, 0.71, 1, 0.155, 0.6, 60, 40, 62, 75, 68, 8, 15, 0.7},
    {"A; K 0.280", 7, 16, 17, 52, 135, 1.22, 1.5, 0.280, 2.5, 170, 25, 191, 218, 205, 6, 18, 10.6},
    {"A; K 0.220", 7, 16, 17, 52, 135, 1.22, 1.5, 0.220, 2.5, 170, 25, 174, 204, 189, 6, 18, 11.6},
    {"A; K 0.155", 7, 16, 17, 52, 135, 1.22, 1.5, 0.155, 2.5, 170, 25, 150, 183, 167, 6, 18, 13.0},
    {"A; K 0.145", 7, 16, 17, 52, 135, 1.22, 1.5, 0.145, 2.5, 170, 25, 145, 180, 163, 5, 18, 13.2},
    {"A; K 0.134", 7, 16, 17, 52, 135, 1.22, 1.5, 0.134, 2.5, 170, 25, 140, 175, 158, 5, 18, 13.5},
    {"A; K 0.110", 7, 16, 17, 52, 135, 1.22, 1.5, 0.110, 2.5, 170, 25, 126, 164, 146, 5, 18, 14.2},
    {"A; K 0.100", 7, 16, 17, 52, 135, 1.22, 1.5, 0.100, 2.5, 170, 25, 120, 159, 140, 5, 18, 14.5},
    {"A; K 0.089", 7, 16, 17, 52, 135, 1.22, 1.5, 0.089, 2.5, 170, 25, 113, 153, 133, 5, 18, 14.9},
    {"A; Tmin -3", 4, 16, 17, 52, 135, 1.22, 1.5, 0.155, 2.5, 170, 25, 168, 197, 183, 5, 18, 12.0},
    {"A; Tmin +3", 10, 16, 17, 52, 135, 1.22, 1.5, 0.155, 2.5, 170, 25, 134, 172, 153, 6, 18, 13.8},
    {"A; T -3", 4, 13, 17, 52, 135, 1.22, 1.5, 0.155, 2.5, 170, 25, 187, 212, 199, 5, 18, 10.6},
    {"A; T +3", 10, 19, 17, 52, 135, 1.22, 1.5, 0.155, 2.5, 170, 25, 121, 161, 142, 5, 18, 14.6},
    {"A; Rs +5", 7, 16, 22, 52, 135, 1.22, 1.5, 0.155, 2.5, 170, 25, 169, 203, 187, 5, 18, 13.8},
    {"A; Rs -5", 7, 16, 12, 52, 135, 1.22, 1.5, 0.155, 2.5, 170, 25, 121, 153, 138, 6, 18, 11.5},
    {"A; Rs half", 7, 16, 8.5, 52, 135, 1.22, 1.5, 0.155, 2.5, 170, 25, 94, 123, 108, 6, 17, 9.7},
    {"A; fN .75", 7, 16, 17, 52, 135, 0.915, 1.5, 0.155, 2.5, 170, 25, 188, 215, 202, 6, 18, 10.8},
    {"A; fN 1.25", 7, 16, 17, 52, 135, 1.525, 1.5, 0.155, 2.5, 170, 25, 120, 159, 140, 5, 18, 14.5},
};

static void check_near(const char *name, const char *what, double got, double want, double tolerance)
{
    if (!(fabs(got - want) <= tolerance)) {
        fail_msg("%s: %s is %g, expected %g", name, what, got, want);
    }
}

static void test_table(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++) {
        const struct row *r = &rows[i];
        struct held h = support_held("ryegrass", r->structure, r->lai, r->sink, r->source, 0.12);
        h.own.half_sugar = r->half_sugar;
        struct sward_day d = support_day(r->tmin, r->tmax, r->rad, r->latitude, r->day);
        struct held_day got = support_hold_days(&h, &d, r->days);
        check_near(r->name, "minimum", got.min, r->min, NSC_TOLERANCE);
        check_near(r->name, "maximum", got.max, r->max, NSC_TOLERANCE);
        check_near(r->name, "mean", got.mean, r->mean, NSC_TOLERANCE);
        check_near(r->name, "hour of the minimum", got.hour_min, r->hour_min, 0);
        check_near(r->name, "hour of the maximum", got.hour_max, r->hour_max, 0);
        check_near(r->name, "growth", got.growth, r->growth, GROWTH_TOLERANCE);
    }
}

/* Constant temperature, constant light in the first `lit` hours; the end of the last night, g/kg. */
static double chamber(double t, double par, int lit, double structure, double lai, int days)
{
    struct held h = support_held("ryegrass", structure, lai, 1.22, 1.5, 0.12);
    struct sward_day d = support_day(t, t, 10, 52, 135);
    for (int i = 0; i < 24; i++) {
        d.temperature[i] = t;
        d.par[i] = i < lit ? par : 0;
    }
    return support_hold_days(&h, &d, days).end;
}

static void test_chambers(void **state)
{
    (void)state;
    double rich = chamber(5, 120, 20, 350, 5, 4), poor = chamber(25, 20, 4, 350, 5, 4);
    double cool = chamber(10, 150, 12, 170, 2.5, 25), warm = chamber(20, 150, 12, 170, 2.5, 25);
    check_near("4 days at 5 C, 20 h of light", "NSC", rich, 229, NSC_TOLERANCE); /* computed by us */
    check_near("4 days at 5 C, 20 h of light", "NSC", rich, 235, 15);            /* Robson 1981 */
    check_near("4 days at 25 C, 4 h of light", "NSC", poor, 21, NSC_TOLERANCE);  /* computed by us */
    check_near("4 days at 25 C, 4 h of light", "NSC", poor, 25, 10);             /* Robson 1981 */
    check_near("10 C", "NSC", cool, 134, NSC_TOLERANCE);                         /* computed by us */
    check_near("20 C", "NSC", warm, 59, NSC_TOLERANCE);                          /* computed by us */
    assert_true(cool / warm > 2.0);                                              /* Parsons et al. 2004 */
}

struct spell {
    int days;
    double tmin, tmax, rad;
};

static const struct spell *spell_of(const struct spell *s, size_t n, int day)
{
    for (size_t i = 0; i < n; i++) {
        if (day < s[i].days) {
            return &s[i];
        }
        day -= s[i].days;
    }
    return NULL;
}

/* Days that follow one another, the soil lagging; want: minimum and maximum of each day. */
static void check_sequence(struct held h, const struct spell *s, size_t n, int day_of_year, const double (*want)[2],
                           int days)
{
    double soil = 0.5 * (s[0].tmin + s[0].tmax);
    for (int i = 0; i < days; i++) {
        const struct spell *now = spell_of(s, n, i), *before = i ? spell_of(s, n, i - 1) : NULL;
        const struct spell *after = spell_of(s, n, i + 1);
        struct sward_weather w = {.date = 11323 + day_of_year - 1 + i, /* 2001-01-01 is day 11323 */
                                  .tmin = now->tmin,
                                  .tmax = now->tmax,
                                  .rad = now->rad,
                                  .tmax_before = before ? before->tmax : now->tmax,
                                  .tmin_after = after ? after->tmin : now->tmin};
        struct sward_day d;
        char name[32];
        sward_day_force(&d, &w, support_day_length(52, day_of_year + i), false, false);
        soil += h.kind->soil_lag * (0.5 * (now->tmin + now->tmax) - soil);
        struct held_day got = support_hold(&h, &d, soil);
        snprintf(name, sizeof name, "day %d", i + 1);
        check_near(name, "minimum", got.min, want[i][0], NSC_TOLERANCE);
        check_near(name, "maximum", got.max, want[i][1], NSC_TOLERANCE);
    }
}

static void test_autumn(void **state)
{
    (void)state;
    static const struct spell spells[] = {{3, 8, 14, 7}, {7, -1, 10, 10}, {5, 9, 14, 4}};
    static const double want[][2] = {/* computed by us */
                                     {117, 142}, {115, 140}, {114, 139}, {118, 150}, {133, 163},
                                     {146, 174}, {158, 184}, {169, 192}, {179, 200}, {187, 207},
                                     {178, 197}, {158, 176}, {141, 157}, {126, 140}, {113, 128}};
    check_sequence(support_held("ryegrass", 170, 2.5, 0.71, 1, 0.13), spells, COUNT(spells), 285, want, COUNT(want));
}

static void test_frosty_spring(void **state)
{
    (void)state;
    static const struct spell spells[] = {{3, 7, 16, 17}, {7, -1, 14, 24}, {5, 10, 15, 8}};
    static const double want[][2] = {/* computed by us */
                                     {141, 179}, {143, 180}, {145, 181}, {152, 199}, {175, 213},
                                     {190, 223}, {200, 230}, {208, 235}, {215, 240}, {220, 243},
                                     {189, 227}, {157, 185}, {135, 154}, {119, 138}, {105, 128}};
    check_sequence(support_held("ryegrass", 170, 2.5, 1.22, 1.5, 0.157), spells, COUNT(spells), 120, want, COUNT(want));
}

struct regrowth_day {
    double min, mean; /* g/kg */
};

/* After grazing to S 80, L 0.6 with the sink of a larger sward: nothing is taken off. */
static struct regrowth_day regrow(struct held *h, const struct sward_day *d)
{
    struct balance b;
    struct balance_day day = {.sums = {.sugar = h->sugar}, .structure = h->structure};
    struct regrowth_day out = {.min = INFINITY};
    h->slow_lai += (h->lai - h->slow_lai) / h->kind->sink_adaptation_d;
    double area = (1 - exp(-0.6 * h->slow_lai)) / (1 - exp(-1.5));
    struct balance_factors f = {.lai = h->lai, .sink = h->sink * area, .source = h->source, .wet = 1, .soil_t = 12.5};
    balance_prepare(&b, h->kind, &h->own, &f, d);
    balance_run(&b, &day);
    for (int i = 0; i < 24; i++) {
        out.min = fmin(out.min, 1000 * day.content[i]);
        out.mean += 1000 * day.content[i] / 24;
    }
    h->sugar = day.sums.sugar;
    h->structure = day.structure;
    h->lai += h->kind->leaf_area * day.sums.growth;
    return out;
}

static void test_regrowth(void **state)
{
    (void)state;
    static const struct {
        int day;
        double mean;
    } want[] = {{1, 108}, {2, 76}, {4, 86}, {7, 115}, {10, 143}, {13, 164}, {16, 177}, {22, 185}, {28, 183}};
    struct held h = support_held("ryegrass", 80, 0.6, 1.22, 1.5, 0.15);
    struct sward_day d = support_day(8, 17, 17, 52, 135);
    double lowest_dawn = INFINITY, lowest_mean = INFINITY;
    int dawn_day = 0, mean_day = 0;
    h.slow_lai = 2.5;
    for (int day = 1, next = 0; day <= 28; day++) {
        struct regrowth_day got = regrow(&h, &d);
        if (got.min < lowest_dawn) {
            lowest_dawn = got.min;
            dawn_day = day;
        }
        if (got.mean < lowest_mean) {
            lowest_mean = got.mean;
            mean_day = day;
        }
        if (want[next].day == day) { /* computed by us */
            check_near("regrowth", "mean", got.mean, want[next++].mean, NSC_TOLERANCE);
        }
    }
    assert_int_equal(mean_day, 2);
    assert_int_equal(dawn_day, 3);
    check_near("regrowth", "lowest dawn", lowest_dawn, 56, NSC_TOLERANCE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_table),         cmocka_unit_test(test_chambers), cmocka_unit_test(test_autumn),
        cmocka_unit_test(test_frosty_spring), cmocka_unit_test(test_regrowth),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
