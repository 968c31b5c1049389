/* Global daily climatology, the long and the fixed-width layout: values, flags, order,
 * and each refusal with its place. Rows of Milan 1763 and Minneapolis 2014 are NOAA NCEI
 * GHCN-Daily (US public domain); all others are invented in the documented layouts.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/weather_text.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

static void read_well(struct weather_text *t, const char *text)
{
    weather_text_read(t, text);
    if (t->code != ERR_OK) {
        fail_msg("%s\n%zu:%zu %s: %s", text, t->err.line, t->err.column, t->err.field, t->err.what);
    }
}

static void near(double a, double b)
{
    if (!(fabs(a - b) < 1e-9)) {
        fail_msg("%.12g, not %.12g", a, b);
    }
}

static void long_without_names(void **state)
{
    struct weather_text t;
    (void)state;
    read_well(&t, "USC00000001,20200101,TMAX,56,,,7,0700\n"
                  "USC00000002,20200101,PRCP,3,,,7,0700\n"
                  "USC00000001,20200101,TMIN,-99,,,7,0700\n"
                  "USC00000001,20200103,PRCP,0,T,,7,0700\n"
                  "USC00000001,20200103,TMAX,80,,I,7,0700\n"
                  "USC00000001,20200103,TMIN,12,,,7,0700\n"
                  "USC00000001,20200102,TMAX,61,,,7,0700\n"
                  "USC00000001,20200102,TMIN,-9999,,,7,\n"
                  "USC00000001,20200102,SNOW,0,,,7,\n");
    assert_string_equal(t.set.layout, "ghcn-by-year");
    assert_int_equal(t.set.n, 2);
    assert_string_equal(t.set.site[0].name, "USC00000001");
    assert_string_equal(t.set.ignored, "SNOW");
    assert_int_equal(t.set.site[0].days.n, 3);
    near(weather_text_at(&t, "2020-01-01", WEATHER_TMAX), 5.6);
    near(weather_text_at(&t, "2020-01-01", WEATHER_TMIN), -9.9); /* and no mark of a missing value */
    assert_true(isnan(weather_text_at(&t, "2020-01-02", WEATHER_TMIN)));
    assert_true(isnan(weather_text_at(&t, "2020-01-03", WEATHER_TMAX)));
    near(weather_text_at(&t, "2020-01-03", WEATHER_RAIN), 0);
    near(t.set.site[1].days.col[WEATHER_RAIN][0], 0.3);
    assert_non_null(strstr(t.set.note, "are missing: 1; most days are the 24 hours before a reading at about 07 h"));
    weather_text_release(&t);
}

static void days_read_in_the_evening(void **state)
{
    struct weather_text t;
    (void)state;
    read_well(&t, "USC00000001,20200101,TMAX,56,,,7,1700\nUSC00000001,20200101,TMIN,-9,,,7,1700\n"
                  "USC00000001,20200102,TMAX,61,,,7,1800\nUSC00000001,20200103,TMAX,70,,,7,1800\n");
    assert_string_equal(t.set.note, "most days are the 24 hours before a reading at about 18 h: the warmth and rain of "
                                    "the evening may be those of the day before; nothing was moved between days");
    weather_text_release(&t);
}

static void long_with_names_and_more_columns(void **state)
{
    struct weather_text t;
    (void)state;
    read_well(&t,
              "ID,YEAR/MONTH/DAY,ELEMENT,DATA VALUE,M-FLAG,Q-FLAG,S-FLAG,OBS-TIME,LATITUDE,LONGITUDE,ELEVATION,STATE,"
              "NAME,GSN FLAG,HCN/CRN FLAT,WMO ID,geometry\r\n"
              "ITE00100554,17630101,TMAX,-36,,,E,,45.4717,9.1892,150.0,MILAN,,,,,POINT (9.1892 45.4717)\r\n"
              "ITE00100554,17630101,TMIN,-50,,,E,,45.4717,9.1892,150.0,MILAN,,,,,POINT (9.1892 45.4717)\r\n");
    assert_int_equal(t.set.site[0].days.day0, date_make(1763, 1, 1));
    near(weather_text_at(&t, "1763-01-01", WEATHER_TMAX), -3.6);
    near(weather_text_at(&t, "1763-01-01", WEATHER_TMIN), -5);
    near(t.set.site[0].place.latitude, 45.4717);
    near(t.set.site[0].place.longitude, 9.1892);
    near(t.set.site[0].place.elevation_m, 150);
    assert_string_equal(t.set.note, "");
    weather_text_release(&t);
}

