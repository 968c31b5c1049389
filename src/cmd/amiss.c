/* Entries of the diary that nothing reckons with. SPDX-License-Identifier: GPL-3.0-or-later */
#include "cmd/amiss.h"

#include "base/clock.h"
#include "base/json_scan.h"
#include "cmd/trust.h"
#include "data/diary_weight.h"
#include "data/holding_read.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

enum {
    NAME_MOST = LIMIT_NAME - 1,
    NAMES_TEXT = 120,
    ALL_WORDS = 140, /* each word of foot signs once is 129 letters */
    WHAT_TEXT = 48
};

static const char *ring(enum signs_urgency u)
{
    return u == SIGNS_AT_ONCE ? "ring the vet at once" : "ring the vet today";
}

static bool is_live(const struct context *c)
{
    return c->until == clock_today(c->holding.site.timezone);
}

/* "milkers, wethers, grey-pony": as many as there is room for. Returns text. */
static const char *group_names(const struct holding *h, char text[NAMES_TEXT])
{
    size_t n = 0, i = 0;
    snprintf(text, NAMES_TEXT, "%s", h->animals ? "" : "no animals");
    for (; i < h->animals; i++) {
        const char *id = h->animal[i].id;
        assert(id != NULL);
        if (n + strlen(id) + sizeof ",  and more" >= NAMES_TEXT) {
            break;
        }
        n += (size_t)snprintf(text + n, NAMES_TEXT - n, "%s%s", i ? ", " : "", id);
    }
    if (i < h->animals) {
        snprintf(text + n, NAMES_TEXT - n, " and more");
    }
    return text;
}

/* "the holding does not have", behind "which". Returns text. */
static const char *not_there(const struct holding *h, const char *id, enum diary_subject as, char text[WHAT_TEXT])
{
    bool elsewhere = diary_has_subject(h, id);
    snprintf(text, WHAT_TEXT, elsewhere ? "is no %s of the holding" : "the holding does not have",
             diary_subject_names[as]);
    return text;
}

static const struct animal_group *nearest_group(const struct holding *h, const char *name)
{
    const char *id[LIMIT_ANIMALS];
    for (size_t i = 0; i < h->animals; i++) {
        id[i] = h->animal[i].id;
    }
    const char *near = err_did_you_mean(name, id, h->animals);
    for (size_t i = 0; near && i < h->animals; i++) {
        if (id[i] == near) {
            return &h->animal[i];
        }
    }
    return NULL;
}

static bool is_signs(const struct diary_entry *e)
{
    return e->what == DIARY_FOOT_SIGNS && !diary_ends_signs(e);
}

static size_t find_lost(const struct context *c, struct diary_lost lost[DIARY_LOST_MOST])
{
    return diary_lost_find(&c->diary, c->until, is_live(c), c->params.limits.lost_signs_days, lost);
}

/* The next of the signs of a day to come, from entry k on; NULL there is none. */
static const struct diary_entry *next_ahead(const struct context *c, size_t k)
{
    bool live = is_live(c);
    while (live && k < c->diary.n && !is_signs(&c->diary.entry[k])) {
        k++;
    }
    return live && k < c->diary.n ? &c->diary.entry[k] : NULL;
}

void amiss_sore(const struct context *c, struct amiss_sore *s)
{
    struct diary_lost lost[DIARY_LOST_MOST];
    const struct diary_entry *e = next_ahead(c, c->known);
    size_t n = find_lost(c, lost);
    s->n = 0;
    for (size_t i = 0; i < n; i++) {
        if (lost[i].signs) {
            s->of[s->n++] = nearest_group(&c->holding, lost[i].name);
        }
    }
    for (; e && s->n < AMISS_MOST; e = next_ahead(c, (size_t)(e - c->diary.entry) + 1)) {
        s->of[s->n++] = &c->holding.animal[e->subject];
    }
}

bool amiss_beside(const struct amiss_sore *s, const struct animal_group *g)
{
    size_t others = 0;
    for (size_t i = 0; i < s->n; i++) {
        others += !g || s->of[i] != g;
    }
    return others > (g ? 0 : 1); /* of nobody's one is itself */
}

/* As urgent as it is for the group that is meant, or for the one of all that can wait least. */
static enum signs_urgency urgency_for(const struct holding *h, const struct animal_group *meant, unsigned words,
                                      bool others)
{
    enum signs_urgency most = SIGNS_SAME_DAY;
    for (size_t i = 0; i < h->animals; i++) {
        enum signs_urgency u = signs_urgency(words, &h->animal[i].rules, others);
        most = (!meant || meant == &h->animal[i]) && u > most ? u : most;
    }
    return most;
}

