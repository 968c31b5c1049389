/* The fast path of the CSV reader against the careful one and against num_parse():
 * the same numbers, bit for bit, however they are written and wherever in a row of
 * whatever length they stand. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/num.h"
#include "support/weather_text.h"
#include "weather/csv_fast.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#define DAYS 4000

static unsigned draw(unsigned *state, unsigned below)
{
    *state = *state * 1664525u + 1013904223u;
    return (*state >> 8) % below;
}

/* A number as files hold it, mostly plain; 0 to 49 so that every variable takes it. */
static void make_number(unsigned *state, char *text, size_t size)
{
    static const char *const rare[] = {
        "",    "NA",  "-",        "5.",         "-.5e1",     ".5",          "+7",   "-0",
        "0.0", "1e1", "12.34567", "12.3456789", "00012.500", "0.000000001", "-999", "3.14159265358979",
        " 8",  "9 ",  "\"6.5\"",  "-0.0",       "00000012"};
    unsigned kind = draw(state, 12);
    if (kind == 0) {
        snprintf(text, size, "%s", rare[draw(state, sizeof rare / sizeof rare[0])]);
    } else if (kind < 4) {
        snprintf(text, size, "%u", draw(state, 50));
    } else {
        snprintf(text, size, "%.*f", (int)draw(state, 5), draw(state, 490000) / 10000.0);
    }
}

/* What the text means to a reader without any fast path. */
static double meaning(const char *text)
{
    char bare[32];
    size_t n = 0;
    double x = 0;
    for (; *text; text++) {
        if (!strchr(" \"+", *text)) {
            bare[n++] = *text;
        }
    }
    bare[n] = 0;
    if (n == 0 || strcmp(bare, "-999") == 0 || !num_parse(bare, n, '.', &x)) {
        return (double)NAN;
    }
    return x;
}

static void same(double a, double b, const char *text)
{
    if (!(a == b || (isnan(a) && isnan(b)))) {
        fail_msg("\"%s\" was read as %.17g, not %.17g", text, a, b);
    }
}

/* `filler` widens each row; rows of over 64 bytes take the careful path. */
static void check_rows(unsigned seed, const char *filler, const char *line_end)
{
    struct weather_text t;
    char(*cell)[32] = calloc(DAYS, sizeof *cell), date[DATE_TEXT];
    char *text = malloc((size_t)DAYS * (80 + strlen(filler)) + 100);
    size_t n = (size_t)sprintf(text, "site,remark,date,rain_mm,tdew_c,tmin_c,tmax_c%s", line_end);
    for (int i = 0; i < DAYS; i++) {
        make_number(&seed, cell[i], sizeof *cell);
        bool negative = strchr(cell[i], '-') != NULL; /* dew point only */
        n += (size_t)sprintf(text + n, "Sallow,%s,%s,%s,%s,-20,50%s", filler,
                             date_format(date_make(1999, 1, 1) + i, date), negative ? "1" : cell[i], cell[i], line_end);
    }
    weather_text_read_bytes(&t, text, n);
    assert_string_equal(t.code == ERR_OK ? "" : t.err.what, "");
    assert_int_equal(t.set.n, 1);
    assert_int_equal(t.set.site[0].days.n, DAYS);
    for (int i = 0; i < DAYS; i++) {
        same(t.set.site[0].days.col[WEATHER_TDEW][i], meaning(cell[i]), cell[i]);
        same(t.set.site[0].days.col[WEATHER_RAIN][i], strchr(cell[i], '-') ? 1 : meaning(cell[i]), cell[i]);
    }
    weather_text_release(&t);
    free(text);
    free(cell);
}

static void both_paths_read_the_same(void **state)
{
    (void)state;
    check_rows(1, "", "\n");
    check_rows(2, "", "\r\n");
    check_rows(3, "a remark of some length", "\n");
    check_rows(4, "a remark of such a length that no row fits into sixty-four bytes", "\n");
    check_rows(5, "\"quoted, with commas\"", "\n");
    check_rows(6, "12.5", "\r");
}

