/* A holding day by day: the swards of its paddocks and the advice for its animals.
 *
 * Each day has a morning (what was known then gives the advice) and an evening (what
 * the record says of the day moves the swards on; animals and mowers take their
 * share). Pure: the caller lays out the weather. SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_RUN_H
#define SUGARLEA_RUN_H

#include "advice/advice.h"
#include "base/arena.h"
#include "data/diary.h"
#include "data/holding.h"
#include "physics/sun.h"
#include "sward/sward.h"

struct run_day {
    struct sward_weather recorded; /* the day as it was (or is forecast) */
    struct sward_weather morning;  /* the day as it looked that morning */
    bool assumed;                  /* some of `morning` is persistence */
    double estimated;              /* how much of the weather before it is estimate, 0 to 1 */
    int late_days;                 /* days before it that nobody has recorded yet: persistence, too */
};

struct run_kept { /* as the holding says, until the diary says otherwise */
    enum kept_how how;
    double cover_kg_ha; /* held, when grazed */
    date_t since;       /* of the diary's last word; DATE_NONE: it has none */
    date_t cut;         /* the diary's last cut; DATE_NONE never */
    double cut_cm;
};

struct run_signs {  /* foot signs that stand */
    unsigned words; /* bits of enum diary_sign; 0: there are none */
    date_t since;
};

enum { RUN_RECENT = 7 };

struct run_hours { /* on grass on a day */
    date_t date;
    double hours;
    bool muzzle;
    bool written; /* by the diary; else as that morning is advised now */
};

struct run_paddock {
    const struct paddock *kept;
    struct sward sward;           /* knows nothing of the level: tests correct what is reported, not the growth */
    struct sward_result day;      /* of run_evening's day, sugar times level */
    struct sward_result expected; /* of run_morning's day, sugar times level */
    double level;                 /* factor that grass tests put on the modelled sugar; 1 untested */
    double level_sd;              /* ln-SD of the level on a day without doubt (tune_spread) */
    double ln_sd;                 /* of the expected level */
    double tested_ln_sd;          /* the same after one test that bore it out (spread_tested); to RUN_REASONS alone */
    double dawn_h;                /* solar */
    double stock_dm_kg;           /* what its animals take today by the advice */
    size_t readings_seen;         /* of kept->reading, up to the coming morning */
    struct run_kept now;          /* how it is kept by now */
};

struct run_animal {
    const struct animal_group *group;
    struct advice_animal input;
    struct advice_grass grass;
    struct advice advice;
    date_t advised;             /* the day of that advice; DATE_NONE: none yet */
    struct run_signs signs;     /* up to last evening */
    struct run_signs seen;      /* as that morning knows them */
    struct way_back_state back; /* up to last evening */
    double out_h;               /* on grass today, by the diary; NaN: it does not say */
    size_t n_recent;            /* days on record, at most RUN_RECENT; the latest first */
    struct run_hours recent[RUN_RECENT];
};

/* How much of a morning's advice is worked out. RUN_WHETHER is for animals of which nothing counts but
 * whether they go out: neither on a way back to grass nor on a paddock that they graze down. */
enum run_depth {
    RUN_REASONS, /* all of advise_with, and of grazed paddocks no more grass than lasts */
    RUN_HOURS,   /* advise_plainly: nobody asks why */
    RUN_TABLE,   /* the same; of a paddock without animals `expected` says no more than how sure its sugar is */
    RUN_WHETHER  /* advise_any: hours are 0 or 1 */
};

struct run {
    const struct params *params;
    struct sun_place sun;
    bool south; /* of the equator */
    struct advice_tables tables;
    size_t paddocks, animals;
    struct run_paddock *paddock;
    struct run_animal *animal;
    size_t days; /* evenings so far */
    /* set after run_init, where there is a diary: */
    const struct diary_entry *event; /* by time; how paddocks are kept follows them */
    size_t events, next;             /* next: the first that no evening has seen */
    date_t live;          /* the morning that knows all of its day's entries; DATE_NONE: none (diary_known) */
    bool follow_animals;  /* foot signs and the way back to grass follow the entries, too */
    enum run_depth depth; /* of the mornings */
};

/* Memory is the arena's; params and holding must outlive the run. False: no memory. */
bool run_init(struct run *r, const struct params *p, const struct holding *h, struct arena *a);

/* A run of its own in the same state (for what-ifs). False: no memory. */
bool run_copy(struct run *to, const struct run *from, struct arena *a);

/* Puts a copy made by run_copy into the state of its original again. */
void run_set(struct run *to, const struct run *from);

/* The foot signs of the animals (`seen`) as the morning of that date knows them, by the diary
 * alone: no day has passed over the run yet, and none may after that. */
void run_look_over(struct run *r, date_t date);

/* Foot signs that stand (`seen`) on another group than g; NULL: on any. */
bool run_others_sore(const struct run *r, const struct animal_group *g);

/* What the animals take is followed on some paddock: its evenings need their mornings. */
bool run_is_stocked(const struct run *r);

/* The advice of the day; the swards stay as they are. */
void run_morning(struct run *r, const struct run_day *d);

/* Of that the paddocks' part alone: what grows and how sweet, and no advice. */
void run_expect(struct run *r, const struct run_day *d);

/* The day passes: growth, then the evening's management. The stocked paddocks need
 * run_morning of the same day first. */
void run_evening(struct run *r, const struct run_day *d);

/* The same when many runs share a day's weather: what the sun and the hours do is worked
 * out once, by run_sky_make from the day and where the run is. The hours of `morning` are left out
 * where a run to RUN_TABLE has no animals: nothing looks at them. */
struct run_sky {
    struct sward_day recorded, morning;
};
void run_sky_make(struct run_sky *sky, const struct run_day *d, const struct run *r);
void run_morning_under(struct run *r, const struct run_day *d, const struct run_sky *sky);
void run_evening_under(struct run *r, const struct run_day *d, const struct run_sky *sky);

/* The evenings of two runs of holdings alike, each with its own day: as one after the other, and quicker. */
struct run_evening {
    struct run *run;
    const struct run_day *day;
    const struct run_sky *sky;
};
void run_evenings_under(const struct run_evening e[2]);

/* Is the paddock at rest because the diary says so? */
static inline bool run_rests(const struct run_paddock *p)
{
    return p->now.how == KEPT_RESTED && p->now.since != DATE_NONE;
}

/* The evening's share of animals or mower on a sward kept as p is; south of the equator a season of
 * mowing runs over the new year, to 30 June. */
void run_manage(const struct run_paddock *p, struct sward *s, date_t date, bool south);

/* Factor of the ln-SD on a day: several reasons for doubt do not multiply, the largest counts. */
double run_doubt(const struct run *r, const struct sward_result *day);

/* ln-SD of the expected level when that of paddocks alike is level_sd (run_paddock.level_sd). */
double run_spread(const struct run *r, const struct sward_result *day, const struct run_day *d, double level_sd);

/* The 80 % band of a level, g/kg: 8 in 10 paddocks lie within (ln-normal). */
void run_band(double level, double ln_sd, double *low, double *high);

/* NSC at the end of the solar hour in which the sun rises, g/kg. */
double run_dawn_nsc(const struct run_paddock *p, const struct sward_result *day);

/* The hay this group is given: the first lot that suits its teeth; where none does, the first that is not straw. */
const struct hay_lot *run_hay_of(const struct holding *h, const struct animal_group *g);

#endif
