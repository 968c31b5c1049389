/* The coming months many times over: every past year's weather on the sward as it
 * stands this morning, on the paddock as the model sees it and on paddocks drawn from
 * what is not known about it.
 *
 * Draw 0 is the model's own paddock. Its hours and hay are the advice that each of those
 * mornings would be given: the advice knows neither the paddock's own level nor the
 * sward's own vigour, and its caution (the level an animal is judged on) covers them. So
 * what will be advised differs between years by the weather alone.
 *
 * Draws 1 to `draws` are paddocks as they may really be. ln(level) of the sugar is normal
 * with the spread that each day's band is made of (spread_paddock, less once tuned, times the
 * day's doubt) and stays with the paddock; a part of it (the spread less spread_tested, as
 * squares) is what a laboratory test would show, and hours and hay of these members are
 * the advice after such a test. Growth is the same sward stepped with other pm20 (source)
 * and growth_max (sink), the two that move growth most; sugar is the model's times the
 * level, since the spread of the level already holds what such parameters do to it.
 *
 * All draws are a Latin hypercube over members: each variable's marginal is even whatever
 * the number of draws. The same seed gives the same numbers on any number of threads.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_ENSEMBLE_H
#define SUGARLEA_ENSEMBLE_H

#include "season/run.h"

/* ln-SD of a type's parameters: low..high of models/swards.json taken as two SD either
 * side (our judgement), where draws end. */
struct ensemble_doubt {
    double pm20, growth_max;
};
void ensemble_doubts(const struct param_list *list, struct ensemble_doubt doubt[SWARD_TYPES]);

struct ensemble_ask {
    const struct run *now;     /* last evening's state; not changed */
    size_t years, days, draws; /* draws 0: the model's paddock alone */
    const struct run_day *day; /* day k of year y at y * days + k; dates are those of the coming days */
    struct ensemble_doubt doubt[SWARD_TYPES];
    unsigned long seed;
    unsigned threads; /* at least 1; ENSEMBLE_THREADS at most are started */
};
enum { ENSEMBLE_THREADS = 8 };

/* Results of every day: day k of member m of thing i (paddock or group) stands at
 * (i * members + m) * days + k. Member m is year m % years of draw m / years. */
struct ensemble {
    date_t first;
    size_t years, draws, days, paddocks, animals;
    size_t members; /* years * (1 + draws) */
    float *growth;  /* kg DM/ha/d, of a paddock */
    float *sugar;   /* mean NSC of the day, g/kg, of a paddock */
    float *hours;   /* on grass, of a group: 24 free, 0 none */
    float *hay;     /* kg as fed a head, eaten, of a group */
    float *grass;   /* kg DM a head, eaten on its paddock, of a group */
    double brief_h; /* up to this a turnout is brief */
};

static inline size_t ensemble_at(const struct ensemble *e, size_t thing, size_t member, size_t day)
{
    return (thing * e->members + member) * e->days + day;
}

/* Bytes that the results take, for a limit of the caller's. */
double ensemble_bytes(const struct ensemble_ask *ask);

/* Memory is the arena's. False: no memory. */
bool ensemble_run(const struct ensemble_ask *ask, struct arena *a, struct ensemble *e);

#endif
