/* Every way in which a CSV file is refused: the line, the column and the reason are
 * told, and nothing half-read is handed over. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/limits.h"
#include "support/weather_text.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#define HEAD "date,tmin,tmax,rain\n"

static const struct refusal {
    const char *text;
    size_t line, column; /* 0: not told */
    const char *field, *said;
} refusals[] = {
    {HEAD "2024-05-01,warm,15,0\n", 2, 12, "tmin", "\"warm\" is not a number"},
    {HEAD "2024-05-01,5,15,0\n2024-05-02,6,1o,0\n", 3, 14, "tmax", "\"1o\" is not a number"},
    {HEAD "2024-05-01,5,0x1F,0\n", 2, 14, "tmax", "\"0x1F\" is not a number"},
    {HEAD "2024-05-01,5,inf,0\n", 2, 14, "tmax", "\"inf\" is not a number"},
    {HEAD "2024-05-01,5,1e400,0\n", 2, 14, "tmax", "\"1e400\" is not a number"},
    {HEAD "2024-05-01,5,1.2.3,0\n", 2, 14, "tmax", "\"1.2.3\" is not a number"},
    {HEAD "2024-05-01,5-,15,0\n", 2, 12, "tmin", "\"5-\" is not a number"},
    {"date;tmin;tmax\n2024-05-01;5,5;15.5\n", 2, 12, "tmin", "after a point"},
    {HEAD "2024-05-01,5,88,0\n", 2, 14, "tmax", "\"88\" is not possible; -90 to 60 C is allowed"},
    {"date,tmin_c,tmax_c\n2024-05-01,5,61\n", 2, 14, "tmax_c",
     "-90 to 60 C is allowed. Is it Fahrenheit? Then let the column's name say so, such as tmax_f"},
    {"date,tmin_c,tmax_c\n2024-05-01,64.4,81\n", 2, 12, "tmin_c", "such as tmin_f"},
    {"date,tmin_f,tmax_f\n2024-05-01,50,141\n", 2, 15, "tmax_f", "-90 to 60 C is allowed"},
    {HEAD "2024-05-01,5,15,-2\n", 2, 17, "rain", "0 to 2000 mm is allowed"},
    {HEAD "2024-05-01,5,15,2001\n", 2, 17, "rain", "0 to 2000 mm is allowed"},
    {"date,tmin,tmax,rad\n2024-05-01,5,15,1500\n", 2, 17, "rad", "say it in the column name"},
    {"date,tmin,tmax,rad\n2024-05-01,5,15,51\n", 2, 17, "rad", "0 to 50 MJ/m2 is allowed"},
    {"date,tmin,tmax,rh\n2024-05-01,5,15,110.1\n", 2, 17, "rh", "0 to 110 % is allowed"},
    {"date,tmin,tmax,wind\n2024-05-01,5,15,121\n", 2, 17, "wind", "0 to 120 m/s is allowed"},
    {HEAD "2024-05-01,15.5,5,0\n", 2, 0, "", "on 2024-05-01 the minimum of 15.5 C is above the maximum of 5 C"},
    {HEAD "2024-05-01,5,15,0\n2024-05-02,15.5,5,0\n2024-05-03,16,6,0\n", 3, 0, "", "and so on 2 of 3 days"},
    {HEAD "2024-05-01,5,15,0\n2024-05-01,5,15,0\n", 3, 1, "date", "the date 2024-05-01 stands twice"},
    {HEAD "2024-05-02,5,15,0\n2024-05-01,5,15,0\n", 3, 1, "date", "2024-05-01 comes after 2024-05-02; sort"},
    {HEAD "2024-05-01,5,15,0\n2024-05-03,5,15,0\n2024-05-02,5,15,0\n", 4, 1, "date", "sort the rows by date"},
    {HEAD "2023-02-28,5,15,0\n2023-02-29,5,15,0\n", 3, 1, "date", "2023 is not a leap year"},
    {HEAD "2024-04-31,5,15,0\n", 2, 1, "date", "\"2024-04-31\" is not in the calendar"},
    {HEAD "2024-13-01,5,15,0\n", 2, 1, "date", "is not in the calendar"},
    {HEAD "1024-01-01,5,15,0\n", 2, 1, "date", "years 1700 to 2200"},
    {HEAD "yesterday,5,15,0\n", 2, 1, "date", "\"yesterday\" is not a date that can be read"},
    {HEAD "01-Jan-42,5,15,0\n", 2, 1, "date", "year of two digits"},
    {HEAD "2024-05-01,5,15,0\n02.05.2024,5,15,0\n", 3, 1, "date", "is not a date that can be read"},
    {HEAD "20240501,5,15,0\n2024-05-02,5,15,0\n", 3, 1, "date", "one way throughout the file"},
    {HEAD "2024-05-01 13:00,5,15,0\n", 2, 1, "date", "without a time of day"},
    {HEAD "2024-05-01T00:00,5,15,0\n2024-05-01T01:00,5,15,0\n", 3, 1, "date", "one row a day is needed"},
    {HEAD ",5,15,0\n", 2, 1, "date", "values and no date"},
    {HEAD "03/04/2024,5,15,0\n04/04/2024,5,15,0\n", 2, 1, "date", "day/month or month/day"},
    {HEAD "12/04/2024,5,15,0\n13/04/2024,5,15,0\n01/13/2024,5,15,0\n", 4, 1, "date",
     "line 3 shows that the dates are day/month/year"},
    {"year,doy,tmin,tmax\n2023,366,5,15\n", 2, 1, "year", "day 366 of 2023 does not exist"},
    {"year,month,day,tmin,tmax\n2023,2,29,5,15\n", 2, 1, "year", "2023-02-29 does not exist: it is not a leap year"},
    {"year,month,day,tmin,tmax\n2023,14,1,5,15\n", 2, 6, "month", "from 1 to 12 is allowed"},
    {"year,month,day,tmin,tmax\n2023,,1,5,15\n", 2, 1, "year", "no full date"},
    {HEAD "2024-05-01,5,15\n", 2, 16, "", "3 fields where 4 are named"},
    {HEAD "2024-05-01,5,15,0,7\n", 2, 19, "", "\"7\" is one field more than the 4 column names"},
    {HEAD "2024-05-01,5,15,\"0\n", 2, 17, "", "a quote is opened here and not closed"},
    {HEAD "2024-05-01,5,15,\"0\"1\n", 2, 20, "", "text after a closing quote"},
    {HEAD, 2, 0, "", "no rows of data"},
    {HEAD "\n\n,,,\n", 5, 0, "", "no rows of data"},
    {"date,tmin,rain\n2024-05-01,5,0\n", 1, 0, "", "no column of daily maximum temperature"},
    {"date,tmax,rain\n2024-05-01,5,0\n", 1, 0, "", "no column of daily minimum temperature"},
    {"date,warmth,wetness\n2024-05-01,5,0\n", 1, 0, "", "Found: date, warmth, wetness"},
    {"tmin,tmax,rain\n5,15,0\n", 1, 0, "", "no column of dates"},
    {"2024-05-01,5,15,0\n2024-05-02,5,15,0\n", 1, 0, "", "no row of column names"},
    {"year\tmonth\ttmax\ttmin\train\n1948\t1\t8.9\t3.3\t85\n", 1, 0, "", "monthly values"},
    {"Dear all\nthe weather was fine\n", 1, 0, "", "no row of column names"},
    {"date,tmin,tmax,temp_min\n2024-05-01,5,15,5\n", 1, 16, "temp_min", "means the same as the column \"tmin\""},
    {"date,tmin,tmax (furlong)\n2024-05-01,5,15\n", 1, 11, "tmax (furlong)", "the unit \"furlong\" is not known; C, F"},
    {"date,tmin,tmax\n-,C,furlong\n2024-05-01,5,15\n", 2, 5, "tmax", "the unit \"furlong\" is not known"},
    {"site,date,tmin,tmax\na,2024-05-01,5,15\nb,2024-05-01,5,15\na,2024-05-02,5,15\n", 4, 0, "site",
     "the site \"a\" began on line 2 and comes back here"},
    {"site,date,tmin,tmax\na,2024-05-02,5,15\na,2024-05-01,5,15\n", 3, 3, "date", "site by site"},
    {"lat,date,tmin,tmax\n152,2024-05-01,5,15\n", 2, 1, "lat", "-90 to 90 is allowed"},
};

