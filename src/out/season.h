/* The season's table, a row a paddock and day, as text, CSV or JSON.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_OUT_SEASON_H
#define SUGARLEA_OUT_SEASON_H

#include "base/buf.h"
#include "base/units.h"
#include "season/run.h"

enum season_form { SEASON_TEXT, SEASON_CSV, SEASON_JSON };

struct season_row {
    const struct buf *site; /* one of many places, its column as it is written; NULL: there is none */
    size_t paddock;         /* index in the run */
    date_t date;
    const char *origin;
    const struct sward_weather *weather;
    const struct run *run; /* after the day's morning and evening */
    double green_kg_ha;    /* of the evening */
    bool ground_frost;
    enum units units; /* of the text */
};

/* by_site: the rows have a column of sites (CSV only). */
void season_begin(enum season_form form, enum units units, bool by_site, const struct run *r, struct buf *b);
void season_add(enum season_form form, const struct season_row *row, bool first, struct buf *b);
void season_end(enum season_form form, struct buf *b);

#endif
