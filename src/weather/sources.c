/* Files and services to one table of days. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/sources.h"
#include "base/file.h"
#include "weather/sources_service.h"

#include <glob.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define LAPSE_C_M 0.0065 /* ICAO standard atmosphere */

struct reading {
    const struct sources_ask *ask;
    const struct holding *h;
    const struct advice_limits *l;
    struct arena *a;
    struct weather_days *days;
    struct sources *read;
    struct err *e;
};

static enum err_code no_memory(struct err *e)
{
    return err_set(e, ERR_NOMEM, "out of memory while reading weather");
}

static struct weather_hints hints_of(const struct reading *r)
{
    return (struct weather_hints){.layout = r->ask->layout,
                                  .units = r->ask->units,
                                  .timezone = r->h->site.timezone,
                                  .longitude = r->h->site.longitude};
}

static enum err_code several_sites(const struct reading *r, const char *path, const struct weather_set *set,
                                   const struct weather_site *nearest, double km)
{
    if (isinf(km)) {
        bool placed = !isnan(r->h->site.latitude) && !isnan(r->h->site.longitude);
        err_set(r->e, ERR_DATA, "holds the weather of %zu sites; one is needed: %s", set->n,
                placed ? "the file does not say where they are, so keep the rows of yours"
                       : "say where yours is (latitude and longitude), and the nearest is taken; \"season --csv\" "
                         "takes all of "
                         "a file");
    } else {
        err_set(r->e, ERR_DATA,
                "holds the weather of %zu sites, the nearest of them (%s) %.0f km away; one within %g km is needed",
                set->n, nearest->name[0] ? nearest->name : "without a name", km, r->l->weather_far_km);
    }
    return err_at(r->e, path, 0, 0, NULL);
}

/* The site of the file that is the holding's. */
static enum err_code pick_site(const struct reading *r, const char *path, const struct weather_set *set,
                               const struct weather_site **site)
{
    double least = INFINITY;
    *site = set->site;
    for (size_t i = 0; i < set->n && set->n > 1; i++) {
        double km = site_distance_km(&set->site[i].place, &r->h->site);
        if (km < least) {
            least = km;
            *site = &set->site[i];
        }
    }
    bool found = set->n == 1 || least <= r->l->weather_far_km;
    return found ? ERR_OK : several_sites(r, path, set, *site, least);
}

static size_t count_missing(const struct weather_days *w)
{
    static const enum weather_var needed[] = {WEATHER_TMIN, WEATHER_TMAX, WEATHER_RAIN};
    size_t missing = 0;
    for (size_t i = 0; i < w->n; i++) {
        bool lacks = w->origin[i] == ORIGIN_NONE;
        for (size_t k = 0; k < sizeof needed / sizeof needed[0]; k++) {
            lacks = lacks || (w->col[needed[k]] && isnan(w->col[needed[k]][i]));
        }
        missing += lacks;
    }
    return missing;
}

static enum err_code list(const struct reading *r, const struct source_read *one)
{
    struct source_read *grown = arena_alloc(r->a, r->read->n + 1, sizeof *grown);
    if (!grown) {
        return no_memory(r->e);
    }
    if (r->read->n) {
        memcpy(grown, r->read->source, r->read->n * sizeof *grown);
    }
    grown[r->read->n++] = *one;
    r->read->source = grown;
    return ERR_OK;
}

/* `one` holds what is known of the source beside its content. */
static enum err_code add_set(const struct reading *r, struct source_read *one, const struct weather_set *set)
{
    const struct weather_site *site;
    enum err_code code = pick_site(r, one->name, set, &site);
    if (code != ERR_OK) {
        return code;
    }
    const struct weather_days *w = &site->days;
    one->layout = set->layout;
    one->note = set->note;
    one->ignored = set->ignored;
    one->place = site->place;
    one->first = w->day0;
    one->last = w->day0 + (date_t)w->n - 1;
    one->days = w->n;
    one->missing_days = count_missing(w);
    code = list(r, one);
    return code == ERR_OK ? weather_merge(r->days, w, r->a, r->e) : code;
}

static enum err_code add_file(const struct reading *r, const char *path)
{
    struct weather_set set;
    const struct weather_hints hints = hints_of(r);
    enum err_code code = weather_read(path, &hints, r->a, &set, r->e);
    struct source_read one = {.name = arena_strdup(r->a, path), .credit = "", .trouble = ""};
    if (code == ERR_OK && !one.name) {
        return no_memory(r->e);
    }
    return code == ERR_OK ? add_set(r, &one, &set) : code;
}

/* What this program writes beside a holding; a pattern may match it, and it is no weather. */
static bool is_ours(const char *path)
{
    static const char *const ours[] = {"diary.csv", "advice-log.csv"};
    const char *slash = strrchr(path, '/'), *name = slash ? slash + 1 : path;
    return strcmp(name, ours[0]) == 0 || strcmp(name, ours[1]) == 0;
}

static enum err_code add_matches(const struct reading *r, const char *pattern, const char *path)
{
    glob_t found;
    if (glob(pattern, 0, NULL, &found) != 0) {
        err_set(r->e, ERR_NOINPUT, "no file matches");
        return err_at(r->e, path, 0, 0, NULL);
    }
    enum err_code code = ERR_OK;
    for (size_t i = 0; i < found.gl_pathc && code == ERR_OK; i++) {
        code = is_ours(found.gl_pathv[i]) ? ERR_OK : add_file(r, found.gl_pathv[i]);
    }
    globfree(&found);
    return code;
}

