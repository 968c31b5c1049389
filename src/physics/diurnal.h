/* The course of a day from its extremes. Hours are solar time, 0..24.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_DIURNAL_H
#define SUGARLEA_DIURNAL_H

struct diurnal_day {
    double tmin, tmax;   /* C, of the day */
    double tmax_before;  /* C, of the day before */
    double tmin_after;   /* C, of the day after */
    double day_length_h; /* 0..24, geometric */
    double rad;          /* MJ/m2/d */
};

/* At 0.5 ... 23.5 h, as the sward uses them: sine by day with the maximum 1.5 h after
 * noon, linear by night to the next minimum; PAR (W/m2) as the half sine that holds
 * 0.5 of the day's radiation. Polar day (24 h): no night. Polar night (0 h): linear
 * between the maximum at noon and the minimum at midnight, PAR 0. The hourly PAR sums
 * to 0.5 rad within 2 % from 6 h of day length on, 1 % from 10 h; days below 1 h may
 * miss every mid-hour and give 0. */
void diurnal_sward(const struct diurnal_day *d, double temperature[24], double par[24]);

/* Temperature by the normalised sine-exponential (Goudriaan & van Laar 1994, from
 * memory: P 1.5 h, TC 4 h): continuous within the day, the minimum met exactly at
 * sunrise, the maximum at 13.5 h. Preferred for hours below a threshold. Day lengths
 * are held in 3 .. 21 h, which gives polar days and nights a minimum at 1.5 and
 * 10.5 h and keeps tmax in reach (our judgement). The sunset value of the day before
 * is made with today's tmin, so midnight may show a step of about a tenth of the
 * change of tmin. */
double diurnal_temperature(const struct diurnal_day *d, double hour);

/* Hours of the day with the temperature below a threshold, by diurnal_temperature in
 * the middle of 10-minute steps; a multiple of 1/6. rad is not used. */
double diurnal_hours_below(const struct diurnal_day *d, double threshold);

#endif
