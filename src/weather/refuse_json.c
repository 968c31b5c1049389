/* JSON that is known and is no daily weather of one place, and unknown JSON.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/layout.h"

#include <string.h>

static const struct kind {
    const char *path; /* what only this kind has: keys, a leading "*" for the first element of an array */
    const char *what;
} kinds[] = {
    {"features.*.properties.parameter",
     "is a reanalysis answer for a region; ask the service for daily values of one point (T2M_MIN, T2M_MAX, "
     "PRECTOTCORR, ALLSKY_SFC_SW_DWN)"},
    {"properties.forecastGridData",
     "names the addresses of a forecast and holds no weather; a second step is needed: fetch the address under "
     "\"forecastGridData\" and read that"},
    {"properties.periods",
     "is a forecast in words for hours or half days, without rain in mm; fetch the raw grid instead, "
     "the address of the same place that ends after the two grid numbers"},
    {"properties.gridId", "is a forecast on a grid that holds no intervals of temperature; fetch the raw grid"},
    {"*.generationtime_ms",
     "is a forecast answer for several places without daily or hourly values; ask for daily ones"},
    {"current", "has the present hour only; ask the service for daily or hourly values"},
    {"current_weather", "has the present hour only; ask the service for daily or hourly values"},
};

static const cJSON *follow(const cJSON *at, const char *path)
{
    while (at && *path) {
        char key[64];
        size_t n = strcspn(path, ".");
        memcpy(key, path, n);
        key[n] = 0;
        at = strcmp(key, "*") == 0 ? (cJSON_IsArray(at) ? at->child : NULL) : json_get(at, key);
        path += n + (path[n] == '.');
    }
    return at;
}

bool refuse_json_is(const struct weather_file *f)
{
    return f->doc.root != NULL;
}

/* The text under one of the keys in which services say what went wrong. */
static const char *complaint(const cJSON *root)
{
    static const char *const keys[] = {"reason", "detail", "error_message", "title", "message"};
    const cJSON *messages = json_get(root, "messages");
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        const cJSON *text = json_get(root, keys[i]);
        if (cJSON_IsString(text)) {
            return text->valuestring;
        }
    }
    if (cJSON_IsArray(messages) && cJSON_IsString(messages->child)) {
        return messages->child->valuestring;
    }
    return NULL;
}

enum err_code refuse_json(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    (void)a, (void)set;
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        if (follow(f->doc.root, kinds[i].path)) {
            return json_fail(&f->doc, ERR_DATA, "", e, "%s", kinds[i].what);
        }
    }
    const char *said = complaint(f->doc.root);
    if (said) {
        return json_fail(&f->doc, ERR_DATA, "", e, "is no weather: the service answered \"%.200s\"", said);
    }
    return json_fail(
        &f->doc, ERR_DATA, "", e,
        "is JSON of a kind that is not known; read are daily answers of the global reanalysis (one point), "
        "daily and hourly answers of the forecast service, the Norwegian point forecast, the United "
        "States' raw forecast grid, and many tables of text");
}
