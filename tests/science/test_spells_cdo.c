/* Growing-season index of two measured records against the Climate Data Operators (cdo,
 * eca_gsl), year by year. Skipped, with a word, where that program is not installed.
 *
 * It reports the last day of the opening run as the start, and so the end moved alike:
 * five days later than ours, at the same length. Where no cold run closes the season it
 * gives days of the year less its start: six less than the definition (found by trying
 * it on made-up series). SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/wait.h>

#include "season/spells.h"
#include "support/table.h"

enum { NOT_INSTALLED = 77, LATER = 5, SHORTER_OPEN = 6, YEAR_MOST = 366 };

/* Our index of a calendar year of the record. */
static struct spell_season ours(const struct table *t, int year, int *days)
{
    double mean[YEAR_MOST];
    struct growth_year y = growth_year_of(year, false);
    size_t tmin = table_column(t, "tmin_c"), tmax = table_column(t, "tmax_c"), date = table_column(t, "date");
    size_t row = (size_t)(y.first - table_date(t, 0, date));
    for (int i = 0; i < y.days; i++) {
        assert_int_equal(table_date(t, row + (size_t)i, date), y.first + i);
        mean[i] = (table_number(t, row + (size_t)i, tmin) + table_number(t, row + (size_t)i, tmax)) / 2.0;
    }
    *days = y.days;
    return spells_growing(mean, &y, SPELL_INDEX_DAYS);
}

static void compare(const char *path, int first, int last)
{
    struct table t;
    char command[256];
    int year, start, length, days, years = 0, open = 0;
    snprintf(command, sizeof command, "sh tests/support/cdo_gsl.sh %s %d %d", path, first, last);
    FILE *theirs = popen(command, "r");
    assert_non_null(theirs);
    assert_true(table_read(&t, path));
    while (fscanf(theirs, "%d %d %d", &year, &start, &length) == 3) {
        struct spell_season s = ours(&t, year, &days);
        bool no_end = s.end == days + 1;
        assert_int_equal(s.start + LATER, start);
        assert_int_equal(s.length - (no_end ? SHORTER_OPEN : 0), length);
        years++;
        open += no_end;
    }
    table_free(&t);
    int status = pclose(theirs);
    if (WIFEXITED(status) && WEXITSTATUS(status) == NOT_INSTALLED) {
        printf("# skipped: %s against cdo, which is not installed\n", path);
        skip();
    }
    assert_int_equal(status, 0);
    assert_int_equal(years, last - first + 1);
    printf("# %s: %d years as cdo has them, %d without an end\n", path, years, open);
}

static void test_de_bilt(void **state)
{
    (void)state;
    compare("data/real/de_bilt_2005-2019.csv", 2005, 2019);
}

static void test_dublin(void **state)
{
    (void)state;
    compare("data/real/dublin_airport_2010-2020.csv", 2010, 2019);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_de_bilt), cmocka_unit_test(test_dublin)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
