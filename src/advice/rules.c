/* Hard rules: they come before any sum. To add one, write when it applies and give it
 * a row. SPDX-License-Identifier: GPL-3.0-or-later */
#include "advice/rules.h"

#include <assert.h>
#include <math.h>

enum effect { OFF_GRASS, BRIEF_AT_MOST, NOT_FREE, SAY_ONLY };

static bool foot_signs(const struct advice_case *c)
{
    return c->animal->foot_signs;
}

static bool rested(const struct advice_case *c)
{
    return c->animal->rested;
}

static bool acute(const struct advice_case *c)
{
    return !c->rules->grazing;
}

static bool kept_off(const struct advice_case *c)
{
    return c->rules->max_hours <= 0.0;
}

static bool incomplete(const struct advice_case *c)
{
    return !c->complete;
}

/* Killed grass loses its sugar at a rate nobody measured; the advice to wait a week
 * is extension advice, what waiting means for whom is our judgement. */
static bool frost(const struct advice_case *c)
{
    return c->day->days_since_killing_frost <= c->limits->killing_frost_days;
}

static bool frost_at_risk(const struct advice_case *c)
{
    return frost(c) && c->rules->level_probability >= c->limits->at_risk_probability;
}

static bool hay_over(const struct advice_case *c)
{
    return c->hay_over;
}

static bool hay_unknown(const struct advice_case *c)
{
    return !c->hay_known || !c->feds_known;
}

static bool hay_low_fibre(const struct advice_case *c)
{
    return c->hay_low_fibre;
}

/* Less grass and more hay is the help at hand until the bucket is cut back. */
static bool bucket_low_fibre(const struct advice_case *c)
{
    return c->bucket_low_fibre;
}

static bool fibre_unknown(const struct advice_case *c)
{
    return c->fibre_unknown;
}

static bool our_caps(const struct advice_case *c)
{
    return c->rules->caps_are_ours;
}

/* The buckets of a day taken as one meal, the cautious reading; or hay and feed over
 * the caution limit without any grass. */
static bool bucket_over(const struct advice_case *c)
{
    double starch_g_kg = c->bucket.dm_kg * c->bucket.starch_pct * 10.0 / c->weight_kg;
    double nsc_g_kg = c->bucket.dm_kg * c->bucket.nsc_pct * 10.0 / c->weight_kg;
    return starch_g_kg > c->rules->starch_meal_g_kg || starch_g_kg > c->rules->starch_day_g_kg ||
           nsc_g_kg > c->rules->bucket_nsc_meal_g_kg || advice_case_base_over(c);
}

static const struct rule {
    bool (*applies)(const struct advice_case *);
    enum advice_reason reason;
    enum effect effect;
} rules[] = {
    {bucket_over, REASON_BUCKET, SAY_ONLY}, /* before a rule takes the bucket away */
    {bucket_low_fibre, REASON_FIBRE, BRIEF_AT_MOST},
    {hay_low_fibre, REASON_FIBRE, SAY_ONLY},
    {fibre_unknown, REASON_FIBRE_UNKNOWN, SAY_ONLY},
    {our_caps, REASON_OUR_CAPS, SAY_ONLY},
    {foot_signs, REASON_FOOT_SIGNS, OFF_GRASS},
    {acute, REASON_ACUTE, OFF_GRASS},
    {rested, REASON_RESTED, OFF_GRASS},
    {kept_off, REASON_MAX_HOURS, OFF_GRASS},
    {incomplete, REASON_UNKNOWN, OFF_GRASS},
    {frost_at_risk, REASON_KILLING_FROST, BRIEF_AT_MOST},
    {frost, REASON_KILLING_FROST, NOT_FREE},
    {hay_over, REASON_HAY_OVER, NOT_FREE},
    {hay_unknown, REASON_HAY_UNKNOWN, NOT_FREE},
};

_Static_assert((int)REASON_COUNT <= 32, "a reason is a bit of an unsigned");
double advice_rules_cap(struct advice_case *c, unsigned *reasons)
{
    assert(*reasons < 1u << REASON_COUNT);
    const double most[] = {[OFF_GRASS] = 0.0,
                           [BRIEF_AT_MOST] = c->limits->brief_h,
                           [NOT_FREE] = 24.0 - (double)c->tables->step / SLOTS_HOUR,
                           [SAY_ONLY] = 24.0};
    double cap = fmin(c->rules->max_hours, 24.0);
    for (size_t i = 0; i < sizeof rules / sizeof rules[0]; i++) {
        if (rules[i].applies(c)) {
            *reasons |= 1u << rules[i].reason;
            cap = fmin(cap, most[rules[i].effect]);
        }
    }
    assert(!(cap < 0.0) && !(cap > 24.0));
    if (foot_signs(c) || acute(c)) {
        advice_case_drop_bucket(c);
    }
    return cap;
}
