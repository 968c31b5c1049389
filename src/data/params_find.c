/* Things by their id, and the sentence for an id that is none of them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/params.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

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

enum err_code params_unknown(const struct params *p, enum params_thing thing, const char *id, struct err *e)
{
    assert(id != NULL);
    static const char *const word[] = {
        [PARAMS_GRASS] = "grass", [PARAMS_SOIL] = "soil",          [PARAMS_ANIMAL] = "animal class",
        [PARAMS_FEED] = "feed",   [PARAMS_STORE] = "way to store", [PARAMS_FEEDER] = "feeder",
        [PARAMS_HAY] = "hay",
    };
    const char *known[NAMES_MOST];
    const char *near = err_did_you_mean(id, known, names(p, thing, known));
    if (near) {
        return err_set(e, ERR_CONFIG, "no %s is called \"%s\"; did you mean \"%s\"?", word[thing], id, near);
    }
    char all[sizeof e->what];
    size_t n = names(p, thing, known), used = 0, i = 0;
    for (; i < n && used + strlen(known[i]) + 3 < sizeof all - ROOM_FOR_SENTENCE; i++) {
        used += (size_t)snprintf(all + used, sizeof all - used, "%s%s", i ? ", " : "", known[i]);
    }
    return err_set(e, ERR_CONFIG, "no %s is called \"%.40s\"; there are %s%s", word[thing], id, all,
                   i < n ? " and more (`sugarlea params`)" : "");
}
