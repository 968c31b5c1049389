/* Which of many holdings is rung first, and why. Pure.
 *
 * The rule is one table (round.c): the reasons in their order, each with when to ring for it.
 * A holding is rung for its most urgent reason. Of two holdings the one with the more urgent
 * reason comes first; where that is the same, the one with the more urgent second reason, and
 * so on (round_score); then the one whose date comes first, then by name and path.
 * Thresholds: models/limits.json (round_...) and hay-limits.json (lead_days).
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_ROUND_H
#define SUGARLEA_ROUND_H

#include "advice/signs.h"
#include "season/run.h"

enum round_reason { /* the most urgent first */
                    ROUND_SIGNS_AT_ONCE,
                    ROUND_SIGNS_TODAY,
                    ROUND_ACUTE,         /* a class that does not graze */
                    ROUND_SIGNS_LOST,    /* written down for no animal that the holding has */
                    ROUND_BACK_ON_GRASS, /* after signs that the keeper ended, without the vet's word */
                    ROUND_OFF_GRASS,     /* at risk: off grass today, and not yesterday */
                    ROUND_BRIEF,         /* at risk: an hour at most today, and more yesterday */
                    ROUND_HAY_OUT,       /* within round_hay_days */
                    ROUND_INSULIN,       /* a reading that today tells of */
                    ROUND_OFF_GRASS_AHEAD,
                    ROUND_BRIEF_AHEAD,     /* at risk: by the forecast, and more today */
                    ROUND_TIGHTER,         /* otherwise less grass than yesterday */
                    ROUND_HAY_LOW,         /* within the lead time of buying some */
                    ROUND_WEATHER_REFUSED, /* no advice on it */
                    ROUND_WEATHER_MISSING, /* there is none */
                    ROUND_WEATHER_OLD,     /* the advice is provisional */
                    ROUND_FAULT,           /* in the holding, its diary or its weather */
                    ROUND_REASONS
};

enum round_call { ROUND_NOW, ROUND_TODAY, ROUND_WEEK, ROUND_NOTHING, ROUND_MEND, ROUND_CALLS };

struct round_kind {
    const char *id;
    enum round_call call;
    const char *what; /* for the help */
};
extern const struct round_kind round_kinds[ROUND_REASONS];

/* Sets of reasons: bit 1 << reason. */
static inline unsigned round_bit(enum round_reason r)
{
    return 1u << r;
}

/* When to ring for these reasons: as the most urgent of them says. */
enum round_call round_call_of(unsigned reasons);

/* Higher is more urgent: each reason outweighs all that come after it together. */
unsigned round_score(unsigned reasons);

/* The reason that lies in something; ROUND_REASONS: none. */
enum round_reason round_of_signs(enum signs_urgency u);

/* In today's turnout after yesterday morning's. */
enum round_reason round_of_today(bool at_risk, enum turnout today, enum turnout yesterday);

/* In the turnout of a day to come. */
enum round_reason round_of_ahead(bool at_risk, enum turnout coming, enum turnout today);

/* In hay that runs out after so many days (1 year or case in 10, NaN: it does not, as far as is reckoned). */
enum round_reason round_of_hay(double days, const struct params *p);

#endif
