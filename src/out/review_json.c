/* Scores as JSON. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/json.h"
#include "out/review.h"

#include <stdio.h>

enum { DECIMALS = 6 };

const char *review_id(const struct review_view *v, enum review_what what, size_t subject)
{
    return what <= REVIEW_GROWTH ? v->holding->paddock[subject].id : v->holding->animal[subject].id;
}

static void add_what(const struct review_view *v, enum review_what what, size_t subject, size_t lead, struct buf *b)
{
    char text[2 * LIMIT_NAME];
    snprintf(text, sizeof text, "%s:%s", review_what_name[what], review_id(v, what, subject));
    json_key_string(b, "what", text);
    buf_addf(b, ",\"lead_days\":%zu,", replay_lead[lead]);
}

static void add_score(const struct review_view *v, const struct review_score *s, struct buf *b)
{
    add_what(v, s->what, s->subject, s->lead, b);
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

static void add_tests(const struct review_view *v, struct buf *b)
{
    for (size_t i = 0; i < v->holding->paddocks; i++) {
        const char *id = v->holding->paddock[i].id;
        struct review_tests t = review_tests_find(v, id);
        const struct {
            const char *score;
            double value;
        } row[] = {{"mae_ln", t.mae}, {"me_ln", t.me}, {"coverage80", t.coverage}};
        for (size_t k = 0; t.n && k < sizeof row / sizeof row[0]; k++) {
            char what[2 * LIMIT_NAME];
            snprintf(what, sizeof what, "grass_tests:%s", id);
            buf_add(b, ",\n{");
            json_key_string(b, "what", what);
            buf_addf(b, ",\"lead_days\":0,\"score\":\"%s\",", row[k].score);
            json_key_number(b, "value", row[k].value, DECIMALS);
            buf_addf(b, ",\"low\":null,\"high\":null,\"rival\":null,\"n\":%zu}", t.n);
        }
    }
}

static void add_reliability(const struct review_view *v, const struct review_reliability *r, struct buf *b)
{
    add_what(v, r->what, r->subject, r->lead, b);
    buf_add(b, "\"bins\":[");
    for (size_t i = 0; i < REVIEW_BINS; i++) {
        buf_add(b, i ? ",{" : "{");
        json_key_number(b, "chance", (double)i / (REVIEW_BINS - 1), 2);
        buf_add_char(b, ',');
        json_key_number(b, "happened", r->happened[i] / r->n[i], DECIMALS);
        buf_addf(b, ",\"n\":%.0f}", r->n[i]);
    }
    buf_add_char(b, ']');
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
    add_tests(v, b);
    buf_add(b, "],\"reliability\":[");
    for (size_t i = 0; i < v->review->reliabilities; i++) {
        buf_add(b, i ? ",\n{" : "{");
        add_reliability(v, &v->review->reliability[i], b);
        buf_add_char(b, '}');
    }
    buf_add(b, "]}\n");
}
