/* Units, possible values and missing marks of the weather variables.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/quantity.h"

#include "base/units.h"

#include <ctype.h>
#include <math.h>
#include <string.h>
#include <strings.h>

/* Wider than any weather measured (world records are -89.2 and 56.7 C, 1825 mm/d), so
 * that only slips of unit or of the hand fall outside. From -70 C down a code for missing
 * counts as one though it is possible, as -99 F is: nobody grazes animals at that. Limits:
 * our judgement. */
static const struct quantity_range ranges[WEATHER_VARS] = {
    [WEATHER_TMIN] = {-90, 60, -70, 60, "-90 to 60 C"},   [WEATHER_TMAX] = {-90, 60, -70, 60, "-90 to 60 C"},
    [WEATHER_RAIN] = {0, 2000, 0, 2000, "0 to 2000 mm"},  [WEATHER_RAD] = {0, 50, 0, 50, "0 to 50 MJ/m2"},
    [WEATHER_RH] = {0, 110, 0, 100, "0 to 110 %"},        [WEATHER_WIND] = {0, 120, 0, 120, "0 to 120 m/s"},
    [WEATHER_TDEW] = {-100, 50, -70, 50, "-100 to 50 C"}, [WEATHER_ET0] = {0, 30, 0, 30, "0 to 30 mm"},
};

const struct quantity_range *quantity_range(enum weather_var v)
{
    return &ranges[v];
}

enum dimension { TEMPERATURE, DEPTH, RADIATION, HUMIDITY, SPEED };

static const enum dimension dimension_of[WEATHER_VARS] = {
    [WEATHER_TMIN] = TEMPERATURE, [WEATHER_TMAX] = TEMPERATURE, [WEATHER_RAIN] = DEPTH,       [WEATHER_RAD] = RADIATION,
    [WEATHER_RH] = HUMIDITY,      [WEATHER_WIND] = SPEED,       [WEATHER_TDEW] = TEMPERATURE, [WEATHER_ET0] = DEPTH,
};

/* Key: letters and digits of the unit only, lower case ("MJ/m^2/day" -> mjm2day).
 * Factors follow from the definitions of the units. */
static const struct unit_row {
    enum dimension dimension;
    const char *key;
    double scale, offset;
} unit_rows[] = {
    {TEMPERATURE, "c", 1, 0},
    {TEMPERATURE, "oc", 1, 0},
    {TEMPERATURE, "degc", 1, 0},
    {TEMPERATURE, "degreec", 1, 0},
    {TEMPERATURE, "degreesc", 1, 0},
    {TEMPERATURE, "celsius", 1, 0},
    {TEMPERATURE, "degcelsius", 1, 0},
    {TEMPERATURE, "degreescelsius", 1, 0},
    {TEMPERATURE, "01c", 0.1, 0},
    {TEMPERATURE, "01degc", 0.1, 0},
    {TEMPERATURE, "01celsius", 0.1, 0},
    {TEMPERATURE, "01degreescelsius", 0.1, 0},
    {TEMPERATURE, "f", 5.0 / 9.0, -160.0 / 9.0},
    {TEMPERATURE, "of", 5.0 / 9.0, -160.0 / 9.0},
    {TEMPERATURE, "degf", 5.0 / 9.0, -160.0 / 9.0},
    {TEMPERATURE, "degreesf", 5.0 / 9.0, -160.0 / 9.0},
    {TEMPERATURE, "fahrenheit", 5.0 / 9.0, -160.0 / 9.0},
    {TEMPERATURE, "k", 1, -273.15},
    {TEMPERATURE, "kelvin", 1, -273.15},
    {DEPTH, "mm", 1, 0},
    {DEPTH, "mmd", 1, 0},
    {DEPTH, "mmd1", 1, 0},
    {DEPTH, "mmday", 1, 0},
    {DEPTH, "mmday1", 1, 0},
    {DEPTH, "lm2", 1, 0},
    {DEPTH, "millimetres", 1, 0},
    {DEPTH, "millimeters", 1, 0},
    {DEPTH, "01mm", 0.1, 0},
    {DEPTH, "cm", 10, 0},
    {DEPTH, "in", 10 * UNITS_CM_OF_INCH, 0},
    {DEPTH, "inch", 10 * UNITS_CM_OF_INCH, 0},
    {DEPTH, "inches", 10 * UNITS_CM_OF_INCH, 0},
    {DEPTH, "inday", 10 * UNITS_CM_OF_INCH, 0},
    {DEPTH, "inchday", 10 * UNITS_CM_OF_INCH, 0},
    {RADIATION, "mj", 1, 0},
    {RADIATION, "mjm2", 1, 0},
    {RADIATION, "mjm2d", 1, 0},
    {RADIATION, "mjm2d1", 1, 0},
    {RADIATION, "mjm2day", 1, 0},
    {RADIATION, "mjm2day1", 1, 0},
    {RADIATION, "jcm2", 0.01, 0},
    {RADIATION, "jcmsq", 0.01, 0},
    {RADIATION, "jcm2d", 0.01, 0},
    {RADIATION, "jcm2day", 0.01, 0},
    {RADIATION, "kjm2", 0.001, 0},
    {RADIATION, "kjm2d", 0.001, 0},
    {RADIATION, "kjm2day", 0.001, 0},
    {RADIATION, "w", 0.0864, 0},
    {RADIATION, "wm2", 0.0864, 0},
    {RADIATION, "kwh", 3.6, 0},
    {RADIATION, "kwhm2", 3.6, 0},
    {RADIATION, "kwhm2d", 3.6, 0},
    {RADIATION, "kwhm2day", 3.6, 0},
    {RADIATION, "kwhrm2", 3.6, 0},
    {RADIATION, "kwhrm2day", 3.6, 0},
    {RADIATION, "whm2", 0.0036, 0},
    {RADIATION, "whm2day", 0.0036, 0},
    {HUMIDITY, "", 1, 0},
    {HUMIDITY, "pct", 1, 0},
    {HUMIDITY, "percent", 1, 0},
    {SPEED, "ms", 1, 0},
    {SPEED, "ms1", 1, 0},
    {SPEED, "mps", 1, 0},
    {SPEED, "01ms", 0.1, 0},
    {SPEED, "kmh", 1 / 3.6, 0},
    {SPEED, "kmh1", 1 / 3.6, 0},
    {SPEED, "kph", 1 / 3.6, 0},
    {SPEED, "kmd", 1 / 86.4, 0},
    {SPEED, "kmday", 1 / 86.4, 0},
    {SPEED, "mph", UNITS_MS_OF_MPH, 0},
    {SPEED, "mih", UNITS_MS_OF_MPH, 0},
    {SPEED, "kn", 1852.0 / 3600, 0},
    {SPEED, "kt", 1852.0 / 3600, 0},
    {SPEED, "kts", 1852.0 / 3600, 0},
    {SPEED, "knot", 1852.0 / 3600, 0},
    {SPEED, "knots", 1852.0 / 3600, 0},
};

