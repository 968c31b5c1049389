/* A holding: place, weather sources, paddocks, animals, hay. Read from
 * holding.json (schema: README and `sugarlea help holding`).
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_HOLDING_H
#define SUGARLEA_HOLDING_H

#include "base/date.h"
#include "data/params.h"
#include "data/site.h"
#include "data/tuning.h"

enum kept_how { KEPT_GRAZED, KEPT_CUT, KEPT_STOCKED, KEPT_RESTED };

struct kept { /* how the paddock is kept */
    enum kept_how how;
    double cover_kg_ha; /* grazed: held cover, total herbage above ground, kg DM/ha */
    size_t cuts;        /* cut: month-day pairs, 100 * month + day */
    int cut_md[LIMIT_CUT_DATES];
    int every_days, from_md; /* cut: every so many days from that day to the growth year's end; 0 none */
    double to_cm;            /* cut: stubble height */
};

struct paddock {
    char id[LIMIT_NAME];
    double area_ha;
    size_t grasses;
    const struct grass *grass[LIMIT_MIX];
    double share[LIMIT_MIX]; /* sum to 1 */
    const struct soil *soil;
    double nitrogen; /* fN of nitrogen_id: none 0.80, low 0.90, normal 1.00, heavy 1.15 */
    char nitrogen_id[LIMIT_NAME];
    struct kept kept;
    struct tuning tuned; /* of its sugar, by grass tests; all 0 as the holding file is read */
    size_t readings;     /* of its sward's height, by date, one a date; none as the holding file is read */
    const struct cover_reading *reading;
};

struct fed {
    const struct feed *feed;
    double kg; /* as fed, per head and day */
};

enum group_limit { GROUP_CAUTION, GROUP_STOP, GROUP_LEVEL, GROUP_HOURS, GROUP_LIMITS };

struct animal_group {
    char id[LIMIT_NAME];
    struct animal_class rules; /* the class after its history and the holding's own limits; intake of the class */
    unsigned limits_set;       /* which of its limits the holding sets ("limits", as agreed with the vet): bits by enum
                                  group_limit */
    char class_id[LIMIT_NAME]; /* as the keeper wrote it */
    int count;
    double weight_kg;
    double girth_cm, length_cm; /* the tape that gave the weight; NaN: the weight was given, or is the class's */
    double weight_error_pct;    /* either way, of a weight by tape; else 0 */
    date_t weighed;             /* the day of the diary that the weight is of; DATE_NONE: it is the holding's */
    size_t paddock;             /* index */
    unsigned history;
    size_t feds;
    struct fed fed[LIMIT_FED];
};

enum hay_shape { HAY_SHAPE_NONE, HAY_ROUND, HAY_SQUARE, HAY_LOOSE };

struct hay_lot { /* the amount as it was given; hay/stock.h makes kg of each way to give it */
    const struct feed *feed;
    char id[LIMIT_NAME + 8];   /* its own; else the feed's; where several lots are of it with their number there:
                                  "grass-hay-mature-2" */
    bool named;                /* the id is its own */
    bool numbered;             /* the id is the feed's with a number */
    double bales, bale_kg, kg; /* as fed; NaN when not given; kg is bales * bale_kg where those are given */
    enum hay_shape shape;      /* of what is measured and not weighed, else none */
    double bale_m[3];          /* round: diameter, width; square: length, width, height; NaN not given */
    double m3;                 /* of the heap or stack; NaN not given */
    double nsc_pct;            /* lab value, NaN: table value, "not analysed" */
    char nsc_is[LIMIT_NAME];   /* "wsc+starch" or "esc+starch" (lower: drops fructan); "" not analysed */
    double starch_pct, ndf_pct, dm_pct, energy_mj_kg; /* lab values (energy digestible, per kg DM); NaN not analysed */
    struct feed contents;     /* feed, with analysed figures in place of the table's; ESC + starch takes no place */
    double soaked_h, water_c; /* NaN: not soaked; water not known */
    bool steamed;
    bool tested_after; /* nsc_pct is of the hay after soaking or steaming */
};

