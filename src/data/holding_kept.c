/* How a paddock is kept: grazed to a cover, cut, stocked or rested.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/holding_read.h"
#include "data/param_rows.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static const char *const hows[] = {"grazed", "cut", "stocked", "rested"};

struct kept holding_default_kept(const struct params *p)
{
    return (struct kept){
        .how = KEPT_GRAZED, .cover_kg_ha = p->limits.default_cover_kg_ha, .to_cm = p->limits.default_stubble_cm};
}

/* "05-20" of every year; 0 when it is none. 29 February is not of every year. */
static int month_day(const char *text)
{
    assert(text != NULL);
    size_t n = strlen(text);
    bool form = n == 5 && text[2] == '-' && strspn(text, "0123456789-") == n && strchr(text, '-') == text + 2 &&
                strrchr(text, '-') == text + 2;
    if (!form) {
        return 0;
    }
    int month = 10 * (text[0] - '0') + text[1] - '0', day = 10 * (text[3] - '0') + text[4] - '0';
    enum { COMMON_YEAR = 2001 };
    return date_valid(COMMON_YEAR, month, day) ? 100 * month + day : 0;
}

static enum err_code not_a_day(const struct holding_reader *r, const char *path)
{
    return json_fail(r->doc, ERR_CONFIG, path, r->e,
                     "must be a day of every year as \"MM-DD\", such as \"05-20\" for 20 May");
}

static enum err_code read_dates(const struct holding_reader *r, const cJSON *dates, const char *path, struct kept *k)
{
    const cJSON *item;
    char at[HOLDING_PATH];
    enum err_code code = holding_array(r, dates, path, LIMIT_CUT_DATES, &k->cuts);
    if (code == ERR_OK && k->cuts == 0) {
        return json_fail(r->doc, ERR_CONFIG, path, r->e, "must name at least one day");
    }
    size_t i = 0;
    cJSON_ArrayForEach(item, dates)
    {
        if (code != ERR_OK) {
            return code;
        }
        holding_index(at, path, i);
        int md = cJSON_IsString(item) ? month_day(item->valuestring) : 0;
        if (md == 0) {
            return not_a_day(r, at);
        }
        if (i > 0 && md <= k->cut_md[i - 1]) {
            return json_fail(r->doc, ERR_CONFIG, at, r->e, "the days must follow one another through the year");
        }
        assert(i < k->cuts);
        k->cut_md[i++] = md;
    }
    return code;
}

static enum err_code read_interval(const struct holding_reader *r, const cJSON *value, const char *path, struct kept *k)
{
    const char *from = NULL;
    enum err_code code = holding_whole(r, value, path, "every_days", 7, 365, &k->every_days);
    if (code == ERR_OK) {
        code = json_read_string(r->doc, value, path, "from", true, LIMIT_NAME, &from, r->e);
    }
    if (code == ERR_OK) {
        k->from_md = month_day(from);
        if (k->from_md == 0) {
            char at[HOLDING_PATH];
            holding_join(at, path, "from");
            return not_a_day(r, at);
        }
    }
    return code;
}

static enum err_code read_grazed(const struct holding_reader *r, const cJSON *value, const char *path, struct kept *k)
{
    bool cover = json_get(value, "cover_kg_dm_ha"), height = json_get(value, "height_cm");
    double height_cm = NAN;
    if (cover == height) {
        return json_fail(r->doc, ERR_CONFIG, path, r->e,
                         "a grazed paddock needs either \"cover_kg_dm_ha\" or \"height_cm\"");
    }
    if (cover) {
        return json_read_number(r->doc, value, path, "cover_kg_dm_ha", true, holding_cover_least(r->p),
                                HOLDING_COVER_HIGH, &k->cover_kg_ha, r->e);
    }
    enum err_code code = json_read_number(r->doc, value, path, "height_cm", true, 2, 60, &height_cm, r->e);
    k->cover_kg_ha = holding_cover_of_height(r->p, height_cm);
    return code;
}

static enum err_code read_cut(const struct holding_reader *r, const cJSON *value, const char *path, struct kept *k)
{
    const cJSON *dates = json_get(value, "dates");
    if (!dates == !json_get(value, "every_days")) {
        return json_fail(r->doc, ERR_CONFIG, path, r->e, "a cut paddock needs either \"dates\" or \"every_days\"");
    }
    if (dates && json_get(value, "from")) {
        return json_fail(r->doc, ERR_CONFIG, path, r->e, "\"from\" goes with \"every_days\" only");
    }
    char at[HOLDING_PATH];
    holding_join(at, path, "dates");
    enum err_code code = dates ? read_dates(r, dates, at, k) : read_interval(r, value, path, k);
    return code == ERR_OK ? json_read_number(r->doc, value, path, "to_cm", false, 2, 30, &k->to_cm, r->e) : code;
}

enum err_code holding_read_kept(const struct holding_reader *r, const cJSON *value, const char *path, struct kept *k)
{
    static const struct {
        const char *key;
        enum kept_how how;
    } goes_with[] = {{"cover_kg_dm_ha", KEPT_GRAZED}, {"height_cm", KEPT_GRAZED}, {"dates", KEPT_CUT},
                     {"every_days", KEPT_CUT},        {"from", KEPT_CUT},         {"to_cm", KEPT_CUT}};
    static const char *const keys[] = {"how", "cover_kg_dm_ha", "height_cm", "dates", "every_days", "from", "to_cm"};
    size_t how = 0;
    *k = holding_default_kept(r->p);
    if (!value) {
        return ERR_OK;
    }
    enum err_code code = holding_keys(r, value, path, keys, sizeof keys / sizeof keys[0]);
    if (code == ERR_OK) {
        code = param_rows_word(r->doc, value, path, "how", true, hows, sizeof hows / sizeof hows[0], &how, r->e);
    }
    if (code != ERR_OK) {
        return code;
    }
    k->how = (enum kept_how)how;
    assert(how < sizeof hows / sizeof hows[0]);
    for (size_t i = 0; i < sizeof goes_with / sizeof goes_with[0]; i++) {
        if (json_get(value, goes_with[i].key) && goes_with[i].how != k->how) {
            char at[HOLDING_PATH];
            holding_join(at, path, goes_with[i].key);
            return json_fail(r->doc, ERR_CONFIG, at, r->e, "goes with \"how\": \"%s\" only", hows[goes_with[i].how]);
        }
    }
    return k->how == KEPT_GRAZED ? read_grazed(r, value, path, k)
           : k->how == KEPT_CUT  ? read_cut(r, value, path, k)
                                 : ERR_OK;
}
