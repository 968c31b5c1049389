/* Clock time from solar time, and today's date. The only file that reads the
 * system clock and the time-zone tables; the model itself knows solar hours only.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_CLOCK_H
#define SUGARLEA_CLOCK_H

#include "base/arena.h"
#include "base/date.h"
#include "base/err.h"

#include <stdbool.h>
#include <stdint.h>
#include <time.h>

/* True when the system's tables know the IANA zone name ("Europe/London"). */
bool clock_zone_known(const char *zone);

/* The name of the system's own zone, from $TZ, /etc/timezone or where /etc/localtime points;
 * false when none of them gives one that the tables know. */
bool clock_system_zone(char *zone, size_t size);

/* Seconds since 1970, UTC. The environment variable SOURCE_DATE_EPOCH, where set,
 * stands for the clock, so that runs can be repeated. */
time_t clock_now(void);

/* Seconds that only count up, for time limits; SOURCE_DATE_EPOCH does not matter here. */
double clock_ticks(void);

/* Makes a zone that the tables know ("": the system's own) the one that the process reckons in:
 * from then on, until another is entered, the functions below cannot fail for it. ERR_NOMEM, or
 * ERR_NOINPUT where its tables cannot be read; the functions below then take UTC. */
enum err_code clock_enter(const char *zone, struct err *e);

/* Today in the zone ("" or unknown: the system's own), by clock_now; and with the minute of the day. */
date_t clock_today(const char *zone);
date_t clock_moment(const char *zone, int *minute);

/* The latest minute of today that the clock has shown up to now: later than now in the hours after it was put back. */
int clock_latest_minute(const char *zone);

/* Minutes that the zone is ahead of UTC at solar noon of the date (DST included). */
int clock_offset_minutes(const char *zone, date_t date);

/* Hours to add to solar time for the zone's clock on a date: longitude (degrees
 * east) and equation of time (minutes, solar minus mean) taken off. */
double clock_from_solar(const char *zone, date_t date, double longitude, double equation_min);

/* The offsets of a zone over a span of time, looked up once and then free of the
 * environment: for tens of thousands of hours. Instants are seconds since 1970-01-01
 * 00:00 UTC without leap seconds. Memory is the arena's. */
struct clock_zone {
    size_t n;              /* pieces of constant offset, at least 1 */
    const int64_t *from;   /* instant at which a piece begins; the first holds for all earlier ones */
    const int32_t *offset; /* seconds ahead of UTC */
};

#define CLOCK_DAY_SECONDS 86400

/* Looks up an IANA zone from first to last; outside of them the nearest offset holds. The zone
 * entered before stays so. ERR_NOINPUT when the system's tables do not know the name or cannot
 * be read, ERR_NOMEM. A span of more than 400 years is ERR_BUG. */
enum err_code clock_zone_load(struct clock_zone *z, const char *name, int64_t first, int64_t last, struct arena *a,
                              struct err *e);

/* A zone that is always so many seconds ahead of UTC. ERR_NOMEM. */
enum err_code clock_zone_fixed(struct clock_zone *z, int32_t offset, struct arena *a, struct err *e);

int32_t clock_zone_offset(const struct clock_zone *z, int64_t instant); /* seconds ahead of UTC */
date_t clock_zone_date(const struct clock_zone *z, int64_t instant);    /* local date */

/* The first instant of a local date. The day is as long as the way to the next date's:
 * 23, 24 or 25 h; 0 where a zone left the date out. */
int64_t clock_zone_midnight(const struct clock_zone *z, date_t date);

#endif
