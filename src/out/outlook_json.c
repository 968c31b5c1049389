/* SPDX-License-Identifier: GPL-3.0-or-later
 * The outlook for machines. */
#include "out/json.h"
#include "out/outlook.h"

#include <math.h>
#include <stdio.h>

void outlook_json_numbers(struct buf *b, const struct outlook_band *x, int decimals)
{
    json_key_number(b, "p10", x->p10, decimals);
    buf_add_char(b, ',');
    json_key_number(b, "p50", x->p50, decimals);
    buf_add_char(b, ',');
    json_key_number(b, "p90", x->p90, decimals);
}

void outlook_json_dates(struct buf *b, const char *key, const struct outlook_band *x)
{
    const struct {
        const char *name;
        double day;
    } row[] = {{"p10", x->p10}, {"p50", x->p50}, {"p90", x->p90}};
    buf_addf(b, "\"%s\":{", key);
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        buf_add(b, i ? "," : "");
        json_key_date(b, row[i].name, isnan(row[i].day) ? DATE_NONE : (date_t)row[i].day);
    }
    buf_add_char(b, '}');
}

static void begin_month(struct buf *b, const struct outlook *o, size_t m)
{
    buf_addf(b, "%s{\"month\":\"%04d-%02d\",\"days\":%zu,", m ? "," : "", o->month[m].year, o->month[m].month,
             o->month[m].days);
}

static void add_animal(struct buf *b, const struct outlook_view *v, size_t i)
{
    const struct outlook_animal *a = &v->outlook.animal[i];
    buf_add(b, i ? "," : "");
    buf_add(b, "\n{");
    json_key_string(b, "id", v->holding->animal[i].id);
    buf_add_char(b, ',');
    outlook_json_dates(b, "onset", &a->onset);
    buf_add_char(b, ',');
    outlook_json_dates(b, "end", &a->end);
    buf_add_char(b, ',');
    json_key_number(b, "share_without_season", a->share_none, 3);
    buf_add(b, ",\"restricted_days\":[");
    for (size_t m = 0; m < v->outlook.months; m++) {
        begin_month(b, &v->outlook, m);
        outlook_json_numbers(b, &a->restricted[m], 1);
        buf_add(b, ",\"brief_or_none\":{");
        outlook_json_numbers(b, &a->brief[m], 1);
        buf_add(b, "},\"tested\":");
        if (isnan(a->tested[m].p50)) {
            buf_add(b, "null}");
        } else {
            buf_add_char(b, '{');
            outlook_json_numbers(b, &a->tested[m], 1);
            buf_add(b, "}}");
        }
    }
    buf_add(b, "]}");
}

static void add_months(struct buf *b, const struct outlook *o, const char *key, const struct outlook_band *x)
{
    buf_addf(b, ",\"%s\":[", key);
    for (size_t m = 0; m < o->months; m++) {
        begin_month(b, o, m);
        outlook_json_numbers(b, &x[m], 1);
        buf_add_char(b, '}');
    }
    buf_add_char(b, ']');
}

void outlook_json(const struct outlook_view *v, struct buf *b)
{
    const struct ensemble *e = &v->ensemble;
    buf_add(b, "{\"schema\":1,");
    json_key_date(b, "as_of", e->first);
    buf_add_char(b, ',');
    json_key_date(b, "until", e->first + (date_t)e->days - 1);
    buf_addf(b, ",\"members\":%zu,\"seed\":%lu,\"years\":%zu,\"draws\":%zu,", e->years * (e->draws ? e->draws : 1),
             v->seed, e->years, e->draws);
    json_key_date(b, "recorded_to", v->recorded_to);
    buf_add_char(b, ',');
    json_key_date(b, "forecast_to", v->forecast_to);
    buf_add(b, ",\"animals\":[");
    for (size_t i = 0; i < e->animals; i++) {
        add_animal(b, v, i);
    }
    buf_add(b, "],\"paddocks\":[");
    for (size_t i = 0; i < e->paddocks; i++) {
        buf_add(b, i ? ",\n{" : "\n{");
        json_key_string(b, "id", v->holding->paddock[i].id);
        add_months(b, &v->outlook, "growth_kg_dm_ha", v->outlook.paddock[i].growth);
        add_months(b, &v->outlook, "nsc_g_per_kg", v->outlook.paddock[i].sugar);
        buf_add_char(b, '}');
    }
    buf_add_char(b, ']');
    buf_add_char(b, ',');
    json_key_texts(b, "warnings", v->warning, v->warnings);
    buf_add_char(b, ',');
    json_key_texts(b, "credits", v->credit, v->credits);
    buf_add(b, "}\n");
}
