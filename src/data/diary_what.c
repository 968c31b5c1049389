/* What may stand in the diary: to add a kind, give it a value in enum diary_what and a
 * row here. Ranges are those of living grass, hay and animals, wide (our judgement):
 * they catch slips. SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/diary.h"

#include "base/units.h"

#include <assert.h>
#include <string.h>

#define GRAMS                                                                                                          \
    {                                                                                                                  \
        {"g/kg", 1, 30, 600}, {"%", 10, 3, 60},                                                                        \
    }

#define TUNE "It is one test of this paddock: \"sugarlea tune\" can fit the paddock to its tests."

const char *const diary_subject_names[] = {"paddock", "animal group", "hay"};

const struct diary_kind diary_kinds[DIARY_WHATS] = {
    [DIARY_GRASS_NSC] = {"grass-nsc", DIARY_OF_PADDOCK, .unit = GRAMS, .what = "test of the grass: WSC and starch",
                         .next = TUNE},
    [DIARY_GRASS_WSC] = {"grass-wsc", DIARY_OF_PADDOCK, .unit = GRAMS, .what = "test of the grass: WSC", .next = TUNE},
    [DIARY_GRASS_ESC] = {"grass-esc", DIARY_OF_PADDOCK, .unit = GRAMS,
                         .what = "test of the grass: ESC, most fructan left out",
                         .next =
                             "ESC leaves out most of the fructan and does not say the sugar by itself; it is kept."},
    [DIARY_GRASS_STARCH] = {"grass-starch", DIARY_OF_PADDOCK, .unit = {{"g/kg", 1, 0, 400}, {"%", 10, 0, 40}},
                            .what = "test of the grass: starch alone", .next = "It is kept beside the tests of WSC."},
    [DIARY_SWARD_HEIGHT] = {"sward-height", DIARY_OF_PADDOCK,
                            .unit = {{"cm", 1, 1, 150}, {"in", UNITS_CM_OF_INCH, 0.4, 60}},
                            .what = "height of the grass by ruler",
                            .next = "From that morning on the paddock's cover goes most of the way to it."},
    [DIARY_PLATE_HEIGHT] = {"plate-height", DIARY_OF_PADDOCK, .unit = {{"cm", 1, 1, 60}, {"clicks", 0.5, 2, 120}},
                            .what = "height of the grass under a plate meter",
                            .next = "From that morning on the paddock's cover goes most of the way to it."},
    [DIARY_GRAZED] = {"grazed", DIARY_OF_PADDOCK, .bare = true, .unit_needed = true,
                      .unit = {{"cm", 1, 2, 60}, {"in", UNITS_CM_OF_INCH, 0.8, 24}, {"kg/ha", 1, 400, 8000}},
                      .what = "animals are on it from that day; the height it is kept at",
                      .next = "From that evening on it counts as grazed, until another entry says otherwise."},
    [DIARY_CUT] = {"cut", DIARY_OF_PADDOCK, .bare = true, .unit = {{"cm", 1, 2, 30}, {"in", UNITS_CM_OF_INCH, 0.8, 12}},
                   .what = "mown that day; the stubble left", .next = "That evening it counts as mown."},
    [DIARY_RESTED] = {"rested", DIARY_OF_PADDOCK, .bare = true, .what = "no animal on it from that day",
                      .next = "From that evening on it counts as rested, until another entry says otherwise. Its "
                              "animals count as off grass, where turnout does not say otherwise."},
    [DIARY_TURNOUT] =
        {"turnout", DIARY_OF_GROUP, .unit = {{"h", 1, 0, 24}}, .what = "hours on grass that day, 0 when kept in",
         .next = "After days off grass the hours grow a little each day; for that, these entries count before what "
                 "was advised."},
    [DIARY_HAY_FED] = {"hay-fed", DIARY_OF_GROUP, .unit_needed = true,
                       .unit = {{"kg", 1, 0, 1e5}, {"bales", 1, 0, 1e4}, {"lb", UNITS_KG_OF_LB, 0, 2e5}},
                       .what = "hay given that day to the whole group, as fed", .next = "It is kept."},
    [DIARY_HAY_BOUGHT] = {"hay-bought", DIARY_OF_LOT, .unit_needed = true,
                          .unit = {{"kg", 1, 0, 1e6}, {"bales", 1, 0, 1e5}, {"lb", UNITS_KG_OF_LB, 0, 2e6}},
                          .what = "hay that came in, as fed", .next = "It is kept."},
    [DIARY_HAY_TEST] =
        {"hay-test", DIARY_OF_LOT, .unit = {{"%", 1, 1, 60}, {"g/kg", 0.1, 10, 600}},
         .what = "test of the hay: WSC and starch, of dry matter",
         .next = "It is kept, and the advice reminds of it; it reckons with it once nsc_percent of that hay says "
                 "so in the holding file."},
    [DIARY_WEIGHT] =
        {"weight", DIARY_OF_GROUP, .unit = {{"kg", 1, 1, 2000}, {"lb", UNITS_KG_OF_LB, 2, 4400}},
         .what = "weight of one animal",
         .next = "From that morning on it is the weight that all is reckoned with, in the place of that in the "
                 "holding file, until a newer one."},
    [DIARY_GIRTH] =
        {"girth", DIARY_OF_GROUP, .unit = {{"cm", 1, 20, 300}, {"in", UNITS_CM_OF_INCH, 8, 120}},
         .what = "round the chest behind the elbow",
         .next = "Where the holding file has length_cm of the group, this and that make its weight from then on. A "
                 "tape can be a tenth out."},
    [DIARY_CONDITION] = {"condition", DIARY_OF_GROUP, .unit_needed = true, .unit = {{"/9", 1, 1, 9}, {"/5", 1, 0, 5}},
                         .what = "body condition, such as 6/9 or 3/5", .next = "It is kept."},
    [DIARY_INSULIN] = {"insulin", DIARY_OF_GROUP, .unit = {{"uIU/ml", 1, 0.1, 2000}, {"mIU/l", 1, 0.1, 2000}},
                       .what = "insulin in the blood, as the laboratory says", .next = "It is kept for the vet."},
    [DIARY_FOOT_SIGNS] = {"foot-signs", DIARY_OF_GROUP,
                          .word = {"none", "shifting-weight", "kneeling", "reluctant", "hot-feet", "tooth-grinding",
                                   "leaning-back", "lying-more", "will-not-move", "off-feed", "bounding-pulse"},
                          .what = "one or more, or none when they are gone", .next = NULL},
    [DIARY_VET] = {"vet", DIARY_OF_GROUP, .word = {"called", "visited", "cleared"},
                   .what = "called, visited, or cleared when the vet says that it is over", .next = "It is kept."},
};

_Static_assert((int)DIARY_WORDS <= 32, "a word is a bit of an unsigned");
const struct diary_kind *diary_kind_of(const char *name, struct err *e)
{
    assert(name != NULL);
    const char *known[DIARY_WHATS];
    char all[LIMIT_TEXT] = "";
    for (size_t i = 0; i < DIARY_WHATS; i++) {
        known[i] = diary_kinds[i].name;
        strncat(all, i ? ", " : "", sizeof all - strlen(all) - 1);
        strncat(all, known[i], sizeof all - strlen(all) - 1);
        if (strcmp(name, known[i]) == 0) {
            return &diary_kinds[i];
        }
    }
    const char *near = err_did_you_mean(name, known, DIARY_WHATS);
    if (near) {
        err_set(e, ERR_DATA, "\"%.40s\" is nothing that the diary knows; did you mean \"%s\"?", name, near);
    } else {
        err_set(e, ERR_DATA, "\"%.40s\" is nothing that the diary knows; it knows %s", name, all);
    }
    err_at(e, NULL, 0, 0, "what");
    return NULL;
}

const struct diary_entry *diary_latest(const struct diary_entry *entry, size_t n, enum diary_what what, size_t subject)
{
    assert(what < DIARY_WHATS);
    while (n > 0 && (entry[n - 1].what != what || entry[n - 1].subject != subject)) {
        n--;
    }
    return n > 0 ? &entry[n - 1] : NULL;
}

bool diary_tells_of_signs(const struct diary_entry *e)
{
    return e->what == DIARY_FOOT_SIGNS || e->what == DIARY_VET;
}

bool diary_ends_signs(const struct diary_entry *e)
{
    return (e->what == DIARY_VET && (e->words & VET_CLEARED)) || (e->what == DIARY_FOOT_SIGNS && e->words == SIGN_NONE);
}
