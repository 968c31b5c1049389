/* Answers of weather services, kept in $XDG_CACHE_HOME/sugarlea (else
 * ~/.cache/sugarlea), one file for each service and place. No network here.
 * Deleting the folder is always safe.
 *
 * An entry is one line with a format number and a CRC-32 of all that follows, lines
 * "name: value", an empty line, and the body. The checksum is against torn writes and
 * failing disks, not against people: whoever may write the folder may write sums too,
 * so zlib's CRC-32, which libcurl brings along anyway, is enough.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_CACHE_H
#define SUGARLEA_WEATHER_CACHE_H

#include "base/arena.h"
#include "weather/service.h"

#include <stdint.h>

#define CACHE_BODY_MOST (16u << 20) /* bytes of an answer, decoded */
#define CACHE_FIELD 256             /* one header value of a service */
#define CACHE_URL 1024

enum cache_state { CACHE_NONE, CACHE_GOOD, CACHE_DAMAGED };

struct cache_entry {
    char service[LIMIT_NAME];
    char place[LIMIT_NAME]; /* "52.19,-2.71" or the station */
    char url[CACHE_URL];    /* as asked, without key */
    int64_t fetched;        /* s since 1970: when the answer came, or was last confirmed by a 304 */
    int64_t expires;        /* 0: not said */
    char last_modified[CACHE_FIELD], etag[CACHE_FIELD]; /* as sent; "" none */
    date_t from;                                        /* first day asked for; DATE_NONE for a forecast */
    date_t ends;                                        /* last day with both temperatures */
    const char *body;                                   /* size bytes, the arena's */
    size_t size;
};

/* The folder into path[LIMIT_PATH], made with mode 0700 when `make`. ERR_CREATE. */
enum err_code cache_folder(char *path, bool make, struct err *e);

/* The file of a service and a place (or station, which goes before the place where the
 * service wants one) in that folder. Nothing from outside becomes a path: the place is
 * rounded numbers, of the station all but letters and digits is escaped. */
enum err_code cache_path(const struct service *s, const struct service_ask *ask, char path[LIMIT_PATH], struct err *e);

/* "52.19,-2.71" or the station. */
void cache_place(const struct service *s, const struct service_ask *ask, char place[LIMIT_NAME]);

/* Reads the entry of that service and place; one of another, which somebody copied there, is damaged. CACHE_NONE and
 * CACHE_DAMAGED leave it empty; with the latter `e` says what is wrong with the file and that it is ignored. No lock is
 * needed: entries are replaced whole. */
enum cache_state cache_read(const char *path, const struct service *s, const struct service_ask *ask, struct arena *a,
                            struct cache_entry *entry, struct err *e);

/* Replaces the file, atomically and durably, and removes what writers that were killed
 * left beside it. Only for who holds the lock. ERR_CREATE, ERR_WRITE, ERR_NOMEM. */
enum err_code cache_write(const char *path, const struct cache_entry *entry, struct err *e);

/* One lock for each entry: a file beside it, locked by the kernel, so a process that
 * dies lets go. It also holds the time before which the service is not asked again
 * (Retry-After; an answer that was of no use). */
struct cache_lock {
    int fd; /* -1: not held */
};

/* Waits until `until` (clock_ticks) at most; ERR_AGAIN then. Who takes several takes
 * them in the order of their paths. ERR_CREATE. */
enum err_code cache_lock(const char *path, double until, struct cache_lock *lock, struct err *e);
void cache_unlock(struct cache_lock *lock);

int64_t cache_not_before(const struct cache_lock *lock); /* s since 1970; 0 none */
void cache_set_not_before(const struct cache_lock *lock, int64_t when);

#endif
