/* Loading in order: models, holding, weather. SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/context.h"

#include "base/clock.h"

#include <glob.h>
#include <libgen.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

void context_init(struct context *c)
{
    memset(c, 0, sizeof *c);
    c->note = "";
    c->until = DATE_NONE;
    arena_init(&c->arena);
}

void context_release(struct context *c)
{
    arena_release(&c->arena);
}

static void models_folder(char *folder, size_t size)
{
    char program[LIMIT_PATH];
    const char *set = getenv("SUGARLEA_MODELS");
    ssize_t n = readlink("/proc/self/exe", program, sizeof program - 1);
    if (set && set[0]) {
        snprintf(folder, size, "%s", set);
        return;
    }
    if (n > 0) {
        program[n] = 0;
        if (snprintf(folder, size, "%s/models", dirname(program)) < (int)size && access(folder, R_OK) == 0) {
            return;
        }
    }
    snprintf(folder, size, "%s/models", SUGARLEA_DATADIR);
}

enum err_code context_params(struct context *c, struct err *e)
{
    char folder[LIMIT_PATH];
    models_folder(folder, sizeof folder);
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
    return !o->weather && access("holding.json", F_OK) == 0 ? "holding.json" : NULL;
}

static enum err_code check_zone(const struct holding *h, struct err *e)
{
    if (h->site.timezone[0] && !clock_zone_known(h->site.timezone)) {
        err_set(e, ERR_CONFIG, "the time zone \"%s\" is not known on this machine; names look like \"Europe/London\"",
                h->site.timezone);
        return err_at(e, h->path, 0, 0, "site.timezone");
    }
    return ERR_OK;
}

static enum err_code load_holding(struct context *c, const struct options *o, struct err *e)
{
    const char *path = holding_path(o);
    if (path) {
        enum err_code code = holding_load(path, &c->params, &c->arena, &c->holding, e);
        return code == ERR_OK ? check_zone(&c->holding, e) : code;
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
    if (!o->weather) {
        err_set(e, ERR_USAGE, "no holding.json here and no --weather FILE given; \"sugarlea help today\" shows how");
        return err_at(e, NULL, 0, 0, "--weather");
    }
    if (isnan(o->latitude)) {
        err_set(e, ERR_USAGE, "is needed with --weather: degrees, north positive");
        return err_at(e, NULL, 0, 0, "--latitude");
    }
    return holding_from_options(&h, &c->params, &c->arena, &c->holding, e);
}

/* For --verbose: what a file held, on standard error. */
static void say_read(const char *path, const struct weather_set *set)
{
    char first[DATE_TEXT], last[DATE_TEXT];
    const struct weather_days *w = &set->site[0].days;
    fprintf(stderr, "sugarlea: read %s: %s, %s to %s%s%s\n", path, set->layout, date_format(w->day0, first),
            date_format(w->day0 + (date_t)w->n - 1, last), set->ignored[0] ? "; columns not used: " : "", set->ignored);
}

static enum err_code add_file(struct context *c, const char *path, struct err *e)
{
    struct weather_set set;
    enum err_code code = weather_read(path, NULL, &c->arena, &set, e);
    if (code != ERR_OK) {
        return code;
    }
    if (set.n != 1) {
        err_set(e, ERR_DATA, "holds the weather of %zu sites; one is needed: keep the rows of your site", set.n);
        return err_at(e, path, 0, 0, NULL);
    }
    if (c->verbose) {
        say_read(path, &set);
    }
    if (set.note[0]) {
        c->note = set.note;
    }
    return weather_merge(&c->weather, &set.site[0].days, &c->arena, e);
}

/* A path or pattern of a source, relative to the holding's folder. */
static enum err_code add_source(struct context *c, const struct weather_source *s, struct err *e)
{
    char folder[LIMIT_PATH], path[2 * LIMIT_PATH];
    glob_t found;
    if (!s->file[0]) {
        return err_set(e, ERR_NOINPUT, "weather services are not fetched yet; give a file instead of \"%s\"",
                       s->service);
    }
    snprintf(folder, sizeof folder, "%s", c->holding.path);
    bool plain = s->file[0] == '/' || !c->holding.path[0];
    snprintf(path, sizeof path, "%s%s%s", plain ? "" : dirname(folder), plain ? "" : "/", s->file);
    if (!strpbrk(s->file, "*?[") || strcmp(s->file, "-") == 0) {
        return add_file(c, strcmp(s->file, "-") == 0 ? "-" : path, e);
    }
    if (glob(path, 0, NULL, &found) != 0) {
        err_set(e, ERR_NOINPUT, "no file matches");
        return err_at(e, path, 0, 0, NULL);
    }
    enum err_code code = ERR_OK;
    for (size_t i = 0; i < found.gl_pathc && code == ERR_OK; i++) {
        code = add_file(c, found.gl_pathv[i], e);
    }
    globfree(&found);
    return code;
}

/* A morning knows its own night at most, and forecasts. */
static void forget_the_future(struct context *c)
{
    struct weather_days *w = &c->weather;
    if (!c->morning) {
        return;
    }
    if (c->until == DATE_NONE) {
        c->until = clock_today(c->holding.site.timezone);
    }
    if (c->until < w->day0) {
        return; /* the command says that it is too early */
    }
    size_t n = (size_t)(c->until - w->day0) + 1;
    while (n < w->n && w->origin[n] == ORIGIN_FORECAST) {
        n++;
    }
    w->n = n < w->n ? n : w->n;
}

static enum err_code load_weather(struct context *c, const struct options *o, struct err *e)
{
    enum err_code code = ERR_OK;
    if (o->weather) {
        code = add_file(c, o->weather, e);
    }
    for (size_t i = 0; i < c->holding.sources && code == ERR_OK && !o->weather; i++) {
        code = add_source(c, &c->holding.source[i], e);
    }
    if (code == ERR_OK && c->weather.n == 0) {
        return err_set(e, ERR_NOINPUT, "there is no weather: name a file under \"weather\" in the holding");
    }
    forget_the_future(c);
    return code == ERR_OK ? weather_complete(&c->weather, &c->holding.site, &c->params.limits, &c->arena, &c->report, e)
                          : code;
}

enum err_code context_load(struct context *c, const struct options *o, struct err *e)
{
    c->verbose = o->verbose;
    enum err_code code = context_params(c, e);
    if (code == ERR_OK) {
        code = load_holding(c, o, e);
    }
    return code == ERR_OK ? load_weather(c, o, e) : code;
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

void context_day(const struct context *c, size_t i, struct run_day *d)
{
    const struct weather_days *w = &c->weather;
    date_t date = w->day0 + (date_t)i;
    double before = i ? weather_at(w, WEATHER_TMAX, i - 1) : (double)NAN;
    struct weather_morning m;
    weather_known(w, &c->holding.site, date, &m);
    if (isnan(before)) {
        before = m.value[0][WEATHER_TMAX];
    }
    d->assumed = m.assumed;
    d->morning = as_sward(m.value[0], date, before, m.value[1][WEATHER_TMIN]);
    d->recorded = d->morning;
    if (i < w->n) {
        double value[WEATHER_VARS];
        for (int v = 0; v < WEATHER_VARS; v++) {
            value[v] = weather_at(w, (enum weather_var)v, i);
        }
        double after = i + 1 < w->n ? weather_at(w, WEATHER_TMIN, i + 1) : value[WEATHER_TMIN];
        d->recorded = as_sward(value, date, before, after);
    }
    if (i < 3) { /* too early for persistence: the run only warms up here */
        d->morning = d->recorded;
    }
}
