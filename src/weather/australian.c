/* Station files of the Australian weather service: one variable a file, empty rows back to
 * the founding of the station, and a column that says over how many days a value was
 * gathered. The header of the rain file is seen; those of maximum, minimum and sun are
 * from memory. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/num.h"
#include "weather/note.h"
#include "weather/station_table.h"

#include <math.h>

/* Gathered over more than one day it is no value of the day. */
static bool judge_period(const char *text, size_t n, double *x)
{
    long days;
    if (!num_parse_long(text, n, 0, 999, &days)) {
        return false;
    }
    *x = days > 1 ? (double)NAN : *x;
    return true;
}

static const struct csv_known columns[] = {
    {"Bureau of Meteorology station number", ROLE_SITE, 0, 0, 0, false, NULL},
    {"Year", ROLE_YEAR, 0, 0, 0, false, NULL},
    {"Month", ROLE_MONTH, 0, 0, 0, false, NULL},
    {"Day", ROLE_DAY, 0, 0, 0, false, NULL},
    {"Rainfall amount (millimetres)", ROLE_VALUE, WEATHER_RAIN, 0, 0, false, NULL},
    {"Period over which rainfall was measured (days)", ROLE_FLAG, WEATHER_RAIN, 0, 0, false, judge_period},
    {"Minimum temperature (Degree C)", ROLE_VALUE, WEATHER_TMIN, 0, 0, false, NULL},
    {"Days of accumulation of minimum temperature", ROLE_FLAG, WEATHER_TMIN, 0, 0, false, judge_period},
    {"Maximum temperature (Degree C)", ROLE_VALUE, WEATHER_TMAX, 0, 0, false, NULL},
    {"Days of accumulation of maximum temperature", ROLE_FLAG, WEATHER_TMAX, 0, 0, false, judge_period},
    {"Daily global solar exposure (MJ/m*m)", ROLE_VALUE, WEATHER_RAD, 0, 0, false, NULL},
};

static const struct station_table table = {
    .all = {"Product code", "Year", "Month", "Day"},
    .names = "Product code,Bureau of Meteorology station number,Year,Month,Day,...",
    .why = "gathered over more than one day",
    .known = columns,
    .n_known = sizeof columns / sizeof columns[0],
    .alone = true,
};

bool australian_is(const struct weather_file *f)
{
    struct line l;
    return station_table_find(f, &table, &l);
}

/* As every rain that is read in the morning it goes to the day before, on which most of
 * its hours lie. */
enum err_code australian_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    enum err_code code = station_table_read(f, &table, NULL, a, set, e);
    if (code == ERR_OK && set->site[0].days.col[WEATHER_RAIN]) {
        set->site[0].days.day0--; /* the file holds one variable */
        code = note_add(set, a, e,
                        "each rain is that of the 24 hours to 9 in the morning of its date in the file; it is given to "
                        "the day before, on which 15 of these hours lie");
    }
    return code;
}
