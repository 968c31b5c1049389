/* Units of the United States against what is published of them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/units.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "support/near.h"
#include <string.h>

static void is_near(double x, double expected, double share)
{
    assert_near(x / expected, 1.0, share);
}

/* NIST Special Publication 811 (2008), appendix B.8: factors to seven digits, or exact (there in
 * bold). One unit of the row's name is so many of the metric one. */
static void agrees_with_nist(void **state)
{
    static const struct {
        enum amount amount;
        double metric; /* one pound, inch, ... */
    } row[] = {
        {AMOUNT_MASS, 4.535924e-1},  /* pound (avoirdupois): kg */
        {AMOUNT_LENGTH, 2.54},       /* inch: cm */
        {AMOUNT_RAIN, 2.54e1},       /* inch: mm */
        {AMOUNT_HEIGHT, 3.048e-1},   /* foot: m */
        {AMOUNT_DISTANCE, 1.609344}, /* mile: km */
        {AMOUNT_SPEED, 4.4704e-1},   /* mile per hour: m/s */
        {AMOUNT_ENERGY, 4.184},      /* kilocalorie (thermochemical), a thousand of them: MJ */
    };
    (void)state;
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        is_near(units_value(SHOW_US, row[i].amount, row[i].metric), 1.0, 2e-7);
    }
}

/* The acre of 43,560 square feet, of 0.3048 m (NIST Handbook 44, appendix C, for the number of feet);
 * the acre of SP 811 is that of the older survey foot, 4 parts in a million larger. */
static void knows_the_acre(void **state)
{
    (void)state;
    is_near(UNITS_HA_OF_ACRE, 43560.0 * 0.3048 * 0.3048 / 10000.0, 1e-15);
    is_near(UNITS_HA_OF_ACRE, 4.046873e-1, 5e-6);
    is_near(units_value(SHOW_US, AMOUNT_AREA, 4.046873e-1), 1.0, 5e-6);
    /* 1 lb an acre = 1.120851 kg/ha: SP 811 has the pound, the acre is above */
    is_near(units_value(SHOW_US, AMOUNT_MASS_OF_LAND, 4.535924e-1 / 4.046873e-1), 1.0, 5e-6);
}

/* Fixed points: ice, body, boiling, and -40, where both scales meet (SP 811: t/F = 1.8 t/C + 32). */
static void knows_fahrenheit(void **state)
{
    (void)state;
    is_near(units_value(SHOW_US, AMOUNT_TEMPERATURE, 0), 32, 1e-12);
    is_near(units_value(SHOW_US, AMOUNT_TEMPERATURE, 37), 98.6, 1e-12);
    is_near(units_value(SHOW_US, AMOUNT_TEMPERATURE, 100), 212, 1e-12);
    is_near(units_value(SHOW_US, AMOUNT_TEMPERATURE, -40), -40, 1e-12);
    is_near(units_value(SHOW_US, AMOUNT_DEGREES, 5), 9, 1e-12);
    is_near(units_value(SHOW_US, AMOUNT_SUGAR, 100), 10, 1e-12);
}

static void metric_stays(void **state)
{
    (void)state;
    for (int a = 0; a < AMOUNTS; a++) {
        assert_true(units_value(SHOW_METRIC, (enum amount)a, 12.5) == 12.5);
        assert_true(strcmp(units_name(SHOW_METRIC, (enum amount)a), units_name(SHOW_US, (enum amount)a)) != 0 ||
                    a == AMOUNT_MASS_OF_LAND);
    }
}

static void says(enum units u, enum amount a, double x, int decimals, const char *words)
{
    char text[UNITS_TEXT];
    assert_string_equal(units_text(u, a, x, decimals, text), words);
}

/* Pounds: whole from ten on, one decimal below, two below one; what a metric place shows is said there. */
static void rounds(void **state)
{
    (void)state;
    says(SHOW_METRIC, AMOUNT_MASS, 4.56, 1, "4.6 kg");
    says(SHOW_METRIC, AMOUNT_MASS, 279.25, UNITS_SHORT, "279.25 kg");
    says(SHOW_METRIC, AMOUNT_MASS, 0.15, UNITS_SHORT, "0.15 kg");
    says(SHOW_US, AMOUNT_MASS, 285, 0, "628 lb");
    says(SHOW_US, AMOUNT_MASS, 4.56, 1, "10 lb");
    says(SHOW_US, AMOUNT_MASS, 1.0, 1, "2.2 lb");
    says(SHOW_US, AMOUNT_MASS, 0.15, UNITS_SHORT, "0.33 lb");
    says(SHOW_US, AMOUNT_MASS, 0, 1, "0.00 lb");
    says(SHOW_US, AMOUNT_MASS_OF_LAND, 1800, 0, "1606 lb");
    says(SHOW_US, AMOUNT_LENGTH, 5, 0, "2.0 in");
    says(SHOW_US, AMOUNT_RAIN, 13.2, 1, "0.52 in");
    says(SHOW_US, AMOUNT_TEMPERATURE, -3.1, 1, "26.4 F");
    says(SHOW_US, AMOUNT_ENERGY, 42.3, 1, "10.1 Mcal");
    says(SHOW_US, AMOUNT_SUGAR, 218, 0, "21.8 %");
    says(SHOW_US, AMOUNT_SPEED, 10, 1, "22 mph");
    says(SHOW_US, AMOUNT_HEIGHT, 300, 0, "984 ft");
    says(SHOW_US, AMOUNT_DISTANCE, 80, 0, "50 mi");
    says(SHOW_METRIC, AMOUNT_AREA, 1.25, UNITS_SHORT, "1.25 ha");
    says(SHOW_US, AMOUNT_AREA, 1.25, UNITS_SHORT, "3.1 acres");
    says(SHOW_US, AMOUNT_AREA, 0.01, UNITS_SHORT, "0.025 acres");
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(agrees_with_nist), cmocka_unit_test(knows_the_acre),
                                       cmocka_unit_test(knows_fahrenheit), cmocka_unit_test(metric_stays),
                                       cmocka_unit_test(rounds)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
