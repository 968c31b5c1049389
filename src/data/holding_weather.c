/* The weather sources of a holding file. SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/holding_read.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

static enum err_code check_station(const struct holding_reader *r, const char *path, const char *station)
{
    const char *letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-";
    if (strspn(station, letters) != strlen(station)) {
        return json_fail(r->doc, ERR_CONFIG, path, r->e,
                         "\"%s\" is no station: letters, digits and hyphens are allowed, as in \"USW00093820\"",
                         station);
    }
    return ERR_OK;
}

/* Only the form: which schemes and hosts are asked is the fetcher's to say. */
static enum err_code check_url(const struct holding_reader *r, const char *path, const char *url)
{
    assert(url != NULL);
    const char *host = strncmp(url, "https://", 8) == 0 ? url + 8 : strncmp(url, "http://", 7) == 0 ? url + 7 : "";
    bool plain = true;
    for (const char *c = url; *c; c++) {
        plain = plain && *c > ' ' && *c < 0x7f && !strchr("\"\\<>?#@", *c);
    }
    if (url[0] && (!host[0] || host[0] == '/' || !plain)) {
        return json_fail(r->doc, ERR_CONFIG, path, r->e,
                         "is no base address: \"https://HOST\" with or without a path is allowed, without ? # @ and "
                         "blanks; a key belongs in \"key_file\"");
    }
    return ERR_OK;
}

static enum err_code read_service(const struct holding_reader *r, const cJSON *item, const char *path,
                                  struct weather_source *s)
{
    const struct {
        const char *key;
        bool required;
        char *to;
        size_t size;
        enum err_code (*check)(const struct holding_reader *r, const char *path, const char *text);
    } texts[] = {{"service", true, s->service, sizeof s->service, NULL},
                 {"station", false, s->station, sizeof s->station, check_station},
                 {"url", false, s->url, sizeof s->url, check_url},
                 {"key_file", false, s->key_file, sizeof s->key_file, NULL}};
    enum err_code code = ERR_OK;
    for (size_t i = 0; i < sizeof texts / sizeof texts[0] && code == ERR_OK; i++) {
        char at[HOLDING_PATH];
        holding_join(at, path, texts[i].key);
        code = holding_text(r, item, path, texts[i].key, texts[i].required, texts[i].to, texts[i].size);
        code = code == ERR_OK && texts[i].check ? texts[i].check(r, at, texts[i].to) : code;
    }
    s->cache_days = 1;
    return code == ERR_OK ? json_read_number(r->doc, item, path, "cache_days", false, 0, 30, &s->cache_days, r->e)
                          : code;
}

static enum err_code read_source(const struct holding_reader *r, const cJSON *item, const char *path,
                                 struct weather_source *s)
{
    assert(s->file[0] == '\0' && s->service[0] == '\0');
    static const char *const keys[] = {"file", "service", "cache_days", "station", "url", "key_file"};
    enum err_code code = holding_keys(r, item, path, keys, sizeof keys / sizeof keys[0]);
    if (code != ERR_OK) {
        return code;
    }
    bool file = json_get(item, "file"), service = json_get(item, "service");
    if (file == service) {
        return json_fail(r->doc, ERR_CONFIG, path, r->e, "give either \"file\" or \"service\"");
    }
    for (size_t i = 2; file && i < sizeof keys / sizeof keys[0]; i++) {
        if (json_get(item, keys[i])) {
            return json_fail(r->doc, ERR_CONFIG, path, r->e, "\"%s\" goes with \"service\" only", keys[i]);
        }
    }
    return file ? holding_text(r, item, path, "file", true, s->file, sizeof s->file) : read_service(r, item, path, s);
}

enum err_code holding_read_weather(const struct holding_reader *r, const cJSON *value)
{
    struct holding *h = r->h;
    const cJSON *item;
    enum err_code code = holding_array(r, value, "weather", LIMIT_WEATHER_SOURCES, &h->sources);
    h->source = arena_alloc(r->a, h->sources, sizeof *h->source);
    if (!h->source) {
        return holding_no_memory(r);
    }
    size_t i = 0;
    cJSON_ArrayForEach(item, value)
    {
        char path[HOLDING_PATH];
        holding_index(path, "weather", i);
        size_t column;
        json_locate(r->doc, path, &h->source[i].line, &column);
        code = code == ERR_OK ? read_source(r, item, path, &h->source[i]) : code;
        i++;
    }
    return code;
}
