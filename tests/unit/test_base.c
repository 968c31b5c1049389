/* base: numbers, dates, buffers, errors, arena, clock. SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/arena.h"
#include "base/buf.h"
#include "base/clock.h"
#include "base/date.h"
#include "base/err.h"
#include "base/json.h"
#include "base/limits.h"
#include "base/num.h"

/* The outside reference is the C library's strtod, correctly rounded in the C locale. */
static void numbers_equal_the_c_library(void **state)
{
    static const char *const text[] = {"0",   "-0",     "1",    "12.5",     "-3.75",  "0.1",
                                       "1e3", "1.5E-3", "1e22", "1e-22",    "1e300",  "1e-300",
                                       ".5",  "5.",     "00.7", "4.9e-324", "+17.25", "123456789012345678"};
    (void)state;
    for (size_t i = 0; i < sizeof text / sizeof *text; i++) {
        double x = -1;
        assert_true(num_parse(text[i], strlen(text[i]), '.', &x));
        assert_true(x == strtod(text[i], NULL));
    }
    srand(1);
    for (int i = 0; i < 20000; i++) {
        char digits[64];
        double x;
        snprintf(digits, sizeof digits, "%d.%0*d", rand() % 2000 - 1000, 1 + rand() % 9, rand() % 10);
        assert_true(num_parse(digits, strlen(digits), '.', &x));
        assert_true(x == strtod(digits, NULL));
    }
}

static void numbers_refuse_what_is_none(void **state)
{
    static const char *const text[] = {"",   "-",     ".",  "1.2.3", "1,5",   "nan", "inf", "0x10", "1e",
                                       "e5", "1e+5x", " 1", "1 ",    "1e999", "--1", "1-2", "1e5.5"};
    double x = 42;
    long n = 7;
    (void)state;
    for (size_t i = 0; i < sizeof text / sizeof *text; i++) {
        assert_false(num_parse(text[i], strlen(text[i]), '.', &x));
    }
    assert_true(num_parse("1,5", 3, ',', &x) && x == 1.5);
    assert_false(num_parse_long("12x", 3, 0, 99, &n));
    assert_false(num_parse_long("100", 3, 0, 99, &n));
    assert_true(num_parse_long("-12", 3, -12, 99, &n) && n == -12);
}

static void dates_follow_the_calendar(void **state)
{
    char text[64];
    (void)state;
    assert_int_equal(date_make(1970, 1, 1), 0);
    assert_int_equal(date_make(2023, 2, 29), DATE_NONE);
    assert_int_equal(date_make(1900, 2, 29), DATE_NONE);
    assert_int_not_equal(date_make(2000, 2, 29), DATE_NONE);
    assert_int_equal(date_parse_iso("2025-13-01", 10), DATE_NONE);
    assert_int_equal(date_parse_iso("2025-1-01", 9), DATE_NONE);
    assert_string_equal(date_format_long(date_make(2025, 5, 4), text, sizeof text), "Sunday 4 May 2025");
    assert_int_equal(date_day_of_year(date_make(2024, 12, 31)), 366);
    date_t last = date_make(1700, 1, 1) - 1;
    for (int year = 1700; year <= 2200; year++) {
        for (int month = 1; month <= 12; month++) {
            for (int day = 1; day <= date_days_in_month(year, month); day++) {
                date_t d = date_make(year, month, day);
                struct date_parts p = date_split(d);
                assert_true(d == last + 1 && p.year == year && p.month == month && p.day == day);
                last = d;
            }
        }
    }
}

