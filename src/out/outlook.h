/* The outlook, for people and for machines. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_OUT_OUTLOOK_H
#define SUGARLEA_OUT_OUTLOOK_H

#include "base/buf.h"
#include "out/plot.h"
#include "out/today.h"
#include "season/outlook.h"

struct outlook_view {
    const struct holding *holding;
    struct ensemble ensemble;
    struct outlook outlook;
    date_t recorded_to, forecast_to; /* DATE_NONE: no forecast of the coming days */
    int first_year, last_year;       /* in which the past stretches begin */
    unsigned long seed;
    enum units units; /* of the text */
    size_t warnings, credits;
    const char *const *warning;
    const char *credit[TODAY_CREDITS];
};

void outlook_text(const struct outlook_view *v, bool colour, int width, struct buf *b);

/* Schema 1. Beside what the interface names: "until", "years", "draws"; for each group
 * "share_without_season"; for each month "days", and of restricted_days "brief_or_none"
 * (of which brief or none) and "tested" (were the grass tested; null without draws). */
void outlook_json(const struct outlook_view *v, struct buf *b);

/* Fans of sugar and growth, and shares of days not free, week by week: a whole plot, which
 * the caller releases in any case. The first two paddocks and four groups are shown. False:
 * no memory. */
bool outlook_picture(const struct outlook_view *v, struct arena *a, struct plot *p);

/* Pieces that others plan with as well: "p10":..,"p50":..,"p90":.. without braces, and
 * "key":{dates}, null for NaN. */
void outlook_json_numbers(struct buf *b, const struct outlook_band *x, int decimals);
void outlook_json_dates(struct buf *b, const char *key, const struct outlook_band *x);

#endif
