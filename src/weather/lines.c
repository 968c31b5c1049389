/* The first lines of a text file. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/lines.h"
#include "base/num.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>

#define LOOK_BYTES (64u << 10)

bool line_next(const struct weather_file *f, struct line *l)
{
    const char *stop = f->bytes + (f->size < LOOK_BYTES ? f->size : LOOK_BYTES);
    const char *text = l->text ? l->text + l->n : f->bytes;
    if (l->text) {
        text += text < stop && *text == '\r';
        text += text < stop && *text == '\n';
    }
    if (text >= stop || l->number == LINES_MOST) {
        return false;
    }
    const char *feed = memchr(text, '\n', (size_t)(stop - text));
    const char *end = feed ? feed : stop, *back = memchr(text, '\r', (size_t)(end - text));
    l->text = text;
    l->n = (size_t)((back ? back : end) - text);
    l->number++;
    return true;
}

static bool is_delimiter(char x)
{
    return x == ',' || x == ';' || x == '\t';
}

static bool is_wrapping(char x)
{
    return x == ' ' || x == '"';
}

/* The cell at *at, its blanks and quotes off; *at moves on to the next. */
static bool next_cell(const struct line *l, size_t *at, const char **text, size_t *n)
{
    if (*at > l->n) {
        return false;
    }
    *text = l->text + *at;
    *n = 0;
    while (*at + *n < l->n && !is_delimiter((*text)[*n])) {
        ++*n;
    }
    *at += *n + 1;
    while (*n && is_wrapping(**text)) {
        ++*text;
        --*n;
    }
    while (*n && is_wrapping((*text)[*n - 1])) {
        --*n;
    }
    return true;
}

bool line_has_cell(const struct line *l, const char *word)
{
    const char *text;
    size_t n, at = 0, length = strlen(word);
    if (!memmem(l->text, l->n, word, length)) { /* nearly always, and much sooner known */
        return false;
    }
    while (next_cell(l, &at, &text, &n)) {
        if (n == length && memcmp(text, word, n) == 0) {
            return true;
        }
    }
    return false;
}

char line_delimiter(const struct line *line)
{
    static const char delimiters[] = {',', ';', '\t'};
    size_t most = 0;
    char best = ',';
    for (size_t d = 0; d < sizeof delimiters; d++) {
        size_t n = 0;
        for (size_t i = 0; i < line->n; i++) {
            n += line->text[i] == delimiters[d];
        }
        if (n > most) {
            most = n;
            best = delimiters[d];
        }
    }
    return best;
}

bool line_begins(const struct line *line, const char *word)
{
    size_t n = strlen(word);
    return line->n >= n && strncasecmp(line->text, word, n) == 0;
}

static bool holds(const char *set, char x)
{
    return x && strchr(set, x);
}

bool line_number_after(const struct line *line, const char *key, double *x)
{
    size_t n = strlen(key);
    for (size_t i = 0; i + n <= line->n; i++) {
        size_t at = i + n, stop;
        if (strncasecmp(line->text + i, key, n) != 0) {
            continue;
        }
        while (at < line->n && holds(" \t:=", line->text[at])) {
            at++;
        }
        for (stop = at; stop < line->n && holds("+-.0123456789", line->text[stop]); stop++) {
        }
        if (num_parse(line->text + at, stop - at, '.', x)) {
            return true;
        }
    }
    return false;
}

bool line_find(const struct weather_file *f, const char *start, const char *cell, struct line *line)
{
    *line = (struct line){0};
    while (line_next(f, line)) {
        if (line_begins(line, start) && (!cell || line_has_cell(line, cell))) {
            return true;
        }
    }
    return false;
}

enum err_code line_fail(const struct weather_file *f, const struct line *line, const char *field, struct err *e,
                        const char *format, ...)
{
    char what[sizeof((struct err *)NULL)->what];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(what, sizeof what, format, arguments);
    va_end(arguments);
    err_set(e, ERR_DATA, "%s", what);
    err_at(e, f->path, line ? line->number : 1, 1, field);
    return ERR_DATA;
}

enum err_code line_unit(const struct weather_file *f, const struct line *line, struct csv_known *row, struct err *e)
{
    struct quantity_unit unit;
    const char *open = memrchr(line->text, '(', line->n);
    const char *close = open ? memchr(open, ')', line->n - (size_t)(open - line->text)) : NULL;
    if (!close) {
        return ERR_OK;
    }
    size_t n = (size_t)(close - open) - 1;
    if (!quantity_unit_of(row->var, open + 1, n, &unit)) {
        return line_fail(f, line, row->name, e, "the unit \"%.*s\" is not known; %s are allowed", n < 40 ? (int)n : 40,
                         open + 1, quantity_units_allowed(row->var));
    }
    row->scale = (row->scale != 0 ? row->scale : 1) * unit.scale;
    row->offset = unit.offset;
    return ERR_OK;
}
