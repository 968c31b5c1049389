/* Loading in order: models, holding, weather. SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/context.h"

#include "base/clock.h"
#include "base/file.h"
#include "cmd/tuned.h"
#include "data/diary_weight.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

void context_init(struct context *c)
{
    memset(c, 0, sizeof *c);
    c->until = DATE_NONE;
    arena_init(&c->arena);
}

void context_release(struct context *c)
{
    arena_release(&c->arena);
}

enum err_code context_params(struct context *c, struct err *e)
{
    char folder[LIMIT_PATH];
    if (c->params.hash[0]) {
        return ERR_OK;
    }
    file_own_folder("models", "SUGARLEA_MODELS", folder, sizeof folder);
    return params_load(folder, &c->arena, &c->params, e);
}

/* The holding file to use: option, environment, ./holding.json; NULL none. */
static const char *holding_path(const struct options *o)
{
    const char *set = getenv("SUGARLEA_HOLDING");
    if (o->holding) {
        return o->holding;
    }
    if (set && set[0]) {
        return set;
    }
    return !o->weather && !o->list && access("holding.json", F_OK) == 0 ? "holding.json" : NULL;
}

bool context_has_holding(const struct options *o)
{
    return holding_path(o) != NULL;
}

static enum err_code read_holding(struct context *c, const struct options *o, struct err *e)
{
    const char *path = holding_path(o);
    if (path) {
        return holding_load(path, &c->params, &c->arena, &c->holding, e);
    }
    const struct holding_options h = {.latitude = o->latitude,
                                      .longitude = o->longitude,
                                      .elevation_m = o->elevation,
                                      .animal = o->animal,
                                      .grass = o->grass,
                                      .soil = o->soil,
                                      .nitrogen = o->nitrogen,
                                      .weather_file = o->weather,
                                      .weight_kg = o->weight,
                                      .cover_kg_ha = o->cover};
    if (!o->weather && !o->list && !(c->weather_optional && o->animal)) {
        return err_set(e, ERR_USAGE,
                       "there is no holding.json in this folder: go to the folder where yours is, write one with "
                       "\"sugarlea setup\", or name one with --holding FILE (or daily weather with --weather FILE)");
    }
    return holding_from_options(&h, &c->params, &c->arena, &c->holding, e);
}

/* Its clock is entered at once: no hour of it can fail later on. */
static enum err_code load_holding(struct context *c, const struct options *o, struct err *e)
{
    enum err_code code = read_holding(c, o, e);
    return code == ERR_OK ? clock_enter(c->holding.site.timezone, e) : code;
}

/* A morning knows what the diary said by then. */
static enum err_code forget_later_entries(struct context *c, struct err *e)
{
    c->known = c->diary.n;
    if (!c->morning) {
        return ERR_OK;
    }
    if (c->until == DATE_NONE) {
        c->until = clock_today(c->holding.site.timezone);
    }
    bool live = c->until == clock_today(c->holding.site.timezone);
    return diary_know(&c->diary, c->until, live, &c->arena, &c->known, e);
}

/* It knows its own night at most, and forecasts. */
static void forget_later_weather(struct context *c)
{
    struct weather_days *w = &c->weather;
    if (!c->morning || c->until < w->day0) {
        return; /* the command says that it is too early */
    }
    size_t n = (size_t)(c->until - w->day0) + 1;
    while (n < w->n && w->origin[n] == ORIGIN_FORECAST) {
        n++;
    }
    w->n = n < w->n ? n : w->n;
}

static enum err_code latitude_needed(struct err *e)
{
    err_set(e, ERR_USAGE, "is needed, since the weather file does not say where it is: degrees, north positive");
    return err_at(e, NULL, 0, 0, "--latitude");
}

/* Without a holding the file's own place stands in for options that were not given. */
static enum err_code settle_place(struct context *c, struct err *e)
{
    struct site *site = &c->holding.site;
    const struct site *stated = &c->sources.source[0].place;
    if (!c->holding.path[0] && isnan(site->latitude) && !isnan(stated->latitude)) {
        c->place_from_file = true;
        site->latitude = stated->latitude;
        site->longitude = isnan(site->longitude) ? stated->longitude : site->longitude;
        site->elevation_m = isnan(site->elevation_m) ? stated->elevation_m : site->elevation_m;
    }
    return isnan(site->latitude) && !c->place_optional ? latitude_needed(e) : ERR_OK;
}

