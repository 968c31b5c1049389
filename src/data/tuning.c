/* tuning.json in and out. SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/tuning.h"

#include "base/file.h"
#include "base/json.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#define VERSION 1
#define THETA_MOST 2.303 /* ln 10: what models/tune-limits.json can allow */
#define SD_LEAST 0.0
#define SD_MOST 2.0
#define TESTS_MOST 100000
#define DECIMALS 6

static enum err_code read_row(const struct json_doc *doc, const cJSON *object, size_t i, struct tuning_file *f,
                              struct err *e)
{
    assert(i < f->n);
    static const char *const known[] = {"id", "theta", "sd", "tests", "date"};
    struct tuning_row *row = &f->row[i];
    struct tuning *t = &row->tuned;
    const char *id = NULL, *date = NULL;
    char path[64];
    double tests = 0.0;
    snprintf(path, sizeof path, "paddocks[%zu]", i);
    enum err_code code = json_check_keys(doc, object, path, known, sizeof known / sizeof known[0], e);
    code = code ? code : json_read_string(doc, object, path, "id", true, LIMIT_NAME - 1, &id, e);
    code = code ? code : json_read_number(doc, object, path, "theta", true, -THETA_MOST, THETA_MOST, &t->theta, e);
    code = code ? code : json_read_number(doc, object, path, "sd", true, SD_LEAST, SD_MOST, &t->sd, e);
    code = code ? code : json_read_number(doc, object, path, "tests", true, 1, TESTS_MOST, &tests, e);
    code = code ? code : json_read_string(doc, object, path, "date", true, LIMIT_NAME, &date, e);
    if (code != ERR_OK) {
        return code;
    }
    snprintf(row->id, sizeof row->id, "%s", id);
    t->tests = (int)tests;
    t->date = date_parse_iso(date, strlen(date));
    if (tests != floor(tests)) {
        return json_fail(doc, ERR_CONFIG, path, e, "\"tests\" must be a whole number");
    }
    if (t->date == DATE_NONE) {
        return json_fail(doc, ERR_CONFIG, path, e, "\"date\" must be a date of the calendar, written as 2025-05-04");
    }
    for (size_t k = 0; k < i; k++) {
        if (strcmp(f->row[k].id, row->id) == 0) {
            return json_fail(doc, ERR_CONFIG, path, e, "the paddock \"%s\" stands here twice", row->id);
        }
    }
    return ERR_OK;
}

static enum err_code read_rows(const struct json_doc *doc, struct arena *a, struct tuning_file *f, struct err *e)
{
    const cJSON *list = json_get(doc->root, "paddocks"), *object;
    enum err_code code = ERR_OK;
    size_t i = 0;
    if (!cJSON_IsArray(list)) {
        return json_fail(doc, ERR_CONFIG, "paddocks", e, "must be a list in brackets [ ]");
    }
    f->n = (size_t)cJSON_GetArraySize(list);
    if (f->n > LIMIT_PADDOCKS) {
        return json_fail(doc, ERR_CONFIG, "paddocks", e, "has %zu entries; at most %d are allowed", f->n,
                         LIMIT_PADDOCKS);
    }
    f->row = arena_alloc(a, f->n, sizeof *f->row);
    if (!f->row) {
        return err_set(e, ERR_NOMEM, "out of memory");
    }
    cJSON_ArrayForEach(object, list)
    {
        code = code ? code : read_row(doc, object, i++, f, e);
    }
    return code;
}

static enum err_code read_root(const struct json_doc *doc, struct arena *a, struct tuning_file *f, struct err *e)
{
    static const char *const known[] = {"sugarlea_tuning", "model", "paddocks"};
    const char *model = NULL;
    double version = 0.0;
    enum err_code code = json_check_keys(doc, doc->root, "", known, sizeof known / sizeof known[0], e);
    code = code ? code : json_read_number(doc, doc->root, "", "sugarlea_tuning", true, VERSION, VERSION, &version, e);
    code = code ? code : json_read_string(doc, doc->root, "", "model", true, sizeof f->model - 1, &model, e);
    if (code == ERR_OK) {
        snprintf(f->model, sizeof f->model, "%s", model);
        code = read_rows(doc, a, f, e);
    }
    return code;
}

enum err_code tuning_parse(const char *text, size_t size, const char *name, struct arena *a, struct tuning_file *f,
                           struct err *e)
{
    assert(text != NULL || size == 0);
    struct json_doc doc;
    *f = (struct tuning_file){.n = 0};
    enum err_code code = json_parse(text, size, name, &doc, e);
    if (code == ERR_DATA) {
        code = e->code = ERR_CONFIG;
    }
    if (code != ERR_OK) {
        return code;
    }
    code = read_root(&doc, a, f, e);
    json_release(&doc);
    return code;
}

enum err_code tuning_load(const char *path, struct arena *a, struct tuning_file *f, struct err *e)
{
    struct file_view view;
    enum err_code code = file_view(path, LIMIT_JSON_BYTES, &view, e);
    if (code != ERR_OK) {
        return code;
    }
    code = tuning_parse(view.data, view.size, path, a, f, e);
    file_unview(&view);
    return code;
}

void tuning_print(const struct tuning_file *f, struct buf *b)
{
    assert(f->row != NULL || f->n == 0);
    char date[DATE_TEXT];
    buf_addf(b, "{\n  \"sugarlea_tuning\": %d,\n  \"model\": ", VERSION);
    buf_add_json_string(b, f->model);
    buf_add(b, ",\n  \"paddocks\": [");
    for (size_t i = 0; i < f->n; i++) {
        const struct tuning *t = &f->row[i].tuned;
        buf_add(b, i ? ",\n    { \"id\": " : "\n    { \"id\": ");
        buf_add_json_string(b, f->row[i].id);
        buf_add(b, ", \"theta\": ");
        buf_add_number(b, t->theta, DECIMALS);
        buf_add(b, ", \"sd\": ");
        buf_add_number(b, t->sd, DECIMALS);
        buf_addf(b, ", \"tests\": %d, \"date\": \"%s\" }", t->tests, date_format(t->date, date));
    }
    buf_add(b, f->n ? "\n  ]\n}\n" : "]\n}\n");
}
