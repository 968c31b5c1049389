/* The numbers of the hay plan that belong to no way of storing or feeding:
 * models/hay-limits.json. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_HAY_LIMITS_H
#define SUGARLEA_HAY_LIMITS_H

struct hay_limits {
    double round_kg_m3, square_kg_m3, loose_kg_m3; /* as fed, of what is measured and not weighed */
    double bale_kg;                                /* 18: a bale to buy, where no lot says how heavy one is */
    double store_loss_pct, feed_loss_pct;          /* % of dry matter, where the holding does not say */
    double doubt;                                  /* 0.10, ln-SD: bales weighed by eye, feeding by the armful */
    double lead_days;                              /* 21: from order to hay in the store */
    double usable_share;                           /* 0.6: of the grass that grows, what grazing animals eat */
};

#endif