/* For --verbose: what each source held, on standard error. */
static void say_read(const struct sources *all)
{
    char first[DATE_TEXT], last[DATE_TEXT];
    struct buf b;
    buf_init(&b);
    for (size_t i = 0; i < all->n; i++) {
        const struct source_read *s = &all->source[i];
        if (s->days == 0) {
            continue;
        }
        buf_add(&b, "sugarlea: read ");
        buf_add_clean(&b, s->name, strlen(s->name), LIMIT_PATH);
        buf_addf(&b, ": %s, %s to %s%s", s->layout, date_format(s->first, first), date_format(s->last, last),
                 s->ignored[0] ? "; columns not used: " : "");
        buf_add_clean(&b, s->ignored, strlen(s->ignored), LIMIT_LINE_BYTES);
        buf_add(&b, "\n");
    }
    fputs(b.text, stderr);
    buf_release(&b);
}

static enum err_code load_weather(struct context *c, const struct options *o, struct err *e)
{
    const struct sources_ask ask = {.file = o->weather,
                                    .layout = o->layout,
                                    .units = o->file_units,
                                    .fetch = o->fetch,
                                    .offline = o->offline,
                                    .today = clock_today(c->holding.site.timezone)};
    enum err_code code = sources_read(&ask, &c->holding, &c->params.limits, &c->arena, &c->weather, &c->sources, e);
    if (code == ERR_OK && o->verbose) {
        say_read(&c->sources);
    }
    return code == ERR_OK ? settle_place(c, e) : code;
}

enum err_code context_holding(struct context *c, const struct options *o, struct err *e)
{
    enum err_code code = context_params(c, e);
    if (code == ERR_OK && !holding_path(o)) {
        err_set(e, ERR_USAGE,
                "no holding.json in this folder; \"sugarlea setup\" writes one, --holding FILE names one");
        return err_at(e, NULL, 0, 0, "--holding");
    }
    return code == ERR_OK ? load_holding(c, o, e) : code;
}

static bool does_without(const struct context *c)
{
    return c->weather_unwanted || (c->weather_optional && c->holding.sources == 0);
}

enum err_code context_read(struct context *c, const struct options *o, struct err *e)
{
    enum err_code code = context_params(c, e);
    code = code == ERR_OK ? load_holding(c, o, e) : code;
    return code == ERR_OK && !does_without(c) ? load_weather(c, o, e) : code;
}

/* Of the morning's own day nothing but the night is known. */
static enum err_code doubt_the_past(struct context *c, struct err *e)
{
    struct weather_days past = c->weather;
    size_t days = c->until > past.day0 ? (size_t)(c->until - past.day0) : 0;
    past.n = days < past.n ? days : past.n;
    return quality_check(&past, &c->holding.site, &c->params.quality, &c->arena, &c->quality, e);
}

enum err_code context_diary(struct context *c, struct err *e)
{
    char diary[LIMIT_PATH];
    diary_path(&c->holding, diary, sizeof diary);
    enum err_code code = diary_load(diary, &c->holding, &c->arena, &c->diary, e);
    code = code == ERR_OK ? forget_later_entries(c, e) : code;
    if (code == ERR_OK) {
        diary_weigh(c->diary.entry, c->known, &c->params.limits, &c->holding);
    }
    return code;
}

static enum err_code load_beside(struct context *c, struct err *e)
{
    enum err_code code = context_diary(c, e);
    return code == ERR_OK && !c->untuned ? tuned_read(c, e) : code;
}

enum err_code context_beside(struct context *c, const struct options *o, struct err *e)
{
    enum err_code code = context_params(c, e);
    code = code == ERR_OK ? load_holding(c, o, e) : code;
    return code == ERR_OK ? load_beside(c, e) : code;
}

/* The weather as it was merged, made into what the morning knows. */
static enum err_code settle_weather(struct context *c, struct err *e)
{
    forget_later_weather(c);
    enum err_code code = tuned_give(c, e);
    if (code != ERR_OK) {
        return code;
    }
    for (int v = 0; v < WEATHER_VARS; v++) {
        c->recorded_to[v] = weather_days_recorded_to(&c->weather, (enum weather_var)v);
    }
    if (c->morning && !c->doubts_unwanted) {
        code = doubt_the_past(c, e);
    }
    return code == ERR_OK ? context_complete(c, e) : code;
}

enum err_code context_weather(struct context *c, const struct options *o, struct err *e)
{
    enum err_code code = load_weather(c, o, e);
    return code == ERR_OK ? settle_weather(c, e) : code;
}

enum err_code context_load(struct context *c, const struct options *o, struct err *e)
{
    enum err_code code = context_read(c, o, e);
    code = code == ERR_OK ? load_beside(c, e) : code;
    return code == ERR_OK && !does_without(c) ? settle_weather(c, e) : code;
}

