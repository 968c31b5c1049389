/* One place, day by day, or two side by side. SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/season_rows.h"

#include "physics/frost.h"

static void begin(struct season_walk *w)
{
    w->run->depth = RUN_TABLE;
    w->begun = false;
}

static void morning(struct season_walk *w, size_t i)
{
    context_day(w->c, i, &w->day);
    run_sky_make(&w->sky, &w->day, w->run);
    run_morning_under(w->run, &w->day, &w->sky);
}

static void add_rows(struct season_walk *w, size_t i)
{
    const struct season_ask *a = w->ask;
    const struct weather_days *weather = &w->c->weather;
    if (i < a->first) {
        return;
    }
    struct frost_night night = frost_night_of(weather, i, w->c->holding.site.latitude);
    for (size_t p = 0; p < w->run->paddocks; p++) {
        const struct season_row row = {.site = a->site,
                                       .paddock = p,
                                       .date = w->day.recorded.date,
                                       .origin = day_origin_name((enum day_origin)weather->origin[i]),
                                       .weather = &w->day.recorded,
                                       .run = w->run,
                                       .units = a->units,
                                       .green_kg_ha = sward_green_kg_ha(&w->run->paddock[p].sward),
                                       .ground_frost = frost_ground_chance(&night) >= FROST_CAUTIOUS};
        if (a->table && (a->paddock == SEASON_ALL_PADDOCKS || a->paddock == (int)p)) {
            season_add(a->form, &row, !w->begun, w->out);
            w->begun = true;
        }
        if (w->drawn) {
            series_add(w->drawn, &row);
        }
    }
}

/* From day i on. */
static void go_on(struct season_walk *w, size_t i)
{
    for (; i <= w->ask->last; i++) {
        morning(w, i);
        run_evening_under(w->run, &w->day, &w->sky);
        add_rows(w, i);
    }
}

void season_rows(struct season_walk *w)
{
    begin(w);
    go_on(w, 0);
}

void season_rows_two(struct season_walk *one, struct season_walk *other)
{
    const struct run_evening evening[] = {{one->run, &one->day, &one->sky}, {other->run, &other->day, &other->sky}};
    size_t i = 0;
    begin(one);
    begin(other);
    for (; i <= one->ask->last && i <= other->ask->last; i++) {
        morning(one, i);
        morning(other, i);
        run_evenings_under(evening);
        add_rows(one, i);
        add_rows(other, i);
    }
    go_on(one, i); /* one of them may be longer */
    go_on(other, i);
}
