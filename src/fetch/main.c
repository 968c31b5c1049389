/* sugarlea-fetch: asks weather services and keeps good answers. Not for people: sugarlea
 * starts it (weather/fetch_spawn.c). It is a program of its own because libcurl costs
 * every process that links it milliseconds at its start, and because what touches the
 * network should hold nothing else.
 *
 * Standard input: a JSON list of requests (fetch/request.h). Standard output: one line
 * of JSON for each: {"i":0,"result":"fresh","reason":""}. Option --deadline S: seconds
 * for everything. Exit codes: 0 whatever came of the requests; 64, 65, 71 when they
 * could not be read. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/clock.h"
#include "base/file.h"
#include "base/num.h"
#include "fetch/job.h"
#include "fetch/request.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define REQUESTS_BYTES (1u << 20)
#define DEADLINE_LOW 0.1
#define DEADLINE_HIGH 600.0
#define LOCK_SHARE 0.5 /* of the time: how long another run is waited for */

static int by_path(const void *a, const void *b)
{
    const struct job *const *x = a, *const *y = b;
    return strcmp((*x)->path, (*y)->path);
}

/* Locks are taken in the order of the paths, so that two runs never wait for each other. */
static void begin_all(struct job *job, size_t n, double until, struct arena *a)
{
    struct job **sorted = arena_alloc(a, n, sizeof(struct job *));
    for (size_t i = 0; sorted && i < n; i++) {
        sorted[i] = &job[i];
    }
    if (sorted) {
        qsort(sorted, n, sizeof(struct job *), by_path);
    }
    for (size_t i = 0; i < n; i++) {
        struct job *j = sorted ? sorted[i] : &job[i];
        if (j->state == JOB_DONE) {
            continue;
        }
        const struct job *before = sorted && i ? sorted[i - 1] : NULL;
        if (before && strcmp(before->path, j->path) == 0) {
            j->twin = before->twin ? before->twin : before;
            j->state = JOB_DONE;
        } else {
            job_begin(j, until, a);
        }
    }
}

static void make_job(struct job *j, const struct fetch_request *r, struct fetch_outcome *out)
{
    struct err e;
    err_clear(&e);
    *j = (struct job){.r = r, .out = out, .lock = {.fd = -1}};
    buf_init(&j->url);
    buf_init(&j->reply.body);
    if (cache_path(r->service, &r->ask, j->path, &e) != ERR_OK) {
        job_give_up(j, "%s", e.what);
    }
}

static void say(const struct fetch_outcome *out, size_t n)
{
    struct buf b;
    buf_init(&b);
    for (size_t i = 0; i < n; i++) {
        buf_addf(&b, "{\"i\":%zu,\"result\":\"%s\",\"reason\":", i, fetch_result_name(out[i].result));
        buf_add_json_string(&b, out[i].reason);
        buf_add(&b, "}\n");
    }
    fwrite(b.text, 1, b.length, stdout);
    fflush(stdout);
    buf_release(&b);
}

/* On a terminal: whom we wait for. */
static void say_waiting(const struct job *job, size_t n)
{
    fprintf(stderr, "sugarlea: waiting for");
    for (size_t i = 0; i < n; i++) {
        if (job[i].state != JOB_DONE) {
            fprintf(stderr, " %s", job[i].r->service->name);
        }
    }
    fprintf(stderr, " ...\n");
}

static enum err_code fetch_all(const struct fetch_request *r, size_t n, double deadline_s, struct arena *a,
                               struct err *e)
{
    double now = clock_ticks();
    struct job *job = arena_alloc(a, n, sizeof *job);
    struct fetch_outcome *out = arena_alloc(a, n, sizeof *out);
    if (!job || !out) {
        return err_set(e, ERR_NOMEM, "out of memory");
    }
    for (size_t i = 0; i < n; i++) {
        make_job(&job[i], &r[i], &out[i]);
    }
    begin_all(job, n, now + deadline_s * LOCK_SHARE, a);
    jobs_run(job, n, now + deadline_s, isatty(STDERR_FILENO) ? say_waiting : NULL, a);
    for (size_t i = 0; i < n; i++) {
        out[i] = job[i].twin ? *job[i].twin->out : out[i];
        job_release(&job[i]);
    }
    say(out, n);
    return ERR_OK;
}

static enum err_code run(double deadline_s, struct arena *a, struct err *e)
{
    struct file_view view;
    struct fetch_request *r;
    size_t n;
    enum err_code code = file_view("-", REQUESTS_BYTES, &view, e);
    if (code != ERR_OK) {
        return code;
    }
    code = requests_read(view.data, view.size, a, &r, &n, e);
    file_unview(&view);
    return code == ERR_OK ? fetch_all(r, n, deadline_s, a, e) : code;
}

static bool read_options(int argc, char **argv, double *deadline_s)
{
    if (argc == 1) {
        return true;
    }
    return argc == 3 && strcmp(argv[1], "--deadline") == 0 && num_parse(argv[2], strlen(argv[2]), '.', deadline_s) &&
           *deadline_s >= DEADLINE_LOW && *deadline_s <= DEADLINE_HIGH;
}

int main(int argc, char **argv)
{
    struct arena arena;
    struct err e;
    double deadline_s = FETCH_DEADLINE_S;
    if (!read_options(argc, argv, &deadline_s)) {
        fprintf(stderr,
                "sugarlea-fetch: only --deadline SECONDS (%g to %g) is known; requests come on standard "
                "input. \"sugarlea weather --fetch\" starts this program\n",
                DEADLINE_LOW, DEADLINE_HIGH);
        return ERR_USAGE;
    }
    signal(SIGPIPE, SIG_IGN);
    err_clear(&e);
    arena_init(&arena);
    curl_global_init(CURL_GLOBAL_DEFAULT);
    enum err_code code = run(deadline_s, &arena, &e);
    curl_global_cleanup();
    arena_release(&arena);
    if (code != ERR_OK) {
        char text[1024];
        err_format(&e, text, sizeof text);
        fprintf(stderr, "sugarlea-fetch: %s\n", text);
    }
    return (int)code;
}
