/* Observations of the global daily climatology and of the United States daily
 * summaries drawn from it: four layouts (summaries-json, summaries-csv, ghcn-by-year,
 * ghcn-dly) give them one by one, in any order; here they become stations and days.
 *
 * Rules, the same for all four:
 * - TMAX, TMIN, PRCP, AWND (mean wind at 10 m, from memory; brought to 2 m by 0.748,
 *   FAO-56 Eq. 47), ADPT (dew point) and RHAV (humidity) are used. Other elements are not.
 * - A quality flag: the value failed a check of the archive and is missing; how many are is said.
 * - A measurement flag T (trace) is 0, as the archive writes it. P (missing, presumed
 *   zero) is rain of the archive's presuming: its 0 is kept, and how many there are is said.
 * - MDPR (rain gathered over DAPR days) belongs to no one day: those days have no rain,
 *   and how many there are is said.
 * - Tmin above Tmax: both are missing, and it is said.
 * - A day is the station's: where most readings carry an hour well inside the day, it is
 *   said which values belong to the day before. Nothing is shifted.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_GHCN_H
#define SUGARLEA_WEATHER_GHCN_H

#include "weather/layout.h"
#include "weather/unit_sense.h"

/* One value of one day as the file has it. */
struct ghcn_value {
    double value; /* not converted */
    date_t date;
    uint32_t at;            /* where it stands: offset in the text, or index of the object in JSON */
    uint32_t station;       /* set by ghcn_add */
    uint8_t element;        /* ghcn_element() */
    char measured, quality; /* flags; ' ' or 0: none */
    int8_t hour;            /* of the reading, 0..24; -1: not said */
};

#define GHCN_MISSING (-9999.0)
/* Elements: those of weather are the number of their variable. */
#define GHCN_MDPR WEATHER_VARS       /* rain gathered over several days */
#define GHCN_DAPR (WEATHER_VARS + 1) /* over how many */
#define GHCN_OTHER UINT8_MAX         /* an element that is not used */

/* An element by its four letters. */
uint8_t ghcn_element(const char *name, size_t n);
const char *ghcn_element_name(uint8_t element);

/* Attributes "M,Q,S" or "M,Q,S,HHMM" (as in column X_ATTRIBUTES) into v. */
void ghcn_attributes(const char *text, size_t n, struct ghcn_value *v);

/* "0700" as an hour, -1 when it is none. */
int8_t ghcn_hour(const char *text, size_t n);

struct ghcn_station {
    const char *id;
    struct site place;
    date_t first, last; /* of its usable values; DATE_NONE: none yet */
    unsigned vars;      /* bit of each variable that has one */
};

/* What was told aside. */
struct ghcn_counts {
    size_t failed, presumed, crossed, gathered, gathered_days;
    double gathered_sum; /* as the file has it */
    date_t crossed_first;
};

#define GHCN_HOURS 25
#define GHCN_OTHERS 64 /* names of elements kept */

struct ghcn {
    const struct weather_file *file;
    struct arena *arena;  /* of the set */
    struct arena scratch; /* of the reading */
    struct err *e;
    struct ghcn_station *station;
    size_t n_stations, station_room, now; /* now: the station of the next value */
    uint32_t *slot;                       /* hash of station ids; 0 empty, else index + 1 */
    size_t slots;
    struct ghcn_value *seen;
    size_t n, room;
    size_t at_hour[GHCN_HOURS], tmax_values; /* hours of the readings of TMAX */
    char other[GHCN_OTHERS][5];              /* elements that were not used */
    size_t others;
    struct ghcn_counts counts;
    struct unit_verdict verdict; /* on units; its text is "" when nothing had to be told from values */
};

/* Starts an empty collection; ghcn_release frees what the set does not hold. */
void ghcn_start(struct ghcn *g, const struct weather_file *f, struct arena *a, struct err *e);
void ghcn_release(struct ghcn *g);

/* The station of the values to come ("" for a file of one). ERR_DATA (too long, too many), ERR_NOMEM. */
enum err_code ghcn_station(struct ghcn *g, const char *id, size_t n, uint32_t at);

/* Adds a value of that station by the rules above. ERR_NOMEM. */
enum err_code ghcn_add(struct ghcn *g, const struct ghcn_value *v);

/* ghcn_text.c: steps that the readers share; each ERR_DATA names what is allowed.
 * A date as 2021-01-31 or 20210131; a month or a year says what to fetch instead. */
enum err_code ghcn_date(struct ghcn *g, const char *text, size_t n, uint32_t at, date_t *date);

/* The number of v, which knows its element and place. */
enum err_code ghcn_number(struct ghcn *g, const char *text, size_t n, struct ghcn_value *v);

/* Latitude (0), longitude (1) or elevation (2) of the present station, where it is not
 * known yet; empty text is passed over. */
enum err_code ghcn_place(struct ghcn *g, int which, const char *text, size_t n, uint32_t at);

/* Remembers the name of an element that is not used. */
void ghcn_ignore(struct ghcn *g, const char *name, size_t n);

/* ghcn_days.c: makes the sites of the set from all values. units: what the layout
 * defines, UNITS_UNSAID when it does not; what the user said beside the file goes
 * before it. ERR_DATA: a value twice, impossible, the units cannot be told, no
 * temperature or rain. */
enum err_code ghcn_finish(struct ghcn *g, enum weather_units units, struct weather_set *set);

/* ghcn_note.c: what was told aside, as sentences; NULL: out of memory. */
const char *ghcn_note(struct ghcn *g);
const char *ghcn_ignored(struct ghcn *g); /* names of the elements that were not used */

enum err_code ghcn_no_memory(struct ghcn *g);

/* ERR_DATA placed where a value stands (at as in ghcn_value). */
enum err_code ghcn_fail(struct ghcn *g, uint32_t at, const char *field, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

#endif
