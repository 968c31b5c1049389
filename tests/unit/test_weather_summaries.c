/* United States daily summaries, JSON and CSV: values, units told or said, flags, several
 * stations, and each refusal with its place. Rows of Sitka 2021 and Central Park 2023
 * are NOAA NCEI daily summaries (US public domain); all others are invented in the
 * documented layouts. SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/weather_text.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static void read_as(struct weather_text *t, const char *text, const char *units)
{
    struct weather_hints hints = weather_no_hints;
    hints.units = units;
    arena_init(&t->arena);
    err_clear(&t->err);
    t->code = weather_read_bytes(text, strlen(text), "w.csv", &hints, &t->arena, &t->set, &t->err);
}

static void read_well(struct weather_text *t, const char *text, const char *units)
{
    read_as(t, text, units);
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

static void json_of_central_park(void **state)
{
    struct weather_text t;
    (void)state;
    read_well(
        &t,
        "[{\"DATE\":\"2023-07-15\",\"STATION\":\"USW00094728\",\"TMAX\":\"  311\",\"TMIN\":\"  217\",\"AWBT\":\"  "
        "233\",\"ADPT\":\"  228\",\"RHAV\":\"   83\"},\n"
        " {\"DATE\":\"2023-07-16\",\"STATION\":\"USW00094728\",\"TMAX\":\"  256\",\"TMIN\":\"  233\",\"AWBT\":\"  "
        "239\",\"ADPT\":\"  233\",\"RHAV\":\"   91\"},\n"
        " {\"DATE\":\"2023-07-17\",\"STATION\":\"USW00094728\",\"TMAX\":\"  311\",\"TMIN\":\"  233\",\"AWBT\":\"  "
        "228\",\"ADPT\":\"  206\",\"RHAV\":\"   70\"}]",
        NULL);
    assert_string_equal(t.set.layout, "summaries-json");
    assert_string_equal(t.set.site[0].name, "USW00094728");
    assert_string_equal(t.set.ignored, "AWBT");
    assert_non_null(strstr(t.set.note, "taken as tenths"));
    assert_int_equal(t.set.site[0].days.n, 3);
    near(weather_text_at(&t, "2023-07-15", WEATHER_TMAX), 31.1);
    near(weather_text_at(&t, "2023-07-16", WEATHER_TMIN), 23.3);
    near(weather_text_at(&t, "2023-07-17", WEATHER_TDEW), 20.6);
    near(weather_text_at(&t, "2023-07-17", WEATHER_RH), 70);
    assert_null(t.set.site[0].days.col[WEATHER_RAIN]);
    weather_text_release(&t);
}

#define DAY(date, station, values) "{\"DATE\":\"" date "\",\"STATION\":\"" station "\"," values "}"

static void json_with_said_units(void **state)
{
    struct weather_text t;
    (void)state;
    read_well(&t,
              "[" DAY("2022-01-03", "GME00000001",
                      "\"LATITUDE\":\"50.5\",\"LONGITUDE\":8.25,\"ELEVATION\":\"120.0\",\"TMAX\":\" 5.5\",\"TMIN\":-1,"
                      "\"PRCP\":\"0.4\",\"AWND\":\"10\"") "," DAY("2022-01-01", "GME00000001",
                                                                  "\"TMAX\":\"4\",\"TMIN\":\"2\",\"PRCP\":\"\"") "]",
              "metric");
    assert_string_equal(t.set.note, "");
    assert_int_equal(t.set.n, 1);
    near(t.set.site[0].place.latitude, 50.5);
    near(t.set.site[0].place.longitude, 8.25);
    near(t.set.site[0].place.elevation_m, 120);
    assert_int_equal(t.set.site[0].days.day0, date_make(2022, 1, 1));
    assert_int_equal(t.set.site[0].days.n, 3);
    assert_int_equal(t.set.site[0].days.origin[1], ORIGIN_NONE);
    near(weather_text_at(&t, "2022-01-03", WEATHER_TMIN), -1);
    near(weather_text_at(&t, "2022-01-03", WEATHER_WIND), 7.48); /* FAO-56 Eq. 47 */
    assert_true(isnan(weather_text_at(&t, "2022-01-01", WEATHER_RAIN)));
    weather_text_release(&t);
}

