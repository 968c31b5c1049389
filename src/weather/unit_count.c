/* Counting what tells units apart.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/unit_sense.h"

#include "physics/sun.h"

#include <math.h>
#include <string.h>

#define EVEN_C 2.0
#define NARROW_C 4.0
#define WIDE_C 28.0
#define STILL_C 0.5
/* The warmest places of the year: Ra of 41 MJ/m2 in a desert's July and maxima of 49 C;
 * Ra of 20 and 25 C on a subtropical coast in winter; Ra of 3 and 8 C on a northern sea.
 * All lie below Ra + 12. Our judgement; the places from memory. */
#define WARMEST_C 12.0
#define SUMMER_RA 36.0 /* MJ/m2: from May to July */
#define SUMMER_LATITUDE 45.0
#define SUMMER_ELEVATION_M 1000.0
#define SUMMER_COLD_C 12.0
#define RAIN_HUGE_MM 400.0
#define WIND_MOST 40.0
#define WIND_STORM 15.0
#define YEAR_DAYS 365
#define DECIMALS_NEAR 1e-6 /* a decimal number in binary */
#define GRID_NEAR 0.51     /* tenths: a whole degree F rounded to tenths of C */

struct quantity_unit unit_sense_unit(enum weather_units units, enum weather_var v)
{
    static const char *const names[UNITS_TENTHS + 1][WEATHER_VARS] = {
        [UNITS_METRIC] = {"C", "C", "mm", NULL, NULL, "m/s", "C", NULL},
        [UNITS_US] = {"F", "F", "inch", NULL, NULL, "mph", "F", NULL},
        [UNITS_TENTHS] = {"0.1 C", "0.1 C", "0.1 mm", NULL, NULL, "0.1 m/s", "0.1 C", NULL},
    };
    struct quantity_unit unit = {1, 0};
    const char *name = names[units][v];
    if (name) {
        quantity_unit_of(v, name, strlen(name), &unit);
    }
    return unit;
}

void unit_sense_start(struct unit_counts *c)
{
    *c = (struct unit_counts){0};
    for (int u = UNITS_METRIC; u < UNIT_READINGS; u++) {
        for (int v = 0; v < WEATHER_VARS; v++) {
            c->unit[u][v] = unit_sense_unit((enum weather_units)u, (enum weather_var)v);
        }
    }
}

static double convert(const struct unit_counts *c, int reading, enum weather_var v, double raw)
{
    return raw * c->unit[reading][v].scale + c->unit[reading][v].offset;
}

static bool possible(enum weather_var v, double x)
{
    const struct quantity_range *r = quantity_range(v);
    return x >= r->low && x <= r->high;
}

static bool has_no_decimal(double x, double power)
{
    return fabs(x * power - round(x * power)) < DECIMALS_NEAR * power;
}

/* A number of tenths C that some whole degree F is rounded to. */
static bool on_grid(double tenths)
{
    double f = round(tenths * 0.18 + 32);
    return fabs((f - 32) / 0.18 - tenths) < GRID_NEAR;
}

static void count_temperature(struct unit_counts *c, int reading, enum weather_var v, double raw, bool whole_f)
{
    size_t *of = c->of[reading];
    bool whole = has_no_decimal(raw, 1), on_scale = whole_f && (reading != UNITS_METRIC || !whole);
    of[T_VALUES]++;
    of[T_WHOLE] += whole;
    of[T_BROKEN] += !whole;
    of[T_IMPOSSIBLE] += !possible(v, convert(c, reading, v, raw));
    of[T_GRID_VALUES] += on_scale;
    of[T_OFF_GRID] += on_scale && !on_grid(reading == UNITS_METRIC ? raw * 10 : raw);
}

static void count_range(size_t of[UNIT_FEATURES], double low, double high)
{
    of[T_PAIRS]++;
    of[T_EVEN] += high - low < EVEN_C;
    of[T_NARROW] += high - low < NARROW_C;
    of[T_WIDE] += high - low > WIDE_C;
}

/* A maximum against the sun of the day. ra is NaN when the latitude is not known. */
static void count_season(size_t of[UNIT_FEATURES], double tmax, double ra, const struct site *place)
{
    bool summer = ra > SUMMER_RA && fabs(place->latitude) < SUMMER_LATITUDE && place->elevation_m < SUMMER_ELEVATION_M;
    of[T_SUN_DAYS] += !isnan(ra);
    of[T_TOO_WARM] += tmax > ra + WARMEST_C;
    of[T_SUMMER_DAYS] += summer;
    of[T_TOO_COLD] += summer && tmax < SUMMER_COLD_C;
}

