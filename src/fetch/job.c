/* The beginning and the end of a job. SPDX-License-Identifier: GPL-3.0-or-later */
#include "fetch/job.h"

#include "base/clock.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#define REASON_WHOLE 4096 /* an address and more */

/* text may be longer than a reason: it is cut. */
static void end(struct job *j, enum fetch_result result, char *text)
{
    service_hide_key(text, strlen(text), j->key); /* before it is cut: half a key would not be found */
    snprintf(j->out->reason, sizeof j->out->reason, "%s", text);
    j->out->result = result;
    j->state = JOB_DONE;
}

void job_end(struct job *j, enum fetch_result result, const char *format, ...)
{
    char text[REASON_WHOLE];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    end(j, result, text);
}

void job_give_up(struct job *j, const char *format, ...)
{
    char text[REASON_WHOLE];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    end(j, j->kept ? FETCH_KEPT_OLD : FETCH_FAILED, text);
}

static void give_up(struct job *j, const struct err *e)
{
    char text[FETCH_REASON];
    err_format(e, text, sizeof text);
    job_give_up(j, "%s", text);
}

bool job_address(struct job *j)
{
    struct service_ask ask = j->r->ask;
    const char *base = service_base(j->r->service, j->r->url);
    const char *fault = address_fault(base);
    ask.grid = j->grid[0] ? j->grid : NULL;
    if (fault) {
        /* The address itself may hold a password. */
        job_give_up(j, "%s: the base address set for it is not asked: %s", j->r->service->name, fault);
        return false;
    }
    if (!j->grid[0]) {
        service_url(j->r->service, &ask, base, NULL, &j->url);
        snprintf(j->asked, sizeof j->asked, "%s", j->url.text);
        j->conditional = j->kept && !j->r->service->then && strcmp(j->asked, j->old.url) == 0;
    }
    service_url(j->r->service, &ask, base, j->key, &j->url);
    if (j->url.failed || j->url.length >= CACHE_URL) {
        job_give_up(j, "the address to ask is too long");
        return false;
    }
    return true;
}

/* What can be known before the network is asked. */
static bool may_ask(struct job *j)
{
    char agent[256], why[FETCH_REASON];
    struct err e;
    err_clear(&e);
    int64_t not_before = cache_not_before(&j->lock), now = clock_now();
    if (keep_early(not_before, now, why)) {
        job_give_up(j, "%s: %s", j->r->service->name, why);
        return false;
    }
    if (j->kept && !keep_due(j->r, &j->old, now, why)) {
        job_end(j, FETCH_UNCHANGED, "%s: %s", j->r->service->name, why);
        return false;
    }
    if (j->r->service->contact && !transfer_contact_known()) {
        job_give_up(j, "%s wants to know whom to write to: set SUGARLEA_CONTACT to your mail or web address",
                    j->r->service->name);
        return false;
    }
    if (!transfer_agent(agent, sizeof agent)) {
        job_give_up(j, "SUGARLEA_CONTACT is too long or holds letters beyond ASCII");
        return false;
    }
    if (service_key(j->r->service, j->r->key_file, j->key, &e) != ERR_OK) {
        j->key[0] = '\0';
        give_up(j, &e);
        return false;
    }
    return job_address(j);
}

static enum err_code reach(struct job *j, double until, struct err *e)
{
    char folder[LIMIT_PATH];
    enum err_code code = cache_folder(folder, true, e);
    return code == ERR_OK ? cache_lock(j->path, until, &j->lock, e) : code;
}

void job_begin(struct job *j, double until, struct arena *a)
{
    struct err e;
    err_clear(&e);
    enum err_code code = reach(j, until, &e);
    /* Read under the lock: whoever held it before may have fetched just this. */
    struct err damage;
    err_clear(&damage);
    j->kept = cache_read(j->path, j->r->service, &j->r->ask, a, &j->old, &damage) == CACHE_GOOD;
    if (code != ERR_OK) {
        give_up(j, &e);
    } else if (may_ask(j)) {
        j->state = JOB_WAITING;
        j->at = 0;
    }
}

void job_release(struct job *j)
{
    transfer_release(j);
    buf_release(&j->url);
    cache_unlock(&j->lock);
}
