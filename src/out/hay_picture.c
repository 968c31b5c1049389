/* The store as a fan that falls to nothing. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/hay.h"
#include "out/series.h"
#include "out/text.h"

#include <math.h>
#include <stdio.h>

/* Height of plots/hay.gp, units. */
enum { BODY = 300, LINE = 512 };

static void add_left(const struct hay_plan *p, struct plot *out)
{
    plot_block(out, "left");
    plot_row(out, (double[]){p->first, p->stock.kg, p->stock.kg, p->stock.kg}, 4);
    for (size_t k = 0; k < p->days; k++) {
        plot_row(out, (double[]){p->first + (double)k + 1.0, p->left_low[k], p->left_middle[k], p->left_high[k]}, 4);
    }
    plot_block_end(out);
}

/* Lines across: x, and which (1 order, 2 runs out 1 in 10, 3 in the middle). */
static void add_marks(const struct hay_plan *p, struct plot *out)
{
    static const char *const words[] = {"order", "1 in 10", "empty"};
    const double at[] = {p->order_by == DATE_NONE ? (double)NAN : (double)p->order_by, p->runs_out.p10,
                         p->runs_out.p50};
    const char *text[3] = {""};
    plot_number(out, "marks", 0);
    plot_block(out, "mark");
    size_t n = 0;
    for (size_t i = 0; i < 3; i++) {
        if (!isnan(at[i])) {
            plot_row(out, &at[i], 1);
            text[n++] = words[i];
        }
    }
    if (n == 0) {
        plot_row(out, (double[]){-1.0}, 1); /* a block of no rows is an error to gnuplot */
    }
    plot_block_end(out);
    plot_number(out, "marks", (double)n);
    plot_texts(out, "mark_text", text, n ? n : 1);
}

static void explain(const struct hay_view *v, struct plot *out)
{
    const struct hay_plan *p = &v->plan;
    char text[LINE], early[TEXT_DAY], middle[TEXT_DAY];
    if (p->years) {
        snprintf(text, sizeof text, "Through the weather of %zu past years (%d to %d).", p->years, v->first_year,
                 v->last_year);
    } else {
        snprintf(text, sizeof text, "By table values alone, without weather: as if no grass were eaten.");
    }
    plot_caption(out, text);
    plot_caption(out, "Line: the middle. Band: 8 cases in 10 lie within it. Losses are counted as the hay is used.");
    if (!isnan(p->runs_out.p50)) {
        snprintf(text, sizeof text, "The store is empty about %s; 1 time in 10, by %s.",
                 text_day(p->runs_out.p50, middle), text_day(p->runs_out.p10, early));
    } else if (!isnan(p->runs_out.p10)) {
        snprintf(text, sizeof text, "1 time in 10, the store is empty by %s.", text_day(p->runs_out.p10, early));
    } else {
        snprintf(text, sizeof text, "9 times in 10 and more, it lasts to the end.");
    }
    plot_caption(out, text);
    snprintf(text, sizeof text, "To buy: %.0f bales of %.0f kg to be safe 8 times in 10, %.0f for 19 in 20.",
             p->bales_p80, p->stock.bale_kg, p->bales_p95);
    plot_caption(out, text);
    plot_caption(out, picture_closing);
}

void hay_picture(const struct hay_view *v, struct plot *out)
{
    const struct hay_plan *p = &v->plan;
    char about[LINE], first[DATE_TEXT], last[DATE_TEXT];
    plot_init(out, "hay", BODY);
    snprintf(about, sizeof about, "%s%s%s to %s", v->holding->name, v->holding->name[0] ? ": " : "",
             date_format(p->first, first), date_format(p->until, last));
    plot_title(out, "Hay in store", about);
    plot_time_axis(out, p->first, p->until);
    plot_scale(out, "kg", fmax(p->stock.kg, 1.0), 5);
    plot_number(out, "bale_kg", p->stock.bale_kg);
    add_left(p, out);
    add_marks(p, out);
    explain(v, out);
}
