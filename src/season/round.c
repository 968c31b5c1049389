/* The order of the round. SPDX-License-Identifier: GPL-3.0-or-later */
#include "season/round.h"

#include <assert.h>

const struct round_kind round_kinds[ROUND_REASONS] = {
    [ROUND_SIGNS_AT_ONCE] = {"signs-at-once", ROUND_NOW, "foot signs stand in the diary, and a vet is needed at once"},
    [ROUND_SIGNS_TODAY] = {"signs-today", ROUND_TODAY, "foot signs stand in the diary"},
    [ROUND_ACUTE] = {"acute", ROUND_TODAY, "an acute case is kept there"},
    [ROUND_SIGNS_LOST] = {"signs-lost", ROUND_TODAY,
                          "foot signs or the vet stand in the diary under an id that the holding does not have "
                          "(lost_signs_days), or on a day to come"},
    [ROUND_BACK_ON_GRASS] =
        {"back-on-grass", ROUND_TODAY,
         "an animal is back on grass after foot signs that the keeper ended, without the vet's word "
         "(vet cleared)"},
    [ROUND_OFF_GRASS] = {"off-grass", ROUND_TODAY, "an animal at risk is off grass today, and was not yesterday"},
    [ROUND_BRIEF] = {"brief", ROUND_TODAY, "an animal at risk has an hour at most today, and had more yesterday"},
    [ROUND_HAY_OUT] = {"hay-out", ROUND_TODAY, "1 time in 10 the hay ends in the next days (round_hay_days)"},
    [ROUND_INSULIN] = {"insulin", ROUND_WEEK, "an insulin reading stands in the diary (insulin_days)"},
    [ROUND_OFF_GRASS_AHEAD] = {"off-grass-ahead", ROUND_WEEK,
                               "an animal at risk comes off grass in the next days, by a forecast (round_ahead_days)"},
    [ROUND_BRIEF_AHEAD] = {"brief-ahead", ROUND_WEEK, "or down to an hour at most"},
    [ROUND_TIGHTER] = {"tighter", ROUND_WEEK, "otherwise less grass than yesterday (not at risk: brief or none)"},
    [ROUND_HAY_LOW] = {"hay-low", ROUND_WEEK,
                       "1 time in 10 the hay ends before hay ordered today would be there (lead_days)"},
    [ROUND_WEATHER_REFUSED] = {"weather-refused", ROUND_WEEK,
                               "no advice: the weather is too old, too short, or has a gap"},
    [ROUND_WEATHER_MISSING] = {"weather-missing", ROUND_WEEK, "no advice: there is no weather"},
    [ROUND_WEATHER_OLD] = {"weather-old", ROUND_WEEK, "the weather is some days old: provisional"},
    [ROUND_FAULT] = {"error", ROUND_MEND, "in the holding, its diary or its weather"},
};

enum round_call round_call_of(unsigned reasons)
{
    assert(reasons < 1u << ROUND_REASONS);
    for (int r = 0; r < ROUND_REASONS; r++) {
        if (reasons >> r & 1u) {
            return round_kinds[r].call;
        }
    }
    return ROUND_NOTHING;
}

unsigned round_score(unsigned reasons)
{
    assert(reasons < 1u << ROUND_REASONS);
    unsigned score = 0;
    for (int r = 0; r < ROUND_REASONS; r++) {
        score = score << 1 | (reasons >> r & 1u);
    }
    return score;
}

enum round_reason round_of_signs(enum signs_urgency u)
{
    static const enum round_reason of[] = {
        [SIGNS_GONE] = ROUND_REASONS, [SIGNS_SAME_DAY] = ROUND_SIGNS_TODAY, [SIGNS_AT_ONCE] = ROUND_SIGNS_AT_ONCE};
    return of[u];
}

/* What less grass than before means, at risk or not. */
static const enum round_reason tighter_today[2][TURNOUT_NONE + 1] = {
    {ROUND_REASONS, ROUND_REASONS, ROUND_TIGHTER, ROUND_TIGHTER},
    {ROUND_REASONS, ROUND_TIGHTER, ROUND_BRIEF, ROUND_OFF_GRASS},
};
static const enum round_reason tighter_ahead[2][TURNOUT_NONE + 1] = {
    {ROUND_REASONS, ROUND_REASONS, ROUND_REASONS, ROUND_REASONS},
    {ROUND_REASONS, ROUND_REASONS, ROUND_BRIEF_AHEAD, ROUND_OFF_GRASS_AHEAD},
};

enum round_reason round_of_today(bool at_risk, enum turnout today, enum turnout yesterday)
{
    assert(today <= TURNOUT_NONE && yesterday <= TURNOUT_NONE);
    return today > yesterday ? tighter_today[at_risk][today] : ROUND_REASONS;
}

enum round_reason round_of_ahead(bool at_risk, enum turnout coming, enum turnout today)
{
    assert(coming <= TURNOUT_NONE && today <= TURNOUT_NONE);
    return coming > today ? tighter_ahead[at_risk][coming] : ROUND_REASONS;
}

enum round_reason round_of_hay(double days, const struct params *p)
{
    if (days < p->limits.round_hay_days) {
        return ROUND_HAY_OUT;
    }
    return days < p->hay.lead_days ? ROUND_HAY_LOW : ROUND_REASONS;
}
