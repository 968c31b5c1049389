/* The way back to grass after days off it, or after foot signs: an upper bound on the
 * hours of a day, beside the sugar limit, never in its place. Pure.
 *
 * The way has steps of one day on grass (after foot signs, of several). A day on which the
 * animal had the time of its step takes it on by one; less grass than that, because of the
 * sugar, keeps it there; a single day off, too; from the second day off running it goes
 * back one a day, and after away_days it begins anew. Foot signs begin it anew at once.
 * A day of which nobody knows changes nothing.
 * Numbers: models/reintroduction.json. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_REINTRODUCTION_H
#define SUGARLEA_REINTRODUCTION_H

#include "data/way_back.h"

#include <stdbool.h>

struct way_back_state { /* all 0: used to grass */
    bool on;            /* on the way back */
    bool after_signs;
    int away; /* days off grass running, up to now */
    int done; /* days of the way behind it */
};

struct way_back {  /* of one day; all 0: no bound */
    int day, days; /* of the way: day 4 of 16; day 0: not on it */
    double most_h;
    bool after_signs;
    double grass_low_cm, grass_high_cm; /* of the sward it should begin on; NaN: none is published */
};

/* The bound of the coming day. class_h: the longest that the class goes out (NaN: 24):
 * a way is no longer than to there. */
struct way_back way_back_today(const struct way_back_state *s, const struct way_back_rules *rules, double class_h);

/* A day passes: hours on grass, 0 off it, NaN unknown; signs: foot signs stood in the
 * diary that day. */
void way_back_pass(struct way_back_state *s, const struct way_back_rules *rules, double class_h, double hours,
                   bool signs);

#endif
