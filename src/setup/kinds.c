/* SPDX-License-Identifier: GPL-3.0-or-later
 * The table of kinds, stages and troubles. Which class stands for whom is our judgement, after the
 * descriptions in models/animals.json. */
#include "setup/kinds.h"

#include <stddef.h>
#include <string.h>

enum { GOAT, SHEEP, PONY, HORSE, DONKEY, ALPACA, CATTLE };

const struct word_for kinds[KINDS] = {
    [GOAT] = {"goat", "does, bucks, wethers, kids"},
    [SHEEP] = {"sheep", "ewes and rams"},
    [PONY] = {"pony", "native and cob breeds and miniatures too"},
    [HORSE] = {"horse", "up to the heavy breeds"},
    [DONKEY] = {"donkey", "burros too"},
    [ALPACA] = {"alpaca", "llamas: the nearest there is"},
    [CATTLE] = {"cattle", "cows, bulls, steers"},
};

const struct word_for troubles[TROUBLES] = {
    {"laminitis", "laminitis (founder), at any time"},
    {"insulin", "the vet found an insulin trouble (EMS, insulin dysregulation)"},
    {"fat", "fat, or a hard crest on the neck: ribs cannot be felt"},
    {"ppid", "PPID (Cushing's) found or suspected"},
    {"teeth", "poor teeth: drops half-chewed feed, or is very old"},
    {"now", "lame with laminitis now, or under treatment for it"},
};

#define GROWN "grown", "neither pregnant nor milking"
#define YOUNG "young", "growing, weaned"
#define PREGNANT "pregnant", "in the last third"
#define MILKING "milking", "with young at foot, or milked"

const struct stage stages[] = {
    {GOAT, {GROWN}, "goat-dry", "goat-laminitis-history", NULL, NULL, NULL, 0, false},
    {GOAT, {YOUNG}, "goat-growing", NULL, NULL, NULL, NULL, 0, false},
    {GOAT, {PREGNANT}, "goat-late-pregnant", NULL, NULL, NULL, NULL, HISTORY_PREGNANT, false},
    {GOAT, {MILKING}, "goat-lactating", NULL, NULL, NULL, NULL, HISTORY_LACTATING, false},
    {SHEEP, {GROWN}, "sheep-dry", NULL, NULL, NULL, NULL, 0, false},
    {SHEEP, {PREGNANT}, "ewe-late-pregnant", NULL, NULL, NULL, NULL, HISTORY_PREGNANT, false},
    {SHEEP, {MILKING}, "sheep-lactating", NULL, NULL, NULL, NULL, HISTORY_LACTATING, false},
    {PONY,
     {GROWN},
     "pony",
     "equid-laminitis-history",
     "equid-laminitis-history",
     "equid-at-risk",
     "equid-acute",
     0,
     false},
    {PONY, {PREGNANT}, "mare-pregnant", NULL, NULL, NULL, "equid-acute", HISTORY_PREGNANT, false},
    {PONY, {MILKING}, "mare-lactating", NULL, NULL, NULL, "equid-acute", HISTORY_LACTATING, false},
    {HORSE,
     {GROWN},
     "horse",
     "equid-laminitis-history",
     "equid-laminitis-history",
     "equid-at-risk",
     "equid-acute",
     0,
     false},
    {HORSE, {PREGNANT}, "mare-pregnant", NULL, NULL, NULL, "equid-acute", HISTORY_PREGNANT, false},
    {HORSE, {MILKING}, "mare-lactating", NULL, NULL, NULL, "equid-acute", HISTORY_LACTATING, false},
    {DONKEY, {GROWN}, "donkey", "donkey-laminitis-history", NULL, NULL, "equid-acute", 0, false},
    {DONKEY, {PREGNANT}, "donkey", NULL, NULL, NULL, "equid-acute", HISTORY_PREGNANT, true},
    {DONKEY, {MILKING}, "donkey", NULL, NULL, NULL, "equid-acute", HISTORY_LACTATING, true},
    {ALPACA, {"grown", "of any stage"}, "alpaca", NULL, NULL, NULL, NULL, 0, false},
    {CATTLE, {"grown", "of any stage"}, "cattle", NULL, NULL, NULL, NULL, 0, false},
};
const size_t stage_count = sizeof stages / sizeof stages[0];

int kind_find(const char *answer)
{
    const char *word = params_kind_called(answer);
    for (int i = 0; word && i < KINDS; i++) {
        if (strcmp(kinds[i].word, word) == 0) {
            return i;
        }
    }
    return -1;
}

const struct stage *kind_first_stage(int kind)
{
    const struct stage *g = stages;
    while (g->kind != (unsigned)kind) {
        g++;
    }
    return g;
}

const char *trouble_what(unsigned i, int kind)
{
    return kind == GOAT && 1u << i == TROUBLE_LAMINITIS ? "laminitis (founder), or a raid on the feed room, at any time"
                                                        : troubles[i].what;
}

static unsigned as_history(unsigned trouble)
{
    return (trouble & TROUBLE_LAMINITIS ? HISTORY_LAMINITIS : 0u) | (trouble & TROUBLE_INSULIN ? HISTORY_INSULIN : 0u) |
           (trouble & TROUBLE_FAT ? HISTORY_OVERWEIGHT : 0u) | (trouble & TROUBLE_TEETH ? HISTORY_POOR_TEETH : 0u);
}

bool trouble_allowed(const struct params *p, const struct stage *g, enum trouble t)
{
    const struct animal_class *own = params_animal(p, g->own);
    struct animal_class rules;
    if (t == TROUBLE_NOW) {
        return g->acute != NULL;
    }
    if (t == TROUBLE_PPID) {
        return g->at_risk != NULL;
    }
    return own && animal_rules(p, own, as_history(t), &rules, NULL) == ERR_OK;
}

const char *stage_class(const struct stage *g, unsigned trouble, unsigned *history)
{
    const struct {
        unsigned bits;
        const char *class;
    } by[] = {{TROUBLE_NOW, g->acute},
              {TROUBLE_LAMINITIS, g->laminitic},
              {TROUBLE_INSULIN, g->insulin},
              {TROUBLE_FAT | TROUBLE_PPID, g->at_risk}};
    const char *class = g->own;
    for (size_t i = sizeof by / sizeof by[0]; i-- > 0;) {
        class = by[i].class && (trouble & by[i].bits) ? by[i].class : class;
    }
    *history = as_history(trouble) | (class != g->own || g->always ? g->history : 0u);
    return class;
}

unsigned trouble_had(const char *class, unsigned history)
{
    unsigned had =
        (history & HISTORY_LAMINITIS ? TROUBLE_LAMINITIS : 0u) | (history & HISTORY_INSULIN ? TROUBLE_INSULIN : 0u) |
        (history & HISTORY_OVERWEIGHT ? TROUBLE_FAT : 0u) | (history & HISTORY_POOR_TEETH ? TROUBLE_TEETH : 0u);
    for (size_t i = 0; i < stage_count; i++) {
        const struct stage *g = &stages[i];
        bool insulin = had & TROUBLE_INSULIN;
        had |= g->laminitic && strcmp(class, g->laminitic) == 0 && !insulin ? TROUBLE_LAMINITIS : 0u;
        had |= g->at_risk && strcmp(class, g->at_risk) == 0 && !(had & TROUBLE_FAT) ? TROUBLE_PPID : 0u;
        had |= g->acute && strcmp(class, g->acute) == 0 ? TROUBLE_NOW : 0u;
    }
    return had;
}
