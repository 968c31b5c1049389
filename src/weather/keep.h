/* Is an answer good enough to be kept, and is it time to ask? A worse answer never
 * replaces a better one. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_WEATHER_KEEP_H
#define SUGARLEA_WEATHER_KEEP_H

#include "weather/fetch.h"

struct answer { /* of a service, as it came */
    const char *body;
    size_t size;
    const char *url;                  /* without key */
    int64_t now;                      /* s since 1970 */
    int64_t expires;                  /* 0 not said */
    const char *last_modified, *etag; /* "" not said */
};

/* Reads bytes as the request's service means them. */
enum err_code keep_read(const struct fetch_request *r, const char *bytes, size_t n, const char *name, struct arena *a,
                        struct weather_set *set, struct err *e);

/* Whether `fresh` may take the place of `old` (NULL: nothing is kept). It must
 * - be of one place, and within the service's distance of the place asked for, or of the
 *   station asked for;
 * - have every variable that the service's answers need;
 * - hold a day that was asked for and none beyond (else one wrong date would make every
 *   later answer "end earlier");
 * - not end earlier than the old one. A forecast may by one day: its steps shift;
 * - not have fewer days with a value, for any variable, over the days that both cover
 *   (of a record: over all days of the old one since the first asked for, so that a
 *   short answer does not throw a history away). Once a record is SPAN_MISSED days
 *   behind, a loss of one day in a hundred is taken: a service that withdraws a value
 *   must not stop all weather for ever.
 * ERR_DATA and why not. */
enum err_code keep_judge(const struct fetch_request *r, const struct weather_days *old, const struct weather_set *fresh,
                         struct err *e);

/* Reads, judges and keeps an answer in the entry at path (the lock is held). On any
 * error the old entry stands.
 * A forecast in hours has no whole today: its readers leave the hours out that are left
 * of it. Yesterday's answer does have today, so the last answer of an earlier day stays
 * beside the new one (keep_earlier_path), and weather_cached puts the two together. */
enum err_code keep_answer(const struct fetch_request *r, const char *path, const struct cache_entry *old,
                          const struct answer *answer, struct arena *a, struct err *e);

void keep_earlier_path(const char *path, char earlier[LIMIT_PATH]);

/* True while the service is not to be asked whatever is kept (cache_not_before); `why` is
 * a sentence. A time more than a day ahead is not believed. */
bool keep_early(int64_t not_before, int64_t now, char why[FETCH_REASON]);

/* Whether what is kept should be asked for anew; if not, `why` is a sentence. */
bool keep_due(const struct fetch_request *r, const struct cache_entry *old, int64_t now, char why[FETCH_REASON]);

/* Seconds from now at which `expires` counts: a day at most, whatever a service says. */
int64_t keep_expires(int64_t expires, int64_t now);

#endif
