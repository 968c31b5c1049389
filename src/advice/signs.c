/* How soon, and what until then. SPDX-License-Identifier: GPL-3.0-or-later */
#include "advice/signs.h"

#include <assert.h>
#include <stddef.h>

static bool will_not_move(unsigned words, const struct animal_class *rules)
{
    (void)rules;
    return (words & SIGN_WILL_NOT_MOVE) != 0;
}

/* Donkeys, ponies, and whatever is in foal, in kid or milking, die of fat let loose when they stop eating. */
static bool stopped_eating(unsigned words, const struct animal_class *rules)
{
    return (words & SIGN_OFF_FEED) && (rules->species == SPECIES_EQUID || rules->evidence_no_slimming);
}

enum signs_urgency signs_urgency(unsigned words, const struct animal_class *rules, bool others)
{
    assert(rules->species < SPECIES_COUNT);
    static bool (*const at_once[])(unsigned, const struct animal_class *) = {will_not_move, stopped_eating};
    if ((words & ~(unsigned)SIGN_NONE) == 0) {
        return rules->grazing ? SIGNS_GONE : SIGNS_SAME_DAY;
    }
    for (size_t i = 0; i < sizeof at_once / sizeof at_once[0]; i++) {
        if (at_once[i](words, rules)) {
            return SIGNS_AT_ONCE;
        }
    }
    return others ? SIGNS_AT_ONCE : SIGNS_SAME_DAY;
}

const char *signs_call(enum signs_urgency u)
{
    static const char *const call[] = {
        [SIGNS_GONE] = "", [SIGNS_SAME_DAY] = "Ring the vet today.", [SIGNS_AT_ONCE] = "Ring the vet at once."};
    return call[u];
}

const char signs_others[] = " (Signs in more than one group.)";

const char *const signs_actions[SIGNS_ACTIONS] = {
    "Off grass now. Grain and buckets away, clean water in reach.",
    "A deep, soft bed. Let it lie or stand as it likes.",
    "Plain mature hay. Never starve it.",
    "Do not walk it: the shortest, softest way, with a trailer where one is needed.",
    "Write down temperature, pulse, breathing and the time. No medicine but what the vet gives for this animal.",
    "Cold on the feet: the vet says. Horses early, without a break; for goats nobody knows.",
};

enum { GOATS_AND_SHEEP = 1u << SPECIES_GOAT | 1u << SPECIES_SHEEP };

const struct signs_check signs_checks[SIGNS_CHECKS] = {
    {"walks freely on hard ground and in a turn; not stiff, short or on its heels", NULL, 0},
    {"willing to walk", "reluctant", 0},
    {"stands on all four; no shifting from foot to foot", "shifting-weight", 0},
    {"does not lean back off its fore feet", "leaning-back", 0},
    {"goats, sheep: not on the knees to graze or to move", "kneeling", GOATS_AND_SHEEP},
    {"goats, sheep: no grinding of teeth, not hunched", "tooth-grinding", GOATS_AND_SHEEP},
    {"lies no more than usual", "lying-more", 0},
    {"just below the coronet no warmer than at the toe", "hot-feet", 0},
    {"horses, ponies, donkeys: no bounding pulse at the fetlock", "bounding-pulse", 1u << SPECIES_EQUID},
    {"eats, chews the cud, dungs; left side not swollen", "off-feed", 0},
    {"gets up and moves", "will-not-move", 0},
    {"now and then: rings or a stretched white line in the hoof, long toes, crest and fat pads", NULL, 0},
};

const char signs_alike[] = "Foot rot, an abscess, long hooves and arthritis look alike: the vet tells them apart.";

const char *const signs_same_day[SIGNS_SAME_DAY_CASES] = {
    "any of these signs, or new soreness of the feet, in an animal at risk",
    "a goat on its knees, or one that does not eat",
    "any animal that got at grain, even if it looks well",
};

const char *const signs_at_once[SIGNS_AT_ONCE_CASES] = {
    "it will not move or rise; bloat or a swollen left side; scour with staggering",
    "a donkey, a pony, or an animal late in pregnancy that does not eat",
    "signs in several animals; afterbirth kept back or womb disease lately",
    "temperature outside of the usual (horse 37.2 to 38.3 C, 99 to 101 F; donkey 36.5 to 37.8, 98 to 100; "
    "goat 38.6 to 40.0, 101 to 104; sheep 38.5 to 39.9, 101 to 104), or at rest a pulse over 60 (horse) or 110 (goat)",
};