static void buffers_write_for_machines(void **state)
{
    struct buf b;
    (void)state;
    buf_init(&b);
    buf_add_number(&b, -0.001, 2);
    buf_add_char(&b, ' ');
    buf_add_number(&b, 12.50, 3);
    buf_add_number(&b, (double)NAN, 3);
    buf_add_char(&b, ' ');
    buf_add_number(&b, 100, 0);
    buf_add_char(&b, ' ');
    buf_add_fixed(&b, (double)NAN, 1);
    assert_string_equal(b.text, "0 12.5 100 -");
    buf_clear(&b);
    buf_add_cell(&b, -7.50, 2);
    buf_add_cell(&b, (double)NAN, 2);
    buf_add_cell(&b, 99999999.5, 1);
    assert_string_equal(b.text, ",-7.5,,99999999.5");
    buf_clear(&b);
    buf_add_json_string(&b, "a\"b\\\n\xff\xc3\xa9<");
    assert_string_equal(b.text, "\"a\\\"b\\\\\\u000a\xef\xbf\xbd\xc3\xa9<\"");
    buf_clear(&b);
    buf_add_csv_field(&b, "=1+2");
    buf_add_char(&b, ',');
    buf_add_csv_field(&b, "a,\"b\"");
    assert_string_equal(b.text, "\"'=1+2\",\"a,\"\"b\"\"\"");
    buf_release(&b);
}

#define A_UMLAUT "\xc3\xa4"

static void columns_are_counted_in_letters(void **state)
{
    static const struct {
        const char *text, *column;
        size_t width;
    } row[] = {{A_UMLAUT "sel", A_UMLAUT "sel  ", 6},
               {A_UMLAUT A_UMLAUT A_UMLAUT A_UMLAUT, A_UMLAUT A_UMLAUT A_UMLAUT A_UMLAUT, 4},
               {A_UMLAUT A_UMLAUT A_UMLAUT A_UMLAUT "z", A_UMLAUT "...", 4},
               {"a\x1b[31m\xff", "a [31m? ", 8}};
    (void)state;
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        struct buf b;
        buf_init(&b);
        buf_add_column(&b, row[i].text, row[i].width);
        assert_string_equal(b.text, row[i].column);
        buf_release(&b);
    }
}

static void a_part_takes_its_failure_to_the_whole(void **state)
{
    struct buf whole, part;
    (void)state;
    buf_init(&whole);
    buf_init(&part);
    buf_add(&part, "x");
    buf_release_into(&part, &whole);
    assert_false(whole.failed);
    part.failed = true;
    buf_release_into(&part, &whole);
    assert_true(whole.failed && !part.failed);
    buf_release_into(&part, &whole);
    assert_true(whole.failed);
    buf_release(&whole);
}

/* The outside reference is the C library's printf, which rounds the exact value; its "-0.0" is our "0.0". */
static void written_as_printf_writes(double x, int decimals)
{
    char text[400];
    struct buf b;
    buf_init(&b);
    snprintf(text, sizeof text, "%.*f", decimals, x);
    bool zero = text[0] == '-' && strspn(text + 1, "0.") == strlen(text + 1);
    buf_add_fixed(&b, x, decimals);
    assert_string_equal(b.text, text + zero);
    buf_clear(&b);
    size_t length = strlen(text);
    while (decimals > 0 && text[length - 1] == '0') {
        text[--length] = 0;
    }
    text[length - (text[length - 1] == '.')] = 0;
    buf_add_number(&b, x, decimals);
    assert_string_equal(b.text, text + zero);
    buf_release(&b);
}

static void written_numbers_equal_the_c_library(void **state)
{
    static const double size[] = {1e-7, 1e-3, 0.1, 1, 10, 1e3, 1e6, 1e9, 1e12, 1e17, 1e300};
    static const double edge[] = {0,   0.5,  1.5,   2.5,        0.25,        0.125, 0.375,
                                  1e9, 9.95, 0.045, 1.00000005, 999999999.5, 2.675, 123456.5};
    (void)state;
    srand(7);
    for (int decimals = 0; decimals <= 8; decimals++) {
        for (size_t i = 0; i < sizeof edge / sizeof *edge; i++) {
            written_as_printf_writes(edge[i], decimals);
            written_as_printf_writes(-edge[i], decimals);
        }
        for (int i = 0; i < 20000; i++) {
            double x = (2.0 * rand() / RAND_MAX - 1) * size[(size_t)i % (sizeof size / sizeof *size)];
            written_as_printf_writes(x, decimals);
            written_as_printf_writes(round(x * 100) / 200, decimals); /* ties, and what looks like one */
        }
    }
}