/* In a line or two, below others at length. */
static void say_lost_shortly(const struct diary_lost *l, const struct animal_group *meant, const char *words,
                             struct amiss *a)
{
    char date[DATE_TEXT];
    snprintf(a->text, sizeof a->text, "Line %zu%s: \"%.*s\"%s%s (%s%s, %s): off grass, %s.", l->last->line,
             l->entries > 1 ? " and more" : "", (int)json_scan_cut(l->name, NAME_MOST), l->name,
             meant ? ", perhaps " : "", meant ? meant->id : "", l->signs ? "" : "the vet ", words,
             date_format(l->last->date, date), ring(a->urgency));
}

static void say_lost(const struct context *c, const struct diary_lost *l, const struct animal_group *meant,
                     const char *words, struct amiss *a)
{
    const struct holding *h = &c->holding;
    char names[NAMES_TEXT], date[DATE_TEXT], mend[32], what[WHAT_TEXT];
    bool more = l->entries > 1;
    snprintf(mend, sizeof mend, more ? "these lines" : "line %zu", l->last->line);
    snprintf(a->text, sizeof a->text,
             "%s (%s, %s) written down in line %zu%s of diary.csv for \"%.*s\", which %s. %s%s: off grass now, "
             "whatever its hours say, and %s; then mend %s. If %s none of yours, take %s out. The holding has %s.",
             l->signs ? "Foot signs" : "A word on the vet", words, date_format(l->last->date, date), l->last->line,
             more ? " and more" : "", (int)json_scan_cut(l->name, NAME_MOST), l->name,
             not_there(h, l->name, DIARY_OF_GROUP, what), meant ? "If this is " : "Whichever animal it is",
             meant ? meant->id : "", ring(a->urgency), mend, more ? "they are" : "it is", more ? "them" : "the line",
             group_names(h, names));
}

static void add_lost(const struct context *c, const struct diary_lost *l, const struct run *r,
                     const struct amiss_sore *s, bool whole, struct amiss *a)
{
    const struct animal_group *meant = nearest_group(&c->holding, l->name);
    char words[ALL_WORDS];
    a->urgency = urgency_for(&c->holding, meant, l->signs, run_others_sore(r, meant) || amiss_beside(s, meant));
    diary_words_text(&diary_kinds[l->signs ? DIARY_FOOT_SIGNS : DIARY_VET], l->signs ? l->signs : l->vet, ", ", words,
                     sizeof words);
    if (whole) {
        say_lost(c, l, meant, words, a);
    } else {
        say_lost_shortly(l, meant, words, a);
    }
}

static void add_ahead(const struct context *c, const struct diary_entry *e, const struct run *r,
                      const struct amiss_sore *s, bool whole, struct amiss *a)
{
    const struct animal_group *g = &c->holding.animal[e->subject];
    char words[ALL_WORDS], date[DATE_TEXT];
    a->urgency = signs_urgency(e->words, &g->rules, run_others_sore(r, g) || amiss_beside(s, g));
    diary_words_text(&diary_kinds[DIARY_FOOT_SIGNS], e->words, ", ", words, sizeof words);
    date_format(e->date, date);
    if (!whole) {
        snprintf(a->text, sizeof a->text, "Line %zu: %s (%s, %s, a day to come): if seen already, off grass, %s.",
                 e->line, g->id, words, date, ring(a->urgency));
        return;
    }
    snprintf(
        a->text, sizeof a->text,
        "Foot signs (%s) of %s are written down in line %zu of diary.csv for %s, a day to come: until then nothing "
        "reckons with them. If they were seen already: off grass now, whatever its hours say, and %s; then mend the "
        "date.",
        words, g->id, e->line, date, ring(a->urgency));
}

size_t amiss_signs(const struct context *c, const struct run *r, struct amiss found[AMISS_MOST])
{
    struct diary_lost lost[DIARY_LOST_MOST];
    struct amiss_sore sore;
    const struct diary_entry *e = next_ahead(c, c->known);
    size_t n = find_lost(c, lost);
    amiss_sore(c, &sore);
    for (size_t i = 0; i < n; i++) {
        add_lost(c, &lost[i], r, &sore, i < TODAY_ALARMS_WHOLE, &found[i]);
    }
    for (; e && n < AMISS_MOST; e = next_ahead(c, (size_t)(e - c->diary.entry) + 1)) {
        add_ahead(c, e, r, &sore, n < TODAY_ALARMS_WHOLE, &found[n]);
        n++;
    }
    return n;
}

