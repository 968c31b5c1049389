/* The course of a day from its extremes. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_DIURNAL_H
#define SUGARLEA_DIURNAL_H

struct diurnal_day {
    double tmin, tmax;         /* C, of the day */
    double tmax_before;        /* C, of the day before */
    double tmin_after;         /* C, of the day after */
    double day_length_h;       /* 0..24, geometric */
    double rad;                /* MJ/m2/d */
};

/* Hourly means at 0.5 ... 23.5 h solar time, as the sward uses them: sine by day
 * with the maximum 1.5 h after noon, linear by night to the next minimum; PAR as a
 * half sine, W/m2, of 0.5 of the day's radiation. Polar day and night included. */
void diurnal_sward(const struct diurnal_day *d, double temperature[24], double par[24]);

/* Temperature at solar hour t (0..24) by the normalised sine-exponential of
 * Goudriaan & van Laar 1994 (P 1.5 h, TC 4 h): continuous, the minimum met exactly
 * at sunrise. Preferred for hours below a threshold. */
double diurnal_temperature(const struct diurnal_day *d, double hour);

/* Hours of the day below a threshold, by diurnal_temperature at 10-minute steps. */
double diurnal_hours_below(const struct diurnal_day *d, double threshold);

#endif
