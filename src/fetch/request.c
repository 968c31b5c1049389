/* Requests out of JSON. SPDX-License-Identifier: GPL-3.0-or-later */
#include "fetch/request.h"

#include "base/json.h"

#include <math.h>
#include <stdio.h>

struct reader {
    const struct json_doc *doc;
    const cJSON *item;
    struct arena *a;
    struct err *e;
    enum err_code code; /* of the first fault; nothing is read after it */
};

static const char *text_of(struct reader *r, const char *key)
{
    const char *text = "";
    if (r->code == ERR_OK) {
        r->code = json_read_string(r->doc, r->item, "", key, true, LIMIT_PATH - 1, &text, r->e);
        text = arena_strdup(r->a, text);
        r->code = text ? r->code : err_set(r->e, ERR_NOMEM, "out of memory");
    }
    return text ? text : "";
}

/* NaN for null. */
static double number_of(struct reader *r, const char *key, double low, double high)
{
    double x = NAN;
    if (r->code == ERR_OK && !cJSON_IsNull(json_get(r->item, key))) {
        r->code = json_read_number(r->doc, r->item, "", key, true, low, high, &x, r->e);
    }
    return x;
}

static date_t date_of(struct reader *r, const char *key)
{
    double x = number_of(r, key, -100000, 100000);
    return isnan(x) ? DATE_NONE : (date_t)x;
}

static enum err_code read_one(struct reader *r, struct fetch_request *q)
{
    const char *name = text_of(r, "service"), *zone = text_of(r, "timezone");
    q->ask.place = (struct site){.latitude = number_of(r, "latitude", -90, 90),
                                 .longitude = number_of(r, "longitude", -180, 180),
                                 .elevation_m = number_of(r, "elevation", -1000, 10000)};
    snprintf(q->ask.place.timezone, sizeof q->ask.place.timezone, "%s", zone);
    q->ask.station = text_of(r, "station");
    q->ask.from = date_of(r, "from");
    q->ask.to = date_of(r, "to");
    q->today = date_of(r, "today");
    q->url = text_of(r, "url");
    q->key_file = text_of(r, "key_file");
    q->cache_days = number_of(r, "cache_days", 0, 1000);
    q->service = service_find(name);
    if (r->code == ERR_OK && !q->service) {
        r->code = service_unknown(name, r->e);
    }
    return r->code;
}

enum err_code requests_read(const char *text, size_t size, struct arena *a, struct fetch_request **r, size_t *n,
                            struct err *e)
{
    struct json_doc doc;
    const cJSON *item;
    enum err_code code = json_parse(text, size, "standard input", &doc, e);
    if (code != ERR_OK) {
        return code;
    }
    size_t most = cJSON_IsArray(doc.root) ? (size_t)cJSON_GetArraySize(doc.root) : FETCH_REQUESTS_MOST + 1;
    *n = 0;
    if (most > FETCH_REQUESTS_MOST) {
        json_release(&doc);
        return err_set(e, ERR_DATA, "a list of at most %d requests is expected", FETCH_REQUESTS_MOST);
    }
    *r = arena_alloc(a, most, sizeof **r);
    if (!*r) {
        json_release(&doc);
        return err_set(e, ERR_NOMEM, "out of memory");
    }
    cJSON_ArrayForEach(item, doc.root)
    {
        struct reader reader = {&doc, item, a, e, ERR_OK};
        code = code == ERR_OK ? read_one(&reader, &(*r)[(*n)++]) : code;
    }
    json_release(&doc);
    return code;
}
