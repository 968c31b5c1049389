/* The round as CSV. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/round.h"

#include <string.h>

/* All sentences of a row in one field, on one line. */
static void add_sentences(const struct round_row *r, struct buf *b)
{
    struct buf all;
    buf_init(&all);
    for (size_t i = 0; i < r->whys; i++) {
        buf_add(&all, i ? " " : "");
        buf_add_clean(&all, r->why[i], strlen(r->why[i]), ROUND_TEXT);
    }
    buf_add_csv_field(b, all.text);
    buf_add_char(b, ',');
    buf_clear(&all);
    buf_add_clean(&all, r->fault, strlen(r->fault), 2 * ROUND_TEXT);
    buf_add_csv_field(b, all.text);
    buf_release_into(&all, b);
}

static void add_row(const struct round_row *r, struct buf *b)
{
    char due[DATE_TEXT];
    size_t said = 0;
    buf_addf(b, "%u,%s,%s,%s,%s,", round_score(r->reasons), r->due == DATE_NONE ? "" : date_format(r->due, due), r->key,
             round_call_ids[round_call_of(r->reasons)],
             r->turnout == ROUND_UNADVISED ? "" : turnout_name((enum turnout)r->turnout));
    for (int k = 0; k < ROUND_REASONS; k++) {
        if (r->reasons >> k & 1u) {
            buf_addf(b, "%s%s", said++ ? "+" : "", round_kinds[k].id);
        }
    }
    buf_add_char(b, ',');
    add_sentences(r, b);
    buf_add_char(b, '\n');
}

void round_csv(const struct round_view *v, struct buf *b)
{
    buf_add(b, "score,due,name,path,call,turnout,reasons,why,error\n");
    for (size_t i = 0; i < v->n; i++) {
        add_row(&v->row[i], b);
    }
}
