/* From what a keeper knows of an animal to its class and history.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUGARLEA_SETUP_KINDS_H
#define SUGARLEA_SETUP_KINDS_H

#include "data/params.h"

enum { KINDS = 7, TROUBLES = 6 };

enum trouble { /* bits */
               TROUBLE_LAMINITIS = 1,
               TROUBLE_INSULIN = 2,
               TROUBLE_FAT = 4,
               TROUBLE_PPID = 8,
               TROUBLE_TEETH = 16,
               TROUBLE_NOW = 32
};

struct word_for { /* what it is called in the questions, and more of it */
    const char *word, *what;
};

extern const struct word_for kinds[KINDS];       /* goat, sheep, pony, ... */
extern const struct word_for troubles[TROUBLES]; /* in the order of the bits */

/* A stage of life of a kind; the classes that stand for it, by what the animal has had (NULL: the
 * stage's own, with the trouble as history). */
struct stage {
    unsigned kind; /* index of kinds */
    struct word_for name;
    const char *own, *laminitic, *insulin, *at_risk, *acute;
    unsigned history; /* what the stage itself is as history, where another class takes its place */
    bool always;      /* the stage has no class of its own: history says it always */
};

extern const struct stage stages[];
extern const size_t stage_count;

/* The kind by its word, its plural, or what keepers call such an animal ("cow"); -1 none. */
int kind_find(const char *answer);

const struct stage *kind_first_stage(int kind);

/* What the trouble of that bit's number is, told to who keeps that kind. */
const char *trouble_what(unsigned i, int kind);

/* May the animal of that stage have the trouble, as far as there are rules for it? */
bool trouble_allowed(const struct params *p, const struct stage *g, enum trouble t);

/* Class (static) and history bits of an animal. */
const char *stage_class(const struct stage *g, unsigned trouble, unsigned *history);

/* The other way: what an animal of that class and history has had. */
unsigned trouble_had(const char *class, unsigned history);

#endif
