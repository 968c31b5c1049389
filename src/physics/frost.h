/* Ground frost from the screen minimum. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_FROST_H
#define SUGARLEA_FROST_H

#include <stdbool.h>

/* A night that ends on the morning of a day. NaN where not known. */
struct frost_night {
    double tmin;        /* C, screen minimum of the day */
    double tmax_before; /* C, maximum of the day before */
    double wind;        /* m/s at 2 m, mean of the day */
    double clearness;   /* radiation of the evening's day / extraterrestrial */
    double humidity;    /* mean relative humidity, % */
    double rain;        /* mm of the day before */
    double night_h;     /* length of the night, h */
};

/* Chance (0..1) that the grass minimum was below 0.0 C, and the central estimate
 * of the grass minimum, C. Fitted on measured grass minima; see frost.c. */
double frost_ground_minimum(const struct frost_night *n);
double frost_ground_chance(const struct frost_night *n);

#define FROST_CAUTIOUS 0.0 /* set by the fit: see frost.c */

/* Air frost: screen minimum below 0.0 C. */
static inline bool frost_air(double tmin)
{
    return tmin < 0.0;
}

#endif
