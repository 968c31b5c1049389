/* One place, day by day. SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/season_rows.h"

#include "physics/frost.h"

void season_rows(const struct context *c, const struct season_ask *a, struct run *r, struct series *drawn,
                 struct buf *out)
{
    struct run_day d;
    struct run_sky sky;
    bool fresh = true;
    r->depth = RUN_TABLE;
    for (size_t i = 0; i <= a->last; i++) {
        context_day(c, i, &d);
        run_sky_make(&sky, &d, r);
        run_morning_under(r, &d, &sky);
        run_evening_under(r, &d, &sky);
        if (i < a->first) {
            continue;
        }
        struct frost_night night = frost_night_of(&c->weather, i, c->holding.site.latitude);
        for (size_t p = 0; p < r->paddocks; p++) {
            const struct season_row row = {.site = a->site,
                                           .paddock = p,
                                           .date = d.recorded.date,
                                           .origin = day_origin_name((enum day_origin)c->weather.origin[i]),
                                           .weather = &d.recorded,
                                           .run = r,
                                           .units = a->units,
                                           .green_kg_ha = sward_green_kg_ha(&r->paddock[p].sward),
                                           .ground_frost = frost_ground_chance(&night) >= FROST_CAUTIOUS};
            if (a->table && (a->paddock == SEASON_ALL_PADDOCKS || a->paddock == (int)p)) {
                season_add(a->form, &row, fresh, out);
                fresh = false;
            }
            if (drawn) {
                series_add(drawn, &row);
            }
        }
    }
}
