/* The hay plan for people: the answer in sentences, then a table, then where it comes from.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/hay.h"

#include "base/json_scan.h"
#include "out/hay_words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum {
    LINE = 640,
    BALES_TEXT = TEXT_DAY + UNITS_TEXT,
    GROUP_WIDTH = 18,
    GROUP_WIDEST = 27 /* of 80 columns */,
    FIGURES_WIDTH = 24
};

static void heading(const struct hay_sheet *s)
{
    const struct hay_view *v = s->v;
    const struct hay_plan *p = &v->plan;
    char line[LINE], first[TEXT_DAY], last[TEXT_DAY], date[DATE_TEXT];
    snprintf(line, sizeof line, "Hay from %s to %s%s%s", text_day(p->first, first), text_day(p->until, last),
             v->holding->name[0] ? "  " : "", v->holding->name);
    text_bold(&s->page, line);
    buf_add_char(s->page.b, '\n');
    if (p->years) {
        snprintf(line, sizeof line,
                 "What the advice will give, through the weather of %zu past years (%d to %d). Weather recorded to %s.",
                 p->years, v->first_year, v->last_year, date_format(v->trust->recorded_to, date));
    } else {
        snprintf(line, sizeof line, "By table values alone, without weather: as if no grass were eaten.");
    }
    text_wrap(&s->page, "", line);
    for (size_t i = 0; i < v->trust->warnings; i++) {
        text_wrap(&s->page, "Note: ", v->trust->warning[i]);
    }
    buf_add_char(s->page.b, '\n');
}

/* The store by its bales where a lot counts them. */
static const char *store_text(const struct hay_plan *p, enum units u, char *text, size_t size)
{
    char kg[UNITS_TEXT];
    units_text(u, AMOUNT_MASS, p->stock.weighed_kg, 0, kg);
    if (!isnan(p->stock.counted)) {
        snprintf(text, size, "Your %.0f bales (%s)", p->stock.counted, kg);
    } else {
        snprintf(text, size, "Your %s of hay", kg);
    }
    return text;
}

static void say_end(const struct hay_sheet *s)
{
    const struct hay_plan *p = &s->v->plan;
    const char *times = p->years ? "year" : "time";
    char line[LINE], store[TEXT_DAY + TEXT_DAY], early[TEXT_DAY], middle[TEXT_DAY];
    store_text(p, s->v->trust->units, store, sizeof store);
    if (isnan(p->stock.kg)) {
        snprintf(line, sizeof line,
                 "How much hay is in store, the holding does not say: what follows is all that is "
                 "needed.");
    } else if (p->stock.kg <= 0.0) {
        snprintf(line, sizeof line, "There is no hay in store.");
    } else if (!isnan(p->runs_out.p50)) {
        snprintf(line, sizeof line, "%s run out about %s; 1 %s in 10, as early as %s.", store,
                 text_day(p->runs_out.p50, middle), times, text_day(p->runs_out.p10, early));
    } else if (!isnan(p->runs_out.p10)) {
        snprintf(line, sizeof line, "%s are likely to last to %s; yet 1 %s in 10, they run out by %s.", store,
                 text_day(p->until, middle), times, text_day(p->runs_out.p10, early));
    } else {
        snprintf(line, sizeof line, "%s last to %s, 9 %ss in 10 and more.", store, text_day(p->until, middle), times);
    }
    text_wrap(&s->page, "", line);
}

/* "46 bales of 18 kg" */
static const char *bales_text(const struct hay_sheet *s, double n, char *text)
{
    char kg[UNITS_TEXT];
    snprintf(text, BALES_TEXT, "%.0f bale%s of %s", n, n == 1.0 ? "" : "s",
             units_text(s->v->trust->units, AMOUNT_MASS, s->v->plan.stock.bale_kg, 0, kg));
    return text;
}

