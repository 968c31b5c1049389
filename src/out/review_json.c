/* Scores as JSON. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/json.h"
#include "out/review.h"

#include <stdio.h>

enum { DECIMALS = 6 };

const char *review_id(const struct review_view *v, enum review_what what, size_t subject)
{
    return what <= REVIEW_GROWTH ? v->holding->paddock[subject].id : v->holding->animal[subject].id;
}

static void add_score(const struct review_view *v, const struct review_score *s, struct buf *b)
{
    char what[2 * LIMIT_NAME];
    snprintf(what, sizeof what, "%s:%s", review_what_name[s->what], review_id(v, s->what, s->subject));
    json_key_string(b, "what", what);
    buf_addf(b, ",\"lead_days\":%zu,", replay_lead[s->lead]);
    json_key_string(b, "score", s->score);
    buf_add_char(b, ',');
    json_key_number(b, "value", s->value, DECIMALS);
    buf_add_char(b, ',');
    json_key_number(b, "low", s->low, DECIMALS);
    buf_add_char(b, ',');
    json_key_number(b, "high", s->high, DECIMALS);
    buf_add(b, ",\"rival\":");
    if (s->rival == REVIEW_OURS) {
        buf_add(b, "null");
    } else {
        buf_add_json_string(b, review_rival_name[s->rival]);
    }
    buf_addf(b, ",\"n\":%zu", s->n);
}

void review_json(const struct review_view *v, struct buf *b)
{
    buf_add(b, "{\"schema\":1,");
    json_key_date(b, "first", v->first);
    buf_add_char(b, ',');
    json_key_date(b, "last", v->last);
    buf_addf(b, ",\"mornings\":%zu,\"scores\":[", v->review->mornings);
    for (size_t i = 0; i < v->review->n; i++) {
        buf_add(b, i ? ",\n{" : "{");
        add_score(v, &v->review->score[i], b);
        buf_add_char(b, '}');
    }
    buf_add(b, "]}\n");
}
