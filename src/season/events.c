/* Entries of the diary, day by day. SPDX-License-Identifier: GPL-3.0-or-later */
#include "season/events.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static void see_signs(const struct diary_entry *e, struct run_signs *s)
{
    if (diary_ends_signs(e)) {
        *s = (struct run_signs){0, DATE_NONE};
    } else if (e->what == DIARY_FOOT_SIGNS) {
        s->since = s->words ? s->since : e->date;
        s->words |= e->words;
    }
}

void events_morning(const struct run *r, struct run_animal *a, date_t date)
{
    assert(a >= r->animal && a < r->animal + r->animals);
    const struct way_back_rules *rules = &r->params->way_back[a->group->rules.species];
    size_t index = (size_t)(a - r->animal);
    struct way_back_state back = a->back;
    struct run_signs stood = a->signs; /* today, if only for a while */
    a->seen = a->signs;
    for (size_t k = r->next; k < r->events && r->event[k].date <= date; k++) {
        const struct diary_entry *e = &r->event[k];
        if (diary_tells_of_signs(e) && e->subject == index && diary_known(e, date, date == r->live)) {
            see_signs(e, &a->seen);
            bool cleared = e->what == DIARY_VET && diary_ends_signs(e);
            stood = a->seen.words || cleared ? a->seen : stood;
            if (a->seen.words) { /* signs that came and went this morning, too, begin the way anew */
                way_back_pass(&back, rules, a->group->rules.max_hours, 0.0, true);
            }
        }
    }
    if (!a->seen.words) { /* gone this morning, without the vet's word: not before tomorrow */
        a->seen = stood;
    }
    a->input.foot_signs = a->seen.words != 0;
    a->input.back = way_back_today(&back, rules, a->group->rules.max_hours);
    if (a->seen.words) {
        a->input.back = (struct way_back){0};
    }
}

static double held_cover(const struct run *r, const struct run_paddock *p, const struct diary_entry *e)
{
    enum { UNIT_CM, UNIT_INCH, UNIT_COVER };
    const struct kept *k = &p->kept->kept;
    if (isnan(e->value)) {
        return k->how == KEPT_GRAZED ? k->cover_kg_ha : r->params->limits.default_cover_kg_ha;
    }
    return e->unit == UNIT_COVER ? e->value : holding_cover_of_height(r->params, e->value);
}

static void see_paddock(struct run *r, const struct diary_entry *e)
{
    assert(diary_kinds[e->what].subject == DIARY_OF_PADDOCK);
    assert(e->subject < r->paddocks);
    struct run_paddock *p = &r->paddock[e->subject];
    bool stocked = e->what == DIARY_GRAZED && isnan(e->value) && p->kept->kept.how == KEPT_STOCKED;
    if (e->what == DIARY_CUT) {
        p->now.cut = e->date;
        p->now.cut_cm = isnan(e->value) ? r->params->limits.default_stubble_cm : e->value;
    } else if (e->what == DIARY_GRAZED || e->what == DIARY_RESTED) {
        p->now.since = e->date;
        p->now.how = stocked ? KEPT_STOCKED : e->what == DIARY_GRAZED ? KEPT_GRAZED : KEPT_RESTED;
        p->now.cover_kg_ha = held_cover(r, p, e);
    }
}

static void see_animal(struct run *r, const struct diary_entry *e, date_t date)
{
    assert(diary_kinds[e->what].subject == DIARY_OF_GROUP);
    assert(e->subject < r->animals);
    struct run_animal *a = &r->animal[e->subject];
    if (diary_tells_of_signs(e)) {
        see_signs(e, &a->signs);
    } else if (e->what == DIARY_TURNOUT && e->date == date) {
        a->out_h = e->value;
    }
}

/* What the animal had of the day: what the diary says, else what it must have been. */
static double hours_of(const struct run *r, const struct run_animal *a, date_t date)
{
    if (!isnan(a->out_h)) {
        return a->out_h;
    }
    if (a->signs.words || run_rests(&r->paddock[a->group->paddock])) {
        return 0.0;
    }
    return a->advised == date ? a->advice.hours : (double)NAN;
}

/* To be told: not that it went in when its signs were seen, but what it was let out for that morning. */
static struct run_hours told_of(const struct run_animal *a, date_t date, double hours)
{
    bool written = !isnan(a->out_h), advised = !written && a->advised == date;
    return (struct run_hours){.date = date,
                              .hours = advised ? a->advice.hours : hours,
                              .muzzle = advised && a->advice.muzzle && a->advice.hours > 0.0,
                              .written = written};
}

static void pass_day(const struct run *r, struct run_animal *a, date_t date, bool sore)
{
    assert(a->n_recent <= RUN_RECENT);
    double hours = hours_of(r, a, date);
    way_back_pass(&a->back, &r->params->way_back[a->group->rules.species], a->group->rules.max_hours, hours, sore);
    if (!isnan(hours)) {
        memmove(a->recent + 1, a->recent, (RUN_RECENT - 1) * sizeof a->recent[0]);
        a->recent[0] = told_of(a, date, hours);
        a->n_recent += a->n_recent < RUN_RECENT;
    }
    a->out_h = (double)NAN;
}

/* Signs that came and went within the day count as signs of the day. */
static bool sore_today(const struct run *r, size_t animal, size_t first, date_t date)
{
    bool sore = r->animal[animal].signs.words != 0;
    for (size_t k = first; k < r->events && r->event[k].date <= date && !sore; k++) {
        const struct diary_entry *e = &r->event[k];
        sore = e->date == date && e->what == DIARY_FOOT_SIGNS && e->subject == animal && e->words != SIGN_NONE;
    }
    return sore;
}

void events_evening(struct run *r, date_t date)
{
    assert(r->next <= r->events);
    size_t first = r->next;
    for (; r->next < r->events && r->event[r->next].date <= date; r->next++) {
        const struct diary_entry *e = &r->event[r->next];
        enum diary_subject subject = diary_kinds[e->what].subject;
        if (subject == DIARY_OF_PADDOCK) {
            see_paddock(r, e);
        } else if (subject == DIARY_OF_GROUP && r->follow_animals) {
            see_animal(r, e, date);
        }
    }
    for (size_t i = 0; r->follow_animals && i < r->animals; i++) {
        pass_day(r, &r->animal[i], date, sore_today(r, i, first, date));
    }
}
