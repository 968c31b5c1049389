/* Asking the services of a holding. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/sources_service.h"

#include <stdio.h>

static enum err_code make_request(const struct sources_ask *ask, const struct holding *h, size_t i, struct arena *a,
                                  struct service_source *out, struct err *e)
{
    char field[64];
    out->source = &h->source[i];
    enum err_code code = fetch_request_make(out->source, &h->site, h->path, ask->today, a, &out->request, e);
    if (code != ERR_OK) {
        snprintf(field, sizeof field, "weather[%zu]", i);
        err_at(e, h->path, 0, 0, field);
    }
    out->request.cache_days = ask->fetch ? 0 : out->request.cache_days;
    return code;
}

/* The requests and outcomes lie side by side for the fetcher. */
static enum err_code ask_all(struct service_source *list, size_t n, struct arena *a, struct err *e)
{
    struct fetch_request *request = arena_alloc(a, n, sizeof *request);
    struct fetch_outcome *outcome = arena_alloc(a, n, sizeof *outcome);
    struct err trouble;
    if (!request || !outcome) {
        return err_set(e, ERR_NOMEM, "out of memory while asking for weather");
    }
    for (size_t i = 0; i < n; i++) {
        request[i] = list[i].request;
    }
    err_clear(&trouble);
    weather_fetch(request, n, FETCH_DEADLINE_S, outcome, &trouble); /* what went wrong stands in each outcome, too */
    for (size_t i = 0; i < n; i++) {
        list[i].outcome = outcome[i];
    }
    return ERR_OK;
}

enum err_code service_sources_ask(const struct sources_ask *ask, const struct holding *h, struct arena *a,
                                  struct service_source **list, size_t *n, struct err *e)
{
    *n = 0;
    *list = arena_alloc(a, h->sources, sizeof **list);
    if (h->sources && !*list) {
        return err_set(e, ERR_NOMEM, "out of memory while asking for weather");
    }
    for (size_t i = 0; i < h->sources; i++) {
        if (!h->source[i].service[0]) {
            continue;
        }
        enum err_code code = make_request(ask, h, i, a, &(*list)[(*n)++], e);
        if (code != ERR_OK) {
            return code;
        }
    }
    return *n && !ask->offline ? ask_all(*list, *n, a, e) : ERR_OK;
}
