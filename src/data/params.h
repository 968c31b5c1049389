/* All parameters of the model, read once from the models/ folder.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_PARAMS_H
#define SUGARLEA_PARAMS_H

#include "data/advice_limits.h"
#include "data/animal.h"
#include "data/hay_limits.h"
#include "data/hay_loss.h"
#include "data/history.h"
#include "data/param_table.h"
#include "data/quality_limits.h"
#include "data/soaking.h"
#include "data/starter.h"
#include "data/sward_kind.h"
#include "data/tune_limits.h"
#include "data/way_back.h"

struct params {
    struct sward_kind kind[SWARD_TYPES];
    struct grass *grass;
    size_t grasses;
    struct soil *soil;
    size_t soils;
    struct animal_class *animal;
    size_t animals;
    struct feed *feed;
    size_t feeds;
    struct history_rule *history; /* at most one a species and history */
    size_t histories;
    struct hay_loss *loss;
    size_t losses;
    struct soaking *soaking;
    size_t soakings;
    struct sward_look *look; /* proposed by setup, by what is seen */
    size_t looks;
    struct clover_look *clover;
    size_t clovers;
    struct advice_limits limits;
    struct quality_limits quality;
    struct tune_limits tune;
    struct way_back_rules way_back[SPECIES_COUNT];
    struct hay_limits hay;
    struct param_list list; /* everything, in file order, for `sugarlea params` */
    char hash[17];          /* 64-bit FNV-1a of the bytes of all model files, for the advice log */
};

/* folder holds swards.json, animals.json, feeds.json, limits.json, hay-losses.json,
 * soaking.json, weather-limits.json, tune-limits.json, reintroduction.json, hay-limits.json, starter.json. All memory
 * is the arena's. ERR_NOINPUT when a file is missing, ERR_CONFIG (file, line, column, path) when one is wrong. */
enum err_code params_load(const char *folder, struct arena *a, struct params *p, struct err *e);

/* kind, grass and soil, from swards.json (in sward_kind.c). */
enum err_code params_read_swards(const struct json_doc *doc, struct arena *a, struct params *p, struct err *e);

/* By id; NULL when unknown. */
const struct grass *params_grass(const struct params *p, const char *id);
const struct soil *params_soil(const struct params *p, const char *id);
const struct animal_class *params_animal(const struct params *p, const char *id);
const struct feed *params_feed(const struct params *p, const char *id);
const struct hay_loss *params_loss(const struct params *p, enum hay_loss_kind kind, const char *id);

enum params_thing {
    PARAMS_GRASS,
    PARAMS_SOIL,
    PARAMS_ANIMAL,
    PARAMS_FEED,
    PARAMS_STORE,  /* a storage loss */
    PARAMS_FEEDER, /* a feeding loss */
    PARAMS_HAY     /* a feed that may be hay */
};
/* An ERR_CONFIG sentence for an unknown id, naming the nearest known one. */
/* The kind of animal that keepers call so, one or several: "cows" are "cattle"; NULL: none. */
const char *params_kind_called(const char *word);

enum err_code params_unknown(const struct params *p, enum params_thing thing, const char *id, struct err *e);

#endif
