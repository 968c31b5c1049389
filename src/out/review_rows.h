/* Rows and sentences of the review's text. Inside src/out only.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_OUT_REVIEW_ROWS_H
#define SUGARLEA_OUT_REVIEW_ROWS_H

#include "out/review.h"
#include "out/text.h"

enum { REVIEW_LINE = 512, REVIEW_SHARE = 24 };

enum review_form { AS_PERCENT, AS_TENTHS, AS_THOUSANDTHS };

struct review_writer {
    const struct review_view *v;
    struct page page;
    enum review_what what; /* what is written about now */
    size_t subject;
};

const struct review_score *review_row(const struct review_writer *w, size_t lead, const char *score,
                                      enum review_rival rival);
double review_ours(const struct review_writer *w, size_t lead, const char *score);

/* A share as a percentage without its sign: not quite all is not all, and hardly ever is not never. */
void review_percent(double x, char *text, size_t size);

/* A block's title, then the leads above their columns. */
void review_begin(const struct review_writer *w, const char *title);

/* A score of ours at each lead; with those of the rivals under it. */
void review_add_ours(const struct review_writer *w, const char *label, const char *score, enum review_form form);
void review_add_all(const struct review_writer *w, const char *label, const char *score, enum review_form form);

/* A sentence under the rows; one that says by the interval of a gain who was better. */
void review_say(const struct review_writer *w, const char *line);
void review_say_verdicts(const struct review_writer *w, const char *gain);

#endif