enum err_code context_of_site(const struct context *of, const struct weather_site *site, struct context *c,
                              struct err *e)
{
    struct site *place = &c->holding.site;
    const struct site *stated = &site->place;
    *c = *of;
    arena_init(&c->arena);
    if (!weather_days_copy(&c->weather, &site->days, &c->arena)) {
        return err_set(e, ERR_NOMEM, "out of memory");
    }
    place->latitude = isnan(stated->latitude) ? place->latitude : stated->latitude;
    place->longitude = isnan(stated->longitude) ? place->longitude : stated->longitude;
    place->elevation_m = isnan(stated->elevation_m) ? place->elevation_m : stated->elevation_m;
    return isnan(place->latitude) ? latitude_needed(e) : ERR_OK;
}

enum err_code context_complete(struct context *c, struct err *e)
{
    return weather_complete(&c->weather, &c->holding.site, &c->params.limits, &c->arena, &c->report, e);
}

bool context_run(struct context *c, bool follow, struct run *r)
{
    if (!run_init(r, &c->params, &c->holding, &c->arena)) {
        return false;
    }
    r->event = c->diary.entry;
    r->events = c->known;
    r->follow_animals = follow && c->holding.path[0];
    r->live = c->morning && c->until == clock_today(c->holding.site.timezone) ? c->until : DATE_NONE;
    return true;
}

static struct sward_weather as_sward(const double value[WEATHER_VARS], date_t date, double before, double after)
{
    return (struct sward_weather){.date = date,
                                  .tmin = value[WEATHER_TMIN],
                                  .tmax = value[WEATHER_TMAX],
                                  .rad = value[WEATHER_RAD],
                                  .rain = value[WEATHER_RAIN],
                                  .et0 = value[WEATHER_ET0],
                                  .tmax_before = before,
                                  .tmin_after = after};
}

/* What the table says of day i, which lies in it. */
static struct sward_weather recorded_day(const struct weather_days *w, size_t i, double before)
{
    double value[WEATHER_VARS];
    for (int v = 0; v < WEATHER_VARS; v++) {
        value[v] = weather_at(w, (enum weather_var)v, i);
    }
    double after = i + 1 < w->n ? weather_at(w, WEATHER_TMIN, i + 1) : value[WEATHER_TMIN];
    return as_sward(value, w->day0 + (date_t)i, before, after);
}

void context_day(const struct context *c, size_t i, struct run_day *d)
{
    const struct weather_days *w = &c->weather;
    date_t date = w->day0 + (date_t)i;
    double before = i ? weather_at(w, WEATHER_TMAX, i - 1) : (double)NAN;
    struct weather_morning m;
    weather_known(w, &c->holding.site, date, &m);
    if (isnan(before)) {
        before = m.value[WEATHER_TMAX];
    }
    d->assumed = m.assumed;
    d->late_days = 0;
    while ((size_t)d->late_days < i && w->origin[i - 1 - (size_t)d->late_days] == ORIGIN_ASSUMED) {
        d->late_days++;
    }
    d->estimated = c->report.filled_days + c->report.missing_days > 0
                       ? weather_estimated(w, i, c->params.limits.estimated_half_days)
                       : 0;
    d->morning = as_sward(m.value, date, before, m.tmin_after);
    d->recorded = i < w->n ? recorded_day(w, i, before) : d->morning;
    if (i < 3) { /* too early for persistence: the run only warms up here */
        d->morning = d->recorded;
    }
}

void context_evening(const struct context *c, size_t i, struct run_day *d)
{
    if (i == 0 || i >= c->weather.n) {
        context_day(c, i, d);
        return;
    }
    *d = (struct run_day){.recorded = recorded_day(&c->weather, i, weather_at(&c->weather, WEATHER_TMAX, i - 1))};
}

void context_day_ahead(const struct context *c, size_t i, size_t ahead, struct run_day *d)
{
    double value[WEATHER_VARS];
    date_t today = c->weather.day0 + (date_t)i, date = today + (date_t)ahead;
    context_day(c, i, d);
    if (ahead == 0) {
        return;
    }
    weather_persist(&c->weather, &c->holding.site, today, date, value);
    /* its neighbours are assumed to have the same temperatures; only today's may be known better */
    double before = ahead == 1 ? d->morning.tmax : value[WEATHER_TMAX];
    d->morning = as_sward(value, date, before, value[WEATHER_TMIN]);
    d->recorded = d->morning;
    d->assumed = true;
}
