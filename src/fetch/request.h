/* The requests that the fetcher is given. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_FETCH_REQUEST_H
#define SUGARLEA_FETCH_REQUEST_H

#include "weather/fetch.h"

/* Reads the JSON array that weather/fetch_spawn.c writes: for each request an object with
 * service, latitude, longitude, elevation (degrees, m; null unknown), timezone, station,
 * today, from, to (days since 1970; null none), url, key_file, cache_days. All texts are
 * copied into the arena. ERR_DATA, ERR_NOMEM. */
enum err_code requests_read(const char *text, size_t size, struct arena *a, struct fetch_request **r, size_t *n,
                            struct err *e);

#endif