/* The superscript two counts as 2; degree signs, in UTF-8 or Latin-1, as nothing. */
static void unit_key(const char *text, size_t n, char *key, size_t size)
{
    size_t length = 0;
    for (size_t i = 0; i < n && length + 1 < size; i++) {
        unsigned char c = (unsigned char)text[i];
        if (c == 0xb2) {
            key[length++] = '2';
        } else if (c < 0x80 && isalnum(c)) {
            key[length++] = (char)tolower(c);
        }
    }
    key[length] = 0;
}

bool quantity_unit_of(enum weather_var v, const char *text, size_t n, struct quantity_unit *unit)
{
    char key[32];
    unit_key(text, n, key, sizeof key);
    if (dimension_of[v] == HUMIDITY && key[0] == 0 && !memchr(text, '%', n)) {
        return false;
    }
    for (size_t i = 0; i < sizeof unit_rows / sizeof unit_rows[0]; i++) {
        if (unit_rows[i].dimension == dimension_of[v] && strcmp(unit_rows[i].key, key) == 0) {
            *unit = (struct quantity_unit){unit_rows[i].scale, unit_rows[i].offset};
            return true;
        }
    }
    return false;
}

const char *quantity_units_allowed(enum weather_var v)
{
    static const char *const allowed[] = {
        [TEMPERATURE] = "C, F, K or 0.1 C",
        [DEPTH] = "mm, cm, inch or 0.1 mm",
        [RADIATION] = "MJ/m2, kJ/m2, J/cm2, kWh/m2, Wh/m2 (sums of the day) or W/m2 (its mean)",
        [HUMIDITY] = "%",
        [SPEED] = "m/s, km/h, mph, kn, km/d or 0.1 m/s",
    };
    return allowed[dimension_of[v]];
}

bool quantity_is_missing_text(const char *text, size_t n)
{
    static const char *const words[] = {"NA", "N/A", "#N/A", "NaN", "null", "none", "nil", "missing",
                                        "-",  "--",  "---",  ".",   "..",   "?",    "*",   "\\N"};
    if (n == 0) {
        return true;
    }
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        if (strlen(words[i]) == n && strncasecmp(words[i], text, n) == 0) {
            return true;
        }
    }
    return false;
}

static bool is_missing_code(double raw)
{
    static const double codes[] = {-99,     -99.9,  -99.99, -999,  -999.9, -999.99, -9999,
                                   -9999.9, -99999, 999,    999.9, 9999,   9999.9,  99999};
    for (size_t i = 0; i < sizeof codes / sizeof codes[0]; i++) {
        if (raw == codes[i]) {
            return true;
        }
    }
    return false;
}

enum quantity_verdict quantity_judge(enum weather_var v, double raw, double *x)
{
    const struct quantity_range *r = &ranges[v];
    bool inside = *x >= r->low && *x <= r->high, usual = *x >= r->usual_low && *x <= r->usual_high;
    if (!usual && is_missing_code(raw)) {
        *x = NAN;
        return QUANTITY_MISSING;
    }
    if (v == WEATHER_RH && inside && *x > 100) {
        *x = 100;
    }
    return inside ? QUANTITY_GOOD : QUANTITY_IMPOSSIBLE;
}
