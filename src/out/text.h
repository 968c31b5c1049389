/* Text for people: wrapped lines, bold on a terminal. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_OUT_TEXT_H
#define SUGARLEA_OUT_TEXT_H

#include "base/buf.h"

struct page {
    struct buf *b;
    int width; /* columns */
    bool colour;
};

/* Words of text, wrapped, after a lead on the first line and blanks below it. */
void text_wrap(const struct page *p, const char *lead, const char *text);
void text_bold(const struct page *p, const char *text);

#endif
