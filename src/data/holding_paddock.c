/* The paddocks of a holding file. SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/holding_read.h"
#include "data/param_rows.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

const char *const holding_nitrogens[NITROGENS] = {"none", "low", "normal", "heavy"};
enum { NITROGEN_NORMAL = 2 };

double holding_nitrogen(const struct params *p, const char *word)
{
    assert(word != NULL);
    const double factors[NITROGENS] = {p->limits.nitrogen_none, p->limits.nitrogen_low, p->limits.nitrogen_normal,
                                       p->limits.nitrogen_heavy};
    for (size_t i = 0; i < NITROGENS; i++) {
        if (strcmp(word, holding_nitrogens[i]) == 0) {
            return factors[i];
        }
    }
    return NAN;
}

static enum err_code add_grass(const struct holding_reader *r, const char *path, const char *id, double share,
                               struct paddock *d)
{
    assert(d->grasses < LIMIT_MIX);
    const struct grass *g = params_grass(r->p, id);
    if (!g) {
        return holding_unknown(r, path, PARAMS_GRASS, id);
    }
    d->grass[d->grasses] = g;
    d->share[d->grasses++] = share;
    return ERR_OK;
}

static enum err_code check_shares(const struct holding_reader *r, const char *path, struct paddock *d)
{
    assert(d->grasses > 0);
    double sum = 0;
    for (size_t i = 0; i < d->grasses; i++) {
        sum += d->share[i];
    }
    if (!(fabs(sum - 1) <= 0.01 + 1e-9)) {
        return json_fail(r->doc, ERR_CONFIG, path, r->e, "the shares sum to %g; they must sum to 1", sum);
    }
    for (size_t i = 0; i < d->grasses; i++) {
        d->share[i] /= sum;
    }
    return ERR_OK;
}

/* One id, or an object of ids and shares. */
static enum err_code read_grass(const struct holding_reader *r, const cJSON *paddock, const char *path,
                                struct paddock *d)
{
    const cJSON *value = json_get(paddock, "grass"), *item;
    enum err_code code = ERR_OK;
    char at[HOLDING_PATH], whole[HOLDING_PATH];
    holding_join(whole, path, "grass");
    if (!value || cJSON_IsString(value)) {
        return add_grass(r, whole, value ? value->valuestring : "unknown-mixed", 1, d);
    }
    if (!cJSON_IsObject(value) || !value->child) {
        return json_fail(r->doc, ERR_CONFIG, whole, r->e,
                         "must be a grass id, or shares such as {\"ryegrass\": 0.7, \"white-clover\": 0.3}");
    }
    if (cJSON_GetArraySize(value) > LIMIT_MIX) {
        return json_fail(r->doc, ERR_CONFIG, whole, r->e, "at most %d grasses are allowed", LIMIT_MIX);
    }
    cJSON_ArrayForEach(item, value)
    {
        double share = 0;
        holding_join(at, whole, item->string);
        code =
            code == ERR_OK ? json_read_number(r->doc, value, whole, item->string, true, 0.001, 1, &share, r->e) : code;
        code = code == ERR_OK ? add_grass(r, at, item->string, share, d) : code;
    }
    return code == ERR_OK ? check_shares(r, whole, d) : code;
}

static enum err_code read_soil(const struct holding_reader *r, const cJSON *paddock, const char *path,
                               struct paddock *d)
{
    const char *id = "unknown";
    size_t nitrogen = NITROGEN_NORMAL;
    enum err_code code = json_read_string(r->doc, paddock, path, "soil", false, LIMIT_NAME - 1, &id, r->e);
    if (code != ERR_OK) {
        return code;
    }
    d->soil = params_soil(r->p, id);
    if (!d->soil) {
        char at[HOLDING_PATH];
        holding_join(at, path, "soil");
        return holding_unknown(r, at, PARAMS_SOIL, id);
    }
    code = param_rows_word(r->doc, paddock, path, "nitrogen", false, holding_nitrogens, NITROGENS, &nitrogen, r->e);
    snprintf(d->nitrogen_id, sizeof d->nitrogen_id, "%s", holding_nitrogens[nitrogen]);
    d->nitrogen = holding_nitrogen(r->p, d->nitrogen_id);
    return code;
}

static enum err_code read_paddock(const struct holding_reader *r, const cJSON *item, size_t i)
{
    assert(i < r->h->paddocks);
    static const char *const keys[] = {"id", "area_ha", "grass", "soil", "nitrogen", "kept"};
    struct paddock *d = &r->h->paddock[i];
    char path[HOLDING_PATH], at[HOLDING_PATH];
    holding_index(path, "paddocks", i);
    enum err_code code = holding_keys(r, item, path, keys, sizeof keys / sizeof keys[0]);
    if (code == ERR_OK) {
        code = holding_id(r, item, path, d->id);
    }
    if (code == ERR_OK) {
        code = holding_unique(r, path, d->id, r->h->paddock, i, sizeof *d, offsetof(struct paddock, id));
    }
    if (code == ERR_OK) {
        code = json_read_number(r->doc, item, path, "area_ha", true, 0.001, 100000, &d->area_ha, r->e);
    }
    if (code == ERR_OK) {
        code = read_grass(r, item, path, d);
    }
    if (code == ERR_OK) {
        code = read_soil(r, item, path, d);
    }
    holding_join(at, path, "kept");
    return code == ERR_OK ? holding_read_kept(r, json_get(item, "kept"), at, &d->kept) : code;
}

enum err_code holding_read_paddocks(const struct holding_reader *r, const cJSON *value)
{
    struct holding *h = r->h;
    const cJSON *item;
    enum err_code code = holding_array(r, value, "paddocks", LIMIT_PADDOCKS, &h->paddocks);
    if (code == ERR_OK && h->paddocks == 0) {
        return json_fail(r->doc, ERR_CONFIG, "paddocks", r->e, "a holding has at least one paddock");
    }
    h->paddock = arena_alloc(r->a, h->paddocks, sizeof *h->paddock);
    if (!h->paddock) {
        return holding_no_memory(r);
    }
    size_t i = 0;
    cJSON_ArrayForEach(item, value)
    {
        code = code == ERR_OK ? read_paddock(r, item, i++) : code;
    }
    return code;
}
