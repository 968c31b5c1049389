/* JSON in, through cJSON, with the checks that cJSON 1.7 lacks: size, depth,
 * valid UTF-8, no duplicate keys, finite numbers, nothing after the value.
 * Look-ups are case-sensitive. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_JSON_H
#define SUGARLEA_JSON_H

#include "base/err.h"

#include <cjson/cJSON.h>
#include <stdbool.h>
#include <stddef.h>

struct json_doc {
    cJSON *root;
    const char *text; /* the caller's text, which must outlive the document */
    size_t size;
    const char *file; /* for messages; the caller's */
};

/* Parses text[0..size). On failure ERR_DATA with line and column. The caller
 * calls json_release. */
enum err_code json_parse(const char *text, size_t size, const char *file, struct json_doc *doc, struct err *e);
void json_release(struct json_doc *doc);

const cJSON *json_get(const cJSON *object, const char *key); /* NULL when absent or not an object */

/* Line and column (1-based) of the value at a path of keys and indexes such as
 * "paddocks[2].soil"; of the deepest part found when the rest is absent. */
void json_locate(const struct json_doc *doc, const char *path, size_t *line, size_t *column);

/* Fills e with a sentence placed at path (file:line:column and the path as the
 * field). Returns code. */
enum err_code json_fail(const struct json_doc *doc, enum err_code code, const char *path, struct err *e,
                        const char *format, ...) __attribute__((format(printf, 5, 6)));

/* Every key of object must be one of the n known ones, else ERR_CONFIG with the
 * place and the nearest known key. `path` is the object's own path ("" for the root). */
enum err_code json_check_keys(const struct json_doc *doc, const cJSON *object, const char *path,
                              const char *const *known, size_t n, struct err *e);

/* "path.key", or the key alone where the path is empty; cut short to size - 1 bytes. Its length. */
size_t json_join(char *whole, size_t size, const char *path, const char *key);

/* Typed readers: the value under key of object (whose path is `path`). A missing
 * key is an error when required, else *value is left as it was. ERR_CONFIG. */
enum err_code json_read_number(const struct json_doc *doc, const cJSON *object, const char *path, const char *key,
                               bool required, double low, double high, double *value, struct err *e);
/* Points into the document. Length at most `most` bytes. */
enum err_code json_read_string(const struct json_doc *doc, const cJSON *object, const char *path, const char *key,
                               bool required, size_t most, const char **value, struct err *e);

#endif