static void say_purchase(const struct hay_sheet *s)
{
    const struct hay_plan *p = &s->v->plan;
    const char *times = p->years ? "years" : "times";
    char line[LINE], less[BALES_TEXT];
    double price = s->v->holding->price_per_bale;
    size_t n = 0;
    if (p->bales_p95 <= 0.0) {
        n = (size_t)snprintf(line, sizeof line, "Nothing has to be bought: that is enough 19 %s in 20.", times);
    } else if (p->bales_p80 <= 0.0 || p->bales_p80 == p->bales_p95) {
        n = (size_t)snprintf(line, sizeof line, "Buy %s to be safe 19 %s in 20", bales_text(s, p->bales_p95, less),
                             times);
    } else {
        n = (size_t)snprintf(line, sizeof line, "Buy %s to be safe 8 %s in 10, %.0f to be safe 19 in 20",
                             bales_text(s, p->bales_p80, less), times, p->bales_p95);
    }
    if (p->bales_p95 > 0.0 && !isnan(price)) {
        n += (size_t)snprintf(line + n, sizeof line - n, ", at %.2f a bale: ", price);
        if (p->bales_p80 > 0.0 && p->bales_p80 < p->bales_p95) {
            n += (size_t)snprintf(line + n, sizeof line - n, "%.2f or ", p->cost_p80);
        }
        snprintf(line + n, sizeof line - n, "%.2f.", p->cost_p95);
    } else if (p->bales_p95 > 0.0) {
        snprintf(line + n, sizeof line - n, ".");
    }
    text_wrap(&s->page, "", line);
}

/* Snow, mud, a gate that stays shut: the plan counts on grass, and this is without. */
static void say_off_grass(const struct hay_sheet *s)
{
    const struct hay_plan *p = &s->v->plan;
    char line[LINE], bales[BALES_TEXT], kg[UNITS_TEXT];
    if (p->years == 0) {
        return;
    }
    snprintf(line, sizeof line, "Were they kept off grass the whole time, they would need %s (middle): %s to buy.",
             units_text(s->v->trust->units, AMOUNT_MASS, p->off_grass_kg, 0, kg),
             bales_text(s, p->off_grass_bales, bales));
    text_wrap(&s->page, "", line);
}

static void say_order(const struct hay_sheet *s)
{
    const struct hay_plan *p = &s->v->plan;
    char line[LINE], by[TEXT_DAY];
    if (p->order_by == DATE_NONE) {
        return;
    }
    double lead = s->v->params->hay.lead_days;
    if (p->order_by == p->first) {
        snprintf(line, sizeof line, "Order now: %.0f days are reckoned from order to store.", lead);
    } else {
        snprintf(line, sizeof line, "Order by %s: %.0f days are reckoned from order to store.",
                 text_day(p->order_by, by), lead);
    }
    text_wrap(&s->page, "", line);
}

static void add_need(const struct hay_sheet *s, struct outlook_band need)
{
    enum units u = s->v->trust->units;
    buf_addf(s->page.b, "  %8.0f %7.0f %7.0f\n", units_value(u, AMOUNT_MASS, need.p10),
             units_value(u, AMOUNT_MASS, need.p50), units_value(u, AMOUNT_MASS, need.p90));
}

/* Of the column of groups: ids may be long. */
static int group_width(const struct holding *h)
{
    size_t width = GROUP_WIDTH;
    for (size_t i = 0; i < h->animals; i++) {
        size_t n = json_scan_letters(h->animal[i].id, strlen(h->animal[i].id));
        width = n > width ? n : width;
    }
    return width < GROUP_WIDEST ? (int)width : GROUP_WIDEST;
}

static void table(const struct hay_sheet *s)
{
    const struct holding *h = s->v->holding;
    enum units u = s->v->trust->units;
    struct buf *b = s->page.b;
    int width = group_width(h);
    buf_addf(b, "\n  %-*s        %s a head and day     %s to the end, with losses\n", width, "",
             units_name(u, AMOUNT_MASS), units_name(u, AMOUNT_MASS));
    buf_addf(b, "  %-*s  head   likely off grass       p10     p50     p90\n", width, "group");
    for (size_t i = 0; i < h->animals; i++) {
        const struct hay_group g = s->v->plan.group[i];
        buf_add(b, "  ");
        buf_add_column(b, h->animal[i].id, (size_t)width);
        buf_addf(b, " %5d %8.2f %9.2f", h->animal[i].count, units_value(u, AMOUNT_MASS, g.eaten_kg_head),
                 units_value(u, AMOUNT_MASS, g.table_kg_head));
        add_need(s, g.need_kg);
    }
    if (h->animals > 1) {
        buf_addf(b, "  %-*s", width + FIGURES_WIDTH, "all");
        add_need(s, s->v->plan.need_kg);
    }
}

