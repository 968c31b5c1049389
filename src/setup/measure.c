/* SPDX-License-Identifier: GPL-3.0-or-later
 * Amounts with units. */
#include "setup/measure.h"

#include "base/num.h"
#include "base/units.h"

#include <stdio.h>
#include <string.h>
#include <strings.h>

enum { NUMBER_LONGEST = 40, THOUSANDS = 3 };

const struct unit units_area[] = {{"ha", 1},
                                  {"hectare", 1},
                                  {"hectares", 1},
                                  {"acres", UNITS_HA_OF_ACRE},
                                  {"acre", UNITS_HA_OF_ACRE},
                                  {"ac", UNITS_HA_OF_ACRE},
                                  {"m2", 1e-4},
                                  {"sqm", 1e-4},
                                  {NULL, 0}};
const struct unit units_weight[] = {{"kg", 1},
                                    {"kilo", 1},
                                    {"kilos", 1},
                                    {"kgs", 1},
                                    {"lb", UNITS_KG_OF_LB},
                                    {"lbs", UNITS_KG_OF_LB},
                                    {"pounds", UNITS_KG_OF_LB},
                                    {"pound", UNITS_KG_OF_LB},
                                    {"g", 1e-3},
                                    {NULL, 0}};
const struct unit units_height[] = {
    {"m", 1}, {"metres", 1}, {"meters", 1}, {"ft", UNITS_M_OF_FOOT}, {"feet", UNITS_M_OF_FOOT}, {"'", UNITS_M_OF_FOOT},
    {NULL, 0}};
const struct unit units_tape[] = {{"cm", 1},
                                  {"in", UNITS_CM_OF_INCH},
                                  {"inch", UNITS_CM_OF_INCH},
                                  {"inches", UNITS_CM_OF_INCH},
                                  {"\"", UNITS_CM_OF_INCH},
                                  {NULL, 0}};
const struct unit units_length[] = {{"cm", 1},
                                    {"in", UNITS_CM_OF_INCH},
                                    {"inch", UNITS_CM_OF_INCH},
                                    {"inches", UNITS_CM_OF_INCH},
                                    {"\"", UNITS_CM_OF_INCH},
                                    {"mm", 0.1},
                                    {NULL, 0}};
const struct unit units_none[] = {{"", 1}, {NULL, 0}};

const char *measure_number(const char *text, double *value, int *unclear)
{
    char number[NUMBER_LONGEST + 1];
    size_t sign = text[0] == '-' || text[0] == '+';
    size_t n = sign + strspn(text + sign, "0123456789.,");
    *unclear = 0;
    if (n == sign || n > NUMBER_LONGEST) {
        return NULL;
    }
    memcpy(number, text, n);
    number[n] = 0;
    char *comma = strchr(number, ',');
    if (comma) {
        *unclear = strspn(comma + 1, "0123456789") == THOUSANDS || strchr(comma + 1, ',') || strchr(number, '.');
        *comma = '.';
    }
    return num_parse(number, n, '.', value) ? text + n : *unclear ? text + n : NULL;
}

/* "in ha, or with one of these behind it: acres, ..." */
static void list_units(const struct unit *units, char *text, size_t size)
{
    size_t used = 0;
    text[0] = 0;
    for (const struct unit *u = units; u->name && u->name[0] && used < size; u++) {
        const char *before = u == units ? ", in " : u == units + 1 ? ", or with one of these behind it: " : ", ";
        used += (size_t)snprintf(text + used, size - used, "%s%s", before, u->name);
    }
}

enum err_code measure_read(const char *text, const struct unit *units, double *value, struct err *e)
{
    char names[256];
    int unclear;
    double x = 0;
    const char *end = measure_number(text, &x, &unclear);
    list_units(units, names, sizeof names);
    if (!end) {
        return err_set(e, ERR_USAGE, "\"%.40s\" is not an amount: type a number%s", text, names);
    }
    if (unclear) {
        return err_set(e, ERR_USAGE,
                       "\"%.40s\" can be read in two ways: write a decimal point, and nothing between thousands", text);
    }
    end += strspn(end, " \t");
    for (const struct unit *u = units; u->name; u++) {
        if (end[0] == 0 || strcasecmp(end, u->name) == 0) {
            *value = x * u->factor;
            return ERR_OK;
        }
    }
    return err_set(e, ERR_USAGE, "\"%.20s\" behind the number is not understood: type a number%s", end, names);
}
