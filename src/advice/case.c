/* Makes one animal on one day ready for the search; see case.h.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "advice/case.h"

#include <assert.h>
#include <gsl/gsl_cdf.h>
#include <math.h>

static double known_or(double x, double otherwise)
{
    return isnan(x) ? otherwise : x;
}

/* Adds one feed to the running sum of its kind, contents weighted by DM. */
static void add_feed(struct ration_item *sum, const struct ration_item *feed)
{
    assert(feed->is_forage == sum->is_forage);
    if (feed->dm_kg == 0.0) {
        return;
    }
    struct ration_sum both = ration_add_up((const struct ration_item[]){*sum, *feed}, 2);
    sum->dm_kg = both.dm_kg;
    sum->nsc_pct = both.nsc_pct;
    sum->starch_pct = both.starch_g / 10.0 / both.dm_kg;
    sum->ndf_pct = both.ndf_pct;
}

static void sum_feeds(struct advice_case *c)
{
    const struct advice_limits *l = c->limits;
    c->fed_forage = (struct ration_item){.is_forage = true};
    c->bucket = (struct ration_item){0};
    c->feds_known = c->feds_weighed = true;
    for (size_t i = 0; i < c->animal->feds; i++) {
        const struct feed *f = c->animal->fed[i].feed;
        double kg = c->animal->fed[i].kg;
        struct ration_item item = ration_of_feed(f, kg, c->rules->nsc_caution_pct, l);
        c->feds_weighed = c->feds_weighed && kg >= 0.0;
        c->feds_known = c->feds_known && !isnan(feed_nsc(f, l->grass_starch_pct));
        add_feed(f->is_forage ? &c->fed_forage : &c->bucket, &item);
    }
}

void advice_give_hay(struct advice_animal *a, const struct hay_lot *lot)
{
    a->hay = &lot->contents;
    a->hay_nsc_pct = lot->nsc_pct;
    a->hay_esc = hay_lot_is_esc(lot);
    a->hay_soaked = !isnan(lot->soaked_h);
}

double advice_hay_nsc(const struct advice_animal *a, const struct advice_limits *l)
{
    double table = a->hay ? feed_nsc(a->hay, l->grass_starch_pct) : (double)NAN;
    if (!a->hay_esc) {
        return known_or(a->hay_nsc_pct, table);
    }
    return isnan(table) ? table : fmax(a->hay_nsc_pct, table);
}

static void describe_hay(struct advice_case *c)
{
    const struct feed *f = c->animal->hay;
    double nsc = advice_hay_nsc(c->animal, c->limits);
    c->hay_known = !isnan(nsc);
    /* of a hay known to nobody an ESC + starch figure is the least it holds: fmax passes over NaN */
    c->hay = (struct ration_item){.nsc_pct = known_or(nsc, fmax(c->rules->nsc_caution_pct, c->animal->hay_nsc_pct)),
                                  .starch_pct = f ? feed_starch(f, c->limits->grass_starch_pct) : (double)NAN,
                                  .ndf_pct = f ? f->ndf_pct : (double)NAN,
                                  .is_forage = true};
}

static void set_limits(struct advice_case *c)
{
    const struct animal_class *r = c->rules;
    c->hay_over = c->hay.nsc_pct > r->nsc_caution_pct;
    c->caution = fmax(r->nsc_caution_pct, fmin(c->hay.nsc_pct, c->limits->usual_hay_nsc_pct));
    c->judged_hay_pct = fmin(c->hay.nsc_pct, c->caution);
    c->stop = c->caution + (r->nsc_stop_pct - r->nsc_caution_pct);
    c->ceiling_g_kg = r->species == SPECIES_EQUID ? c->limits->equid_nsc_day_g_kg : (double)NAN;
}

/* The fibre floor limits grazing only where grazing can be blamed: not when a figure
 * is missing, and not when hay and feed are under it without a blade of grass. The
 * feeds know no ADF: a floor in ADF is said and never judged. */
static void set_fibre(struct advice_case *c)
{
    double floor = c->rules->min_ndf_pct;
    double bucket_kg = c->bucket.dm_kg;
    bool fails = advice_case_ration(c, 0.0, 0.0).ndf_pct < floor;
    c->bucket.dm_kg = 0.0;
    double forage_ndf = advice_case_ration(c, 0.0, 0.0).ndf_pct;
    c->bucket.dm_kg = bucket_kg;
    c->hay_low_fibre = forage_ndf < floor;
    c->bucket_low_fibre = fails && !c->hay_low_fibre;
    bool unknown = isnan(forage_ndf) || (bucket_kg > 0.0 && isnan(c->bucket.ndf_pct));
    c->fibre_unknown = isnan(floor) ? !isnan(c->rules->min_adf_pct) : unknown;
    c->fibre_floor = c->fibre_unknown || fails || c->hay_low_fibre ? (double)NAN : floor;
}

