/* Fields, line ends and messages of a CSV file.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/csv.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static enum err_code fail(struct csv *c, const char *at, int k, const char *format, va_list arguments)
{
    char what[sizeof c->e->what], name[sizeof c->e->field] = "";
    vsnprintf(what, sizeof what, format, arguments);
    if (k >= 0) {
        size_t n = c->column[k].name_length;
        snprintf(name, sizeof name, "%.*s", (int)(n < sizeof name ? n : sizeof name - 1), c->column[k].name);
    }
    err_set(c->e, ERR_DATA, "%s", what);
    err_at(c->e, c->file->path, c->line, at ? (size_t)(at - c->row) + 1 : 0, name);
    return ERR_DATA;
}

enum err_code csv_fail(struct csv *c, const char *at, int k, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    fail(c, at, k, format, arguments);
    va_end(arguments);
    return ERR_DATA;
}

enum err_code csv_fail_header(struct csv *c, int k, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    c->row = c->header;
    c->line = c->header_line;
    fail(c, c->header ? c->column[k].name : NULL, k, format, arguments);
    va_end(arguments);
    return ERR_DATA;
}

static bool is_line_end(char x)
{
    return x == '\n' || x == '\r';
}

bool csv_at_line_end(const struct csv *c)
{
    return c->p == c->end || is_line_end(*c->p);
}

static bool delimits(const struct csv *c, char x)
{
    return x == c->delimiter || (c->delimiter == ' ' && x == '\t');
}

bool csv_at_delimiter(const struct csv *c)
{
    return c->p < c->end && delimits(c, *c->p);
}

bool csv_at_row_end(struct csv *c)
{
    if (c->delimiter != ' ') {
        return csv_at_line_end(c);
    }
    const char *blanks = c->p;
    while (csv_at_delimiter(c)) {
        c->p++;
    }
    bool end = csv_at_line_end(c);
    c->p = end ? c->p : blanks;
    return end;
}

void csv_go_to(struct csv *c, const char *row, size_t line)
{
    c->p = c->row = row;
    c->line = line;
}

void csv_skip_row(struct csv *c)
{
    while (!csv_at_line_end(c)) {
        c->p++;
    }
    csv_skip_line_end(c);
}

static bool quoted_field(struct csv *c, struct csv_field *f)
{
    const char *start = ++c->p;
    for (; c->p < c->end && !is_line_end(*c->p); c->p++) {
        if (*c->p != '"') {
            continue;
        }
        if (c->p + 1 < c->end && c->p[1] == '"') {
            c->p++; /* a doubled quote stands for itself */
            continue;
        }
        f->text = start;
        f->n = (size_t)(c->p++ - start);
        while (c->delimiter != ' ' && c->p < c->end && *c->p == ' ') {
            c->p++;
        }
        if (csv_at_line_end(c) || csv_at_delimiter(c)) {
            return true;
        }
        csv_fail(c, c->p, -1, "text after a closing quote; put quotes round the whole field or leave them out");
        return false;
    }
    csv_fail(c, f->at, -1, "a quote is opened here and not closed on this line");
    return false;
}

static bool is_blank(char x)
{
    return x == ' ' || x == '\t';
}

static void bare_field(struct csv *c, struct csv_field *f)
{
    f->text = c->p;
    while (c->p < c->end && !delimits(c, *c->p) && !is_line_end(*c->p)) {
        c->p++;
    }
    f->n = (size_t)(c->p - f->text);
}

bool csv_next_field(struct csv *c, struct csv_field *f)
{
    f->at = c->p;
    while (c->p < c->end && is_blank(*c->p) && (*c->p != c->delimiter || c->delimiter == ' ')) {
        c->p++;
    }
    if (c->p == c->end || *c->p != '"') {
        bare_field(c, f);
    } else if (!quoted_field(c, f)) {
        return false;
    }
    while (f->n && is_blank(f->text[f->n - 1])) {
        f->n--;
    }
    while (f->n && is_blank(*f->text)) {
        f->text++;
        f->n--;
    }
    return true;
}
