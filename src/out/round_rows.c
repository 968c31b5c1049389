/* What is found of a holding, piece by piece, and the order of holdings.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/round.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

const char *const round_call_ids[ROUND_CALLS] = {[ROUND_NOW] = "now",
                                                 [ROUND_TODAY] = "today",
                                                 [ROUND_WEEK] = "week",
                                                 [ROUND_NOTHING] = "nothing-new",
                                                 [ROUND_MEND] = "error"};

void round_add(struct round_found *f, enum round_reason r, date_t due, const char *format, ...)
{
    size_t at = f->whys;
    f->reasons |= round_bit(r);
    if (due != DATE_NONE && (f->due == DATE_NONE || due < f->due)) {
        f->due = due;
    }
    if (f->whys == ROUND_WHYS) {
        f->more++;
        return;
    }
    while (at > 0 && f->why[at - 1].reason > r) {
        f->why[at] = f->why[at - 1];
        at--;
    }
    va_list arguments;
    va_start(arguments, format);
    f->why[at].reason = r;
    vsnprintf(f->why[at].text, sizeof f->why[at].text, format, arguments);
    va_end(arguments);
    f->whys++;
}

void round_fault(struct round_found *f, const char *what)
{
    f->reasons |= round_bit(ROUND_FAULT);
    if (!f->fault[0]) {
        snprintf(f->fault, sizeof f->fault, "%s", what);
    }
}

const char *round_turnout_text(const struct advice *a, char *text, size_t size)
{
    bool timed = a->turnout == TURNOUT_TIMED || a->turnout == TURNOUT_BRIEF;
    int minutes = timed ? (int)lround(60.0 * a->hours) : 0;
    size_t n = (size_t)snprintf(text, size, "%s", a->turnout == TURNOUT_NONE ? "off grass" : turnout_name(a->turnout));
    if (minutes >= 60 && n < size) {
        n += (size_t)snprintf(text + n, size - n, ", %d h", minutes / 60);
    }
    if (minutes % 60 && n < size) {
        snprintf(text + n, size - n, "%s%d min", minutes >= 60 ? " " : ", ", minutes % 60);
    }
    return text;
}

static void add_one_line(struct buf *b, const char *text)
{
    struct buf clean;
    buf_init(&clean);
    buf_add_clean(&clean, text, strlen(text), LIMIT_PATH);
    buf_add_csv_field(b, clean.text);
    buf_release_into(&clean, b);
}

void round_key(const char *name, const char *path, struct buf *b)
{
    add_one_line(b, name);
    buf_add_char(b, ',');
    add_one_line(b, path);
}

static int by_urgency(const void *left, const void *right)
{
    const struct round_row *a = left, *b = right;
    unsigned of_a = round_score(a->reasons), of_b = round_score(b->reasons);
    if (of_a != of_b) {
        return of_a > of_b ? -1 : 1;
    }
    if (a->due != b->due) { /* DATE_NONE is the least: the same reasons name dates or none */
        return a->due < b->due ? -1 : 1;
    }
    int order = strcmp(a->key, b->key);
    return order ? order : strcmp(a->path, b->path);
}

static bool is_among(const char *text, const char *const *credit, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        if (strcmp(text, credit[i]) == 0) {
            return true;
        }
    }
    return false;
}

size_t round_credits(const struct round_view *v, const char *credit[ROUND_CREDITS])
{
    size_t n = 0;
    for (size_t i = 0; i < v->n && n < ROUND_CREDITS; i++) {
        const char *of = v->row[i].credit;
        if (of[0] && !is_among(of, credit, n)) {
            credit[n++] = of;
        }
    }
    return n;
}

void round_sort(struct round_row *row, size_t n)
{
    qsort(row, n, sizeof *row, by_urgency);
}
