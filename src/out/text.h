/* Text for people: wrapped lines, bold on a terminal. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_OUT_TEXT_H
#define SUGARLEA_OUT_TEXT_H

#include "base/buf.h"
#include "base/date.h"

struct page {
    struct buf *b;
    int width; /* columns */
    bool colour;
};

/* Words of text, wrapped, after a lead on the first line and blanks below it. */
void text_wrap(const struct page *p, const char *lead, const char *text);
void text_wrap_bold(const struct page *p, const char *lead, const char *text);
enum { TEXT_DAY = 64 };
/* "12 April 2025" of days since 1970, cut to a whole one; text has TEXT_DAY bytes. Returns text or a part of it. */
const char *text_day(double day, char *text);

void text_bold(const struct page *p, const char *text);

/* What every advice ends with: a plan and no diagnosis, what a vet must see today, who comes first. */
void text_closing(const struct page *p);
extern const char text_closing_words[];

#endif
