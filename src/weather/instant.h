/* Instants and intervals as ISO 8601 writes them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_INSTANT_H
#define SUGARLEA_WEATHER_INSTANT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* "2025-05-04T07:00", with or without seconds, then nothing, "Z" or an offset
 * ("+09:30"), filling text[0..n). *s: seconds since 1970-01-01 00:00 UTC when the zone
 * is said (*zoned), else the same of the clock on the wall. */
bool instant_parse(const char *text, size_t n, int64_t *s, bool *zoned);

/* "2022-02-04T01:00:00+00:00/PT10H": an instant with its zone and how long it lasts, in
 * weeks, days, hours, minutes and seconds (years and months are not of one length). */
bool instant_interval(const char *text, int64_t *from, int64_t *to);

#endif
