/* Season words: when grass grows, and when it may not be grazed at will. Each is
 * found in one growth year from one value a day.
 *
 * Days count from 1, the first day of the growth year: 1 January, in the south 1 July.
 * A year of the south is called by the year of that July. 29 February is a day like any.
 * A missing value is NaN; it breaks every run of days. An end is the day after the
 * last day of the season: 366, or 367 in a leap year, where nothing ended it.
 *
 * The sugar season of a group of animals is the first and the last spell of days on
 * which it could not graze a stated number of hours: it begins on the first day of the
 * first run of at least so many days, and ends on the day after the last day of the
 * last such run. Free days in between belong to it. By default 24 hours (free not
 * offered) and 6 days: our choice, the days of the growing-season index.
 *
 * Pure. Within 10 degrees of the equator these dates mean nothing (spells_seasonal).
 * Sources stand beside each function; models/METHOD.md has them all.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_SPELLS_H
#define SUGARLEA_SPELLS_H

#include "base/date.h"

#include <stdbool.h>

#define SPELL_NONE (-1)        /* there is no such day */
#define SPELL_INDEX_DAYS 6     /* of the index: World Meteorological Organization, ETCCDI */
#define SPELL_SOIL_DAYS 5      /* of the soil rule */
#define SPELL_GROWTH_C 5.0     /* grass grows above, rests below; exactly 5 does neither */
#define SPELL_TSUM 200.0       /* C d */
#define SPELL_SUGAR_DAYS 6     /* of the sugar season: our choice */
#define SPELL_SUGAR_HOURS 24.0 /* fewer hours than these: free was not offered */

struct growth_year {
    date_t first;
    int days; /* 365 or 366 */
};

/* The growth year called by this year number; south: it begins in July. */
struct growth_year growth_year_of(int year, bool south);

/* Do the dates mean something at that latitude (degrees)? */
bool spells_seasonal(double latitude);

struct spell_season {
    int start, end; /* days; SPELL_NONE both when there is no season */
    int length;     /* end - start; 0 when there is no season */
};

/* The first day of the first run of at least `length` days, all from day `from` on, with
 * every value above (else below) the threshold; SPELL_NONE. x holds n values, of day 1 on. */
int spells_first_run(const double *x, int n, int from, int length, bool above, double threshold);

/* Growing season between runs of `run` days above and below SPELL_GROWTH_C: the growing
 * season length of ETCCDI and the World Meteorological Organization with 6 days of mean air
 * temperature; with 5 days of soil temperature at 10 cm, the soil rule (advice to farmers
 * and vets). t: C, one for every day of the year y. The closing run lies wholly in the
 * second half of the year (from 1 July; in the south from 1 January) and after the start. */
struct spell_season spells_growing(const double *t, const struct growth_year *y, int run);

/* The day on which the sum of the temperatures above 0 C reaches SPELL_TSUM; weighted: those
 * of the first month count half, of the second three quarters. SPELL_NONE when never, or
 * with more than 5 days missing before (our choice). t: daily mean air temperature, C. */
int spells_tsum(const double *t, const struct growth_year *y, bool weighted);

/* Start of growth by several criteria (Schaumberger 2011): the first of 5 days in a row
 * above 5 C in the first 10 days that have a mean of at least 6 C, no day below 2 C, and
 * hold such 5 days; not before the 30th day (30 January; in the south 30 July). SPELL_NONE. */
int spells_many_criteria(const double *t, const struct growth_year *y);

/* The sugar season (above) from the hours allowed on each of the n days. */
struct spell_season spells_sugar(const double *hours, int n, double enough_h, int run);

#endif
