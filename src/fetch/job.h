/* One request on its way: asked, redirected, asked again, judged, kept.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_FETCH_JOB_H
#define SUGARLEA_FETCH_JOB_H

#include "weather/keep.h"

#include <curl/curl.h>

enum job_state { JOB_WAITING, JOB_RUNNING, JOB_DONE };

struct job_reply { /* of one transfer */
    struct buf body;
    size_t header_bytes;
    bool too_big; /* given up because of its size */
    char last_modified[CACHE_FIELD], etag[CACHE_FIELD];
    int64_t date, expires; /* s since 1970; 0 not said */
    char fault[CURL_ERROR_SIZE];
};

struct job {
    const struct fetch_request *r;
    struct fetch_outcome *out;
    const struct job *twin; /* an earlier request for the same entry, which answers for this one; NULL none */
    enum job_state state;
    double at; /* waiting: clock_ticks at which it is asked (again) */
    char path[LIMIT_PATH];
    struct cache_lock lock;
    bool kept; /* `old` holds an entry */
    struct cache_entry old;
    char key[SERVICE_KEY];
    char grid[64];         /* answer of a first question, "" none */
    struct buf url;        /* what is asked, with key */
    char asked[CACHE_URL]; /* the same without key and before any redirection */
    bool conditional;      /* what is kept answered the same question: ask for changes only */
    bool deprecated;       /* the service says that this version of it will go */
    int redirects, failures;
    CURL *easy;
    struct curl_slist *headers;
    struct job_reply reply;
};

/* Finds out whether the job has anything to ask, and locks its entry until `until`
 * (clock_ticks) at most. It is JOB_WAITING or JOB_DONE afterwards. */
void job_begin(struct job *j, double until, struct arena *a);
void job_release(struct job *j);

/* Ends the job without a new answer: kept-old or failed, with a sentence (the key is cut out). */
void job_give_up(struct job *j, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Ends it with a result. */
void job_end(struct job *j, enum fetch_result result, const char *format, ...) __attribute__((format(printf, 3, 4)));

/* Writes the address of the next question into j->url. False: the job is done (no such address). */
bool job_address(struct job *j);

/* What the transfer's end means: asks again (JOB_WAITING) or ends the job. */
void job_reply(struct job *j, CURLcode result, double deadline, struct arena *a);

/* NULL, or why such an address is not asked: https only, without user and password;
 * http for a loopback host while SUGARLEA_TEST_LOOPBACK is 1. */
const char *address_fault(const char *url);
bool address_is_loopback(const char *url);
bool address_same_scheme(const char *url, const char *other);

/* The transfer's handle, set up for j->url with all limits; NULL when memory is out. */
CURL *transfer_make(struct job *j, double left_s);
void transfer_release(struct job *j);

/* "sugarlea/VERSION contact"; false when SUGARLEA_CONTACT cannot stand in a header. */
bool transfer_agent(char *text, size_t size);
bool transfer_contact_known(void);

/* Runs all jobs at once until each is done, or until `deadline`; `slow` (NULL: nobody) is
 * called once when they are not done after half a second. */
void jobs_run(struct job *job, size_t n, double deadline, void (*slow)(const struct job *job, size_t n),
              struct arena *a);

#endif