/* The newest weight of a group, where the species cannot weigh so much or so little. */
static void note_weight(struct context *c, struct today_view *v, size_t group)
{
    const struct animal_group *g = &c->holding.animal[group];
    const struct diary_entry *e = NULL;
    double low, high, kg = (double)NAN;
    char date[DATE_TEXT], makes[UNITS_TEXT + 16] = "", text[UNITS_TEXT];
    for (size_t k = c->known; k > 0 && isnan(kg); k--) {
        e = &c->diary.entry[k - 1];
        bool weight = (e->what == DIARY_WEIGHT || e->what == DIARY_GIRTH) && e->subject == group;
        kg = weight ? diary_weight_of(e, &c->params.limits, g) : (double)NAN;
    }
    holding_weight_range(g->rules.species, &low, &high);
    if (!e || isnan(kg) || (kg >= low && kg <= high)) {
        return;
    }
    const struct diary_kind *kind = &diary_kinds[e->what];
    if (e->what == DIARY_GIRTH) {
        snprintf(makes, sizeof makes, ", which makes %.0f kg,", kg);
    }
    trust_warn(
        c, v,
        "line %zu of diary.csv: %s %.4g %s of %s (%s)%s is passed over: one of the species (%s) weighs from %g to %g "
        "kg. It counts as %s; mend the line.",
        e->line, kind->name, e->value / kind->unit[e->unit].scale, kind->unit[e->unit].name, g->id,
        date_format(e->date, date), makes, species_names[g->rules.species], low, high,
        units_text(v->units, AMOUNT_MASS, g->weight_kg, 0, text));
}

/* On the day itself: what is dated later is a slip. */
static void note_ahead(struct context *c, struct today_view *v)
{
    char date[DATE_TEXT];
    size_t said = 0, more = 0;
    for (size_t k = c->known; is_live(c) && k < c->diary.n; k++) {
        const struct diary_entry *e = &c->diary.entry[k];
        if (is_signs(e)) {
            continue;
        }
        more += said == AMISS_AHEAD;
        if (said < AMISS_AHEAD) {
            trust_warn(c, v, "line %zu of diary.csv: %s of %s is dated %s, a day to come: passed over until then.",
                       e->line, diary_kinds[e->what].name, diary_subject_id(e, &c->holding),
                       date_format(e->date, date));
            said++;
        }
    }
    if (more) {
        trust_warn(c, v, "%zu more lines of diary.csv are dated later than today: passed over until then.", more);
    }
}

static void note_strangers(struct context *c, struct today_view *v)
{
    struct diary_lost lost[DIARY_LOST_MOST];
    size_t n = find_lost(c, lost);
    for (size_t i = 0; i < c->diary.strangers; i++) {
        const struct diary_stranger *s = &c->diary.stranger[i];
        char what[WHAT_TEXT];
        size_t k = 0;
        while (k < n && lost[k].name != s->name) {
            k++;
        }
        if (k == n) { /* the others stand at the top */
            trust_warn(c, v, "the diary tells of \"%s\" (line %zu%s), which %s: passed over.", s->name, s->line,
                       s->entries > 1 ? " and more" : "", not_there(&c->holding, s->name, s->as, what));
        }
    }
}

/* For each group, whether the others have such signs. False: no memory. */
static bool find_others(struct context *c, struct today_view *v)
{
    const struct run *r = v->day->run;
    struct amiss_sore s;
    amiss_sore(c, &s);
    bool *others = arena_alloc(&c->arena, r->animals, sizeof *others);
    for (size_t i = 0; others && i < r->animals; i++) {
        others[i] = amiss_beside(&s, r->animal[i].group);
    }
    v->others_lost = others;
    return others != NULL;
}

enum err_code amiss_say(struct context *c, struct today_view *v, struct err *e)
{
    struct amiss found[AMISS_MOST];
    size_t n = amiss_signs(c, v->day->run, found);
    bool kept = n == 0 || find_others(c, v);
    for (size_t i = 0; i < n && kept; i++) {
        v->alarm[i] = arena_strdup(&c->arena, found[i].text);
        kept = v->alarm[i] != NULL;
        v->alarms += kept;
    }
    if (!kept) {
        return err_set(e, ERR_NOMEM, "out of memory");
    }
    note_strangers(c, v);
    for (size_t i = 0; i < c->holding.animals; i++) {
        note_weight(c, v, i);
    }
    note_ahead(c, v);
    return ERR_OK;
}
