/* The round over many holdings, for people and for machines.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_OUT_ROUND_H
#define SUGARLEA_OUT_ROUND_H

#include "base/buf.h"
#include "base/date.h"
#include "out/text.h"
#include "out/today.h"
#include "season/round.h"

enum { ROUND_TEXT = TODAY_WARNING_TEXT, ROUND_WHYS = 16, ROUND_UNADVISED = -1 };

struct round_why {
    enum round_reason reason;
    char text[ROUND_TEXT];
};

/* What is found of one holding. It holds no address, so that a worker can send it as it is. */
struct round_found {
    char name[LIMIT_TEXT];
    char strictest[ROUND_TEXT];       /* "grey-pony brief, 1 h"; "" no advice */
    char credit[2 * ROUND_TEXT];      /* "Weather: ..." as licences want it said; "" none */
    char fault[2 * ROUND_TEXT];       /* where, what, and what to do; "" none */
    unsigned reasons;                 /* bits of enum round_reason */
    date_t due;                       /* the earliest date named by a reason; DATE_NONE none */
    int turnout;                      /* the most restrictive of today, enum turnout; ROUND_UNADVISED */
    size_t whys, more;                /* more: beyond ROUND_WHYS */
    struct round_why why[ROUND_WHYS]; /* in the order of the reasons */
};

struct round_row { /* the same, at the size it has */
    const char *path, *name, *strictest, *credit, *fault;
    unsigned reasons;
    date_t due;
    int turnout;
    size_t whys, more;
    const char *const *why;
    const char *key; /* name and path as the CSV has them */
};

struct round_view {
    date_t date;
    size_t n;
    const struct round_row *row; /* in the order of the round */
};

/* Adds a sentence for a reason (printf-style) and its date (DATE_NONE: none). */
void round_add(struct round_found *f, enum round_reason r, date_t due, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/* Adds a fault; the first one is kept. */
void round_fault(struct round_found *f, const char *what);

/* "brief, 1 h" of an advice. Returns text. */
const char *round_turnout_text(const struct advice *a, char *text, size_t size);

/* "name,path" as one row of CSV has them, each on one line: what rows alike are sorted by. */
void round_key(const char *name, const char *path, struct buf *b);

/* The credits of all rows, each once, in their order; returns how many, at most ROUND_CREDITS. */
enum { ROUND_CREDITS = 16 };
size_t round_credits(const struct round_view *v, const char *credit[ROUND_CREDITS]);

/* Sorts rows into the order of the round. */
void round_sort(struct round_row *row, size_t n);

extern const char *const round_call_ids[ROUND_CALLS]; /* "now", "today", "week", "nothing-new", "error" */

void round_text(const struct round_view *v, bool colour, int width, struct buf *b);
/* Schema 1: each holding has path, name, rank, call, score, due, turnout, reasons, why, error. */
void round_json(const struct round_view *v, struct buf *b);
/* One row a holding, score and due first: `sort -t, -k1,1nr -k2` puts rows of several runs in order. */
void round_csv(const struct round_view *v, struct buf *b);

#endif