static void each_fault_has_its_place_and_reason(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof refusals / sizeof refusals[0]; i++) {
        const struct refusal *r = &refusals[i];
        struct weather_text t;
        weather_text_read(&t, r->text);
        if (t.code != ERR_DATA || t.err.code != ERR_DATA || !strstr(t.err.what, r->said) || t.err.line != r->line ||
            t.err.column != r->column || strcmp(t.err.field, r->field) != 0 || strcmp(t.err.file, "w.csv") != 0) {
            fail_msg("%s\ngave %d, %s:%zu:%zu: %s: %s", r->text, t.code, t.err.file, t.err.line, t.err.column,
                     t.err.field, t.err.what);
        }
        assert_int_equal(t.set.n, 0);
        assert_null(t.set.site);
        weather_text_release(&t);
    }
}

/* days rows of 2001 on, each with the same values */
static char *many_days(const char *head, const char *values, int days)
{
    char date[DATE_TEXT], *text = malloc(strlen(head) + (size_t)days * (strlen(values) + 16) + 1);
    size_t n = (size_t)sprintf(text, "%s", head);
    for (int i = 0; i < days; i++) {
        n += (size_t)sprintf(text + n, "%s,%s\n", date_format(date_make(2001, 1, 1) + i, date), values);
    }
    return text;
}

