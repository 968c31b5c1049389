/* Day by day: sugar, turnout, growth and weather under one another.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/series.h"

#include <math.h>
#include <stdio.h>

/* Heights of plots/days.gp, units. */
enum { FIXED_HEIGHT = 530, STRIP_HEIGHT = 42, STRIP_KEY = 24 };

/* More points than a page can show are drawn together; strips beyond STRIPS_MOST are left out. */
enum { POINTS_MOST = 800, STRIPS_MOST = 10 };

static size_t days_together(const struct series *s)
{
    size_t days = 1;
    while (s->n > days * POINTS_MOST) {
        days = days == 1 ? 7 : days * 2;
    }
    return days;
}

/* Days i..end as one. */
static struct series_day together(const struct series *s, size_t i, size_t end)
{
    struct series_day all = s->day[i];
    double n = (double)(end - i);
    for (size_t k = i + 1; k < end; k++) {
        const struct series_day *d = &s->day[k];
        all.nsc_mean += d->nsc_mean;
        all.nsc_low += d->nsc_low;
        all.nsc_high += d->nsc_high;
        all.growth += d->growth;
        all.water += d->water;
        all.rain += d->rain;
        all.tmin = fmin(all.tmin, d->tmin);
        all.tmax = fmax(all.tmax, d->tmax);
        all.air_frost |= d->air_frost;
        all.ground_frost |= d->ground_frost;
    }
    all.nsc_mean /= n;
    all.nsc_low /= n;
    all.nsc_high /= n;
    all.growth /= n;
    all.water /= n;
    return all;
}

static void raise(double *most, double x)
{
    *most = x > *most ? x : *most;
}

static void add_days(const struct series *s, size_t step, struct plot *p)
{
    double nsc = 0.0, growth = 0.0, rain = 0.0, warm = -100.0, cold = 100.0;
    plot_block(p, "days");
    for (size_t i = 0; i < s->n; i += step) {
        size_t end = i + step < s->n ? i + step : s->n;
        struct series_day d = together(s, i, end);
        double x = s->first + (double)(i + end) / 2.0;
        plot_row(p,
                 (double[]){x, d.nsc_low, d.nsc_mean, d.nsc_high, d.growth, d.tmin, d.tmax, d.rain, 100.0 * d.water,
                            d.air_frost ? 2 : d.ground_frost},
                 10);
        raise(&nsc, d.nsc_high);
        raise(&growth, d.growth);
        raise(&rain, d.rain);
        raise(&warm, d.tmax);
        cold = fmin(cold, d.tmin);
    }
    plot_block_end(p);
    plot_scale(p, "nsc", nsc, 5);
    plot_scale(p, "growth", fmax(growth, 10.0), 4);
    plot_scale(p, "rain", fmax(rain, 5.0), 3);
    plot_number(p, "warmest", 5.0 * ceil(warm / 5.0));
    plot_number(p, "coldest", 5.0 * floor(cold / 5.0) - 5.0); /* room for the frost marks */
    plot_number(p, "together", (double)step);
}

static bool any_muzzled(const struct series *s, size_t strips)
{
    bool any = false;
    for (size_t a = 0; a < strips; a++) {
        any |= series_muzzled(s, a) > 0;
    }
    return any;
}

static void explain(const struct series *s, size_t strips, size_t step, struct plot *p)
{
    char text[200];
    plot_caption(p, picture_nsc);
    plot_caption(p, "Line: the day's mean. Band: 8 paddocks in 10 of this kind and weather lie within it.");
    if (strips) {
        plot_caption(p, "Turnout: as advised by what each morning knew; the darker and taller, the less grazing.");
    }
    if (any_muzzled(s, strips)) {
        plot_caption(p, "Muzzled: so many days' hours need a grazing muzzle.");
    }
    if (strips < s->animals) {
        snprintf(text, sizeof text, "The first %zu of %zu groups are shown.", strips, s->animals);
        plot_caption(p, text);
    }
    plot_caption(p, "Frost marks: dark, air frost; light, ground frost only (estimated).");
    if (step > 1) {
        snprintf(text, sizeof text,
                 "Each point stands for %zu days: means; coldest and warmest; rain summed; the commonest turnout.",
                 step);
        plot_caption(p, text);
    }
    plot_caption(p, picture_closing);
}

void picture_days(const struct series *s, struct plot *p)
{
    size_t strips = s->animals < STRIPS_MOST ? s->animals : STRIPS_MOST, step = days_together(s);
    plot_init(p, "days", (double)(FIXED_HEIGHT + STRIP_HEIGHT * strips + (strips ? STRIP_KEY : 0)));
    picture_title(s, "Sugar in the grass, day by day", p);
    plot_time_axis(p, s->first, s->first + (date_t)s->n - 1);
    add_days(s, step, p);
    picture_strips(s, 0, strips, step, p);
    explain(s, strips, step, p);
}
