/* What the files of plot.h share. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_PLOT_INNER_H
#define SUGARLEA_PLOT_INNER_H

#include "out/plot.h"

/* Adds text as one safe line: valid UTF-8, a blank for each control character or
 * separator of lines, at most `most` characters ("..." where it is cut). */

/* The same in single quotes, as gnuplot reads it; a quote within becomes U+2019. */
void plot_add_quoted(struct buf *b, const char *text, size_t most);

/* Adds clean text as XML character data. */
void plot_add_xml(struct buf *b, const char *text);

/* Adds the array `name` of text wrapped at `width` characters; one empty line when there is
 * none. Returns the number of lines. */
size_t plot_add_wrapped(struct buf *b, const char *name, const char *text, size_t width);

/* Whether what gnuplot drew is whole, and what has to be changed in it: the title and
 * names of an SVG (figure makes them unlike another figure's on the same page), the
 * date in a PDF. False: it is not whole. */
bool plot_finish(const struct plot *p, enum plot_format format, struct buf *image);

#endif
