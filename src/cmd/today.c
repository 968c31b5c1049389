/* The morning advice: weather up to that morning, the run, the view.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/today.h"

#include "base/clock.h"
#include "base/file.h"
#include "base/term.h"
#include "cmd/context.h"
#include "data/normals.h"
#include "out/today.h"
#include "physics/frost.h"
#include "physics/sun.h"

#include <libgen.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

enum { DAYS_BEFORE = 3, STATUS_FIRST = 10, LATITUDE_CHECKED = 58 /* Aberdeen, the northernmost trial, lies at 57.2 */ };

static void warn(struct today_view *v, const char *format, ...) __attribute__((format(printf, 2, 3)));

static void warn(struct today_view *v, const char *format, ...)
{
    va_list arguments;
    if (v->warnings < TODAY_WARNINGS) {
        va_start(arguments, format);
        vsnprintf(v->warning[v->warnings++], LIMIT_TEXT, format, arguments);
        va_end(arguments);
    }
}

/* Is there weather enough, and new enough, for this morning? */
static enum err_code check_age(const struct context *c, const struct options *o, struct today_view *v, struct err *e)
{
    const struct advice_limits *l = &c->params.limits;
    char first[DATE_TEXT], last[DATE_TEXT];
    date_t day0 = c->weather.day0;
    if (v->date < day0 + DAYS_BEFORE) {
        return err_set(e, ERR_NOINPUT, "the weather begins on %s; an advice needs at least %d days before its morning",
                       date_format(day0, first), DAYS_BEFORE);
    }
    v->recorded_to = c->report.recorded_to < v->date ? c->report.recorded_to : v->date - 1;
    v->forecast_to = c->report.forecast_to;
    v->age_days = v->date - 1 - v->recorded_to > 0 ? v->date - 1 - v->recorded_to : 0;
    v->provisional = v->age_days > l->stale_provisional_days;
    if (v->age_days > l->stale_refuse_days && !o->allow_stale) {
        return err_set(e, ERR_NOINPUT,
                       "the weather ends on %s, %d days before the morning asked for: no advice is given on weather "
                       "older than %g days; bring the file up to date, or say --allow-stale",
                       date_format(v->recorded_to, last), v->age_days + 1, l->stale_refuse_days);
    }
    if (v->age_days >= l->stale_notice_days) {
        warn(v, "%sthe weather ends on %s; the %d days since are assumed to be like those before.",
             v->provisional ? "Provisional: " : "", date_format(v->recorded_to, last), v->age_days);
    }
    return ERR_OK;
}

/* What a call without a holding file left open. */
static void name_defaults(const struct context *c, const struct options *o, struct today_view *v)
{
    const struct paddock *p = &c->holding.paddock[0];
    char text[LIMIT_TEXT] = "";
    size_t n = 0;
    if (!o->grass) {
        n += (size_t)snprintf(text + n, sizeof text - n, ", grass %s", p->grass[0]->id);
    }
    if (!o->soil) {
        n += (size_t)snprintf(text + n, sizeof text - n, ", soil %s", p->soil->id);
    }
    if (!o->nitrogen) {
        n += (size_t)snprintf(text + n, sizeof text - n, ", nitrogen %s", p->nitrogen_id);
    }
    if (isnan(o->cover)) {
        n += (size_t)snprintf(text + n, sizeof text - n, ", kept at %.0f kg of dry matter a hectare",
                              p->kept.cover_kg_ha);
    }
    if (isnan(o->weight) && c->holding.animals) {
        snprintf(text + n, sizeof text - n, ", %.0f kg an animal", c->holding.animal[0].weight_kg);
    }
    if (text[0]) {
        warn(v, "assumed, as you did not say: %s.", text + 2);
    }
}

