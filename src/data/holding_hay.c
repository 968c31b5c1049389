/* The hay of a holding file: lots, store, feeder, price.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/holding_read.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>

static const char default_hay[] = "grass-hay-mature";

static const struct hay_lot unknown_lot = {.bales = NAN,
                                           .bale_kg = NAN,
                                           .kg = NAN,
                                           .bale_m = {NAN, NAN, NAN},
                                           .m3 = NAN,
                                           .nsc_pct = NAN,
                                           .starch_pct = NAN,
                                           .ndf_pct = NAN,
                                           .dm_pct = NAN,
                                           .energy_mj_kg = NAN,
                                           .soaked_h = NAN,
                                           .water_c = NAN};

enum err_code holding_default_hay(const struct params *p, struct arena *a, struct holding *h, struct err *e)
{
    h->lots = 1;
    h->lot = arena_alloc(a, 1, sizeof *h->lot);
    if (!h->lot) {
        return err_set(e, ERR_NOMEM, "out of memory while reading the holding");
    }
    *h->lot = unknown_lot;
    h->lot->feed = params_feed(p, default_hay);
    if (!h->lot->feed) {
        return params_unknown(p, PARAMS_HAY, default_hay, e);
    }
    holding_lot_contents(h->lot);
    snprintf(h->lot->id, sizeof h->lot->id, "%s", h->lot->feed->id);
    return ERR_OK;
}

/* The diary tells lots apart by their ids: those of one feed are numbered in the order of the file, also those
 * with an id of their own, so that to name one renames no other. */
static enum err_code name_lots(const struct holding_reader *r)
{
    struct holding *h = r->h;
    enum err_code code = ERR_OK;
    for (size_t i = 0; i < h->lots && code == ERR_OK; i++) {
        struct hay_lot *lot = &h->lot[i];
        size_t number = 0, all = 0;
        char path[HOLDING_PATH];
        for (size_t k = 0; k < h->lots; k++) {
            all += h->lot[k].feed == lot->feed;
            number += k <= i && h->lot[k].feed == lot->feed;
        }
        lot->numbered = !lot->named && all > 1;
        if (!lot->named) {
            snprintf(lot->id, sizeof lot->id, all > 1 ? "%s-%zu" : "%s", lot->feed->id, number);
        }
        holding_index(path, "hay.stock", i);
        code = holding_unique(r, path, lot->id, h->lot, i, sizeof *lot, offsetof(struct hay_lot, id));
    }
    return code;
}

static enum err_code read_own_id(const struct holding_reader *r, const cJSON *item, const char *path,
                                 struct hay_lot *lot)
{
    lot->named = json_get(item, "id") != NULL;
    return lot->named ? holding_id(r, item, path, lot->id) : ERR_OK;
}

static enum err_code read_lot(const struct holding_reader *r, const cJSON *item, size_t i)
{
    assert(i < r->h->lots);
    static const char *const keys[] = {
        "id",         "feed",         "bales",       "bale_kg", "shape",          "bale_m",
        "m3",         "kg",           "nsc_percent", "nsc_is",  "starch_percent", "ndf_percent",
        "dm_percent", "energy_mj_kg", "soaked",      "steamed", "tested_after"};
    struct hay_lot *lot = &r->h->lot[i];
    const char *id = "";
    char path[HOLDING_PATH];
    *lot = unknown_lot;
    holding_index(path, "hay.stock", i);
    enum err_code code = holding_keys(r, item, path, keys, sizeof keys / sizeof keys[0]);
    if (code == ERR_OK) {
        code = read_own_id(r, item, path, lot);
    }
    if (code == ERR_OK) {
        code = json_read_string(r->doc, item, path, "feed", true, LIMIT_NAME - 1, &id, r->e);
    }
    if (code != ERR_OK) {
        return code;
    }
    lot->feed = params_feed(r->p, id);
    if (!lot->feed || !lot->feed->may_be_hay) {
        char at[HOLDING_PATH];
        holding_join(at, path, "feed");
        return lot->feed ? json_fail(r->doc, ERR_CONFIG, at, r->e, "\"%s\" is a feed, and no hay, straw or silage", id)
                         : holding_unknown(r, at, PARAMS_HAY, id);
    }
    code = holding_read_amount(r, item, path, lot);
    return code == ERR_OK ? holding_read_analysis(r, item, path, lot) : code;
}

static enum err_code read_stock(const struct holding_reader *r, const cJSON *value)
{
    struct holding *h = r->h;
    const cJSON *item;
    enum err_code code = holding_array(r, value, "hay.stock", LIMIT_STOCK, &h->lots);
    if (code != ERR_OK) {
        return code;
    }
    if (h->lots == 0) {
        return holding_default_hay(r->p, r->a, h, r->e);
    }
    h->lot = arena_alloc(r->a, h->lots, sizeof *h->lot);
    if (!h->lot) {
        return holding_no_memory(r);
    }
    size_t i = 0;
    cJSON_ArrayForEach(item, value)
    {
        code = code == ERR_OK ? read_lot(r, item, i++) : code;
    }
    return code == ERR_OK ? name_lots(r) : code;
}

static enum err_code read_loss(const struct holding_reader *r, const cJSON *hay, const char *key,
                               enum hay_loss_kind kind, char *out)
{
    assert(kind == HAY_LOSS_STORAGE || kind == HAY_LOSS_FEEDING);
    enum err_code code = holding_text(r, hay, "hay", key, false, out, LIMIT_NAME);
    if (code == ERR_OK && out[0] != '\0' && !params_loss(r->p, kind, out)) {
        char at[HOLDING_PATH];
        holding_join(at, "hay", key);
        return holding_unknown(r, at, kind == HAY_LOSS_STORAGE ? PARAMS_STORE : PARAMS_FEEDER, out);
    }
    return code;
}

enum err_code holding_read_hay(const struct holding_reader *r, const cJSON *value)
{
    static const char *const keys[] = {"stock", "stored", "fed_from", "price_per_bale"};
    struct holding *h = r->h;
    if (!value) {
        return holding_default_hay(r->p, r->a, h, r->e);
    }
    enum err_code code = holding_keys(r, value, "hay", keys, sizeof keys / sizeof keys[0]);
    if (code == ERR_OK) {
        code = read_stock(r, json_get(value, "stock"));
    }
    if (code == ERR_OK) {
        code = read_loss(r, value, "stored", HAY_LOSS_STORAGE, h->stored);
    }
    if (code == ERR_OK) {
        code = read_loss(r, value, "fed_from", HAY_LOSS_FEEDING, h->fed_from);
    }
    return code == ERR_OK
               ? json_read_number(r->doc, value, "hay", "price_per_bale", false, 0, 1e6, &h->price_per_bale, r->e)
               : code;
}
