/* Things by their id, and the sentence for an id that is none of them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/params.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>

/* The row of a table of structs whose id is `id`; NULL when there is none. */
static const void *find(const void *rows, size_t n, size_t row_size, size_t id_offset, const char *id)
{
    assert(id_offset < row_size);
    const char *row = rows;
    for (size_t i = 0; i < n; i++, row += row_size) {
        if (strcmp(row + id_offset, id) == 0) {
            return row;
        }
    }
    return NULL;
}

const struct grass *params_grass(const struct params *p, const char *id)
{
    return find(p->grass, p->grasses, sizeof *p->grass, offsetof(struct grass, id), id);
}

const struct soil *params_soil(const struct params *p, const char *id)
{
    return find(p->soil, p->soils, sizeof *p->soil, offsetof(struct soil, id), id);
}

const struct animal_class *params_animal(const struct params *p, const char *id)
{
    return find(p->animal, p->animals, sizeof *p->animal, offsetof(struct animal_class, id), id);
}

const struct feed *params_feed(const struct params *p, const char *id)
{
    return find(p->feed, p->feeds, sizeof *p->feed, offsetof(struct feed, id), id);
}

const struct hay_loss *params_loss(const struct params *p, enum hay_loss_kind kind, const char *id)
{
    const struct hay_loss *loss = find(p->loss, p->losses, sizeof *p->loss, offsetof(struct hay_loss, id), id);
    return loss && loss->kind == kind ? loss : NULL;
}

enum { NAMES_MOST = 256, ROOM_FOR_SENTENCE = 140 };

/* The ids that a keeper may have meant: no storage loss for a feeder, no oats for hay. */
static size_t names(const struct params *p, enum params_thing thing, const char *name[NAMES_MOST])
{
    assert(thing <= PARAMS_HAY);
    const struct {
        const void *rows;
        size_t n, row_size, id_offset;
    } tables[] = {
        [PARAMS_GRASS] = {p->grass, p->grasses, sizeof *p->grass, offsetof(struct grass, id)},
        [PARAMS_SOIL] = {p->soil, p->soils, sizeof *p->soil, offsetof(struct soil, id)},
        [PARAMS_ANIMAL] = {p->animal, p->animals, sizeof *p->animal, offsetof(struct animal_class, id)},
        [PARAMS_FEED] = {p->feed, p->feeds, sizeof *p->feed, offsetof(struct feed, id)},
        [PARAMS_STORE] = {p->loss, p->losses, sizeof *p->loss, offsetof(struct hay_loss, id)},
        [PARAMS_FEEDER] = {p->loss, p->losses, sizeof *p->loss, offsetof(struct hay_loss, id)},
        [PARAMS_HAY] = {p->feed, p->feeds, sizeof *p->feed, offsetof(struct feed, id)},
    };
    size_t n = 0;
    for (size_t i = 0; i < tables[thing].n && n < NAMES_MOST; i++) {
        bool meant = thing == PARAMS_STORE    ? p->loss[i].kind == HAY_LOSS_STORAGE
                     : thing == PARAMS_FEEDER ? p->loss[i].kind == HAY_LOSS_FEEDING
                     : thing == PARAMS_HAY    ? p->feed[i].may_be_hay
                                              : true;
        name[n] = (const char *)tables[thing].rows + i * tables[thing].row_size + tables[thing].id_offset;
        n += meant;
        assert(n <= NAMES_MOST);
    }
    return n;
}

/* What keepers call an animal, and the kind it is. */
static const char *const called[][2] = {
    {"goat", "goat"},      {"doe", "goat"},      {"nanny", "goat"},    {"billy", "goat"},    {"kid", "goat"},
    {"sheep", "sheep"},    {"ewe", "sheep"},     {"ram", "sheep"},     {"pony", "pony"},     {"mini", "pony"},
    {"miniature", "pony"}, {"cob", "pony"},      {"horse", "horse"},   {"donkey", "donkey"}, {"burro", "donkey"},
    {"jenny", "donkey"},   {"alpaca", "alpaca"}, {"llama", "alpaca"},  {"cattle", "cattle"}, {"cow", "cattle"},
    {"bull", "cattle"},    {"steer", "cattle"},  {"heifer", "cattle"}, {"ox", "cattle"},     {"oxen", "cattle"},
};

/* The word, or its plural: goats, ponies. */
static bool is_word(const char *word, const char *answer)
{
    size_t n = strlen(word), stem = word[n - 1] == 'y' ? n - 1 : n;
    const char *plural = word[n - 1] == 'y' ? "ies" : "s";
    return strcasecmp(word, answer) == 0 ||
           (strncasecmp(word, answer, stem) == 0 && strcasecmp(answer + stem, plural) == 0);
}

const char *params_kind_called(const char *word)
{
    for (size_t i = 0; i < sizeof called / sizeof called[0]; i++) {
        if (is_word(called[i][0], word)) {
            return called[i][1];
        }
    }
    return NULL;
}

/* Ids that begin with the word, "goat-dry" with "goat", put first; returns how many. */
static size_t begin_with(const char *word, const char **known, size_t n)
{
    size_t begin = 0, length = strlen(word);
    for (size_t i = 0; i < n; i++) {
        if (strncmp(known[i], word, length) == 0 && strchr("-", known[i][length])) {
            const char *id = known[i];
            known[i] = known[begin];
            known[begin++] = id;
        }
    }
    return begin;
}

enum err_code params_unknown(const struct params *p, enum params_thing thing, const char *id, struct err *e)
{
    assert(id != NULL);
    static const char *const word[] = {
        [PARAMS_GRASS] = "grass", [PARAMS_SOIL] = "soil",          [PARAMS_ANIMAL] = "animal class",
        [PARAMS_FEED] = "feed",   [PARAMS_STORE] = "way to store", [PARAMS_FEEDER] = "feeder",
        [PARAMS_HAY] = "hay",
    };
    const char *known[NAMES_MOST];
    const char *kind = thing == PARAMS_ANIMAL ? params_kind_called(id) : NULL;
    size_t n = names(p, thing, known), used = 0, i = 0;
    size_t meant = thing == PARAMS_ANIMAL ? begin_with(kind ? kind : id, known, n) : 0;
    const char *near = meant ? NULL : err_did_you_mean(id, known, n);
    if (near || meant == 1) {
        return err_set(e, ERR_CONFIG, "no %s is called \"%s\"; did you mean \"%s\"?", word[thing], id,
                       near ? near : known[0]);
    }
    char all[sizeof e->what];
    n = meant ? meant : n;
    for (; i < n && used + strlen(known[i]) + 3 < sizeof all - ROOM_FOR_SENTENCE; i++) {
        used += (size_t)snprintf(all + used, sizeof all - used, "%s%s", i ? ", " : "", known[i]);
    }
    return err_set(e, ERR_CONFIG, "no %s is called \"%.40s\"; there are %s%s", word[thing], id, all,
                   i < n ? " and more (`sugarlea params`)" : "");
}
