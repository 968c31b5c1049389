/* One libcurl transfer with every limit set. Written against the traps of 7.88:
 * MAXFILESIZE does not count decoded or unannounced bytes, so they are counted here;
 * redirections are not followed by the library but looked at one by one (reply.c).
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/clock.h"
#include "fetch/job.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#define HEADER_MOST (128u << 10) /* bytes of all headers of a reply */
#define CONNECT_S 10.0
#define SLOW_BYTES 50L /* a second, over SLOW_S: our judgement */
#define SLOW_S 10.0

bool transfer_contact_known(void)
{
    const char *set = getenv("SUGARLEA_CONTACT");
    return set && set[0];
}

bool transfer_agent(char *text, size_t size)
{
    const char *set = getenv("SUGARLEA_CONTACT"), *contact = set && set[0] ? set : "(contact not set)";
    for (const char *c = contact; *c; c++) {
        if (*c < ' ' || *c > '~') {
            return false;
        }
    }
    return snprintf(text, size, "sugarlea/" SUGARLEA_VERSION " %s", contact) < (int)size;
}

static size_t take_body(char *bytes, size_t size, size_t n, void *data)
{
    struct job_reply *reply = data;
    n *= size;
    if (n > CACHE_BODY_MOST - reply->body.length) {
        reply->too_big = true;
        return 0;
    }
    buf_add_bytes(&reply->body, bytes, n);
    return reply->body.failed ? 0 : n;
}

/* The value of a header of this name, without blanks around it; *length is 0 when it is another one. */
static const char *value_of(const char *line, size_t n, const char *name, size_t *length)
{
    size_t k = strlen(name);
    *length = 0;
    if (n <= k || line[k] != ':' || strncasecmp(line, name, k) != 0) {
        return line;
    }
    const char *from = line + k + 1, *to = line + n;
    while (from < to && (*from == ' ' || *from == '\t')) {
        from++;
    }
    while (to > from && strchr("\r\n\t ", to[-1])) {
        to--;
    }
    *length = (size_t)(to - from);
    return from;
}

static bool printable(const char *text, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        if (text[i] < ' ' || text[i] > '~') {
            return false;
        }
    }
    return true;
}

static size_t take_header(char *bytes, size_t size, size_t n, void *data)
{
    struct job_reply *reply = data;
    const struct {
        const char *name;
        char *text;
        int64_t *time;
    } rows[] = {{"ETag", reply->etag, NULL},
                {"Last-Modified", reply->last_modified, NULL},
                {"Date", NULL, &reply->date},
                {"Expires", NULL, &reply->expires}};
    n *= size;
    reply->header_bytes += n;
    if (reply->header_bytes > HEADER_MOST) {
        reply->too_big = true;
        return 0;
    }
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        size_t length;
        char text[CACHE_FIELD];
        const char *value = value_of(bytes, n, rows[i].name, &length);
        if (length == 0 || length >= sizeof text || !printable(value, length)) {
            continue;
        }
        memcpy(text, value, length);
        text[length] = '\0';
        if (rows[i].text) {
            memcpy(rows[i].text, text, length + 1);
        } else {
            time_t t = curl_getdate(text, NULL);
            *rows[i].time = t > 0 ? t : 0;
        }
    }
    return n;
}

static void add_header(struct job *j, const char *name, const char *value)
{
    char line[CACHE_FIELD + 32];
    snprintf(line, sizeof line, "%s: %s", name, value);
    struct curl_slist *more = curl_slist_append(j->headers, line);
    j->headers = more ? more : j->headers; /* without it the whole answer comes: no harm */
}

static void set_limits(CURL *c, double left_s)
{
    curl_easy_setopt(c, CURLOPT_NOSIGNAL, 1L);
    curl_easy_setopt(c, CURLOPT_QUICK_EXIT, 1L); /* a name look-up that hangs must not hold us at the end */
    curl_easy_setopt(c, CURLOPT_TIMEOUT_MS, (long)ceil(left_s * 1000));
    curl_easy_setopt(c, CURLOPT_CONNECTTIMEOUT_MS, (long)ceil(fmin(CONNECT_S, left_s) * 1000));
    curl_easy_setopt(c, CURLOPT_LOW_SPEED_LIMIT, SLOW_BYTES);
    curl_easy_setopt(c, CURLOPT_LOW_SPEED_TIME, (long)SLOW_S);
    curl_easy_setopt(c, CURLOPT_MAXFILESIZE_LARGE, (curl_off_t)CACHE_BODY_MOST);
    curl_easy_setopt(c, CURLOPT_FOLLOWLOCATION, 0L);
}

static void set_security(CURL *c, const char *url)
{
    bool loopback = address_is_loopback(url);
    const char *authority = getenv("SUGARLEA_TEST_CAINFO");
    curl_easy_setopt(c, CURLOPT_PROTOCOLS_STR, loopback ? "http,https" : "https");
    curl_easy_setopt(c, CURLOPT_SSL_VERIFYPEER, 1L);
    curl_easy_setopt(c, CURLOPT_SSL_VERIFYHOST, 2L);
    curl_easy_setopt(c, CURLOPT_SSLVERSION, (long)CURL_SSLVERSION_TLSv1_2);
    if (loopback) {
        curl_easy_setopt(c, CURLOPT_PROXY, "");
    }
    if (loopback && authority && authority[0]) {
        curl_easy_setopt(c, CURLOPT_CAINFO, authority);
    }
}

CURL *transfer_make(struct job *j, double left_s)
{
    char agent[256];
    CURL *c = j->easy = curl_easy_init();
    if (!c || !transfer_agent(agent, sizeof agent)) {
        return NULL;
    }
    j->reply = (struct job_reply){.header_bytes = 0};
    buf_init(&j->reply.body);
    set_limits(c, left_s);
    set_security(c, j->url.text);
    if (j->conditional && j->old.etag[0]) {
        add_header(j, "If-None-Match", j->old.etag);
    }
    if (j->conditional && j->old.last_modified[0]) {
        add_header(j, "If-Modified-Since", j->old.last_modified);
    }
    curl_easy_setopt(c, CURLOPT_URL, j->url.text);
    curl_easy_setopt(c, CURLOPT_USERAGENT, agent);
    curl_easy_setopt(c, CURLOPT_ACCEPT_ENCODING, "gzip, deflate");
    curl_easy_setopt(c, CURLOPT_HTTPHEADER, j->headers);
    curl_easy_setopt(c, CURLOPT_WRITEFUNCTION, take_body);
    curl_easy_setopt(c, CURLOPT_WRITEDATA, &j->reply);
    curl_easy_setopt(c, CURLOPT_HEADERFUNCTION, take_header);
    curl_easy_setopt(c, CURLOPT_HEADERDATA, &j->reply);
    curl_easy_setopt(c, CURLOPT_ERRORBUFFER, j->reply.fault);
    curl_easy_setopt(c, CURLOPT_PRIVATE, j);
    return c;
}

void transfer_release(struct job *j)
{
    curl_easy_cleanup(j->easy);
    curl_slist_free_all(j->headers);
    j->easy = NULL;
    j->headers = NULL;
    buf_release(&j->reply.body);
}