/* The id, where it says more than the kind of hay: its own, or one with a number; else "". */
static inline const char *hay_lot_apart(const struct hay_lot *lot)
{
    return lot->named || lot->numbered ? lot->id : "";
}

/* nsc_pct is ESC + starch. */
static inline bool hay_lot_is_esc(const struct hay_lot *lot)
{
    return lot->nsc_is[0] == 'e';
}

struct weather_source {
    char file[LIMIT_PATH];     /* a path or pattern, relative to the holding file; "" for a service */
    char service[LIMIT_NAME];  /* a name of the table in weather/service.c; not checked here */
    double cache_days;         /* of a service: how old a kept answer may be */
    char station[LIMIT_NAME];  /* of a service that is asked by station; "" not given */
    char url[LIMIT_TEXT];      /* base address in place of the service's own; "" not given */
    char key_file[LIMIT_PATH]; /* file with the key, relative to the holding file; "" not given */
    size_t line;               /* of the holding file; 0 without one */
};

struct holding {
    char name[LIMIT_TEXT];
    char path[LIMIT_PATH]; /* "" without a holding file */
    struct site site;
    size_t sources, paddocks, animals, lots;
    struct weather_source *source;
    struct paddock *paddock;
    struct animal_group *animal;
    struct hay_lot *lot;       /* at least one: grass-hay-mature, amount unknown, when none is given */
    char stored[LIMIT_NAME];   /* id of a storage loss; "" not given */
    char fed_from[LIMIT_NAME]; /* id of a feeding loss; "" not given */
    double price_per_bale;     /* NaN not given */
};

/* Reads and checks a holding file ("-": standard input); all memory is the arena's.
 * ERR_NOINPUT when it is missing, ERR_CONFIG (file, line, column and path, what is
 * allowed, the nearest known word) when it is wrong. Needed: "sugarlea": 1, a site
 * with latitude, a paddock with id and area_ha; an animal's id and class. The rest
 * has a default: grass unknown-mixed, soil unknown, nitrogen normal, grazed to
 * default_cover_kg_ha, count 1, the class's typical weight, the only paddock. */
enum err_code holding_load(const char *path, const struct params *p, struct arena *a, struct holding *h, struct err *e);

/* The same from text[0..size); name stands for the file in messages and in h->path.
 * Nothing of text is kept. */
enum err_code holding_parse(const char *text, size_t size, const char *name, const struct params *p, struct arena *a,
                            struct holding *h, struct err *e);

enum { NITROGENS = 4 };
extern const char *const holding_nitrogens[NITROGENS];

/* fN of a nitrogen word (models/limits.json); NaN when unknown. */
double holding_nitrogen(const struct params *p, const char *word);

/* kg DM/ha of a sward height, cm on a ruler (models/swards.json gives the density). */
double holding_cover_of_height(const struct params *p, double height_cm);

/* The least that grazing animals leave, kg DM/ha: a lower cover cannot be held. */
double holding_cover_least(const struct params *p);

/* The holding that options alone describe: one paddock ("paddock") and, when a class
 * is named, one animal group ("animal"). NULL ids take the defaults (unknown-mixed,
 * unknown, normal, grass-hay-mature); weight or cover NaN: the class's typical
 * weight, default_cover_kg_ha; place NaN: unknown. ERR_USAGE with the option as the
 * field for an unknown id or a value out of range. */
struct holding_options {
    double latitude, longitude, elevation_m;
    const char *animal, *grass, *soil, *nitrogen, *weather_file;
    double weight_kg, cover_kg_ha;
};
enum err_code holding_from_options(const struct holding_options *o, const struct params *p, struct arena *a,
                                   struct holding *h, struct err *e);

#endif
