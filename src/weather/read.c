/* From a path or bytes to the layout that knows them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/file.h"
#include "base/limits.h"
#include "weather/layout.h"

#include <math.h>
#include <string.h>
#include <sys/stat.h>

#define LAYOUTS_MOST 64

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

const struct weather_hints weather_no_hints = {.longitude = NAN};

const char *const weather_units_names[WEATHER_UNITS] = {
    [UNITS_UNSAID] = "", [UNITS_METRIC] = "metric", [UNITS_US] = "us", [UNITS_TENTHS] = "tenths"};

bool weather_units_of(const char *name, enum weather_units *units)
{
    for (size_t i = UNITS_METRIC; i < WEATHER_UNITS; i++) {
        if (strcmp(name, weather_units_names[i]) == 0) {
            *units = (enum weather_units)i;
            return true;
        }
    }
    return false;
}

static enum err_code check_units(struct weather_file *f, struct err *e)
{
    if (f->hints->units && !weather_units_of(f->hints->units, &f->units)) {
        err_set(e, ERR_USAGE,
                "\"%.40s\" is not known; metric (C, mm, m/s), us (F, inch, mph) and tenths (of C and mm) are",
                f->hints->units);
        return err_at(e, NULL, 0, 0, "--file-units");
    }
    return ERR_OK;
}

/* The layout that the user names. */
static const struct layout *named(const char *name, struct err *e)
{
    const char *names[LAYOUTS_MOST];
    size_t n = 0;
    for (size_t i = 0; i < weather_layout_count && n < LAYOUTS_MOST; i++) {
        if (!weather_layouts[i].what) {
            continue;
        }
        if (strcmp(weather_layouts[i].name, name) == 0) {
            return &weather_layouts[i];
        }
        names[n++] = weather_layouts[i].name;
    }
    const char *near = err_did_you_mean(name, names, n);
    err_set(e, ERR_USAGE, "no layout is called \"%.40s\"%s%s%s; \"sugarlea help weather\" lists them", name,
            near ? "; did you mean \"" : "", near ? near : "", near ? "\"?" : "");
    err_at(e, NULL, 0, 0, "--layout");
    return NULL;
}

static const struct layout *by_content(const struct weather_file *f)
{
    size_t i = 0;
    while (!weather_layouts[i].is(f)) { /* the last row always says yes */
        i++;
    }
    return &weather_layouts[i];
}

static enum err_code recognise(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    const struct layout *l = f->hints->layout ? named(f->hints->layout, e) : by_content(f);
    if (!l) {
        return ERR_USAGE;
    }
    struct weather_set read = {.layout = l->name, .ignored = "", .note = ""};
    struct weather_file whole = *f;
    whole.visit = l->read == csv_read ? f->visit : NULL;
    enum err_code code = l->read(&whole, a, &read, e);
    for (size_t i = 0; f->visit && code == ERR_OK && i < read.n; i++) {
        code = f->visit(f->visitor, &read.site[i], e);
    }
    if (code == ERR_OK) {
        *set = read;
    }
    return code;
}

static enum err_code read_bytes(struct weather_file f, struct arena *a, struct weather_set *set, struct err *e)
{
    *set = (struct weather_set){.layout = "", .ignored = "", .note = ""};
    enum err_code code = check_units(&f, e);
    if (code != ERR_OK) {
        return code;
    }
    size_t mark = file_mark(f.bytes, f.size);
    f.bytes += mark;
    f.size -= mark;
    if (looks_like_json(&f)) {
        code = json_parse(f.bytes, f.size, f.path, &f.doc, e);
        if (code != ERR_OK) {
            return code;
        }
    }
    code = recognise(&f, a, set, e);
    json_release(&f.doc);
    return code;
}

enum err_code weather_read_bytes(const char *bytes, size_t size, const char *path, const struct weather_hints *h,
                                 struct arena *a, struct weather_set *set, struct err *e)
{
    struct weather_file f = {.bytes = bytes, .size = size, .path = path, .hints = h ? h : &weather_no_hints};
    return read_bytes(f, a, set, e);
}

/* f: path and what is to become of the sites. */
static enum err_code read_file(struct weather_file f, size_t limit, const struct weather_hints *h, struct arena *a,
                               struct weather_set *set, struct err *e)
{
    struct file_view view;
    *set = (struct weather_set){.layout = "", .ignored = "", .note = ""};
    enum err_code code = file_view(f.path, limit, &view, e);
    if (code == ERR_OK) {
        f.bytes = view.data;
        f.size = view.size;
        f.hints = h ? h : &weather_no_hints;
        f.mapping = view.mapped ? view.owned : NULL;
        code = read_bytes(f, a, set, e);
        file_unview(&view);
    }
    return code;
}

enum err_code weather_read(const char *path, const struct weather_hints *h, struct arena *a, struct weather_set *set,
                           struct err *e)
{
    return read_file((struct weather_file){.path = path}, LIMIT_FILE_BYTES, h, a, set, e);
}

/* What is no plain file cannot be let go of behind the reader: it is held whole. */
static size_t most_bytes(const char *path)
{
    struct stat s;
    return stat(path, &s) == 0 && S_ISREG(s.st_mode) ? LIMIT_SITES_BYTES : LIMIT_FILE_BYTES;
}

enum err_code weather_each(const char *path, const struct weather_hints *h, weather_visit *visit, void *context,
                           struct err *e)
{
    struct arena a;
    struct weather_set set;
    arena_init(&a);
    const struct weather_file f = {.path = path, .visit = visit, .visitor = context};
    enum err_code code = read_file(f, most_bytes(path), h, &a, &set, e);
    arena_release(&a);
    return code;
}
