/* The turnout of groups as strips under a picture. SPDX-License-Identifier: GPL-3.0-or-later */
#include "out/palette.h"
#include "out/plot_inner.h"
#include "out/series.h"

#include <string.h>

enum { LEVELS = 4, NAME_MOST = 36 }; /* characters of a strip's name: its counts stand beside it */

/* The commonest level of days i..end; of equals the more restrictive. */
static int commonest(const struct series *s, size_t animal, size_t i, size_t end)
{
    size_t count[LEVELS] = {0};
    int most = 0;
    for (; i < end; i++) {
        count[series_turnout(s, animal, i)->turnout]++;
    }
    for (int k = 0; k < LEVELS; k++) {
        most = count[k] >= count[most] ? k : most;
    }
    return most;
}

/* Stretches of one level: strip, x from, x to, level, colour. */
static void add_strip(const struct series *s, size_t animal, double strip, size_t step, struct plot *p)
{
    for (size_t i = 0; i < s->n;) {
        int level = commonest(s, animal, i, i + step < s->n ? i + step : s->n);
        size_t from = i;
        while (i < s->n && commonest(s, animal, i, i + step < s->n ? i + step : s->n) == level) {
            i += step;
        }
        plot_row(p,
                 (double[]){strip, s->first + (double)from, s->first + (double)(i < s->n ? i : s->n), level,
                            palette_turnout((enum turnout)level)},
                 5);
    }
}

/* "12 free, 353 timed; 300 muzzled". */
static void add_count(const struct series *s, size_t animal, struct buf *b)
{
    size_t count[LEVELS] = {0};
    const char *between = "";
    for (size_t i = 0; i < s->n; i++) {
        count[series_turnout(s, animal, i)->turnout]++;
    }
    for (int k = 0; k < LEVELS; k++) {
        if (count[k]) {
            buf_addf(b, "%s%zu %s", between, count[k], turnout_name((enum turnout)k));
            between = ", ";
        }
    }
    if (series_muzzled(s, animal)) {
        buf_addf(b, "; %zu muzzled", series_muzzled(s, animal));
    }
}

/* Levels of turnout: arrays level_name, level_colour. */
static void add_levels(struct plot *p)
{
    const char *name[LEVELS];
    buf_addf(&p->given, "array level_colour[%d] = [", LEVELS);
    for (int k = 0; k < LEVELS; k++) {
        name[k] = turnout_name((enum turnout)k);
        buf_addf(&p->given, "%s%u", k ? "," : "", palette_turnout((enum turnout)k));
    }
    buf_add(&p->given, "]\n");
    plot_texts(p, "level_name", name, LEVELS);
}

const char *picture_group_id(const struct series *s, size_t group)
{
    return s->named ? s->group[group].is->id : s->group[group].is->class_id;
}

void picture_group_name(const struct series *s, size_t animal, struct buf *b)
{
    const struct animal_group *g = s->group[animal].is;
    buf_add(b, s->named ? g->id : g->class_id);
    if (s->named && strcmp(g->id, g->class_id) != 0) {
        buf_addf(b, " (%s)", g->class_id);
    }
}

void picture_strips(const struct series *s, size_t first, size_t strips, size_t step, struct plot *p)
{
    struct buf name, count;
    buf_init(&name);
    buf_init(&count);
    plot_number(p, "strips", (double)strips);
    buf_addf(&p->given, "array strip_name[%zu]\narray strip_count[%zu]\n", strips + 1, strips + 1);
    for (size_t a = 0; a < strips; a++) {
        buf_clear(&name);
        buf_clear(&count);
        picture_group_name(s, first + a, &name);
        add_count(s, first + a, &count);
        buf_addf(&p->given, "strip_name[%zu] = ", a + 1);
        plot_add_quoted(&p->given, name.text, NAME_MOST);
        buf_addf(&p->given, "\nstrip_count[%zu] = '%s'\n", a + 1, count.text);
    }
    buf_release_into(&name, &p->given);
    buf_release_into(&count, &p->given);
    add_levels(p);
    plot_block(p, "turnout");
    for (size_t a = 0; a < strips; a++) {
        add_strip(s, first + a, (double)a + 1.0, step, p);
    }
    plot_block_end(p);
}