static void name_doubts(const struct context *c, struct today_view *v)
{
    const struct weather_report *r = &c->report;
    size_t days = (size_t)(v->date - c->weather.day0);
    if ((double)days < c->params.limits.min_days) {
        warn(v, "only %zu days of weather come before this morning (%g are wanted): the estimate is less sure.", days,
             c->params.limits.min_days);
    }
    if (r->filled_days || r->missing_days) {
        warn(v, "%zu days were filled in across short gaps, %zu by the usual weather of their season.", r->filled_days,
             r->missing_days);
    }
    if (r->estimated_rad_days) {
        warn(v, "on %zu days the sun's radiation was estimated from the temperatures.", r->estimated_rad_days);
    }
    if (c->note[0]) {
        warn(v, "%s", c->note);
    }
    if (fabs(c->holding.site.latitude) > LATITUDE_CHECKED) {
        warn(v, "the growth of the grass has been checked against measurements up to 57 degrees of latitude only.");
    }
    if (c->holding.animals == 0) {
        warn(v, "no animal was named: only the grass is shown. Add --animal CLASS.");
    }
}

static void name_origins(const struct context *c, struct today_view *v)
{
    unsigned seen = v->assumed ? 1u << ORIGIN_ASSUMED : 0u;
    for (size_t i = 0; i < c->weather.n; i++) {
        seen |= 1u << c->weather.origin[i];
    }
    for (unsigned k = ORIGIN_RECORDED; k <= ORIGIN_ASSUMED; k++) {
        if (seen >> k & 1u) {
            v->origins[v->n_origins++] = day_origin_name((enum day_origin)k);
        }
    }
}

static void set_clock(const struct context *c, struct today_view *v)
{
    const struct site *s = &c->holding.site;
    v->solar = !s->timezone[0] || isnan(s->longitude);
    if (!v->solar) {
        struct sun_day sun = sun_of_day(v->date, s->latitude, s->longitude, SUN_GEOMETRIC);
        v->clock_offset = clock_from_solar(s->timezone, v->date, s->longitude, sun.equation_min);
    }
}

static void set_frost(const struct context *c, const struct run_day *d, struct today_view *v)
{
    int day_of_year = date_day_of_year(v->date);
    struct frost_night n = {.tmin = d->morning.tmin,
                            .tmin_before = NAN,
                            .tmin_after = d->morning.tmin_after,
                            .tmax = d->morning.tmax,
                            .tmax_before = d->morning.tmax_before,
                            .wind = NAN,
                            .wind_before = NAN,
                            .clearness = NAN,
                            .clearness_before = NAN,
                            .rain = NAN,
                            .rain_before = NAN,
                            .night_h = 24.0 - sun_fao_day_length(day_of_year, c->holding.site.latitude)};
    v->air_frost = frost_air(n.tmin);
    v->ground_frost = frost_ground_chance(&n) >= FROST_CAUTIOUS;
}

/* The last days once more with usual weather, to name what drove the sugar. */
static enum err_code find_drivers(struct context *c, const struct run *before, size_t today, size_t n,
                                  struct today_view *v, struct err *e)
{
    struct run_day day[DRIVER_DAYS + 1];
    struct driver_normal normal[DRIVER_DAYS + 1];
    size_t first = today - n;
    for (size_t i = 0; i <= n; i++) {
        date_t date = c->weather.day0 + (date_t)(first + i);
        context_day(c, first + i, &day[i]);
        normal[i] = (struct driver_normal){
            normals_at(&c->weather, WEATHER_TMIN, date, first), normals_at(&c->weather, WEATHER_TMAX, date, first),
            normals_at(&c->weather, WEATHER_RAD, date, first), normals_at(&c->weather, WEATHER_RAIN, date, first)};
        if (isnan(normal[i].tmin) || isnan(normal[i].tmax) || isnan(normal[i].rad) || isnan(normal[i].rain)) {
            return ERR_OK; /* under a year of weather: no normals, no drivers */
        }
    }
    struct driver *found = arena_alloc(&c->arena, c->holding.paddocks * DRIVERS, sizeof *found);
    if (!found || !drivers_find(before, day, normal, n, &c->arena, found)) {
        return err_set(e, ERR_NOMEM, "out of memory");
    }
    v->driver = found;
    return ERR_OK;
}