/* A path or pattern of a source, relative to the holding's folder. The letters of that folder are no pattern, and a
 * file of just this name is what is meant. */
static enum err_code add_pattern(const struct reading *r, const char *file)
{
    char folder[LIMIT_PATH] = "", path[2 * LIMIT_PATH], pattern[3 * LIMIT_PATH];
    if (strcmp(file, "-") == 0) {
        return add_file(r, file);
    }
    if (file[0] != '/' && r->h->path[0]) {
        file_beside(r->h->path, "", folder, sizeof folder);
    }
    snprintf(path, sizeof path, "%s%s", folder, file);
    if (!strpbrk(file, "*?[") || access(path, F_OK) == 0) {
        return add_file(r, path);
    }
    size_t n = file_as_pattern(folder, pattern, 2 * LIMIT_PATH);
    snprintf(pattern + n, sizeof pattern - n, "%s", file);
    return add_matches(r, pattern, path);
}

/* What is kept of a service. Nothing usable is no error here: others may do. */
static enum err_code add_service(const struct reading *r, const struct service_source *s)
{
    struct weather_set set;
    struct cache_info info;
    struct err why;
    struct source_read one = {.name = s->source->service,
                              .credit = s->request.service->credit,
                              .trouble = s->outcome.reason,
                              .layout = "",
                              .note = "",
                              .ignored = "",
                              .place = {.latitude = NAN, .longitude = NAN, .elevation_m = NAN},
                              .first = DATE_NONE,
                              .last = DATE_NONE};
    err_clear(&why);
    enum err_code code = weather_cached(&s->request, r->a, &set, &info, &why);
    if (code == ERR_NOMEM) {
        return no_memory(r->e);
    }
    one.fetched = info.fetched;
    if (code == ERR_OK) {
        return add_set(r, &one, &set);
    }
    if (!one.trouble[0] && !(one.trouble = arena_strdup(r->a, why.what))) {
        return no_memory(r->e);
    }
    return list(r, &one);
}

enum err_code sources_none(const struct sources *read, struct err *e)
{
    for (size_t i = 0; i < read->n; i++) {
        const struct source_read *s = &read->source[i];
        if (s->days == 0) {
            return err_set(e, ERR_NETWORK, "there is no weather: %s", s->trouble);
        }
    }
    return err_set(e, ERR_NOINPUT,
                   read->n ? "the weather is forecast only, and the grass remembers months: add recorded weather of "
                             "the place"
                           : "there is no weather: name a file or a service under \"weather\" in the holding");
}

/* A file that is not there may be misspelt in the holding: it is said where. */
static enum err_code name_line(const struct reading *r, const struct weather_source *s)
{
    char what[sizeof r->e->what];
    snprintf(what, sizeof what, "%s", r->e->what);
    return err_set(r->e, ERR_NOINPUT, "%s; line %zu of %s names it", what, s->line, r->h->path);
}

static enum err_code read_holding(const struct reading *r)
{
    struct service_source *service;
    size_t asked, next = 0;
    enum err_code code = service_sources_ask(r->ask, r->h, r->a, &service, &asked, r->e);
    for (size_t i = 0; i < r->h->sources && code == ERR_OK; i++) {
        const struct weather_source *s = &r->h->source[i];
        code = s->file[0] ? add_pattern(r, s->file) : add_service(r, &service[next++]);
        code = code == ERR_NOINPUT && s->line ? name_line(r, s) : code;
    }
    return code;
}

enum err_code sources_read(const struct sources_ask *ask, const struct holding *h, const struct advice_limits *l,
                           struct arena *a, struct weather_days *days, struct sources *read, struct err *e)
{
    const struct reading r = {ask, h, l, a, days, read, e};
    *read = (struct sources){0};
    *days = (struct weather_days){0};
    enum err_code code = ask->file ? add_file(&r, ask->file) : read_holding(&r);
    return code == ERR_OK && days->n == 0 ? sources_none(read, e) : code;
}

const char *sources_place_doubt(const struct source_read *s, const struct site *site, const struct advice_limits *l,
                                enum units u, char *text, size_t size)
{
    char amount[UNITS_TEXT], degrees[UNITS_TEXT];
    double km = site_distance_km(&s->place, site), up = s->place.elevation_m - site->elevation_m;
    bool far = km > l->weather_far_km, high = fabs(up) > l->weather_high_m;
    size_t n = 0;
    if (!far && !high) {
        return NULL;
    }
    n += (size_t)snprintf(text, size, "the weather is that of a place");
    if (far && n < size) {
        n += (size_t)snprintf(text + n, size - n, " %s away", units_text(u, AMOUNT_DISTANCE, km, 0, amount));
    }
    if (high && n < size) {
        snprintf(text + n, size - n, "%s %s %s than yours, about %s %s", far ? "," : "",
                 units_text(u, AMOUNT_HEIGHT, fabs(up), 0, amount), up > 0 ? "higher" : "lower",
                 units_text(u, AMOUNT_DEGREES, LAPSE_C_M * fabs(up), 1, degrees), up > 0 ? "colder" : "warmer");
    }
    return text;
}
