/* Reads models/soaking.json. SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/soaking.h"

#include "data/param_rows.h"
#include "data/params_file.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>

#define AT(member) offsetof(struct soaking, member)

static const struct param_column columns[] = {
    {"hours_low", AT(hours_low), "h", 0, 100, false},
    {"hours_high", AT(hours_high), "h", 0, 100, false},
    {"water_c", AT(water_c), "C", 0, 100, false},
    {"wsc_loss_pct", AT(wsc_loss_pct), "%", 0, 100, false},
    {"starch_loss_pct", AT(starch_loss_pct), "%", 0, 100, false},
    {"dm_loss_low_pct", AT(dm_loss_low_pct), "%", 0, 90, false},
    {"dm_loss_high_pct", AT(dm_loss_high_pct), "%", 0, 90, false},
    {"wsc_before_g_kg", AT(wsc_before_g_kg), "g/kg DM", 0, 1000, false},
    {"wsc_after_g_kg", AT(wsc_after_g_kg), "g/kg DM", 0, 1000, false},
    {"hays_over_100", AT(hays_over_100), "hays", 0, 1e6, false},
    {"bacteria_cfu_g", AT(bacteria_cfu_g), "CFU/g", 0, 1e12, false},
};
static const struct param_text texts[] = {
    {"description", AT(description), LIMIT_TEXT, true},
    {"note", AT(note), LIMIT_TEXT, false},
};
static const struct param_flag flags[] = {{"is_credit", AT(is_credit)}};
static const struct param_schema schema = {.name = "soaking",
                                           .row_size = sizeof(struct soaking),
                                           .id_offset = AT(id),
                                           .column = columns,
                                           .columns = sizeof columns / sizeof columns[0],
                                           .text = texts,
                                           .texts = sizeof texts / sizeof texts[0],
                                           .flag = flags,
                                           .flags = sizeof flags / sizeof flags[0]};

const struct soaking *soaking_credit(const struct soaking *row, size_t n, double hours, double water_c)
{
    assert(row != NULL || n == 0);
    const struct soaking *best = NULL;
    for (size_t i = 0; i < n; i++) {
        bool earned =
            row[i].is_credit && hours >= row[i].hours_low && (isnan(row[i].water_c) || water_c >= row[i].water_c);
        if (earned && (!best || row[i].wsc_loss_pct > best->wsc_loss_pct)) {
            best = &row[i];
        }
    }
    return best;
}

double soaking_planned_nsc(const struct soaking *credit, double nsc_pct, double starch_pct)
{
    assert(credit->is_credit);
    assert(credit->wsc_loss_pct >= 0 && credit->wsc_loss_pct <= 100);
    double starch = starch_pct > nsc_pct ? nsc_pct : starch_pct; /* an unknown starch stays unknown */
    return starch + (nsc_pct - starch) * (1.0 - credit->wsc_loss_pct / 100.0);
}

/* A credit has to say what it takes and from when on. */
static enum err_code finish(const struct json_doc *doc, const struct soaking *s, struct err *e)
{
    if (s->is_credit && isnan(s->wsc_loss_pct + s->hours_low + s->dm_loss_low_pct + s->dm_loss_high_pct)) {
        char path[sizeof e->field];
        json_join(path, sizeof path, "soaking", s->id);
        return json_fail(doc, ERR_CONFIG, path, e,
                         "a credit needs hours_low, wsc_loss_pct, dm_loss_low_pct and dm_loss_high_pct");
    }
    return ERR_OK;
}

enum err_code params_read_soaking(const struct json_doc *doc, struct arena *a, struct params *p, struct err *e)
{
    void *rows = NULL;
    enum err_code code = param_rows_read(doc, &schema, &rows, &p->soakings, &p->list, a, e);
    p->soaking = rows;
    for (size_t i = 0; i < p->soakings && code == ERR_OK; i++) {
        code = finish(doc, &p->soaking[i], e);
    }
    return code;
}
