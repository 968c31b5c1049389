/* The advice for one animal group on one day. Planning help: it never diagnoses and
 * never doses.
 *
 * The grass is judged at the level it stays under with the class's probability. Half
 * hours are tried from the class's cap down; the longest session whose best window
 * keeps the day's ration within the caution limit is offered. Hard rules come first
 * (rules.c, a table). models/METHOD.md names every rule, its source and function.
 *
 * - A session's ends both lie between window_first_h and window_last_h solar, when a
 *   keeper can be there (our judgement). Round the clock is judged on the day's plain
 *   mean.
 * - brief is one hour where that keeps within the stop limit, even when only half an
 *   hour is within caution: more sugar must never buy more time.
 * - Once no bare session over an hour fits, equids with muzzle_offered are advised
 *   with a muzzle all the way down, never over muzzle_max_h; hours_bare says what
 *   remains without one.
 * - After a killing frost nobody is turned out free and animals at risk at most
 *   briefly, however low the sugar reads (our judgement: the model knows live grass).
 * - A bucket that breaks the fibre floor or the caution limit without any grass is
 *   said so; for fibre the session is brief until it is cut back.
 * - A paddock at rest feeds nobody: off grass, all hay.
 * - Foot signs and acute cases: off grass, hay only, the bucket left out.
 * - On the way back to grass (reintroduction.h) the session that the sugar allows is cut
 *   short to the day's bound, and must fit its limit still.
 * - Whatever has to be known and is not (grass, weight, a class without limits) ends
 *   in `none` and REASON_UNKNOWN: never in a guess. Hay or a bucket of unknown sugar
 *   counts as if it stood at the caution limit, and is said.
 * - An ESC + starch figure of the hay leaves out most fructan: the table's counts where that
 *   is higher, and the hay is not analysed.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_ADVICE_H
#define SUGARLEA_ADVICE_H

#include "advice/reintroduction.h"
#include "advice/session.h"
#include "data/advice_limits.h"
#include "data/animal.h"
#include "data/holding.h"

enum turnout { TURNOUT_FREE, TURNOUT_TIMED, TURNOUT_BRIEF, TURNOUT_NONE };

const char *turnout_name(enum turnout t); /* "free", "timed", "brief", "none" */

struct advice_grass {             /* what the paddock offers today */
    double nsc[24];               /* central hourly NSC, g/kg DM, at the end of each solar hour */
    double ln_sd;                 /* of the level, all factors and tuning included */
    double ndf_pct;               /* % of DM; NaN: the limits' young grass */
    double starch_pct;            /* % of DM; NaN: the limits' */
    int days_since_killing_frost; /* 0 this morning; large when none */
    double available_kg_head;     /* dry matter the sward can give a head today; NaN no limit */
    double lasting_kg_head;       /* what it can go on giving; hay makes up for less, and no hour depends on it;
                                   * NaN no limit */
    double dawn_h;                /* solar hour of sunrise; 0 or NaN: taken as 6 */
};

struct advice_animal {
    const struct animal_class *rules; /* after history */
    double weight_kg;
    unsigned history;
    size_t feds;
    const struct fed *fed;
    const struct feed *hay; /* the hay given */
    double hay_nsc_pct;     /* lab value; NaN: the table's, not analysed */
    bool hay_esc;           /* that is ESC + starch: it can make the hay worse than its table does, never better */
    bool hay_soaked;        /* before it is fed */
    bool foot_signs;        /* the diary says so: overrides everything */
    bool rested;            /* its paddock is at rest: it is off grass, whatever the sugar */
    struct way_back back;   /* an upper bound on the hours; day 0: none */
};

/* Gives the animal the hay of a lot, which must outlive it. */
void advice_give_hay(struct advice_animal *a, const struct hay_lot *lot);

/* NSC (WSC + starch) that the animal's hay counts as, % of DM: the laboratory's, else the table's; where the
 * laboratory gave ESC + starch, the higher of that and the table's. NaN unknown. */
double advice_hay_nsc(const struct advice_animal *a, const struct advice_limits *l);

/* Why the level is what it is, in the order in which to say it. */
enum advice_reason {
    REASON_FOOT_SIGNS,
    REASON_ACUTE,
    REASON_RESTED,      /* its paddock is at rest */
    REASON_WAY_BACK,    /* days off grass, or signs, lie behind it */
    REASON_UNKNOWN,     /* a figure that must be known is not */
    REASON_HAY_OVER,    /* hay alone breaks the caution limit */
    REASON_HAY_UNKNOWN, /* sugar of the hay, or of a feed, known to nobody */
    REASON_STOP_OVER,   /* even an hour passes the stop limit */
    REASON_DAY_CEILING, /* g NSC/kg body weight, equids */
    REASON_KILLING_FROST,
    REASON_WITHIN_STOP, /* an hour is over caution, yet within stop */
    REASON_MUZZLE,
    REASON_GRASS_OVER,    /* longer grazing would pass the caution limit */
    REASON_FIBRE,         /* fibre floor of ruminants */
    REASON_MAX_HOURS,     /* the class's cap */
    REASON_GRASS_UNDER,   /* ration stays within the caution limit all day */
    REASON_BUCKET,        /* the bucket alone passes a meal or day limit */
    REASON_FIBRE_UNKNOWN, /* the class has a fibre floor, the feeds' fibre is not known */
    REASON_OUR_CAPS,      /* no published limit for this species */
    REASON_COUNT
};

