/* Pieces of an HTML page and of pictures drawn inside it (SVG).
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_HTML_H
#define SUGARLEA_HTML_H

#include "base/buf.h"

/* Text from anywhere, between tags or within double or single quotes: the one door for text
 * that is not ours. Control characters and turns of writing direction become blanks, what
 * is no UTF-8 a question mark; after `most` characters "..." ends it. */
void html_text(struct buf *b, const char *text, size_t most);
enum { HTML_WHOLE = 1 << 20 }; /* most: all of it */

/* <tag>text</tag> */
void html_element(struct buf *b, const char *tag, const char *text);

/* A name of the keeper's own: it keeps its direction of writing to itself. */
void html_name(struct buf *b, const char *name);

/* ---- pictures; lengths in pixels of the viewBox, written with a digit after the point ---- */

/* Opens a picture that is read out as its title and description. id is ours, once a page. */
void svg_begin(struct buf *b, const char *id, double width, double height, const char *title, const char *about);
void svg_end(struct buf *b);

/* Classes are the style sheet's. Points that are not finite are left out: lines and bands
 * break there. No picture holds a number that is none. */
void svg_rect(struct buf *b, const char *class, double x, double y, double width, double height);
void svg_line(struct buf *b, const char *class, const double *x, const double *y, size_t n);
void svg_band(struct buf *b, const char *class, const double *x, const double *low, const double *high, size_t n);
void svg_text(struct buf *b, const char *class, double x, double y, const char *text);

#endif
