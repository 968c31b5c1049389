/* The advice for one animal group on one day.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_ADVICE_H
#define SUGARLEA_ADVICE_H

#include "data/advice_limits.h"
#include "data/animal.h"
#include "data/holding.h"

enum turnout { TURNOUT_FREE, TURNOUT_TIMED, TURNOUT_BRIEF, TURNOUT_NONE };

const char *turnout_name(enum turnout t); /* "free", "timed", "brief", "none" */

struct advice_grass { /* what the paddock offers today */
    double nsc[24];    /* central hourly NSC, g/kg DM, at the end of each solar hour */
    double ln_sd;      /* of the level, all factors and tuning included */
    double ndf_pct, starch_pct; /* % of DM */
    int days_since_killing_frost; /* large when none */
    double available_kg_head; /* dry matter the sward can give a head today; NaN no limit */
};

struct advice_animal {
    const struct animal_class *rules; /* after history */
    double weight_kg;
    unsigned history;
    size_t feds;
    const struct fed *fed;
    const struct feed *hay;   /* the hay given */
    double hay_nsc_pct;       /* lab value; NaN: the table's, not analysed */
    bool foot_signs;          /* the diary says so: overrides everything */
};

/* Why the level is what it is. Kept as ids; out/ turns them into sentences. */
enum advice_reason {
    REASON_GRASS_UNDER,      /* ration stays within the caution limit all day */
    REASON_GRASS_OVER,       /* longer grazing would pass it */
    REASON_HAY_OVER,         /* hay alone breaks the caution limit */
    REASON_STOP_OVER,        /* even an hour passes the stop limit */
    REASON_MAX_HOURS,        /* the class's cap */
    REASON_FIBRE,            /* fibre floor of ruminants */
    REASON_FOOT_SIGNS,
    REASON_ACUTE,
    REASON_KILLING_FROST,
    REASON_DAY_CEILING,      /* 5 g NSC/kg body weight */
    REASON_MUZZLE,
    REASON_OUR_CAPS,         /* no published limit for this species */
    REASON_BUCKET,           /* the bucket alone passes a meal limit */
    REASON_COUNT
};

struct ration { /* what the day adds up to, per head */
    double grass_dm_kg, hay_dm_kg, fed_dm_kg, dm_kg;
    double nsc_pct, nsc_g_kg_bw, starch_meal_g_kg, ndf_pct, forage_pct_bw;
};

struct advice {
    enum turnout turnout;
    double hours;          /* 24 free, 0 none */
    double from_h, to_h;   /* solar; to_h may pass 24; both 0 when free or none */
    bool muzzle;
    double hay_kg;         /* as fed, per head */
    double limit_pct;      /* the caution limit in force (caution') */
    double stop_pct;
    struct ration ration;  /* at the offered hours */
    double level_g_kg;     /* the day's mean grass NSC at the class's level */
    unsigned reasons;      /* bit per enum advice_reason */
    bool hay_analysed;
    bool hay_over;         /* hay alone breaks the caution limit */
};

/* Pure. `grass` and `animal` as above; limits from models/limits.json. */
void advise(const struct advice_grass *grass, const struct advice_animal *animal, const struct advice_limits *limits,
            struct advice *out);

/* What would change the advice: the same animal with one thing different. */
struct advice_what_if {
    double hours_tested_grass;  /* hours if a laboratory test confirmed the central value (ln-SD 0.25) */
    double hours_better_hay;    /* hours with hay at 8 % NSC */
    double hours_muzzled;       /* NaN where not offered */
};
void advise_what_if(const struct advice_grass *grass, const struct advice_animal *animal,
                    const struct advice_limits *limits, struct advice_what_if *out);

/* Sentence of a reason for this advice, for people; static or written into text. */
const char *advice_reason_id(enum advice_reason r); /* "grass-over", ... */
const char *advice_reason_text(enum advice_reason r, const struct advice *a, const struct advice_animal *animal,
                               char *text, size_t size);

/* The cautions that apply to this animal and advice, most urgent first: static
 * sentences; returns how many (at most `most`). */
size_t advice_cautions(const struct advice *a, const struct advice_animal *animal, const char **text, size_t most);

#endif
