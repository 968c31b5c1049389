/* Judging answers. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/keep.h"

#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>

#define DAY_S 86400
#define AHEAD_MOST 17  /* days of forecast, today included: the longest is 16, and a zone's difference */
#define SPAN_MISSED 3  /* days, our judgement */
#define LOSS_TAKEN 100 /* one value in so many, our judgement */

enum err_code keep_read(const struct fetch_request *r, const char *bytes, size_t n, const char *name, struct arena *a,
                        struct weather_set *set, struct err *e)
{
    const struct weather_hints hints = {
        .units = r->service->units, .timezone = r->ask.place.timezone, .longitude = r->ask.place.longitude};
    return weather_read_bytes(bytes, n, name, &hints, a, set, e);
}

static bool whole(const struct weather_days *w, size_t i)
{
    return !isnan(weather_at(w, WEATHER_TMIN, i)) && !isnan(weather_at(w, WEATHER_TMAX, i));
}

/* The last day with both temperatures; DATE_NONE. */
static date_t end_of(const struct weather_days *w)
{
    size_t n = w->n;
    while (n && !whole(w, n - 1)) {
        n--;
    }
    return n ? w->day0 + (date_t)n - 1 : DATE_NONE;
}

/* Days from first to last with a value of v. */
static size_t count(const struct weather_days *w, enum weather_var v, date_t first, date_t last)
{
    size_t n = 0;
    for (size_t i = 0; i < w->n; i++) {
        date_t date = w->day0 + (date_t)i;
        n += date >= first && date <= last && !isnan(weather_at(w, v, i));
    }
    return n;
}

static enum err_code judge_place(const struct fetch_request *r, const struct site *place, struct err *e)
{
    double away = site_distance_km(place, &r->ask.place); /* NaN when the answer names no place */
    if (r->service->place_km > 0 && away > r->service->place_km) {
        return err_set(e, ERR_DATA,
                       "the answer is for another place, %.0f km from the one asked for (%.0f km is allowed)", away,
                       r->service->place_km);
    }
    return ERR_OK;
}

static enum err_code judge_station(const struct fetch_request *r, const char *name, struct err *e)
{
    if (r->service->station && strcasecmp(name, r->ask.station) != 0) {
        return err_set(e, ERR_DATA, "the answer is for another station, \"%.40s\"", name);
    }
    return ERR_OK;
}

static enum err_code judge_needs(const struct fetch_request *r, const struct weather_days *w, struct err *e)
{
    for (int v = 0; v < WEATHER_VARS; v++) {
        if (r->service->needs >> v & 1 && count(w, (enum weather_var)v, w->day0, w->day0 + (date_t)w->n) == 0) {
            return err_set(e, ERR_DATA, "the answer has no %s", weather_var_name((enum weather_var)v));
        }
    }
    return ERR_OK;
}

static enum err_code judge_span(const struct fetch_request *r, const struct weather_days *w, struct err *e)
{
    bool forecast = r->service->kind == SERVICE_FORECAST;
    date_t from = forecast ? r->today - 1 : r->ask.from, to = forecast ? r->today + AHEAD_MOST : r->ask.to + 1;
    date_t ends = end_of(w);
    char day[DATE_TEXT];
    if (ends == DATE_NONE || ends < from) {
        return err_set(e, ERR_DATA, "the answer holds no day of those asked for");
    }
    if (ends > to) {
        return err_set(e, ERR_DATA, "the answer runs to %s, beyond what can be known today", date_format(ends, day));
    }
    return ERR_OK;
}

static enum err_code judge_against(const struct fetch_request *r, const struct weather_days *old,
                                   const struct weather_days *w, struct err *e)
{
    bool forecast = r->service->kind == SERVICE_FORECAST;
    date_t old_end = end_of(old), ends = end_of(w);
    char day[2][DATE_TEXT];
    if (old_end == DATE_NONE) { /* no whole day: there is nothing to lose */
        return ERR_OK;
    }
    if (ends < old_end - forecast) {
        return err_set(e, ERR_DATA, "the answer ends on %s, what is kept on %s", date_format(ends, day[0]),
                       date_format(old_end, day[1]));
    }
    date_t first = old->day0, last = old_end;
    if (forecast) {
        first = w->day0 > first ? w->day0 : first;
        last = ends < last ? ends : last;
    } else {
        first = r->ask.from > first ? r->ask.from : first;
    }
    for (int v = 0; v < WEATHER_VARS; v++) {
        size_t had = count(old, (enum weather_var)v, first, last), has = count(w, (enum weather_var)v, first, last);
        size_t allowed = !forecast && ends - old_end >= SPAN_MISSED ? had / LOSS_TAKEN : 0;
        if (has + allowed < had) {
            return err_set(e, ERR_DATA, "the answer has %s for %zu days from %s on, what is kept for %zu",
                           weather_var_name((enum weather_var)v), has, date_format(first, day[0]), had);
        }
    }
    return ERR_OK;
}

