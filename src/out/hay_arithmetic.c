/* The sums behind a hay plan, one a line. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/hay_words.h"

#include <math.h>
#include <stdio.h>

static void losses(const struct hay_plan *p, struct buf *b, double eaten)
{
    double store = p->losses.store_pct / 100.0, feed = p->losses.feed_pct / 100.0;
    if (p->losses.marked_up) {
        buf_addf(b, "  losses added: %.0f x (1 + %.3f) x (1 + %.3f) = %.0f kg in store\n", eaten, store, feed,
                 p->need_kg.p50);
    } else {
        buf_addf(b, "  losses: %.0f / ((1 - %.3f) x (1 - %.3f)) = %.0f kg in store\n", eaten, store, feed,
                 p->need_kg.p50);
    }
}

static void purchase(const struct hay_plan *p, struct buf *b, const char *safe, double need, double bales)
{
    double stock = isnan(p->stock.kg) ? 0.0 : p->stock.kg, short_by = need - stock;
    buf_addf(b, "  %s: %.0f kg, less %.0f in store = %.0f", safe, need, stock, short_by);
    if (short_by > 0.0) {
        buf_addf(b, "; / %.1f kg = %.2f, %.0f whole bales", p->stock.bale_kg, short_by / p->stock.bale_kg, bales);
    }
    buf_add_char(b, '\n');
}

static void lots(const struct hay_view *v, struct buf *b)
{
    for (size_t i = 0; i < v->holding->lots; i++) {
        const struct hay_lot *lot = &v->holding->lot[i];
        double kg = hay_lot_kg(lot, &v->params->hay);
        if (isnan(kg)) {
            continue;
        }
        buf_addf(b, "  %s: ", lot->id);
        if (!isnan(lot->bales)) {
            buf_addf(b, "%.0f bales x %.1f kg = ", lot->bales, hay_bale_kg(lot, &v->params->hay));
        } else if (!isnan(lot->m3)) {
            buf_addf(b, "%.1f m3 x %.1f kg/m3 = ", lot->m3, kg / lot->m3);
        }
        buf_addf(b, "%.0f kg%s\n", kg, lot->feed->is_straw ? " of straw" : "");
    }
}

void hay_arithmetic(const struct hay_sheet *s)
{
    const struct hay_view *v = s->v;
    const struct hay_plan *p = &v->plan;
    struct buf *b = s->page.b;
    double eaten = p->need_kg.p50 / hay_gross(1.0, &p->losses);
    buf_add(b, "\nThe sums, middle figures:\n");
    for (size_t i = 0; i < v->holding->animals; i++) {
        const struct animal_group *g = &v->holding->animal[i];
        double head = p->group[i].eaten_kg_head;
        buf_addf(b, "  %s: %d x %.2f kg x %zu days = %.0f kg eaten\n", g->id, g->count, head, p->days,
                 g->count * head * (double)p->days);
    }
    buf_addf(b, "  all: %.0f kg eaten%s\n", eaten,
             v->holding->animals > 1 && p->years ? " (the middle of all years together)" : "");
    losses(p, b, eaten);
    lots(v, b);
    buf_addf(b, "  store: %.0f kg%s\n", isnan(p->stock.kg) ? 0.0 : p->stock.kg,
             p->stock.lots > 1 ? ", other lots turned into the first one by dry matter" : "");
    purchase(p, b, "safe 8 in 10", p->need_p80, p->bales_p80);
    purchase(p, b, "safe 19 in 20", p->need_p95, p->bales_p95);
}
