/* A holding: place, weather sources, paddocks, animals, hay. Read from
 * holding.json (schema: README and `sugarlea help holding`).
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_HOLDING_H
#define SUGARLEA_HOLDING_H

#include "base/date.h"
#include "data/params.h"
#include "data/site.h"

enum kept_how { KEPT_GRAZED, KEPT_CUT, KEPT_STOCKED, KEPT_RESTED };

struct kept { /* how the paddock is kept */
    enum kept_how how;
    double cover_kg_ha;           /* grazed: held cover, total herbage above ground, kg DM/ha */
    size_t cuts;                  /* cut: month-day pairs, 100 * month + day */
    int cut_md[LIMIT_CUT_DATES];
    int every_days, from_md;      /* cut: every so many days from that day of each year; 0 none */
    double to_cm;                 /* cut: stubble height */
};

struct paddock {
    char id[LIMIT_NAME];
    double area_ha;
    size_t grasses;
    const struct grass *grass[LIMIT_MIX];
    double share[LIMIT_MIX];      /* sum to 1 */
    const struct soil *soil;
    double nitrogen;              /* fN: none 0.80, low 0.90, normal 1.00, heavy 1.15 */
    char nitrogen_id[LIMIT_NAME];
    struct kept kept;
};

struct fed {
    const struct feed *feed;
    double kg; /* as fed, per head and day */
};

struct animal_group {
    char id[LIMIT_NAME];
    struct animal_class rules; /* the class after its history: limits of the rules, intake of the class */
    char class_id[LIMIT_NAME]; /* as the keeper wrote it */
    int count;
    double weight_kg;
    size_t paddock; /* index */
    unsigned history;
    size_t feds;
    struct fed fed[LIMIT_FED];
};

struct hay_lot {
    const struct feed *feed;
    double bales, bale_kg, kg; /* NaN when not given */
    double nsc_pct;            /* lab value, NaN: table value, "not analysed" */
    char nsc_is[LIMIT_NAME];   /* "wsc+starch" or "esc+starch" */
};

struct weather_source {
    char file[LIMIT_PATH];     /* a path or pattern, relative to the holding file; "" for a service */
    char service[LIMIT_NAME];
};

struct holding {
    char name[LIMIT_TEXT];
    char path[LIMIT_PATH];     /* "" without a holding file */
    struct site site;
    size_t sources, paddocks, animals, lots;
    struct weather_source *source;
    struct paddock *paddock;
    struct animal_group *animal;
    struct hay_lot *lot;
    char stored[LIMIT_NAME], fed_from[LIMIT_NAME];
    double price_per_bale;
};

/* Reads and checks a holding file; all memory is the arena's. ERR_NOINPUT when it
 * is missing, ERR_CONFIG (file:line:column and path) when it is wrong. */
enum err_code holding_load(const char *path, const struct params *p, struct arena *a, struct holding *h,
                           struct err *e);

/* fN of a nitrogen word (models/limits.json); NaN when unknown. */
double holding_nitrogen(const struct params *p, const char *word);

/* kg DM/ha of a sward height, cm (models/limits.json gives the density). */
double holding_cover_of_height(const struct params *p, double height_cm);

/* The holding that options alone describe: one paddock, one animal group.
 * NULL ids take the defaults (unknown-mixed, unknown, normal, grass-hay-mature);
 * weight or cover NaN: the class's typical weight, 1,800 kg DM/ha. */
struct holding_options {
    double latitude, longitude, elevation_m;
    const char *animal, *grass, *soil, *nitrogen, *weather_file;
    double weight_kg, cover_kg_ha;
};
enum err_code holding_from_options(const struct holding_options *o, const struct params *p, struct arena *a,
                                   struct holding *h, struct err *e);

#endif
