/* Hay in the store: how much there is, what is lost of it, and how many bales that makes.
 * Weights are as fed unless said. Pure. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_HAY_STOCK_H
#define SUGARLEA_HAY_STOCK_H

#include "data/holding.h"

/* What is lost before it is eaten, % of dry matter.
 *
 * Losses divide: of what lies in the store (1 - store)(1 - feed) is eaten, so a need is
 * divided by that (West Virginia Farm Bureau 2014). Others mark up instead (University of
 * Missouri: 20 % lost, times 1.20), which buys too little, 4 % at 20 % lost; it is there to compare
 * plans with. */
struct hay_losses {
    double store_pct, feed_pct;
    bool marked_up; /* times (1 + store)(1 + feed) instead */
};

/* Those of the holding's way to store and to feed; where it names none, those of
 * models/hay-limits.json. */
struct hay_losses hay_losses_of(const struct holding *h, const struct params *p);

/* ln-SD of what the plan says against what the store will see: the limits' doubt, and
 * the ranges of both losses, low..high taken as two SD either side (our judgement). */
double hay_doubt(const struct holding *h, const struct params *p);

/* What must lie in the store for so much to be eaten. NaN for a loss below 0 or of all there is. */
double hay_gross(double eaten_kg, const struct hay_losses *l);

/* Whole bales, rounded up; a hundredth of a bale is let go, lest arithmetic's dust buy one. 0 for 0 or less. */
double hay_bales(double kg, double bale_kg);

/* Weight of one bale: given, or by its measures and the density of its shape; NaN not known. */
double hay_bale_kg(const struct hay_lot *lot, const struct hay_limits *l);

/* Weight of a lot; NaN when its amount is not given. */
double hay_lot_kg(const struct hay_lot *lot, const struct hay_limits *l);

/* Dry matter of a lot, %: the feed's, else that of a usual bale. */
double hay_lot_dm_pct(const struct hay_lot *lot, const struct params *p);

struct hay_stock {
    double kg;                   /* all lots that count, each turned into the first one's by dry matter; NaN: no
                                  * amount is given */
    double weighed_kg, counted;  /* as it lies there; bales, NaN where a lot is not in bales */
    double bale_kg;              /* a bale to buy: the first lot's that says so, else the limits' */
    double dm_pct;               /* of the first lot that counts */
    bool bale_known;             /* a lot says how heavy its bales are */
    size_t lots, unknown, straw; /* that count; of which without an amount; straw beside hay, which does not */
};

/* Straw counts only where a group is given it for hay (run_hay_of). */
void hay_stock_add_up(const struct holding *h, const struct params *p, struct hay_stock *s);

#endif
