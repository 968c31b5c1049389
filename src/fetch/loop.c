/* All jobs at once, each at its own time. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/clock.h"
#include "fetch/job.h"

#include <math.h>

#define GRACE_S 0.5         /* beyond the deadline */
#define PATIENCE_S 0.5      /* people are told after so long */
#define LEAST_S 0.1         /* no time limit of 0, which would mean none */
#define HOST_CONNECTIONS 4L /* manners: not more to one service at a time, our judgement */

static void ask(struct job *j, CURLM *multi, double left)
{
    CURL *easy = transfer_make(j, left);
    if (!easy || curl_multi_add_handle(multi, easy) != CURLM_OK) {
        transfer_release(j);
        job_give_up(j, "out of memory while asking %s", j->r->service->name);
        return;
    }
    j->state = JOB_RUNNING;
}

static void ask_due(struct job *job, size_t n, CURLM *multi, double deadline)
{
    double now = clock_ticks();
    for (size_t i = 0; i < n; i++) {
        if (job[i].state == JOB_WAITING && job[i].at <= now) {
            ask(&job[i], multi, fmax(deadline - now, LEAST_S));
        }
    }
}

/* How long nothing need be started, s. */
static double pause_of(const struct job *job, size_t n, double end)
{
    double now = clock_ticks(), next = end;
    for (size_t i = 0; i < n; i++) {
        next = job[i].state == JOB_WAITING ? fmin(next, job[i].at) : next;
    }
    return fmax(next - now, 0);
}

static void hear(CURLM *multi, double deadline, struct arena *a)
{
    int left;
    const CURLMsg *message;
    while ((message = curl_multi_info_read(multi, &left))) {
        struct job *j = NULL;
        CURLcode result = message->data.result; /* the message goes with the handle */
        curl_easy_getinfo(message->easy_handle, CURLINFO_PRIVATE, (char **)&j);
        curl_multi_remove_handle(multi, j->easy);
        job_reply(j, result, deadline, a);
        transfer_release(j);
    }
}

static bool all_done(const struct job *job, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        if (job[i].state != JOB_DONE) {
            return false;
        }
    }
    return true;
}

void jobs_run(struct job *job, size_t n, double deadline, void (*slow)(const struct job *job, size_t n),
              struct arena *a)
{
    CURLM *multi = curl_multi_init();
    double patience = clock_ticks() + PATIENCE_S;
    if (multi) {
        curl_multi_setopt(multi, CURLMOPT_MAX_HOST_CONNECTIONS, HOST_CONNECTIONS);
    }
    /* The transfers' own time limits end at the deadline; this one is only for safety. */
    double end = deadline + GRACE_S;
    while (multi && !all_done(job, n) && clock_ticks() < end) {
        int running;
        ask_due(job, n, multi, deadline);
        curl_multi_perform(multi, &running);
        hear(multi, deadline, a);
        if (slow && clock_ticks() >= patience && !all_done(job, n)) {
            slow(job, n);
            slow = NULL;
        }
        double pause = pause_of(job, n, slow ? fmin(patience, end) : end);
        if (pause > 0 && !all_done(job, n)) {
            curl_multi_poll(multi, NULL, 0, (int)ceil(pause * 1000), NULL);
        }
    }
    for (size_t i = 0; i < n; i++) {
        if (job[i].state == JOB_RUNNING) {
            curl_multi_remove_handle(multi, job[i].easy);
            transfer_release(&job[i]);
        }
        if (job[i].state != JOB_DONE) {
            job_give_up(&job[i], "%s: no answer within the time allowed", job[i].r->service->name);
        }
    }
    curl_multi_cleanup(multi);
}
