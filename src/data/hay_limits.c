/* Reads models/hay-limits.json. SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/hay_limits.h"

#include "data/params_file.h"

#define ROW(member, unit, low, high)                                                                                   \
    {                                                                                                                  \
#member, offsetof(struct hay_limits, member), unit, low, high                                                  \
    }

static const struct param_row table[] = {
    ROW(round_kg_m3, "kg/m3", 50, 400), ROW(square_kg_m3, "kg/m3", 50, 400), ROW(loose_kg_m3, "kg/m3", 10, 200),
    ROW(bale_kg, "kg", 1, 1500),        ROW(store_loss_pct, "% DM", 0, 90),  ROW(feed_loss_pct, "% DM", 0, 90),
    ROW(doubt, "ln-SD", 0, 1),          ROW(lead_days, "d", 0, 365),         ROW(usable_share, "1", 0.05, 1),
};

enum err_code params_read_hay_plan(const struct json_doc *doc, struct arena *a, struct params *p, struct err *e)
{
    static const char *const root[] = {"about", "hay"};
    const cJSON *object = json_get(doc->root, "hay");
    enum err_code code = json_check_keys(doc, doc->root, "", root, sizeof root / sizeof root[0], e);
    if (code == ERR_OK && !object) {
        return json_fail(doc, ERR_CONFIG, "", e, "the entry \"hay\" is missing");
    }
    if (code == ERR_OK) {
        code = param_table_read(doc, object, "hay", table, sizeof table / sizeof table[0], &p->hay, &p->list, a, e);
    }
    return code;
}
