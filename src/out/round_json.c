/* The round as JSON. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/json.h"
#include "out/round.h"

static void add_holding(const struct round_row *r, size_t rank, struct buf *b)
{
    const char *reason[ROUND_REASONS];
    size_t n = 0;
    for (int k = 0; k < ROUND_REASONS; k++) {
        if (r->reasons >> k & 1u) {
            reason[n++] = round_kinds[k].id;
        }
    }
    buf_add(b, rank > 1 ? ",\n{" : "\n{");
    json_key_string(b, "path", r->path);
    buf_add_char(b, ',');
    json_key_string(b, "name", r->name);
    buf_addf(b, ",\"rank\":%zu,", rank);
    json_key_string(b, "call", round_call_ids[round_call_of(r->reasons)]);
    buf_addf(b, ",\"score\":%u,", round_score(r->reasons));
    json_key_date(b, "due", r->due);
    buf_add_char(b, ',');
    if (r->turnout == ROUND_UNADVISED) {
        buf_add(b, "\"turnout\":null");
    } else {
        json_key_string(b, "turnout", turnout_name((enum turnout)r->turnout));
    }
    buf_add_char(b, ',');
    json_key_texts(b, "reasons", reason, n);
    buf_add_char(b, ',');
    json_key_texts(b, "why", r->why, r->whys);
    buf_addf(b, ",\"why_more\":%zu,", r->more);
    if (r->fault[0]) {
        json_key_string(b, "error", r->fault);
    } else {
        buf_add(b, "\"error\":null");
    }
    buf_add_char(b, '}');
}

void round_json(const struct round_view *v, struct buf *b)
{
    const char *credit[ROUND_CREDITS];
    buf_add(b, "{\"schema\":1,\"program\":\"sugarlea\",");
    json_key_string(b, "version", SUGARLEA_VERSION);
    buf_add_char(b, ',');
    json_key_date(b, "date", v->date);
    buf_add(b, ",\"holdings\":[");
    for (size_t i = 0; i < v->n; i++) {
        add_holding(&v->row[i], i + 1, b);
    }
    buf_add(b, "],\n");
    json_key_texts(b, "credits", credit, round_credits(v, credit));
    buf_add_char(b, ',');
    json_cautions(b);
    buf_add(b, "}\n");
}
