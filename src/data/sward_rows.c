/* Reads the tables of models/swards.json. SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/sward_rows.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define COUNT(table) (sizeof(table) / sizeof(table)[0])
enum { COLUMNS_MOST = 8, PATH_SIZE = 256 };

struct column {
    const char *key;
    size_t offset; /* of the double in the row's struct */
    const char *unit;
    double low, high; /* hard range */
    bool may_lack;    /* a cell left out is NaN */
};

struct table {
    const char *name;
    size_t row_size, id_offset;
    const struct column *column;
    size_t columns;
    bool typed; /* rows have a "type" */
};

static const struct column grass_columns[] = {
    {"half_sugar", offsetof(struct grass, half_sugar), "g/g", 0.01, 1, false},
    {"growth_factor", offsetof(struct grass, growth_factor), "1", 0.1, 2, false},
    {"spread_factor", offsetof(struct grass, spread_factor), "1", 1, 3, false},
    {"esc_fructan", offsetof(struct grass, esc_fructan), "1", 0, 1, false},
    {"starch_share", offsetof(struct grass, starch_share), "1", 0, 1, true},
    {"phyllochron", offsetof(struct grass, phyllochron), "C d", 20, 500, false},
};
static const struct column soil_columns[] = {
    {"capacity_mm", offsetof(struct soil, capacity_mm), "mm", 10, 400, false},
};
static const struct table grass_table = {"grasses",     sizeof(struct grass), offsetof(struct grass, id),
                                         grass_columns, COUNT(grass_columns), true};
static const struct table soil_table = {"soils",      sizeof(struct soil), offsetof(struct soil, id),
                                        soil_columns, COUNT(soil_columns), false};

struct reader {
    const struct json_doc *doc;
    const struct table *table;
    struct param_entry range[COLUMNS_MOST]; /* low and high of each column, as the file gives them */
    struct param_list *list;
    struct arena *arena;
    struct err *e;
};

static enum err_code out_of_memory(struct err *e)
{
    return err_set(e, ERR_NOMEM, "out of memory while reading the parameters");
}

static enum err_code read_columns(struct reader *r, const cJSON *columns, const char *path)
{
    static const char *const keys[] = {"unit", "low", "high"};
    const char *known[COLUMNS_MOST];
    for (size_t i = 0; i < r->table->columns; i++) {
        known[i] = r->table->column[i].key;
    }
    enum err_code code = json_check_keys(r->doc, columns, path, known, r->table->columns, r->e);
    for (size_t i = 0; i < r->table->columns && code == ERR_OK; i++) {
        const struct column *c = &r->table->column[i];
        const cJSON *item = json_get(columns, c->key);
        char at[2 * PATH_SIZE];
        snprintf(at, sizeof at, "%s.%s", path, c->key);
        if (!item) {
            return json_fail(r->doc, ERR_CONFIG, path, r->e, "the column \"%s\" is missing", c->key);
        }
        code = json_check_keys(r->doc, item, at, keys, COUNT(keys), r->e);
        code = code == ERR_OK ? param_table_unit(r->doc, item, at, c->unit, r->e) : code;
        code = code == ERR_OK ? param_table_range(r->doc, item, at, c->low, c->high, &r->range[i], r->e) : code;
    }
    return code;
}

/* Source and evidence, copied into the arena. */
static enum err_code read_origin(const struct reader *r, const cJSON *item, const char *path,
                                 struct param_entry *origin)
{
    const char *source = "", *evidence = "";
    enum err_code code = json_read_string(r->doc, item, path, "source", true, LIMIT_TEXT - 1, &source, r->e);
    code =
        code == ERR_OK ? json_read_string(r->doc, item, path, "evidence", true, LIMIT_TEXT - 1, &evidence, r->e) : code;
    if (code != ERR_OK) {
        return code;
    }
    if (evidence[0] == '\0') {
        return json_fail(r->doc, ERR_CONFIG, path, r->e, "evidence is empty; say where the numbers come from");
    }
    origin->source = arena_strdup(r->arena, source);
    origin->evidence = arena_strdup(r->arena, evidence);
    return origin->source && origin->evidence ? ERR_OK : out_of_memory(r->e);
}

static enum err_code list_value(const struct reader *r, const char *path, const char *key, struct param_entry entry)
{
    char at[2 * PATH_SIZE];
    snprintf(at, sizeof at, "%s.%s", path, key);
    entry.path = arena_strdup(r->arena, at);
    return entry.path && param_list_add(r->list, r->arena, entry) ? ERR_OK : out_of_memory(r->e);
}

static enum err_code read_type(const struct reader *r, const cJSON *item, const char *path, struct grass *g)
{
    const char *word = "";
    enum err_code code = json_read_string(r->doc, item, path, "type", true, LIMIT_NAME - 1, &word, r->e);
    for (int t = 0; code == ERR_OK && t < SWARD_TYPES; t++) {
        if (strcmp(word, sward_type_name((enum sward_type)t)) == 0) {
            g->type = (enum sward_type)t;
            return ERR_OK;
        }
    }
    char at[PATH_SIZE + 8];
    snprintf(at, sizeof at, "%s.type", path);
    return code == ERR_OK ? json_fail(r->doc, ERR_CONFIG, at, r->e,
                                      "type \"%s\" is not one of cool-season, warm-season, legume", word)
                          : code;
}

