/* Reads models/starter.json. SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/starter.h"

#include "data/param_rows.h"
#include "data/params_file.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>

#define POLE 90.0 /* degrees */
#define COUNT(table) (sizeof(table) / sizeof(table)[0])
#define GRASS(i, id)                                                                                                   \
    {                                                                                                                  \
        id, offsetof(struct sward_look, share) + (i) * sizeof(double), "1", 0, 1, false                                \
    }

/* The grasses first, in the order of share[]. */
static const struct param_column look_columns[] = {
    GRASS(0, "ryegrass"),
    GRASS(1, "timothy"),
    GRASS(2, "meadow-fescue"),
    GRASS(3, "tall-fescue"),
    GRASS(4, "red-fescue"),
    GRASS(5, "bent"),
    GRASS(6, "meadow-grass"),
    GRASS(7, "cocksfoot"),
    GRASS(8, "unknown-mixed"),
    GRASS(9, "bermuda"),
    GRASS(10, "kikuyu"),
    GRASS(11, "crabgrass"),
    GRASS(12, "teff"),
    GRASS(13, "lucerne"),
    {"to_latitude", offsetof(struct sward_look, to_latitude), "degree", 0, 90, false}};
static const struct param_text look_texts[] = {{"seen", offsetof(struct sward_look, seen), LIMIT_TEXT, true}};
static const struct param_schema look_schema = {.name = "looks",
                                                .row_size = sizeof(struct sward_look),
                                                .id_offset = offsetof(struct sward_look, id),
                                                .column = look_columns,
                                                .columns = COUNT(look_columns),
                                                .text = look_texts,
                                                .texts = COUNT(look_texts)};

static const struct param_column clover_columns[] = {{"share", offsetof(struct clover_look, share), "1", 0, 0.9, true}};
static const struct param_text clover_texts[] = {{"seen", offsetof(struct clover_look, seen), LIMIT_TEXT, true}};
static const struct param_schema clover_schema = {.name = "clovers",
                                                  .row_size = sizeof(struct clover_look),
                                                  .id_offset = offsetof(struct clover_look, id),
                                                  .column = clover_columns,
                                                  .columns = COUNT(clover_columns),
                                                  .text = clover_texts,
                                                  .texts = COUNT(clover_texts)};

const char *starter_grass(size_t i)
{
    assert(i < STARTER_GRASSES);
    return look_columns[i].key;
}

/* The looks that are not shown everywhere stand last, so that the numbers on a screen have no holes. */
static enum err_code check_order(const struct json_doc *doc, const struct sward_look *before,
                                 const struct sward_look *look, struct err *e)
{
    char path[LIMIT_TEXT];
    json_join(path, sizeof path, "looks.rows", look->id);
    return fmin(before->to_latitude, POLE) >= fmin(look->to_latitude, POLE)
               ? ERR_OK
               : json_fail(doc, ERR_CONFIG, path, e, "the rows must come by to_latitude, the highest first");
}

static enum err_code check_shares(const struct json_doc *doc, const struct sward_look *look, struct err *e)
{
    char path[LIMIT_TEXT];
    double sum = 0;
    for (size_t i = 0; i < STARTER_GRASSES; i++) {
        sum += isnan(look->share[i]) ? 0 : look->share[i];
    }
    json_join(path, sizeof path, "looks.rows", look->id);
    return fabs(sum - 1) < 1e-9 ? ERR_OK
                                : json_fail(doc, ERR_CONFIG, path, e, "the shares sum to %g; they must sum to 1", sum);
}

enum err_code params_read_starter(const struct json_doc *doc, struct arena *a, struct params *p, struct err *e)
{
    static const char *const keys[] = {"about", "looks", "clovers"};
    void *rows = NULL;
    enum err_code code = json_check_keys(doc, doc->root, "", keys, COUNT(keys), e);
    if (code == ERR_OK) {
        code = param_rows_read_inside(doc, &look_schema, &rows, &p->looks, &p->list, a, e);
        p->look = rows;
    }
    for (size_t i = 0; i < p->looks && code == ERR_OK; i++) {
        code = check_shares(doc, &p->look[i], e);
        code = code == ERR_OK && i ? check_order(doc, &p->look[i - 1], &p->look[i], e) : code;
    }
    if (code == ERR_OK) {
        code = param_rows_read_inside(doc, &clover_schema, &rows, &p->clovers, &p->list, a, e);
        p->clover = rows;
    }
    return code;
}
