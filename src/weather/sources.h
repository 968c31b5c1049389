/* The weather of a holding, read source by source and merged.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_SOURCES_H
#define SUGARLEA_WEATHER_SOURCES_H

#include "data/advice_limits.h"
#include "data/holding.h"
#include "weather/weather.h"

struct sources_ask {
    const char *file;   /* this one file in place of what the holding names; NULL: the holding's */
    const char *layout; /* as in weather_hints */
    const char *units;
};

struct source_read {    /* one file or one kept answer of a service, after reading */
    const char *name;   /* its path, or the service's name */
    const char *layout; /* as recognised */
    const char *note;   /* what the reader doubts or assumes; "" nothing */
    const char *ignored;
    struct site place; /* as the file says it; NaN where it does not */
    date_t first, last;
    size_t days, missing_days; /* missing: lacking Tmin, Tmax or rain where the file has them at all */
};

struct sources {
    size_t n;
    struct source_read *source;
};

/* Reads what the holding names (or ask->file alone), merges all days into *days, and
 * says what each source held. A file of several places gives the nearest within
 * weather_far_km. All memory is the arena's. ERR_NOINPUT (no weather at all, a file
 * that is missing), ERR_DATA (a file that is wrong), ERR_USAGE (a hint). */
enum err_code sources_read(const struct sources_ask *ask, const struct holding *h, const struct advice_limits *l,
                           struct arena *a, struct weather_days *days, struct sources *read, struct err *e);

/* A sentence when the source is of a place far from the holding or much higher or
 * lower; NULL when all is well or not known. text is filled and returned. */
const char *sources_place_doubt(const struct source_read *s, const struct site *site, const struct advice_limits *l,
                                char *text, size_t size);

#endif
