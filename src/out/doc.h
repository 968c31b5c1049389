/* A text in parts, written once and shown in two forms: as lines of a terminal, or as
 * source of a manual page for man(7). SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_OUT_DOC_H
#define SUGARLEA_OUT_DOC_H

#include "base/buf.h"

#include <stdbool.h>

struct doc {
    struct buf *b;
    bool manual; /* man(7), else lines */
};

enum { DOC_WIDTH = 80 }; /* columns of the lines */

/* Releases a text that was made for the document; where it did not fit into memory, the document has failed. */
void doc_release(const struct doc *d, struct buf *text);

/* Paragraphs parted by an empty line. Lines of a paragraph run on; those that begin with a
 * blank are examples and stand as they are. */
void doc_flow(const struct doc *d, const char *text);

/* A line that names the list below it. */
void doc_title(const struct doc *d, const char *text);

/* One row of a list: a term and what it means. Terms up to `column` columns have it beside
 * them. Leading blanks of a term are for lines only. */
void doc_term(const struct doc *d, int column, const char *term, const char *text);

/* For manuals only: a line such as .SH "FILES", its text quoted and escaped. */
void doc_macro(const struct doc *d, const char *macro, const char *text);

#endif
