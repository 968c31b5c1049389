/* Reads the tables of the model files through a schema.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/param_rows.h"

#include "base/limits.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

enum {
    KEYS_MOST = 48,
    PATH_SIZE = 2 * LIMIT_NAME + 16 /* "table.id", and ids are short */,
    CELL_SIZE = PATH_SIZE + LIMIT_NAME
};

struct reader { /* what every step below needs */
    const struct json_doc *doc;
    const struct param_schema *schema;
    const char *columns_path, *rows_path; /* where the two parts of the table stand */
    struct param_entry range[KEYS_MOST];  /* low and high of each column, as the file gives them */
    struct param_list *list;
    struct arena *arena;
    struct err *e;
};

static enum err_code out_of_memory(struct err *e)
{
    return err_set(e, ERR_NOMEM, "out of memory while reading the parameters");
}

static enum err_code check_root(const struct reader *r)
{
    const char *known[] = {"about", "columns", r->schema->name, r->schema->root_own};
    return json_check_keys(r->doc, r->doc->root, "", known, r->schema->root_own ? 4 : 3, r->e);
}

/* The file's declaration of every column: unit and range. */
static enum err_code read_columns(struct reader *r, const cJSON *columns)
{
    assert(r->schema->columns + r->schema->texts + r->schema->flags + r->schema->owns + 2 <= KEYS_MOST);
    static const char *const keys[] = {"unit", "low", "high"};
    const struct param_schema *s = r->schema;
    const char *known[KEYS_MOST];
    for (size_t i = 0; i < s->columns; i++) {
        known[i] = s->column[i].key;
    }
    enum err_code code = json_check_keys(r->doc, columns, r->columns_path, known, s->columns, r->e);
    for (size_t i = 0; i < s->columns && code == ERR_OK; i++) {
        const struct param_column *c = &s->column[i];
        const cJSON *item = json_get(columns, c->key);
        char path[PATH_SIZE];
        json_join(path, sizeof path, r->columns_path, c->key);
        if (!item) {
            return json_fail(r->doc, ERR_CONFIG, r->columns_path, r->e, "the column \"%s\" is missing", c->key);
        }
        code = json_check_keys(r->doc, item, path, keys, sizeof keys / sizeof keys[0], r->e);
        if (code == ERR_OK) {
            code = param_table_unit(r->doc, item, path, c->unit, r->e);
        }
        if (code == ERR_OK) {
            code = param_table_range(r->doc, item, path, c->low, c->high, &r->range[i], r->e);
        }
    }
    return code;
}

static enum err_code check_row_keys(const struct reader *r, const cJSON *item, const char *path)
{
    const struct param_schema *s = r->schema;
    const char *known[KEYS_MOST] = {"source", "evidence"};
    size_t n = 2;
    for (size_t i = 0; i < s->columns; i++) {
        known[n++] = s->column[i].key;
    }
    for (size_t i = 0; i < s->texts; i++) {
        known[n++] = s->text[i].key;
    }
    for (size_t i = 0; i < s->flags; i++) {
        known[n++] = s->flag[i].key;
    }
    for (size_t i = 0; i < s->owns; i++) {
        known[n++] = s->own[i];
    }
    assert(n <= KEYS_MOST);
    return json_check_keys(r->doc, item, path, known, n, r->e);
}

static enum err_code read_words(const struct reader *r, const cJSON *item, const char *path, char *row)
{
    const struct param_schema *s = r->schema;
    for (size_t i = 0; i < s->texts; i++) {
        const struct param_text *t = &s->text[i];
        assert(t->offset + t->size <= s->row_size);
        const char *words = "";
        enum err_code code = json_read_string(r->doc, item, path, t->key, t->required, t->size - 1, &words, r->e);
        if (code != ERR_OK) {
            return code;
        }
        memcpy(row + t->offset, words, strlen(words) + 1);
    }
    for (size_t i = 0; i < s->flags; i++) {
        const cJSON *flag = json_get(item, s->flag[i].key);
        bool yes = cJSON_IsTrue(flag);
        if (!cJSON_IsBool(flag)) {
            char at[CELL_SIZE];
            json_join(at, sizeof at, path, s->flag[i].key);
            return json_fail(r->doc, ERR_CONFIG, at, r->e, "must be given, true or false");
        }
        memcpy(row + s->flag[i].offset, &yes, sizeof yes);
    }
    return ERR_OK;
}

enum err_code param_rows_origin(const struct json_doc *doc, const cJSON *item, const char *path,
                                struct param_entry *origin, struct arena *a, struct err *e)
{
    const char *source = "", *evidence = "";
    enum err_code code = json_read_string(doc, item, path, "source", true, LIMIT_TEXT - 1, &source, e);
    if (code == ERR_OK) {
        code = json_read_string(doc, item, path, "evidence", true, LIMIT_TEXT - 1, &evidence, e);
    }
    if (code != ERR_OK) {
        return code;
    }
    if (evidence[0] == '\0') {
        return json_fail(doc, ERR_CONFIG, path, e, "evidence is empty; say where the numbers come from");
    }
    origin->source = arena_strdup(a, source);
    origin->evidence = arena_strdup(a, evidence);
    return origin->source && origin->evidence ? ERR_OK : out_of_memory(e);
}