static void long_of_one_station(void **state)
{
    struct weather_text t;
    (void)state;
    read_well(&t, "date,attr,value,a,b,c,d\n20140101,TMAX,-171,,,W,2400\n20140101,TMIN,-221,,,W,2400\n"
                  "20140101,PRCP,0,,,W,2400\n20140101,SNWD,150,,,W,\n20140101,AWND,40,,,W,\n");
    assert_string_equal(t.set.site[0].name, "");
    near(weather_text_at(&t, "2014-01-01", WEATHER_TMAX), -17.1);
    near(weather_text_at(&t, "2014-01-01", WEATHER_TMIN), -22.1);
    near(weather_text_at(&t, "2014-01-01", WEATHER_WIND), 4 * 0.748); /* FAO-56 Eq. 47 */
    assert_string_equal(t.set.note, "");
    weather_text_release(&t);
}

/* A line of the fixed width: values of the first days, then missing ones. */
static void dly(char *text, const char *head, const char *days)
{
    size_t n = strlen(head);
    memcpy(text, head, n);
    memcpy(text + n, days, strlen(days));
    for (n += strlen(days); n < 269; n += 8) {
        memcpy(text + n, "-9999   ", 8);
    }
    text[269] = '\n';
    text[270] = 0;
}

static void fixed_width(void **state)
{
    struct weather_text t;
    char text[5 * 270 + 1];
    (void)state;
    dly(text, "AGM00000001202002TMAX", "  215  E  -99  E  230 IE");
    dly(text + 270, "AGM00000001202002TMIN", "  100  E -150  E   99  E");
    dly(text + 540, "AGM00000001202002PRCP", "    0T E   15  E    0P E");
    dly(text + 810, "AGM00000001202002WT01", "    1  E");
    dly(text + 1080, "AGM00000001201912AWND", "   25  E");
    read_well(&t, text);
    assert_string_equal(t.set.layout, "ghcn-dly");
    assert_string_equal(t.set.site[0].name, "AGM00000001");
    assert_string_equal(t.set.ignored, "WT01");
    assert_int_equal(t.set.site[0].days.day0, date_make(2019, 12, 1));
    assert_int_equal(t.set.site[0].days.n, 65);
    near(weather_text_at(&t, "2020-02-02", WEATHER_TMAX), -9.9);
    near(weather_text_at(&t, "2020-02-02", WEATHER_TMIN), -15);
    assert_true(isnan(weather_text_at(&t, "2020-02-03", WEATHER_TMAX)));
    near(weather_text_at(&t, "2020-02-02", WEATHER_RAIN), 1.5);
    near(weather_text_at(&t, "2020-02-01", WEATHER_RAIN), 0);
    near(weather_text_at(&t, "2020-02-03", WEATHER_RAIN), 0);
    near(weather_text_at(&t, "2019-12-01", WEATHER_WIND), 2.5 * 0.748);
    assert_string_equal(t.set.note,
                        "values that failed the archive's own checks and are missing: 1; days whose rain of "
                        "0 the archive only presumed (flag P): 1");
    weather_text_release(&t);
}

static void fixed_width_with_its_blanks_cut_off(void **state)
{
    struct weather_text t;
    char text[2 * 270 + 8];
    (void)state;
    dly(text, "AGM00000001202001TMAX", "  215  E");
    strcpy(text + 266, "\r\n");
    dly(text + 268, "AGM00000001202001TMIN", "  100  E");
    text[268 + 269] = 0;
    read_well(&t, text);
    near(weather_text_at(&t, "2020-01-01", WEATHER_TMIN), 10);
    weather_text_release(&t);
}

