/* The holding that command line options describe.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/holding_read.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static enum err_code unknown(const struct params *p, enum params_thing thing, const char *id, const char *option,
                             struct err *e)
{
    params_unknown(p, thing, id, e);
    e->code = ERR_USAGE;
    return err_at(e, NULL, 0, 0, option);
}

/* NaN is "not given" and passes. */
static enum err_code check(double x, double low, double high, const char *option, struct err *e)
{
    assert(low <= high);
    if (x < low || x > high) {
        err_set(e, ERR_USAGE, "%g is out of range; %g to %g is allowed", x, low, high);
        return err_at(e, NULL, 0, 0, option);
    }
    return ERR_OK;
}

static enum err_code check_place(const struct holding_options *o, const struct params *p, struct err *e)
{
    const struct {
        double x, low, high;
        const char *option;
    } rows[] = {{o->latitude, -90, 90, "--latitude"},
                {o->longitude, -180, 180, "--longitude"},
                {o->elevation_m, HOLDING_ELEVATION_LOW, HOLDING_ELEVATION_HIGH, "--elevation"},
                {o->cover_kg_ha, holding_cover_least(p), HOLDING_COVER_HIGH, "--cover"}};
    enum err_code code = ERR_OK;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0] && code == ERR_OK; i++) {
        code = check(rows[i].x, rows[i].low, rows[i].high, rows[i].option, e);
    }
    return code;
}

static enum err_code fill_paddock(const struct holding_options *o, const struct params *p, struct paddock *d,
                                  struct err *e)
{
    const char *grass = o->grass ? o->grass : "unknown-mixed", *soil = o->soil ? o->soil : "unknown";
    const char *nitrogen = o->nitrogen ? o->nitrogen : "normal";
    snprintf(d->id, sizeof d->id, "paddock");
    d->area_ha = 1;
    d->grasses = 1;
    d->share[0] = 1;
    d->grass[0] = params_grass(p, grass);
    d->soil = params_soil(p, soil);
    d->nitrogen = holding_nitrogen(p, nitrogen);
    d->kept = holding_default_kept(p);
    if (!d->grass[0]) {
        return unknown(p, PARAMS_GRASS, grass, "--grass", e);
    }
    if (!d->soil) {
        return unknown(p, PARAMS_SOIL, soil, "--soil", e);
    }
    if (isnan(d->nitrogen)) {
        err_set(e, ERR_USAGE, "\"%s\" is not known; allowed: none, low, normal, heavy", nitrogen);
        return err_at(e, NULL, 0, 0, "--nitrogen");
    }
    snprintf(d->nitrogen_id, sizeof d->nitrogen_id, "%s", nitrogen);
    if (!isnan(o->cover_kg_ha)) {
        d->kept.cover_kg_ha = o->cover_kg_ha;
    }
    return ERR_OK;
}

static enum err_code fill_animal(const struct holding_options *o, const struct params *p, struct animal_group *g,
                                 struct err *e)
{
    assert(o->animal != NULL);
    const struct animal_class *base = params_animal(p, o->animal);
    double low, high;
    if (!base) {
        return unknown(p, PARAMS_ANIMAL, o->animal, "--animal", e);
    }
    snprintf(g->id, sizeof g->id, "animal");
    snprintf(g->class_id, sizeof g->class_id, "%s", base->id);
    g->rules = *base;
    g->count = 1;
    g->girth_cm = g->length_cm = NAN;
    g->weighed = DATE_NONE;
    g->weight_kg = isnan(o->weight_kg) ? base->weight_kg : o->weight_kg;
    holding_weight_range(base->species, &low, &high);
    return check(g->weight_kg, low, high, "--weight", e);
}

static enum err_code fill_weather(const struct holding_options *o, struct holding *h, struct err *e)
{
    assert(h->sources == 1);
    if (strlen(o->weather_file) >= sizeof h->source->file) {
        err_set(e, ERR_USAGE, "the file name is longer than %zu bytes", sizeof h->source->file - 1);
        return err_at(e, NULL, 0, 0, "--weather");
    }
    snprintf(h->source->file, sizeof h->source->file, "%s", o->weather_file);
    return ERR_OK;
}

enum err_code holding_from_options(const struct holding_options *o, const struct params *p, struct arena *a,
                                   struct holding *h, struct err *e)
{
    *h = (struct holding){.site = {.latitude = o->latitude, .longitude = o->longitude, .elevation_m = o->elevation_m},
                          .sources = o->weather_file != NULL,
                          .paddocks = 1,
                          .animals = o->animal != NULL,
                          .price_per_bale = NAN};
    h->source = arena_alloc(a, h->sources, sizeof *h->source);
    h->paddock = arena_alloc(a, 1, sizeof *h->paddock);
    h->animal = arena_alloc(a, h->animals, sizeof *h->animal);
    if (!h->source || !h->paddock || !h->animal) {
        return err_set(e, ERR_NOMEM, "out of memory while reading the options");
    }
    enum err_code code = check_place(o, p, e);
    if (code == ERR_OK) {
        code = fill_paddock(o, p, h->paddock, e);
    }
    if (code == ERR_OK && o->animal) {
        code = fill_animal(o, p, h->animal, e);
    }
    if (code == ERR_OK && o->weather_file) {
        code = fill_weather(o, h, e);
    }
    return code == ERR_OK ? holding_default_hay(p, a, h, e) : code;
}