/* Ten days, the sixth with what is given behind its date. */
static void read_around(struct weather_text *t, const char *filler, const char *odd)
{
    char text[2000];
    size_t n = (size_t)sprintf(text, "remark,date,tmin_c,tmax_c,rain_mm,note\n");
    for (int day = 1; day <= 10; day++) {
        n += (size_t)sprintf(text + n, "%s,2021-03-%02d,%s\n", filler, day, day == 6 ? odd : "1,9,0.4,x");
    }
    weather_text_read_bytes(t, text, n);
}

/* What is odd about a row, and is it a day of weather at all? A row too long for the fast
 * path must come to the same. */
static void both_paths_judge_the_same(void **state)
{
    static const char *const rows[] = {
        "-999,-999,-999,x", "NA,,-,x",      ",,,",        "9,1,0,x",        "1,9,300000,x", "1,9,o,x",    "1,9",
        "1,9,0,x,y",        "1,9,0,x\rodd", "1,9,0,x\r",  "1,9,0,\"x",      "1,9,0,\"x\"",  "1,9,-0.4,x", "1,9,0.4.,",
        "+1,9,0,x",         "-0,9,0,x",     "1,9,-,x",    "1,9,12345678,x", "1,9,.,x",      "1,9,5.,x",   "-.5,9,0,x",
        "0000001,9,00,x",   "1, 9 ,0,x",    "1,9,0,x\n\n"};
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct weather_text quick, careful;
        read_around(&quick, "", rows[i]);
        read_around(&careful, "a remark of such a length that no row fits into sixty-four bytes", rows[i]);
        assert_string_equal(quick.code == ERR_OK ? "" : quick.err.what, careful.code == ERR_OK ? "" : careful.err.what);
        assert_int_equal(quick.code, careful.code);
        assert_int_equal(quick.err.line, careful.err.line);
        assert_int_equal(quick.set.n, careful.set.n);
        for (size_t s = 0; s < quick.set.n; s++) {
            const struct weather_days *a = &quick.set.site[s].days, *b = &careful.set.site[s].days;
            assert_int_equal(a->n, b->n);
            assert_memory_equal(a->origin, b->origin, a->n);
            assert_memory_equal(a->col[WEATHER_TMIN], b->col[WEATHER_TMIN], a->n * sizeof(double));
            assert_memory_equal(a->col[WEATHER_RAIN], b->col[WEATHER_RAIN], a->n * sizeof(double));
        }
        weather_text_release(&quick);
        weather_text_release(&careful);
    }
}

/* Every plain number of up to four digits, with the point anywhere, against num_parse. */
static void short_numbers_are_exact(void **state)
{
    (void)state;
    for (int value = 0; value < 10000; value++) {
        for (int point = 0; point <= 4; point++) {
            for (int sign = 0; sign < 2; sign++) {
                char row[80] = "        ", digits[8];
                snprintf(digits, sizeof digits, "%04d", value);
                int n = snprintf(row + 8, 32, "%s%.*s%s%s", sign ? "-" : "", point, digits, point < 4 ? "." : "",
                                 digits + point);
                row[8 + n] = ',';
                struct csv_marks m = csv_fast_marks(row + 8, ',', '.');
                double fast = 0, slow = 0;
                assert_true(csv_fast_number(row + 8, row + 8 + __builtin_ctzll(m.stops), row + 8 + n, &fast));
                assert_true(num_parse(row + 8, (size_t)n, '.', &slow));
                assert_true(fast == slow);
            }
        }
    }
}

static void what_is_no_number_is_left_to_care(void **state)
{
    static const char *const texts[] = {"-",  ".",   "-.", "1-", "--1", "1..2", "1.2.3",
                                        "NA", "1e3", "+1", " 1", "1 ",  "a1"};
    (void)state;
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        char row[80] = "        ";
        double x;
        unsigned n = (unsigned)snprintf(row + 8, 32, "%s", texts[i]);
        row[8 + n] = ',';
        struct csv_marks m = csv_fast_marks(row + 8, ',', '.');
        if (csv_fast_number(row + 8, row + 8 + __builtin_ctzll(m.stops), row + 8 + n, &x)) {
            fail_msg("\"%s\" was taken for a number", texts[i]);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(both_paths_read_the_same),
        cmocka_unit_test(both_paths_judge_the_same),
        cmocka_unit_test(short_numbers_are_exact),
        cmocka_unit_test(what_is_no_number_is_left_to_care),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