static enum err_code read_cells(const struct reader *r, const cJSON *item, const char *path, char *row)
{
    struct param_entry entry = {0};
    enum err_code code = read_origin(r, item, path, &entry);
    for (size_t i = 0; i < r->table->columns && code == ERR_OK; i++) {
        const struct column *c = &r->table->column[i];
        entry.value = NAN;
        entry.low = r->range[i].low;
        entry.high = r->range[i].high;
        entry.unit = c->unit;
        code = json_read_number(r->doc, item, path, c->key, !c->may_lack, entry.low, entry.high, &entry.value, r->e);
        memcpy(row + c->offset, &entry.value, sizeof entry.value);
        if (code == ERR_OK && !isnan(entry.value)) {
            code = list_value(r, path, c->key, entry);
        }
    }
    return code;
}

static enum err_code read_row(const struct reader *r, const cJSON *item, char *row)
{
    const char *known[COLUMNS_MOST + 3] = {"source", "evidence"};
    size_t n = 2, length = strlen(item->string);
    char path[PATH_SIZE];
    snprintf(path, sizeof path, "%s.rows.%.*s", r->table->name, LIMIT_NAME, item->string);
    if (length == 0 || length >= LIMIT_NAME ||
        strspn(item->string, "abcdefghijklmnopqrstuvwxyz0123456789-") != length) {
        return json_fail(r->doc, ERR_CONFIG, path, r->e, "an id is made of a-z, 0-9 and hyphens, at most %d of them",
                         LIMIT_NAME - 1);
    }
    memcpy(row + r->table->id_offset, item->string, length + 1);
    for (size_t i = 0; i < r->table->columns; i++) {
        known[n++] = r->table->column[i].key;
    }
    if (r->table->typed) {
        known[n++] = "type";
    }
    enum err_code code = json_check_keys(r->doc, item, path, known, n, r->e);
    if (code == ERR_OK && r->table->typed) {
        code = read_type(r, item, path, (struct grass *)(void *)row);
    }
    return code == ERR_OK ? read_cells(r, item, path, row) : code;
}

static enum err_code read_table(struct reader *r, void **rows, size_t *n)
{
    static const char *const keys[] = {"columns", "rows"};
    const char *name = r->table->name;
    const cJSON *object = json_get(r->doc->root, name), *table = json_get(object, "rows"), *item;
    char at[PATH_SIZE];
    enum err_code code = json_check_keys(r->doc, object, name, keys, COUNT(keys), r->e);
    snprintf(at, sizeof at, "%s.columns", name);
    code = code == ERR_OK ? read_columns(r, json_get(object, "columns"), at) : code;
    if (code != ERR_OK) {
        return code;
    }
    if (!cJSON_IsObject(table) || !table->child) {
        return json_fail(r->doc, ERR_CONFIG, name, r->e, "\"rows\" must be an object with at least one row");
    }
    *n = (size_t)cJSON_GetArraySize(table);
    char *row = arena_alloc(r->arena, *n, r->table->row_size);
    if (!row) {
        return out_of_memory(r->e);
    }
    *rows = row;
    cJSON_ArrayForEach(item, table)
    {
        code = read_row(r, item, row);
        if (code != ERR_OK) {
            break;
        }
        row += r->table->row_size;
    }
    return code;
}

enum err_code sward_rows_read(const struct json_doc *doc, struct params *p, struct arena *a, struct err *e)
{
    struct reader r = {.doc = doc, .table = &grass_table, .list = &p->list, .arena = a, .e = e};
    void *rows = NULL;
    enum err_code code = read_table(&r, &rows, &p->grasses);
    p->grass = rows;
    if (code == ERR_OK) {
        r.table = &soil_table;
        code = read_table(&r, &rows, &p->soils);
        p->soil = rows;
    }
    return code;
}

static enum err_code read_knots(const struct reader *r, const cJSON *array, const char *path, double low, double high,
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
    }
    *n = count;
    return ERR_OK;
}

static enum err_code list_knots(const struct reader *r, const cJSON *object, const char *path, const struct curve *c)
{
    struct param_entry entry = {.low = 0, .high = 1, .unit = ""};
    enum err_code code = param_table_unit(r->doc, object, path, "C", r->e);
    code = code == ERR_OK ? read_origin(r, object, path, &entry) : code;
    for (size_t i = 0; i < c->n && code == ERR_OK; i++) {
        char key[32];
        snprintf(key, sizeof key, "%g", c->x[i]);
        entry.value = c->y[i];
        code = list_value(r, path, key, entry);
    }
    return code;
}

enum err_code sward_curve_read(const struct json_doc *doc, const cJSON *object, const char *path, const char *key,
                               struct curve *curve, struct param_list *list, struct arena *a, struct err *e)
{
    static const char *const keys[] = {"x", "y", "unit", "source", "evidence"};
    const struct reader r = {.doc = doc, .list = list, .arena = a, .e = e};
    const cJSON *item = json_get(object, key);
    char at[PATH_SIZE];
    size_t ys = 0;
    snprintf(at, sizeof at, "%s.%s", path, key);
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
