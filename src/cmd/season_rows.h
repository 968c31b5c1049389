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

/* Runs r from the first day of the weather to a->last and adds the rows from a->first on to out;
 * fills drawn, where that is not NULL. */
void season_rows(const struct context *c, const struct season_ask *a, struct run *r, struct series *drawn,
                 struct buf *out);

#endif
