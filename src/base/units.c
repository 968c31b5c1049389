/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/units.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static const struct row {
    const char *metric, *us;
    double divide, add; /* us = metric / divide + add */
    int decimals[3];    /* of figures under 1, under 10, and larger */
} rows[AMOUNTS] = {
    [AMOUNT_MASS] = {"kg", "lb", UNITS_KG_OF_LB, 0, {2, 1, 0}},
    [AMOUNT_MASS_OF_LAND] = {"kg", "lb", UNITS_KG_OF_LB / UNITS_HA_OF_ACRE, 0, {1, 0, 0}},
    [AMOUNT_AREA] = {"ha", "acres", UNITS_HA_OF_ACRE, 0, {3, 1, 1}},
    [AMOUNT_LENGTH] = {"cm", "in", UNITS_CM_OF_INCH, 0, {1, 1, 1}},
    [AMOUNT_RAIN] = {"mm", "in", 10 * UNITS_CM_OF_INCH, 0, {2, 2, 1}},
    [AMOUNT_HEIGHT] = {"m", "ft", UNITS_M_OF_FOOT, 0, {1, 0, 0}},
    [AMOUNT_DISTANCE] = {"km", "mi", UNITS_KM_OF_MILE, 0, {1, 1, 0}},
    [AMOUNT_SPEED] = {"m/s", "mph", UNITS_MS_OF_MPH, 0, {1, 1, 0}},
    [AMOUNT_TEMPERATURE] = {"C", "F", 5.0 / 9.0, 32, {1, 1, 1}},
    [AMOUNT_DEGREES] = {"C", "F", 5.0 / 9.0, 0, {1, 1, 1}},
    [AMOUNT_ENERGY] = {"MJ", "Mcal", UNITS_MJ_OF_MCAL, 0, {2, 1, 1}},
    [AMOUNT_SUGAR] = {"g/kg", "%", 10, 0, {1, 1, 1}},
};

double units_value(enum units u, enum amount a, double metric)
{
    assert(a < AMOUNTS);
    return u == SHOW_US ? metric / rows[a].divide + rows[a].add : metric;
}

const char *units_name(enum units u, enum amount a)
{
    assert(a < AMOUNTS);
    return u == SHOW_US ? rows[a].us : rows[a].metric;
}

const char *units_land(enum units u)
{
    return u == SHOW_US ? "an acre" : "a hectare";
}

const char *units_of_dry_matter(enum units u)
{
    return u == SHOW_US ? "% of dry matter" : "g a kg of dry matter";
}

char *units_number(enum units u, enum amount a, double metric, int decimals, char *text)
{
    assert(text != NULL);
    double x = units_value(u, a, metric);
    if (u == SHOW_US) {
        const int *by_size = rows[a].decimals;
        decimals = fabs(x) < 1.0 ? by_size[0] : fabs(x) < 10.0 ? by_size[1] : by_size[2];
    }
    if (decimals < 0) {
        snprintf(text, UNITS_TEXT, "%.5g", x);
    } else {
        snprintf(text, UNITS_TEXT, "%.*f", decimals, x);
    }
    return text;
}

char *units_text(enum units u, enum amount a, double metric, int decimals, char *text)
{
    units_number(u, a, metric, decimals, text);
    size_t n = strlen(text);
    snprintf(text + n, UNITS_TEXT - n, " %s", units_name(u, a));
    return text;
}

const char *units_hours(double hours, char *text, size_t size)
{
    int minutes = (int)lround(hours * 60.0);
    if (minutes % 60 == 0) {
        snprintf(text, size, "%d h", minutes / 60);
    } else if (minutes < 60) {
        snprintf(text, size, "%d min", minutes);
    } else {
        snprintf(text, size, "%d h %d min", minutes / 60, minutes % 60);
    }
    return text;
}
