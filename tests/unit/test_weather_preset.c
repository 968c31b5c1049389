/* Tables whose columns a layout knows. All values are invented; what is expected of
 * them follows from the preset itself and from the calendar.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/weather_text.h"
#include "weather/csv_preset.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static bool trace(const char *text, size_t n, double *x)
{
    if (n == 2 && memcmp(text, "-1", 2) == 0) {
        *x = 0;
        return true;
    }
    return false;
}

static bool quality(const char *text, size_t n, double *x)
{
    *x = *text == 'X' ? (double)NAN : *x;
    return n == 1 && strchr("XG", *text);
}

static const struct csv_known known[] = {
    {.name = "Day Of Weather", .role = ROLE_DATE},
    {.name = "TN", .role = ROLE_VALUE, .var = WEATHER_TMIN, .scale = 0.1},
    {.name = "TX", .role = ROLE_VALUE, .var = WEATHER_TMAX, .scale = 0.1},
    {.name = "TX_Flag", .role = ROLE_FLAG, .var = WEATHER_TMAX, .cell = quality},
    {.name = "RH", .role = ROLE_VALUE, .var = WEATHER_RAIN, .scale = 0.1, .cell = trace},
    {.name = "old RH", .role = ROLE_VALUE, .var = WEATHER_RAIN, .scale = 0.1, .weak = true, .cell = trace},
};

static const struct csv_preset plain = {.line = 1,
                                        .delimiter = ',',
                                        .known = known,
                                        .n_known = sizeof known / sizeof known[0],
                                        .place = {.latitude = 52, .longitude = 5, .elevation_m = NAN},
                                        .site = "Here"};

static void read_all(struct weather_text *t, const char *text, struct csv_preset preset)
{
    struct weather_file f = {.bytes = text, .size = strlen(text), .path = "w.csv", .hints = &weather_no_hints};
    preset.names = preset.rows ? NULL : text;
    *t = (struct weather_text){0};
    arena_init(&t->arena);
    t->code = csv_read_preset(&f, &preset, &t->arena, &t->set, &t->err);
}

static void good(const char *text, const struct csv_preset *preset, const char *date, enum weather_var v, double x)
{
    struct weather_text t;
    read_all(&t, text, *preset);
    if (t.code != ERR_OK) {
        fail_msg("%s: line %zu: %s", text, t.err.line, t.err.what);
    }
    double found = weather_text_at(&t, date, v);
    if (isnan(x) ? !isnan(found) : !(fabs(found - x) < 1e-9)) {
        fail_msg("%s: %g on %s", text, found, date);
    }
    weather_text_release(&t);
}

static void bad(const char *text, const struct csv_preset *preset, size_t line, size_t column, const char *said)
{
    struct weather_text t;
    read_all(&t, text, *preset);
    if (t.code != ERR_DATA || t.err.line != line || t.err.column != column || !strstr(t.err.what, said)) {
        fail_msg("%s: %d, %zu:%zu: %s", text, t.code, t.err.line, t.err.column, t.err.what);
    }
    weather_text_release(&t);
}

#define TOP "# day of weather ,\"tn\", Tx,TX flag,odd,odd,RH\n"

static void columns_are_known_by_letters_and_digits(void **state)
{
    (void)state;
    good(TOP "20240228,-15,92,,a,b,4\n", &plain, "2024-02-28", WEATHER_TMIN, -1.5);
    good(TOP "20240228,-15,92,,a,b,4\n", &plain, "2024-02-28", WEATHER_TMAX, 9.2);
    good(TOP "20240228,-15,92,,a,b,4\n", &plain, "2024-02-28", WEATHER_RAIN, 0.4);
    good(TOP "20240228,-15,92,,a,b,\n20240301,-15,92,,a,b,4", &plain, "2024-02-28", WEATHER_RAIN, NAN);
    good("old RH,Day of weather,TN,TX,RH\n5,20240228,-15,92,4\n", &plain, "2024-02-28", WEATHER_RAIN, 0.4);
    bad("Day of weather,TN,RH\n20240228,-15,4\n", &plain, 1, 0, "no column of daily maximum temperature");
    bad(TOP "20240228,-15,9200,,a,b,4\n", &plain, 2, 14, "\"9200\" is not possible; -90 to 60 C is allowed");
    bad(TOP "20240228,-15,92,,a,b,4\n20240228,-15,92,,a,b,4\n", &plain, 3, 1, "stands twice");
    bad("TN,TX,Day of weather,TN\n1,2,20240228,1\n", &plain, 1, 22, "means the same");
}

static void the_site_is_what_the_layout_says(void **state)
{
    struct weather_text t;
    (void)state;
    read_all(&t, TOP "20240228,-15,92,,a,b,4\n", plain);
    assert_int_equal(t.code, ERR_OK);
    assert_int_equal(t.set.n, 1);
    assert_string_equal(t.set.site[0].name, "Here");
    assert_true(t.set.site[0].place.latitude == 52 && t.set.site[0].place.longitude == 5);
    assert_true(isnan(t.set.site[0].place.elevation_m));
    assert_string_equal(t.set.ignored, "odd, odd");
    weather_text_release(&t);
}

static void peculiar_cells_have_their_reader(void **state)
{
    (void)state;
    good(TOP "20240228,-1,92,,a,b,-1\n", &plain, "2024-02-28", WEATHER_RAIN, 0);
    good(TOP "20240228,-1,92,,a,b,-1\n", &plain, "2024-02-28", WEATHER_TMIN, -0.1);
    bad(TOP "20240228,-1,92,,a,b,-2\n", &plain, 2, 21, "not possible");
    bad(TOP "20240228,-1,92,,a,b,T\n", &plain, 2, 21, "not a number");
}

static void flags_take_values_back(void **state)
{
    struct weather_text t;
    (void)state;
    good(TOP "20240228,-1,92,G,a,b,1\n", &plain, "2024-02-28", WEATHER_TMAX, 9.2);
    good(TOP "20240228,-1,92,X,a,b,1\n20240229,-1,92,,a,b,1\n", &plain, "2024-02-28", WEATHER_TMAX, NAN);
    good(TOP "20240228,-1,9200,X,a,b,1\n20240229,-1,92,,a,b,1\n", &plain, "2024-02-28", WEATHER_TMAX, NAN);
    bad(TOP "20240228,-1,9200,G,a,b,1\n", &plain, 2, 13, "\"9200\" is not possible");
    bad(TOP "20240228,-1,92,Q,a,b,1\n", &plain, 2, 16, "the flag \"Q\" is not known");
    read_all(&t, TOP "20240228,,92,X,a,b,\n20240229,-1,92,,a,b,1\n", plain);
    assert_int_equal(t.code, ERR_OK);
    assert_int_equal(t.set.site[0].days.origin[0], ORIGIN_NONE);
    assert_int_equal(t.set.site[0].days.origin[1], ORIGIN_RECORDED);
    weather_text_release(&t);
}

static void a_table_needs_no_names(void **state)
{
    static const char text[] = "head\n20240228 -15   92 G 4\n  20240229\t10 20  G 5  \n";
    struct csv_preset preset = plain;
    (void)state;
    preset.rows = text + 5;
    preset.line = 2;
    preset.delimiter = ' ';
    preset.n_known = 5;
    good(text, &preset, "2024-02-28", WEATHER_RAIN, 0.4);
    good(text, &preset, "2024-02-29", WEATHER_TMIN, 1);
    preset.rows = "20240228 -15 92 G \n";
    bad(preset.rows, &preset, 2, 19, "has 4 fields where 5 are named");
    preset.rows = "20240228 -15 92 G 4 5\n";
    bad(preset.rows, &preset, 2, 21, "one field more");
}

static void blanks_may_part_columns(void **state)
{
    struct csv_preset preset = plain;
    (void)state;
    preset.delimiter = ' ';
    preset.skip = 1;
    good("  DayOfWeather  TN TX\tRH  \n()  (oC)\n20240228 -15\t 92 4\n\n20240229 1 2 3 \n", &preset, "2024-02-29",
         WEATHER_RAIN, 0.3);
}

#define YEARS "DayOfWeather,TN,TX\n"

static void years_of_two_digits_need_a_turn_of_century(void **state)
{
    struct csv_preset preset = plain;
    (void)state;
    bad(YEARS "31-Dec-99,1,2\n01-Jan-00,1,2\n", &preset, 2, 1, "year of two digits");
    preset.century = 1900;
    good(YEARS "31-Dec-99,1,2\n01-Jan-00,3,4\n", &preset, "1999-12-31", WEATHER_TMIN, 0.1);
    good(YEARS "31-Dec-99,1,2\n01-Jan-00,3,4\n", &preset, "2000-01-01", WEATHER_TMIN, 0.3);
    good(YEARS "31-Dec-1999,1,2\n01-Jan-2000,3,4\n", &preset, "2000-01-01", WEATHER_TMIN, 0.3);
    good(YEARS "28-Feb-75,1,2\n29-Feb-00,3,4\n", &preset, "2000-02-29", WEATHER_TMIN, 0.3);
    bad(YEARS "31-Dec-10,1,2\n01-Jan-11,3,4\n", &preset, 2, 1, "never pass from 99 to 00");
    bad(YEARS "31-Dec-70,1,2\n01-Jan-10,3,4\n01-Jan-55,3,4\n01-Jan-99,3,4\n01-Jan-04,1,2\n", &preset, 2, 1,
        "more than once");
    bad(YEARS "31-Dec-99,1,2\n02-Jan-00,3,4\n01-Jan-00,3,4\n", &preset, 4, 1, "comes after 2000-01-02");
    bad(YEARS "31-Dec-98,1,2\n31-Dec-00,3,4\n31-Dec-99,3,4\n", &preset, 4, 1, "1999-12-31 comes after 2000-12-31");
}

static void one_variable_will_do_where_the_layout_says_so(void **state)
{
    struct csv_preset preset = plain;
    (void)state;
    preset.alone = true;
    good("Day of weather,TX\n20240228,92\n", &preset, "2024-02-28", WEATHER_TMAX, 9.2);
    bad("Day of weather,NN\n20240228,92\n", &preset, 1, 0, "no column of weather");
}

static void doubts_about_units_ask_for_what_the_layout_says(void **state)
{
    static const char text[] = "Day of weather,TN,TX\n20240601,40,500\n20240602,40,500\n20240603,40,500\n"
                               "20240604,40,500\n20240605,40,500\n20240606,40,500\n20240607,40,500\n20240608,40,500\n"
                               "20240609,40,500\n20240610,40,500\n";
    struct csv_preset preset = plain;
    (void)state;
    good(text, &preset, "2024-06-01", WEATHER_TMAX, 50);
    preset.unit_help = "ask the keeper";
    bad(text, &preset, 1, 19, "looks like Fahrenheit. If so, ask the keeper");
    bad("Day of weather,TN,TX\n20240601,40,1000\n", &preset, 2, 13, "If the file has other units, ask the keeper");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(columns_are_known_by_letters_and_digits),
        cmocka_unit_test(the_site_is_what_the_layout_says),
        cmocka_unit_test(peculiar_cells_have_their_reader),
        cmocka_unit_test(flags_take_values_back),
        cmocka_unit_test(a_table_needs_no_names),
        cmocka_unit_test(blanks_may_part_columns),
        cmocka_unit_test(years_of_two_digits_need_a_turn_of_century),
        cmocka_unit_test(one_variable_will_do_where_the_layout_says_so),
        cmocka_unit_test(doubts_about_units_ask_for_what_the_layout_says),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