static void errors_say_where(void **state)
{
    struct err e;
    char text[1024];
    static const char *const known[] = {"ryegrass", "timothy", "cocksfoot", "bent"};
    (void)state;
    err_clear(&e);
    assert_int_equal(err_set(&e, ERR_DATA, "bad\nvalue \"%s\"", "x\x1b[2J"), ERR_DATA);
    err_at(&e, "w.csv", 3, 7, "tmin_c");
    err_format(&e, text, sizeof text);
    assert_string_equal(text, "w.csv:3:7: tmin_c: bad?value \"x?[2J\"");
    assert_string_equal(err_did_you_mean("ryegras", known, 4), "ryegrass");
    assert_string_equal(err_did_you_mean("timohty", known, 4), "timothy");
    assert_null(err_did_you_mean("banana", known, 4));
    char name[600];
    memset(name, 'x', sizeof name - 1);
    name[sizeof name - 1] = 0;
    err_at(&e, name, 0, 0, NULL);
    assert_true(strlen(e.file) < sizeof e.file && strncmp(e.file, "...", 3) == 0);
}

/* RFC 3629: 0xe3 and 0xff begin no sequence here, 0xc2 0x9b is the C1 form of ESC [,
 * U+202E turns the direction of writing; the umlaut stays. */
static void errors_are_sound_text(void **state)
{
    struct err e;
    (void)state;
    err_clear(&e);
    err_set(&e, ERR_DATA, "\"%s\" is no date",
            "202\xff-\xe3\xc2\x9b"
            "2J\xe2\x80\xae"
            "H\xc3\xbcgel");
    err_at(&e, "d\xa0.csv", 2, 1, "d\xc3");
    assert_string_equal(e.what, "\"202?-???2J???H\xc3\xbcgel\" is no date");
    assert_string_equal(e.file, "d?.csv");
    assert_string_equal(e.field, "d?");
}

static void arena_gives_zeroed_room(void **state)
{
    struct arena a;
    (void)state;
    arena_init(&a);
    for (size_t i = 1; i < 1000; i++) {
        unsigned char *p = arena_alloc(&a, i, 7);
        assert_non_null(p);
        assert_true((uintptr_t)p % 16 == 0);
        for (size_t j = 0; j < 7 * i; j++) {
            assert_int_equal(p[j], 0);
        }
        memset(p, 0xff, 7 * i);
    }
    assert_null(arena_alloc(&a, SIZE_MAX / 2, 3));
    assert_string_equal(arena_strndup(&a, "paddock", 3), "pad");
    arena_release(&a);
    assert_null(a.last);
}

static void clock_knows_summer_time(void **state)
{
    (void)state;
    if (!clock_zone_known("Europe/London")) {
        skip(); /* no time-zone tables on this machine */
    }
    /* common practice: the UK keeps UTC in winter and is an hour ahead in summer */
    assert_int_equal(clock_offset_minutes("Europe/London", date_make(2025, 1, 15)), 0);
    assert_int_equal(clock_offset_minutes("Europe/London", date_make(2025, 7, 15)), 60);
    assert_int_equal(clock_offset_minutes("Australia/Adelaide", date_make(2025, 7, 15)), 570);
    assert_false(clock_zone_known("Europe/Atlantis"));
    assert_false(clock_zone_known("../../etc/passwd"));
    /* folders of zones and tables of other things: the C library takes UTC for them */
    static const char *const no_zones[] = {"Europe",    "Europe/",      "America/Argentina", "posix",
                                           "tzdata.zi", "zone1970.tab", "leapseconds",       "Europe/London/"};
    for (size_t i = 0; i < sizeof no_zones / sizeof no_zones[0]; i++) {
        assert_false(clock_zone_known(no_zones[i]));
    }
    setenv("SOURCE_DATE_EPOCH", "1746316800", 1); /* 2025-05-04 00:00 UTC */
    assert_int_equal(clock_today("Europe/London"), date_make(2025, 5, 4));
    assert_int_equal(clock_today("America/New_York"), date_make(2025, 5, 3));
    unsetenv("SOURCE_DATE_EPOCH");
}

