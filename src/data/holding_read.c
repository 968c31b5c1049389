/* Shared steps of reading a holding file. SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/holding_read.h"

#include "base/json_scan.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { KEYS_MOST = 24, NOTE_SIZE = 1024 };

enum err_code holding_keys(const struct holding_reader *r, const cJSON *object, const char *path,
                           const char *const *known, size_t n)
{
    assert(n + 1 <= KEYS_MOST);
    const char *keys[KEYS_MOST] = {"note"};
    char note[NOTE_SIZE];
    for (size_t i = 0; i < n && i + 1 < KEYS_MOST; i++) {
        keys[i + 1] = known[i];
    }
    enum err_code code = json_check_keys(r->doc, object, path, keys, n + 1, r->e);
    return code == ERR_OK ? holding_text(r, object, path, "note", false, note, sizeof note) : code;
}

void holding_join(char *out, const char *path, const char *key)
{
    json_join(out, HOLDING_PATH, path, key);
}

void holding_index(char *out, const char *path, size_t index)
{
    snprintf(out, HOLDING_PATH, "%s[%zu]", path, index);
}

enum err_code holding_no_memory(const struct holding_reader *r)
{
    return err_set(r->e, ERR_NOMEM, "out of memory while reading %s", r->doc->file);
}

/* U+0080 to U+009F as UTF-8. */
static bool has_c1(const char *text)
{
    for (const unsigned char *c = (const unsigned char *)text; *c; c++) {
        if (c[0] == 0xc2 && c[1] >= 0x80 && c[1] <= 0x9f) {
            return true;
        }
    }
    return false;
}

enum err_code holding_text(const struct holding_reader *r, const cJSON *object, const char *path, const char *key,
                           bool required, char *out, size_t size)
{
    assert(size > 1);
    const char *text = NULL;
    enum err_code code = json_read_string(r->doc, object, path, key, required, size - 1, &text, r->e);
    if (code != ERR_OK || !text) {
        return code;
    }
    if (has_c1(text) || (required && text[0] == '\0')) {
        char at[HOLDING_PATH];
        holding_join(at, path, key);
        return json_fail(r->doc, ERR_CONFIG, at, r->e, text[0] ? "holds a control character" : "must not be empty");
    }
    memcpy(out, text, strlen(text) + 1);
    return ERR_OK;
}

/* Blanks of every script, and what cannot be seen: two ids must not look alike (Unicode: Zs, Zl, Zp, Cf that stand in
 * no word, and fillers). 0: none. */
static unsigned unseen(const unsigned char *c, size_t n)
{
    static const unsigned range[][2] = {
        {0xa0, 0xa0},     {0xad, 0xad},     {0x61c, 0x61c},   {0x115f, 0x1160}, {0x1680, 0x1680},  {0x180b, 0x180f},
        {0x2000, 0x200f}, {0x2028, 0x202f}, {0x205f, 0x206f}, {0x2800, 0x2800}, {0x3000, 0x3000},  {0x3164, 0x3164},
        {0xfe00, 0xfe0f}, {0xfeff, 0xfeff}, {0xffa0, 0xffa0}, {0xfff9, 0xfffb}, {0xe0000, 0xe0fff}};
    unsigned code = n > 1 ? c[0] & (0xffu >> (n + 1)) : 0;
    for (size_t i = 1; i < n; i++) {
        code = code << 6 | (c[i] & 0x3fu);
    }
    for (size_t i = 0; i < sizeof range / sizeof range[0]; i++) {
        if (code >= range[i][0] && code <= range[i][1]) {
            return code;
        }
    }
    return 0;
}

/* Letters of any script; not what turns the direction of writing: ids are printed as they are. */
static bool id_letter(const unsigned char *c, size_t n)
{
    if (n > 1) {
        return !json_scan_control(c, n) && !unseen(c, n);
    }
    return n == 1 && ((*c >= 'a' && *c <= 'z') || (*c >= 'A' && *c <= 'Z') || (*c >= '0' && *c <= '9') ||
                      (*c && strchr("-_.", *c)));
}

enum err_code holding_id(const struct holding_reader *r, const cJSON *object, const char *path, char *out)
{
    enum err_code code = holding_text(r, object, path, "id", true, out, LIMIT_NAME);
    bool good = code == ERR_OK && out[0] != '-';
    unsigned blank = 0;
    for (const unsigned char *c = (const unsigned char *)out; good && *c;) {
        size_t n = json_scan_utf8(c, strlen((const char *)c));
        good = id_letter(c, n);
        blank = unseen(c, n);
        c += n;
    }
    char at[HOLDING_PATH];
    holding_join(at, path, "id");
    if (code == ERR_OK && blank) {
        return json_fail(r->doc, ERR_CONFIG, at, r->e,
                         "\"%s\" is no id: it holds a blank or what cannot be seen (U+%04X); type it anew", out, blank);
    }
    if (code == ERR_OK && !good) {
        return json_fail(r->doc, ERR_CONFIG, at, r->e,
                         "\"%s\" is no id: letters, digits, - _ and . are allowed, and no hyphen in front", out);
    }
    return code;
}

enum err_code holding_unique(const struct holding_reader *r, const char *path, const char *id, const void *rows,
                             size_t n, size_t row_size, size_t id_offset)
{
    assert(id_offset < row_size);
    for (size_t i = 0; i < n; i++) {
        if (strcmp((const char *)rows + i * row_size + id_offset, id) == 0) {
            char at[HOLDING_PATH];
            holding_join(at, path, "id");
            return json_fail(r->doc, ERR_CONFIG, at, r->e, "the id \"%s\" is used twice; entry %zu has it too", id,
                             i + 1);
        }
    }
    return ERR_OK;
}

enum err_code holding_unknown(const struct holding_reader *r, const char *path, enum params_thing thing, const char *id)
{
    struct err e = {0};
    params_unknown(r->p, thing, id, &e);
    return json_fail(r->doc, ERR_CONFIG, path, r->e, "%s", e.what);
}

enum err_code holding_array(const struct holding_reader *r, const cJSON *value, const char *path, size_t most,
                            size_t *n)
{
    assert(most > 0);
    *n = 0;
    if (!value) {
        return ERR_OK;
    }
    if (!cJSON_IsArray(value)) {
        return json_fail(r->doc, ERR_CONFIG, path, r->e, "must be a list in brackets [ ]");
    }
    *n = (size_t)cJSON_GetArraySize(value);
    if (*n > most) {
        return json_fail(r->doc, ERR_CONFIG, path, r->e, "has %zu entries; at most %zu are allowed", *n, most);
    }
    return ERR_OK;
}

enum err_code holding_whole(const struct holding_reader *r, const cJSON *object, const char *path, const char *key,
                            int low, int high, int *value)
{
    assert(low <= high);
    double x = *value;
    enum err_code code = json_read_number(r->doc, object, path, key, false, low, high, &x, r->e);
    if (code == ERR_OK && x != floor(x)) {
        char at[HOLDING_PATH];
        holding_join(at, path, key);
        return json_fail(r->doc, ERR_CONFIG, at, r->e, "must be a whole number");
    }
    if (code == ERR_OK) {
        *value = (int)x;
    }
    return code;
}
