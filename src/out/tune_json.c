/* Tests and what they say, as JSON. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/json.h"
#include "out/tune.h"

#include <math.h>

static void test_object(const struct tune_paddock *k, const struct tune_row *row, struct buf *b)
{
    char time[DIARY_TIME_TEXT];
    buf_add_char(b, '{');
    json_key_date(b, "date", row->entry->date);
    buf_add_char(b, ',');
    if (row->entry->minute >= 0) {
        json_key_string(b, "time", diary_time_text(row->entry->minute, time));
    } else {
        buf_add(b, "\"time\":null");
    }
    buf_add_char(b, ',');
    json_key_string(b, "what", row->entry->what == DIARY_GRASS_WSC ? "wsc" : "nsc");
    buf_add_char(b, ',');
    json_key_number(b, "measured_g_per_kg", row->entry->value, 1);
    buf_add_char(b, ',');
    json_key_bool(b, "below", row->below);
    buf_add_char(b, ',');
    json_key_number(b, "modelled_g_per_kg", row->modelled, 1);
    buf_add_char(b, ',');
    json_key_number(b, "tuned_g_per_kg", exp(k->tuned.theta) * row->modelled, 1);
    buf_add_char(b, ',');
    json_key_number(b, "ln_sd", row->passed_over ? (double)NAN : row->sd, 4);
    buf_add_char(b, ',');
    json_key_bool(b, "doubtful", row->doubtful);
    buf_add_char(b, ',');
    if (row->passed_over) {
        json_key_string(b, "passed_over", row->passed_over);
    } else {
        buf_add(b, "\"passed_over\":null");
    }
    buf_add_char(b, '}');
}

static void paddock_object(const struct tune_paddock *k, struct buf *b)
{
    const struct {
        const char *key;
        double x;
    } number[] = {{"tests_used", (double)k->fit.tests},
                  {"theta", k->tuned.theta},
                  {"sd", k->fit.tests ? k->tuned.sd : (double)NAN},
                  {"factor", exp(k->tuned.theta)},
                  {"spread_untested", k->spread_out},
                  {"spread", k->spread_now},
                  {"miss_uncorrected_percent", 100.0 * (exp(k->fit.before) - 1.0)},
                  {"miss_corrected_percent", 100.0 * (exp(k->fit.after) - 1.0)}};
    buf_add_char(b, '{');
    json_key_string(b, "id", k->kept->id);
    for (size_t i = 0; i < sizeof number / sizeof number[0]; i++) {
        buf_add_char(b, ',');
        json_key_number(b, number[i].key, number[i].x, 4);
    }
    buf_add_char(b, ',');
    json_key_bool(b, "capped", k->fit.capped);
    buf_add_char(b, ',');
    json_key_bool(b, "switched_off", k->fit.off);
    buf_add(b, ",\"tests\":[");
    for (size_t i = 0; i < k->rows; i++) {
        buf_add(b, i ? "," : "");
        test_object(k, &k->row[i], b);
    }
    buf_add(b, "]}");
}

void tune_json(const struct tune_view *v, struct buf *b)
{
    buf_add(b, "{\"schema\":1,");
    json_key_string(b, "holding", v->holding->name);
    buf_add_char(b, ',');
    json_key_bool(b, "written", v->done == TUNE_WRITTEN);
    buf_add(b, ",\"paddocks\":[");
    for (size_t i = 0; i < v->paddocks; i++) {
        buf_add(b, i ? "," : "");
        paddock_object(&v->paddock[i], b);
    }
    buf_add(b, "],\"passed_over\":[");
    for (size_t i = 0; i < v->diary->strangers; i++) {
        buf_add(b, i ? ",{" : "{");
        json_key_string(b, "subject", v->diary->stranger[i].name);
        buf_add_char(b, ',');
        json_key_number(b, "entries", (double)v->diary->stranger[i].entries, 0);
        buf_add_char(b, '}');
    }
    buf_add(b, "]}\n");
}