static void stations_may_take_turns(void **state)
{
    struct weather_text t;
    (void)state;
    read_well(&t,
              "[" DAY("2022-01-01", "A", "\"TMAX\":\"51\",\"TMIN\":\"22\"") "," DAY(
                  "2022-01-01", "B",
                  "\"TMAX\":\"61\",\"TMIN\":\"32\"") "," DAY("2022-01-02", "A",
                                                             "\"TMAX\":\"52\",\"TMIN\":\"-9999\"") "," DAY("2022-01-02",
                                                                                                           "SNOWGAUGE",
                                                                                                           "\"SNOW\":"
                                                                                                           "\"3\"") "]",
              "tenths");
    assert_int_equal(t.set.n, 2);
    assert_string_equal(t.set.site[1].name, "B");
    assert_int_equal(t.set.site[0].days.n, 2);
    assert_int_equal(t.set.site[1].days.n, 1);
    near(t.set.site[1].days.col[WEATHER_TMIN][0], 3.2);
    assert_true(isnan(weather_text_at(&t, "2022-01-02", WEATHER_TMIN)));
    assert_string_equal(t.set.ignored, "SNOW");
    weather_text_release(&t);
}

#define SITKA_HEAD                                                                                                     \
    "\"STATION\",\"NAME\",\"DATE\",\"AWND\",\"PGTM\",\"PRCP\",\"TAVG\",\"TMAX\",\"TMIN\",\"WDF2\",\"WT01\"\n"
#define SITKA(day, awnd, prcp, tmax, tmin)                                                                             \
    "\"USW00025333\",\"SITKA AIRPORT, AK US\",\"2021-01-" day "\",\"" awnd "\",\" 0411\",\"" prcp "\",,\"" tmax        \
    "\",\"" tmin "\",\"  110\",\n"
#define SITKA_ROWS                                                                                                     \
    SITKA("01", "8.72", "0.01", "44", "40")                                                                            \
    SITKA("02", "7.61", "0.07", "44", "35")                                                                            \
    SITKA("03", "6.71", "0.29", "43", "36") SITKA("04", "15.88", "0.25", "45", "39")

static void csv_of_sitka(void **state)
{
    struct weather_text t;
    (void)state;
    read_well(&t, SITKA_HEAD SITKA_ROWS, NULL);
    assert_string_equal(t.set.layout, "summaries-csv");
    assert_string_equal(t.set.ignored, "PGTM, TAVG, WDF2, WT01");
    assert_non_null(strstr(t.set.note, "taken as us (F, inch, mph)"));
    near(weather_text_at(&t, "2021-01-02", WEATHER_TMAX), (44 - 32) / 1.8);
    near(weather_text_at(&t, "2021-01-02", WEATHER_TMIN), (35 - 32) / 1.8);
    near(weather_text_at(&t, "2021-01-03", WEATHER_RAIN), 0.29 * 25.4);
    near(weather_text_at(&t, "2021-01-01", WEATHER_WIND), 8.72 * 0.44704 * 0.748);
    weather_text_release(&t);
    read_well(&t, "\xef\xbb\xbf" SITKA_HEAD SITKA_ROWS, "us");
    assert_string_equal(t.set.note, "");
    near(weather_text_at(&t, "2021-01-03", WEATHER_RAIN), 0.29 * 25.4);
    weather_text_release(&t);
}

#define STATION_HEAD                                                                                                   \
    "\"STATION\",\"DATE\",\"LATITUDE\",\"LONGITUDE\",\"ELEVATION\",\"NAME\",\"PRCP\",\"PRCP_ATTRIBUTES\",\"TMAX\","    \
    "\"TMAX_ATTRIBUTES\",\"TMIN\",\"TMIN_ATTRIBUTES\",\"DAPR\",\"DAPR_ATTRIBUTES\",\"MDPR\",\"MDPR_ATTRIBUTES\"\r\n"
#define STATION(date, values)                                                                                          \
    "\"USC00000001\",\"" date "\",\"34.75\",\"-86.9\",\"183.0\",\"A PLACE, AL US\"," values "\r\n"

