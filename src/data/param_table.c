/* Reads scalar parameters through a table, and keeps the list of all of them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/param_table.h"

#include "base/limits.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

enum { ROWS_MOST = 128, LIST_FIRST = 64 };

bool param_list_add(struct param_list *list, struct arena *a, struct param_entry entry)
{
    assert(list->n <= list->capacity);
    if (list->n == list->capacity) {
        size_t capacity = list->capacity ? 2 * list->capacity : LIST_FIRST;
        struct param_entry *grown = arena_alloc(a, capacity, sizeof *grown);
        if (!grown) {
            return false;
        }
        if (list->n > 0) {
            memcpy(grown, list->entry, list->n * sizeof *grown);
        }
        list->entry = grown;
        list->capacity = capacity;
    }
    list->entry[list->n++] = entry;
    return true;
}

enum err_code param_table_unit(const struct json_doc *doc, const cJSON *object, const char *path, const char *expected,
                               struct err *e)
{
    const char *unit = "";
    enum err_code code = json_read_string(doc, object, path, "unit", true, LIMIT_NAME - 1, &unit, e);
    if (code == ERR_OK && strcmp(unit, expected) != 0) {
        char at[sizeof e->field];
        json_join(at, sizeof at, path, "unit");
        return json_fail(doc, ERR_CONFIG, at, e, "unit \"%s\" is not the one the program reckons in, \"%s\"", unit,
                         expected);
    }
    return code;
}

enum err_code param_table_range(const struct json_doc *doc, const cJSON *object, const char *path, double low,
                                double high, struct param_entry *entry, struct err *e)
{
    assert(low <= high);
    enum err_code code = json_read_number(doc, object, path, "low", true, low, high, &entry->low, e);
    if (code == ERR_OK) {
        code = json_read_number(doc, object, path, "high", true, low, high, &entry->high, e);
    }
    if (code == ERR_OK && entry->low > entry->high) {
        return json_fail(doc, ERR_CONFIG, path, e, "low %g is above high %g", entry->low, entry->high);
    }
    return code;
}

static enum err_code read_words(const struct json_doc *doc, const cJSON *object, const char *path,
                                struct param_entry *entry, struct err *e)
{
    enum err_code code = json_read_string(doc, object, path, "source", true, LIMIT_TEXT - 1, &entry->source, e);
    if (code == ERR_OK) {
        code = json_read_string(doc, object, path, "evidence", true, LIMIT_TEXT - 1, &entry->evidence, e);
    }
    if (code == ERR_OK && entry->evidence[0] == '\0') {
        return json_fail(doc, ERR_CONFIG, path, e, "evidence is empty; say where the number comes from");
    }
    return code;
}

/* One {value, unit, low, high, source, evidence}; the words still point into the document. */
static enum err_code read_entry(const struct json_doc *doc, const cJSON *object, const char *path,
                                const struct param_row *row, struct param_entry *entry, struct err *e)
{
    static const char *const keys[] = {"value", "unit", "low", "high", "source", "evidence"};
    enum err_code code = json_check_keys(doc, object, path, keys, sizeof keys / sizeof keys[0], e);
    if (code == ERR_OK) {
        code = param_table_unit(doc, object, path, row->unit, e);
    }
    if (code == ERR_OK) {
        code = param_table_range(doc, object, path, row->low, row->high, entry, e);
    }
    if (code == ERR_OK) {
        code = json_read_number(doc, object, path, "value", true, entry->low, entry->high, &entry->value, e);
    }
    return code == ERR_OK ? read_words(doc, object, path, entry, e) : code;
}

/* Copies what points into the document and lists the entry. */
static bool keep_entry(struct param_list *list, struct arena *a, const char *path, const char *unit,
                       struct param_entry entry)
{
    assert(entry.low <= entry.value && entry.value <= entry.high);
    entry.path = arena_strdup(a, path);
    entry.source = arena_strdup(a, entry.source);
    entry.evidence = arena_strdup(a, entry.evidence);
    entry.unit = unit;
    return entry.path && entry.source && entry.evidence && param_list_add(list, a, entry);
}

static enum err_code check_names(const struct json_doc *doc, const cJSON *object, const char *path,
                                 const struct param_row *table, size_t rows, struct err *e)
{
    assert(rows > 0 && rows <= ROWS_MOST);
    const char *known[ROWS_MOST] = {NULL};
    for (size_t i = 0; i < rows; i++) {
        known[i] = table[i].key;
    }
    return json_check_keys(doc, object, path, known, rows, e);
}

enum err_code param_table_read(const struct json_doc *doc, const cJSON *object, const char *path,
                               const struct param_row *table, size_t rows, void *target, struct param_list *list,
                               struct arena *a, struct err *e)
{
    enum err_code code = check_names(doc, object, path, table, rows, e);
    for (size_t i = 0; i < rows && code == ERR_OK; i++) {
        char at[sizeof e->field];
        const cJSON *item = json_get(object, table[i].key);
        struct param_entry entry = {0};
        assert(table[i].low <= table[i].high);
        json_join(at, sizeof at, path, table[i].key);
        if (!item) {
            return json_fail(doc, ERR_CONFIG, path, e, "the entry \"%s\" is missing", table[i].key);
        }
        code = read_entry(doc, item, at, &table[i], &entry, e);
        if (code == ERR_OK) {
            memcpy((char *)target + table[i].offset, &entry.value, sizeof entry.value);
            if (!keep_entry(list, a, at, table[i].unit, entry)) {
                return err_set(e, ERR_NOMEM, "out of memory while reading the parameters");
            }
        }
    }
    return code;
}
