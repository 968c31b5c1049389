/* Animal classes and feeds: defaults from models/animals.json and
 * models/feeds.json. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_ANIMAL_H
#define SUGARLEA_ANIMAL_H

#include "base/limits.h"

#include <stdbool.h>

enum species { SPECIES_GOAT, SPECIES_EQUID, SPECIES_SHEEP, SPECIES_ALPACA, SPECIES_CATTLE, SPECIES_COUNT };

extern const char *const species_names[SPECIES_COUNT]; /* "goat", "equid", ... */

/* NaN where a class has no such limit. % BW = % of body weight as dry matter. */
struct animal_class {
    char id[LIMIT_NAME];
    char description[LIMIT_TEXT];
    enum species species;
    double weight_kg;      /* typical */
    double intake_low_pct; /* DMI in 24 h of sources low and high, % BW; NaN: intake is rationed */
    double intake_pct;     /* DMI in 24 h, typical, % BW; NaN only where the class does not graze */
    double intake_high_pct;
    double hay_pct;         /* planning hay, % BW */
    double nsc_caution_pct; /* % of ration DM */
    double nsc_stop_pct;
    double level_probability; /* the grass stays under the judged level this often */
    double max_hours;
    double min_forage_pct;                    /* % BW DM, never less */
    double min_forage_vet_pct;                /* only with a vet */
    double min_ndf_pct, min_adf_pct;          /* % of ration DM */
    double starch_meal_g_kg, starch_day_g_kg; /* g/kg BW */
    double bucket_nsc_meal_g_kg;              /* g/kg BW */
    double max_concentrate_pct;               /* of ration DM, all of the bucket */
    double concentrate_rise_g_day;            /* as fed: a bucket grows by no more */
    double grain_start_g, grain_end_g;        /* as fed: first day of an animal new to grain, and what it comes to */
    double grain_step_days;                   /* over so many days */
    bool grazing;                             /* false: acute, off grass */
    bool muzzle_offered;                      /* equids only */
    bool caps_are_ours;                       /* NSC limits have no published basis (goat, sheep, alpaca, cattle) */
    bool evidence_no_slimming;                /* pregnant, milking or growing: never slimmed */
    bool grown;                               /* the tape formulas for body weight hold (data/tape.h) */
    bool needs_no_bucket;                     /* does well on forage alone */
    char evidence[LIMIT_TEXT], source[LIMIT_TEXT];
};

/* So many times what its class eats at most in 24 h, kg of dry matter a head: what is more is a slip of the hand. */
double animal_most_kg(const struct animal_class *c, double weight_kg, double times);

struct feed { /* % of dry matter but dm_pct (% of fed weight); NaN unknown */
    char id[LIMIT_NAME];
    char name[LIMIT_TEXT];
    double dm_pct, starch_pct, wsc_pct, nsc_pct, ndf_pct, adf_pct, cp_pct; /* CP: crude protein */
    double de_mcal_kg; /* digestible energy of cattle, Mcal/kg DM: for other species a ranking only */
    bool is_forage;    /* hay, straw, silage, browse, pasture: counts toward the forage floor */
    bool may_be_hay;   /* hay, straw, silage: may be a lot in the hay store */
    bool is_coarse;    /* straw, hay of 65 % NDF or more: not for poor teeth */
    bool is_straw;     /* bedding or chaff, no hay */
};

#endif
