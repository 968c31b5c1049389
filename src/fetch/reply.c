/* What a reply means: a new answer, no change, a redirection, a second question, an
 * error to be tried again or to be told. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/clock.h"
#include "base/json.h"
#include "base/num.h"
#include "fetch/job.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define REDIRECTS_MOST 3
#define ATTEMPTS_MOST 4
#define FIRST_WAIT_S 0.5 /* doubled each time, our judgement */
#define DAY_S 86400.0

/* Asks again after a pause when there is time and hope. */
static bool again(struct job *j, double wait, double deadline)
{
    wait = fmax(wait, FIRST_WAIT_S * (1 << j->failures));
    if (++j->failures >= ATTEMPTS_MOST || clock_ticks() + wait >= deadline) {
        return false;
    }
    j->at = clock_ticks() + wait;
    j->state = JOB_WAITING;
    return true;
}

/* The transfer did not come to an end. */
static void on_fault(struct job *j, CURLcode result, double deadline)
{
    const struct {
        CURLcode result;
        bool hope; /* the same question may go well the next time */
        const char *what;
    } rows[] = {{CURLE_COULDNT_RESOLVE_HOST, true, "its name cannot be looked up; is this machine connected?"},
                {CURLE_COULDNT_CONNECT, true, "it cannot be reached"},
                {CURLE_OPERATION_TIMEDOUT, true, "it did not answer in time"},
                {CURLE_PARTIAL_FILE, true, "its answer broke off"},
                {CURLE_GOT_NOTHING, true, "it closed without an answer"},
                {CURLE_RECV_ERROR, true, "its answer broke off"},
                {CURLE_SEND_ERROR, true, "the connection broke off"},
                {CURLE_SSL_CONNECT_ERROR, true, "no safe connection came about"},
                {CURLE_PEER_FAILED_VERIFICATION, false, "its certificate is not good, so it is not trusted"},
                {CURLE_BAD_CONTENT_ENCODING, false, "its answer cannot be unpacked"},
                {CURLE_FILESIZE_EXCEEDED, false, "its answer is larger than any weather"}};
    const char *what = j->reply.too_big ? "its answer is larger than any weather" : "it cannot be asked";
    bool hope = false;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if (rows[i].result == result) {
            what = rows[i].what;
            hope = rows[i].hope;
        }
    }
    if (!hope || !again(j, 0, deadline)) {
        job_give_up(j, "%s: %s (%s)", j->r->service->name, what,
                    j->reply.fault[0] ? j->reply.fault : curl_easy_strerror(result));
    }
}

static void on_redirect(struct job *j)
{
    char *to = NULL;
    curl_easy_getinfo(j->easy, CURLINFO_REDIRECT_URL, &to);
    const char *fault = !to || strlen(to) >= CACHE_URL          ? "it names no address"
                        : address_fault(to)                     ? address_fault(to)
                        : !address_same_scheme(to, j->url.text) ? "the scheme must stay the same"
                        : ++j->redirects > REDIRECTS_MOST       ? "there is no end to it"
                                                                : NULL;
    if (fault) {
        job_give_up(j, "%s: it sends us on to %s, which is not followed: %s", j->r->service->name, to ? to : "nowhere",
                    fault);
        return;
    }
    buf_clear(&j->url);
    buf_add(&j->url, to);
    j->state = JOB_WAITING;
    j->at = 0;
}

/* What the service says of its error, when it can be read. */
static void words_of(struct job *j, struct arena *a, struct err *e)
{
    struct weather_set set;
    err_clear(e);
    service_hide_key(j->reply.body.text, j->reply.body.length, j->key);
    if (j->reply.body.length) {
        keep_read(j->r, j->reply.body.text, j->reply.body.length, "", a, &set, e);
    }
}

static void on_error(struct job *j, long status, double deadline, struct arena *a)
{
    const struct {
        long status;
        const char *what;
    } rows[] = {{400, "it does not accept the question"},
                {401, "it turns us away; a key may be needed"},
                {403, "it turns us away; a contact (SUGARLEA_CONTACT) or a key may be needed"},
                {404, "it has nothing for this place"},
                {410, "this version of it is gone; a newer sugarlea is needed"},
                {429, "it is asked too often"}};
    const char *what = status >= 500 ? "it is out of order" : "its answer is not understood";
    struct err said;
    curl_off_t wait = 0;
    curl_easy_getinfo(j->easy, CURLINFO_RETRY_AFTER, &wait);
    double pause = fmin(fmax((double)wait, 0), DAY_S);
    if ((status == 429 || status >= 500) && again(j, pause, deadline)) {
        return;
    }
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        what = rows[i].status == status ? rows[i].what : what;
    }
    if (pause > 0) {
        cache_set_not_before(&j->lock, clock_now() + (int64_t)pause);
        job_give_up(j, "%s: %s (%ld); it is to be asked again in %.0f min", j->r->service->name, what, status,
                    ceil(pause / 60));
        return;
    }
    words_of(j, a, &said);
    job_give_up(j, "%s: %s (%ld)%s%s", j->r->service->name, what, status, said.what[0] ? ": " : "", said.what);
}

