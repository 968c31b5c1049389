/* Will the hay last: what each group will eat to a date, over past years of weather, against
 * the store. Pure.
 *
 * What is eaten is the hay of the advice (season/ensemble.h, draw 0: what each of those
 * mornings would be told), which never lies below a class's least forage; hay in the place
 * of grass that the paddock does not have (hay/supply.h); and hay that is fed daily beside
 * it. Losses are then divided out (hay/stock.h). What the weather does not
 * decide (bales weighed by eye, feeding by the armful, the losses' own ranges) is one
 * log-normal factor with ln-SD `doubt`, the same for a member's whole stretch, taken at
 * HAY_POINTS even points of its distribution: no chance, the same numbers each time.
 *
 * Quantiles are outlook_quantile's over years x points, so few years make wide ranges.
 * Without weather there is one row of table values (hay_table_days), and the ranges are
 * those of the doubt alone.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_HAY_PLAN_H
#define SUGARLEA_HAY_PLAN_H

#include "hay/stock.h"
#include "season/outlook.h"

enum {
    HAY_POINTS = 101,
    HAY_DAYS_MOST = 367 /* from a lean season's last day to the next one's, over a 29 February */
};

struct hay_ask {
    const struct ensemble *e;
    const struct holding *h;
    const struct params *p;
    const struct run *now; /* this morning's swards; NULL without weather: all grass counts as there */
    struct hay_losses losses;
    double doubt; /* ln-SD */
    bool by_table;
};

struct hay_group {               /* kg as fed of the first lot, the whole group, to the end */
    struct outlook_band need_kg; /* losses included */
    double eaten_kg_head;        /* a day, middle of the years, hay fed daily included */
    double table_kg_head;        /* the same on a day without any grass */
};

struct hay_pasture { /* kg dry matter on the whole paddock, to the end (hay/supply.h) */
    struct outlook_band growth_kg, eaten_kg;
    double standing_kg; /* this morning, within reach of grazing animals */
    struct outlook_band
        short_from; /* first day, since 1970, with less grass than the advice lets them eat; NaN never */
    size_t groups;  /* that live on it */
};

struct hay_plan {
    date_t first, until;
    size_t days, years; /* years 0: table values */
    struct hay_stock stock;
    struct hay_losses losses;
    double doubt;
    struct outlook_band need_kg;  /* losses included, all groups */
    double need_p80, need_p95;    /* enough in 8 cases of 10, 19 of 20 */
    double bales_p80, bales_p95;  /* whole bales to buy; all of the need where no stock is named */
    double cost_p80, cost_p95;    /* NaN: no price is given */
    double off_grass_kg;          /* need with losses, middle, were they never on grass (table_kg_head) */
    double off_grass_bales;       /* whole bales to buy then */
    struct outlook_band runs_out; /* first day, since 1970, that the store cannot feed; NaN: it lasts to the end */
    date_t order_by;              /* lead time before runs_out.p10, no earlier than the morning; DATE_NONE no need */
    struct hay_group *group;
    struct hay_pasture *pasture; /* NULL: by table values */
    /* Left in the store at the end of each day, kg: in the tenth with the most eaten, the middle, the
     * tenth with the least. NULL: no stock is named. */
    double *left_low, *left_middle, *left_high;
};

/* The end of the lean season that comes next: 30 April, south of the equator 31 October; of
 * the next year when the morning is that day. */
date_t hay_lean_end(date_t morning, double latitude);

/* Days as they are without weather: every group on hay alone, its table intake less what is
 * fed daily, at least its least forage. One year; no grass. False: no memory. */
bool hay_table_days(const struct holding *h, const struct params *p, date_t first, size_t days, struct arena *a,
                    struct ensemble *e);

/* Memory is the arena's. False: no memory. */
bool hay_plan_make(const struct hay_ask *ask, struct arena *a, struct hay_plan *plan);

#endif
