/* Days past to the morning, and days ahead. SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/morning.h"

#include "base/clock.h"
#include "data/normals.h"
#include "physics/diurnal.h"
#include "physics/frost.h"
#include "physics/sun.h"

#include <math.h>
#include <string.h>

static enum err_code no_memory(struct err *e)
{
    return err_set(e, ERR_NOMEM, "out of memory");
}

static void set_clock(const struct context *c, struct today_day *day)
{
    const struct site *s = &c->holding.site;
    struct sun_day sun = sun_of_day(day->date, s->latitude, s->longitude, SUN_GEOMETRIC);
    day->clock_offset = clock_from_solar(s->timezone, day->date, s->longitude, sun.equation_min);
}

static double night_hours(const struct context *c, const struct run_day *d)
{
    return 24.0 - sun_fao_day_length(date_day_of_year(d->morning.date), c->holding.site.latitude);
}

/* Grass is taken for thawed when the air above it is as warm as where ground frost ends. */
static double thaw_hour(const struct context *c, const struct run_day *d)
{
    enum { STEPS_H = 6 };
    struct diurnal_day day = {.tmin = d->morning.tmin,
                              .tmax = d->morning.tmax,
                              .tmax_before = d->morning.tmax_before,
                              .tmin_after = d->morning.tmin_after,
                              .day_length_h = 24.0 - night_hours(c, d)};
    int steps = (int)(day.day_length_h * STEPS_H);
    for (int i = 0; i <= steps; i++) {
        double h = 12.0 - day.day_length_h / 2.0 + (double)i / STEPS_H;
        if (diurnal_temperature(&day, h) >= c->params.limits.thaw_c) {
            return h;
        }
    }
    return NAN;
}

/* Of the day itself only the night's minimum is known. */
static void set_frost(const struct context *c, const struct run_day *d, size_t i, struct today_day *day)
{
    const struct weather_days *w = &c->weather;
    bool before = i > 0 && i <= w->n;
    struct frost_night n = {.tmin = d->morning.tmin,
                            .tmin_before = before ? weather_at(w, WEATHER_TMIN, i - 1) : (double)NAN,
                            .tmin_after = d->morning.tmin_after,
                            .tmax = d->morning.tmax,
                            .tmax_before = d->morning.tmax_before,
                            .wind = NAN,
                            .wind_before = NAN,
                            .clearness = NAN,
                            .clearness_before = NAN,
                            .rain = NAN,
                            .rain_before = before ? weather_at(w, WEATHER_RAIN, i - 1) : (double)NAN,
                            .night_h = night_hours(c, d)};
    day->air_frost = frost_air(n.tmin);
    day->ground_frost = frost_ground_chance(&n) >= FROST_CAUTIOUS;
    day->thaw_h = thaw_hour(c, d);
}

/* The last days once more with usual weather, to name what drove the sugar. */
static enum err_code find_drivers(struct context *c, const struct run *before, size_t today, size_t n,
                                  struct today_day *day, struct err *e)
{
    struct run_day past[DRIVER_DAYS + 1];
    struct driver_normal normal[DRIVER_DAYS + 1];
    size_t first = today - n;
    for (size_t i = 0; i <= n; i++) {
        date_t date = c->weather.day0 + (date_t)(first + i);
        context_day(c, first + i, &past[i]);
        normal[i] = (struct driver_normal){
            normals_at(&c->weather, WEATHER_TMIN, date, first), normals_at(&c->weather, WEATHER_TMAX, date, first),
            normals_at(&c->weather, WEATHER_RAD, date, first), normals_at(&c->weather, WEATHER_RAIN, date, first)};
        if (isnan(normal[i].tmin) || isnan(normal[i].tmax) || isnan(normal[i].rad) || isnan(normal[i].rain)) {
            return ERR_OK; /* under a year of weather: no normals, no drivers */
        }
    }
    struct driver *found = arena_alloc(&c->arena, c->holding.paddocks * DRIVERS, sizeof *found);
    if (!found || !drivers_find(before, past, normal, n, &c->arena, found)) {
        return no_memory(e);
    }
    day->driver = found;
    return ERR_OK;
}

