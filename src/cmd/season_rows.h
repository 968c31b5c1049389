/* The rows of a season, for one place. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_CMD_SEASON_ROWS_H
#define SUGARLEA_CMD_SEASON_ROWS_H

#include "cmd/context.h"
#include "out/season.h"
#include "out/series.h"

enum { SEASON_DAYS_SHOWN = 365, SEASON_ALL_PADDOCKS = -1 };

struct season_ask {
    enum season_form form;
    enum units units;       /* of the table as text */
    const struct buf *site; /* of the rows (season_row) */
    bool table;             /* the rows are wanted */
    int paddock;            /* of the rows */
    size_t first, last;     /* days of the weather */
};

struct season_walk { /* of a run through the days of one place */
    const struct context *c;
    const struct season_ask *ask;
    struct run *run;      /* before the first day of the weather */
    struct series *drawn; /* NULL: nothing is */
    struct buf *out;
    struct run_day day; /* inner: where it is */
    struct run_sky sky;
    bool begun; /* a row has been added */
};

/* Goes from the first day of the weather to ask->last and adds the rows from ask->first on to out; fills drawn. */
void season_rows(struct season_walk *w);

/* Both, of holdings alike: as one after the other, and quicker. */
void season_rows_two(struct season_walk *one, struct season_walk *other);

#endif
