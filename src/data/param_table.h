/* Scalar parameters of a model file: a C table maps each key to a field, a unit
 * and a range; the file gives {value, unit, low, high, source, evidence}.
 *
 * Two ranges hold: the C table's is what the program can reckon with, and the
 * file's own low..high, which must lie inside it, is what its source allows. The
 * value must lie in both. Tables with one row a thing (classes, feeds) are read by
 * param_rows.h. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_PARAM_TABLE_H
#define SUGARLEA_PARAM_TABLE_H

#include "base/arena.h"
#include "base/json.h"

#include <stddef.h>

struct param_row {
    const char *key;  /* name inside the object */
    size_t offset;    /* of the double in the target struct */
    const char *unit; /* must be the file's unit; static */
    double low, high; /* hard range: outside is an error in the file */
};

/* One parameter as the file states it, for `sugarlea params`. */
struct param_entry {
    const char *path; /* "swards.cool-season.half_sugar" */
    double value, low, high;
    const char *unit, *source, *evidence;
};

struct param_list { /* grows in the arena */
    struct param_entry *entry;
    size_t n, capacity;
};

/* False when memory is out. Strings are kept as given (arena or static). */
bool param_list_add(struct param_list *list, struct arena *a, struct param_entry entry);

/* Reads every row of table (at most 128) from object (at `path` in the document)
 * into target, and lists it under "path.key". The object holds those entries and no
 * other. Unknown, missing or out-of-range entries, a wrong unit, a value outside its
 * own low..high, or empty evidence are ERR_CONFIG with file, line, column and path.
 * Source may be "" where there is none. Text is copied into the arena. */
enum err_code param_table_read(const struct json_doc *doc, const cJSON *object, const char *path,
                               const struct param_row *table, size_t rows, void *target, struct param_list *list,
                               struct arena *a, struct err *e);

/* For readers of other shapes: object's "unit" must be `expected`; its "low" and
 * "high" go to entry, lie in low..high and in that order. ERR_CONFIG. */
enum err_code param_table_unit(const struct json_doc *doc, const cJSON *object, const char *path, const char *expected,
                               struct err *e);
enum err_code param_table_range(const struct json_doc *doc, const cJSON *object, const char *path, double low,
                                double high, struct param_entry *entry, struct err *e);

#endif
