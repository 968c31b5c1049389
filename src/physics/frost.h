/* Ground frost: whether the grass minimum of the night that ends this morning went
 * below 0.0 C (the modern definition of ground frost), from daily weather.
 *
 * Fitted on the grass minimum thermometer of Dublin Airport; frost.c has the fit and
 * its scores. It speaks of level short grass near a weather station: hollows are colder.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_FROST_H
#define SUGARLEA_FROST_H

#include "data/weather_days.h"

#include <stdbool.h>
#include <stddef.h>

/* The night that ends on the morning of a day ("of the day"). NaN where not known: only
 * tmin must be there. Extremes are those of calendar days, so the evening before
 * belongs to the day before. Without wind of the day or clearness of the day a second
 * fit that knows only temperatures, rain and season steps in; any other missing
 * value counts as an average one. */
struct frost_night {
    double tmin, tmin_before, tmin_after; /* C, screen minimum of the day, its neighbours */
    double tmax, tmax_before;             /* C, screen maximum */
    double wind, wind_before;             /* m/s at 2 m, mean of the day */
    double clearness, clearness_before;   /* radiation / extraterrestrial, 0..0.8; not
                                           * one made from the temperature range */
    double rain, rain_before;             /* mm */
    double night_h;                       /* 24 - FAO-56 day length, h */
};

/* The night before day i of w (i < w->n), with its neighbours where they are there.
 * Radiation that was estimated by us counts as not known. */
struct frost_night frost_night_of(const struct weather_days *w, size_t i, double latitude);

/* Chance (0..1) that the grass minimum was below 0.0 C. NaN when tmin is. */
double frost_ground_chance(const struct frost_night *n);

/* Central estimate of the grass minimum, C (RMSE 1.9). NaN when tmin is. */
double frost_ground_minimum(const struct frost_night *n);

/* Chances from which on frost is called. Both from the fit's years, Dublin Airport
 * 1983-2001; on 2002-2020 they give
 *   LIKELY (highest threat score): hit rate 0.88, false-alarm ratio 0.22, CSI 0.70;
 *   CAUTIOUS (nine of ten frosts caught): hit rate 0.92, false-alarm ratio 0.29. */
#define FROST_LIKELY 0.41
#define FROST_CAUTIOUS 0.27

/* Air frost: screen minimum below 0.0 C. */
static inline bool frost_air(double tmin)
{
    return tmin < 0.0;
}

#endif
