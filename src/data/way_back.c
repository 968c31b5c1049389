/* Reads models/reintroduction.json. SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/way_back.h"

#include "data/param_rows.h"
#include "data/params_file.h"

#include <assert.h>
#include <string.h>

#define AT(member) offsetof(struct way_back_rules, member)

static const struct param_column columns[] = {
    {"away_days", AT(away_days), "d", 1, 365, true},
    {"first_min", AT(first_min), "min", 5, 240, true},
    {"step_min", AT(step_min), "min", 5, 240, true},
    {"full_h", AT(full_h), "h", 0.25, 23.5, true},
    {"least_days", AT(least_days), "d", 1, 365, true},
    {"episode_step_days", AT(episode_step_days), "d", 1, 60, true},
    {"episode_least_days", AT(episode_least_days), "d", 1, 365, true},
    {"grass_low_cm", AT(grass_low_cm), "cm", 2, 60, false},
    {"grass_high_cm", AT(grass_high_cm), "cm", 2, 60, false},
};
static const struct param_schema schema = {.name = "reintroduction",
                                           .row_size = sizeof(struct way_back_rules),
                                           .id_offset = AT(id),
                                           .column = columns,
                                           .columns = sizeof columns / sizeof columns[0]};

enum err_code params_read_way_back(const struct json_doc *doc, struct arena *a, struct params *p, struct err *e)
{
    void *rows = NULL;
    size_t n = 0;
    enum err_code code = param_rows_read(doc, &schema, &rows, &n, &p->list, a, e);
    const struct way_back_rules *row = rows;
    for (size_t s = 0; s < SPECIES_COUNT && code == ERR_OK; s++) {
        size_t i = 0;
        while (i < n && strcmp(row[i].id, species_names[s]) != 0) {
            i++;
        }
        if (i == n) {
            return json_fail(doc, ERR_CONFIG, schema.name, e, "the row of the species \"%s\" is missing",
                             species_names[s]);
        }
        p->way_back[s] = row[i];
        assert(row[i].first_min > 0 && row[i].step_min > 0);
    }
    if (code == ERR_OK && n != SPECIES_COUNT) {
        return json_fail(doc, ERR_CONFIG, schema.name, e, "there is a row that is no species");
    }
    return code;
}
