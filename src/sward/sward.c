/* The daily step, in the order of models/METHOD.md. SPDX-License-Identifier: GPL-3.0-or-later */
#include "sward/sward.h"

#include "base/num.h"
#include "physics/frost.h"
#include "sward/balance.h"
#include "sward/canopy.h"
#include "sward/fractions.h"
#include "sward/mixture.h"
#include "sward/season.h"
#include "sward/turnover.h"

#include <math.h>

#define G_KG 1000.0
#define KG_HA_OF_G_M2 10.0

static void init_part(struct sward *s, size_t i, const struct sward_kind *kind, const struct grass *grass)
{
    struct sward_kind *k = &s->kind[i];
    *k = *kind;
    k->half_sugar = grass->half_sugar;
    k->growth_max *= grass->growth_factor;
    s->esc_fructan[i] = grass->esc_fructan;
    s->starch_share[i] = grass->starch_share;
    s->phyllochron[i] = grass->phyllochron;
    s->spread_factor = fmax(s->spread_factor, grass->spread_factor);
    s->part[i] = (struct sward_part){.leaf = k->start_leaf,
                                     .sugar = k->start_sugar,
                                     .dead = k->start_dead,
                                     .leaf_age = k->start_leaf_age,
                                     .slow_lai = k->start_slow_lai,
                                     .frost = 1.0,
                                     .reproductive = true};
}

void sward_init(struct sward *s, const struct sward_kind kinds[SWARD_TYPES], size_t grasses,
                const struct grass *const grass[], const double share[], double capacity_mm, double nitrogen)
{
    double sum = 0.0;
    *s = (struct sward){.parts = grasses,
                        .spread_factor = 1.0,
                        .capacity_mm = capacity_mm,
                        .nitrogen = nitrogen,
                        .days_since_grazed = SWARD_LONG_AGO,
                        .days_since_kill = SWARD_LONG_AGO};
    for (size_t i = 0; i < grasses; i++) {
        sum += share[i];
    }
    for (size_t i = 0; i < grasses; i++) {
        init_part(s, i, &kinds[grass[i]->type], grass[i]);
        s->share[i] = share[i] / sum;
    }
    s->water = s->kind[0].start_water;
    s->soil_t = s->kind[0].start_soil_t;
}

struct step { /* what the parts share on one day */
    const struct sward_day *day;
    double t;
    bool covered;
    double sugar[24], green[24];                /* sums over the ground at each hour's end, g/m2 */
    double mean_nsc, wsc, fructan, starch, esc; /* green-weighted sums, for the shares */
};

