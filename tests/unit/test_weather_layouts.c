/* Files that are no table: each is told for what it is. And real files on disk: the
 * records in data/real, a folder, a file that is not there.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/weather_text.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static const struct kind {
    const char *bytes;
    size_t n; /* 0: as long as the text */
    size_t line;
    const char *said;
} kinds[] = {
    {"", 0, 0, "is empty"},
    {" \n\r\n\t", 0, 0, "is empty"},
    {"\xef\xbb\xbf", 0, 0, "is empty"},
    {"PK\3\4abc", 0, 0, "zip archive or a spreadsheet"},
    {"\x1f\x8b\x08", 0, 0, "packed with gzip"},
    {"\xff\xfe"
     "d\0a\0t\0e\0",
     10, 0, "UTF-16"},
    {"\xfe\xff\0d\0a\0t\0e", 10, 0, "UTF-16"},
    {"d\0a\0t\0e\0", 8, 0, "zero bytes"},
    {"date,tmin,tmax\n2024-05-01,\0,3\n", 30, 0, "zero bytes"},
    {"%PDF-1.4", 0, 0, "PDF"},
    {"\n<!DOCTYPE html><html></html>", 0, 0, "web page"},
    {"<?xml version=\"1.0\"?>", 0, 0, "web page or XML"},
    {"[weather.met.weather]\n!x\nyear day radn maxt mint rain\n", 0, 1,
     "simulation program (a crop model), which is out of scope here. Fetch the record"},
    {"*WEATHER DATA : X\n\n@DATE  SRAD  TMAX\n", 0, 1, "simulation program"},
    {"! x\n@  DATE  SRAD  TMAX\n99001  1  2\n", 0, 2, "simulation program"},
    {"Heathrow\n   yyyy  mm   tmax    tmin      af    rain     sun\n   1948   1    8.9     3.3    ---    85.0     "
     "---\n",
     0, 2, "monthly record of a British station, and daily values are needed. Fetch"},
    {"yyyy\tmm\ttmax\ttmin\train\n1948\t1\t8.9\t3.3\t85\n", 0, 1, "monthly record"},
    {"\"STATION\",\"NAME\",\"DATE\",\"TMAX\",\"TMIN\"\n\"U\",\"A, B\",\"2021-01-01\",\"44\",\"40\"\n", 0, 1,
     "does not say its units"},
    {"STATION,DATE,PRCP,TMAX,TMIN\nU,2021-01-01,0,44,40\n", 0, 1, "does not say its units"},
};

static void each_kind_is_told(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        struct weather_text t;
        weather_text_read_bytes(&t, kinds[i].bytes, kinds[i].n ? kinds[i].n : strlen(kinds[i].bytes));
        if (t.code != ERR_DATA || !strstr(t.err.what, kinds[i].said) || t.err.line != kinds[i].line) {
            fail_msg("%s: %d, line %zu: %s", kinds[i].bytes, t.code, t.err.line, t.err.what);
        }
        assert_string_equal(t.err.file, "w.csv");
        weather_text_release(&t);
    }
}

static void said_units_open_the_way(void **state)
{
    struct weather_text t;
    (void)state;
    weather_text_read(&t, "STATION,DATE,PRCP (in),TMAX (F),TMIN (F)\nU,2021-01-01,1,50,32\n");
    assert_int_equal(t.code, ERR_OK);
    assert_true(fabs(weather_text_at(&t, "2021-01-01", WEATHER_TMAX) - 10) < 1e-9);
    weather_text_release(&t);
}

/* Counts and spans as data/SOURCES.md states them. */
static void shipped_records_are_read(void **state)
{
    static const struct {
        const char *path;
        int first_year, last_year, last_month, last_day;
    } records[] = {
        {"data/real/dublin_airport_2010-2020.csv", 2010, 2020, 10, 31},
        {"data/real/de_bilt_2005-2019.csv", 2005, 2019, 12, 31},
        {"data/real/shorter_al_us_2010-2019.csv", 2010, 2019, 12, 31},
    };
    (void)state;
    for (size_t i = 0; i < sizeof records / sizeof records[0]; i++) {
        struct arena a;
        struct weather_set set;
        struct err e;
        arena_init(&a);
        err_clear(&e);
        assert_int_equal(weather_read(records[i].path, NULL, &a, &set, &e), ERR_OK);
        assert_int_equal(set.n, 1);
        const struct weather_days *w = &set.site[0].days;
        date_t first = date_make(records[i].first_year, 1, 1);
        date_t last = date_make(records[i].last_year, records[i].last_month, records[i].last_day);
        assert_int_equal(w->day0, first);
        assert_int_equal(w->n, last - first + 1);
        for (size_t k = 0; k < w->n; k++) {
            assert_false(isnan(w->col[WEATHER_TMIN][k]) || isnan(w->col[WEATHER_RAIN][k]));
        }
        arena_release(&a);
    }
}

static void what_is_no_file_is_told(void **state)
{
    static const char *const paths[] = {"tests", "tests/unit/no-such-file.csv"};
    (void)state;
    for (size_t i = 0; i < 2; i++) {
        struct arena a;
        struct weather_set set;
        struct err e;
        arena_init(&a);
        err_clear(&e);
        assert_int_equal(weather_read(paths[i], NULL, &a, &set, &e), ERR_NOINPUT);
        assert_string_equal(e.file, paths[i]);
        assert_int_equal(set.n, 0);
        arena_release(&a);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_kind_is_told),
        cmocka_unit_test(said_units_open_the_way),
        cmocka_unit_test(shipped_records_are_read),
        cmocka_unit_test(what_is_no_file_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