/* When the answer grows old, by our clock: the service's own may be wrong. */
static int64_t expires_of(const struct job *j)
{
    int64_t now = clock_now();
    return j->reply.expires && j->reply.date ? now + (j->reply.expires - j->reply.date) : j->reply.expires;
}

static void on_unchanged(struct job *j)
{
    struct err e;
    err_clear(&e);
    if (!j->conditional) {
        job_give_up(j, "%s: it says \"not changed\" (304), but was not asked for changes", j->r->service->name);
        return;
    }
    struct cache_entry entry = j->old;
    int64_t now = clock_now();
    entry.fetched = now;
    entry.expires = keep_expires(expires_of(j), now);
    if (cache_write(j->path, &entry, &e) != ERR_OK) {
        job_give_up(j, "%s: cannot be kept: %s", j->r->service->name, e.what);
        return;
    }
    cache_set_not_before(&j->lock, 0);
    job_end(j, FETCH_UNCHANGED, "%s", "");
}

/* The first answer of two names the grid cell that is asked for next. Only its parts are
 * taken, never an address. */
static void on_first_of_two(struct job *j)
{
    struct json_doc doc;
    struct err e;
    err_clear(&e);
    if (json_parse(j->reply.body.text, j->reply.body.length, "the answer", &doc, &e) == ERR_OK) {
        const cJSON *p = json_get(doc.root, "properties"), *office = json_get(p, "gridId");
        const cJSON *x = json_get(p, "gridX"), *y = json_get(p, "gridY");
        bool good = cJSON_IsString(office) && cJSON_IsNumber(x) && cJSON_IsNumber(y) &&
                    strlen(office->valuestring) <= 8 && fabs(x->valuedouble) < 1e6 && fabs(y->valuedouble) < 1e6;
        if (good) {
            snprintf(j->grid, sizeof j->grid, "%s/%.0f,%.0f", office->valuestring, x->valuedouble, y->valuedouble);
        }
        json_release(&doc);
    }
    if (!j->grid[0]) {
        job_give_up(j, "%s: it names no grid cell for this place (%s)", j->r->service->name,
                    e.what[0] ? e.what : "properties.gridId, gridX and gridY are expected");
        return;
    }
    if (job_address(j)) {
        j->state = JOB_WAITING;
        j->at = 0;
    }
}

static void on_answer(struct job *j, struct arena *a)
{
    struct err e;
    char text[FETCH_REASON];
    err_clear(&e);
    service_hide_key(j->reply.body.text, j->reply.body.length, j->key);
    service_hide_key(j->reply.etag, strlen(j->reply.etag), j->key);
    service_hide_key(j->reply.last_modified, strlen(j->reply.last_modified), j->key);
    const struct answer answer = {.body = j->reply.body.text,
                                  .size = j->reply.body.length,
                                  .url = j->asked,
                                  .now = clock_now(),
                                  .expires = expires_of(j),
                                  .last_modified = j->reply.last_modified,
                                  .etag = j->reply.etag};
    enum err_code code = keep_answer(j->r, j->path, j->kept ? &j->old : NULL, &answer, a, &e);
    if (code == ERR_OK) {
        cache_set_not_before(&j->lock, 0);
        const char *notice = ": it says that this version of it will go; look for a newer sugarlea";
        job_end(j, FETCH_FRESH, "%s%s", j->deprecated ? j->r->service->name : "", j->deprecated ? notice : "");
        return;
    }
    if (code == ERR_DATA && j->kept) { /* it would be the same in a minute */
        cache_set_not_before(&j->lock, clock_now() + (int64_t)(j->r->service->min_age_h * 3600));
    }
    err_format(&e, text, sizeof text);
    job_give_up(j, "%s: %s", j->r->service->name, text);
}

void job_reply(struct job *j, CURLcode result, double deadline, struct arena *a)
{
    long status = 0;
    curl_easy_getinfo(j->easy, CURLINFO_RESPONSE_CODE, &status);
    j->deprecated = j->deprecated || status == 203;
    if (result != CURLE_OK) {
        on_fault(j, result, deadline);
    } else if (status == 304) {
        on_unchanged(j);
    } else if (status >= 300 && status < 400) {
        on_redirect(j);
    } else if (status != 200 && status != 203) {
        on_error(j, status, deadline, a);
    } else if (j->r->service->then && !j->grid[0]) {
        on_first_of_two(j);
    } else {
        on_answer(j, a);
    }
}
