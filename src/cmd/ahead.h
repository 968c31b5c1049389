/* The coming days as past years had them, from the state of this morning: what the
 * outlook, and whatever else plans ahead, works on. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_CMD_AHEAD_H
#define SUGARLEA_CMD_AHEAD_H

#include "cmd/context.h"
#include "out/today.h"
#include "season/ensemble.h"

enum {
    AHEAD_YEARS_LEAST = 2,  /* one year is no range at all */
    AHEAD_YEARS_WANTED = 5, /* our judgement: with fewer the range is said to be thin */
    AHEAD_YEARS_MOST = 30,  /* the latest: as long as a standard normal of the World Meteorological Organization */
    AHEAD_DRAWS = 20,
    AHEAD_SEED = 1
};

struct ahead {
    size_t years;
    int first_year, last_year; /* calendar years in which the first and the last past stretch begin */
    const struct run *now;     /* as the morning finds it */
    struct ensemble ensemble;
};

/* The days of one past stretch (index `start` of the weather) as they would follow the
 * morning of index `now` (PAST_LEAD at least): day[0..days). False: no memory. */
bool ahead_lay_out(const struct context *c, size_t now, size_t start, size_t days, struct arena *a,
                   struct run_day *day);

/* The ensemble of `days` days from the morning c->until on, which the weather reaches to
 * the day before at least (weather_assume). ERR_NOINPUT when the record holds fewer than
 * AHEAD_YEARS_LEAST past years of those days, ERR_USAGE when the results would not fit
 * into memory, ERR_NOMEM. */
enum err_code ahead_find(struct context *c, size_t days, size_t draws, unsigned long seed, struct ahead *out,
                         struct err *e);

/* Notes a record of few past years. */
void ahead_thin(struct context *c, const struct ahead *h, struct today_view *v);

#endif
