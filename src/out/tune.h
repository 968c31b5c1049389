/* Grass tests against the model, for people and for machines. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_OUT_TUNE_H
#define SUGARLEA_OUT_TUNE_H

#include "base/buf.h"
#include "data/diary.h"
#include "season/tune.h"

struct tune_row { /* one test of the diary */
    const struct diary_entry *entry;
    bool below;              /* "<" */
    const char *passed_over; /* why it does not count; NULL: it does */
    double modelled;         /* g/kg, untuned, of its hour or day */
    double sd;               /* of its error, ln */
    bool doubtful;           /* it counts, and is likelier a slip than true */
};

struct tune_paddock { /* one with tests */
    const struct paddock *kept;
    const struct tune_row *row; /* by date */
    size_t rows;
    struct tune_fit fit;           /* of those that count */
    struct tuning tuned;           /* tests 0: none counts */
    double spread_out, spread_now; /* ln-SD of the level, without tests and with them */
};

enum tune_done { TUNE_SHOWN, TUNE_WRITTEN, TUNE_AS_BEFORE };

struct tune_view {
    const struct holding *holding;
    const struct diary *diary;
    size_t paddocks;
    const struct tune_paddock *paddock;
    enum tune_done done;
};

/* "3 grass tests, the last of 2025-04-22: about 17 % sweeter than without them.", and that this is far, where
 * it is. Returns text. */
char *tune_level_text(const struct tuning *t, const struct tune_limits *l, char *text, size_t size);

/* "<182" or "182": what was measured, g/kg. Returns text. */
char *tune_measured_text(const struct tune_row *row, char *text, size_t size);

void tune_text(const struct tune_view *v, bool colour, int width, struct buf *b);
void tune_json(const struct tune_view *v, struct buf *b);

#endif
