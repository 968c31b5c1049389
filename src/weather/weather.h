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

/* What the reader may be told beside the file; zeros and NaN where nothing is known. */
struct weather_hints {
    const char *layout;   /* read it as this layout, whatever it looks like; NULL: by content */
    const char *units;    /* the units of a file that does not say them: a name of weather_units; NULL */
    const char *timezone; /* IANA zone of the place, by which hours become days; NULL or "": not known */
    double longitude;     /* degrees east, for hours without a zone; NaN: not known */
};
extern const struct weather_hints weather_no_hints;

/* The names that weather_hints.units may take, in words: "metric", "us", "tenths". */
enum weather_units { UNITS_UNSAID, UNITS_METRIC, UNITS_US, UNITS_TENTHS };
enum { WEATHER_UNITS = UNITS_TENTHS + 1 };
extern const char *const weather_units_names[WEATHER_UNITS]; /* "" what is unsaid */
bool weather_units_of(const char *name, enum weather_units *units);

struct weather_set {
    const char *layout;  /* static: name of the layout recognised */
    const char *ignored; /* names of the columns that were not used, "a, b"; "" none */
    const char *note;    /* a doubt about the whole file, one sentence for people; "" none */
    size_t n;
    struct weather_site *site;
};

/* Reads a file of any known layout, recognised by content. All memory is the
 * arena's; h may be NULL, and what it points to need not outlive the call. ERR_NOINPUT (missing,
 * unreadable, a folder), ERR_USAGE (a hint that is not known), ERR_DATA (refused, with
 * line, column, offending text and what is allowed); nothing half-read is given. */
enum err_code weather_read(const char *path, const struct weather_hints *h, struct arena *a, struct weather_set *set,
                           struct err *e);

/* The same for bytes in memory; path is for messages only. */
enum err_code weather_read_bytes(const char *bytes, size_t size, const char *path, const struct weather_hints *h,
                                 struct arena *a, struct weather_set *set, struct err *e);

/* Is given each site of a file; the site is the reader's and lasts for the call. Anything but
 * ERR_OK, with e filled, ends the reading and is what weather_each returns. */
typedef enum err_code weather_visit(void *context, const struct weather_site *site, struct err *e);

/* Reads a file site by site, in its order: of a table with a row of column names never more
 * than one site is held, however long it is; any other layout is read whole first. The errors
 * of weather_read; sites before one have been visited. */
enum err_code weather_each(const char *path, const struct weather_hints *h, weather_visit *visit, void *context,
                           struct err *e);

/* Adds the days of b into a, which may be empty (n 0, all pointers NULL): the table is
 * widened as needed. Cell by cell recorded beats forecast beats filled; on a tie a's
 * cell stands when it has a value. The day's origin is that of its temperatures (the
 * weaker of the two). Where Tmin and Tmax would cross, both are taken from one side that
 * has both uncrossed, where there is one. ERR_DATA when the two span more than LIMIT_DAYS. */
enum err_code weather_merge(struct weather_days *a, const struct weather_days *b, struct arena *arena, struct err *e);

struct weather_report {
    date_t recorded_to;        /* last day with recorded Tmin and Tmax; DATE_NONE */
    date_t forecast_to;        /* DATE_NONE */
    size_t filled_days;        /* days with a temperature or rain estimated across a short gap */
    size_t missing_days;       /* days of gaps too long to fill, before the recent stretch: day-of-year means */
    size_t rain_days;          /* of the last 365: days whose rain is an estimate, */
    double rain_mm;            /* their rain together, */
    double rain_sd_mm;         /* and its standard deviation, by how much such days differ in the record */
    size_t estimated_rad_days; /* of which the radiation was not read, or not believed */
    double k_rs;               /* factor of FAO-56 Eq. 50 with which it was estimated: fitted, or 0.16 */
    size_t doubtful_rad_days;  /* with radiation above the extraterrestrial, or 0 by day: not believed */
};

/* Makes the columns that the model needs complete over the whole table: Tmin, Tmax,
 * rain, radiation, ET0. Temperatures of a day whose minimum is above its maximum are
 * taken as missing. Days before the first and after the last with both temperatures
 * are cut off. Gaps of up to limits->gap_fill_days are closed from their ends and from
 * what is usual (gaps.h); a longer gap that reaches into the last gap_recent_days days
 * of the record is ERR_NOINPUT and named (between record and forecast it may be as old
 * as an advice allows, stale_refuse_days and the day itself), an earlier one is closed with day-of-year
 * means of the record. Radiation that is missing, above the extraterrestrial or 0 by
 * day is taken from the temperature range (FAO-56 Eq. 50), at any length; its factor is
 * fitted where the record has limits->k_rs_days days with radiation, else 0.16. ET0 is
 * FAO-56 Penman-Monteith with its fall-backs where the file gave none. No temperature
 * or no rain at all, or no latitude, is ERR_NOINPUT. Elevation unknown counts as 0 m
 * (ET0 changes by under 1 % per 100 m). Columns are changed in place. How near all this
 * comes to what was measured: tests/science/test_gaps_scored.c. Lays out w->air and day_length_h. */
enum err_code weather_complete(struct weather_days *w, const struct site *site, const struct advice_limits *limits,
                               struct arena *a, struct weather_report *report, struct err *e);

/* How much of the weather before day `end` of a complete table is estimate, 0 to 1, as
 * the root of a share of variance: 1 when all of the last 365 days are day-of-year means;
 * filled days count 0.7. The last half_days make up half of it, the last 60 nearly all:
 * sugar forgets fast (computed by us, see spread_estimated in models/limits.json). Days
 * before the table count for nothing. */
double weather_estimated(const struct weather_days *w, size_t end, double half_days);

/* What was known on the morning of `today`: the days before it as they are; today and
 * tomorrow from a forecast where the table has one; else assumed: Tmin and Tmax the
 * mean of the last 3 days, mean clearness of those days times the extraterrestrial
 * radiation of the day, no rain, ET0 by Eq. 6 on these, humidity and wind NaN. A
 * recorded Tmin of today is used (the night is over); recorded values that lay in the
 * future that morning are not. `w` is complete and holds at least 3 days before today.
 * Of tomorrow only the minimum is told: the night's course needs no more. */
struct weather_morning {
    double value[WEATHER_VARS]; /* of today */
    double tmin_after;          /* of tomorrow, C */
    bool assumed;               /* some of it is persistence */
};
void weather_known(const struct weather_days *w, const struct site *site, date_t today, struct weather_morning *m);

/* What the morning of `today` assumes in that way for a date on or after it, when no
 * forecast is kept. */
void weather_persist(const struct weather_days *w, const struct site *site, date_t today, date_t date,
                     double value[WEATHER_VARS]);

/* Lengthens a complete table to `last` with days assumed in the same way (origin
 * ORIGIN_ASSUMED), for a record that ends some days before the morning asked about.
 * Nothing happens when it reaches so far already. ERR_NOMEM. */
enum err_code weather_assume(struct weather_days *w, const struct site *site, date_t last, struct arena *a,
                             struct err *e);

#endif
