/* What to mind when feeding a ration: soaked hay, and rules of buckets, of changes and of
 * the feed room. To add a note, give it a row. Sources: models/METHOD.md.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "advice/account.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>

const char *account_soak_text(const struct account *a, char *text, size_t size)
{
    assert(size > 0);
    const struct hay_lot *lot = a->lot;
    text[0] = '\0';
    if (lot->tested_after && hay_lot_is_esc(lot)) {
        snprintf(text, size, "the hay's figure was measured after it was %s, yet as ESC + starch: it is no pass.",
                 lot->steamed ? "steamed" : "soaked");
    } else if (lot->tested_after) {
        snprintf(text, size, "the hay's figure was measured after it was %s, and holds for hay treated just so.",
                 lot->steamed ? "steamed" : "soaked");
    } else if (a->credit) {
        snprintf(text, size,
                 "hay soaked for %g h would be about %.1f %% sugar and starch in place of %.1f, and the ration about "
                 "%.1f %% (planning credit: %g %% of its WSC). No pass: every figure and limit here holds it as it is "
                 "dry, until it is tested after soaking.",
                 lot->soaked_h, a->soaked_hay_nsc_pct, a->part[1].content[CONTENT_NSC], a->soaked_nsc_pct,
                 a->credit->wsc_loss_pct);
    } else if (!isnan(lot->soaked_h)) {
        snprintf(text, size,
                 "%g h is too short to plan with, or too little is known of the hay: it is counted as it is dry.",
                 lot->soaked_h);
    } else if (lot->steamed) {
        snprintf(text, size, "steam rids hay of dust and germs and leaves its sugar: it is counted as it is dry.");
    }
    return text;
}

const char *account_soak_loss_text(const struct soaking *c, char *text, size_t size)
{
    assert(c->dm_loss_low_pct < 100.0 && c->dm_loss_high_pct < 100.0);
    snprintf(text, size,
             "hays differ several-fold in what they lose. By 12 h %g to %g %% of the dry matter goes with the water: "
             "weigh out %.0f to %.0f %% more, dry. P, K and Mg go too: balance the minerals. Pour the water away and "
             "feed the hay within hours.",
             c->dm_loss_low_pct, c->dm_loss_high_pct, 100.0 * c->dm_loss_low_pct / (100.0 - c->dm_loss_low_pct),
             100.0 * c->dm_loss_high_pct / (100.0 - c->dm_loss_high_pct));
    return text;
}

static bool always(const struct account *a)
{
    (void)a;
    return true;
}

static const char *part_of_list(size_t i, size_t n)
{
    assert(i < n);
    return i == 0 ? "" : i + 1 < n ? ", " : " and ";
}

static size_t name_analysed(const struct account *a, char *text, size_t size)
{
    const struct hay_lot *lot = a->lot;
    const struct {
        const char *name;
        bool analysed;
    } row[] = {{"NSC", a->part[1].from == FROM_ANALYSIS || a->part[1].from == FROM_ESC},
               {"starch", !isnan(lot->starch_pct)},
               {"NDF", !isnan(lot->ndf_pct)},
               {"dry matter", !isnan(lot->dm_pct)},
               {"energy", !isnan(lot->energy_mj_kg)}};
    const size_t rows = sizeof row / sizeof row[0];
    const char *missing[sizeof row / sizeof row[0]];
    size_t n = 0;
    for (size_t i = 0; i < rows; i++) {
        if (!row[i].analysed) {
            missing[n++] = row[i].name;
        }
    }
    if (n == 0 || n == rows) {
        return (size_t)snprintf(text, size, n ? "not analysed: every figure is a table's, or not known." : "analysed.");
    }
    size_t at = (size_t)snprintf(text, size, "analysed, but for ");
    for (size_t i = 0; i < n && at < size; i++) {
        at += (size_t)snprintf(text + at, size - at, "%s%s", part_of_list(i, n), missing[i]);
    }
    if (at < size) {
        at += (size_t)snprintf(text + at, size - at, ": a table's, or not known.");
    }
    return at;
}

const char *account_hay_text(const struct account *a, char *text, size_t size)
{
    assert(a->parts >= 2);
    const struct advice *x = a->advice;
    size_t at = name_analysed(a, text, size);
    if (!isnan(x->hay_esc_pct) && at + 1 < size) {
        text[at++] = ' ';
        advice_esc_text(x->hay_esc_pct, x->hay_nsc_pct, text + at, size - at);
    }
    return text;
}

static bool has_bucket(const struct account *a)
{
    return account_has(a, PART_BUCKET);
}

static bool left_out(const struct account *a)
{
    return a->advice->bucket_dropped;
}

static bool has_grain(const struct account *a)
{
    return a->verdict[VERDICT_GRAIN].value > 0.0;
}

static bool has_steps(const struct account *a)
{
    return a->steps[0] != '\0';
}

static bool small_ruminant_grain(const struct account *a)
{
    return has_grain(a) && a->verdict[VERDICT_GRAIN].state != STATE_NONE;
}

/* How the bucket was changed so far nobody has written down: the rule is said. */
void account_write_steps(struct account *a)
{
    const struct animal_class *c = &a->group->rules;
    a->steps[0] = '\0';
    if (has_bucket(a) && !isnan(c->concentrate_rise_g_day)) {
        snprintf(a->steps, sizeof a->steps, "Let the bucket grow by %g g a head and day at most%s.",
                 c->concentrate_rise_g_day, c->evidence_no_slimming ? ", and give no less than it needs" : "");
    } else if (has_grain(a) && !isnan(c->grain_start_g)) {
        snprintf(a->steps, sizeof a->steps,
                 "New to grain, they begin with %g g a head and reach %g g over the next %g days.", c->grain_start_g,
                 c->grain_end_g, c->grain_step_days);
    }
}

