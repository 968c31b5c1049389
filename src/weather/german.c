/* A daily file of the German weather service: blank-padded names and values between
 * semicolons, `eor` last, missing -999. Beside the climate file (KL) its daily rain (RS)
 * and radiation (FG_STRAHL) are read; column names of those two are from memory. Years
 * can be absent without a row. The products of an hour or ten minutes begin with the
 * same columns and have longer dates. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/lines.h"

#include <string.h>

#define START "STATIONS_ID;MESS_DATUM"
#define WIND_10M_TO_2M 0.748 /* FAO-56 Eq. 47, as its text rounds it; measured at 10 m: from memory */
#define J_CM2 0.01           /* MJ/m2 */
#define DAILY "fetch the station's daily climate file (climate/daily/kl)"

static const struct csv_known columns[] = {
    {.name = "STATIONS_ID", .role = ROLE_SITE},
    {.name = "MESS_DATUM", .role = ROLE_DATE},
    {.name = "TNK", .role = ROLE_VALUE, .var = WEATHER_TMIN},
    {.name = "TXK", .role = ROLE_VALUE, .var = WEATHER_TMAX},
    {.name = "RSK", .role = ROLE_VALUE, .var = WEATHER_RAIN},
    {.name = "RS", .role = ROLE_VALUE, .var = WEATHER_RAIN, .weak = true},
    {.name = "FG_STRAHL", .role = ROLE_VALUE, .var = WEATHER_RAD, .scale = J_CM2},
    {.name = "UPM", .role = ROLE_VALUE, .var = WEATHER_RH},
    {.name = "FM", .role = ROLE_VALUE, .var = WEATHER_WIND, .scale = WIND_10M_TO_2M},
};

bool german_daily_is(const struct weather_file *f)
{
    struct line line;
    return line_find(f, START, NULL, &line);
}

/* Digits of the date in the row, its second field. */
static size_t date_digits(const struct line *row)
{
    const char *end = row->text + row->n, *p = memchr(row->text, ';', row->n);
    size_t n = 0;
    for (p = p ? p + 1 : end; p < end && *p == ' '; p++) {
    }
    while (p + n < end && p[n] >= '0' && p[n] <= '9') {
        n++;
    }
    return n;
}

enum err_code german_daily_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    struct line names, first;
    if (!line_find(f, START, "MESS_DATUM", &names)) {
        names = (struct line){0};
        return line_next(f, &names) && line_find(f, START, NULL, &names)
                   ? line_fail(f, &names, NULL, e, "these are monthly or yearly values; " DAILY)
                   : line_fail(f, &names, NULL, e, "there is no row of names that begins with " START);
    }
    first = names;
    size_t digits = line_next(f, &first) ? date_digits(&first) : 0;
    if (digits == 10 || digits == 12) {
        return line_fail(f, &first, "MESS_DATUM", e, "these are %s values; " DAILY,
                         digits == 10 ? "hourly" : "10-minute");
    }
    struct csv_preset preset = {.names = names.text,
                                .line = names.number,
                                .delimiter = ';',
                                .known = columns,
                                .n_known = sizeof columns / sizeof columns[0],
                                .dates = CSV_DATE_COMPACT,
                                .place = csv_no_place()};
    return csv_read_preset(f, &preset, a, set, e);
}
