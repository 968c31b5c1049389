/* Filling and formatting errors, and the nearest known word for a slip.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/err.h"

#include "base/json_scan.h"

#include <assert.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#define WORD_MOST 64 /* longer words have no near neighbour worth naming */

void err_clear(struct err *e)
{
    memset(e, 0, sizeof *e);
}

/* Text from outside may hold anything; a terminal must not obey it. */
static void make_printable(char *text)
{
    size_t left = strlen(text);
    for (unsigned char *c = (unsigned char *)text; left;) {
        size_t n = json_scan_utf8(c, left), step = n ? n : 1;
        if (n == 0 || json_scan_control(c, n)) {
            memset(c, '?', step);
        }
        c += step;
        left -= step;
    }
}

enum err_code err_set(struct err *e, enum err_code code, const char *format, ...)
{
    assert(code != ERR_OK);
    if (e) {
        va_list arguments;
        va_start(arguments, format);
        vsnprintf(e->what, sizeof e->what, format, arguments);
        va_end(arguments);
        make_printable(e->what);
        e->code = code;
    }
    return code;
}

enum err_code err_at(struct err *e, const char *file, size_t line, size_t column, const char *field)
{
    if (!e) {
        return ERR_BUG;
    }
    if (file) {
        size_t length = strlen(file), room = sizeof e->file - 1;
        if (length > room) { /* the end of a path says more than its start */
            snprintf(e->file, sizeof e->file, "...%s", file + (length - room + 3));
        } else {
            memcpy(e->file, file, length + 1);
        }
        make_printable(e->file);
    }
    e->line = line;
    e->column = column;
    if (field) {
        snprintf(e->field, sizeof e->field, "%s", field);
        make_printable(e->field);
    }
    return e->code;
}

void err_format(const struct err *e, char *text, size_t size)
{
    assert(size > 0);
    char place[sizeof e->file + 64] = "";
    if (e->file[0] && e->line && e->column) {
        snprintf(place, sizeof place, "%s:%zu:%zu: ", e->file, e->line, e->column);
    } else if (e->file[0] && e->line) {
        snprintf(place, sizeof place, "%s:%zu: ", e->file, e->line);
    } else if (e->file[0]) {
        snprintf(place, sizeof place, "%s: ", e->file);
    }
    snprintf(text, size, "%s%s%s%s", place, e->field, e->field[0] ? ": " : "", e->what);
}

/* Optimal string alignment distance: one exchange of neighbours costs one. */
static size_t edit_distance(const char *a, size_t n, const char *b, size_t m)
{
    assert(n <= WORD_MOST);
    assert(m <= WORD_MOST);
    size_t row[3][WORD_MOST + 1];
    for (size_t j = 0; j <= m; j++) {
        row[1][j] = j;
    }
    for (size_t i = 1; i <= n; i++) {
        size_t *before = row[(i + 2) % 3], *last = row[i % 3], *now = row[(i + 1) % 3];
        now[0] = i;
        for (size_t j = 1; j <= m; j++) {
            size_t best = last[j - 1] + (a[i - 1] != b[j - 1]);
            best = last[j] + 1 < best ? last[j] + 1 : best;
            best = now[j - 1] + 1 < best ? now[j - 1] + 1 : best;
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1] && before[j - 2] + 1 < best) {
                best = before[j - 2] + 1;
            }
            now[j] = best;
        }
    }
    return row[(n + 1) % 3][m];
}

const char *err_did_you_mean(const char *word, const char *const *candidates, size_t n)
{
    assert(word != NULL);
    size_t length = strlen(word), best = WORD_MOST;
    const char *nearest = NULL;
    if (length == 0 || length > WORD_MOST) {
        return NULL;
    }
    for (size_t i = 0; i < n; i++) {
        size_t m = strlen(candidates[i]);
        if (m > WORD_MOST) {
            continue;
        }
        size_t distance = edit_distance(word, length, candidates[i], m);
        if (distance < best) {
            best = distance;
            nearest = candidates[i];
        }
    }
    size_t allowed = length / 3 > 1 ? length / 3 : 1;
    return best <= allowed ? nearest : NULL;
}