/* Only a stocked paddock's past depends on past advice. */
static bool needs_mornings(const struct holding *h)
{
    for (size_t i = 0; i < h->paddocks; i++) {
        if (h->paddock[i].kept.how == KEPT_STOCKED) {
            return true;
        }
    }
    return false;
}

static enum err_code run_to(struct context *c, struct run *r, struct today_view *v, struct err *e)
{
    size_t today = (size_t)(v->date - c->weather.day0);
    size_t n = today > DRIVER_DAYS + DAYS_BEFORE ? DRIVER_DAYS : 0;
    bool mornings = needs_mornings(&c->holding);
    struct run before;
    struct run_day d;
    if (!run_init(r, &c->params, &c->holding, &c->arena)) {
        return err_set(e, ERR_NOMEM, "out of memory");
    }
    for (size_t i = 0; i < today; i++) {
        if (i == today - n && !run_copy(&before, r, &c->arena)) {
            return err_set(e, ERR_NOMEM, "out of memory");
        }
        context_day(c, i, &d);
        if (mornings) {
            run_morning(r, &d);
        }
        run_evening(r, &d);
    }
    context_day(c, today, &d);
    run_morning(r, &d);
    v->run = r;
    v->assumed = d.assumed;
    set_frost(c, &d, v);
    return n ? find_drivers(c, &before, today, n, v, e) : ERR_OK;
}

static enum err_code write_log(const struct today_view *v, struct err *e)
{
    char path[LIMIT_PATH], log[LIMIT_PATH + 32];
    struct buf b;
    snprintf(path, sizeof path, "%s", v->holding->path);
    snprintf(log, sizeof log, "%s/advice-log.csv", dirname(path));
    buf_init(&b);
    today_log(v, &b);
    enum err_code code =
        b.failed ? err_set(e, ERR_NOMEM, "out of memory") : file_append(log, today_log_header, b.text, b.length, e);
    buf_release(&b);
    return code;
}

static enum err_code answer(const struct options *o, const struct today_view *v, struct buf *out, int *status,
                            struct err *e)
{
    if (o->json) {
        today_json(v, out);
    } else if (o->csv) {
        today_csv(v, out);
    } else {
        today_text(v, !o->plain && !o->no_colour && term_colour(STDOUT_FILENO),
                   o->plain ? 100 : term_width(STDOUT_FILENO), out);
    }
    for (size_t i = 0; o->exit_status && i < v->run->animals; i++) {
        int level = STATUS_FIRST + (int)v->run->animal[i].advice.turnout;
        *status = level > *status ? level : *status;
    }
    bool logged = v->holding->path[0] && strcmp(v->holding->path, "-") != 0 && !o->no_log && v->run->animals;
    return logged ? write_log(v, e) : ERR_OK;
}

enum err_code cmd_today(const struct options *o, struct buf *out, int *status, struct err *e)
{
    struct context c;
    struct run r;
    struct today_view v = {.holding = &c.holding};
    context_init(&c);
    c.morning = true;
    c.until = o->date;
    enum err_code code = context_load(&c, o, e);
    if (code == ERR_OK) {
        v.date = c.until;
        v.filled_days = c.report.filled_days;
        code = check_age(&c, o, &v, e);
    }
    if (code == ERR_OK) {
        name_doubts(&c, &v);
        if (!c.holding.path[0]) {
            name_defaults(&c, o, &v);
        }
        code = weather_assume(&c.weather, &c.holding.site, v.date - 1, &c.arena, e);
    }
    if (code == ERR_OK) {
        set_clock(&c, &v);
        code = run_to(&c, &r, &v, e);
    }
    if (code == ERR_OK) {
        name_origins(&c, &v);
        code = answer(o, &v, out, status, e);
    }
    context_release(&c);
    return code;
}
