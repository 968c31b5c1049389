/* Terms to scores with intervals.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "season/review.h"

#include "season/bootstrap.h"
#include "season/review_kinds.h"

#include <assert.h>
#include <math.h>
#include <string.h>

const char *const review_what_name[REVIEW_WHATS] = {"nsc_mean", "growth", "restricted", "strict", "turnout"};
const char *const review_rival_name[REVIEW_RIVALS] = {NULL, "persistence", "normals"};

enum { ROWS_OF_KIND = 5 }; /* ours, and each rival's with its gain */

/* What is being scored now, and where the rows go. */
struct scoring {
    const struct replay *replay;
    size_t first, last;
    struct arena *arena;
    struct review *out;
    enum review_what what;
    size_t subject, lead;
};

/* The columns of a row that a score, or a gain, of ours or a rival is made of; returns how many. */
static size_t find_columns(const struct review_terms *t, size_t width, const struct review_kind *k,
                           enum review_rival rival, bool is_gain, size_t use[BOOTSTRAP_TERMS_MOST])
{
    assert(rival < REVIEW_RIVALS);
    size_t shift = (size_t)rival * t->columns, uses = k->uses ? k->uses : width;
    if (is_gain) { /* of a mean: the count, ours, theirs */
        use[0] = REVIEW_N;
        use[1] = k->use[1];
        use[2] = k->use[1] + shift;
        return 3;
    }
    for (size_t i = 0; i < uses; i++) {
        size_t column = k->uses ? k->use[i] : i;
        use[i] = k->uses && column != REVIEW_N ? column + shift : column;
    }
    return uses;
}

static bool add_score(struct scoring *s, const struct review_terms *t, size_t width, const struct review_kind *k,
                      enum review_rival rival, bool is_gain)
{
    assert(s->lead < REPLAY_LEADS);
    size_t use[BOOTSTRAP_TERMS_MOST];
    struct bootstrap_interval b = {NAN, NAN, NAN, 1};
    const struct bootstrap_ask q = {.term = t->row,
                                    .days = t->days,
                                    .terms = width,
                                    .use = use,
                                    .uses = find_columns(t, width, k, rival, is_gain, use),
                                    .score = is_gain ? review_gain : k->score,
                                    .level = REVIEW_LEVEL,
                                    .seed = BOOTSTRAP_SEED};
    if ((rival != REVIEW_NORMALS || t->normals) && !bootstrap_find(&q, &b)) {
        return false;
    }
    s->out->score[s->out->n++] = (struct review_score){.what = s->what,
                                                       .subject = s->subject,
                                                       .lead = s->lead,
                                                       .score = is_gain ? k->gain : k->name,
                                                       .rival = rival,
                                                       .value = b.value,
                                                       .low = b.low,
                                                       .high = b.high,
                                                       .n = t->days};
    return true;
}

static bool add_kinds(struct scoring *s, const struct review_terms *t, size_t width, const struct review_kind *kind,
                      size_t kinds)
{
    bool ok = true;
    for (size_t i = 0; i < kinds; i++) {
        ok = ok && add_score(s, t, width, &kind[i], REVIEW_OURS, false);
        for (enum review_rival r = REVIEW_PERSISTENCE; kind[i].rivals && r < REVIEW_RIVALS; r++) {
            ok = ok && add_score(s, t, width, &kind[i], r, false);
            ok = ok && (!kind[i].gain || add_score(s, t, width, &kind[i], r, true));
        }
    }
    return ok;
}

static size_t width_of(const struct review_terms *t)
{
    return 1 + REVIEW_RIVALS * t->columns;
}

static bool score_level(struct scoring *s, const struct replay_series *series, size_t kinds)
{
    size_t n = s->replay->days;
    double *normal = arena_alloc(s->arena, n, sizeof *normal);
    bool ok = normal != NULL;
    for (size_t i = s->first; ok && i <= s->last; i++) {
        normal[i] = review_normal(series->truth, n, i);
    }
    for (s->lead = 0; ok && s->lead < REPLAY_LEADS; s->lead++) {
        struct review_days d;
        struct review_terms t;
        ok = review_days_find(series, normal, 1, s->lead, s->first, s->last, s->arena, &d) &&
             review_level_terms(series, normal, s->replay->weather_sd, &d, s->arena, &t) &&
             add_kinds(s, &t, width_of(&t), review_level_kinds, kinds);
    }
    return ok;
}

static void add_reliability(struct scoring *s, const struct review_terms *bins)
{
    struct review_reliability *r = &s->out->reliability[s->out->reliabilities++];
    *r = (struct review_reliability){.what = s->what, .subject = s->subject, .lead = s->lead};
    for (size_t k = 0; k < bins->days; k++) {
        for (size_t i = 0; i < REVIEW_BINS; i++) {
            r->n[i] += bins->row[k * bins->columns + 2 * i];
            r->happened[i] += bins->row[k * bins->columns + 2 * i + 1];
        }
    }
}

