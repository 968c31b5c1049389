/* What an ensemble says: months and dates as quantiles. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_OUTLOOK_H
#define SUGARLEA_OUTLOOK_H

#include "season/ensemble.h"

enum { OUTLOOK_MONTHS = 14 };

struct outlook_band { /* NaN: there is none */
    double p10, p50, p90;
};

struct outlook_month { /* a calendar month, or the rest of the first one */
    int year, month;
    size_t from, days; /* of the ensemble */
};

struct outlook_animal {
    /* The sugar season (spells.h) as it will be advised, in days since 1970. Onset over all
     * years, end over those that have a season; NaN: not within the outlook. */
    struct outlook_band onset, end;
    double onset_p80;                               /* in 8 years of 10 it begins on this day or before; NaN */
    double share_none;                              /* of years without a season */
    double share_now;                               /* of years whose season begins on the first day */
    double share_on;                                /* of years whose season goes on beyond the last day */
    struct outlook_band restricted[OUTLOOK_MONTHS]; /* days not free, as will be advised */
    struct outlook_band brief[OUTLOOK_MONTHS];      /* of which brief or none */
    struct outlook_band tested[OUTLOOK_MONTHS];     /* days not free were the grass tested; NaN without draws */
};

struct outlook_paddock {                        /* over paddocks and years; with no draws over the years alone */
    struct outlook_band growth[OUTLOOK_MONTHS]; /* kg DM/ha in the month */
    struct outlook_band sugar[OUTLOOK_MONTHS];  /* mean NSC, g/kg */
};

struct outlook {
    size_t months;
    struct outlook_month month[OUTLOOK_MONTHS];
    struct outlook_animal *animal;   /* of each group */
    struct outlook_paddock *paddock; /* of each paddock */
};

/* Days from `first` to the end of the last of so many whole months: the rest of a month
 * that has begun comes on top. 0 when dates end before that. */
size_t outlook_days(date_t first, int months);

/* Memory is the arena's. False: no memory. */
bool outlook_make(const struct ensemble *e, struct arena *a, struct outlook *o);

/* Quantile p of n sorted values out of `years` years of weather, n a multiple of it when
 * nothing is left out.
 *
 * GSL's quantile (type 7 of Hyndman & Fan 1996) of 10 years leaves a new year outside its
 * 10 to 90 % range not 20 but 35 times of 100: (n-1) 0.8 of the n+1 places that a new
 * value may take. So p is moved outward to ((years + 1) p - 1/2)/years, and taken at
 * Hazen's places (type 5): with one member a year this is type 6, whose range holds what it
 * says; with many members a year it is the p-quantile when the years beyond those on
 * record have a share of 1/(years + 1). With few years the range ends at the least and the
 * greatest member. */
double outlook_quantile(const double *sorted, size_t n, size_t years, double p);

#endif
