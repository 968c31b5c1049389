/* When in the day: hours by clock upwards, days across. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/clock.h"
#include "out/palette.h"
#include "out/series.h"
#include "physics/sun.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

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

bool picture_allowed(const struct series *s, size_t group, size_t i, int part, double *from, double *to)
{
    const struct series_turnout *t = series_turnout(s, group, i);
    if (t->turnout == TURNOUT_FREE) {
        *from = 0.0;
        *to = 24.0;
        return part == 0;
    }
    double begins = fmod(t->from_h + picture_clock_at(s, i).ahead + 24.0, 24.0), ends = begins + t->to_h - t->from_h;
    *from = part ? 0.0 : begins;
    *to = part ? ends - 24.0 : fmin(ends, 24.0);
    return t->turnout != TURNOUT_NONE && *to > *from;
}

bool picture_allows(const struct series *s, size_t group, size_t i, double hour)
{
    double from, to;
    for (int part = 0; part < 2; part++) {
        if (picture_allowed(s, group, i, part, &from, &to) && from <= hour && hour < to) {
            return true;
        }
    }
    return false;
}

/* Allowed at that hour of day i? Never on a day that is not shown. */
static bool is_allowed(const struct series *s, size_t group, size_t i, double hour)
{
    return i < s->n && picture_allows(s, group, i, hour);
}

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* The hours at which something begins or ends on day i; returns how many, at most 4. */
static size_t add_ends(const struct series *s, size_t group, size_t i, double *end)
{
    size_t n = 0;
    for (int part = 0; part < 2 && i < s->n; part++) {
        n += picture_allowed(s, group, i, part, &end[n], &end[n + 1]) ? 2 : 0;
    }
    return n;
}

static void add_line(double x, double y, double to_x, double to_y, struct plot *p)
{
    plot_row(p, (double[]){x, y}, 2);
    plot_row(p, (double[]){to_x, to_y}, 2);
    plot_row(p, NULL, 0);
}

/* Lines wherever allowed hours meet others: across a day, and upright between two days.
 * Day s->n is the empty one behind the last; size_t's wrap makes the one before the first empty too. */
static void add_outline(const struct series *s, size_t group, struct plot *p)
{
    double end[10];
    for (size_t i = 0; i <= s->n; i++) {
        double x = s->first + (double)i;
        size_t n = add_ends(s, group, i, end);
        for (size_t k = 0; k < n; k++) {
            add_line(x, end[k], x + 1.0, end[k], p);
        }
        n += add_ends(s, group, i - 1, end + n);
        qsort(end, n, sizeof *end, by_size);
        for (size_t k = 1; k < n; k++) {
            double middle = (end[k - 1] + end[k]) / 2.0;
            if (is_allowed(s, group, i, middle) != is_allowed(s, group, i - 1, middle)) {
                add_line(x, end[k - 1], x, end[k], p);
            }
        }
    }
}

/* Polar day and night have neither rise nor set. */
static bool rises(const struct picture_clock *c)
{
    return c->sunset > c->sunrise && c->sunset - c->sunrise < 24.0;
}

static void add_sun(const struct series *s, struct plot *p)
{
    struct picture_clock last = picture_clock_at(s, s->n - 1);
    plot_number(p, "rise_last", rises(&last) ? last.sunrise + last.ahead : 0.0);
    plot_number(p, "set_last", rises(&last) ? last.sunset + last.ahead : 0.0);
    plot_block(p, "sun");
    for (size_t i = 0; i < s->n; i++) {
        struct picture_clock c = picture_clock_at(s, i);
        if (rises(&c)) {
            plot_row(p, (double[]){s->first + (double)i + 0.5, c.sunrise + c.ahead, c.sunset + c.ahead}, 3);
        } else {
            plot_row(p, (double[]){s->first + (double)i + 0.5, NAN, NAN}, 3);
        }
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
        snprintf(
            text, sizeof text,
            "Within the white outline: the hours that each morning would have advised for %s; bars below: the turnout.",
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
        add_outline(s, group, p);
    }
    plot_block_end(p);
    picture_strips(s, group, with ? 1 : 0, 1, p);
    picture_key(&scale, p);
    explain(s, group, p);
}
