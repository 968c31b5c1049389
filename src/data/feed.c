/* Reads models/feeds.json. SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/animal.h"
#include "data/param_rows.h"
#include "data/params_file.h"

#define AT(member) offsetof(struct feed, member)

static const struct param_column columns[] = {
    {"dm_pct", AT(dm_pct), "% fed", 1, 100, false},  {"starch_pct", AT(starch_pct), "% DM", 0, 100, false},
    {"wsc_pct", AT(wsc_pct), "% DM", 0, 100, false}, {"nsc_pct", AT(nsc_pct), "% DM", 0, 100, false},
    {"ndf_pct", AT(ndf_pct), "% DM", 0, 100, false}, {"adf_pct", AT(adf_pct), "% DM", 0, 100, false},
    {"cp_pct", AT(cp_pct), "% DM", 0, 100, false},   {"de_mcal_kg", AT(de_mcal_kg), "Mcal/kg DM", 0, 9, false},
};
static const struct param_text texts[] = {{"name", AT(name), LIMIT_TEXT, true}};
static const struct param_flag flags[] = {{"is_forage", AT(is_forage)},
                                          {"may_be_hay", AT(may_be_hay)},
                                          {"is_coarse", AT(is_coarse)},
                                          {"is_straw", AT(is_straw)}};
static const struct param_schema schema = {.name = "feeds",
                                           .row_size = sizeof(struct feed),
                                           .id_offset = AT(id),
                                           .column = columns,
                                           .columns = sizeof columns / sizeof columns[0],
                                           .text = texts,
                                           .texts = sizeof texts / sizeof texts[0],
                                           .flag = flags,
                                           .flags = sizeof flags / sizeof flags[0]};

enum err_code params_read_feeds(const struct json_doc *doc, struct arena *a, struct params *p, struct err *e)
{
    void *rows = NULL;
    enum err_code code = param_rows_read(doc, &schema, &rows, &p->feeds, &p->list, a, e);
    p->feed = rows;
    return code;
}