static void pasture(const struct hay_sheet *s, size_t i)
{
    const struct hay_pasture *p = &s->v->plan.pasture[i];
    enum units u = s->v->trust->units;
    char text[4][UNITS_TEXT], standing[UNITS_TEXT], line[LINE], lead[LIMIT_NAME + 4], early[TEXT_DAY], middle[TEXT_DAY];
    const double kg[] = {p->growth_kg.p10, p->growth_kg.p90, p->eaten_kg.p10, p->eaten_kg.p90};
    for (size_t k = 0; k < sizeof kg / sizeof kg[0]; k++) {
        units_number(u, AMOUNT_MASS, kg[k], 0, text[k]);
    }
    size_t n =
        (size_t)snprintf(line, sizeof line, "%s of dry matter stand within reach, %s to %s grow; %s to %s are eaten.",
                         units_text(u, AMOUNT_MASS, p->standing_kg, 0, standing), text[0], text[1], text[2], text[3]);
    if (p->short_from.p50 <= (double)s->v->plan.first) {
        snprintf(line + n, sizeof line - n,
                 " Grazing is short from today on. Hay makes up for it, and is in the need.");
    } else if (!isnan(p->short_from.p50)) {
        snprintf(line + n, sizeof line - n,
                 " Grazing is short from about %s on, in %.0f days; 1 year in 10, from %s. Hay makes up for it, and is "
                 "in the need.",
                 text_day(p->short_from.p50, middle), p->short_from.p50 - (double)s->v->plan.first,
                 text_day(p->short_from.p10, early));
    } else if (!isnan(p->short_from.p10)) {
        snprintf(line + n, sizeof line - n, " The grass is likely to last; 1 year in 10, it is short from %s on.",
                 text_day(p->short_from.p10, early));
    } else {
        snprintf(line + n, sizeof line - n, " The grass lasts.");
    }
    snprintf(lead, sizeof lead, "  %s: ", s->v->holding->paddock[i].id);
    text_wrap(&s->page, lead, line);
}

static void pastures(const struct hay_sheet *s)
{
    const struct hay_plan *p = &s->v->plan;
    bool any = false;
    for (size_t i = 0; p->pasture && i < s->v->holding->paddocks; i++) {
        if (p->pasture[i].groups > 0) {
            buf_add(s->page.b, any ? "" : "\nGrass beside it, 8 years in 10, to the end:\n");
            pasture(s, i);
            any = true;
        }
    }
}

static void explain(const struct hay_sheet *s)
{
    const struct hay_plan *p = &s->v->plan;
    char line[LINE], grass[LINE / 4] = "";
    if (p->pasture) {
        snprintf(grass, sizeof grass, "Of the grass that stands and grows, %.0f %% counts as eaten at most. ",
                 100.0 * s->v->params->hay.usable_share);
    }
    snprintf(line, sizeof line,
             "Hay is as fed. Losses are %s: %g %% in the store, %g %% at feeding. %sThe ranges hold %sa %.0f %% "
             "doubt (one SD) of bales weighed by eye and hay fed by the armful. Weigh some bales, and count again each "
             "month.",
             p->losses.marked_up ? "added on top (--mark-up: buys less than is lost)" : "divided out",
             p->losses.store_pct, p->losses.feed_pct, grass, p->years ? "the weather, and " : "", 100.0 * p->doubt);
    buf_add_char(s->page.b, '\n');
    text_wrap(&s->page, "", line);
    for (size_t i = 0; i < s->v->trust->credits; i++) {
        text_wrap(&s->page, "", s->v->trust->credit[i]);
    }
    text_wrap(&s->page, "",
              "Planning help, not a diagnosis. Never feed less than the advice says to make hay last: ask your vet. "
              "Change feed over two weeks; never feed mouldy, wet or heating hay.");
}

void hay_text(const struct hay_view *v, bool colour, int width, struct buf *b)
{
    const struct hay_sheet s = {v, {b, width, colour}};
    heading(&s);
    say_end(&s);
    say_purchase(&s);
    say_order(&s);
    say_off_grass(&s);
    table(&s);
    if (v->arithmetic) {
        hay_arithmetic(&s);
    }
    pastures(&s);
    explain(&s);
}
