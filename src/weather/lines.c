/* Lines and cells of a text file. SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/lines.h"

#include <string.h>

#define LOOK_LINES 80
#define LOOK_BYTES (64u << 10)

bool line_next(const struct weather_file *f, struct line *l)
{
    const char *stop = f->bytes + (f->size < LOOK_BYTES ? f->size : LOOK_BYTES);
    const char *text = l->text ? l->text + l->n : f->bytes;
    if (l->text) {
        text += text < stop && *text == '\r';
        text += text < stop && *text == '\n';
    }
    if (text >= stop || l->number == LOOK_LINES) {
        return false;
    }
    l->text = text;
    l->n = 0;
    l->number++;
    while (text + l->n < stop && text[l->n] != '\n' && text[l->n] != '\r') {
        l->n++;
    }
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
    while (next_cell(l, &at, &text, &n)) {
        if (n == length && memcmp(text, word, n) == 0) {
            return true;
        }
    }
    return false;
}
