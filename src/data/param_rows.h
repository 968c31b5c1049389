/* Tables of a model file, one row a thing (a class, a feed, a kind of loss):
 *
 *   { "about": [...],
 *     "columns": { "weight_kg": { "unit": "kg", "low": 5, "high": 1500 }, ... },
 *     "animals": { "pony": { "weight_kg": 250, ..., "source": "...", "evidence": "..." }, ... } }
 *
 * Unit and range of a column stand once, source and evidence once a row: a value
 * each would bury the table. A schema says where each cell goes in a struct.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_PARAM_ROWS_H
#define SUGARLEA_PARAM_ROWS_H

#include "data/param_table.h"

#include <stdbool.h>
#include <stddef.h>

struct param_column { /* a number; a cell left out is NaN unless it is required */
    const char *key;
    size_t offset;    /* of the double in the row's struct */
    const char *unit; /* must be the file's; static */
    double low, high; /* hard range, within which the file's own range lies */
    bool required;
};

struct param_text { /* a text of at most size - 1 bytes; left out: "" */
    const char *key;
    size_t offset, size;
    bool required;
};

struct param_flag { /* true or false, always required */
    const char *key;
    size_t offset; /* of the bool */
};

struct param_schema {
    const char *name;           /* key of the table in the file's root, and first part of listed paths */
    size_t row_size, id_offset; /* the id is a char[LIMIT_NAME] */
    const struct param_column *column;
    const struct param_text *text;
    const struct param_flag *flag;
    size_t columns, texts, flags;
    const char *const *own; /* further keys of a row that the caller reads itself */
    size_t owns;
    const char *root_own; /* one further key of the root that the caller reads itself, or NULL */
};

/* Reads the whole table into *rows (n structs of row_size, in file order, in the
 * arena) and lists every number as "name.id.key". Unknown, missing, wrongly typed
 * or out-of-range entries and ids that are not lower-case words with hyphens are
 * ERR_CONFIG with file, line, column and path. */
enum err_code param_rows_read(const struct json_doc *doc, const struct param_schema *schema, void **rows, size_t *n,
                              struct param_list *list, struct arena *a, struct err *e);

/* The same for a file of several tables: root[name] = {"columns": {...}, "rows": {...}};
 * listed as "name.rows.id.key". root_own is not looked at. */
enum err_code param_rows_read_inside(const struct json_doc *doc, const struct param_schema *schema, void **rows,
                                     size_t *n, struct param_list *list, struct arena *a, struct err *e);

/* "source" and "evidence" of the object at path into *origin, copied into the arena;
 * both must be there, and evidence must say something. ERR_CONFIG. */
enum err_code param_rows_origin(const struct json_doc *doc, const cJSON *item, const char *path,
                                struct param_entry *origin, struct arena *a, struct err *e);

/* The index of word among n words, in row[key] of the object at path; did-you-mean
 * when it is none of them. Left as it is when absent and not required. ERR_CONFIG. */
enum err_code param_rows_word(const struct json_doc *doc, const cJSON *object, const char *path, const char *key,
                              bool required, const char *const *words, size_t n, size_t *index, struct err *e);

#endif
