/* Documents and typed look-ups on top of cJSON. The strict scan that runs before
 * cJSON is in json_scan.c. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/json.h"

#include "base/file.h"
#include "base/json_scan.h"
#include "base/limits.h"

#include <assert.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum err_code json_parse(const char *text, size_t size, const char *file, struct json_doc *doc, struct err *e)
{
    assert(text != NULL || size == 0);
    *doc = (struct json_doc){.text = text, .size = size, .file = file};
    if (size > LIMIT_JSON_BYTES) {
        err_set(e, ERR_DATA, "has %zu bytes; JSON of at most %llu is read", size, LIMIT_JSON_BYTES);
        return err_at(e, file, 0, 0, NULL);
    }
    size_t mark = file_mark(text, size);
    doc->text += mark;
    doc->size -= mark;
    size_t at;
    const char *fault = json_scan(doc->text, doc->size, &at);
    if (fault && fault != json_scan_no_memory) {
        size_t line, column;
        json_scan_place(doc->text, at, &line, &column);
        err_set(e, ERR_DATA, "not valid JSON: %s", fault);
        return err_at(e, file, line, column, NULL);
    }
    doc->root = fault ? NULL : cJSON_ParseWithLength(doc->text, doc->size);
    return doc->root ? ERR_OK : err_set(e, ERR_NOMEM, "out of memory while reading %s", file);
}

void json_release(struct json_doc *doc)
{
    cJSON_Delete(doc->root);
    doc->root = NULL;
}

const cJSON *json_get(const cJSON *object, const char *key)
{
    return cJSON_IsObject(object) ? cJSON_GetObjectItemCaseSensitive(object, key) : NULL;
}

void json_locate(const struct json_doc *doc, const char *path, size_t *line, size_t *column)
{
    json_scan_place(doc->text, json_scan_find(doc->text, doc->size, path), line, column);
}

static enum err_code fail_with(const struct json_doc *doc, enum err_code code, const char *path, struct err *e,
                               const char *format, va_list arguments) __attribute__((format(printf, 5, 0)));

static enum err_code fail_with(const struct json_doc *doc, enum err_code code, const char *path, struct err *e,
                               const char *format, va_list arguments)
{
    assert(code != ERR_OK);
    char what[sizeof e->what];
    size_t line, column;
    vsnprintf(what, sizeof what, format, arguments);
    json_locate(doc, path, &line, &column);
    err_set(e, code, "%s", what);
    err_at(e, doc->file, line, column, path);
    return code;
}

enum err_code json_fail(const struct json_doc *doc, enum err_code code, const char *path, struct err *e,
                        const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    fail_with(doc, code, path, e, format, arguments);
    va_end(arguments);
    return code;
}

/* By hand: models and holdings are read at every start, and snprintf was a twelfth of it. */
size_t json_join(char *whole, size_t size, const char *path, const char *key)
{
    size_t n = strnlen(path, size - 1);
    memcpy(whole, path, n);
    if (n > 0 && n < size - 1) {
        whole[n++] = '.';
    }
    size_t more = strnlen(key, size - 1 - n);
    memcpy(whole + n, key, more);
    whole[n + more] = '\0';
    return n + more;
}

/* ": a, b, c", all of them or nothing: a list cut short would mislead. */
static const char *list_of(const char *const *known, size_t n, char *text, size_t size)
{
    size_t used = 0;
    for (size_t i = 0; i < n && used < size; i++) {
        used += (size_t)snprintf(text + used, size - used, "%s%s", i ? ", " : "; allowed: ", known[i]);
    }
    if (n == 0 || used >= size) {
        text[0] = 0;
    }
    return text;
}

enum err_code json_check_keys(const struct json_doc *doc, const cJSON *object, const char *path,
                              const char *const *known, size_t n, struct err *e)
{
    const cJSON *item;
    if (!cJSON_IsObject(object)) {
        return json_fail(doc, ERR_CONFIG, path, e, "must be an object in braces { }");
    }
    cJSON_ArrayForEach(item, object)
    {
        size_t i = 0;
        while (i < n && strcmp(known[i], item->string) != 0) {
            i++;
        }
        if (i == n) {
            char whole[sizeof e->field], allowed[LIMIT_TEXT];
            const char *near = err_did_you_mean(item->string, known, n);
            json_join(whole, sizeof whole, path, item->string);
            return json_fail(doc, ERR_CONFIG, whole, e, "unknown entry%s%s%s%s", near ? "; did you mean \"" : "",
                             near ? near : "", near ? "\"?" : "", list_of(known, n, allowed, sizeof allowed));
        }
    }
    return ERR_OK;
}

/* The value under key, or NULL with *code set: an error when it is required. */
static const cJSON *find(const struct json_doc *doc, const cJSON *object, const char *path, const char *key,
                         bool required, enum err_code *code, struct err *e)
{
    const cJSON *item = json_get(object, key);
    *code = ERR_OK;
    if (!item && required) {
        *code = json_fail(doc, ERR_CONFIG, path, e, "the entry \"%s\" is missing", key);
    }
    return item;
}

/* A fault of the value under key, placed there. */
static enum err_code fail_under(const struct json_doc *doc, const char *path, const char *key, struct err *e,
                                const char *format, ...) __attribute__((format(printf, 5, 6)));

static enum err_code fail_under(const struct json_doc *doc, const char *path, const char *key, struct err *e,
                                const char *format, ...)
{
    char whole[sizeof e->field];
    va_list arguments;
    json_join(whole, sizeof whole, path, key);
    va_start(arguments, format);
    fail_with(doc, ERR_CONFIG, whole, e, format, arguments);
    va_end(arguments);
    return ERR_CONFIG;
}

enum err_code json_read_number(const struct json_doc *doc, const cJSON *object, const char *path, const char *key,
                               bool required, double low, double high, double *value, struct err *e)
{
    assert(low <= high);
    enum err_code code;
    const cJSON *item = find(doc, object, path, key, required, &code, e);
    if (!item) {
        return code;
    }
    if (!cJSON_IsNumber(item)) {
        return fail_under(doc, path, key, e, "must be a number from %g to %g, without quotes", low, high);
    }
    if (!(item->valuedouble >= low && item->valuedouble <= high)) {
        return fail_under(doc, path, key, e, "%g is out of range; %g to %g is allowed", item->valuedouble, low, high);
    }
    *value = item->valuedouble;
    return ERR_OK;
}

enum err_code json_read_string(const struct json_doc *doc, const cJSON *object, const char *path, const char *key,
                               bool required, size_t most, const char **value, struct err *e)
{
    assert(most > 0);
    enum err_code code;
    const cJSON *item = find(doc, object, path, key, required, &code, e);
    if (!item) {
        return code;
    }
    if (!cJSON_IsString(item)) {
        return fail_under(doc, path, key, e, "must be text in double quotes");
    }
    if (strlen(item->valuestring) > most) {
        return fail_under(doc, path, key, e, "is longer than the %zu bytes allowed", most);
    }
    for (const unsigned char *c = (const unsigned char *)item->valuestring; *c; c++) {
        if (*c < 0x20 || *c == 0x7f) {
            return fail_under(doc, path, key, e, "holds a line break or another control character");
        }
    }
    *value = item->valuestring;
    return ERR_OK;
}