/* A copy of the run on day i of the weather, with its advice. */
static enum err_code advise_day(struct context *c, const struct run *now, size_t i, bool ahead, struct today_day *day,
                                struct err *e)
{
    struct run_day d;
    struct run *r = arena_alloc(&c->arena, 1, sizeof *r);
    if (!r || !run_copy(r, now, &c->arena)) {
        return no_memory(e);
    }
    context_day(c, i, &d);
    d.assumed = d.assumed || ahead; /* a forecast of another day is no surer than persistence for this one */
    run_morning(r, &d);
    *day = (struct today_day){.date = c->weather.day0 + (date_t)i, .run = r, .assumed = d.assumed};
    set_frost(c, &d, i, day);
    return ERR_OK;
}

void mornings_pass(const struct context *c, size_t from, size_t to, struct run *r)
{
    bool stocked = run_is_stocked(r);
    enum run_depth depth = r->depth;
    struct run_day d;
    for (size_t i = from; i < to; i++) {
        date_t date = c->weather.day0 + (date_t)i;
        bool followed = r->follow_animals && c->until != DATE_NONE && /* none: the grass alone is asked for */
                        date + c->params.limits.way_back_followed_days >= c->until;
        r->depth = i + RUN_RECENT < to ? RUN_WHETHER : RUN_HOURS;
        if (stocked || followed) {
            context_day(c, i, &d);
            run_morning(r, &d);
        } else {
            context_evening(c, i, &d);
        }
        run_evening(r, &d);
    }
    r->depth = depth;
}

static enum err_code run_to(struct context *c, size_t today, struct run *r, struct today_view *v, struct today_day *day,
                            struct err *e)
{
    size_t n = today > DRIVER_DAYS + MORNING_DAYS_BEFORE && !c->drivers_unwanted ? DRIVER_DAYS : 0;
    struct run before;
    if (!context_run(c, true, r)) {
        return no_memory(e);
    }
    mornings_pass(c, 0, today - n, r);
    if (!run_copy(&before, r, &c->arena)) {
        return no_memory(e);
    }
    mornings_pass(c, today - n, today, r);
    struct run_animal *yesterday = arena_alloc(&c->arena, r->animals, sizeof *yesterday);
    if (!yesterday) {
        return no_memory(e);
    }
    memcpy(yesterday, r->animal, r->animals * sizeof *yesterday);
    v->yesterday = yesterday;
    enum err_code code = advise_day(c, r, today, false, day, e);
    return code == ERR_OK && n ? find_drivers(c, &before, today, n, day, e) : code;
}

/* Mornings after the first, each after an evening by the forecast. */
static enum err_code run_ahead(struct context *c, size_t today, struct run *r, size_t days, struct today_view *v,
                               struct today_day *day, struct err *e)
{
    enum err_code code = ERR_OK;
    const struct weather_days *w = &c->weather;
    for (size_t k = 1; k < days && code == ERR_OK; k++) {
        size_t i = today + k;
        struct run_day d;
        if (i >= w->n || w->origin[i] != ORIGIN_FORECAST) {
            break;
        }
        context_day(c, i - 1, &d);
        d.recorded = i == today + 1 ? d.morning : d.recorded; /* of today itself only the morning's view is known */
        run_morning(r, &d);
        run_evening(r, &d);
        code = advise_day(c, r, i, true, &day[k], e);
        v->days = k + 1;
    }
    return code;
}

enum err_code mornings_find(struct context *c, date_t date, size_t days, struct today_view *v, struct err *e)
{
    size_t today = (size_t)(date - c->weather.day0);
    struct today_day *day = arena_alloc(&c->arena, days, sizeof *day);
    struct run r;
    if (!day) {
        return no_memory(e);
    }
    v->day = day;
    v->days = 1;
    v->solar = !c->holding.site.timezone[0] || isnan(c->holding.site.longitude);
    enum err_code code = run_to(c, today, &r, v, &day[0], e);
    code = code == ERR_OK ? run_ahead(c, today, &r, days, v, day, e) : code;
    for (size_t k = 0; k < v->days && code == ERR_OK && !v->solar; k++) {
        set_clock(c, &day[k]);
    }
    return code;
}
