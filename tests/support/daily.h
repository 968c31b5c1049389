/* A daily record for tests of the sward. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_TESTS_DAILY_H
#define SUGARLEA_TESTS_DAILY_H

#include "support/table.h"
#include "sward/sward.h"

struct daily { /* consecutive days, neighbours filled in */
    size_t n;
    struct sward_weather *day;
};

/* The rows of t, of one site when t has a column "site" (else NULL), with ET0 from
 * the column et0_mm or else FAO-56 (dew point Tmin and 2 m/s where humidity or wind
 * is missing; wind at 10 m is brought down); radiation 0.17 sqrt(Tmax - Tmin) Ra
 * where it is missing. False when days are missing between. */
bool daily_read(struct daily *d, const struct table *t, const char *site, double latitude, double elevation_m);
void daily_free(struct daily *d);

/* Index of a date; d->n when it is not there. */
size_t daily_index(const struct daily *d, int date);

#endif
