/* Global daily climatology, a station's file of fixed width: a line holds one element of
 * one month, 31 values of five signs with three flags each, whole tenths, -9999 missing.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/num.h"
#include "weather/ghcn.h"

#include <ctype.h>
#include <string.h>

#define ID_WIDTH 11
#define YEAR_AT 11
#define MONTH_AT 15
#define ELEMENT_AT 17
#define DAYS_AT 21
#define DAY_WIDTH 8 /* value 5, M, Q, S */
#define VALUE_WIDTH 5
#define DAYS 31
#define LINE_WIDTH (DAYS_AT + DAYS * DAY_WIDTH)
#define LINE_LEAST (LINE_WIDTH - 3) /* the last flags may have been cut off as blanks */

static bool number(const char *text, size_t n, long low, long high, long *x)
{
    for (; n > 1 && *text == ' '; n--) {
        text++;
    }
    return num_parse_long(text, n, low, high, x);
}

static size_t line_length(const char *line, const char *end)
{
    const char *stop = memchr(line, '\n', (size_t)(end - line));
    size_t n = (size_t)((stop ? stop : end) - line);
    return n && line[n - 1] == '\r' ? n - 1 : n;
}

/* Year and month of a line of this layout. */
static bool head(const char *line, size_t n, long *year, long *month)
{
    if (n < LINE_LEAST || n > LINE_WIDTH) {
        return false;
    }
    for (size_t i = 0; i < DAYS_AT; i++) {
        if (!isalnum((unsigned char)line[i]) && !strchr("-_", line[i])) {
            return false;
        }
    }
    return num_parse_long(line + YEAR_AT, 4, 1700, 2200, year) && num_parse_long(line + MONTH_AT, 2, 1, 12, month);
}

bool ghcn_dly_is(const struct weather_file *f)
{
    long year, month;
    return f->size && head(f->bytes, line_length(f->bytes, f->bytes + f->size), &year, &month);
}

static enum err_code read_day(struct ghcn *g, const char *line, size_t n, int day, struct ghcn_value *v)
{
    size_t from = (size_t)(DAYS_AT + DAY_WIDTH * day);
    const char *text = line + from;
    long value;
    v->at = (uint32_t)(text - g->file->bytes);
    if (!number(text, VALUE_WIDTH, -99999, 99999, &value)) {
        return ghcn_fail(
            g, v->at, ghcn_element_name(v->element),
            "\"%.5s\" is not a value of this layout; five signs with a whole number, or -9999, are allowed", text);
    }
    if (value != (long)GHCN_MISSING && v->date == DATE_NONE) {
        return ghcn_fail(g, v->at, ghcn_element_name(v->element), "%ld stands for day %d of a month without one", value,
                         day + 1);
    }
    v->value = (double)value;
    v->measured = from + VALUE_WIDTH < n ? text[VALUE_WIDTH] : ' ';
    v->quality = from + VALUE_WIDTH + 1 < n ? text[VALUE_WIDTH + 1] : ' ';
    return ghcn_add(g, v);
}

static enum err_code read_line(struct ghcn *g, const char *line, size_t n)
{
    long year, month;
    uint32_t at = (uint32_t)(line - g->file->bytes);
    if (!head(line, n, &year, &month)) {
        return ghcn_fail(g, at, "",
                         "the line is none of this layout: station (11 signs), year, month, element (4), then 31 times "
                         "a value (5) and three flags, %d signs in all; it has %zu",
                         LINE_WIDTH, n);
    }
    struct ghcn_value v = {.element = ghcn_element(line + ELEMENT_AT, 4), .hour = -1};
    if (v.element == GHCN_OTHER) {
        ghcn_ignore(g, line + ELEMENT_AT, 4);
        return ERR_OK;
    }
    enum err_code code = ghcn_station(g, line, ID_WIDTH, at);
    for (int day = 0; day < DAYS && code == ERR_OK; day++) {
        v.date = date_make((int)year, (int)month, day + 1);
        code = read_day(g, line, n, day, &v);
    }
    return code;
}

static enum err_code read_lines(struct ghcn *g)
{
    const char *end = g->file->bytes + g->file->size;
    enum err_code code = ERR_OK;
    for (const char *line = g->file->bytes; line < end && code == ERR_OK;) {
        size_t n = line_length(line, end);
        code = n ? read_line(g, line, n) : ERR_OK;
        line += n;
        line += line < end && *line == '\r';
        line += line < end;
    }
    return code;
}

enum err_code ghcn_dly_read(const struct weather_file *f, struct arena *a, struct weather_set *set, struct err *e)
{
    struct ghcn g;
    ghcn_start(&g, f, a, e);
    enum err_code code = read_lines(&g);
    code = code == ERR_OK ? ghcn_finish(&g, UNITS_TENTHS, set) : code;
    ghcn_release(&g);
    return code;
}
