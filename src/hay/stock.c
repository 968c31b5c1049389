/* Bales, kilograms and cubic metres of hay. SPDX-License-Identifier: GPL-3.0-or-later */
#include "hay/stock.h"

#include "animal/ration.h"
#include "base/num.h"
#include "season/run.h"

#include <assert.h>
#include <math.h>

#define BALE_DUST 0.01  /* of a bale */
#define RANGE_IN_SD 4.0 /* low..high of a loss */

static const struct hay_loss *loss_of(const struct params *p, enum hay_loss_kind kind, const char *id)
{
    return id[0] ? params_loss(p, kind, id) : NULL;
}

struct hay_losses hay_losses_of(const struct holding *h, const struct params *p)
{
    const struct hay_loss *store = loss_of(p, HAY_LOSS_STORAGE, h->stored);
    const struct hay_loss *feed = loss_of(p, HAY_LOSS_FEEDING, h->fed_from);
    return (struct hay_losses){.store_pct = store ? hay_loss_planning_pct(store) : p->hay.store_loss_pct,
                               .feed_pct = feed ? hay_loss_planning_pct(feed) : p->hay.feed_loss_pct};
}

static double range_sd(const struct hay_loss *loss)
{
    if (!loss || isnan(loss->low_pct) || isnan(loss->high_pct)) {
        return 0.0;
    }
    return log((100.0 - loss->low_pct) / (100.0 - loss->high_pct)) / RANGE_IN_SD;
}

double hay_doubt(const struct holding *h, const struct params *p)
{
    double store = range_sd(loss_of(p, HAY_LOSS_STORAGE, h->stored));
    double feed = range_sd(loss_of(p, HAY_LOSS_FEEDING, h->fed_from));
    return hypot(p->hay.doubt, hypot(store, feed));
}

double hay_gross(double eaten_kg, const struct hay_losses *l)
{
    assert(eaten_kg >= 0.0);
    if (!l->marked_up) {
        return hay_to_buy(eaten_kg, l->store_pct, l->feed_pct);
    }
    return eaten_kg * (1.0 + l->store_pct / 100.0) * (1.0 + l->feed_pct / 100.0);
}

double hay_bales(double kg, double bale_kg)
{
    assert(bale_kg > 0.0);
    return fmax(ceil(kg / bale_kg - BALE_DUST), 0.0);
}

static double density(enum hay_shape shape, const struct hay_limits *l)
{
    assert(shape <= HAY_LOOSE);
    const double of[] = {[HAY_SHAPE_NONE] = (double)NAN,
                         [HAY_ROUND] = l->round_kg_m3,
                         [HAY_SQUARE] = l->square_kg_m3,
                         [HAY_LOOSE] = l->loose_kg_m3};
    return of[shape];
}

double hay_bale_kg(const struct hay_lot *lot, const struct hay_limits *l)
{
    if (!isnan(lot->bale_kg)) {
        return lot->bale_kg;
    }
    const double *m = lot->bale_m;
    double m3 = lot->shape == HAY_ROUND ? NUM_PI / 4.0 * m[0] * m[0] * m[1] : m[0] * m[1] * m[2];
    return m3 * density(lot->shape, l);
}

double hay_lot_kg(const struct hay_lot *lot, const struct hay_limits *l)
{
    if (!isnan(lot->kg)) {
        return lot->kg;
    }
    return isnan(lot->m3) ? lot->bales * hay_bale_kg(lot, l) : lot->m3 * density(lot->shape, l);
}

double hay_lot_dm_pct(const struct hay_lot *lot, const struct params *p)
{
    return isnan(lot->contents.dm_pct) ? p->limits.bale_dm_pct : lot->contents.dm_pct;
}

static bool counts(const struct holding *h, const struct hay_lot *lot)
{
    bool given = false;
    for (size_t i = 0; i < h->animals; i++) {
        given = given || run_hay_of(h, &h->animal[i]) == lot;
    }
    return given || !lot->feed->is_straw;
}

void hay_stock_add_up(const struct holding *h, const struct params *p, struct hay_stock *s)
{
    *s = (struct hay_stock){.bale_kg = p->hay.bale_kg, .dm_pct = p->limits.bale_dm_pct};
    for (size_t i = 0; i < h->lots; i++) {
        const struct hay_lot *lot = &h->lot[i];
        double dm = hay_lot_dm_pct(lot, p), kg = hay_lot_kg(lot, &p->hay), bale = hay_bale_kg(lot, &p->hay);
        if (!counts(h, lot)) {
            s->straw++;
            continue;
        }
        s->dm_pct = s->lots == 0 ? dm : s->dm_pct;
        s->lots++;
        s->unknown += isnan(kg);
        s->kg += isnan(kg) ? 0.0 : kg * dm / s->dm_pct;
        s->weighed_kg += isnan(kg) ? 0.0 : kg;
        s->counted += isnan(kg) ? 0.0 : lot->bales;
        if (!s->bale_known && !isnan(bale)) {
            s->bale_known = true;
            s->bale_kg = bale * dm / s->dm_pct;
        }
    }
    assert(s->lots + s->straw == h->lots);
    assert(s->unknown <= s->lots);
    s->kg = s->unknown == s->lots ? (double)NAN : s->kg;
}
