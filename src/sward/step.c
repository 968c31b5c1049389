/* What happens to a part of the sward before and after its hours, in the order of
 * models/METHOD.md. SPDX-License-Identifier: GPL-3.0-or-later */
#include "sward/step.h"

#include "base/num.h"
#include "physics/frost.h"
#include "sward/canopy.h"
#include "sward/fractions.h"
#include "sward/mixture.h"
#include "sward/season.h"
#include "sward/turnover.h"

#include <assert.h>
#include <stddef.h>
#include <string.h>

#define KG_HA_OF_G_M2 10.0

void step_begin(struct sward *s, const struct sward_day *d, struct step *st, struct sward_result *r)
{
    *st = (struct step){.day = d, .t = 0.5 * (d->tmin + d->tmax)};
    /* the hours are written as a whole at the end of the day */
    memset((unsigned char *)r + offsetof(struct sward_result, nsc_min), 0,
           sizeof *r - offsetof(struct sward_result, nsc_min));
    r->lai = mixture_lai(s);
    st->covered = mixture_ground(s, d, r->lai);
}

/* Frost holds photosynthesis back, and lets go in a week. */
static void step_frost(const struct sward_kind *k, struct sward_part *p, const struct step *st)
{
    if (st->day->tmin < k->frost_tmin && !st->covered) {
        double hit = num_clip(1.0 + (st->day->tmin - k->frost_tmin) / k->frost_span, k->frost_floor, 1.0);
        p->frost = num_least(p->frost, hit);
    } else {
        p->frost = num_least(1.0, p->frost + k->frost_recovery);
    }
}

/* NaN kill_tmin (the sward never browns off) compares false. */
static bool is_killed(const struct sward_kind *k, const struct sward_part *p, const struct step *st)
{
    return !p->killed && !st->covered && st->day->tmin <= k->kill_tmin;
}

static bool is_killing_frost(const struct sward_kind *k, const struct sward_part *p, const struct step *st)
{
    return !p->killed && !st->covered && st->day->tmin <= k->killing_frost;
}

static struct balance_factors day_factors(const struct sward *s, size_t i, const struct season_phase *phase,
                                          const struct step *st, bool kill)
{
    const struct sward_kind *k = s->kind[i];
    const struct sward_part *p = &s->part[i];
    double wet_growth = num_clip((s->water - k->dry_growth) / k->dry_growth_span, k->dry_growth_floor, 1.0);
    double wet_photo = num_clip((s->water - k->dry_photo) / k->dry_photo_span, k->dry_photo_floor, 1.0) * p->frost;
    return (struct balance_factors){.lai = p->lai,
                                    .sink = phase->sink * wet_growth * s->nitrogen,
                                    .source = phase->source * wet_photo,
                                    .wet = wet_photo,
                                    .soil_t = s->soil_t,
                                    .dormant = st->covered || p->killed || kill};
}

void step_morning(struct sward *s, size_t i, const struct season_phase *phase, struct step *st,
                  struct balance_factors *f)
{
    assert(i < s->parts);
    const struct sward_kind *k = s->kind[i];
    struct sward_part *p = &s->part[i];
    p->lai = canopy_lai(k, p->leaf, p->stem);
    p->slow_lai += (p->lai - p->slow_lai) / k->sink_adaptation_d;
    p->reproductive = p->reproductive || st->day->new_year;
    p->killed = p->killed && !(s->soil_t > k->green_up_soil);
    step_frost(k, p, st);
    st->kill = is_killed(k, p, st);
    assert(p->slow_lai >= 0.0);
    *f = day_factors(s, i, phase, st, st->kill);
}

static void collect_fractions(struct sward *s, size_t i, struct step *st, double nsc)
{
    struct sward_part *p = &s->part[i];
    double starch_share = fractions_starch_share(s->kind[i], s->starch_share[i], st->t);
    double green = s->share[i] * (p->leaf + p->stem + p->sugar);
    struct fractions f = fractions_of_day(s->kind[i], p, nsc, starch_share, s->esc_fructan[i], s->days_seen, s->t7);
    st->mean_nsc += green * nsc;
    st->wsc += green * f.wsc;
    st->fructan += green * f.fructan;
    st->starch += green * f.starch;
    st->esc += green * f.esc;
}

void step_evening(struct sward *s, size_t i, struct step *st, const struct balance_sums *day, struct sward_result *r)
{
    assert(day->growth >= 0.0);
    const struct sward_kind *k = s->kind[i];
    struct sward_part *p = &s->part[i];
    double share = s->share[i];
    struct turnover_day turn = {.t = st->t,
                                .grown = day->growth,
                                .stem_share = season_stem_share(k, s->st, p->reproductive),
                                .sheltered = st->covered,
                                .kill = st->kill};
    p->sugar = day->sugar;
    r->heading = r->heading || season_heading(k, s->st);
    r->killing_frost = r->killing_frost || st->kill || is_killing_frost(k, p, st);
    r->lost += share * turnover_step(k, p, &turn);
    p->killed = p->killed || st->kill;
    r->growth += KG_HA_OF_G_M2 * share * day->growth;
    r->assimilated += share * day->supply;
    r->respired += share * day->upkeep;
    r->built += share * day->growth / k->growth_yield;
    collect_fractions(s, i, st, day->nsc);
}

/* Sugar of killed tissue fades at first order while it stands. */
static void step_killed(struct sward *s, const struct sward_result *r)
{
    if (r->killing_frost) {
        s->days_since_kill = 0;
        s->killed_nsc = num_most(s->killed_nsc, r->nsc_mean);
    } else if (s->days_since_kill < SWARD_LONG_AGO) {
        s->days_since_kill++;
        s->killed_nsc *= 1.0 - s->kind[0]->killed_loss;
    }
}

/* Several reasons for doubt do not multiply. */
static double doubt_of(const struct sward *s, bool heading, bool drought, double tmin)
{
    bool doubtful = heading || drought || frost_air(tmin);
    return num_most(s->spread_factor, doubtful ? s->kind[0]->doubt_factor : 1.0);
}

static void report_state(const struct sward *s, const struct step *st, struct sward_result *r)
{
    r->water = s->water;
    r->soil_t = s->soil_t;
    r->st = s->st;
    r->drought = s->water < s->kind[0]->drought_water;
    r->spread_factor = doubt_of(s, r->heading, r->drought, st->day->tmin);
}

double sward_doubt(const struct sward *s, const struct sward_day *d)
{
    struct ground g = mixture_wet(s, d, mixture_lai(s));
    bool heading = false;
    for (size_t i = 0; i < s->parts; i++) {
        heading = heading || season_heading(s->kind[i], g.st);
    }
    return doubt_of(s, heading, g.water < s->kind[0]->drought_water, d->tmin);
}

void step_end(struct sward *s, const struct step *st, struct sward_result *r)
{
    assert(!(r->nsc_min > r->nsc_max));
    double scale = st->mean_nsc > 0.0 ? r->nsc_mean / st->mean_nsc : 0.0;
    r->wsc = st->wsc * scale;
    r->fructan = st->fructan * scale;
    r->starch = st->starch * scale;
    r->esc = st->esc * scale;
    report_state(s, st, r);
    step_killed(s, r);
    s->days_seen++;
    s->days_since_grazed += s->days_since_grazed < SWARD_LONG_AGO;
}