static bool score_event(struct scoring *s, const struct replay_group *g, const struct review_shares *normal,
                        const struct review_days *d, enum review_what what)
{
    assert(what == REVIEW_RESTRICTED || what == REVIEW_STRICT);
    enum turnout above = what == REVIEW_RESTRICTED ? TURNOUT_FREE : TURNOUT_TIMED;
    struct review_terms t, bins;
    s->what = what;
    if (!review_event_terms(g, normal, above, d, s->arena, &t) || !review_bin_terms(g, above, d, s->arena, &bins)) {
        return false;
    }
    add_reliability(s, &bins);
    return add_kinds(s, &t, width_of(&t), review_event_kinds, REVIEW_EVENT_KINDS) &&
           add_kinds(s, &bins, bins.columns, review_bin_kinds, REVIEW_BIN_KINDS);
}

/* The frequency of each turnout at that time of year in other years. */
static struct review_shares *turnout_normals(const struct scoring *s, const struct replay_series *turnout)
{
    size_t n = s->replay->days;
    struct review_shares *normal = arena_alloc(s->arena, n, sizeof *normal);
    double *is = arena_alloc(s->arena, n, sizeof *is);
    for (size_t t = 0; normal && is && t < REPLAY_TURNOUTS; t++) {
        for (size_t i = 0; i < n; i++) {
            is[i] = isnan(turnout->truth[i]) ? (double)NAN : turnout->truth[i] == (double)t;
        }
        for (size_t i = s->first; i <= s->last; i++) {
            normal[i].of[t] = review_normal(is, n, i);
        }
    }
    return is ? normal : NULL;
}

static bool score_group(struct scoring *s, const struct replay_group *g)
{
    const struct review_shares *normal = turnout_normals(s, &g->turnout);
    bool ok = normal != NULL;
    for (s->lead = 0; ok && s->lead < REPLAY_LEADS; s->lead++) {
        struct review_days d;
        struct review_terms t;
        ok = review_days_find(&g->turnout, normal[0].of, REPLAY_TURNOUTS, s->lead, s->first, s->last, s->arena, &d) &&
             score_event(s, g, normal, &d, REVIEW_RESTRICTED) && score_event(s, g, normal, &d, REVIEW_STRICT) &&
             review_turnout_terms(g, normal, &d, s->arena, &t);
        s->what = REVIEW_TURNOUT;
        ok = ok && add_kinds(s, &t, width_of(&t), review_turnout_kinds, REVIEW_TURNOUT_KINDS);
    }
    return ok;
}

static size_t count_mornings(const struct replay *p, size_t first, size_t last)
{
    size_t n = 0;
    for (size_t i = first; i <= last; i++) {
        n += !isnan(p->paddock[0][REPLAY_NSC].truth[i]);
    }
    return n;
}

static bool score_paddock(struct scoring *s, size_t i)
{
    s->what = REVIEW_NSC;
    if (!score_level(s, &s->replay->paddock[i][REPLAY_NSC], REVIEW_LEVEL_KINDS)) {
        return false;
    }
    s->what = REVIEW_GROWTH;
    return score_level(s, &s->replay->paddock[i][REPLAY_GROWTH], REVIEW_GROWTH_KINDS);
}

bool review_find(const struct replay *p, size_t first, size_t last, struct arena *a, struct review *out)
{
    assert(first <= last && last < p->days);
    struct arena scratch; /* the terms of one paddock or group at a time */
    struct scoring s = {.replay = p, .first = first, .last = last, .arena = &scratch, .out = out};
    size_t kinds = p->paddocks * (REVIEW_LEVEL_KINDS + REVIEW_GROWTH_KINDS) +
                   p->groups * (2 * (REVIEW_EVENT_KINDS + REVIEW_BIN_KINDS) + REVIEW_TURNOUT_KINDS);
    *out = (struct review){.mornings = count_mornings(p, first, last)};
    out->score = arena_alloc(a, kinds * REPLAY_LEADS * ROWS_OF_KIND, sizeof *out->score);
    out->reliability = arena_alloc(a, p->groups * 2 * REPLAY_LEADS, sizeof *out->reliability);
    bool ok = out->score && (out->reliability || p->groups == 0);
    arena_init(&scratch);
    for (s.subject = 0; ok && s.subject < p->paddocks; s.subject++) {
        ok = score_paddock(&s, s.subject);
        arena_release(&scratch);
    }
    for (s.subject = 0; ok && s.subject < p->groups; s.subject++) {
        ok = score_group(&s, &p->group[s.subject]);
        arena_release(&scratch);
    }
    assert(s.out->n <= kinds * REPLAY_LEADS * ROWS_OF_KIND);
    return ok;
}

const struct review_score *review_get(const struct review *r, enum review_what what, size_t subject, size_t lead,
                                      const char *score, enum review_rival rival)
{
    for (size_t i = 0; i < r->n; i++) {
        const struct review_score *s = &r->score[i];
        if (s->what == what && s->subject == subject && s->lead == lead && s->rival == rival &&
            strcmp(s->score, score) == 0) {
            return s;
        }
    }
    return NULL;
}
