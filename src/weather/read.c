/* From a path or bytes to the layout that knows them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/file.h"
#include "base/limits.h"
#include "weather/layout.h"

#include <string.h>

static size_t skip_blanks(const struct weather_file *f, size_t i)
{
    while (i < f->size && (f->bytes[i] == ' ' || f->bytes[i] == '\t' || f->bytes[i] == '\r' || f->bytes[i] == '\n')) {
        i++;
    }
    return i;
}

/* True when the file opens with an object, or an array of such. A plain "[" also opens
 * other layouts. */
static bool looks_like_json(const struct weather_file *f)
{
    size_t i = skip_blanks(f, 0);
    if (i < f->size && f->bytes[i] == '[') {
        i = skip_blanks(f, i + 1);
        return i < f->size && (f->bytes[i] == '{' || f->bytes[i] == '[' || f->bytes[i] == ']');
    }
    return i < f->size && f->bytes[i] == '{';
}

static enum err_code recognise(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    size_t i = 0;
    while (!weather_layouts[i].is(f)) { /* the last row always says yes */
        i++;
    }
    struct weather_set read = {.layout = weather_layouts[i].name, .ignored = "", .note = ""};
    enum err_code code = weather_layouts[i].read(f, a, &read, e);
    if (code == ERR_OK) {
        *set = read;
    }
    return code;
}

static enum err_code read_bytes(struct weather_file f, struct arena *a, struct weather_set *set, struct err *e)
{
    *set = (struct weather_set){.layout = "", .ignored = "", .note = ""};
    if (f.size >= 3 && memcmp(f.bytes, "\xef\xbb\xbf", 3) == 0) {
        f.bytes += 3;
        f.size -= 3;
    }
    if (looks_like_json(&f)) {
        enum err_code code = json_parse(f.bytes, f.size, f.path, &f.doc, e);
        if (code != ERR_OK) {
            return code;
        }
    }
    enum err_code code = recognise(&f, a, set, e);
    json_release(&f.doc);
    return code;
}

enum err_code weather_read_bytes(const char *bytes, size_t size, const char *path, struct arena *a,
                                 struct weather_set *set, struct err *e)
{
    return read_bytes((struct weather_file){.bytes = bytes, .size = size, .path = path}, a, set, e);
}

enum err_code weather_read(const char *path, struct arena *a, struct weather_set *set, struct err *e)
{
    struct file_view view;
    *set = (struct weather_set){.layout = "", .ignored = "", .note = ""};
    enum err_code code = file_view(path, LIMIT_FILE_BYTES, &view, e);
    if (code == ERR_OK) {
        struct weather_file f = {
            .bytes = view.data, .size = view.size, .path = path, .mapping = view.mapped ? view.owned : NULL};
        code = read_bytes(f, a, set, e);
        file_unview(&view);
    }
    return code;
}
