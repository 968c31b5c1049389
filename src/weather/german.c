/* A daily file of the German weather service: blank-padded names and values between
 * semicolons, `eor` last, missing -999. Beside the climate file (KL) its daily rain (RS)
 * and radiation (FG_STRAHL) are read; column names of those two are from memory. Years
 * can be absent without a row. The products of an hour or ten minutes begin with the
 * same columns and have longer dates. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/lines.h"

#include <string.h>

#define DATE "MESS_DATUM"
#define J_CM2 0.01 /* MJ/m2 */
#define DAILY "fetch the station's daily climate file (climate/daily/kl)"

static const struct csv_known columns[] = {
    {.name = "STATIONS_ID", .role = ROLE_SITE},
    {.name = DATE, .role = ROLE_DATE},
    {.name = "TNK", .role = ROLE_VALUE, .var = WEATHER_TMIN},
    {.name = "TXK", .role = ROLE_VALUE, .var = WEATHER_TMAX},
    {.name = "RSK", .role = ROLE_VALUE, .var = WEATHER_RAIN},
    {.name = "RS", .role = ROLE_VALUE, .var = WEATHER_RAIN, .weak = true},
    {.name = "FG_STRAHL", .role = ROLE_VALUE, .var = WEATHER_RAD, .scale = J_CM2},
    {.name = "UPM", .role = ROLE_VALUE, .var = WEATHER_RH},
    {.name = "FM", .role = ROLE_VALUE, .var = WEATHER_WIND, .scale = WIND_10M_TO_2M},
};

/* The row of names: the station first, and a date of whatever product. */
static bool find_names(const struct weather_file *f, struct line *line)
{
    return line_find(f, "STATIONS_ID", NULL, line) && memmem(line->text, line->n, DATE, strlen(DATE));
}

bool german_daily_is(const struct weather_file *f)
{
    struct line line;
    return find_names(f, &line);
}

/* Digits of the date in the row, its second field. */
static size_t date_digits(const struct line *row, char delimiter)
{
    const char *end = row->text + row->n, *p = memchr(row->text, delimiter, row->n);
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
    if (!find_names(f, &names)) {
        return line_fail(f, NULL, NULL, e, "there is no row of names with STATIONS_ID and " DATE);
    }
    if (!line_has_cell(&names, DATE)) {
        return line_fail(f, &names, NULL, e, "these are monthly or yearly values; " DAILY);
    }
    first = names;
    size_t digits = line_next(f, &first) ? date_digits(&first, line_delimiter(&names)) : 0;
    if (digits == 10 || digits == 12) {
        return line_fail(f, &first, DATE, e, "these are %s values; " DAILY, digits == 10 ? "hourly" : "10-minute");
    }
    struct csv_preset preset = {.names = names.text,
                                .line = names.number,
                                .delimiter = line_delimiter(&names),
                                .known = columns,
                                .n_known = sizeof columns / sizeof columns[0],
                                .dates = CSV_DATE_COMPACT,
                                .place = csv_no_place()};
    return csv_read_preset(f, &preset, a, set, e);
}
