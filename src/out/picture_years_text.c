/* A line a year in figures. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/picture_text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { DAYS_A_COLUMN = 6, COLUMNS = PICTURE_FRAME / DAYS_A_COLUMN };

struct line {
    double sum[COLUMNS];
    int n[COLUMNS];
};

static void add_line(const char *name, const struct line *l, const struct palette_scale *scale, struct buf *b)
{
    buf_addf(b, "%7s ", name);
    for (int k = 0; k < COLUMNS; k++) {
        buf_add_char(b, l->n[k] ? (char)('0' + palette_class(scale, l->sum[k] / l->n[k])) : ' ');
    }
    buf_add_char(b, '\n');
}

/* The month that begins in column k. */
static void label(const struct series *s, size_t k, char *text, size_t size)
{
    char day[64];
    text[0] = 0;
    for (int month = 1; month <= 12; month++) {
        date_t d = date_make(2004, month, 1);
        if ((size_t)picture_place_of(s, d).at / DAYS_A_COLUMN == k) {
            snprintf(text, size, "%.3s", date_format_short(d, day, sizeof day) + 6); /* "Thu 1 Jan" */
        }
    }
}

void picture_years_text(const struct series *s, struct buf *b)
{
    const struct palette_scale scale = palette_scale_common();
    struct line line = {0}, all = {0};
    letters_head(s, "Sugar in the grass, year by year: a figure for each six days, their mean", b);
    letters_marks(s, COLUMNS, label, b);
    for (size_t i = 0; i < s->n; i++) {
        struct picture_place now = picture_place_of(s, s->first + (date_t)i);
        int k = now.at / DAYS_A_COLUMN;
        line.sum[k] += s->day[i].nsc_mean;
        line.n[k]++;
        all.sum[k] += s->day[i].nsc_mean;
        all.n[k]++;
        if (i + 1 == s->n || picture_place_of(s, s->first + (date_t)i + 1).year != now.year) {
            char name[32];
            snprintf(name, sizeof name, s->site->latitude < 0 ? "%d/%02d" : "%d", now.year, (now.year + 1) % 100);
            add_line(name, &line, &scale, b);
            memset(&line, 0, sizeof line);
        }
    }
    buf_add_char(b, '\n');
    if (picture_years_of(s) > 1) {
        add_line("mean", &all, &scale, b);
        letters_marks(s, COLUMNS, label, b);
        buf_add_char(b, '\n');
    }
    letters_scale(&scale, b);
    letters_close(b);
}