static const struct refusal {
    const char *text, *field, *said;
    size_t line;
} refusals[] = {
    {"USC00000001,20200101,TMAX,56,,,7\nUSC00000001,20200101,TMIN,4.5,,,7\n", "TMIN",
     "4.5 is not a whole number, and this layout has whole tenths", 2},
    {"USC00000001,20200101,TMAX,700,,,7\nUSC00000001,20200101,TMIN,4,,,7\n", "TMAX", "700 is not possible", 1},
    {"USC00000001,20200101,TMAX,56,,,7\nUSC00000001,20200101,TMAX,57,,,7\nUSC00000001,20200101,TMIN,4,,,7\n", "TMAX",
     "TMAX of station USC00000001 stands twice for 2020-01-01", 2},
    {"USC00000001,20200101,TMAX,56,,,7\nUSC00000001,20200132,TMAX,57,,,7\n", "DATE", "is not a date", 2},
    {"USC00000001,20200101,TMAX,56,,,7\nUSC00000001,202001,TMAX,57,,,7\n", "DATE", "is not a date", 2},
    {"ID,DATE,ELEMENT,VALUE\nA,2020-01,TMAX,57\n", "DATE", "summaries of months", 2},
    {"USC00000001,20200101,TMAX,56,,,7\nUSC00000001,20200101\n", "", "the line has 2 fields where the first has 7", 2},
    {"USC00000001,20200101,TMAX,56,,,7\nUSC00000001,20200101,TMIN,4,,,7,0700\n", "", "the line has 8 fields", 2},
    {"USC00000001,20200101,TMAX,56,,,7\n", "", "has no values of minimum temperature", 1},
    {"date,attr,value\n20200101,SNOW,5\n", "", "has no values of temperature and rain", 1},
    {"date,attr,value\n20200101,TMAX,five\n", "TMAX", "\"five\" is not a number", 2},
};

static void expect_refusal(const char *text, const char *field, const char *said, size_t line)
{
    struct weather_text t;
    weather_text_read(&t, text);
    if (t.code != ERR_DATA || !strstr(t.err.what, said) || strcmp(t.err.field, field) != 0 || t.err.line != line) {
        fail_msg("%s\ngave %d, %zu:%zu: %s: %s", text, t.code, t.err.line, t.err.column, t.err.field, t.err.what);
    }
    assert_null(t.set.site);
    weather_text_release(&t);
}

static void each_refusal_has_its_reason(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof refusals / sizeof refusals[0]; i++) {
        expect_refusal(refusals[i].text, refusals[i].field, refusals[i].said, refusals[i].line);
    }
}

static void fixed_width_refusals(void **state)
{
    char text[2 * 270 + 8];
    (void)state;
    dly(text, "AGM00000001202001TMAX", "  215  E");
    dly(text + 270, "AGM00000001202001TMIN", "   x0  E");
    expect_refusal(text, "TMIN", "\"   x0\" is not a value of this layout", 2);
    dly(text + 270, "AGM00000001202013TMIN", "  100  E");
    expect_refusal(text, "", "the line is none of this layout", 2);
    strcpy(text + 270, "short\n");
    expect_refusal(text, "", "269 signs in all; it has 5", 2);
    dly(text + 270, "AGM00000001202004TMIN", "");
    memcpy(text + 270 + 21 + 30 * 8, "   50", 5);
    expect_refusal(text, "TMIN", "50 stands for day 31 of a month without one", 2);
}

/* Converted by somebody, and said so. */
static void said_units_are_obeyed(void **state)
{
    struct weather_hints hints = weather_no_hints;
    const char text[] = "date,attr,value\n20200101,TMAX,5.5\n20200101,TMIN,-1.25\n";
    struct weather_text t;
    (void)state;
    hints.units = "metric";
    arena_init(&t.arena);
    t.code = weather_read_bytes(text, sizeof text - 1, "w", &hints, &t.arena, &t.set, NULL);
    near(weather_text_at(&t, "2020-01-01", WEATHER_TMIN), -1.25);
    arena_release(&t.arena);
}

/* Many stations, in turns: each keeps its own values. */
static void many_stations(void **state)
{
    static char text[400 * 64];
    struct weather_text t;
    size_t n = 0;
    (void)state;
    for (int i = 0; i < 400; i++) {
        n += (size_t)snprintf(text + n, sizeof text - n, "USC%08d,202001%02d,PRCP,%d,,,7\n", i % 200, 1 + i / 200, i);
    }
    read_well(&t, text);
    assert_int_equal(t.set.n, 200);
    for (size_t i = 0; i < 200; i++) {
        assert_int_equal(t.set.site[i].days.n, 2);
        near(t.set.site[i].days.col[WEATHER_RAIN][0], (double)i / 10);
        near(t.set.site[i].days.col[WEATHER_RAIN][1], ((double)i + 200) / 10);
    }
    weather_text_release(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(long_without_names),
        cmocka_unit_test(days_read_in_the_evening),
        cmocka_unit_test(long_with_names_and_more_columns),
        cmocka_unit_test(long_of_one_station),
        cmocka_unit_test(fixed_width),
        cmocka_unit_test(fixed_width_with_its_blanks_cut_off),
        cmocka_unit_test(each_refusal_has_its_reason),
        cmocka_unit_test(fixed_width_refusals),
        cmocka_unit_test(said_units_are_obeyed),
        cmocka_unit_test(many_stations),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
