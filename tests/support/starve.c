/* SPDX-License-Identifier: GPL-3.0-or-later
 * Looks for the least room with which one more allocation is had. */
#include "support/starve.h"

struct
try {
    bool made;
    size_t used; /* when it was made or refused */
};

static struct try with_room(starved_maker *make, void *context, size_t most)
{
    struct arena a;
    arena_init(&a);
    a.most = most;
    bool made = make(&a, context);
    struct try t = {made, a.total};
    arena_release(&a);
    return t;
}

/* The least room, to `grain` bytes, with which it gets beyond `used`. */
static size_t room_beyond(starved_maker *make, void *context, size_t used, size_t grain)
{
    size_t low = used, step = grain;
    for (;;) {
        struct try t = with_room(make, context, low + step);
        if (t.made || t.used > used) {
            break;
        }
        step *= 2;
    }
    size_t high = low + step;
    while (high - low > grain) {
        size_t middle = low + (high - low) / 2;
        struct try t = with_room(make, context, middle);
        if (t.made || t.used > used) {
            high = middle;
        } else {
            low = middle;
        }
    }
    return high;
}

size_t starve(starved_maker *make, void *context, size_t grain)
{
    size_t refused = 0, most = 1;
    for (;;) {
        struct try t = with_room(make, context, most);
        if (t.made) {
            return refused;
        }
        refused++;
        most = room_beyond(make, context, t.used, grain);
    }
}