enum err_code keep_judge(const struct fetch_request *r, const struct weather_days *old, const struct weather_set *fresh,
                         struct err *e)
{
    if (fresh->n != 1) {
        return err_set(e, ERR_DATA, "the answer holds %zu places; one was asked for", fresh->n);
    }
    const struct weather_days *w = &fresh->site[0].days;
    enum err_code code = judge_place(r, &fresh->site[0].place, e);
    code = code == ERR_OK ? judge_station(r, fresh->site[0].name, e) : code;
    code = code == ERR_OK ? judge_needs(r, w, e) : code;
    code = code == ERR_OK ? judge_span(r, w, e) : code;
    return code == ERR_OK && old ? judge_against(r, old, w, e) : code;
}

int64_t keep_expires(int64_t expires, int64_t now)
{
    return expires > now + DAY_S ? now + DAY_S : expires;
}

static void copy(char *to, size_t size, const char *from)
{
    if (strlen(from) < size) { /* else it is of no use: a validator must be whole */
        snprintf(to, size, "%s", from);
    }
}

void keep_earlier_path(const char *path, char earlier[LIMIT_PATH])
{
    /* Longer than what file_replace adds to a name, so that it is not taken for a left-over. */
    snprintf(earlier, LIMIT_PATH, "%s.yesterday", path);
}

static enum err_code keep_earlier(const struct fetch_request *r, const char *path, const struct cache_entry *old,
                                  int64_t now, struct err *e)
{
    char earlier[LIMIT_PATH];
    if (r->service->kind != SERVICE_FORECAST || old->fetched / DAY_S >= now / DAY_S) {
        return ERR_OK;
    }
    keep_earlier_path(path, earlier);
    return cache_write(earlier, old, e);
}

enum err_code keep_answer(const struct fetch_request *r, const char *path, const struct cache_entry *old,
                          const struct answer *answer, struct arena *a, struct err *e)
{
    struct weather_set fresh, kept;
    enum err_code code = keep_read(r, answer->body, answer->size, "the answer", a, &fresh, e);
    if (code != ERR_OK) {
        return code;
    }
    /* An entry that cannot be read any more is worth nothing: any answer replaces it. */
    struct err unused;
    bool readable = old && keep_read(r, old->body, old->size, path, a, &kept, &unused) == ERR_OK && kept.n == 1;
    code = keep_judge(r, readable ? &kept.site[0].days : NULL, &fresh, e);
    code = code == ERR_OK && readable ? keep_earlier(r, path, old, answer->now, e) : code;
    if (code != ERR_OK) {
        return code;
    }
    struct cache_entry entry = {.fetched = answer->now,
                                .expires = keep_expires(answer->expires, answer->now),
                                .from = r->ask.from,
                                .ends = end_of(&fresh.site[0].days),
                                .body = answer->body,
                                .size = answer->size};
    snprintf(entry.service, sizeof entry.service, "%s", r->service->name);
    cache_place(r->service, &r->ask, entry.place);
    copy(entry.url, sizeof entry.url, answer->url);
    copy(entry.last_modified, sizeof entry.last_modified, answer->last_modified);
    copy(entry.etag, sizeof entry.etag, answer->etag);
    return cache_write(path, &entry, e);
}

/* Whole minutes, upwards. */
static int64_t minutes(int64_t seconds)
{
    return (seconds + 59) / 60;
}

bool keep_early(int64_t not_before, int64_t now, char why[FETCH_REASON])
{
    bool early = now < not_before && not_before - now <= DAY_S;
    if (early) {
        snprintf(why, FETCH_REASON, "it is too early to ask again; in %" PRId64 " min", minutes(not_before - now));
    }
    return early;
}

bool keep_due(const struct fetch_request *r, const struct cache_entry *old, int64_t now, char why[FETCH_REASON])
{
    int64_t age = now - old->fetched;
    bool reaches = r->service->kind == SERVICE_FORECAST || old->from <= r->ask.from;
    if (!reaches || age < 0) {
        return true;
    }
    if (age < (int64_t)(r->service->min_age_h * 3600)) {
        snprintf(why, FETCH_REASON, "was asked %" PRId64 " min ago", age / 60);
        return false;
    }
    if (now < keep_expires(old->expires, now)) {
        snprintf(why, FETCH_REASON, "the service says that nothing new comes for %" PRId64 " min",
                 minutes(keep_expires(old->expires, now) - now));
        return false;
    }
    if (r->service->kind == SERVICE_FORECAST || (double)age > r->cache_days * DAY_S || old->ends < r->ask.to) {
        return true;
    }
    snprintf(why, FETCH_REASON, "up to date");
    return false;
}
