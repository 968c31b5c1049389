/* The pictures of the sheet. Dark and high is little grazing, as in all pictures: the
 * order stands on a photocopy. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/html.h"
#include "out/sheet.h"
#include "out/today_words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Lengths in the pixels of a phone 360 wide. */
enum {
    WIDTH = 360,
    LEFT = 34, /* room for the numbers of the axis */
    RIGHT = 8,
    BAR_TOP = 4,
    BAR_HIGH = 13,
    CLOCK_HIGH = 32,
    CHART_TOP = 4,
    CHART_HIGH = 76,
    LABELS = 12, /* a line of them */
    STRIP_HIGH = 8,
    GROUP_NAME = 40, /* characters */
    MARK_WIDTH = 12,
    MARK_HIGH = 12,
    HOURS = 24,
    AXIS_STEP = 100, /* g/kg between the lines of the axis; twice that when it is higher than FINE_TO */
    FINE_TO = 400,
    MONTHS_FROM = 45 /* days shown from which months are enough of an axis */
};

void sheet_mark(enum turnout t, struct buf *b)
{
    double high = MARK_HIGH * (1.0 + t) / (1.0 + TURNOUT_NONE);
    buf_addf(b, "<svg class=\"mark\" viewBox=\"0 0 %d %d\" aria-hidden=\"true\"><rect fill=\"#%06x\" stroke=\"#111\" ",
             MARK_WIDTH + 2, MARK_HIGH + 2, palette_turnout(t));
    buf_add(b, "x=\"1\" y=\"");
    buf_add_number(b, 1 + MARK_HIGH - high, 1);
    buf_addf(b, "\" width=\"%d\" height=\"", MARK_WIDTH);
    buf_add_number(b, high, 1);
    buf_add(b, "\"/></svg> ");
}

static double hour_x(double left, double hour)
{
    return left + (WIDTH - RIGHT - left) * hour / HOURS;
}

static void hour_labels(double left, double y, struct buf *b)
{
    for (int h = 0; h <= HOURS; h += 3) {
        char text[8];
        snprintf(text, sizeof text, "%d", h);
        svg_text(b, "middle", hour_x(left, h), y, text);
    }
}

static void on_grass(double from, double to, struct buf *b)
{
    double left = RIGHT;
    svg_rect(b, "out", hour_x(left, from), BAR_TOP - 2, hour_x(left, to) - hour_x(left, from), BAR_HIGH + 4);
}

/* Round the clock: what goes on past midnight is the morning's part, too. */
static void session(double from, double hours, struct buf *b)
{
    from = fmod(from + 2.0 * HOURS, HOURS);
    on_grass(from, fmin(from + hours, HOURS), b);
    if (from + hours > HOURS) {
        on_grass(0.0, from + hours - HOURS, b);
    }
}

void sheet_clock(const struct today_view *v, const struct run_animal *a, const char *id, struct buf *b)
{
    const struct advice *x = &a->advice;
    char title[LIMIT_NAME + 32], about[TODAY_WINDOW_TOLD + 32], window[TODAY_WINDOW_TOLD];
    snprintf(title, sizeof title, "Hours on grass of %s", a->group->id);
    if (today_window_told(v, x, window)[0]) {
        snprintf(about, sizeof about, "On grass %s, else off grass.", window);
    } else {
        snprintf(about, sizeof about, "%s all day.", x->turnout == TURNOUT_FREE ? "On grass" : "Off grass");
    }
    svg_begin(b, id, WIDTH, CLOCK_HIGH, title, about);
    buf_addf(b,
             "<defs><pattern id=\"%s-p\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\">"
             "<path class=\"hatch\" d=\"M0 6L6 0M-1 1L1 -1M5 7L7 5\"/></pattern></defs>\n",
             id);
    buf_addf(b, "<rect fill=\"url(#%s-p)\" stroke=\"#111\" x=\"%d\" y=\"%d\" width=\"%d\" height=\"%d\"/>\n", id, RIGHT,
             BAR_TOP, WIDTH - 2 * RIGHT, BAR_HIGH);
    if (x->turnout == TURNOUT_FREE) {
        session(0.0, HOURS, b);
    } else if (window[0]) {
        session(x->from_h + v->day->clock_offset, x->hours, b);
    }
    hour_labels(RIGHT, CLOCK_HIGH - 3, b);
    svg_end(b);
}

static double level_y(double level, double high)
{
    return CHART_TOP + CHART_HIGH * (1.0 - level / high);
}

static void level_axis(double high, enum units u, struct buf *b)
{
    int step = high > FINE_TO ? 2 * AXIS_STEP : AXIS_STEP;
    for (int level = 0; level <= (int)high; level += step) {
        char text[UNITS_TEXT];
        double x[] = {LEFT, WIDTH - RIGHT}, y[] = {level_y(level, high), level_y(level, high)};
        svg_line(b, "rule", x, y, 2);
        svg_text(b, "end", LEFT - 4, level_y(level, high) + 4, units_number(u, AMOUNT_SUGAR, level, 0, text));
    }
}

