/* The morning's advice as one page for a phone and for the stable door: HTML that fetches
 * nothing and runs nothing. No coordinates stand in it.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_OUT_SHEET_H
#define SUGARLEA_OUT_SHEET_H

#include "out/series.h"
#include "out/today.h"

struct sheet {
    const struct today_view *v;
    const struct series *season; /* one a paddock: the days up to yesterday */
};

enum { SHEET_SEASON_DAYS = 91, SHEET_DAYS = 5 }; /* thirteen weeks back; mornings shown unasked, as far as forecast */

/* The whole page. */
void sheet_page(const struct sheet *s, struct buf *b);

/* ---- its parts ---- */

void sheet_groups(const struct sheet *s, struct buf *b); /* signs first, then what to do with each group */
void sheet_ahead(const struct sheet *s, struct buf *b);  /* the mornings ahead; nothing where there are none */
void sheet_grass(const struct sheet *s, struct buf *b);  /* sugar of each paddock: today, and the season so far */
void sheet_tables(const struct sheet *s, size_t paddock, struct buf *b); /* what its pictures show, in numbers */

/* The hours on grass of a group on a bar of 24. id is ours, once a page. */
void sheet_clock(const struct today_view *v, const struct run_animal *a, const char *id, struct buf *b);

/* Sugar through the day of a paddock; and day by day with the turnout of its groups. high: of
 * the axis, g/kg. */
void sheet_hours(const struct sheet *s, size_t paddock, double high, struct buf *b);
void sheet_season(const struct sheet *s, size_t paddock, double high, struct buf *b);

/* The mark of a turnout: the darker and higher, the less grazing. */
void sheet_mark(enum turnout t, struct buf *b);

/* The style sheet, and its hash for the policy that lets nothing else style the page. */
extern const char sheet_style[];
extern const char sheet_style_hash[];

#endif