static enum err_code read_cell(const struct reader *r, const cJSON *item, const char *path, size_t i,
                               const struct param_entry *origin, char *row)
{
    assert(i < r->schema->columns);
    assert(r->schema->column[i].offset + sizeof(double) <= r->schema->row_size);
    const struct param_column *c = &r->schema->column[i];
    struct param_entry entry = {.value = NAN,
                                .low = r->range[i].low,
                                .high = r->range[i].high,
                                .unit = c->unit,
                                .source = origin->source,
                                .evidence = origin->evidence};
    enum err_code code =
        json_read_number(r->doc, item, path, c->key, c->required, entry.low, entry.high, &entry.value, r->e);
    memcpy(row + c->offset, &entry.value, sizeof entry.value);
    if (code != ERR_OK || isnan(entry.value)) {
        return code;
    }
    char at[CELL_SIZE];
    json_join(at, sizeof at, path, c->key);
    entry.path = arena_strdup(r->arena, at);
    return entry.path && param_list_add(r->list, r->arena, entry) ? ERR_OK : out_of_memory(r->e);
}

static enum err_code read_row(const struct reader *r, const cJSON *item, char *row)
{
    assert(item->string != NULL);
    struct param_entry origin = {0};
    char path[PATH_SIZE];
    size_t length = strlen(item->string);
    json_join(path, sizeof path, r->rows_path, item->string);
    if (length == 0 || length >= LIMIT_NAME ||
        strspn(item->string, "abcdefghijklmnopqrstuvwxyz0123456789-") != length) {
        return json_fail(r->doc, ERR_CONFIG, path, r->e, "an id is made of a-z, 0-9 and hyphens, at most %d of them",
                         LIMIT_NAME - 1);
    }
    memcpy(row + r->schema->id_offset, item->string, length + 1);
    enum err_code code = check_row_keys(r, item, path);
    if (code == ERR_OK) {
        code = param_rows_origin(r->doc, item, path, &origin, r->arena, r->e);
    }
    if (code == ERR_OK) {
        code = read_words(r, item, path, row);
    }
    for (size_t i = 0; i < r->schema->columns && code == ERR_OK; i++) {
        code = read_cell(r, item, path, i, &origin, row);
    }
    return code;
}

static enum err_code read_table(struct reader *r, const cJSON *columns, const cJSON *table, void **rows, size_t *n)
{
    const cJSON *item;
    enum err_code code = read_columns(r, columns);
    if (code != ERR_OK) {
        return code;
    }
    if (!cJSON_IsObject(table) || !table->child) {
        return json_fail(r->doc, ERR_CONFIG, r->rows_path, r->e, "must be an object with at least one row");
    }
    *n = (size_t)cJSON_GetArraySize(table);
    char *row = arena_alloc(r->arena, *n, r->schema->row_size);
    if (!row) {
        return out_of_memory(r->e);
    }
    *rows = row;
    cJSON_ArrayForEach(item, table)
    {
        code = read_row(r, item, row);
        if (code != ERR_OK) {
            return code;
        }
        row += r->schema->row_size;
    }
    return ERR_OK;
}

enum err_code param_rows_read(const struct json_doc *doc, const struct param_schema *schema, void **rows, size_t *n,
                              struct param_list *list, struct arena *a, struct err *e)
{
    struct reader r = {.doc = doc,
                       .schema = schema,
                       .columns_path = "columns",
                       .rows_path = schema->name,
                       .list = list,
                       .arena = a,
                       .e = e};
    enum err_code code = check_root(&r);
    return code == ERR_OK ? read_table(&r, json_get(doc->root, "columns"), json_get(doc->root, schema->name), rows, n)
                          : code;
}

enum err_code param_rows_read_inside(const struct json_doc *doc, const struct param_schema *schema, void **rows,
                                     size_t *n, struct param_list *list, struct arena *a, struct err *e)
{
    static const char *const keys[] = {"columns", "rows"};
    const cJSON *object = json_get(doc->root, schema->name);
    char columns_path[PATH_SIZE], rows_path[PATH_SIZE];
    json_join(columns_path, sizeof columns_path, schema->name, "columns");
    json_join(rows_path, sizeof rows_path, schema->name, "rows");
    struct reader r = {.doc = doc,
                       .schema = schema,
                       .columns_path = columns_path,
                       .rows_path = rows_path,
                       .list = list,
                       .arena = a,
                       .e = e};
    enum err_code code = json_check_keys(doc, object, schema->name, keys, sizeof keys / sizeof keys[0], e);
    return code == ERR_OK ? read_table(&r, json_get(object, "columns"), json_get(object, "rows"), rows, n) : code;
}

enum err_code param_rows_word(const struct json_doc *doc, const cJSON *object, const char *path, const char *key,
                              bool required, const char *const *words, size_t n, size_t *index, struct err *e)
{
    assert(n > 0);
    const char *word = NULL;
    enum err_code code = json_read_string(doc, object, path, key, required, LIMIT_NAME - 1, &word, e);
    if (code != ERR_OK || !word) {
        return code;
    }
    for (size_t i = 0; i < n; i++) {
        if (strcmp(word, words[i]) == 0) {
            *index = i;
            return ERR_OK;
        }
    }
    char at[CELL_SIZE], all[256] = "";
    for (size_t i = 0; i < n; i++) {
        size_t used = strlen(all);
        snprintf(all + used, sizeof all - used, "%s%s", i ? ", " : "", words[i]);
    }
    const char *near = err_did_you_mean(word, words, n);
    json_join(at, sizeof at, path, key);
    return json_fail(doc, ERR_CONFIG, at, e, "\"%s\" is not known%s%s%s; allowed: %s", word,
                     near ? "; did you mean \"" : "", near ? near : "", near ? "\"?" : "", all);
}
