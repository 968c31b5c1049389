/* Reads holding.json: the top of the file and its place.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/holding.h"

#include "base/clock.h"
#include "base/file.h"
#include "data/holding_read.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { SCHEMA = 1 };

double holding_cover_of_height(const struct params *p, double height_cm)
{
    const struct sward_kind *any = &p->kind[SWARD_COOL_SEASON]; /* the three types share it */
    assert(any->height_density > 0);
    return height_cm * any->height_density;
}

double holding_cover_least(const struct params *p)
{
    double least = INFINITY;
    for (int t = 0; t < SWARD_TYPES; t++) {
        least = fmin(least, p->kind[t].graze_floor_cm * p->kind[t].height_density);
    }
    assert(least < HOLDING_COVER_HIGH);
    return least;
}

enum err_code holding_read_site(const struct holding_reader *r, const cJSON *value)
{
    static const char *const keys[] = {"latitude", "longitude", "elevation_m", "timezone"};
    const struct {
        const char *key;
        bool required;
        double low, high, *to;
    } numbers[] = {{"latitude", true, -90, 90, &r->h->site.latitude},
                   {"longitude", false, -180, 180, &r->h->site.longitude},
                   {"elevation_m", false, HOLDING_ELEVATION_LOW, HOLDING_ELEVATION_HIGH, &r->h->site.elevation_m}};
    char *zone = r->h->site.timezone;
    r->h->site = (struct site){.latitude = NAN, .longitude = NAN, .elevation_m = NAN};
    enum err_code code = holding_keys(r, value, "site", keys, sizeof keys / sizeof keys[0]);
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0] && code == ERR_OK; i++) {
        code = json_read_number(r->doc, value, "site", numbers[i].key, numbers[i].required, numbers[i].low,
                                numbers[i].high, numbers[i].to, r->e);
    }
    if (code == ERR_OK) {
        code = holding_text(r, value, "site", "timezone", false, zone, LIMIT_NAME);
    }
    const char *letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789_+-/";
    if (code == ERR_OK && (zone[0] == '/' || strspn(zone, letters) != strlen(zone))) {
        return json_fail(r->doc, ERR_CONFIG, "site.timezone", r->e,
                         "\"%s\" is no zone name; write it as \"Europe/London\"", zone);
    }
    if (code == ERR_OK && zone[0] && !clock_zone_known(zone)) {
        return json_fail(r->doc, ERR_CONFIG, "site.timezone", r->e,
                         "the time zone \"%s\" is not known on this machine; names look like \"Europe/London\"", zone);
    }
    return code;
}

static enum err_code check_schema(const struct holding_reader *r, const cJSON *root)
{
    static const char *const keys[] = {"sugarlea", "name", "site", "weather", "paddocks", "animals", "hay"};
    enum err_code code = holding_keys(r, root, "", keys, sizeof keys / sizeof keys[0]);
    const cJSON *schema = json_get(root, "sugarlea");
    if (code == ERR_OK && !schema) {
        return json_fail(r->doc, ERR_CONFIG, "", r->e, "is no holding file: it must begin with \"sugarlea\": %d",
                         SCHEMA);
    }
    if (code == ERR_OK && !(cJSON_IsNumber(schema) && schema->valuedouble == SCHEMA)) {
        return json_fail(r->doc, ERR_CONFIG, "sugarlea", r->e, "this program reads holding files of version %d only",
                         SCHEMA);
    }
    return code;
}

static enum err_code read_root(const struct holding_reader *r)
{
    static const struct {
        const char *key;
        bool required;
        enum err_code (*read)(const struct holding_reader *r, const cJSON *value);
    } parts[] = {{"site", true, holding_read_site},
                 {"weather", false, holding_read_weather},
                 {"paddocks", true, holding_read_paddocks},
                 {"animals", false, holding_read_animals},
                 {"hay", false, holding_read_hay}};
    const cJSON *root = r->doc->root;
    enum err_code code = check_schema(r, root);
    if (code == ERR_OK) {
        code = holding_text(r, root, "", "name", false, r->h->name, sizeof r->h->name);
    }
    for (size_t i = 0; i < sizeof parts / sizeof parts[0] && code == ERR_OK; i++) {
        const cJSON *value = json_get(root, parts[i].key);
        if (!value && parts[i].required) {
            return json_fail(r->doc, ERR_CONFIG, "", r->e, "the entry \"%s\" is missing", parts[i].key);
        }
        code = parts[i].read(r, value);
    }
    return code;
}

enum err_code holding_parse(const char *text, size_t size, const char *name, const struct params *p, struct arena *a,
                            struct holding *h, struct err *e)
{
    assert(name != NULL);
    struct json_doc doc;
    *h = (struct holding){.price_per_bale = NAN};
    if (strlen(name) >= sizeof h->path) {
        return err_set(e, ERR_NOINPUT, "the name of the holding file is longer than %zu bytes", sizeof h->path - 1);
    }
    snprintf(h->path, sizeof h->path, "%s", name);
    enum err_code code = json_parse(text, size, name, &doc, e);
    if (code == ERR_OK) {
        code = read_root(&(struct holding_reader){&doc, p, a, h, e});
        assert(code != ERR_OK || h->paddocks > 0);
        assert(code != ERR_OK || h->lots > 0);
        json_release(&doc);
    } else if (code == ERR_DATA) {
        code = e->code = ERR_CONFIG;
    }
    return code;
}

enum err_code holding_load(const char *path, const struct params *p, struct arena *a, struct holding *h, struct err *e)
{
    struct file_view view;
    enum err_code code = file_view(path, LIMIT_JSON_BYTES, &view, e);
    if (code == ERR_OK) {
        code = holding_parse(view.data, view.size, path, p, a, h, e);
        file_unview(&view);
    }
    return code;
}
