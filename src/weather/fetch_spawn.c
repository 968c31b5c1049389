/* Starts the fetcher and hears what came of it. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/clock.h"
#include "base/json.h"
#include "weather/fetch.h"

#include <errno.h>
#include <fcntl.h>
#include <libgen.h>
#include <math.h>
#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
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
    char program[LIMIT_PATH];
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
    ssize_t n = readlink("/proc/self/exe", program, sizeof program - 1);
    if (n > 0) {
        program[n] = '\0';
        n = snprintf(path, LIMIT_PATH, "%s/" FETCHER, dirname(program));
        if (n < LIMIT_PATH && access(path, X_OK) == 0) {
            return ERR_OK;
        }
    }
    snprintf(path, LIMIT_PATH, "%s/" FETCHER, SUGARLEA_LIBEXECDIR);
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

struct child {
    pid_t pid;
    int in, out; /* our ends of its standard input and output; -1 closed */
};

static enum err_code start(const char *path, double deadline_s, struct child *c, struct err *e)
{
    char limit[32];
    char *const arguments[] = {(char[]){FETCHER}, (char[]){"--deadline"}, limit, NULL};
    int in[2], out[2] = {-1, -1};
    posix_spawn_file_actions_t actions;
    snprintf(limit, sizeof limit, "%.3f", deadline_s);
    if (pipe2(in, O_CLOEXEC) != 0) {
        return err_set(e, ERR_BUG, "cannot start " FETCHER ": %s", strerror(errno));
    }
    int fault = pipe2(out, O_CLOEXEC) == 0 ? posix_spawn_file_actions_init(&actions) : errno;
    if (fault == 0) {
        fault = posix_spawn_file_actions_adddup2(&actions, in[0], STDIN_FILENO);
        fault = fault ? fault : posix_spawn_file_actions_adddup2(&actions, out[1], STDOUT_FILENO);
        fault = fault ? fault : posix_spawn(&c->pid, path, &actions, NULL, arguments, environ);
        posix_spawn_file_actions_destroy(&actions);
    }
    close(in[0]);
    if (out[1] >= 0) {
        close(out[1]);
    }
    c->in = in[1];
    c->out = out[0];
    if (fault == 0) {
        fcntl(c->in, F_SETFL, O_NONBLOCK);
        return ERR_OK;
    }
    close(c->in);
    if (c->out >= 0) {
        close(c->out);
    }
    return err_set(e, ERR_BUG, "cannot start %s: %s", path, strerror(fault));
}

static void shut(int *fd)
{
    close(*fd);
    *fd = -1;
}

/* Gives it what is left of the requests. */
static void feed(struct child *c, const struct buf *b, size_t *sent)
{
    ssize_t put = write(c->in, b->text + *sent, b->length - *sent);
    *sent += put > 0 ? (size_t)put : 0;
    if ((put < 0 && errno != EAGAIN && errno != EINTR) || *sent == b->length) {
        shut(&c->in);
    }
}

/* Hears it out, until it closes its output or `until`. False: time is up, or it says too much. */
static bool talk(struct child *c, const struct buf *requests, double until, struct buf *words)
{
    size_t sent = 0;
    while (words->length < OUTPUT_MOST) {
        struct pollfd fds[] = {{.fd = c->out, .events = POLLIN}, {.fd = c->in, .events = POLLOUT}};
        double left = until - clock_ticks();
        if (left <= 0) {
            return false;
        }
        if (poll(fds, 2, (int)(left * 1000) + 1) < 0 && errno != EINTR) {
            return false;
        }
        if (c->in >= 0 && fds[1].revents) {
            feed(c, requests, &sent);
        }
        if (fds[0].revents) {
            char bytes[4096];
            ssize_t got = read(c->out, bytes, sizeof bytes);
            if (got == 0) {
                return true;
            }
            buf_add_bytes(words, bytes, got > 0 ? (size_t)got : 0);
        }
    }
    return false;
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
    struct child c = {.in = -1, .out = -1};
    struct buf words;
    int status = 0;
    enum err_code code = start(path, deadline_s, &c, e);
    if (code != ERR_OK) {
        return code;
    }
    buf_init(&words);
    bool ended = talk(&c, requests, clock_ticks() + deadline_s + GRACE_S, &words);
    if (c.in >= 0) {
        shut(&c.in);
    }
    shut(&c.out);
    if (!ended) {
        kill(c.pid, SIGKILL);
    }
    while (waitpid(c.pid, &status, 0) < 0 && errno == EINTR) {
    }
    size_t taken = take_lines(&words, n, out);
    buf_release(&words);
    if (taken == n) {
        return ERR_OK;
    }
    return ended ? err_set(e, ERR_BUG, FETCHER " ended without saying what came of %zu of %zu requests (status %d)",
                           n - taken, n, status)
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
