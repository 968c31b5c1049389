/* Sums over groups and days, and their quantiles over years and doubt.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "hay/plan.h"

#include "hay/band.h"
#include "hay/supply.h"

#include <assert.h>
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_sort.h>
#include <math.h>

#define NO_YEARS 100000 /* for outlook_quantile: no share is kept for years not on record, there are none */

struct work {
    const struct hay_ask *ask;
    const struct ensemble *e; /* as fed: what the paddocks cannot give is hay */
    size_t members, as_years; /* years x points */
    double factor[HAY_POINTS];
    double gross;  /* in the store for 1 kg eaten */
    double *eaten; /* by all groups, to the end of day k of year y: y * days + k */
    double *value; /* one a member */
};

date_t hay_lean_end(date_t morning, double latitude)
{
    int month = latitude < 0.0 ? 10 : 4, year = date_split(morning).year;
    date_t end = date_make(year, month, date_days_in_month(year, month));
    return end > morning ? end : date_make(year + 1, month, date_days_in_month(year + 1, month));
}

/* kg of the first lot for 1 kg of the lot this group is given. */
static double as_first_lot(const struct hay_ask *ask, const struct animal_group *g, double dm_pct)
{
    assert(dm_pct > 0.0);
    return hay_lot_dm_pct(run_hay_of(ask->h, g), ask->p) / dm_pct;
}

/* Hay in the bucket, so to speak: fed daily beside what is advised, kg of the first lot a head. */
static double fed_beside(const struct hay_ask *ask, const struct animal_group *g, double dm_pct)
{
    double kg = 0.0;
    for (size_t i = 0; i < g->feds; i++) {
        const struct feed *f = g->fed[i].feed;
        double own = isnan(f->dm_pct) ? ask->p->limits.bale_dm_pct : f->dm_pct;
        kg += f->may_be_hay && !f->is_straw ? g->fed[i].kg * own / dm_pct : 0.0;
    }
    return kg;
}

/* Each year's sum times each point of the doubt. */
static size_t spread(struct work *w, const double *of_year, double scale)
{
    size_t n = 0;
    for (size_t y = 0; y < w->e->years; y++) {
        for (size_t j = 0; j < HAY_POINTS; j++) {
            w->value[n++] = scale * of_year[y] * w->factor[j];
        }
    }
    return n;
}

static bool prepare(const struct hay_ask *ask, const struct ensemble *e, struct arena *a, struct work *w)
{
    assert(ask->doubt >= 0.0);
    *w = (struct work){.ask = ask, .e = e, .members = e->years * HAY_POINTS, .gross = hay_gross(1.0, &ask->losses)};
    w->as_years = ask->by_table ? NO_YEARS : e->years;
    w->eaten = arena_alloc(a, e->years * e->days, sizeof *w->eaten);
    w->value = arena_alloc(a, w->members, sizeof *w->value);
    for (int j = 0; j < HAY_POINTS; j++) {
        w->factor[j] = exp(ask->doubt * gsl_cdf_ugaussian_Pinv((j + 0.5) / HAY_POINTS));
    }
    return w->eaten && w->value;
}

/* Adds the group's days to the store's, and fills its own sums. */
static void add_group(struct work *w, size_t i, double dm_pct, double *of_year, struct hay_group *out)
{
    const struct ensemble *e = w->e;
    const struct animal_group *g = &w->ask->h->animal[i];
    assert(g->count > 0);
    double scale = as_first_lot(w->ask, g, dm_pct), beside = fed_beside(w->ask, g, dm_pct);
    for (size_t y = 0; y < e->years; y++) {
        of_year[y] = 0.0;
        for (size_t k = 0; k < e->days; k++) {
            double kg = g->count * (scale * (double)e->hay[ensemble_at(e, i, y, k)] + beside);
            of_year[y] += kg;
            w->eaten[y * e->days + k] += of_year[y];
        }
    }
    out->need_kg = hay_band(w->value, spread(w, of_year, w->gross), w->as_years);
    gsl_sort(of_year, 1, e->years);
    out->eaten_kg_head = outlook_quantile(of_year, e->years, w->as_years, 0.5) / (double)e->days / g->count;
}

static void find_need(struct work *w, double *of_year, struct hay_plan *plan)
{
    assert(w->e->days > 0);
    const struct ensemble *e = w->e;
    for (size_t y = 0; y < e->years; y++) {
        of_year[y] = w->eaten[y * e->days + e->days - 1];
    }
    size_t n = spread(w, of_year, w->gross);
    assert(n == w->members);
    plan->need_kg = hay_band(w->value, n, w->as_years);
    plan->need_p80 = outlook_quantile(w->value, n, w->as_years, 0.8);
    plan->need_p95 = outlook_quantile(w->value, n, w->as_years, 0.95);
    double stock = isnan(plan->stock.kg) ? 0.0 : plan->stock.kg;
    plan->bales_p80 = hay_bales(plan->need_p80 - stock, plan->stock.bale_kg);
    plan->bales_p95 = hay_bales(plan->need_p95 - stock, plan->stock.bale_kg);
    plan->cost_p80 = plan->bales_p80 * w->ask->h->price_per_bale;
    plan->cost_p95 = plan->bales_p95 * w->ask->h->price_per_bale;
}