/* More than there can be: nothing is added from then on, and the text so far stays. */
static void a_buffer_that_failed_stays_sound(void **state)
{
    struct buf b;
    (void)state;
    buf_init(&b);
    buf_add(&b, "so far");
    buf_add_bytes(&b, "x", SIZE_MAX / 2 + 1);
    assert_true(b.failed);
    buf_add(&b, "more");
    buf_addf(&b, "%d", 1);
    buf_add_number(&b, 1.5, 1);
    assert_string_equal(b.text, "so far");
    assert_int_equal(b.length, 6);
    buf_clear(&b);
    assert_string_equal(b.text, "");
    buf_release(&b);
    buf_clear(&b);
    assert_string_equal(b.text, "");
    buf_add_json_string(&b, "\x1f\x7f ");
    assert_string_equal(b.text, "\"\\u001f\\u007f \"");
    buf_release(&b);
}

static void whole_numbers_keep_to_their_range(void **state)
{
    static const struct {
        const char *text;
        long value;
        bool good;
    } row[] = {{"0", 0, true},    {"+5", 5, true},       {"-5", -5, true},
               {"12", 12, true},  {"-12", -12, true},    {"13", 0, false},
               {"-13", 0, false}, {"", 0, false},        {"+", 0, false},
               {"-", 0, false},   {"1.0", 0, false},     {" 1", 0, false},
               {"1 ", 0, false},  {"0000012", 12, true}, {"0000000000000000001", 0, false}};
    (void)state;
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        long value = 99;
        assert_true(num_parse_long(row[i].text, strlen(row[i].text), -12, 12, &value) == row[i].good);
        assert_true(value == (row[i].good ? row[i].value : 99));
    }
    double x;
    assert_false(num_parse("1e99999", 7, '.', &x));
    assert_true(num_parse("1e-99999", 8, '.', &x) && x == 0.0);
    assert_false(num_parse("1e123456789012", 14, '.', &x));
}

/* Where nobody wants to know, nothing is told; a word as long as a line is near nothing. */
static void errors_may_go_unheard(void **state)
{
    char line[100];
    const char *words[] = {line, "girth"};
    struct err e = {0};
    struct json_doc doc;
    (void)state;
    assert_int_equal(err_set(NULL, ERR_DATA, "x"), ERR_DATA);
    assert_int_equal(err_at(NULL, "f", 1, 1, "g"), ERR_BUG);
    memset(line, 'w', sizeof line);
    line[sizeof line - 1] = '\0';
    assert_string_equal(err_did_you_mean("girt", words, 2), "girth");
    assert_null(err_did_you_mean(line, words, 2));
    assert_null(err_did_you_mean("", words, 2));
    assert_int_equal(json_parse("{}", LIMIT_JSON_BYTES + 1, "f", &doc, &e), ERR_DATA);
    assert_non_null(strstr(e.what, "JSON of at most"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_equal_the_c_library),
        cmocka_unit_test(numbers_refuse_what_is_none),
        cmocka_unit_test(dates_follow_the_calendar),
        cmocka_unit_test(buffers_write_for_machines),
        cmocka_unit_test(columns_are_counted_in_letters),
        cmocka_unit_test(a_part_takes_its_failure_to_the_whole),
        cmocka_unit_test(written_numbers_equal_the_c_library),
        cmocka_unit_test(errors_say_where),
        cmocka_unit_test(errors_are_sound_text),
        cmocka_unit_test(arena_gives_zeroed_room),
        cmocka_unit_test(clock_knows_summer_time),
        cmocka_unit_test(a_buffer_that_failed_stays_sound),
        cmocka_unit_test(whole_numbers_keep_to_their_range),
        cmocka_unit_test(errors_may_go_unheard),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
