/* A growing text buffer for output. Ownership: whoever calls buf_init calls
 * buf_release. After a failed allocation `failed` is set, further adds do
 * nothing, and the text so far stays valid: check once at the end.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_BUF_H
#define SUGARLEA_BUF_H

#include <stdbool.h>
#include <stddef.h>

struct buf {
    char *text; /* closed with 0; never NULL after buf_init */
    size_t length, capacity;
    bool failed;
};

void buf_init(struct buf *b);
void buf_release(struct buf *b);
/* The same for a part that was written for the whole: what was lost of it is lost there. */
void buf_release_into(struct buf *part, struct buf *whole);
void buf_clear(struct buf *b);
void buf_add(struct buf *b, const char *text);
void buf_add_bytes(struct buf *b, const char *bytes, size_t n);
void buf_add_char(struct buf *b, char c);
void buf_addf(struct buf *b, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* A number with at most `decimals` digits after the point, trailing zeros
 * dropped, never "-0"; NaN and infinities add nothing. For machine output. */
void buf_add_number(struct buf *b, double x, int decimals);

/* The same as the next cell of a CSV row: a comma stands before it, and alone for NaN. */
void buf_add_cell(struct buf *b, double x, int decimals);

/* The same with exactly `decimals` digits; NaN adds "-". For people. */
void buf_add_fixed(struct buf *b, double x, int decimals);

/* text as a JSON string with its quotes (control characters and invalid UTF-8
 * escaped or replaced by U+FFFD). */
void buf_add_json_string(struct buf *b, const char *text);

/* text as one CSV field: quoted when needed; a field that a spreadsheet would
 * take for a formula (leading = + - @ tab CR) gets a leading apostrophe. Never
 * use it for numbers. */
void buf_add_csv_field(struct buf *b, const char *text);

/* n bytes of text from anywhere, for people: a terminal, a page or gnuplot must obey nothing
 * in it. Control characters (C1, line separators and turns of writing direction among them)
 * become blanks, what is no UTF-8 a question mark; after `most` characters "..." ends it. */
void buf_add_clean(struct buf *b, const char *text, size_t n, size_t most);

/* text, clean like that, as a column of so many characters: filled up with blanks, or cut to end with "...". */
void buf_add_column(struct buf *b, const char *text, size_t width);

#endif
