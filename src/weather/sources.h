/* The weather of a holding, read source by source and merged.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_SOURCES_H
#define SUGARLEA_WEATHER_SOURCES_H

#include "base/units.h"
#include "data/advice_limits.h"
#include "data/holding.h"
#include "weather/weather.h"

struct sources_ask {
    const char *file;   /* this one file in place of what the holding names; NULL: the holding's */
    const char *layout; /* as in weather_hints */
    const char *units;
    bool fetch;   /* ask the services even where what is kept is new enough */
    bool offline; /* ask none: what is kept only */
    date_t today; /* at the place, by the clock */
};

struct source_read {     /* one file or one kept answer of a service, after reading */
    const char *name;    /* its path, or the service's name */
    const char *credit;  /* of a service: the line its licence wants; "" a file */
    const char *trouble; /* of a service: which, and why nothing newer or nothing at all came; "" all is well */
    int64_t fetched;     /* of a service: s since 1970 when the answer came; 0 none */
    const char *layout;  /* as recognised */
    const char *note;    /* what the reader doubts or assumes; "" nothing */
    const char *ignored;
    struct site place;         /* as the file says it; NaN where it does not */
    date_t first, last;        /* DATE_NONE: of a service of which nothing is kept */
    size_t days, missing_days; /* missing: lacking Tmin, Tmax or rain where the file has them at all */
};

struct sources {
    size_t n;
    struct source_read *source;
};

/* Reads what the holding names (or ask->file alone), merges all days into *days, and
 * says what each source held. A file of several places gives the nearest within
 * weather_far_km. All memory is the arena's. ERR_NOINPUT (no weather at all, a file
 * that is missing), ERR_NETWORK (the same, and a service did not answer), ERR_DATA (a
 * file that is wrong), ERR_USAGE (a hint), ERR_CONFIG (a service that is none). */
enum err_code sources_read(const struct sources_ask *ask, const struct holding *h, const struct advice_limits *l,
                           struct arena *a, struct weather_days *days, struct sources *read, struct err *e);

/* The error of a run without recorded weather: the first service that gave nothing
 * (ERR_NETWORK), else what to add (ERR_NOINPUT). */
enum err_code sources_none(const struct sources *read, struct err *e);

/* A sentence when the source is of a place far from the holding or much higher or
 * lower; NULL when all is well or not known. text is filled and returned. */
const char *sources_place_doubt(const struct source_read *s, const struct site *site, const struct advice_limits *l,
                                enum units u, char *text, size_t size);

#endif