struct ration { /* what the day adds up to, per head */
    double
        lacking_dm_kg; /* grass that the hours would bring and the paddock cannot go on giving: hay is in its place */
    double grass_dm_kg, hay_dm_kg, fed_dm_kg, dm_kg;
    double nsc_pct, nsc_g_kg_bw, ndf_pct, forage_pct_bw;
    double grass_nsc_pct;    /* of the grass eaten, at the judged level; 0 without grass */
    double starch_meal_g_kg; /* of the buckets of a day, taken as one meal */
    double bucket_nsc_g_kg;  /* the same, NSC */
};

struct advice {
    enum turnout turnout;
    double hours;        /* 24 free, 0 none */
    double from_h, to_h; /* solar; to_h may pass 24; both 0 when free or none */
    bool muzzle;
    double hours_bare; /* what would be offered without the muzzle; hours where there is none */
    double hay_kg;     /* as fed, per head, eaten: waste comes on top */
    double limit_pct;  /* the caution limit in force (caution') */
    double stop_pct;
    double day_ceiling_g_kg; /* NaN where the species has none */
    struct ration ration;    /* at the offered hours */
    /* Hours are judged with hay of limit_pct at most, and as if all the grass they bring were there: ration NSC
     * at the offered hours, at the next longer session (NaN when nothing longer is allowed), without any grass */
    double judged_nsc_pct, longer_nsc_pct, judged_base_pct;
    double level_g_kg;     /* the day's mean grass NSC at the class's level */
    unsigned reasons;      /* bit per enum advice_reason */
    bool hay_analysed;     /* for WSC + starch, or NSC */
    bool hay_over;         /* hay alone breaks the caution limit */
    double hay_nsc_pct;    /* as judged; NaN unknown */
    double hay_esc_pct;    /* ESC + starch by the laboratory; NaN: it gave no such figure */
    bool hay_bounded;      /* the hay holds more than limit_pct: judged and given are not the same */
    double base_nsc_pct;   /* ration NSC without any grass, as given */
    bool base_over;        /* hay, as it is judged, and feed break the caution limit without any grass */
    bool bucket_dropped;   /* an emergency: the ration above leaves the concentrate out, and so must the keeper */
    bool bucket_low_fibre; /* the concentrate breaks the fibre floor without any grass */
    bool hay_low_fibre;    /* the hay itself is under the class's fibre floor */
};

/* Pure. `grass` and `animal` as above; limits from models/limits.json. */
void advise(const struct advice_grass *grass, const struct advice_animal *animal, const struct advice_limits *limits,
            struct advice *out);

/* The same for many days and animals: the tables are made once from the same limits. */
void advise_with(const struct advice_tables *tables, const struct advice_grass *grass,
                 const struct advice_animal *animal, const struct advice_limits *limits, struct advice *out);

/* The same advice without what stops a longer session: longer_nsc_pct is NaN, and of the
 * reasons only those of the hard rules stand. About a tenth cheaper, for hundreds of thousands of them. */
void advise_plainly(const struct advice_tables *tables, const struct advice_grass *grass,
                    const struct advice_animal *animal, const struct advice_limits *limits, struct advice *out);

/* Is there any grass today, that is: are the hours of the same advice over 0? For an animal that is not
 * on a way back to grass. A fifth of the price. */
bool advise_any(const struct advice_tables *tables, const struct advice_grass *grass,
                const struct advice_animal *animal, const struct advice_limits *limits);

/* What would change the advice: the same animal with one thing different. */
struct advice_what_if {
    double hours_tested_grass; /* hours if a laboratory test confirmed the central value */
    double hours_better_hay;   /* hours with hay at better_hay_nsc_pct */
    double hours_muzzled;      /* hours with a muzzle on, whatever is possible bare; NaN where not offered */
};
/* tested_ln_sd: the grass's ln_sd after such a test, with all that it would leave in doubt. */
void advise_what_if(const struct advice_grass *grass, double tested_ln_sd, const struct advice_animal *animal,
                    const struct advice_limits *limits, struct advice_what_if *out);

static inline bool advice_has(const struct advice *a, enum advice_reason r)
{
    return (a->reasons >> r & 1u) != 0;
}

/* Sentence of a reason for this advice, for people; static or written into text.
 * Metric-free but for g/kg: no unit of weight or length stands in it. */
const char *advice_reason_id(enum advice_reason r); /* "grass-over", ... */
const char *advice_reason_text(enum advice_reason r, const struct advice *a, const struct advice_animal *animal,
                               char *text, size_t size);

/* What an ESC + starch figure is worth and what counts in its place, one sentence or two; "" where the laboratory gave
 * none. Returns text. */
const char *advice_esc_text(double esc_pct, double hay_nsc_pct, char *text, size_t size);

/* What to change in the hay of an animal with poor teeth; "": nothing. Static. */
const char *advice_teeth_text(const struct advice_animal *animal);

/* The cautions that apply to this animal and advice, most urgent first: static
 * sentences; returns how many (at most `most`). The first three are always what a
 * vet must see today, that this is no diagnosis, and that local rules and the vet
 * come first. ADVICE_CAUTIONS is enough for all. */
enum { ADVICE_CAUTIONS = 25 };
size_t advice_cautions(const struct advice *a, const struct advice_animal *animal, const char **text, size_t most);

#endif
