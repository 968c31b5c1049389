/* The truth of a day, its morning, and the days ahead of it.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "season/replay.h"

#include <assert.h>
#include <gsl/gsl_cdf.h>
#include <math.h>

const size_t replay_lead[REPLAY_LEADS] = {0, 1, REPLAY_AHEAD};

static double *missing(size_t n, struct arena *a)
{
    double *x = arena_alloc(a, n, sizeof *x);
    for (size_t i = 0; x && i < n; i++) {
        x[i] = NAN;
    }
    return x;
}

static bool init_series(struct replay_series *s, size_t days, struct arena *a)
{
    bool ok = (s->truth = missing(days, a)) != NULL;
    for (size_t k = 0; k < REPLAY_LEADS; k++) {
        ok = ok && (s->said[k] = missing(days, a)) != NULL;
    }
    return ok;
}

static bool init_group(struct replay_group *g, size_t days, struct arena *a)
{
    bool ok = init_series(&g->turnout, days, a);
    for (size_t k = 0; k < REPLAY_LEADS; k++) {
        ok = ok && (g->members[k] = arena_alloc(a, days, sizeof *g->members[k])) != NULL;
    }
    return ok;
}

bool replay_init(struct replay *p, const struct run *r, size_t days, struct arena *a)
{
    *p = (struct replay){.days = days,
                         .paddocks = r->paddocks,
                         .groups = r->animals,
                         .weather_sd = r->params->limits.spread_assumed_weather};
    p->paddock = arena_alloc(a, r->paddocks, sizeof *p->paddock);
    p->group = arena_alloc(a, r->animals, sizeof *p->group);
    bool ok = p->paddock && p->group && run_copy(&p->ahead, r, a);
    for (size_t i = 0; ok && i < r->paddocks; i++) {
        ok = init_series(&p->paddock[i][REPLAY_NSC], days, a) && init_series(&p->paddock[i][REPLAY_GROWTH], days, a);
    }
    for (size_t i = 0; ok && i < r->animals; i++) {
        ok = init_group(&p->group[i], days, a);
    }
    for (size_t m = 0; m < REPLAY_MEMBERS; m++) {
        p->factor[m] = exp(p->weather_sd * gsl_cdf_ugaussian_Pinv(((double)m + 0.5) / REPLAY_MEMBERS));
    }
    return ok;
}

static enum turnout member_turnout(const struct run *r, const struct advice_grass *grass,
                                   const struct advice_animal *animal, double factor)
{
    struct advice_grass scaled = *grass;
    struct advice advice;
    for (size_t h = 0; h < 24; h++) {
        scaled.nsc[h] *= factor;
    }
    scaled.starch_pct *= factor;
    advise_with(&r->tables, &scaled, animal, &r->params->limits, &advice);
    return advice.turnout;
}

void replay_members(const struct run *r, const struct advice_grass *grass, const struct advice_animal *animal,
                    const double *factor, size_t n, struct replay_members *count)
{
    assert(n > 0 && n <= 255);
    size_t first = 0;
    while (first < n) {
        enum turnout t = member_turnout(r, grass, animal, factor[first]);
        size_t same = first, other = n - 1; /* the turnout is t up to `same`, another from `other` on */
        if (t == TURNOUT_NONE || member_turnout(r, grass, animal, factor[n - 1]) == t) {
            same = n - 1;
        }
        while (same + 1 < other) {
            size_t middle = same + (other - same) / 2;
            if (member_turnout(r, grass, animal, factor[middle]) == t) {
                same = middle;
            } else {
                other = middle;
            }
        }
        count->of[t] = (unsigned char)(count->of[t] + (same - first + 1));
        first = same + 1;
        assert(first <= n);
    }
}

/* The spread without the part for assumed weather: that part is what the members stand for. */
static double known_sd(const struct run *r, size_t paddock, const struct run_day *d)
{
    struct run_day known = *d;
    known.assumed = false;
    return run_spread(r, &r->paddock[paddock].expected, &known, r->paddock[paddock].level_sd);
}

/* What the run's morning says of day `target`, with that lead. */
static void note_said(struct replay *p, const struct run *r, size_t lead, size_t target, const struct run_day *d)
{
    assert(lead < REPLAY_LEADS);
    if (target >= p->days) {
        return;
    }
    for (size_t i = 0; i < p->paddocks; i++) {
        p->paddock[i][REPLAY_NSC].said[lead][target] = r->paddock[i].expected.nsc_mean;
        p->paddock[i][REPLAY_GROWTH].said[lead][target] = r->paddock[i].expected.growth;
    }
    for (size_t i = 0; i < p->groups; i++) {
        const struct run_animal *a = &r->animal[i];
        struct advice_grass grass = a->grass;
        grass.ln_sd = known_sd(r, a->group->paddock, d);
        p->group[i].turnout.said[lead][target] = a->advice.turnout;
        replay_members(r, &grass, &a->input, p->factor, REPLAY_MEMBERS, &p->group[i].members[lead][target]);
    }
}

static void note_truth(struct replay *p, struct run *r, size_t i, const struct run_day *seen)
{
    struct run_day as_recorded = *seen;
    as_recorded.morning = seen->recorded;
    as_recorded.assumed = false;
    run_morning(r, &as_recorded);
    for (size_t k = 0; k < p->paddocks; k++) {
        p->paddock[k][REPLAY_NSC].truth[i] = r->paddock[k].expected.nsc_mean;
        p->paddock[k][REPLAY_GROWTH].truth[i] = r->paddock[k].expected.growth;
    }
    for (size_t k = 0; k < p->groups; k++) {
        p->group[k].turnout.truth[i] = r->animal[k].advice.turnout;
    }
}

/* A copy to look ahead on, which no height measured on a coming morning corrects. */
static void look_ahead_from(struct replay *p, const struct run *r)
{
    run_set(&p->ahead, r);
    for (size_t i = 0; i < p->paddocks; i++) {
        p->ahead.paddock[i].readings_seen = p->ahead.paddock[i].kept->readings;
    }
}

void replay_day(struct replay *p, struct run *r, size_t i, const struct run_day seen[REPLAY_AHEAD + 1], bool recorded)
{
    assert(i < p->days);
    size_t lead = 0;
    if (recorded) {
        note_truth(p, r, i, &seen[0]);
    }
    run_morning(r, &seen[0]);
    look_ahead_from(p, r);
    for (size_t k = 0; k <= REPLAY_AHEAD; k++) {
        struct run_day passes = seen[k];
        passes.recorded = seen[k].morning;
        if (k > 0) {
            run_morning(&p->ahead, &passes);
        }
        if (k == replay_lead[lead]) {
            note_said(p, &p->ahead, lead++, i + k, &passes);
        }
        if (k < REPLAY_AHEAD) {
            run_evening(&p->ahead, &passes);
        }
    }
    assert(lead == REPLAY_LEADS);
    run_evening(r, &seen[0]);
}
