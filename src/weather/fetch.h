/* Weather from services: what a command calls. The network is left to a program of its
 * own, sugarlea-fetch, so that this one neither links nor waits for it; what is kept is
 * read here.
 *
 * In order: fetch_request_make for each service of the holding, weather_fetch for all of
 * them at once (unless offline), then weather_cached for each, whatever came of it.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_FETCH_H
#define SUGARLEA_WEATHER_FETCH_H

#include "data/holding.h"
#include "weather/cache.h"
#include "weather/weather.h"

#define FETCH_DEADLINE_S 30.0 /* for all requests of a run, our judgement: a keeper waits no longer */
#define FETCH_REQUESTS_MOST LIMIT_WEATHER_SOURCES
#define FETCH_REASON 512

/* Days of record asked for, about two years: more than the model's min_days, so that a
 * whole year lies behind any morning. */
#define FETCH_DAYS 731

struct fetch_request {
    const struct service *service;
    struct service_ask ask; /* place, station; of a record also the days */
    date_t today;           /* at the place */
    const char *url;        /* base address set by the holding; "" none */
    const char *key_file;   /* ready to open; "" none */
    double cache_days;      /* a record is asked for again when older, or when yesterday is not in it */
};

enum fetch_result {
    FETCH_FRESH,     /* a new answer is kept */
    FETCH_UNCHANGED, /* what is kept is up to date: nothing new, or too early to ask again */
    FETCH_KEPT_OLD,  /* no better answer was had; what is kept stays */
    FETCH_FAILED,    /* no answer was had, and nothing is kept */
    FETCH_RESULTS
};

struct fetch_outcome {
    enum fetch_result result;
    char reason[FETCH_REASON]; /* one sentence for people that names the service, without key; "" when there is
                                  nothing to say, as always when unchanged */
};

const char *fetch_result_name(enum fetch_result r); /* "fresh", "unchanged", "kept-old", "failed" */

/* A request out of a holding's entry s (s->service is set). `holding_path` is that of
 * the holding file, to which key_file is relative; "" the folder we are in. Points into
 * s and a. ERR_CONFIG (no such service, with all names; no station where one is
 * needed), ERR_NOINPUT (no place), ERR_NOMEM. The caller adds the place of the entry. */
enum err_code fetch_request_make(const struct weather_source *s, const struct site *place, const char *holding_path,
                                 date_t today, struct arena *a, struct fetch_request *r, struct err *e);

/* Asks all services at once through sugarlea-fetch, within deadline_s for everything;
 * out[i] is what came of r[i]. The fetcher is $SUGARLEA_FETCH, else sugarlea-fetch
 * beside the running program, else as installed; no shell is involved, and no key is on
 * a command line. SIGPIPE must be ignored. Not ERR_OK, with each out[i] set all the
 * same: ERR_NOINPUT when there is no fetcher, ERR_BUG when it died, ERR_NETWORK when it
 * did not end in time. n is at most FETCH_REQUESTS_MOST. */
enum err_code weather_fetch(const struct fetch_request *r, size_t n, double deadline_s, struct fetch_outcome *out,
                            struct err *e);

struct cache_info {
    enum cache_state state;
    int64_t fetched;       /* s since 1970; 0 none */
    date_t ends;           /* last day with both temperatures; DATE_NONE */
    char path[LIMIT_PATH]; /* of the entry */
};

/* Reads what is kept for the request; of a forecast also the days that only the answer of
 * the day before has (two days old at most): today, as a rule. ERR_NOINPUT when nothing is, or when it is damaged
 * (info->state says which, e why); ERR_DATA when it cannot be read as weather. */
enum err_code weather_cached(const struct fetch_request *r, struct arena *a, struct weather_set *set,
                             struct cache_info *info, struct err *e);

#endif