/* First day of a year whose use passes what there is. */
static double first_beyond(const double *use, size_t days, double scale, double kg)
{
    size_t k = 0;
    while (k < days && scale * use[k] <= kg) {
        k++;
    }
    return k < days ? (double)k : HAY_LASTS;
}

static void find_end(struct work *w, struct hay_plan *plan)
{
    const struct ensemble *e = w->e;
    size_t n = 0;
    plan->runs_out = (struct outlook_band){NAN, NAN, NAN};
    plan->order_by = DATE_NONE;
    if (isnan(plan->stock.kg)) {
        return;
    }
    for (size_t y = 0; y < e->years; y++) {
        for (size_t j = 0; j < HAY_POINTS; j++) {
            w->value[n++] = first_beyond(&w->eaten[y * e->days], e->days, w->gross * w->factor[j], plan->stock.kg);
        }
    }
    plan->runs_out = hay_band_dates(w->value, n, w->as_years, e);
    if (!isnan(plan->runs_out.p10)) {
        double by = plan->runs_out.p10 - w->ask->p->hay.lead_days;
        plan->order_by = (date_t)fmax(by, e->first);
    }
}

static bool find_left(struct work *w, double *of_year, struct arena *a, struct hay_plan *plan)
{
    assert(w->gross >= 1.0);
    const struct ensemble *e = w->e;
    if (isnan(plan->stock.kg)) {
        return true;
    }
    plan->left_low = arena_alloc(a, e->days, sizeof(double));
    plan->left_middle = arena_alloc(a, e->days, sizeof(double));
    plan->left_high = arena_alloc(a, e->days, sizeof(double));
    if (!plan->left_low || !plan->left_middle || !plan->left_high) {
        return false;
    }
    for (size_t k = 0; k < e->days; k++) {
        for (size_t y = 0; y < e->years; y++) {
            of_year[y] = w->eaten[y * e->days + k];
        }
        struct outlook_band used = hay_band(w->value, spread(w, of_year, w->gross), w->as_years);
        plan->left_low[k] = fmax(plan->stock.kg - used.p90, 0.0);
        plan->left_middle[k] = fmax(plan->stock.kg - used.p50, 0.0);
        plan->left_high[k] = fmax(plan->stock.kg - used.p10, 0.0);
    }
    return true;
}

static bool find_off_grass(const struct hay_ask *ask, struct arena *a, struct hay_plan *plan)
{
    struct ensemble e;
    double dm_pct = plan->stock.dm_pct;
    if (!hay_table_days(ask->h, ask->p, ask->e->first, 1, a, &e)) {
        return false;
    }
    for (size_t i = 0; i < ask->h->animals; i++) {
        const struct animal_group *g = &ask->h->animal[i];
        double head = as_first_lot(ask, g, dm_pct) * (double)e.hay[i] + fed_beside(ask, g, dm_pct);
        plan->group[i].table_kg_head = head;
        plan->off_grass_kg += hay_gross(g->count * head * (double)plan->days, &plan->losses);
    }
    double stock = isnan(plan->stock.kg) ? 0.0 : plan->stock.kg;
    plan->off_grass_bales = hay_bales(plan->off_grass_kg - stock, plan->stock.bale_kg);
    return true;
}

/* What will be given: the advice's hay, and hay for the grass that is not there. */
static bool find_given(const struct hay_ask *ask, struct arena *a, struct ensemble *given, struct hay_plan *plan)
{
    *given = *ask->e;
    if (!ask->now) {
        return true;
    }
    plan->pasture = arena_alloc(a, ask->h->paddocks, sizeof *plan->pasture);
    return plan->pasture && hay_supply(ask, a, given, plan->pasture);
}

bool hay_plan_make(const struct hay_ask *ask, struct arena *a, struct hay_plan *plan)
{
    assert(ask->e->years > 0 && ask->e->days > 0);
    assert(ask->e->animals == ask->h->animals);
    const struct ensemble *e = ask->e;
    struct ensemble given;
    struct work w;
    *plan = (struct hay_plan){.first = e->first,
                              .until = e->first + (date_t)e->days - 1,
                              .days = e->days,
                              .years = ask->by_table ? 0 : e->years,
                              .losses = ask->losses,
                              .doubt = ask->doubt};
    hay_stock_add_up(ask->h, ask->p, &plan->stock);
    plan->group = arena_alloc(a, ask->h->animals, sizeof *plan->group);
    double *of_year = arena_alloc(a, e->years, sizeof *of_year);
    if (!plan->group || !of_year || !find_given(ask, a, &given, plan) || !prepare(ask, &given, a, &w)) {
        return false;
    }
    for (size_t i = 0; i < ask->h->animals; i++) {
        add_group(&w, i, plan->stock.dm_pct, of_year, &plan->group[i]);
    }
    find_need(&w, of_year, plan);
    find_end(&w, plan);
    return find_left(&w, of_year, a, plan) && find_off_grass(ask, a, plan);
}
