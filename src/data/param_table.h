/* Scalar parameters of a model file: a C table maps each path to a field, a unit
 * and a range; the file gives {value, unit, low, high, source, evidence}.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_PARAM_TABLE_H
#define SUGARLEA_PARAM_TABLE_H

#include "base/arena.h"
#include "base/json.h"

#include <stddef.h>

struct param_row {
    const char *key;  /* name inside the object */
    size_t offset;    /* of the double in the target struct */
    const char *unit; /* must be the file's unit */
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

/* Reads every row of table from object (at `path` in the document) into target,
 * and lists it. Unknown, missing or out-of-range entries, a wrong unit, or
 * value outside its own low..high are ERR_CONFIG with file and path. */
enum err_code param_table_read(const struct json_doc *doc, const cJSON *object, const char *path,
                               const struct param_row *table, size_t rows, void *target, struct param_list *list,
                               struct arena *a, struct err *e);

#endif
