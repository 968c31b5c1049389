/* The advice: rules, search, and what the day then adds up to.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "advice/advice.h"
#include "advice/rules.h"
#include "advice/search.h"

#include <assert.h>
#include <math.h>

static double hours(int length)
{
    return (double)length / SLOTS_HOUR;
}

static bool is_over_brief(const struct advice_case *c, const struct session *s)
{
    return hours(s->length) > c->limits->brief_h;
}

/* Bare where over an hour fits or all that is allowed fits; else with a muzzle where
 * the class may wear one and it gives no less. */
static struct session choose(const struct advice_case *c, double cap_h, struct advice *out)
{
    struct session bare = advice_offer(c, cap_h, false);
    out->hours_bare = hours(bare.length);
    bool all_allowed = bare.length > 0 && !bare.within_stop && hours(bare.length + c->tables->step) > cap_h;
    if (is_over_brief(c, &bare) || all_allowed || !c->rules->muzzle_offered) {
        return bare;
    }
    struct session muzzled = advice_offer(c, fmin(cap_h, c->limits->muzzle_max_h), true);
    return muzzled.length > 0 && muzzled.length >= bare.length ? muzzled : bare;
}

/* The way back to grass comes on top of what the sugar allows. */
static struct session hold_back(const struct advice_case *c, const struct session *s, struct advice *out)
{
    assert(c->animal->back.day >= 0 && c->animal->back.day <= c->animal->back.days);
    const struct way_back *back = &c->animal->back;
    if (back->day == 0) {
        return *s;
    }
    int most = (int)floor(back->most_h * SLOTS_HOUR + ADVICE_ROUNDING);
    out->reasons |= s->length > most || back->after_signs ? 1u << REASON_WAY_BACK : 0u;
    out->hours_bare = fmin(out->hours_bare, back->most_h);
    return advice_cut_short(c, s, most);
}

static enum turnout turnout_of(const struct advice_case *c, const struct session *s)
{
    assert(s->length >= 0 && s->length <= SLOTS_DAY);
    if (s->length == 0) {
        return TURNOUT_NONE;
    }
    if (s->length == SLOTS_DAY) {
        return TURNOUT_FREE;
    }
    return is_over_brief(c, s) ? TURNOUT_TIMED : TURNOUT_BRIEF;
}

static void fill_ration(const struct advice_case *c, const struct session *s, struct advice *out)
{
    double grass_kg = fmin(s->grass_kg, c->day->lasting_kg_head); /* NaN: as it is */
    struct ration_sum sum = advice_case_given(c, grass_kg, s->grass_nsc);
    out->judged_nsc_pct = advice_case_ration(c, s->grass_kg, s->grass_nsc).nsc_pct;
    out->ration = (struct ration){.grass_dm_kg = grass_kg,
                                  .lacking_dm_kg = s->grass_kg - grass_kg,
                                  .hay_dm_kg = advice_case_hay(c, grass_kg),
                                  .fed_dm_kg = c->fed_forage.dm_kg + c->bucket.dm_kg,
                                  .dm_kg = sum.dm_kg,
                                  .nsc_pct = sum.nsc_pct,
                                  .nsc_g_kg_bw = sum.nsc_g / c->weight_kg,
                                  .ndf_pct = sum.ndf_pct,
                                  .grass_nsc_pct = grass_kg > 0.0 ? s->grass_nsc / 10.0 : 0.0,
                                  .forage_pct_bw = 100.0 * sum.forage_dm_kg / c->weight_kg,
                                  .starch_meal_g_kg = 10.0 * c->bucket.dm_kg * c->bucket.starch_pct / c->weight_kg,
                                  .bucket_nsc_g_kg = 10.0 * c->bucket.dm_kg * c->bucket.nsc_pct / c->weight_kg};
    const struct feed *hay = c->animal->hay;
    assert(s->grass_kg >= 0.0 || !c->complete);
    double dm_pct = hay && !isnan(hay->dm_pct) ? hay->dm_pct : c->limits->bale_dm_pct;
    out->hay_kg = ration_as_fed(out->ration.hay_dm_kg, dm_pct);
}

/* What the next longer session would break, when rules and class allow one. */
static unsigned what_stops_it(const struct advice_case *c, const struct session *s, double cap_h, struct advice *out)
{
    int length = s->length + c->tables->step;
    double most = s->muzzle ? fmin(cap_h, c->limits->muzzle_max_h) : cap_h;
    if (hours(length) > most) {
        return 0;
    }
    struct session longer = advice_session(c, length, s->muzzle, c->caution);
    struct ration_sum sum = advice_case_ration(c, longer.grass_kg, longer.grass_nsc);
    out->longer_nsc_pct = sum.nsc_pct;
    bool over = sum.nsc_pct > c->caution && !advice_case_base_over(c);
    unsigned reasons = over ? 1u << REASON_GRASS_OVER : 0u;
    reasons |= sum.ndf_pct < c->fibre_floor ? 1u << REASON_FIBRE : 0u;
    double day_g = sum.nsc_g + advice_case_unjudged_g(c, longer.grass_kg);
    reasons |= day_g / c->weight_kg > c->ceiling_g_kg ? 1u << REASON_DAY_CEILING : 0u;
    return reasons;
}

