/* What is said about a file that was read: sentences, and days that say nothing.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_NOTE_H
#define SUGARLEA_WEATHER_NOTE_H

#include "weather/layout.h"

/* Adds a sentence, without its full stop, to the note of the set. ERR_NOMEM. */
enum err_code note_add(struct weather_set *set, struct arena *a, struct err *e, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/* Says how many values of each variable their flags took back, and why: "left out: 139
 * values of rain_mm (sums of several days)". Nothing when there are none. ERR_NOMEM. */
enum err_code note_taken(struct weather_set *set, struct arena *a, struct err *e, const size_t taken[WEATHER_VARS],
                         const char *why);

/* Cuts days without any value off both ends of every site, and leaves sites out that have
 * none. ERR_DATA when nothing is left. */
enum err_code note_trim(struct weather_set *set, const char *path, struct err *e);

#endif
