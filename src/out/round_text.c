/* The round for people: whom to ring, in order, and why.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/round.h"

#include <stdio.h>
#include <string.h>

struct part {
    const char *heading, *count; /* "RING NOW", "%zu to ring now" */
};

static const struct part parts[ROUND_CALLS] = {
    [ROUND_NOW] = {"RING NOW", "to ring now"},
    [ROUND_TODAY] = {"RING TODAY", "to ring today"},
    [ROUND_WEEK] = {"THIS WEEK", "this week"},
    [ROUND_NOTHING] = {"NOTHING NEW", "with nothing new"},
    [ROUND_MEND] = {"ERRORS: mend these first, nothing is known of what they hide", "with an error"},
};

static bool belongs(const struct round_row *r, enum round_call call)
{
    return call == ROUND_MEND ? r->fault[0] != 0 : round_call_of(r->reasons) == call;
}

static size_t count(const struct round_view *v, enum round_call call)
{
    size_t n = 0;
    for (size_t i = 0; i < v->n; i++) {
        n += belongs(&v->row[i], call);
    }
    return n;
}

static void heading(const struct round_view *v, const struct page *p)
{
    char line[LIMIT_TEXT], day[TEXT_DAY];
    size_t n = (size_t)snprintf(line, sizeof line, "%zu holding%s: ", v->n, v->n == 1 ? "" : "s"), said = 0;
    text_bold(p, date_format_long(v->date, day, sizeof day));
    buf_add_char(p->b, '\n');
    for (int c = 0; c < ROUND_CALLS && n < sizeof line; c++) {
        size_t of = count(v, (enum round_call)c);
        n += of ? (size_t)snprintf(line + n, sizeof line - n, "%s%zu %s", said++ ? ", " : "", of, parts[c].count) : 0;
    }
    strncat(line, ".", sizeof line - strlen(line) - 1);
    text_wrap(p, "", line);
}

static void add_title(const struct page *p, const struct round_row *r, size_t rank)
{
    char lead[32];
    snprintf(lead, sizeof lead, "%5zu  ", rank);
    buf_add(p->b, lead);
    text_bold(p, r->name[0] ? r->name : r->path);
    if (r->name[0]) {
        buf_add(p->b, "  ");
        buf_add_clean(p->b, r->path, strlen(r->path), LIMIT_PATH);
    }
    buf_add_char(p->b, '\n');
}

static void add_reasons(const struct page *p, const struct round_row *r)
{
    for (size_t i = 0; i < r->whys; i++) {
        text_wrap(p, "       - ", r->why[i]);
    }
    if (r->more) {
        buf_addf(p->b, "       - and %zu more: see its own advice\n", r->more);
    }
}

/* One line: there is nothing to do. */
static void add_quiet(const struct page *p, const struct round_row *r, size_t rank)
{
    buf_addf(p->b, "%5zu  ", rank);
    const char *who = r->name[0] ? r->name : r->path;
    buf_add_clean(p->b, who, strlen(who), LIMIT_PATH);
    buf_add(p->b, r->strictest[0] ? ": " : "");
    buf_add_clean(p->b, r->strictest, strlen(r->strictest), ROUND_TEXT);
    if (r->name[0]) {
        buf_add(p->b, "  ");
        buf_add_clean(p->b, r->path, strlen(r->path), LIMIT_PATH);
    }
    buf_add_char(p->b, '\n');
}

static void add_part(const struct round_view *v, const struct page *p, enum round_call call)
{
    size_t n = count(v, call);
    if (n == 0) {
        return;
    }
    buf_add_char(p->b, '\n');
    text_bold(p, parts[call].heading);
    buf_addf(p->b, " (%zu)\n", n);
    for (size_t i = 0; i < v->n; i++) {
        const struct round_row *r = &v->row[i];
        if (!belongs(r, call)) {
            continue;
        }
        if (call == ROUND_NOTHING) {
            add_quiet(p, r, i + 1);
            continue;
        }
        add_title(p, r, i + 1);
        if (call == ROUND_MEND) {
            text_wrap(p, "       ", r->fault);
        } else {
            add_reasons(p, r);
        }
    }
}

void round_text(const struct round_view *v, bool colour, int width, struct buf *b)
{
    const struct page p = {b, width, colour};
    const char *credit[ROUND_CREDITS];
    heading(v, &p);
    for (int c = 0; c < ROUND_CALLS; c++) {
        add_part(v, &p, (enum round_call)c);
    }
    buf_add_char(b, '\n');
    text_wrap(&p, "", "The whole advice of one: sugarlea today --holding PATH.");
    text_wrap(&p, "",
              "Signs are what keepers wrote into their diaries; who wrote nothing may have seen some all the same.");
    text_closing(&p);
    size_t credits = round_credits(v, credit);
    for (size_t i = 0; i < credits; i++) {
        text_wrap(&p, "", credit[i]);
    }
}