static void csv_of_a_station(void **state)
{
    struct weather_text t;
    (void)state;
    read_well(&t,
              STATION_HEAD STATION("2020-07-01", "\"    0\",\"T,,7,0700\",\"  322\",\",,7,0700\",\"  206\",\",,7\",,,,")
                  STATION("2020-07-02", "\"  155\",\",,7,0700\",\"  900\",\",X,7,0700\",\"  211\",\",,7\",,,,")
                      STATION("2020-07-04", ",,\"  311\",\",,7,0700\",\"  200\",\",,7\",\"    2\",\",,7\",\"  254\","
                                            "\",,7,0700\"")
                          STATION("2020-07-05", "\"    0\",\"P,,7\",\"  317\",\",,7,0700\",\"  328\",\",,7\",,,,"),
              NULL);
    near(t.set.site[0].place.latitude, 34.75);
    near(t.set.site[0].place.elevation_m, 183);
    assert_int_equal(t.set.site[0].days.n, 5);
    near(weather_text_at(&t, "2020-07-01", WEATHER_RAIN), 0);            /* a trace */
    assert_true(isnan(weather_text_at(&t, "2020-07-02", WEATHER_TMAX))); /* failed a check */
    near(weather_text_at(&t, "2020-07-02", WEATHER_RAIN), 15.5);
    assert_true(isnan(weather_text_at(&t, "2020-07-03", WEATHER_RAIN))); /* gathered */
    assert_true(isnan(weather_text_at(&t, "2020-07-04", WEATHER_RAIN)));
    near(weather_text_at(&t, "2020-07-05", WEATHER_RAIN), 0);            /* presumed */
    assert_true(isnan(weather_text_at(&t, "2020-07-05", WEATHER_TMIN))); /* above the maximum */
    assert_true(isnan(weather_text_at(&t, "2020-07-05", WEATHER_TMAX)));
    static const char *const said[] = {"taken as tenths",
                                       "failed the archive's own checks and are missing: 1",
                                       "25 mm in 1 (2 days)",
                                       "(flag P): 1",
                                       "both missing now: 1, the first 2020-07-05",
                                       "about 07 h: the maximum and most of the rain may be those of the day before"};
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        if (!strstr(t.set.note, said[i])) {
            fail_msg("%s: not \"%s\"", t.set.note, said[i]);
        }
    }
    weather_text_release(&t);
}

static void readings_at_midnight_need_no_word(void **state)
{
    struct weather_text t;
    (void)state;
    read_well(&t,
              "STATION;DATE;TMAX;TMAX_ATTRIBUTES;TMIN;LATITUDE;LONGITUDE;ELEVATION\n"
              "A;20200701;322;,,W,2400;206;-99.9;-999.9;-999.9\nA;20200702;322;,,W;206;;;\n",
              "tenths");
    assert_string_equal(t.set.note, "");
    assert_true(isnan(t.set.site[0].place.latitude) && isnan(t.set.site[0].place.elevation_m));
    near(weather_text_at(&t, "2020-07-02", WEATHER_TMIN), 20.6);
    weather_text_release(&t);
}

#define CSV "STATION,DATE,TMAX,TMIN,PRCP\n"

