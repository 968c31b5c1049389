/* Reads models/tune-limits.json. SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/tune_limits.h"

#include "data/params_file.h"

#define ROW(member, unit, low, high)                                                                                   \
    {                                                                                                                  \
#member, offsetof(struct tune_limits, member), unit, low, high                                                 \
    }

static const struct param_row table[] = {
    ROW(level, "ln-SD", 0.01, 2),
    ROW(rest, "ln-SD", 0.01, 2),
    ROW(laboratory, "ln-SD", 0.01, 1),
    ROW(sample, "ln-SD", 0, 1),
    ROW(hour, "ln-SD", 0, 1),
    ROW(year, "ln-SD", 0, 2),
    ROW(huber, "1", 0.5, 10),
    ROW(doubtful, "1", 0.5, 10),
    ROW(usual, "1", 0.5, 10),
    ROW(factor_low, "1", 0.1, 1),
    ROW(factor_high, "1", 1, 10),
    ROW(cover, "ln-SD", 0.01, 2),
    ROW(height, "ln-SD", 0.01, 2),
    ROW(plate_kg_ha_cm, "kg DM/ha/cm", 50, 1000),
    ROW(plate_kg_ha, "kg DM/ha", 0, 2000),
};

enum err_code params_read_tuning(const struct json_doc *doc, struct arena *a, struct params *p, struct err *e)
{
    static const char *const root[] = {"about", "tune"};
    const cJSON *object = json_get(doc->root, "tune");
    enum err_code code = json_check_keys(doc, doc->root, "", root, sizeof root / sizeof root[0], e);
    if (code == ERR_OK && !object) {
        return json_fail(doc, ERR_CONFIG, "", e, "the entry \"tune\" is missing");
    }
    if (code == ERR_OK) {
        code = param_table_read(doc, object, "tune", table, sizeof table / sizeof table[0], &p->tune, &p->list, a, e);
    }
    return code;
}