static bool is_complete(const struct advice_case *c)
{
    const struct animal_class *r = c->rules;
    double sum = c->grass.mean + c->day_kg + r->nsc_caution_pct + r->nsc_stop_pct + r->min_forage_pct;
    return isfinite(sum) && c->feds_weighed && c->grass.lowest >= 0.0 && c->day->ln_sd >= 0.0 && c->day_kg > 0.0;
}

void advice_case_make(const struct advice_tables *t, const struct advice_grass *grass,
                      const struct advice_animal *animal, const struct advice_limits *limits, struct advice_case *c)
{
    assert(animal->rules != NULL);
    *c = (struct advice_case){.tables = t, .day = grass, .animal = animal, .rules = animal->rules, .limits = limits};
    double z = gsl_cdf_ugaussian_Pinv(c->rules->level_probability);
    session_grass_make(grass->nsc, exp(z * grass->ln_sd), &c->grass);
    c->weight_kg = known_or(animal->weight_kg, c->rules->weight_kg);
    c->day_kg = intake_day(c->rules, c->weight_kg);
    c->dawn = grass->dawn_h > 0.0 && grass->dawn_h < 24.0 ? (int)lround(grass->dawn_h * SLOTS_HOUR) : SLOTS_DAY / 4;
    assert(c->dawn >= 0 && c->dawn <= SLOTS_DAY);
    sum_feeds(c);
    describe_hay(c);
    set_limits(c);
    set_fibre(c);
    c->base_nsc_pct = advice_case_ration(c, 0.0, 0.0).nsc_pct;
    c->complete = is_complete(c);
}

bool advice_case_base_over(const struct advice_case *c)
{
    return c->base_nsc_pct > c->caution + ADVICE_ROUNDING;
}

void advice_case_drop_bucket(struct advice_case *c)
{
    c->bucket_dropped = c->bucket.dm_kg > 0.0;
    c->bucket.dm_kg = 0.0;
}

double advice_case_grass(const struct advice_case *c, int length, double factor)
{
    assert(length >= 0 && length <= SLOTS_DAY);
    double wanted = factor * (c->day_kg * c->tables->intake[length]);
    return fmin(wanted, fmax(known_or(c->day->available_kg_head, HUGE_VAL), 0.0));
}

double advice_case_hay(const struct advice_case *c, double grass_kg)
{
    double floor_kg = c->rules->min_forage_pct / 100.0 * c->weight_kg;
    double forage = grass_kg + c->fed_forage.dm_kg;
    double to_day = c->day_kg - forage - c->bucket.dm_kg;
    return fmax(fmax(to_day, floor_kg - forage), 0.0);
}

double advice_case_unjudged_g(const struct advice_case *c, double grass_kg)
{
    return c->judged_hay_pct < c->hay.nsc_pct
               ? 10.0 * (c->hay.nsc_pct - c->judged_hay_pct) * advice_case_hay(c, grass_kg)
               : 0.0;
}

static struct ration_sum ration_with(const struct advice_case *c, double grass_kg, double grass_nsc, double hay_nsc_pct)
{
    struct ration_item item[] = {{.dm_kg = grass_kg,
                                  .nsc_pct = grass_nsc / 10.0,
                                  .starch_pct = known_or(c->day->starch_pct, c->limits->grass_starch_pct),
                                  .ndf_pct = known_or(c->day->ndf_pct, c->limits->grass_ndf_pct),
                                  .is_forage = true},
                                 c->hay,
                                 c->fed_forage,
                                 c->bucket};
    item[1].dm_kg = advice_case_hay(c, grass_kg);
    item[1].nsc_pct = hay_nsc_pct;
    return ration_add_up(item, sizeof item / sizeof item[0]);
}

struct ration_sum advice_case_ration(const struct advice_case *c, double grass_kg, double grass_nsc)
{
    return ration_with(c, grass_kg, grass_nsc, c->judged_hay_pct);
}

struct ration_sum advice_case_given(const struct advice_case *c, double grass_kg, double grass_nsc)
{
    return ration_with(c, grass_kg, grass_nsc, c->hay.nsc_pct);
}
