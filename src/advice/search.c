/* Tries session lengths from the longest down. SPDX-License-Identifier: GPL-3.0-or-later */
#include "advice/search.h"

#include <assert.h>
#include <math.h>

static double intake_factor(const struct advice_case *c, bool muzzle)
{
    return muzzle ? intake_muzzle_factor(c->limits, c->weight_kg) : 1.0;
}

/* The highest grass NSC, g/kg, that the day bears with so much grass: by the share
 * of the ration and by the ceiling in g per kg body weight. -infinity when nothing
 * helps, as when fibre fails. */
static double room_for(const struct advice_case *c, double grass_kg, double limit_pct)
{
    struct ration_sum rest = advice_case_ration(c, grass_kg, 0.0);
    if (rest.ndf_pct < c->fibre_floor) {
        return -HUGE_VAL;
    }
    double left_g = limit_pct * rest.dm_kg * 10.0 - rest.nsc_g;
    if (!isnan(c->ceiling_g_kg)) {
        left_g = fmin(left_g, c->ceiling_g_kg * c->weight_kg - rest.nsc_g - advice_case_unjudged_g(c, grass_kg));
    }
    left_g += ADVICE_ROUNDING;
    if (grass_kg > 0.0) {
        return left_g / grass_kg;
    }
    return left_g >= 0.0 ? HUGE_VAL : -HUGE_VAL;
}

/* Fills in the best window; with cheap, only when the bounds do not rule it out. */
static bool fits(const struct advice_case *c, double limit_pct, bool cheap, struct session *s)
{
    double room = room_for(c, s->grass_kg, limit_pct);
    s->start = 0;
    s->grass_nsc = c->grass.mean;
    if (s->length == SLOTS_DAY) {
        return c->grass.mean <= room;
    }
    if (cheap && (c->grass.lowest > room || session_lower_bound(c->tables, &c->grass, s->length) > room)) {
        return false;
    }
    struct ration_sum whole = advice_case_ration(c, s->grass_kg, 0.0);
    double tie = c->limits->window_tie_pct * 10.0 * whole.dm_kg / s->grass_kg;
    s->start = session_best(c->tables, &c->grass, s->length, c->dawn, tie, room, &s->grass_nsc);
    return s->start >= 0 && s->grass_nsc <= room;
}

static struct session of_length(const struct advice_case *c, int length, bool muzzle)
{
    return (struct session){
        .length = length, .muzzle = muzzle, .grass_kg = advice_case_grass(c, length, intake_factor(c, muzzle))};
}

struct session advice_session(const struct advice_case *c, int length, bool muzzle, double limit_pct)
{
    assert(length <= SLOTS_DAY);
    struct session s = of_length(c, length, muzzle);
    fits(c, limit_pct, false, &s);
    return s;
}

struct session advice_longest(const struct advice_case *c, double cap_h, bool muzzle)
{
    assert(!(cap_h > 24.0));
    int step = c->tables->step;
    int most = (int)floor(cap_h * SLOTS_HOUR + ADVICE_ROUNDING);
    for (int length = most - most % step; length > 0; length -= step) {
        struct session s = of_length(c, length, muzzle);
        if (fits(c, c->caution, true, &s)) {
            return s;
        }
    }
    return (struct session){.muzzle = muzzle};
}

/* The brief session, which needs to keep within stop only. */
static bool fits_brief(const struct advice_case *c, double cap_h, bool muzzle, int longer_than, struct session *s)
{
    int brief = (int)lround(fmin(c->limits->brief_h, cap_h) * SLOTS_HOUR);
    if (brief <= longer_than) {
        return false;
    }
    *s = of_length(c, brief, muzzle);
    s->within_stop = true;
    return fits(c, c->stop, true, s);
}

struct session advice_offer(const struct advice_case *c, double cap_h, bool muzzle)
{
    struct session longest = advice_longest(c, cap_h, muzzle), brief;
    return fits_brief(c, cap_h, muzzle, longest.length, &brief) ? brief : longest;
}

bool advice_offers(const struct advice_case *c, double cap_h, bool muzzle)
{
    struct session brief;
    return fits_brief(c, cap_h, muzzle, 0, &brief) || advice_longest(c, cap_h, muzzle).length > 0;
}

struct session advice_cut_short(const struct advice_case *c, const struct session *s, int most)
{
    assert(most >= 0);
    enum { STEP = SLOTS_HOUR / 4 }; /* schedules rise by quarters of an hour, or by less */
    if (s->length <= most) {
        return *s;
    }
    for (int length = most; length > 0; length -= STEP) {
        struct session shorter = of_length(c, length, s->muzzle);
        if (fits(c, c->caution, true, &shorter)) {
            return shorter;
        }
        shorter.within_stop = s->within_stop;
        if (s->within_stop && fits(c, c->stop, true, &shorter)) {
            return shorter;
        }
    }
    return (struct session){0};
}
