/* Daily values of the Swiss weather service, old header (station/location;date, 20240514,
 * "-" for missing) and new (station_abbr;reference_timestamp, 14.05.2024 00:00, empty for
 * missing). Built from the documented names without a file at hand: all of it is from
 * memory. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/note.h"
#include "weather/station_table.h"

#define WATT 0.0864                       /* a day's mean in W/m2 to MJ/m2 */
#define KM_H_TO_2M (WIND_10M_TO_2M / 3.6) /* the same from km/h */

static const struct csv_known columns[] = {
    {"station/location", ROLE_SITE, 0, 0, 0, false, NULL},
    {"stn", ROLE_SITE, 0, 0, 0, true, NULL},
    {"station_abbr", ROLE_SITE, 0, 0, 0, false, NULL},
    {"date", ROLE_DATE, 0, 0, 0, false, NULL},
    {"time", ROLE_DATE, 0, 0, 0, true, NULL},
    {"reference_timestamp", ROLE_DATE, 0, 0, 0, false, NULL},
    {"tre200dn", ROLE_VALUE, WEATHER_TMIN, 0, 0, false, NULL},
    {"tre200dx", ROLE_VALUE, WEATHER_TMAX, 0, 0, false, NULL},
    {"rka150d0", ROLE_VALUE, WEATHER_RAIN, 0, 0, false, NULL},
    {"rre150d0", ROLE_VALUE, WEATHER_RAIN, 0, 0, true, NULL},
    {"gre000d0", ROLE_VALUE, WEATHER_RAD, WATT, 0, false, NULL},
    {"ure200d0", ROLE_VALUE, WEATHER_RH, 0, 0, false, NULL},
    {"fkl010d0", ROLE_VALUE, WEATHER_WIND, WIND_10M_TO_2M, 0, false, NULL},
    {"fu3010d0", ROLE_VALUE, WEATHER_WIND, KM_H_TO_2M, 0, true, NULL},
};

static const struct station_table table = {
    .any = {"tre200dn", "tre200dx", "rka150d0", "rre150d0", "gre000d0"},
    .names = "station_abbr;reference_timestamp;tre200dn;tre200dx;rka150d0;gre000d0;...",
    .known = columns,
    .n_known = sizeof columns / sizeof columns[0],
    .alone = true,
};

bool swiss_is(const struct weather_file *f)
{
    struct line l;
    return station_table_find(f, &table, &l);
}

enum err_code swiss_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    struct line l;
    bool morning = station_table_find(f, &table, &l) && !line_has_cell(&l, "rka150d0") && line_has_cell(&l, "rre150d0");
    enum err_code code = station_table_read(f, &table, NULL, a, set, e);
    if (code == ERR_OK && morning) {
        code =
            note_add(set, a, e,
                     "the rain of a day is that of the 24 hours from 6 in its morning (UTC); rka150d0 has whole days");
    }
    return code;
}
