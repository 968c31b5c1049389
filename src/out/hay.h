/* The hay plan, for people, for machines and as a picture. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_OUT_HAY_H
#define SUGARLEA_OUT_HAY_H

#include "hay/plan.h"
#include "out/plot.h"
#include "out/today.h"

struct hay_view {
    const struct holding *holding;
    const struct params *params;
    const struct today_view *trust; /* notes, credits, and how far the weather reaches */
    struct hay_plan plan;
    int first_year, last_year; /* of the past years; 0 by table values */
    bool arithmetic;           /* text: say how the figures come about */
};

void hay_text(const struct hay_view *v, bool colour, int width, struct buf *b);

/* Schema 1. Beside what the interface names: "basis" ("weather" or "table"), "years",
 * "stock_weighed_kg", "stock_bales" (stock_kg is in the first lot's dry matter), "bale_kg", "losses"
 * {"store_percent","feed_percent","convention"}, "doubt_ln_sd"; for each group "count", "eaten_kg_per_head"; "paddocks"
 * [{"id","standing_kg_dm","growth_kg_dm", "eaten_kg_dm","grass_short_from"}] (empty by table values). null: not known,
 * or not before the end. */
void hay_json(const struct hay_view *v, struct buf *b);

/* What is left in the store, day by day; plot_release ends it. Needs a stock (plan.left_middle). */
void hay_picture(const struct hay_view *v, struct plot *out);

#endif
