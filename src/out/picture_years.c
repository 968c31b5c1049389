/* A row a year, so that years can be compared. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/palette.h"
#include "out/series.h"

#include <math.h>
#include <stdio.h>

/* Units of plots/years.gp: what is beside the rows, and how high a row is. Our judgement. */
enum { FIXED_HEIGHT = 116, ROWS_HEIGHT = 420, ROW_MOST = 24, ROW_LEAST = 7, LABEL_HEIGHT = 12 };

/* A year counts its days when so many are there; the mean of years wants so many years. */
enum { WHOLE_YEAR = 360, YEARS_MEAN = 3, FRAME = PICTURE_FRAME };

struct picture_place picture_place_of(const struct series *s, date_t d)
{
    bool south = s->site->latitude < 0;
    struct date_parts p = date_split(d);
    bool second = south && p.month < 7;
    date_t in_frame = date_make(second || !south ? 2004 : 2003, p.month, p.day);
    return (struct picture_place){p.year - second, (int)(in_frame - date_make(south ? 2003 : 2004, south ? 7 : 1, 1))};
}

int picture_years_of(const struct series *s)
{
    return picture_place_of(s, s->first + (date_t)s->n - 1).year - picture_place_of(s, s->first).year + 1;
}

/* Stretches of one class: row, x from, x to, colour. */
static void add_cells(const struct series *s, const struct palette_scale *scale, struct plot *p)
{
    int first = picture_place_of(s, s->first).year;
    for (size_t i = 0; i < s->n;) {
        struct picture_place from = picture_place_of(s, s->first + (date_t)i), next = from;
        int class = palette_class(scale, s->day[i].nsc_mean);
        while (i < s->n && next.year == from.year && palette_class(scale, s->day[i].nsc_mean) == class) {
            i++;
            next = picture_place_of(s, s->first + (date_t)i);
        }
        if (class >= 0) {
            plot_row(p,
                     (double[]){from.year - first, from.at, next.year == from.year ? next.at : FRAME,
                                palette_class_colour(scale, class)},
                     4);
        }
    }
}

/* The mean of all years in a row of its own, below them: each day with the three before
 * and after it. */
static void add_mean(const struct series *s, int row, const struct palette_scale *scale, struct plot *p)
{
    double sum[FRAME] = {0};
    int n[FRAME] = {0}, class_of[FRAME];
    for (size_t i = 0; i < s->n; i++) {
        int at = picture_place_of(s, s->first + (date_t)i).at;
        for (int k = -3; k <= 3; k++) {
            sum[(at + k + FRAME) % FRAME] += s->day[i].nsc_mean;
            n[(at + k + FRAME) % FRAME]++;
        }
    }
    for (int at = 0; at < FRAME; at++) {
        class_of[at] = n[at] ? palette_class(scale, sum[at] / n[at]) : -1;
    }
    for (int at = 0; at < FRAME;) {
        int from = at, class = class_of[at];
        while (at < FRAME && class_of[at] == class) {
            at++;
        }
        if (class >= 0) {
            plot_row(p, (double[]){row, from, at, palette_class_colour(scale, class)}, 4);
        }
    }
}

/* What is counted: days of brief or none, or timed ones where a group is never kept shorter. */
static enum turnout counted_from(const struct series *s, size_t group)
{
    for (size_t i = 0; i < s->n && group < s->animals; i++) {
        if (series_turnout(s, group, i)->turnout >= TURNOUT_BRIEF) {
            return TURNOUT_BRIEF;
        }
    }
    return TURNOUT_TIMED;
}

/* Names of the rows, and how many days of each whole year count. */
static void add_rows(const struct series *s, int rows, size_t group, enum turnout least, struct plot *p)
{
    int year = picture_place_of(s, s->first).year;
    size_t i = 0;
    for (int row = 0; row < rows; row++, year++) {
        int days = 0, held = 0;
        for (; i < s->n && picture_place_of(s, s->first + (date_t)i).year == year; i++) {
            days++;
            held += group < s->animals && series_turnout(s, group, i)->turnout >= least;
        }
        buf_addf(&p->given, s->site->latitude < 0 ? "row_name[%d] = '%d/%02d'\n" : "row_name[%d] = '%d'\n", row + 1,
                 year, (year + 1) % 100);
        if (days >= WHOLE_YEAR) {
            buf_addf(&p->given, "row_held[%d] = '%d'\n", row + 1, held);
        } else {
            buf_addf(&p->given, "row_held[%d] = ''\n", row + 1);
        }
    }
}

static void add_months(const struct series *s, struct plot *p)
{
    const char *text[12];
    int first = s->site->latitude < 0 ? 6 : 0;
    buf_add(&p->given, "array month_at[13] = [");
    for (int k = 0; k < 12; k++) {
        int month = (first + k) % 12;
        text[k] = date_month_short(month + 1);
        buf_addf(&p->given, "%d,", picture_place_of(s, date_make(2004, month + 1, 1)).at);
    }
    buf_addf(&p->given, "%d]\n", FRAME);
    plot_texts(p, "month_text", text, 12);
}

static void explain(const struct series *s, int rows, size_t group, enum turnout least, struct plot *p)
{
    char text[400];
    plot_caption(p, "Each row is a year; its colour is the day's mean NSC of the grass: the darker, the more.");
    plot_caption(p, picture_nsc);
    if (rows >= YEARS_MEAN) {
        plot_caption(p, "The last row is the mean of all the years shown.");
    }
    if (group < s->animals) {
        snprintf(text, sizeof text, "Right: days of the year with advice %s for %s.",
                 least == TURNOUT_BRIEF ? "brief or none" : "timed", picture_group_id(s, group));
        plot_caption(p, text);
    }
    picture_doubt(s, p);
    plot_caption(p, picture_closing);
}

void picture_years(const struct series *s, struct plot *p)
{
    int rows = picture_years_of(s), all = rows + (rows >= YEARS_MEAN);
    size_t group = picture_tightest(s);
    enum turnout least = counted_from(s, group);
    const char *const head[] = {least == TURNOUT_BRIEF ? "days brief" : "days",
                                least == TURNOUT_BRIEF ? "or none" : "timed"};
    const struct palette_scale scale = palette_scale_common();
    double high = fmin(ROW_MOST, fmax(ROW_LEAST, floor((double)ROWS_HEIGHT / all)));
    plot_init(p, "years", FIXED_HEIGHT + high * (all + (all > rows)));
    picture_title(s, "Sugar in the grass, year by year", p);
    plot_number(p, "rows", rows);
    plot_number(p, "row_high", high);
    plot_number(p, "name_each", ceil(LABEL_HEIGHT / high));
    plot_number(p, "with_mean", all > rows);
    plot_number(p, "with_held", group < s->animals);
    buf_addf(&p->given, "array row_name[%d]\narray row_held[%d]\n", rows, rows);
    plot_texts(p, "held_head", head, 2);
    add_rows(s, rows, group, least, p);
    add_months(s, p);
    plot_block(p, "cells");
    add_cells(s, &scale, p);
    if (all > rows) {
        add_mean(s, all, &scale, p); /* one row is left free above it */
    }
    plot_block_end(p);
    picture_key(&scale, p);
    explain(s, rows, group, least, p);
}
