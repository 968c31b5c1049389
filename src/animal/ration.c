/* Sums of a day's ration, dry and as fed. SPDX-License-Identifier: GPL-3.0-or-later */
#include "animal/ration.h"

#include <assert.h>
#include <math.h>

double feed_nsc(const struct feed *f, double forage_starch_pct)
{
    if (!isnan(f->nsc_pct)) {
        return f->nsc_pct;
    }
    double starch = isnan(f->starch_pct) && f->is_forage ? forage_starch_pct : f->starch_pct;
    return f->wsc_pct + starch;
}

double feed_starch(const struct feed *f, double forage_starch_pct)
{
    if (!isnan(f->starch_pct)) {
        return f->starch_pct;
    }
    if (isnan(f->nsc_pct)) {
        return f->is_forage ? forage_starch_pct : (double)NAN;
    }
    return isnan(f->wsc_pct) ? f->nsc_pct : fmax(f->nsc_pct - f->wsc_pct, 0.0);
}

static double known_or(double x, double otherwise)
{
    return isnan(x) ? otherwise : x;
}

struct ration_item ration_of_feed(const struct feed *f, double fed_kg, double nsc_else, const struct advice_limits *l)
{
    double nsc = feed_nsc(f, l->grass_starch_pct);
    return (struct ration_item){.dm_kg = fed_kg >= 0.0 ? fed_kg * known_or(f->dm_pct, l->bale_dm_pct) / 100.0 : 0.0,
                                .nsc_pct = known_or(nsc, nsc_else),
                                .starch_pct = known_or(feed_starch(f, l->grass_starch_pct), known_or(nsc, nsc_else)),
                                .ndf_pct = f->ndf_pct,
                                .is_forage = f->is_forage};
}

struct ration_sum ration_add_up(const struct ration_item *item, size_t n)
{
    assert(item != NULL || n == 0);
    struct ration_sum sum = {0};
    double ndf_kg = 0.0;
    for (size_t i = 0; i < n; i++) {
        double dm = item[i].dm_kg;
        if (dm == 0.0) {
            continue;
        }
        sum.dm_kg += dm;
        sum.nsc_g += 10.0 * dm * item[i].nsc_pct;
        sum.starch_g += 10.0 * dm * item[i].starch_pct;
        ndf_kg += dm * item[i].ndf_pct / 100.0;
        sum.forage_dm_kg += item[i].is_forage ? dm : 0.0;
    }
    sum.nsc_pct = sum.nsc_g / 10.0 / sum.dm_kg;
    sum.ndf_pct = 100.0 * ndf_kg / sum.dm_kg;
    return sum;
}

double ration_as_fed(double dm_kg, double dm_pct)
{
    assert(dm_pct > 0.0);
    return dm_kg / (dm_pct / 100.0);
}

/* What is left of all that is bought after a loss; NaN where that makes no sense. */
static double kept(double loss_pct)
{
    return loss_pct >= 0.0 && loss_pct < 100.0 ? 1.0 - loss_pct / 100.0 : (double)NAN;
}

double hay_to_buy(double need_kg, double storage_loss_pct, double feeding_loss_pct)
{
    return need_kg / (kept(storage_loss_pct) * kept(feeding_loss_pct));
}
