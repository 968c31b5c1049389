/* Values that look like those of another unit, where the file names none.
 * The bounds are our judgement, far outside what grass grows in; a keeper who knows
 * better says the unit and is believed. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/csv.h"

#include <math.h>

#define TMAX_MEDIAN_MOST 45.0 /* C: more than half the days above it are Fahrenheit, or tenths */
#define TMAX_DAYS 10          /* days needed to judge */
#define RAD_YEAR_LEAST 11.0   /* MJ/m2: the best day of a year anywhere below 70 degrees is above */
#define RAIN_YEAR_LEAST 100.0 /* mm: less is inches, or a desert */
#define RAIN_YEAR_MOST 5000.0 /* mm: more is tenths, or a few places without pasture animals */
#define YEAR_DAYS 365

static enum err_code refuse(struct csv *c, int k, const char *looks)
{
    const struct csv_column *column = &c->column[k];
    if (c->preset) {
        return csv_fail_header(c, k, "%s. If so, %s", looks, c->preset->unit_help);
    }
    return csv_fail_header(c, k, "%s. Say the unit in brackets behind the name of the column: %s", looks,
                           quantity_units_allowed(column->var));
}

static enum err_code doubt_tmax(struct csv *c, int k, const double *x)
{
    size_t days = 0, hot = 0;
    for (size_t i = 0; i < c->days.n; i++) {
        days += !isnan(x[i]);
        hot += x[i] > TMAX_MEDIAN_MOST;
    }
    return days >= TMAX_DAYS && hot * 2 > days
               ? refuse(c, k, "more than half of the days have a maximum above 45, which looks like Fahrenheit")
               : ERR_OK;
}

static enum err_code doubt_rad(struct csv *c, int k, const double *x)
{
    size_t days = 0;
    double most = 0;
    for (size_t i = 0; i < c->days.n; i++) {
        days += !isnan(x[i]);
        most = x[i] > most ? x[i] : most;
    }
    return days >= YEAR_DAYS && most < RAD_YEAR_LEAST
               ? refuse(c, k, "no day of a whole year has more than 11, which looks like kWh/m2")
               : ERR_OK;
}

static enum err_code doubt_rain(struct csv *c, int k, const double *x)
{
    size_t days = 0;
    double sum = 0;
    for (size_t i = 0; i < c->days.n; i++) {
        days += !isnan(x[i]);
        sum += isnan(x[i]) ? 0 : x[i];
    }
    double year = days ? sum / (double)days * YEAR_DAYS : 0;
    if (days < YEAR_DAYS || (year >= RAIN_YEAR_LEAST && year <= RAIN_YEAR_MOST)) {
        return ERR_OK;
    }
    return refuse(c, k,
                  year < RAIN_YEAR_LEAST ? "the rain of a year is below 100, which looks like inches"
                                         : "the rain of a year is above 5000, which looks like tenths of mm");
}

enum err_code csv_doubt(struct csv *c)
{
    static enum err_code (*const check[WEATHER_VARS])(struct csv *, int, const double *) = {
        [WEATHER_TMAX] = doubt_tmax, [WEATHER_RAD] = doubt_rad, [WEATHER_RAIN] = doubt_rain};
    for (size_t i = 0; i < c->n_vars; i++) {
        enum weather_var v = c->var[i];
        int k = c->var_column[i];
        if (check[v] && !c->column[k].stated) {
            enum err_code code = check[v](c, k, c->days.col[v]);
            if (code != ERR_OK) {
                return code;
            }
        }
    }
    return ERR_OK;
}
