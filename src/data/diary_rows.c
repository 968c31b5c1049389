/* Rows and fields of diary.csv, as programs and spreadsheets write them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/diary_rows.h"

#include "base/file.h"
#include "base/limits.h"

#include <assert.h>
#include <string.h>
#include <strings.h>

static const char *const columns[DIARY_COLUMNS] = {"date", "time", "subject", "what", "value", "unit", "note"};

static const char too_long[] = "the row is longer than 64 KiB, or a quote in it is never closed";

static enum err_code fail(const struct diary_rows *r, const char *field, struct err *e, const char *what)
{
    err_set(e, ERR_DATA, "%s", what);
    return err_at(e, r->file, r->line, 0, field);
}

static bool at_line_end(const struct diary_rows *r)
{
    return r->p == r->end || *r->p == '\n' || *r->p == '\r';
}

static void skip_line_end(struct diary_rows *r)
{
    assert(at_line_end(r));
    if (r->p < r->end) {
        r->p += *r->p == '\r' && r->p + 1 < r->end && r->p[1] == '\n' ? 2 : 1;
    }
    r->next_line++;
}

/* Behind an opening quote: copies to its closing one. False: there is none. */
static bool quoted(struct diary_rows *r, char *to, size_t *n)
{
    assert(*r->p == '"');
    for (r->p++; r->p < r->stop; r->p++) {
        if (*r->p == '"') {
            if (r->p + 1 == r->end || r->p[1] != '"') {
                r->p++;
                return true;
            }
            r->p++;
        }
        r->next_line += *r->p == '\n';
        to[(*n)++] = *r->p;
    }
    return false;
}

/* Without blanks around it, and without the apostrophe that disarms a formula. */
static const char *tidy(char *text, size_t n)
{
    while (n && (text[n - 1] == ' ' || text[n - 1] == '\t')) {
        n--;
    }
    text[n] = 0;
    text += strspn(text, " \t");
    return text[0] == '\'' && text[1] && strchr("=+-@\t\r", text[1]) ? text + 1 : text;
}

/* The field at r->p, which moves behind it; put together at *to, which moves too.
 * NULL: an error. */
static const char *next_field(struct diary_rows *r, char **to, struct err *e)
{
    assert(r->p <= r->end);
    char *text = *to;
    size_t n = 0;
    while (r->p < r->stop && *r->p == ' ') {
        r->p++;
    }
    bool quotes = r->p < r->stop && *r->p == '"';
    if (quotes && !quoted(r, text, &n)) {
        fail(r, NULL, e, r->stop == r->end ? "a quote is opened and never closed" : too_long);
        return NULL;
    }
    while (!at_line_end(r) && *r->p != r->delimiter) {
        if (r->p >= r->stop) {
            fail(r, NULL, e, too_long);
            return NULL;
        }
        if (quotes && *r->p != ' ' && *r->p != '\t') {
            fail(r, NULL, e,
                 "has text behind a closing quote; a quote within a text is written twice, as in "
                 "\"cut at 6\"\" or so\"");
            return NULL;
        }
        text[n++] = *r->p++;
    }
    assert(n <= LIMIT_LINE_BYTES);
    *to = text + n + 1;
    return tidy(text, n);
}

static enum err_code read_row(struct diary_rows *r, const char *field[DIARY_COLUMNS], size_t *n, struct err *e)
{
    char *to = r->field;
    *n = 0;
    for (;;) {
        const char *text = next_field(r, &to, e);
        if (!text) {
            return ERR_DATA;
        }
        if (*n < DIARY_COLUMNS) {
            field[*n] = text;
        } else if (text[0]) {
            return fail(r, NULL, e, "has more than seven fields; put quotes round a text with a comma in it");
        }
        ++*n;
        if (at_line_end(r)) {
            skip_line_end(r);
            return ERR_OK;
        }
        r->p++;
    }
}

/* Rows of nothing but delimiters and blanks are what spreadsheets leave at the end. */
static bool skip_blank_rows(struct diary_rows *r)
{
    while (r->p < r->end) {
        const char *p = r->p;
        while (p < r->end && (*p == r->delimiter || *p == ' ' || *p == '\t')) {
            p++;
        }
        if (p < r->end && *p != '\n' && *p != '\r') {
            return true;
        }
        r->p = p;
        skip_line_end(r);
    }
    return false;
}

bool diary_rows_next(struct diary_rows *r, const char *field[DIARY_COLUMNS], enum err_code *code, struct err *e)
{
    assert(r->p >= r->text && r->p <= r->end);
    size_t n;
    if (!skip_blank_rows(r)) {
        return false;
    }
    r->row = r->p;
    r->line = r->next_line;
    r->stop = (size_t)(r->end - r->p) > LIMIT_LINE_BYTES ? r->p + LIMIT_LINE_BYTES : r->end;
    for (size_t i = 0; i < DIARY_COLUMNS; i++) {
        field[i] = "";
    }
    *code = read_row(r, field, &n, e);
    if (*code == ERR_OK && n < DIARY_COLUMNS - 2) {
        *code = fail(r, NULL, e, "is cut short; a row is date,time,subject,what,value,unit,note");
    }
    return *code == ERR_OK;
}

static char delimiter_of(const char *p, const char *end)
{
    size_t most = 0;
    char best = ',';
    for (const char *d = ",;\t"; *d; d++) {
        size_t n = 0;
        for (const char *c = p; c < end && *c != '\n' && *c != '\r'; c++) {
            n += *c == *d;
        }
        if (n > most) {
            most = n;
            best = *d;
        }
    }
    return best;
}

enum err_code diary_rows_begin(struct diary_rows *r, const char *text, size_t size, const char *file, struct arena *a,
                               struct err *e)
{
    assert(text != NULL || size == 0);
    const char *field[DIARY_COLUMNS];
    enum err_code code = ERR_OK;
    size_t mark = file_mark(text, size);
    *r = (struct diary_rows){.text = text, .p = text + mark, .end = text + size, .next_line = 1, .file = file};
    r->row = r->p;
    r->delimiter = delimiter_of(r->p, r->end);
    if (size && memchr(text, 0, size)) {
        r->line = 1;
        return fail(r, NULL, e, "holds bytes that are no text; it must be a table of text (CSV, UTF-8)");
    }
    r->field = arena_alloc(a, 2 * LIMIT_LINE_BYTES + 2, 1); /* the most fields close with a 0 each */
    if (!r->field) {
        return err_set(e, ERR_NOMEM, "out of memory");
    }
    if (diary_rows_next(r, field, &code, e)) {
        for (size_t i = 0; i < DIARY_COLUMNS && code == ERR_OK; i++) {
            if (strcasecmp(field[i], columns[i]) != 0) {
                code = fail(r, columns[i], e, "the first row must be date,time,subject,what,value,unit,note");
            }
        }
    }
    return code;
}
