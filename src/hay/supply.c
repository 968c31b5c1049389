/* A pool of grass for each paddock and year. SPDX-License-Identifier: GPL-3.0-or-later */
#include "hay/supply.h"

#include "hay/band.h"

#include <assert.h>
#include <math.h>

struct pool {
    const struct hay_ask *ask;
    struct ensemble *given;
    size_t paddock;
    double area, share;
    double standing, most; /* kg DM/ha this morning; usable kg DM, never more than that */
};

double hay_usable_kg(double area_ha, double herbage_kg_ha, double share)
{
    assert(share >= 0.0 && share <= 1.0);
    return area_ha * herbage_kg_ha * share;
}

static struct pool pool_of(const struct hay_ask *ask, size_t p, struct ensemble *given)
{
    const struct paddock *d = &ask->h->paddock[p];
    const struct sward *sward = &ask->now->paddock[p].sward;
    double standing = sward_available_kg_ha(sward), share = ask->p->hay.usable_share;
    struct pool pool = {ask, given, p, d->area_ha, share, standing, HUGE_VAL};
    if (d->kept.how != KEPT_STOCKED) {
        double kept = d->kept.cover_kg_ha - sward_cover_of_height(sward, sward->kind[0]->graze_floor_cm);
        pool.most = hay_usable_kg(d->area_ha, fmax(standing, kept), share);
    }
    return pool;
}

/* kg DM that all groups of the paddock would eat by the advice. */
static double wanted(const struct pool *pool, size_t year, size_t day)
{
    const struct hay_ask *ask = pool->ask;
    double kg = 0.0;
    for (size_t i = 0; i < ask->h->animals; i++) {
        const struct animal_group *g = &ask->h->animal[i];
        bool here = g->paddock == pool->paddock;
        kg += here ? g->count * (double)ask->e->grass[ensemble_at(ask->e, i, year, day)] : 0.0;
    }
    return kg;
}

/* Each group eats `part` of the grass it would, and hay for the rest. */
static void give(const struct pool *pool, size_t year, size_t day, double part)
{
    assert(part >= 0.0 && part <= 1.0);
    const struct hay_ask *ask = pool->ask;
    for (size_t i = 0; i < ask->h->animals; i++) {
        const struct animal_group *g = &ask->h->animal[i];
        if (g->paddock != pool->paddock) {
            continue;
        }
        size_t from = ensemble_at(ask->e, i, year, day), to = ensemble_at(pool->given, i, year, day);
        double grass = (double)ask->e->grass[from], dm = hay_lot_dm_pct(run_hay_of(ask->h, g), ask->p) / 100.0;
        pool->given->grass[to] = (float)(part * grass);
        pool->given->hay[to] = (float)((double)ask->e->hay[from] + (1.0 - part) * grass / dm);
    }
}

struct year_sums {
    double growth_kg, eaten_kg, short_from; /* day, HAY_LASTS never */
};

static struct year_sums pass_year(const struct pool *pool, size_t year)
{
    const struct ensemble *e = pool->ask->e;
    double there = fmin(hay_usable_kg(pool->area, pool->standing, pool->share), pool->most);
    struct year_sums sums = {.short_from = HAY_LASTS};
    for (size_t k = 0; k < e->days; k++) {
        double growth = (double)e->growth[ensemble_at(e, pool->paddock, year, k)];
        there = fmin(there + hay_usable_kg(pool->area, growth, pool->share), pool->most);
        double want = wanted(pool, year, k), eaten = fmin(want, there);
        there -= eaten;
        assert(there >= 0.0);
        sums.growth_kg += pool->area * growth;
        sums.eaten_kg += eaten;
        sums.short_from = eaten < want && sums.short_from == HAY_LASTS ? (double)k : sums.short_from;
        give(pool, year, k, want > 0.0 ? eaten / want : 1.0);
    }
    return sums;
}

static void find_pasture(const struct pool *pool, double *room, struct hay_pasture *out)
{
    const struct ensemble *e = pool->ask->e;
    double *growth = room, *eaten = room + e->years, *from = room + 2 * e->years;
    out->standing_kg = pool->area * pool->standing;
    for (size_t i = 0; i < pool->ask->h->animals; i++) {
        out->groups += pool->ask->h->animal[i].paddock == pool->paddock;
    }
    for (size_t y = 0; y < e->years; y++) {
        struct year_sums sums = pass_year(pool, y);
        growth[y] = sums.growth_kg;
        eaten[y] = sums.eaten_kg;
        from[y] = sums.short_from;
    }
    out->growth_kg = hay_band(growth, e->years, e->years);
    out->eaten_kg = hay_band(eaten, e->years, e->years);
    out->short_from = hay_band_dates(from, e->years, e->years, e);
}

bool hay_supply(const struct hay_ask *ask, struct arena *a, struct ensemble *given, struct hay_pasture *pasture)
{
    assert(ask->now != NULL);
    size_t cells = ask->e->animals * ask->e->years * ask->e->days;
    double *room = arena_alloc(a, 3 * ask->e->years, sizeof *room);
    *given = *ask->e;
    given->draws = 0;
    given->members = given->years;
    given->growth = given->sugar = given->hours = NULL;
    given->hay = arena_alloc(a, cells, sizeof *given->hay);
    given->grass = arena_alloc(a, cells, sizeof *given->grass);
    if (!room || !given->hay || !given->grass) {
        return false;
    }
    for (size_t p = 0; p < ask->h->paddocks; p++) {
        const struct pool pool = pool_of(ask, p, given);
        find_pasture(&pool, room, &pasture[p]);
    }
    return true;
}
