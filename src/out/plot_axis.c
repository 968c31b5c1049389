/* Marks of a time axis: days, months or years, by how many days there are.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/plot_inner.h"

#include <stdio.h>

/* Days up to which the axis names days, months, quarters; beyond it names years. Room
 * for a dozen months or eight dates across the page (our judgement). */
enum { DAYS_TO = 98, MONTHS_TO = 430, QUARTERS_TO = 1300, LABELS = 12, DATES = 8, MARKS_MOST = 400 };

struct marks {
    size_t n;
    double at[MARKS_MOST];
    char text[MARKS_MOST][16];
};

struct axis {
    date_t first, last;
    struct marks grid, tick, year;
};

static void mark(struct marks *m, double at, const char *text)
{
    if (m->n < MARKS_MOST) {
        m->at[m->n] = at;
        snprintf(m->text[m->n], sizeof m->text[0], "%s", text);
        m->n++;
    }
}

static void mark_year(struct axis *a, double at, int year)
{
    char text[16];
    snprintf(text, sizeof text, "%d", year);
    mark(&a->year, at, text);
}

/* Names the year below the first label and below the first of each later year. */
static void tick(struct axis *a, double at, const char *text, int year, int *named)
{
    mark(&a->tick, at, text);
    if (year != *named) {
        mark_year(a, at, year);
        *named = year;
    }
}

static void mark_days(struct axis *a)
{
    static const int step[] = {1, 2, 4, 7, 14};
    int days = (int)(a->last - a->first) + 1, k = 0, named = 0;
    while (k < 4 && days > step[k] * DATES) {
        k++;
    }
    for (date_t d = a->first; d <= a->last; d += step[k]) {
        struct date_parts p = date_split(d);
        char text[16];
        snprintf(text, sizeof text, "%d %s", p.day, date_month_short(p.month));
        mark(&a->grid, d, "");
        tick(a, d + 0.5, text, p.year, &named);
    }
}

/* Spans of `months` months, named in the middle of what is seen of them. */
static void mark_months(struct axis *a, int months)
{
    struct date_parts p = date_split(a->first);
    int named = 0, room = (int)(a->last - a->first + 1) / (2 * LABELS);
    p.month = (p.month - 1) / months * months + 1;
    for (date_t d = date_make(p.year, p.month, 1); d <= a->last; d = date_make(p.year, p.month, 1)) {
        int year = p.year, month = p.month;
        p.month += months;
        if (p.month > 12) {
            p = (struct date_parts){year + 1, 1, 1};
        }
        date_t next = date_make(p.year, p.month, 1);
        date_t from = d > a->first ? d : a->first, to = next - 1 < a->last ? next - 1 : a->last;
        if (d > a->first) {
            mark(&a->grid, d, "");
        }
        if (to - from + 1 >= room) {
            char text[16];
            snprintf(text, sizeof text, months > 1 ? "%s-%s" : "%s", date_month_short(month),
                     date_month_short(month + months - 1));
            tick(a, (from + to + 1) / 2.0, text, year, &named);
        }
    }
}

static void mark_years(struct axis *a)
{
    int first = date_split(a->first).year, last = date_split(a->last).year;
    int step = (last - first + LABELS) / LABELS;
    for (int y = first; y <= last; y++) {
        date_t begins = date_make(y, 1, 1), ends = date_make(y, 12, 31);
        date_t from = begins > a->first ? begins : a->first, to = ends < a->last ? ends : a->last;
        if (begins > a->first) {
            mark(&a->grid, begins, "");
        }
        if (to - from >= 180 && y % step == 0) {
            char text[16];
            snprintf(text, sizeof text, "%d", y);
            mark(&a->tick, (from + to + 1) / 2.0, text);
        }
    }
}

static void write_marks(struct plot *p, const char *name, const struct marks *m, bool texts)
{
    struct buf *b = &p->given;
    buf_addf(b, "array %s_at[%zu]\n", name, m->n ? m->n : 1); /* gnuplot has no empty array */
    buf_addf(b, "%s_count = %zu\n", name, m->n);
    if (texts) {
        buf_addf(b, "array %s_text[%zu]\n", name, m->n ? m->n : 1);
    }
    for (size_t i = 0; i < m->n; i++) {
        buf_addf(b, "%s_at[%zu] = ", name, i + 1);
        buf_add_number(b, m->at[i], 1);
        buf_add_char(b, '\n');
        if (texts) {
            buf_addf(b, "%s_text[%zu] = '%s'\n", name, i + 1, m->text[i]);
        }
    }
}

void plot_time_axis(struct plot *p, date_t first, date_t last)
{
    struct axis a = {.first = first, .last = last};
    int days = (int)(last - first) + 1;
    if (days <= DAYS_TO) {
        mark_days(&a);
    } else if (days <= QUARTERS_TO) {
        mark_months(&a, days <= MONTHS_TO ? 1 : 3);
    } else {
        mark_years(&a);
    }
    plot_number(p, "x_from", first);
    plot_number(p, "x_to", (double)last + 1);
    write_marks(p, "grid", &a.grid, false);
    write_marks(p, "tick", &a.tick, true);
    write_marks(p, "year", &a.year, true);
}