static const struct refusal {
    const char *text, *units, *field, *said;
    size_t line;
} refusals[] = {
    {CSV "A,2021-01-01,44,40,0.0\nA,2021-01-02,43,35,0.0\n", NULL, "", "--file-units metric (C, mm, m/s), us", 1},
    {CSV "A,2021-01-01,44,40,0.0\n", NULL, "", "temperature looks like metric or us or tenths, rain looks like", 1},
    {CSV "A,2021-01-01,71,40,0.5\nA,2021-01-02,72,41,0.12\n", "metric", "TMAX",
     "71 is not possible in these units; -90 to 60 C", 2},
    {CSV "A,2021-01-01,7,4,-5\n", "tenths", "PRCP", "-5 is not possible", 2},
    {CSV "A,2021-01,71,40,0.5\n", NULL, "DATE", "ask the archive for the data set daily-summaries", 2},
    {CSV "A,2021,71,40,0.5\n", NULL, "DATE", "summaries of months or years", 2},
    {CSV "\nA,1/2/2021,71,40,0.5\n", NULL, "DATE", "\"1/2/2021\" is not a date", 3},
    {CSV "A,2021-02-29,71,40,0.5\n", NULL, "DATE", "is not a date", 2},
    {CSV "A,2021-01-01,71,warm,0.5\n", NULL, "TMIN", "\"warm\" is not a number", 2},
    {CSV "A,2021-01-01,71,40\n", NULL, "", "the line has 4 fields where 5 are named", 2},
    {CSV "A,2021-01-01,71,40,0,1\n", NULL, "", "the line has 6 fields where 5 are named", 2},
    {CSV "A,2021-01-01,71,40,0\nA,2021-01-01,71,40,0\n", "us", "TMAX", "stands twice for 2021-01-01", 3},
    {CSV "\"A,2021-01-01,71,40,0\n", NULL, "", "a quote is opened here", 2},
    {CSV "0123456789012345678901234567890123456789012345678901234567890123,2021-01-01,71,40,0\n", NULL, "STATION",
     "too long for a station", 2},
    {CSV, NULL, "", "has no values of temperature and rain", 1},
    {CSV "A,2021-01-01,71,,0\n", "us", "", "has no values of minimum temperature (TMIN)", 1},
    {CSV "A,2021-01-01,,40,0\n", "us", "", "has no values of maximum temperature (TMAX)", 1},
    {CSV "A,1700-01-01,71,40,0\nA,2100-01-01,71,40,0\n", "us", "", "more than 120000 days", 1},
    {"STATION,DATE,LATITUDE,TMAX,TMIN\nA,2021-01-01,95,71,40\n", "us", "LATITUDE", "95 is not possible", 2},
    {"STATION,DATE,LATITUDE,TMAX,TMIN\nA,2021-01-01,north,71,40\n", "us", "LATITUDE", "is not a number", 2},
    {"\"STATION\",\"DATE\",\"TEMP\",\"MAX\",\"MIN\",\"PRCP\",\"FRSHTT\"\n\"7\",\"2021-01-01\",\"1\",\"1\",\"1\",\"0\","
     "\"0\"\n",
     NULL, "", "the global summary of the day", 1},
    {"[" DAY("2021-01-01", "A", "\"TMAX\":\"44\"") ",\n" DAY("2021-02", "A", "\"TMAX\":\"44\"") "]", NULL, "[1].DATE",
     "summaries of months", 2},
    {"[" DAY("2021-01-01", "A", "\"TMAX\":\"44\",\n\"TMIN\":\"x\"") "]", NULL, "[0].TMIN", "\"x\" is not a number", 2},
    {"[" DAY("2021-01-01", "A", "\"TMAX\":\"44\",\"TMIN\":\"40\"") "]", NULL, "[0]", "does not say its units", 1},
    {"[" DAY("2021-01-01", "A", "\"TMAX\":\"44\",\"TMIN\":\"40\"") ",[[1]]]", NULL, "[1].DATE", "\"\" is not a date",
     1},
};

static void each_refusal_has_its_reason(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof refusals / sizeof refusals[0]; i++) {
        const struct refusal *r = &refusals[i];
        struct weather_text t;
        read_as(&t, r->text, r->units);
        if (t.code != ERR_DATA || !strstr(t.err.what, r->said) || strcmp(t.err.field, r->field) != 0 ||
            t.err.line != r->line) {
            fail_msg("%s\ngave %d, %zu:%zu: %s: %s", r->text, t.code, t.err.line, t.err.column, t.err.field,
                     t.err.what);
        }
        assert_null(t.set.site);
        weather_text_release(&t);
    }
}

/* A layout forced on a file of another kind is refused, not trusted. */
static void forced_layouts_look_again(void **state)
{
    static const char *const layouts[] = {"summaries-json", "summaries-csv", "ghcn-by-year", "ghcn-dly"};
    static const char *const texts[] = {"", "a,b\n1,2\n", "{\"a\":[1]}", "[[1],[2]]", "x"};
    (void)state;
    for (size_t i = 0; i < 4 * 5; i++) {
        struct weather_hints hints = weather_no_hints;
        struct weather_text t;
        const char *text = texts[i % 5];
        hints.layout = layouts[i / 5];
        arena_init(&t.arena);
        err_clear(&t.err);
        assert_int_equal(weather_read_bytes(text, strlen(text), "w", &hints, &t.arena, &t.set, &t.err), ERR_DATA);
        assert_true(t.err.what[0] != 0);
        arena_release(&t.arena);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(json_of_central_park),
        cmocka_unit_test(json_with_said_units),
        cmocka_unit_test(stations_may_take_turns),
        cmocka_unit_test(csv_of_sitka),
        cmocka_unit_test(csv_of_a_station),
        cmocka_unit_test(readings_at_midnight_need_no_word),
        cmocka_unit_test(each_refusal_has_its_reason),
        cmocka_unit_test(forced_layouts_look_again),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
