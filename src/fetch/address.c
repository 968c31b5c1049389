/* Which addresses may be asked. SPDX-License-Identifier: GPL-3.0-or-later */
#include "fetch/job.h"

#include <stdlib.h>
#include <string.h>

struct parts {
    char *scheme, *host, *user; /* NULL: there is none */
};

static bool take_apart(const char *url, struct parts *p)
{
    CURLU *u = curl_url();
    *p = (struct parts){0};
    bool good = u && curl_url_set(u, CURLUPART_URL, url, CURLU_NON_SUPPORT_SCHEME) == CURLUE_OK &&
                curl_url_get(u, CURLUPART_SCHEME, &p->scheme, 0) == CURLUE_OK;
    if (good) { /* not all have these: they stay NULL */
        curl_url_get(u, CURLUPART_HOST, &p->host, 0);
        curl_url_get(u, CURLUPART_USER, &p->user, 0);
    }
    curl_url_cleanup(u);
    return good;
}

static void release(struct parts *p)
{
    curl_free(p->scheme);
    curl_free(p->host);
    curl_free(p->user);
}

static bool loopback(const char *host)
{
    return host && (strcmp(host, "127.0.0.1") == 0 || strcmp(host, "[::1]") == 0 || strcmp(host, "localhost") == 0);
}

static bool testing(void)
{
    const char *set = getenv("SUGARLEA_TEST_LOOPBACK");
    return set && strcmp(set, "1") == 0;
}

const char *address_fault(const char *url)
{
    struct parts p;
    const char *fault = NULL;
    if (!take_apart(url, &p)) {
        fault = "it is no address";
    } else if (p.user) {
        fault = "it holds a user name";
    } else if (strcmp(p.scheme, "https") != 0 && !(strcmp(p.scheme, "http") == 0 && loopback(p.host) && testing())) {
        fault = "only https is allowed";
    } else if (!p.host) {
        fault = "it names no host";
    }
    release(&p);
    return fault;
}

bool address_is_loopback(const char *url)
{
    struct parts p;
    bool is = take_apart(url, &p) && loopback(p.host) && testing();
    release(&p);
    return is;
}

bool address_same_scheme(const char *url, const char *other)
{
    struct parts p, q;
    bool both = take_apart(url, &p);
    both = take_apart(other, &q) && both;
    bool same = both && strcmp(p.scheme, q.scheme) == 0;
    release(&p);
    release(&q);
    return same;
}
