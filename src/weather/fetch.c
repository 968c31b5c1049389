/* Requests out of a holding, and what is kept for them. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/fetch.h"

#include "base/file.h"
#include "weather/keep.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

const char *fetch_result_name(enum fetch_result r)
{
    static const char *const names[FETCH_RESULTS] = {"fresh", "unchanged", "kept-old", "failed"};
    return names[r];
}

/* The key file as it can be opened from here. */
static const char *beside(const char *holding_path, const char *file, struct arena *a)
{
    char path[2 * LIMIT_PATH];
    if (!file[0] || file[0] == '/' || !holding_path[0]) {
        return file;
    }
    file_beside(holding_path, file, path, sizeof path);
    return arena_strdup(a, path);
}

enum err_code fetch_request_make(const struct weather_source *s, const struct site *place, const char *holding_path,
                                 date_t today, struct arena *a, struct fetch_request *r, struct err *e)
{
    *r = (struct fetch_request){.service = service_find(s->service),
                                .ask = {.place = *place, .from = DATE_NONE, .to = DATE_NONE, .station = s->station},
                                .today = today,
                                .url = s->url,
                                .key_file = beside(holding_path, s->key_file, a),
                                .cache_days = s->cache_days};
    if (!r->service) {
        return service_unknown(s->service, e);
    }
    if (!r->key_file) {
        return err_set(e, ERR_NOMEM, "out of memory while reading the holding");
    }
    if (r->service->station && !s->station[0]) {
        return err_set(e, ERR_CONFIG, "%s is asked by station: add \"station\", such as \"USW00093820\"", s->service);
    }
    if (!r->service->station && (isnan(place->latitude) || isnan(place->longitude))) {
        return err_set(e, ERR_NOINPUT, "%s needs the place: give latitude and longitude", s->service);
    }
    if (r->service->kind == SERVICE_RECORDED) {
        r->ask.from = today - FETCH_DAYS;
        r->ask.to = today - 1;
    }
    return ERR_OK;
}

#define EARLIER_MOST_S (48 * 3600) /* an older forecast is worth less than none, our judgement */

/* Adds the days that only the answer of the day before has: see keep_answer. */
static enum err_code add_earlier(const struct fetch_request *r, const struct cache_info *info, struct arena *a,
                                 struct weather_set *set, struct err *e)
{
    char path[LIMIT_PATH];
    struct cache_entry entry;
    struct weather_set earlier;
    struct err unused;
    keep_earlier_path(info->path, path);
    bool usable = r->service->kind == SERVICE_FORECAST &&
                  cache_read(path, r->service, &r->ask, a, &entry, &unused) == CACHE_GOOD &&
                  entry.fetched <= info->fetched && info->fetched - entry.fetched <= EARLIER_MOST_S &&
                  keep_read(r, entry.body, entry.size, path, a, &earlier, &unused) == ERR_OK && earlier.n == 1;
    return usable ? weather_merge(&set->site[0].days, &earlier.site[0].days, a, e) : ERR_OK;
}

enum err_code weather_cached(const struct fetch_request *r, struct arena *a, struct weather_set *set,
                             struct cache_info *info, struct err *e)
{
    struct cache_entry entry;
    *info = (struct cache_info){.state = CACHE_NONE, .ends = DATE_NONE};
    *set = (struct weather_set){.layout = "", .ignored = "", .note = ""};
    enum err_code code = cache_path(r->service, &r->ask, info->path, e);
    if (code != ERR_OK) {
        return code;
    }
    info->state = cache_read(info->path, r->service, &r->ask, a, &entry, e);
    info->fetched = entry.fetched;
    info->ends = entry.ends;
    if (info->state == CACHE_NONE) {
        return err_set(e, ERR_NOINPUT, "nothing of %s is kept yet; fetch it: sugarlea weather --fetch",
                       r->service->name);
    }
    if (info->state == CACHE_DAMAGED) {
        return e->code = ERR_NOINPUT;
    }
    code = keep_read(r, entry.body, entry.size, info->path, a, set, e);
    return code == ERR_OK && set->n == 1 ? add_earlier(r, info, a, set, e) : code;
}
