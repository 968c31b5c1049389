/* From the latest entry back: what comes before the end of signs is over, unless that is still to come.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/diary_lost.h"

#include <assert.h>
#include <string.h>

struct name_seen {
    struct diary_lost lost; /* last NULL: nothing of it stands */
    bool ended;             /* what is older is over */
};

static struct name_seen *seen_of(struct name_seen seen[DIARY_LOST_MOST], size_t *n, const char *name)
{
    for (size_t i = 0; i < *n; i++) {
        if (strcmp(seen[i].lost.name, name) == 0) {
            return &seen[i];
        }
    }
    if (*n == DIARY_LOST_MOST) {
        return NULL;
    }
    seen[*n] = (struct name_seen){.lost = {.name = name}};
    return &seen[(*n)++];
}

static void look_at(const struct diary_entry *e, bool known, struct name_seen *s)
{
    bool ends = diary_ends_signs(e), signs = e->what == DIARY_FOOT_SIGNS;
    s->ended = s->ended || (ends && known);
    if (s->ended || ends) {
        return;
    }
    s->lost.last = s->lost.last && (s->lost.signs || !signs) ? s->lost.last : e;
    s->lost.signs |= signs ? e->words : 0;
    s->lost.vet |= e->what == DIARY_VET ? e->words : 0;
    s->lost.entries++;
}

size_t diary_lost_find(const struct diary *d, date_t morning, bool live, double days,
                       struct diary_lost lost[DIARY_LOST_MOST])
{
    assert(d->strays == 0 || d->stray != NULL);
    struct name_seen seen[DIARY_LOST_MOST];
    size_t names = 0, n = 0;
    for (size_t k = d->strays; k > 0 && morning - d->stray[k - 1].entry.date <= days; k--) {
        const struct diary_stray *stray = &d->stray[k - 1];
        bool known = diary_known(&stray->entry, morning, live);
        struct name_seen *s = live || known ? seen_of(seen, &names, stray->name) : NULL;
        if (s) {
            look_at(&stray->entry, known, s);
        }
    }
    for (size_t i = 0; i < names; i++) {
        if (seen[i].lost.last) {
            lost[n++] = seen[i].lost;
        }
    }
    return n;
}
