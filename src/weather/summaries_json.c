/* United States daily summaries as JSON: an array of flat objects, one a station and
 * day, all values texts padded with blanks; what is missing has no key. The units are
 * not said: see unit_sense.h. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/ghcn.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

bool summaries_json_is(const struct weather_file *f)
{
    const cJSON *root = f->doc.root, *first = cJSON_IsArray(root) ? root->child : NULL;
    return json_get(first, "DATE") && json_get(first, "STATION");
}

/* The text of a value, blanks off; "" when it has none. */
struct text {
    const char *at;
    size_t n;
};

static struct text text_of(const cJSON *item, char number[32])
{
    struct text t = {"", 0};
    if (cJSON_IsString(item)) {
        t.at = item->valuestring + strspn(item->valuestring, " ");
        t.n = strlen(t.at);
    } else if (cJSON_IsNumber(item)) {
        t.at = number;
        t.n = (size_t)snprintf(number, 32, "%.15g", item->valuedouble);
    }
    for (; t.n && t.at[t.n - 1] == ' '; t.n--) {
    }
    return t;
}

static enum err_code read_station(struct ghcn *g, const cJSON *object, uint32_t at)
{
    static const char *const places[] = {"LATITUDE", "LONGITUDE", "ELEVATION"};
    char number[32];
    struct text id = text_of(json_get(object, "STATION"), number);
    enum err_code code = ghcn_station(g, id.at, id.n, at);
    for (int i = 0; i < 3 && code == ERR_OK; i++) {
        struct text t = text_of(json_get(object, places[i]), number);
        code = ghcn_place(g, i, t.at, t.n, at);
    }
    return code;
}

static enum err_code read_value(struct ghcn *g, const cJSON *object, const cJSON *item, struct ghcn_value *v)
{
    char number[32], other[32], key[24];
    struct text t = text_of(item, number);
    snprintf(key, sizeof key, "%.4s_ATTRIBUTES", item->string);
    struct text attributes = text_of(json_get(object, key), other);
    if (t.n == 0) {
        return ERR_OK;
    }
    ghcn_attributes(attributes.at, attributes.n, v);
    enum err_code code = ghcn_number(g, t.at, t.n, v);
    return code == ERR_OK ? ghcn_add(g, v) : code;
}

static enum err_code read_object(struct ghcn *g, const cJSON *object, uint32_t at)
{
    const cJSON *item;
    char number[32];
    struct ghcn_value v = {.at = at};
    struct text date = text_of(json_get(object, "DATE"), number);
    enum err_code code = ghcn_date(g, date.at, date.n, at, &v.date);
    code = code == ERR_OK ? read_station(g, object, at) : code;
    if (code != ERR_OK) {
        return code;
    }
    cJSON_ArrayForEach(item, object)
    {
        size_t n = strlen(item->string);
        v.element = ghcn_element(item->string, n);
        if (v.element != GHCN_OTHER && code == ERR_OK) {
            code = read_value(g, object, item, &v);
        } else if (n == 4 && strcmp(item->string, "DATE") != 0 && strcmp(item->string, "NAME") != 0) {
            ghcn_ignore(g, item->string, n);
        }
    }
    return code;
}

enum err_code summaries_json_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    struct ghcn g;
    const cJSON *object;
    enum err_code code = ERR_OK;
    uint32_t at = 0;
    ghcn_start(&g, f, a, e);
    cJSON_ArrayForEach(object, f->doc.root)
    {
        code = code == ERR_OK ? read_object(&g, object, at++) : code;
    }
    if (code == ERR_OK && at == 0) {
        code = ghcn_fail(&g, 0, "", "has no days; read are objects with DATE, STATION, TMAX, TMIN and PRCP");
    }
    code = code == ERR_OK ? ghcn_finish(&g, UNITS_UNSAID, set) : code;
    ghcn_release(&g);
    return code;
}
