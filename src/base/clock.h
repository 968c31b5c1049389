/* Clock time from solar time, and today's date. The only file that reads the
 * system clock and the time-zone tables; the model itself knows solar hours only.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_CLOCK_H
#define SUGARLEA_CLOCK_H

#include "base/date.h"

#include <stdbool.h>
#include <time.h>

/* True when the system's tables know the IANA zone name ("Europe/London"). */
bool clock_zone_known(const char *zone);

/* Seconds since 1970, UTC. The environment variable SOURCE_DATE_EPOCH, where set,
 * stands for the clock, so that runs can be repeated. */
time_t clock_now(void);

/* Seconds that only count up, for time limits; SOURCE_DATE_EPOCH does not matter here. */
double clock_ticks(void);

/* Today in the zone ("" or unknown: the system's own), by clock_now. */
date_t clock_today(const char *zone);

/* Minutes that the zone is ahead of UTC at solar noon of the date (DST included). */
int clock_offset_minutes(const char *zone, date_t date);

/* Hours to add to solar time for the zone's clock on a date: longitude (degrees
 * east) and equation of time (minutes, solar minus mean) taken off. */
double clock_from_solar(const char *zone, date_t date, double longitude, double equation_min);

#endif
