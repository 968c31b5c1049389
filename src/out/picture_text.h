/* What the pictures in letters share. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_PICTURE_TEXT_H
#define SUGARLEA_PICTURE_TEXT_H

#include "out/series.h"

/* Columns: beside the chart, of the chart, of the page. */
enum { LETTERS_SIDE = 8, LETTERS_CHART = 68, LETTERS_PAGE = 78 };

extern const char letters_turnout[4]; /* by enum turnout: the more ink, the less grazing */
extern const char letters_level_key[];

void letters_head(const struct series *s, const char *title, struct buf *b); /* title, place, period */
void letters_close(struct buf *b);

/* Words under the chart: label(s, k, text) fills the text of column k, or "" for none;
 * one that would touch the word before it is left out. */
void letters_marks(const struct series *s, size_t columns,
                   void (*label)(const struct series *s, size_t k, char *text, size_t size), struct buf *b);

/* Lines "0 under 80  1 from 80 ..." for the classes of a scale. */
void letters_scale(const struct palette_scale *scale, struct buf *b);

#endif
