/* Weather in: files of any layout to columns, then checked, filled and completed.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_H
#define SUGARLEA_WEATHER_H

#include "base/err.h"
#include "data/advice_limits.h"
#include "data/site.h"
#include "data/weather_days.h"

struct weather_site {  /* one site of a file */
    const char *name;  /* "" when the file names none */
    struct site place; /* what the file says; NaN where it does not */
    struct weather_days days;
};

struct weather_set {
    const char *layout;  /* static: name of the layout recognised */
    const char *ignored; /* names of the columns that were not used, "a, b"; "" none */
    const char *note;    /* a doubt about the whole file, one sentence for people; "" none */
    size_t n;
    struct weather_site *site;
};

/* Reads a file of any known layout, recognised by content. All memory is the
 * arena's. ERR_NOINPUT (missing, unreadable, a folder), ERR_DATA (refused, with
 * line, column, offending text and what is allowed); nothing half-read is given. */
enum err_code weather_read(const char *path, struct arena *a, struct weather_set *set, struct err *e);

/* The same for bytes in memory; path is for messages only. */
enum err_code weather_read_bytes(const char *bytes, size_t size, const char *path, struct arena *a,
                                 struct weather_set *set, struct err *e);

/* Adds the days of b into a: the table is widened as needed; recorded beats
 * forecast beats filled; on a tie a's cell stands when it has a value. */
enum err_code weather_merge(struct weather_days *a, const struct weather_days *b, struct arena *arena, struct err *e);

struct weather_report {
    date_t recorded_to; /* last day with recorded Tmin and Tmax; DATE_NONE */
    date_t forecast_to; /* DATE_NONE */
    size_t filled_days; /* days with a temperature or rain estimated */
    size_t estimated_rad_days;
    size_t missing_days; /* days of gaps too long to fill, before the recent stretch */
};

/* Makes the columns that the model needs complete over the whole table: Tmin,
 * Tmax, rain, radiation, ET0. Gaps of up to limits->gap_fill_days are closed
 * (temperature by interpolation, radiation from the temperature range by FAO-56
 * Eq. 50, rain as 0 on filled days); a longer gap within the last
 * gap_recent_days days is ERR_NOINPUT, an earlier one is closed with day-of-year
 * means of the record. ET0 is FAO-56 Penman-Monteith with its fall-backs. */
enum err_code weather_complete(struct weather_days *w, const struct site *site, const struct advice_limits *limits,
                               struct arena *a, struct weather_report *report, struct err *e);

/* What was known on the morning of `today`: the days before it as they are, today
 * and tomorrow from a forecast where the table has one, else assumed: Tmin and
 * Tmax the mean of the last 3 days, mean clearness of those days times the
 * extraterrestrial radiation of the day, no rain (ET0 by Eq. 6 on these). `w` is
 * complete and holds at least 3 days before today. Fills day[0] = today, day[1] =
 * tomorrow, one value per variable. */
struct weather_morning {
    double value[2][WEATHER_VARS];
    bool assumed; /* some of it is persistence */
};
void weather_known(const struct weather_days *w, const struct site *site, date_t today, struct weather_morning *m);

#endif
