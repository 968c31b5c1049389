/* The hay plan for machines. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/hay.h"
#include "out/json.h"
#include "out/outlook.h"

#include <math.h>

static void add_band(struct buf *b, const char *key, const struct outlook_band *x)
{
    buf_addf(b, "\"%s\":{", key);
    outlook_json_numbers(b, x, 0);
    buf_add_char(b, '}');
}

static void add_safe(struct buf *b, const char *key, double p80, double p95, int decimals)
{
    buf_addf(b, ",\"%s\":{", key);
    json_key_number(b, "p80", p80, decimals);
    buf_add_char(b, ',');
    json_key_number(b, "p95", p95, decimals);
    buf_add_char(b, '}');
}

static void add_group(struct buf *b, const struct hay_view *v, size_t i)
{
    buf_add(b, i ? ",\n{" : "\n{");
    json_key_string(b, "id", v->holding->animal[i].id);
    buf_addf(b, ",\"count\":%d,", v->holding->animal[i].count);
    json_key_number(b, "eaten_kg_per_head", v->plan.group[i].eaten_kg_head, 3);
    buf_add_char(b, ',');
    add_band(b, "need_kg", &v->plan.group[i].need_kg);
    buf_add_char(b, '}');
}

static void add_paddock(struct buf *b, const struct hay_view *v, size_t i)
{
    const struct hay_pasture *p = &v->plan.pasture[i];
    buf_add(b, i ? ",\n{" : "\n{");
    json_key_string(b, "id", v->holding->paddock[i].id);
    buf_add_char(b, ',');
    json_key_number(b, "standing_kg_dm", p->standing_kg, 0);
    buf_add_char(b, ',');
    add_band(b, "growth_kg_dm", &p->growth_kg);
    buf_add_char(b, ',');
    add_band(b, "eaten_kg_dm", &p->eaten_kg);
    buf_add_char(b, ',');
    outlook_json_dates(b, "grass_short_from", &p->short_from);
    buf_add_char(b, '}');
}

static void add_plan(struct buf *b, const struct hay_plan *p)
{
    add_band(b, "need_kg", &p->need_kg);
    buf_add_char(b, ',');
    json_key_number(b, "stock_kg", p->stock.kg, 1);
    buf_add_char(b, ',');
    json_key_number(b, "stock_weighed_kg", isnan(p->stock.kg) ? (double)NAN : p->stock.weighed_kg, 1);
    buf_add_char(b, ',');
    json_key_number(b, "stock_bales", isnan(p->stock.kg) ? (double)NAN : p->stock.counted, 1);
    buf_add_char(b, ',');
    json_key_number(b, "bale_kg", p->stock.bale_kg, 1);
    buf_add_char(b, ',');
    outlook_json_dates(b, "runs_out", &p->runs_out);
    add_safe(b, "bales_to_buy", p->bales_p80, p->bales_p95, 0);
    add_safe(b, "cost", p->cost_p80, p->cost_p95, 2);
    buf_add_char(b, ',');
    json_key_date(b, "order_by", p->order_by);
    buf_add(b, ",\"off_grass\":{");
    json_key_number(b, "need_kg", p->off_grass_kg, 0);
    buf_add_char(b, ',');
    json_key_number(b, "bales_to_buy", p->off_grass_bales, 0);
    buf_add(b, "},\"losses\":{");
    json_key_number(b, "store_percent", p->losses.store_pct, 2);
    buf_add_char(b, ',');
    json_key_number(b, "feed_percent", p->losses.feed_pct, 2);
    buf_add_char(b, ',');
    json_key_string(b, "convention", p->losses.marked_up ? "marked-up" : "divided");
    buf_add(b, "},");
    json_key_number(b, "doubt_ln_sd", p->doubt, 3);
}

void hay_json(const struct hay_view *v, struct buf *b)
{
    const struct hay_plan *p = &v->plan;
    buf_add(b, "{\"schema\":1,");
    json_key_date(b, "as_of", p->first);
    buf_add_char(b, ',');
    json_key_date(b, "until", p->until);
    buf_add_char(b, ',');
    json_key_string(b, "basis", p->years ? "weather" : "table");
    buf_addf(b, ",\"years\":%zu,", p->years);
    add_plan(b, p);
    buf_add(b, ",\"groups\":[");
    for (size_t i = 0; i < v->holding->animals; i++) {
        add_group(b, v, i);
    }
    buf_add(b, "],\"paddocks\":[");
    for (size_t i = 0; p->pasture && i < v->holding->paddocks; i++) {
        add_paddock(b, v, i);
    }
    buf_add(b, "],");
    json_key_texts(b, "warnings", v->trust->warning, v->trust->warnings);
    buf_add_char(b, ',');
    json_key_texts(b, "credits", v->trust->credit, v->trust->credits);
    buf_add(b, "}\n");
}
