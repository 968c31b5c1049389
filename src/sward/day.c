/* One day's weather as the sward sees it. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/date.h"
#include "physics/diurnal.h"
#include "physics/sun.h"
#include "sward/sward.h"

#include <assert.h>

static void set_season(struct sward_day *d, int date, bool south)
{
    struct date_parts p = date_split(date);
    int first = south ? 7 : 1, month = (p.month - first + 12) % 12, doy = date_parts_day_of_year(&p);
    d->new_year = month == 0 && p.day == 1;
    d->season_month = month < 2 ? month : 2;
    d->season_day = south ? (doy + 182) % 365 : doy;
    assert(d->season_month >= 0 && d->season_month <= 2);
}

/* The hours; the sun is in d already. */
static void set_hours(struct sward_day *d, const struct sward_weather *w)
{
    assert(d->day_length_h >= 0.0 && d->day_length_h <= 24.0);
    const struct diurnal_day course = {.tmin = w->tmin,
                                       .tmax = w->tmax,
                                       .tmax_before = w->tmax_before,
                                       .tmin_after = w->tmin_after,
                                       .day_length_h = d->day_length_h,
                                       .rad = w->rad};
    diurnal_sward(&course, d->temperature, d->par);
}

static void set_weather(struct sward_day *d, const struct sward_weather *w)
{
    d->tmin = w->tmin;
    d->tmax = w->tmax;
    d->rad = w->rad;
    d->rain = w->rain;
    d->et0 = w->et0;
}

void sward_day_force(struct sward_day *d, const struct sward_weather *w, double day_length_h, bool south,
                     bool snow_rule)
{
    d->day_length_h = day_length_h;
    d->snow_rule = snow_rule;
    set_season(d, w->date, south);
    set_weather(d, w);
    set_hours(d, w);
}

void sward_day_again(struct sward_day *d, const struct sward_weather *w, const struct sward_day *same, bool hours)
{
    d->day_length_h = same->day_length_h;
    d->snow_rule = same->snow_rule;
    d->new_year = same->new_year;
    d->season_month = same->season_month;
    d->season_day = same->season_day;
    set_weather(d, w);
    if (hours) {
        set_hours(d, w);
    }
}

void sward_day_make(struct sward_day *d, const struct sward_weather *w, const struct sward_place *place)
{
    struct sun_place sun = sun_place_of(place->latitude, place->longitude, SUN_GEOMETRIC);
    sward_day_force(d, w, sun_day_length(w->date, &sun), place->latitude < 0.0, place->snow_rule);
}