/* Even the hour that may pass the caution limit would pass the stop limit. */
static bool is_brief_over(const struct advice_case *c, double cap_h)
{
    int length = (int)lround(fmin(c->limits->brief_h, cap_h) * SLOTS_HOUR);
    struct session s = advice_session(c, length, false, c->stop);
    return advice_case_ration(c, s.grass_kg, s.grass_nsc).nsc_pct > c->stop;
}

static unsigned reasons_of(const struct advice_case *c, const struct session *s, double cap_h, struct advice *out)
{
    if (s->length == SLOTS_DAY) {
        return 1u << REASON_GRASS_UNDER;
    }
    unsigned reasons = what_stops_it(c, s, cap_h, out);
    bool none = s->length == 0 && (reasons >> REASON_GRASS_OVER & 1u);
    reasons |= none && is_brief_over(c, cap_h) ? 1u << REASON_STOP_OVER : 0u;
    reasons |= s->within_stop ? 1u << REASON_WITHIN_STOP : 0u;
    reasons |= s->muzzle ? 1u << REASON_MUZZLE : 0u;
    bool class_cap = c->rules->max_hours < 24.0 && hours(s->length + c->tables->step) > c->rules->max_hours;
    reasons |= class_cap ? 1u << REASON_MAX_HOURS : 0u;
    return reasons;
}

static void fill_limits(const struct advice_case *c, struct advice *out)
{
    out->limit_pct = c->caution;
    out->stop_pct = c->stop;
    out->day_ceiling_g_kg = c->ceiling_g_kg;
    out->level_g_kg = c->grass.mean;
    out->hay_over = c->hay_over;
    out->hay_analysed = !isnan(c->animal->hay_nsc_pct) && !c->animal->hay_esc;
    out->hay_esc_pct = c->animal->hay_esc ? c->animal->hay_nsc_pct : (double)NAN;
    out->hay_nsc_pct = c->hay_known ? c->hay.nsc_pct : (double)NAN;
    out->hay_low_fibre = c->hay_low_fibre;
    out->bucket_low_fibre = c->bucket_low_fibre;
    out->bucket_dropped = c->bucket_dropped;
    out->hay_bounded = c->judged_hay_pct < c->hay.nsc_pct;
    out->judged_base_pct = c->base_nsc_pct;
    out->base_over = advice_case_base_over(c);
    out->base_nsc_pct = out->hay_bounded ? advice_case_given(c, 0.0, 0.0).nsc_pct : c->base_nsc_pct;
}

static void fill_session(const struct advice_case *c, const struct session *s, struct advice *out)
{
    out->turnout = turnout_of(c, s);
    out->hours = hours(s->length);
    out->muzzle = s->muzzle;
    if (s->length > 0 && s->length < SLOTS_DAY) {
        out->from_h = hours(s->start);
        out->to_h = hours(s->start + s->length);
    }
    if (!out->muzzle) {
        out->hours_bare = out->hours;
    }
}

static void decide(const struct advice_tables *tables, const struct advice_grass *grass,
                   const struct advice_animal *animal, const struct advice_limits *limits, bool with_reasons,
                   struct advice *out)
{
    struct advice_case c;
    *out = (struct advice){.longer_nsc_pct = (double)NAN};
    advice_case_make(tables, grass, animal, limits, &c);
    double cap_h = advice_rules_cap(&c, &out->reasons);
    struct session s = {0};
    if (cap_h > 0.0) {
        s = choose(&c, cap_h, out);
        s = hold_back(&c, &s, out);
        out->reasons |= with_reasons ? reasons_of(&c, &s, cap_h, out) : 0u;
    }
    assert(!(hours(s.length) > cap_h) || s.within_stop);
    fill_limits(&c, out);
    fill_session(&c, &s, out);
    fill_ration(&c, &s, out);
}

void advise_with(const struct advice_tables *tables, const struct advice_grass *grass,
                 const struct advice_animal *animal, const struct advice_limits *limits, struct advice *out)
{
    decide(tables, grass, animal, limits, true, out);
}

void advise_plainly(const struct advice_tables *tables, const struct advice_grass *grass,
                    const struct advice_animal *animal, const struct advice_limits *limits, struct advice *out)
{
    decide(tables, grass, animal, limits, false, out);
}

bool advise_any(const struct advice_tables *tables, const struct advice_grass *grass,
                const struct advice_animal *animal, const struct advice_limits *limits)
{
    struct advice_case c;
    unsigned reasons = 0;
    advice_case_make(tables, grass, animal, limits, &c);
    double cap_h = advice_rules_cap(&c, &reasons);
    return cap_h > 0.0 && (advice_offers(&c, cap_h, false) ||
                           (c.rules->muzzle_offered && advice_offers(&c, fmin(cap_h, limits->muzzle_max_h), true)));
}

void advise(const struct advice_grass *grass, const struct advice_animal *animal, const struct advice_limits *limits,
            struct advice *out)
{
    struct advice_tables tables;
    advice_tables_make(limits, &tables);
    advise_with(&tables, grass, animal, limits, out);
}