void sheet_hours(const struct sheet *s, size_t paddock, double high, struct buf *b)
{
    const struct run_paddock *k = &s->v->day->run->paddock[paddock];
    double x[HOURS + 1], y[HOURS + 1], low[HOURS + 1], top[HOURS + 1], level[HOURS + 1];
    char id[24], title[LIMIT_NAME + 64], about[160];
    char from[UNITS_TEXT], to[UNITS_TEXT];
    enum units u = s->v->units;
    int least = 0, most = 0;
    for (int h = 0; h <= HOURS; h++) {
        level[h] = today_nsc_at(s->v, k->expected.nsc_hour, h);
        run_band(level[h], k->ln_sd, &low[h], &top[h]);
        x[h] = hour_x(LEFT, h);
        y[h] = level_y(level[h], high);
        low[h] = level_y(low[h], high);
        top[h] = level_y(top[h], high);
        least = level[h] < level[least] ? h : least;
        most = level[h] > level[most] ? h : most;
    }
    snprintf(id, sizeof id, "hours%zu", paddock);
    snprintf(title, sizeof title, "Sugar of %s through today", k->kept->id);
    snprintf(about, sizeof about, "Lowest about %02d:00 with %s, highest about %02d:00 with %s.", least,
             units_text(u, AMOUNT_SUGAR, level[least], 0, from), most,
             units_number(u, AMOUNT_SUGAR, level[most], 0, to));
    buf_add(b, "<figure class=\"hours\">\n");
    svg_begin(b, id, WIDTH, CHART_TOP + CHART_HIGH + LABELS, title, about);
    svg_band(b, "band", x, low, top, HOURS + 1);
    level_axis(high, u, b);
    svg_line(b, "level", x, y, HOURS + 1);
    hour_labels(LEFT, CHART_TOP + CHART_HIGH + LABELS - 1, b);
    svg_end(b);
    buf_addf(b, "<figcaption>Today, by the clock. %s</figcaption>\n</figure>\n", about);
}

static double day_x(const struct series *c, double day)
{
    return LEFT + (WIDTH - RIGHT - LEFT) * day / (double)c->n;
}

static void day_labels(const struct series *c, double y, struct buf *b)
{
    for (size_t i = 0; i < c->n; i++) {
        struct date_parts d = date_split(c->first + (date_t)i);
        char text[16];
        bool named = d.day == 1 || (c->n < MONTHS_FROM && d.day % 7 == 1 && d.day < 28);
        if (named && day_x(c, (double)i) < WIDTH - RIGHT - 2 * LABELS) {
            double x[] = {day_x(c, (double)i), day_x(c, (double)i)}, tick[] = {CHART_TOP, CHART_TOP + CHART_HIGH + 3};
            svg_line(b, "rule", x, tick, 2);
            snprintf(text, sizeof text, "%d %s", d.day, date_month_short(d.month));
            svg_text(b, "start", day_x(c, (double)i), y, text);
        }
    }
}

/* One group's turnout, like days taken together. */
static void strip(const struct series *c, size_t group, double top, struct buf *b)
{
    struct buf name;
    buf_init(&name);
    buf_add_clean(&name, c->group[group].is->id, strlen(c->group[group].is->id), GROUP_NAME);
    svg_text(b, "start", LEFT, top + LABELS - 2, name.text);
    buf_release_into(&name, b);
    for (size_t i = 0, from = 0; i < c->n; i++) {
        enum turnout t = series_turnout(c, group, i)->turnout;
        if (i + 1 == c->n || series_turnout(c, group, i + 1)->turnout != t) {
            double high = STRIP_HIGH * (1.0 + t) / (1.0 + TURNOUT_NONE);
            buf_addf(b, "<g fill=\"#%06x\">", palette_turnout(t));
            svg_rect(b, "strip", day_x(c, (double)from), top + LABELS + STRIP_HIGH - high,
                     day_x(c, (double)(i + 1)) - day_x(c, (double)from), high);
            buf_add(b, "</g>\n");
            from = i + 1;
        }
    }
}

static void levels(const struct series *c, double high, enum units u, struct buf *b)
{
    double x[SHEET_SEASON_DAYS], y[SHEET_SEASON_DAYS], low[SHEET_SEASON_DAYS], top[SHEET_SEASON_DAYS];
    for (size_t i = 0; i < c->n; i++) {
        x[i] = day_x(c, (double)i + 0.5);
        y[i] = level_y(c->day[i].nsc_mean, high);
        low[i] = level_y(c->day[i].nsc_low, high);
        top[i] = level_y(c->day[i].nsc_high, high);
    }
    svg_band(b, "band", x, low, top, c->n);
    level_axis(high, u, b);
    svg_line(b, "level", x, y, c->n);
}

void sheet_season(const struct sheet *s, size_t paddock, double high, struct buf *b)
{
    const struct series *c = &s->season[paddock];
    double top = CHART_TOP + CHART_HIGH + LABELS;
    char id[24], title[LIMIT_NAME + 64], about[160], first[DATE_TEXT], last[DATE_TEXT];
    char from[UNITS_TEXT], to[UNITS_TEXT];
    enum units u = s->v->units;
    snprintf(id, sizeof id, "season%zu", paddock);
    snprintf(title, sizeof title, "Sugar of %s and turnout, day by day", c->paddock);
    snprintf(about, sizeof about, "From %s to %s: %s on the first day, %s on the last.", date_format(c->first, first),
             date_format(c->first + (date_t)c->n - 1, last), units_text(u, AMOUNT_SUGAR, c->day[0].nsc_mean, 0, from),
             units_number(u, AMOUNT_SUGAR, c->day[c->n - 1].nsc_mean, 0, to));
    buf_add(b, "<figure>\n");
    svg_begin(b, id, WIDTH, top + (LABELS + STRIP_HIGH) * (double)c->animals + 4, title, about);
    levels(c, high, u, b);
    day_labels(c, top - 1, b);
    for (size_t a = 0; a < c->animals; a++) {
        strip(c, a, top + (LABELS + STRIP_HIGH) * (double)a, b);
    }
    svg_end(b);
    buf_addf(b, "<figcaption>%s Below: the turnout each morning advised.</figcaption>\n</figure>\n", about);
}
