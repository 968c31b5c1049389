/* Reads models/hay-losses.json. SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/hay_loss.h"

#include "data/param_rows.h"
#include "data/params_file.h"

#include <math.h>
#include <stdio.h>

#define AT(member) offsetof(struct hay_loss, member)

static const struct param_column columns[] = {
    {"low_pct", AT(low_pct), "% DM", 0, 90, false},
    {"typical_pct", AT(typical_pct), "% DM", 0, 90, false},
    {"high_pct", AT(high_pct), "% DM", 0, 90, false},
};
static const struct param_text texts[] = {
    {"species", AT(species), LIMIT_NAME, false},
    {"description", AT(description), LIMIT_TEXT, true},
    {"note", AT(note), LIMIT_TEXT, false},
};
static const char *const own[] = {"kind"};
static const struct param_schema schema = {.name = "losses",
                                           .row_size = sizeof(struct hay_loss),
                                           .id_offset = AT(id),
                                           .column = columns,
                                           .columns = sizeof columns / sizeof columns[0],
                                           .text = texts,
                                           .texts = sizeof texts / sizeof texts[0],
                                           .own = own,
                                           .owns = 1};

double hay_loss_planning_pct(const struct hay_loss *loss)
{
    return isnan(loss->typical_pct) ? loss->high_pct : loss->typical_pct;
}

/* What the columns alone do not say: the kind, and that there is a figure to plan with. */
static enum err_code finish(const struct json_doc *doc, const cJSON *item, struct hay_loss *loss, struct err *e)
{
    static const char *const kinds[HAY_LOSS_KINDS] = {"storage", "feeding"};
    char path[sizeof e->field];
    size_t kind = 0;
    json_join(path, sizeof path, "losses", loss->id);
    enum err_code code = param_rows_word(doc, item, path, "kind", true, kinds, HAY_LOSS_KINDS, &kind, e);
    loss->kind = (enum hay_loss_kind)kind;
    if (code == ERR_OK && isnan(hay_loss_planning_pct(loss))) {
        return json_fail(doc, ERR_CONFIG, path, e, "typical_pct or high_pct is needed to plan with");
    }
    return code;
}

enum err_code params_read_losses(const struct json_doc *doc, struct arena *a, struct params *p, struct err *e)
{
    void *rows = NULL;
    enum err_code code = param_rows_read(doc, &schema, &rows, &p->losses, &p->list, a, e);
    p->loss = rows;
    const cJSON *table = json_get(doc->root, schema.name), *item;
    struct hay_loss *row = rows;
    cJSON_ArrayForEach(item, table)
    {
        code = code == ERR_OK ? finish(doc, item, row++, e) : code;
    }
    return code;
}
