/* When in the day: hours by clock upwards, days across. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/clock.h"
#include "out/palette.h"
#include "out/series.h"
#include "physics/sun.h"

#include <math.h>
#include <stdio.h>

/* Units of plots/hours.gp, without and with a strip. */
enum { ALONE_HEIGHT = 352, STRIP_HEIGHT = 428 };

/* How far a box reaches under the next one, so that no seam shows: days, hours. */
#define LAP_DAYS 0.04
#define LAP_HOURS 0.1

struct picture_clock picture_clock_at(const struct series *s, size_t i)
{
    date_t date = s->first + (date_t)i;
    struct sun_day sun = sun_of_day(date, s->site->latitude, s->site->longitude, SUN_ALMANAC);
    struct picture_clock c = {.sunrise = sun.sunrise_h, .sunset = sun.sunset_h};
    if (!picture_is_solar(s)) {
        c.ahead = clock_from_solar(s->site->timezone, date, s->site->longitude, sun.equation_min);
    }
    return c;
}

/* One class from hour `from` to hour `to` of the whole span: a box in each day it touches. */
static void add_boxes(const struct series *s, double from, double to, int class, const struct palette_scale *scale,
                      struct plot *p)
{
    double end = 24.0 * (double)s->n;
    from = fmax(from, 0.0);
    to = fmin(to, end);
    while (class >= 0 && from < to) {
        double day = floor(from / 24.0), stop = fmin(to, 24.0 * (day + 1.0)), upper = stop - 24.0 * day;
        plot_row(p,
                 (double[]){s->first + day, s->first + fmin(day + 1.0 + LAP_DAYS, (double)s->n), from - 24.0 * day,
                            fmin(upper + LAP_HOURS, 24.0), palette_class_colour(scale, class)},
                 5);
        from = stop;
    }
}

/* The day's course is small beside that of the year: a scale that just holds these days. */
struct palette_scale picture_scale(const struct series *s)
{
    double low = s->day[0].nsc_hour[0], high = low;
    for (size_t i = 0; i < s->n; i++) {
        for (int h = 0; h < 24; h++) {
            low = fmin(low, s->day[i].nsc_hour[h]);
            high = fmax(high, s->day[i].nsc_hour[h]);
        }
    }
    return palette_scale_between(low, high);
}

/* The first and the last hour reach to the edge of the picture. */
static void add_cells(const struct series *s, const struct palette_scale *scale, struct plot *p)
{
    double from = 0.0;
    int class = palette_class(scale, s->day[0].nsc_hour[0]);
    for (size_t i = 0; i < s->n; i++) {
        double ahead = picture_clock_at(s, i).ahead;
        for (int h = 0; h < 24; h++) {
            int now = palette_class(scale, s->day[i].nsc_hour[h]);
            if (now != class) {
                double at = 24.0 * (double)i + h + ahead;
                add_boxes(s, from, at, class, scale, p);
                from = at;
                class = now;
            }
        }
    }
    add_boxes(s, from, 24.0 * (double)s->n, class, scale, p);
}

bool picture_allowed(const struct series *s, size_t group, size_t i, double *from, double *to)
{
    const struct series_turnout *t = series_turnout(s, group, i);
    double ahead = picture_clock_at(s, i).ahead;
    bool free = t->turnout == TURNOUT_FREE;
    *from = free ? 0.0 : fmax(0.0, t->from_h + ahead);
    *to = free ? 24.0 : fmin(24.0, t->to_h + ahead);
    return t->turnout != TURNOUT_NONE && *to > *from;
}

/* An outline round each run of days with allowed hours: up the lower edge, back along the upper. */
static void add_outlines(const struct series *s, size_t group, struct plot *p)
{
    double from, to;
    for (size_t i = 0; i < s->n; i++) {
        size_t first = i;
        if (!picture_allowed(s, group, i, &from, &to)) {
            continue;
        }
        double start = to;
        plot_row(p, (double[]){s->first + (double)i, to}, 2);
        while (i < s->n && picture_allowed(s, group, i, &from, &to)) {
            plot_row(p, (double[]){s->first + (double)i, from}, 2);
            plot_row(p, (double[]){s->first + (double)i + 1.0, from}, 2);
            i++;
        }
        for (size_t k = i; k-- > first;) {
            picture_allowed(s, group, k, &from, &to);
            plot_row(p, (double[]){s->first + (double)k + 1.0, to}, 2);
            plot_row(p, (double[]){s->first + (double)k, to}, 2);
        }
        plot_row(p, (double[]){s->first + (double)first, start}, 2);
        plot_row(p, NULL, 0);
    }
}

static void add_sun(const struct series *s, struct plot *p)
{
    struct picture_clock last = picture_clock_at(s, s->n - 1);
    plot_number(p, "rise_last", last.sunrise + last.ahead);
    plot_number(p, "set_last", last.sunset + last.ahead);
    plot_block(p, "sun");
    for (size_t i = 0; i < s->n; i++) {
        struct picture_clock c = picture_clock_at(s, i);
        plot_row(p, (double[]){s->first + (double)i + 0.5, c.sunrise + c.ahead, c.sunset + c.ahead}, 3);
    }
    plot_block_end(p);
}

static void explain(const struct series *s, size_t group, struct plot *p)
{
    char text[400];
    plot_caption(p, "Colour: NSC of the grass, hour by hour; the darker, the more, on a scale made for these days. "
                    "Light is less sugar, not safety.");
    plot_caption(p, picture_nsc);
    if (group < s->animals) {
        snprintf(text, sizeof text,
                 "White outline: the hours that each morning would have advised for %s; the bars below: the turnout.",
                 picture_group_id(s, group));
        plot_caption(p, text);
    }
    picture_doubt(s, p);
    plot_caption(p, picture_closing);
}

void picture_hours(const struct series *s, struct plot *p)
{
    size_t group = picture_tightest(s);
    const struct palette_scale scale = picture_scale(s);
    bool with = group < s->animals;
    plot_init(p, "hours", with ? STRIP_HEIGHT : ALONE_HEIGHT);
    picture_title(s, "Sugar in the grass, hour by hour", p);
    plot_text(p, "clock_name", picture_is_solar(s) ? "by the sun: 12:00 is when it stands highest" : s->site->timezone);
    plot_time_axis(p, s->first, s->first + (date_t)s->n - 1);
    plot_block(p, "cells");
    add_cells(s, &scale, p);
    plot_block_end(p);
    add_sun(s, p);
    plot_block(p, "outline");
    if (with) {
        add_outlines(s, group, p);
    }
    plot_block_end(p);
    picture_strips(s, group, with ? 1 : 0, 1, p);
    picture_key(&scale, p);
    explain(s, group, p);
}
