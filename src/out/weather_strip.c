/* A strip a year: one letter for each week of it. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/weather_strip.h"

#include <math.h>
#include <string.h>

enum { WEEKS = 53 };

/* What a week shows is the worst of its days; the letters in that order. */
enum mark { MARK_NONE, MARK_RECORDED, MARK_FORECAST, MARK_FILLED, MARK_DOUBT, MARK_MISSING };
static const char letter[] = " =~+?.";

const char *const weather_strip_legend =
    "one letter a week: = recorded  ~ forecast  + filled in  ? doubtful  . missing";

static int week_of(date_t date)
{
    return (date_day_of_year(date) - 1) / 7;
}

static enum mark mark_of(const struct weather_view *v, size_t i)
{
    const struct weather_days *r = v->read, *w = v->whole;
    date_t date = r->day0 + (date_t)i;
    bool in = w && date >= w->day0 && date < w->day0 + (date_t)w->n;
    if (in && w->origin[date - w->day0] == ORIGIN_FILLED) {
        return MARK_FILLED;
    }
    if (r->origin[i] == ORIGIN_FORECAST) {
        return MARK_FORECAST;
    }
    return weather_lacks(r, i) ? MARK_MISSING : MARK_RECORDED;
}

struct year {
    int year;
    unsigned char week[WEEKS];
};

static void raise(struct year *y, date_t date, enum mark m)
{
    unsigned char *week = &y->week[week_of(date)];
    *week = m > *week ? (unsigned char)m : *week;
}

/* Marks the doubts of y, which lie in date order from *next on. */
static void add_doubts(const struct quality *q, struct year *y, size_t *next)
{
    for (; *next < q->n && date_split(q->doubt[*next].date).year <= y->year; ++*next) {
        const struct doubt *d = &q->doubt[*next];
        if (date_split(d->date).year == y->year && d->kind != DOUBT_MISSING) {
            raise(y, d->date, MARK_DOUBT);
        }
    }
}

static void print_year(const struct year *y, struct buf *b)
{
    char line[WEEKS + 1];
    int end = 0;
    for (int k = 0; k < WEEKS; k++) {
        line[k] = letter[y->week[k]];
        end = line[k] == ' ' ? end : k + 1;
    }
    buf_addf(b, "  %d %.*s\n", y->year, end, line);
}

void weather_strip(const struct weather_view *v, struct buf *b)
{
    char head[WEEKS + 4];
    struct year y = {.year = date_split(v->read->day0).year};
    size_t next = 0;
    memset(head, ' ', sizeof head);
    for (int m = 0; m < 12; m++) {
        memcpy(head + week_of(date_make(2023, m + 1, 1)), date_month_short(m + 1), 3);
    }
    buf_addf(b, "       %.*s\n", week_of(date_make(2023, 12, 1)) + 3, head);
    for (size_t i = 0; i < v->read->n; i++) {
        date_t date = v->read->day0 + (date_t)i;
        int year = date_split(date).year;
        if (year != y.year) {
            add_doubts(v->quality, &y, &next);
            print_year(&y, b);
            y = (struct year){.year = year};
        }
        raise(&y, date, mark_of(v, i));
    }
    add_doubts(v->quality, &y, &next);
    print_year(&y, b);
}