static bool no_bucket_class(const struct account *a)
{
    return has_bucket(a) && a->group->rules.needs_no_bucket;
}

static bool sensitive(const struct account *a)
{
    return has_bucket(a) && a->group->rules.species == SPECIES_EQUID &&
           a->group->rules.level_probability >= a->limits->at_risk_probability;
}

static bool has_coarse(const struct account *a)
{
    for (size_t i = 0; i < a->parts; i++) {
        if (a->part[i].kind == PART_FORAGE && a->part[i].coarse && !a->part[i].hard) {
            return true;
        }
    }
    return false;
}

static bool grazes(const struct account *a)
{
    return a->part[0].dm_kg > 0.0;
}

static bool untested(const struct account *a)
{
    return a->by_table;
}

static bool taped(const struct account *a)
{
    return a->group->weight_error_pct > 0.0;
}

static const struct note {
    bool (*applies)(const struct account *);
    bool general;     /* the same for every group: said once */
    const char *text; /* NULL: the account's steps */
} notes[] = {
    {left_out, false, "The bucket is left out of these sums, and out of the day: no grain for a sore animal."},
    {no_bucket_class, false,
     "This kind of animal needs no bucket at all: ask the vet what it is for, then take it away over "
     "two weeks."},
    {sensitive, false,
     "No cereals, fruit, carrots or treats for an animal at risk: the consensus on insulin-sensitive "
     "horses and ponies."},
    {small_ruminant_grain, false,
     "Hay before grain, whole grain rather than ground. Half as much again as the usual grain "
     "can start a goat's rumen going sour."},
    {has_steps, false, NULL},
    {always, true,
     "Locked up: grain, pellets, bread. An animal that got at them needs the vet before it shows any sign; "
     "signs take 24 to 36 hours. Take the feed away and ring."},
    {always, true,
     "Any change of feed over at least two weeks; from pasture to other feed two to three "
     "weeks."},
    {has_coarse, false, "Straw and coarse hay come in over two to three weeks, and only for good teeth."},
    {grazes, true, "Limits of a meal are for buckets and treats: grass is eaten over hours and has none."},
    {untested, true, "Table values are averages, out by 15 % as a rule: have the forage analysed."},
    {taped, false,
     "The weight is by tape, a tenth out either way, and so is every figure per kg of body weight. Never dose "
     "by it."},
};

size_t account_notes(const struct account *a, bool general, const char **text, size_t most)
{
    size_t n = 0;
    for (size_t i = 0; i < sizeof notes / sizeof notes[0] && n < most; i++) {
        if (notes[i].general == general && notes[i].applies(a)) {
            text[n++] = notes[i].text ? notes[i].text : a->steps;
        }
    }
    assert(n <= most);
    return n;
}

_Static_assert(sizeof notes / sizeof notes[0] <= ACCOUNT_NOTES, "ACCOUNT_NOTES must hold them all");