static void count_rain(size_t of[UNIT_FEATURES], double raw, double mm)
{
    bool wet = raw > 0, whole = has_no_decimal(raw, 1), plain = has_no_decimal(raw, 10);
    of[R_DAYS]++;
    of[R_IMPOSSIBLE] += !possible(WEATHER_RAIN, mm);
    of[R_HUGE] += mm > RAIN_HUGE_MM;
    of[R_WET] += wet;
    of[R_WHOLE] += wet && whole;
    of[R_BROKEN] += wet && !whole;
    of[R_NO_HUNDREDTH] += wet && plain;
    of[R_HUNDREDTH] += wet && !plain;
}

static void count_wind(size_t of[UNIT_FEATURES], double raw, double m_s)
{
    bool whole = has_no_decimal(raw, 1), plain = has_no_decimal(raw, 10);
    of[W_DAYS]++;
    of[W_IMPOSSIBLE] += m_s > WIND_MOST;
    of[W_STORM] += m_s > WIND_STORM;
    of[W_WHOLE] += whole;
    of[W_BROKEN] += !whole;
    of[W_NO_HUNDREDTH] += plain;
    of[W_HUNDREDTH] += !plain;
}

static void count_day(struct unit_counts *c, int reading, const struct weather_days *raw, size_t i, double ra,
                      const struct site *place)
{
    size_t *of = c->of[reading];
    double low = convert(c, reading, WEATHER_TMIN, weather_at(raw, WEATHER_TMIN, i));
    double high = convert(c, reading, WEATHER_TMAX, weather_at(raw, WEATHER_TMAX, i));
    double before = i ? convert(c, reading, WEATHER_TMAX, weather_at(raw, WEATHER_TMAX, i - 1)) : (double)NAN;
    double rain = weather_at(raw, WEATHER_RAIN, i), wind = weather_at(raw, WEATHER_WIND, i);
    if (!isnan(low) && !isnan(high)) {
        count_range(of, low, high);
    }
    if (!isnan(high)) {
        count_season(of, high, ra, place);
        of[T_STEPS] += !isnan(before);
        of[T_STILL] += fabs(high - before) < STILL_C;
    }
    if (!isnan(rain)) {
        count_rain(of, rain, convert(c, reading, WEATHER_RAIN, rain));
    }
    if (wind > 0) {
        count_wind(of, wind, convert(c, reading, WEATHER_WIND, wind));
    }
}

static void count_year(struct unit_counts *c, int reading, const struct weather_days *raw)
{
    size_t *of = c->of[reading];
    double sum = 0;
    size_t days = 0;
    for (size_t i = 0; i < raw->n; i++) {
        double mm = convert(c, reading, WEATHER_RAIN, weather_at(raw, WEATHER_RAIN, i));
        days += !isnan(mm);
        sum += isnan(mm) ? 0 : mm;
    }
    if (days < YEAR_DAYS) {
        return;
    }
    double year = sum / (double)days * YEAR_DAYS;
    of[R_SITES]++;
    of[R_UNUSUAL] += year < 100 || year > 4000;
    of[R_UNHEARD] += year < 10 || year > 12000;
}

static void count_temperatures(struct unit_counts *c, int reading, const struct weather_days *raw, size_t i,
                               bool whole_f)
{
    static const enum weather_var vars[] = {WEATHER_TMIN, WEATHER_TMAX, WEATHER_TDEW};
    for (size_t k = 0; k < sizeof vars / sizeof vars[0]; k++) {
        double x = weather_at(raw, vars[k], i);
        if (!isnan(x)) {
            count_temperature(c, reading, vars[k], x, whole_f);
        }
    }
}

void unit_sense_count(struct unit_counts *c, const struct weather_days *raw, const struct site *place, bool whole_f)
{
    for (size_t i = 0; i < raw->n; i++) {
        double ra = isnan(place->latitude)
                        ? (double)NAN
                        : sun_extraterrestrial(date_day_of_year(raw->day0 + (date_t)i), place->latitude);
        for (int reading = UNITS_METRIC; reading < UNIT_READINGS; reading++) {
            count_temperatures(c, reading, raw, i, whole_f);
            count_day(c, reading, raw, i, ra, place);
        }
    }
    for (int reading = UNITS_METRIC; reading < UNIT_READINGS; reading++) {
        count_year(c, reading, raw);
    }
}
