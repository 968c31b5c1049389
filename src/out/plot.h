/* Pictures, drawn by gnuplot through one guarded pipe.
 *
 * A figure is a template in plots/ plus what it draws. A command builds it so:
 *
 *     struct plot p;
 *     plot_init(&p, "stock", 300);                the template plots/stock.gp, body 300 high
 *     plot_title(&p, "Hay in store", subtitle);   what it is; where and when
 *     plot_caption(&p, "Line: the middle of ..."); in words, as many sentences as it takes
 *     plot_time_axis(&p, first, last);            if x is in days
 *     plot_number(&p, "top", 1200);               a variable of the template
 *     plot_text(&p, "label", paddock->id);        the same, text from anywhere
 *     plot_block(&p, "stock");                    the data block $stock
 *     plot_row(&p, (double[]){day, low, middle, high}, 4);
 *     plot_block_end(&p);
 *     code = plot_write(&p, "hay.svg", &e);       SVG, PNG or PDF by the ending
 *     plot_release(&p);
 *
 * Guards. gnuplot is started without a shell, with a bare environment and without its
 * own start-up files; what it draws comes back through a pipe and is checked whole
 * before it replaces anything, so no file name ever reaches it. Text goes in as
 * single-quoted strings without control characters or quotes, in which gnuplot
 * substitutes nothing; text marks (enhanced mode) are off. A template must not put such a variable
 * into a string that it evaluates, nor into a file name.
 *
 * A page is PLOT_WIDTH units wide, about points on an A4 sheet. Templates are read
 * after plots/common.gp, which says what they can use. x in days is days since
 * 1970-01-01, a day's middle at + 0.5.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_PLOT_H
#define SUGARLEA_PLOT_H

#include "base/buf.h"
#include "base/date.h"
#include "base/err.h"

enum { PLOT_WIDTH = 540, PLOT_TEXT_MOST = 200 }; /* units; characters of a text, longer ones are cut */

enum plot_format { PLOT_SVG, PLOT_PNG, PLOT_PDF };

struct plot {
    const char *figure;               /* "days": plots/days.gp */
    double body;                      /* height between title and caption, units */
    struct buf given;                 /* variables and data, as gnuplot reads them */
    struct buf title, about, caption; /* plain text */
};

/* figure is a name of ours, letters only; it must outlive the plot. plot_release ends it. */
void plot_init(struct plot *p, const char *figure, double body);
void plot_release(struct plot *p);

void plot_title(struct plot *p, const char *title, const char *about);
void plot_caption(struct plot *p, const char *sentence); /* adds it; text from outside is safe */

/* Variables; name is ours. */
void plot_number(struct plot *p, const char *name, double x);
void plot_text(struct plot *p, const char *name, const char *text);
void plot_texts(struct plot *p, const char *name, const char *const *text, size_t n); /* an array; n > 0 */

/* Axis names_from 0 that holds most: names_top and names_step, rounded, at most `steps` steps. */
void plot_scale(struct plot *p, const char *name, double most, int steps);

/* A data block: rows of numbers, NaN where there is none; an empty row (n 0) breaks a line. */
void plot_block(struct plot *p, const char *name);
void plot_row(struct plot *p, const double *x, size_t n);
void plot_block_end(struct plot *p);

/* Marks of a time axis over the days first..last: arrays grid_at (where lines stand),
 * tick_at and tick_text (below), year_at and year_text (the years, a line lower), and
 * x_from, x_to. */
void plot_time_axis(struct plot *p, date_t first, date_t last);

/* The format by the file name's ending. ERR_USAGE that names the three. */
enum err_code plot_format_of(const char *path, enum plot_format *format, struct err *e);

/* Draws into image. ERR_NOINPUT: gnuplot or the template is missing, with what to do;
 * ERR_CREATE: gnuplot failed, was too slow, or drew no whole picture; ERR_NOMEM. */
enum err_code plot_draw(const struct plot *p, enum plot_format format, struct buf *image, struct err *e);

/* Draws and replaces path; on any error path stays as it was. Errors of plot_format_of,
 * plot_draw and file_replace. */
enum err_code plot_write(const struct plot *p, const char *path, struct err *e);

#endif
