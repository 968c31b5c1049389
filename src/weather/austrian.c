/* Daily values from the data hub of the Austrian weather service: one row of parameter
 * names, old ("tmax", "strahl") or new ("tlmax", "cglo_j"). The old names are seen in a
 * file; the new ones, the code -1 for no rain, and 10 m as the height of the wind are from
 * memory. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/station_table.h"

#include <string.h>

#define J_CM2 0.01 /* in MJ/m2 */

/* Rain of -1 is none at all; 0 is less than can be measured. */
static bool no_rain(const char *text, size_t n, double *x)
{
    *x = 0;
    return (n == 2 && memcmp(text, "-1", 2) == 0) || (n == 4 && memcmp(text, "-1.0", 4) == 0);
}

static const struct csv_known columns[] = {
    {"station", ROLE_SITE, 0, 0, 0, false, NULL},
    {"time", ROLE_DATE, 0, 0, 0, false, NULL},
    {"tmin", ROLE_VALUE, WEATHER_TMIN, 0, 0, true, NULL},
    {"tlmin", ROLE_VALUE, WEATHER_TMIN, 0, 0, false, NULL},
    {"tmax", ROLE_VALUE, WEATHER_TMAX, 0, 0, true, NULL},
    {"tlmax", ROLE_VALUE, WEATHER_TMAX, 0, 0, false, NULL},
    {"nied", ROLE_VALUE, WEATHER_RAIN, 0, 0, true, no_rain},
    {"rr", ROLE_VALUE, WEATHER_RAIN, 0, 0, false, no_rain},
    {"strahl", ROLE_VALUE, WEATHER_RAD, J_CM2, 0, true, NULL},
    {"cglo_j", ROLE_VALUE, WEATHER_RAD, J_CM2, 0, false, NULL},
    {"rel", ROLE_VALUE, WEATHER_RH, 0, 0, true, NULL},
    {"rf_mittel", ROLE_VALUE, WEATHER_RH, 0, 0, false, NULL},
    {"vv", ROLE_VALUE, WEATHER_WIND, WIND_10M_TO_2M, 0, true, NULL},
    {"vv_mittel", ROLE_VALUE, WEATHER_WIND, WIND_10M_TO_2M, 0, false, NULL},
};

static const struct station_table table = {
    .all = {"station", "time"},
    .any = {"tlmin", "tlmax", "strahl", "cglo_j", "nied", "rf_mittel", "vv", "vv_mittel"},
    .names = "station,time and parameters such as tlmin,tlmax,rr,cglo_j (or tmin,tmax,nied,strahl)",
    .known = columns,
    .n_known = sizeof columns / sizeof columns[0],
};

bool austrian_is(const struct weather_file *f)
{
    struct line l;
    return station_table_find(f, &table, &l);
}

enum err_code austrian_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    return station_table_read(f, &table, NULL, a, set, e);
}
