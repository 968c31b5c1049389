/* Starts the fetcher and hears what came of it. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/child.h"
#include "base/file.h"
#include "base/json.h"
#include "weather/fetch.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define FETCHER "sugarlea-fetch"
#define GRACE_S 5.0              /* beyond its deadline: to read, judge and write what came */
#define OUTPUT_MOST (256u << 10) /* bytes of its words */

/* What holds for each request when the fetcher said nothing of it. */
static void set_all(const struct fetch_request *r, size_t n, const char *reason, struct fetch_outcome *out)
{
    for (size_t i = 0; i < n; i++) {
        char path[LIMIT_PATH];
        bool kept = cache_path(r[i].service, &r[i].ask, path, NULL) == ERR_OK && access(path, R_OK) == 0;
        out[i].result = kept ? FETCH_KEPT_OLD : FETCH_FAILED;
        snprintf(out[i].reason, sizeof out[i].reason, "%s", reason);
    }
}

static enum err_code find_fetcher(char path[LIMIT_PATH], struct err *e)
{
    const char *set = getenv("SUGARLEA_FETCH");
    if (set && set[0]) {
        snprintf(path, LIMIT_PATH, "%s", set);
        if (access(path, X_OK) == 0) {
            return ERR_OK;
        }
        return err_set(e, ERR_NOINPUT,
                       "SUGARLEA_FETCH names no program that can be started (%s). Weather kept earlier is still used",
                       strerror(errno));
    }
    if (!file_of_program(FETCHER, "libexec/sugarlea", path, LIMIT_PATH)) {
        snprintf(path, LIMIT_PATH, "%s/" FETCHER, SUGARLEA_LIBEXECDIR);
    }
    if (access(path, X_OK) == 0) {
        return ERR_OK;
    }
    return err_set(e, ERR_NOINPUT,
                   "the program " FETCHER " is missing beside this one and in " SUGARLEA_LIBEXECDIR
                   "; install it, or name it in SUGARLEA_FETCH. Weather kept earlier is still used");
}

static void add_text(struct buf *b, const char *key, const char *text)
{
    buf_addf(b, ",\"%s\":", key);
    buf_add_json_string(b, text ? text : "");
}

static void add_number(struct buf *b, const char *key, double x, int decimals)
{
    buf_addf(b, ",\"%s\":", key);
    buf_add(b, isfinite(x) ? "" : "null");
    buf_add_number(b, x, decimals);
}

/* The requests as the fetcher reads them. Places are rounded before they leave us. */
static void add_request(struct buf *b, const struct fetch_request *r)
{
    buf_add(b, "{\"service\":");
    buf_add_json_string(b, r->service->name);
    add_number(b, "latitude", service_round(r->ask.place.latitude), 2);
    add_number(b, "longitude", service_round(r->ask.place.longitude), 2);
    add_number(b, "elevation", r->ask.place.elevation_m, 0);
    add_text(b, "timezone", r->ask.place.timezone);
    add_text(b, "station", r->ask.station);
    add_number(b, "today", r->today, 0);
    add_number(b, "from", r->ask.from == DATE_NONE ? (double)NAN : r->ask.from, 0);
    add_number(b, "to", r->ask.to == DATE_NONE ? (double)NAN : r->ask.to, 0);
    add_text(b, "url", r->url);
    add_text(b, "key_file", r->key_file);
    add_number(b, "cache_days", r->cache_days, 6);
    buf_add(b, "}");
}

/* One line {"i":0,"result":"fresh","reason":"..."}. False: it is none. */
static bool take_line(const char *line, size_t length, size_t n, struct fetch_outcome *out)
{
    struct json_doc doc;
    struct err unused;
    if (json_parse(line, length, FETCHER, &doc, &unused) != ERR_OK) {
        return false;
    }
    const cJSON *i = json_get(doc.root, "i"), *result = json_get(doc.root, "result");
    const cJSON *reason = json_get(doc.root, "reason");
    bool good = cJSON_IsNumber(i) && i->valuedouble >= 0 && i->valuedouble < (double)n && cJSON_IsString(result) &&
                cJSON_IsString(reason);
    for (int k = 0; good && k < FETCH_RESULTS; k++) {
        if (strcmp(fetch_result_name((enum fetch_result)k), result->valuestring) == 0) {
            struct fetch_outcome *o = &out[(size_t)i->valuedouble];
            o->result = (enum fetch_result)k;
            snprintf(o->reason, sizeof o->reason, "%s", k == FETCH_UNCHANGED ? "" : reason->valuestring);
        }
    }
    json_release(&doc);
    return good;
}

static size_t take_lines(const struct buf *words, size_t n, struct fetch_outcome *out)
{
    size_t taken = 0;
    const char *line = words->text, *end;
    while ((end = strchr(line, '\n'))) {
        taken += take_line(line, (size_t)(end - line), n, out);
        line = end + 1;
    }
    return taken;
}

static enum err_code run(const char *path, const struct buf *requests, size_t n, double deadline_s,
                         struct fetch_outcome *out, struct err *e)
{
    char limit[32], name[] = FETCHER, option[] = "--deadline";
    char *const arguments[] = {name, option, limit, NULL};
    const struct child_job job = {.program = path,
                                  .arguments = arguments,
                                  .input = requests->text,
                                  .input_size = requests->length,
                                  .deadline_s = deadline_s + GRACE_S,
                                  .output_most = OUTPUT_MOST};
    struct child_end end;
    struct buf words;
    snprintf(limit, sizeof limit, "%.3f", deadline_s);
    buf_init(&words);
    enum err_code code = child_run(&job, &words, NULL, &end, e);
    size_t taken = code == ERR_OK ? take_lines(&words, n, out) : 0;
    buf_release(&words);
    if (code == ERR_NOINPUT) { /* it was there a moment ago */
        return e->code = ERR_BUG;
    }
    if (code != ERR_OK || taken == n) {
        return code;
    }
    return end.fate == CHILD_EXITED || end.fate == CHILD_SIGNALLED
               ? err_set(e, ERR_BUG, FETCHER " ended without saying what came of %zu of %zu requests (status %d)",
                         n - taken, n, end.status)
               : err_set(e, ERR_NETWORK, FETCHER " did not end in time and was stopped");
}

enum err_code weather_fetch(const struct fetch_request *r, size_t n, double deadline_s, struct fetch_outcome *out,
                            struct err *e)
{
    char path[LIMIT_PATH];
    struct buf requests;
    set_all(r, n, "the fetcher said nothing of it", out);
    if (n == 0) {
        return ERR_OK;
    }
    enum err_code code = find_fetcher(path, e);
    if (code != ERR_OK) {
        set_all(r, n, e->what, out);
        return code;
    }
    buf_init(&requests);
    for (size_t i = 0; i < n; i++) {
        buf_add(&requests, i ? "," : "[");
        add_request(&requests, &r[i]);
    }
    buf_add(&requests, "]\n");
    code = requests.failed ? err_set(e, ERR_NOMEM, "out of memory while asking for weather")
                           : run(path, &requests, n, deadline_s, out, e);
    buf_release(&requests);
    return code;
}