/* Frost holds photosynthesis back, and lets go in a week. */
static void step_frost(const struct sward_kind *k, struct sward_part *p, const struct step *st)
{
    if (st->day->tmin < k->frost_tmin && !st->covered) {
        double hit = num_clip(1.0 + (st->day->tmin - k->frost_tmin) / k->frost_span, k->frost_floor, 1.0);
        p->frost = fmin(p->frost, hit);
    } else {
        p->frost = fmin(1.0, p->frost + k->frost_recovery);
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

static struct balance_factors day_factors(const struct sward *s, size_t i, const struct step *st, bool kill)
{
    const struct sward_kind *k = &s->kind[i];
    const struct sward_part *p = &s->part[i];
    struct season_phase phase = season_phase(k, s->st, st->day->season_day);
    double wet_growth = num_clip((s->water - k->dry_growth) / k->dry_growth_span, k->dry_growth_floor, 1.0);
    double wet_photo = num_clip((s->water - k->dry_photo) / k->dry_photo_span, k->dry_photo_floor, 1.0) * p->frost;
    return (struct balance_factors){.lai = p->lai,
                                    .sink = phase.sink * canopy_sink_area(k, p->slow_lai) * wet_growth * s->nitrogen,
                                    .source = phase.source * wet_photo,
                                    .wet = wet_photo,
                                    .soil_t = s->soil_t,
                                    .dormant = st->covered || p->killed || kill};
}

/* Adds the part's hours to the ground's; its own mean, g/kg. */
static double collect_hours(struct step *st, double share, const struct balance_day *day)
{
    double mean = 0.0;
    for (int h = 0; h < 24; h++) {
        double green = share * day->green[h];
        st->green[h] += green;
        st->sugar[h] += green * day->content[h];
        mean += day->content[h];
    }
    return G_KG * mean / 24.0;
}

static void collect_fractions(struct sward *s, size_t i, struct step *st, double nsc)
{
    struct sward_part *p = &s->part[i];
    double starch_share = fractions_starch_share(&s->kind[i], s->starch_share[i], st->t);
    double green = s->share[i] * (p->leaf + p->stem + p->sugar);
    struct fractions f = fractions_of_day(&s->kind[i], p, nsc, starch_share, s->esc_fructan[i], s->days_seen, s->t7);
    st->mean_nsc += green * nsc;
    st->wsc += green * f.wsc;
    st->fructan += green * f.fructan;
    st->starch += green * f.starch;
    st->esc += green * f.esc;
}

/* One part from morning to evening. */
static void step_part(struct sward *s, size_t i, struct step *st, struct sward_result *r)
{
    const struct sward_kind *k = &s->kind[i];
    struct sward_part *p = &s->part[i];
    struct balance balance;
    double share = s->share[i];
    p->slow_lai += (p->lai - p->slow_lai) / k->sink_adaptation_d;
    p->reproductive = p->reproductive || st->day->new_year;
    p->killed = p->killed && !(s->soil_t > k->green_up_soil);
    step_frost(k, p, st);
    bool kill = is_killed(k, p, st);
    struct balance_factors factors = day_factors(s, i, st, kill);
    balance_prepare(&balance, k, &factors, st->day);
    struct balance_day day = {.sugar = p->sugar, .structure = p->leaf + p->stem};
    balance_run(&balance, &day);
    p->sugar = day.sugar;

    struct turnover_day turn = {.t = st->t,
                                .grown = day.growth,
                                .stem_share = season_stem_share(k, s->st, p->reproductive),
                                .sheltered = st->covered,
                                .kill = kill};
    double nsc = collect_hours(st, share, &day);
    r->heading = r->heading || turn.stem_share > 0.0;
    r->killing_frost = r->killing_frost || kill || is_killing_frost(k, p, st);
    r->lost += share * turnover_step(k, p, &turn);
    p->killed = p->killed || kill;
    r->growth += KG_HA_OF_G_M2 * share * day.growth;
    r->assimilated += share * day.supply;
    r->respired += share * day.upkeep;
    r->built += share * day.growth / k->growth_yield;
    collect_fractions(s, i, st, nsc);
}

static void report_sugar(struct sward_result *r, const struct step *st)
{
    double sum = 0.0;
    r->nsc_min = INFINITY;
    r->nsc_max = 0.0;
    for (int h = 0; h < 24; h++) {
        double nsc = G_KG * st->sugar[h] / st->green[h];
        r->nsc_hour[h] = nsc;
        r->nsc_min = nsc < r->nsc_min ? nsc : r->nsc_min;
        r->nsc_max = nsc > r->nsc_max ? nsc : r->nsc_max;
        sum += nsc;
    }
    r->nsc_mean = sum / 24.0;
    double scale = st->mean_nsc > 0.0 ? r->nsc_mean / st->mean_nsc : 0.0;
    r->wsc = st->wsc * scale;
    r->fructan = st->fructan * scale;
    r->starch = st->starch * scale;
    r->esc = st->esc * scale;
}

/* Sugar of killed tissue fades at first order while it stands. */
static void step_killed(struct sward *s, const struct sward_result *r)
{
    if (r->killing_frost) {
        s->days_since_kill = 0;
        s->killed_nsc = fmax(s->killed_nsc, r->nsc_mean);
    } else if (s->days_since_kill < SWARD_LONG_AGO) {
        s->days_since_kill++;
        s->killed_nsc *= 1.0 - s->kind[0].killed_loss;
    }
}

static void report_state(const struct sward *s, const struct step *st, struct sward_result *r)
{
    const struct sward_kind *k = &s->kind[0];
    r->water = s->water;
    r->soil_t = s->soil_t;
    r->st = s->st;
    r->drought = s->water < k->drought_water;
    bool doubtful = r->heading || r->drought || frost_air(st->day->tmin);
    r->spread_factor = fmax(s->spread_factor, doubtful ? k->doubt_factor : 1.0);
}

void sward_step(struct sward *s, const struct sward_day *d, struct sward_result *r)
{
    struct step st = {.day = d, .t = 0.5 * (d->tmin + d->tmax)};
    *r = (struct sward_result){.lai = mixture_lai(s)};
    mixture_ground(s, d, r->lai);
    st.covered = mixture_covered(s, d);
    for (size_t i = 0; i < s->parts; i++) {
        s->part[i].lai = canopy_lai(&s->kind[i], s->part[i].leaf, s->part[i].stem);
        step_part(s, i, &st, r);
    }
    report_sugar(r, &st);
    report_state(s, &st, r);
    step_killed(s, r);
    s->days_seen++;
    s->days_since_grazed += s->days_since_grazed < SWARD_LONG_AGO;
}