/* Units that are not said and cannot be ours, and the same when they are said. */
static const struct slip {
    const char *head, *values;
    size_t line, column;
    const char *said; /* NULL: read */
} slips[] = {
    {"date,tmin,tmax\n", "35,50", 1, 11, "looks like Fahrenheit"},
    {"date,tmin_f,tmax_f\n", "35,50", 0, 0, NULL},
    {"date,tmin_c,tmax_c\n", "35,50", 0, 0, NULL},
    {"date,tmin,tmax,rain\n", "5,15,0.1", 1, 16, "looks like inches"},
    {"date,tmin,tmax,rain_inch\n", "5,15,0.1", 0, 0, NULL},
    {"date,tmin,tmax,rain_mm\n", "5,15,0.1", 0, 0, NULL},
    {"date,tmin,tmax,rain\n", "5,15,25", 1, 16, "looks like tenths"},
    {"date,tmin,tmax,rad\n", "5,15,4.2", 1, 16, "looks like kWh/m2"},
    {"date,tmin,tmax,rad (kWh/m2)\n", "5,15,4.2", 0, 0, NULL},
    {"date,tmin,tmax,rad\n", "5,15,14.2", 0, 0, NULL},
};

static void slips_of_unit_are_refused_until_said(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof slips / sizeof slips[0]; i++) {
        struct weather_text t;
        char *text = many_days(slips[i].head, slips[i].values, 400);
        weather_text_read(&t, text);
        free(text);
        bool as_wanted = slips[i].said ? t.code == ERR_DATA && strstr(t.err.what, slips[i].said) &&
                                             strstr(t.err.what, "in brackets") && t.err.line == slips[i].line &&
                                             t.err.column == slips[i].column
                                       : t.code == ERR_OK;
        if (!as_wanted) {
            fail_msg("%s%s: %d, %zu:%zu %s", slips[i].head, slips[i].values, t.code, t.err.line, t.err.column,
                     t.err.what);
        }
        weather_text_release(&t);
    }
}

static void a_line_without_end_is_refused(void **state)
{
    (void)state;
    struct weather_text t;
    const char *head = "date,tmin,tmax,remark\n2024-05-01,5,15,";
    size_t n = strlen(head), size = n + LIMIT_LINE_BYTES;
    char *text = malloc(size);
    memcpy(text, head, n);
    memset(text + n, 'x', size - n);
    weather_text_read_bytes(&t, text, size);
    free(text);
    assert_int_equal(t.code, ERR_DATA);
    assert_int_equal(t.err.line, 2);
    assert_non_null(strstr(t.err.what, "at most 65536 are allowed"));
    weather_text_release(&t);
}

static void too_many_days_are_refused(void **state)
{
    (void)state;
    struct weather_text t;
    weather_text_read(&t, HEAD "1700-01-01,5,15,0\n2200-01-01,5,15,0\n");
    assert_int_equal(t.code, ERR_DATA);
    assert_int_equal(t.err.line, 3);
    assert_non_null(strstr(t.err.what, "more than 120000 days"));
    weather_text_release(&t);
}

/* Where rows are read quickly as where they are read with care. */
static void the_calendar_ends_with_2200(void **state)
{
    char text[4000], date[DATE_TEXT];
    size_t n = (size_t)snprintf(text, sizeof text, HEAD);
    date_t first = date_make(2200, 12, 1);
    struct weather_text t;
    (void)state;
    for (int i = 0; i < 90; i++) {
        n += (size_t)snprintf(text + n, sizeof text - n, "%s,5,15,0\n", date_format(first + i, date));
    }
    weather_text_read(&t, text);
    assert_int_equal(t.code, ERR_DATA);
    assert_int_equal(t.err.line, 1 + 31 + 1);
    assert_non_null(strstr(t.err.what, "\"2201-01-01\" is not in the calendar; years 1700 to 2200 are allowed"));
    weather_text_release(&t);
}

/* Cut anywhere, the file is read as far as whole rows go or refused, and never misread:
 * whatever is read agrees with the whole. */
static void cut_short_it_never_misreads(void **state)
{
    (void)state;
    const char *text = HEAD "2024-05-01,5.5,15.25,0.4\r\n\"2024-05-02\",-6,16,\n2024-05-03,7,17,1\n";
    for (size_t n = 0; n < strlen(text); n++) {
        struct weather_text t;
        weather_text_read_bytes(&t, text, n);
        assert_true(t.code == ERR_OK || t.code == ERR_DATA);
        if (t.code == ERR_OK) {
            assert_true(weather_text_at(&t, "2024-05-01", WEATHER_TMIN) == 5.5);
            assert_int_equal(t.set.site[0].days.day0, date_make(2024, 5, 1));
        }
        weather_text_release(&t);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_fault_has_its_place_and_reason), cmocka_unit_test(slips_of_unit_are_refused_until_said),
        cmocka_unit_test(a_line_without_end_is_refused),       cmocka_unit_test(too_many_days_are_refused),
        cmocka_unit_test(the_calendar_ends_with_2200),         cmocka_unit_test(cut_short_it_never_misreads),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
