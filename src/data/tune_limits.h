/* How grass tests and sward heights correct the model: models/tune-limits.json. Errors are
 * ln-SD. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_TUNE_LIMITS_H
#define SUGARLEA_TUNE_LIMITS_H

struct tune_limits {
    double level;                       /* 0.31: between paddocks, of the level the model gives them */
    double rest;                        /* 0.18: of the model on one day of a paddock whose level is known */
    double laboratory;                  /* 0.10 */
    double sample;                      /* 0.07: twenty handfuls or more, from all over the paddock */
    double hour;                        /* 0.10: of a test without a time, held against the day's mean */
    double year;                        /* 0.155: what a paddock's level may change in a year */
    double huber;                       /* 1.5: errors beyond so many sd pull no harder */
    double doubtful;                    /* 2.5: a test so many sd from the model is a slip before it is true */
    double usual;                       /* 1.645: 9 paddocks in 10 lie within so many `level` */
    double factor_low, factor_high;     /* 0.5, 2: exp(theta) stays within */
    double cover;                       /* 0.35: of the modelled cover */
    double height;                      /* 0.20: of a cover reckoned from a measured height */
    double plate_kg_ha_cm, plate_kg_ha; /* total herbage by plate meter: 280 kg DM/ha a pressed cm, and 500 */
};

#endif
