/* Reads the tables of models/swards.json. SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/sward_rows.h"

#include "data/param_rows.h"

#include <assert.h>
#include <stdio.h>

#define COUNT(table) (sizeof(table) / sizeof(table)[0])
enum { PATH_SIZE = 256 };

static const struct param_column grass_columns[] = {
    {"half_sugar", offsetof(struct grass, half_sugar), "g/g", 0.01, 1, true},
    {"growth_factor", offsetof(struct grass, growth_factor), "1", 0.1, 2, true},
    {"spread_factor", offsetof(struct grass, spread_factor), "1", 1, 3, true},
    {"esc_fructan", offsetof(struct grass, esc_fructan), "1", 0, 1, true},
    {"starch_share", offsetof(struct grass, starch_share), "1", 0, 1, false},
    {"phyllochron", offsetof(struct grass, phyllochron), "C d", 20, 500, true},
};
static const struct param_column soil_columns[] = {
    {"capacity_mm", offsetof(struct soil, capacity_mm), "mm", 10, 400, true},
};
static const char *const grass_own[] = {"type"};
static const struct param_schema grass_schema = {.name = "grasses",
                                                 .row_size = sizeof(struct grass),
                                                 .id_offset = offsetof(struct grass, id),
                                                 .column = grass_columns,
                                                 .columns = COUNT(grass_columns),
                                                 .own = grass_own,
                                                 .owns = COUNT(grass_own)};
static const struct param_schema soil_schema = {.name = "soils",
                                                .row_size = sizeof(struct soil),
                                                .id_offset = offsetof(struct soil, id),
                                                .column = soil_columns,
                                                .columns = COUNT(soil_columns)};

static enum err_code read_types(const struct json_doc *doc, struct params *p, struct err *e)
{
    const char *words[SWARD_TYPES];
    const cJSON *item;
    size_t i = 0;
    for (int t = 0; t < SWARD_TYPES; t++) {
        words[t] = sward_type_name((enum sward_type)t);
    }
    cJSON_ArrayForEach(item, json_get(json_get(doc->root, "grasses"), "rows"))
    {
        char path[PATH_SIZE];
        size_t type = 0;
        json_join(path, sizeof path, "grasses.rows", item->string);
        enum err_code code = param_rows_word(doc, item, path, "type", true, words, SWARD_TYPES, &type, e);
        if (code != ERR_OK) {
            return code;
        }
        p->grass[i++].type = (enum sward_type)type;
    }
    return ERR_OK;
}

enum err_code sward_rows_read(const struct json_doc *doc, struct params *p, struct arena *a, struct err *e)
{
    void *rows = NULL;
    enum err_code code = param_rows_read_inside(doc, &grass_schema, &rows, &p->grasses, &p->list, a, e);
    p->grass = rows;
    if (code == ERR_OK) {
        code = read_types(doc, p, e);
    }
    if (code == ERR_OK) {
        code = param_rows_read_inside(doc, &soil_schema, &rows, &p->soils, &p->list, a, e);
        p->soil = rows;
    }
    return code;
}

struct knots { /* what reading a curve needs */
    const struct json_doc *doc;
    struct param_list *list;
    struct arena *arena;
    struct err *e;
};

static enum err_code read_knots(const struct knots *r, const cJSON *array, const char *path, double low, double high,
                                double knot[CURVE_KNOTS], size_t *n)
{
    const cJSON *item;
    size_t count = 0;
    if (!cJSON_IsArray(array) || cJSON_GetArraySize(array) < 2 || cJSON_GetArraySize(array) > CURVE_KNOTS) {
        return json_fail(r->doc, ERR_CONFIG, path, r->e, "must be an array of 2 to %d numbers", CURVE_KNOTS);
    }
    cJSON_ArrayForEach(item, array)
    {
        if (!cJSON_IsNumber(item) || !(item->valuedouble >= low && item->valuedouble <= high)) {
            return json_fail(r->doc, ERR_CONFIG, path, r->e, "every number must lie in %g to %g", low, high);
        }
        knot[count++] = item->valuedouble;
        assert(count <= CURVE_KNOTS);
    }
    *n = count;
    return ERR_OK;
}

static enum err_code list_knots(const struct knots *r, const cJSON *object, const char *path, const struct curve *c)
{
    assert(c->n >= 2 && c->n <= CURVE_KNOTS);
    struct param_entry entry = {.low = 0, .high = 1, .unit = "1"};
    enum err_code code = param_table_unit(r->doc, object, path, "C", r->e);
    code = code == ERR_OK ? param_rows_origin(r->doc, object, path, &entry, r->arena, r->e) : code;
    for (size_t i = 0; i < c->n && code == ERR_OK; i++) {
        char at[PATH_SIZE + 32];
        snprintf(at, sizeof at, "%s.%g", path, c->x[i]);
        entry.value = c->y[i];
        entry.path = arena_strdup(r->arena, at);
        if (!entry.path || !param_list_add(r->list, r->arena, entry)) {
            code = err_set(r->e, ERR_NOMEM, "out of memory while reading the parameters");
        }
    }
    return code;
}

enum err_code sward_curve_read(const struct json_doc *doc, const cJSON *object, const char *path, const char *key,
                               struct curve *curve, struct param_list *list, struct arena *a, struct err *e)
{
    static const char *const keys[] = {"x", "y", "unit", "source", "evidence"};
    const struct knots r = {.doc = doc, .list = list, .arena = a, .e = e};
    const cJSON *item = json_get(object, key);
    char at[PATH_SIZE];
    size_t ys = 0;
    json_join(at, sizeof at, path, key);
    if (!item) {
        return json_fail(doc, ERR_CONFIG, path, e, "the curve \"%s\" is missing", key);
    }
    enum err_code code = json_check_keys(doc, item, at, keys, COUNT(keys), e);
    code = code == ERR_OK ? read_knots(&r, json_get(item, "x"), at, -40, 60, curve->x, &curve->n) : code;
    code = code == ERR_OK ? read_knots(&r, json_get(item, "y"), at, 0, 1, curve->y, &ys) : code;
    if (code != ERR_OK) {
        return code;
    }
    bool rising = ys == curve->n;
    for (size_t i = 0; i + 1 < curve->n && rising; i++) {
        rising = curve->x[i] < curve->x[i + 1];
    }
    return rising ? list_knots(&r, item, at, curve)
                  : json_fail(doc, ERR_CONFIG, at, e, "x must rise and have as many numbers as y");
}
