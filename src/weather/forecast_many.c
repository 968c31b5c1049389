/* Answer of the forecast service for several places at once: an array of what
 * forecast_json.c reads. Each place is a site named after its grid point.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/limits.h"
#include "weather/json_days.h"
#include "weather/note.h"

#include <stdio.h>

static bool is_answer(const cJSON *item)
{
    return cJSON_IsObject(json_get(item, "daily")) || cJSON_IsObject(json_get(item, "hourly"));
}

bool forecast_many_is(const struct weather_file *f)
{
    return cJSON_IsArray(f->doc.root) && is_answer(f->doc.root->child);
}

/* "52.2500 -2.5000" and, where the answer numbers its places, "#3" behind. */
static const char *name_of(const cJSON *item, const struct site *place, struct arena *a)
{
    char name[LIMIT_NAME], number[24] = "";
    const cJSON *id = json_get(item, "location_id");
    if (cJSON_IsNumber(id)) {
        snprintf(number, sizeof number, " #%.0f", id->valuedouble);
    }
    snprintf(name, sizeof name, "%.4f %.4f%s", place->latitude, place->longitude, number);
    return arena_strdup(a, name);
}

static enum err_code read_one(const struct weather_file *f, const cJSON *item, struct weather_site *site,
                              struct weather_set *all, int *noted, struct arena *a, struct err *e)
{
    struct weather_file part = *f;
    struct weather_set set = {.note = ""};
    part.doc.root = (cJSON *)(uintptr_t)item;
    if (!is_answer(item)) {
        return json_fail(&part.doc, ERR_DATA, "", e, "has neither daily nor hourly values");
    }
    enum err_code code = forecast_json_read(&part, a, &set, e);
    if (code != ERR_OK) {
        return code;
    }
    *site = set.site[0];
    site->name = name_of(item, &site->place, a);
    if (!site->name) {
        return err_set(e, ERR_NOMEM, "out of memory while reading %s", f->path);
    }
    return set.note[0] && (*noted)++ == 0 ? note_add(all, a, e, "%s: %s", site->name, set.note) : ERR_OK;
}

enum err_code forecast_many_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    const cJSON *item;
    int noted = 0, n = cJSON_GetArraySize(f->doc.root);
    if (n > LIMIT_SITES) {
        return json_fail(&f->doc, ERR_DATA, "", e, "has %d places; at most %d are read", n, LIMIT_SITES);
    }
    set->site = arena_alloc(a, (size_t)n, sizeof *set->site);
    if (!set->site) {
        return err_set(e, ERR_NOMEM, "out of memory while reading %s", f->path);
    }
    cJSON_ArrayForEach(item, f->doc.root)
    {
        char key[32];
        snprintf(key, sizeof key, "[%zu]", set->n);
        enum err_code code = json_days_within(f, key, read_one(f, item, &set->site[set->n], set, &noted, a, e), e);
        if (code != ERR_OK) {
            return code;
        }
        set->n++;
    }
    return noted > 1 ? note_add(set, a, e, "such a note stands to each of %d places", noted) : ERR_OK;
}
