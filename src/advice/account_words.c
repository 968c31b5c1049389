/* Verdicts, soaking and rules of a ration as sentences for the person who feeds.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "advice/account.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>

const char *account_content_key(enum account_content c)
{
    assert(c < CONTENTS);
    static const char *const keys[CONTENTS] = {
        [CONTENT_NSC] = "nsc", [CONTENT_SUGAR] = "sugar", [CONTENT_STARCH] = "starch", [CONTENT_NDF] = "ndf",
        [CONTENT_ADF] = "adf", [CONTENT_CP] = "cp",       [CONTENT_ENERGY] = "energy"};
    return keys[c];
}

const char *account_from_id(enum account_from f)
{
    assert(f <= FROM_NOBODY);
    static const char *const ids[] = {[FROM_MODEL] = "model",
                                      [FROM_ANALYSIS] = "analysed",
                                      [FROM_TABLE] = "table",
                                      [FROM_ESC] = "esc",
                                      [FROM_NOBODY] = "unknown"};
    return ids[f];
}

const char *account_rule_id(enum account_rule r)
{
    assert(r < VERDICTS);
    static const char *const ids[VERDICTS] = {
        [VERDICT_NSC] = "nsc",
        [VERDICT_NSC_DAY] = "nsc-day",
        [VERDICT_STARCH] = "starch-meal",
        [VERDICT_STARCH_DAY] = "starch-day",
        [VERDICT_BUCKET_NSC] = "bucket-nsc-meal",
        [VERDICT_GRAIN] = "grain-meal",
        [VERDICT_CONCENTRATE] = "concentrate",
        [VERDICT_TEETH] = "teeth",
        [VERDICT_FORAGE] = "forage",
        [VERDICT_INTAKE] = "dry-matter",
        [VERDICT_NDF] = "ndf",
        [VERDICT_ADF] = "adf",
    };
    return ids[r];
}

const char *account_state_id(enum account_state s)
{
    assert(s <= STATE_UNSURE);
    static const char *const ids[] = {[STATE_NONE] = "no-limit",
                                      [STATE_WITHIN] = "within",
                                      [STATE_OVER] = "over",
                                      [STATE_UNDER] = "under",
                                      [STATE_UNSURE] = "not-sure"};
    return ids[s];
}

/* What each rule is about: "NAME VALUE UNIT (most LIMIT)". */
static const struct measure {
    const char *name, *unit;
    int decimals;
    bool at_least;
} measures[VERDICTS] = {
    [VERDICT_NSC] = {"sugar and starch", "% of dry matter", 1, false},
    [VERDICT_NSC_DAY] = {"sugar and starch of the day", "g a kg of body weight", 1, false},
    [VERDICT_STARCH] = {"starch of the bucket as one meal", "g a kg of body weight", 2, false},
    [VERDICT_STARCH_DAY] = {"starch of the bucket in the day", "g a kg of body weight", 2, false},
    [VERDICT_BUCKET_NSC] = {"sugar and starch of the bucket as one meal", "g a kg of body weight", 2, false},
    [VERDICT_GRAIN] = {"grain as one meal", "kg", 2, false},
    [VERDICT_CONCENTRATE] = {"concentrate", "% of dry matter", 1, false},
    [VERDICT_TEETH] = {"straw and coarse dry hay", "kg", 2, false},
    [VERDICT_FORAGE] = {"forage", "% of body weight", 2, true},
    [VERDICT_INTAKE] = {"dry matter", "% of body weight", 2, true},
    [VERDICT_NDF] = {"fibre (NDF)", "% of dry matter", 1, true},
    [VERDICT_ADF] = {"fibre (ADF)", "% of dry matter", 1, true},
};

struct telling {
    const struct account *a;
    const struct account_verdict *v;
    char *text;
    size_t size;
};

static void nsc_over(const struct telling *t)
{
    const struct account *a = t->a;
    const struct account_part *hay = &a->part[1];
    bool bucket = account_has(a, PART_BUCKET);
    if (hay->content[CONTENT_NSC] > t->v->limit) {
        snprintf(t->text, t->size,
                 "The hay alone holds %.1f %%%s: have it tested%s or find another; soaking helps and is no pass.%s",
                 hay->content[CONTENT_NSC],
                 hay->from == FROM_ANALYSIS ? ""
                 : hay->from != FROM_TABLE  ? " and more, as ESC + starch leaves out most fructan"
                 : a->esc                   ? " by a table"
                                            : ", by a table and not analysed",
                 a->esc ? " for WSC" : "",
                 a->advice->base_over && bucket ? " The bucket comes on top: cut it first." : "");
    } else if (a->hay_only_nsc_pct > t->v->limit) {
        snprintf(t->text, t->size, "Hay and %s make %.1f %% without a blade of grass: %s first.",
                 bucket ? "bucket" : "what is fed with it", a->hay_only_nsc_pct,
                 bucket ? "cut the bucket" : "another forage in its place");
    } else {
        snprintf(t->text, t->size,
                 "That is the grass: an hour at most, after hay, stays under the last limit of %.3g %%. Without it the "
                 "day makes %.1f %%.",
                 a->advice->stop_pct, a->hay_only_nsc_pct);
    }
}

static void nsc_unsure(const struct telling *t)
{
    if (t->a->esc) {
        snprintf(
            t->text, t->size,
            "The hay's figure is ESC + starch, which leaves out most fructan and reads lower than the WSC + starch "
            "that the limit is meant for: ask the laboratory for WSC.");
    } else {
        snprintf(t->text, t->size,
                 "Nobody knows the sugar of some of it: counted as if it stood at the limit. Have it tested.");
    }
}

static void day_over(const struct telling *t)
{
    snprintf(t->text, t->size, "No horse, pony or donkey should eat so much in a day: another hay, and less bucket.");
}

/* Splitting helps against one big meal of starch; the insulin of a sensitive animal it
 * may not help, so there the vet is asked. */
static void meal_over(const struct telling *t)
{
    assert(t->v->limit > 0.0 && t->v->value > t->v->limit);
    int meals = (int)ceil(t->v->value / t->v->limit - 1e-9);
    snprintf(t->text, t->size,
             "At most %.0f %% of it at once: leave the rest out, or split it into %d or more meals, hours apart.",
             floor(100.0 * t->v->limit / t->v->value), meals);
}

static void bucket_nsc_over(const struct telling *t)
{
    assert(t->v->value > 0.0);
    snprintf(
        t->text, t->size,
        "At most %.0f %% of it stays under the limit: leave it out, and ask the vet before giving it in more meals.",
        floor(100.0 * t->v->limit / t->v->value));
}

static void starch_day_over(const struct telling *t)
{
    assert(t->v->value > 0.0);
    snprintf(t->text, t->size, "More meals do not help here: at most %.0f %% of it in the day.",
             floor(100.0 * t->v->limit / t->v->value));
}

static void concentrate_over(const struct telling *t)
{
    snprintf(t->text, t->size, "Too much for the rumen: cut the bucket back over two weeks, with hay in its place%s.",
             t->a->group->rules.evidence_no_slimming ? ", and ask the vet first" : "");
}

/* What fills its place is hay: the amount of forage stays. */
static void teeth_over(const struct telling *t)
{
    enum { LOT, STRAW, FED_HAY, KINDS };
    const char *want[KINDS] = {NULL};
    size_t at = 0;
    for (size_t i = 0; i < t->a->parts; i++) {
        const struct account_part *p = &t->a->part[i];
        if (p->hard && p->dm_kg > 0.0 && p->kind == PART_HAY) {
            want[LOT] = advice_teeth_text(t->a->animal);
        } else if (p->hard && p->dm_kg > 0.0 && p->straw) {
            want[STRAW] = "Leave the straw out, soaked or not: soft hay in its place.";
        } else if (p->hard && p->dm_kg > 0.0) {
            want[FED_HAY] = "Soak the hay that is fed daily, or give a softer one, and no less.";
        }
    }
    for (int k = 0; k < KINDS && at < t->size; k++) {
        at += want[k] ? (size_t)snprintf(t->text + at, t->size - at, "%s%s", at ? " " : "", want[k]) : 0;
    }
}

static void forage_under(const struct telling *t)
{
    snprintf(t->text, t->size, "Too little: give more hay, and ask the vet before any cut below this.");
}

static void fibre_under(const struct telling *t)
{
    const struct advice *x = t->a->advice;
    snprintf(t->text, t->size, "%s",
             x->hay_low_fibre      ? "The forage itself is short of fibre: add mature hay or good straw."
             : x->bucket_low_fibre ? "The bucket does that: cut it back over two weeks, and ask the vet first for an "
                                     "animal in kid, in lamb or milking."
                                   : "More hay before grass.");
}

static void fibre_unsure(const struct telling *t)
{
    snprintf(t->text, t->size, "The hay or a feed has no fibre figure: have the forage analysed, and give hay first.");
}

static void adf_unsure(const struct telling *t)
{
    snprintf(t->text, t->size, "%s",
             isnan(t->v->value) ? "A feed has no ADF figure: have the forage analysed for it."
                                : "The table's ADF is too unsure to judge by: have the forage analysed for it.");
}

/* What follows from a verdict that is not "within". */
static void (*const advices[VERDICTS])(const struct telling *) = {
    [VERDICT_NSC_DAY] = day_over,
    [VERDICT_STARCH] = meal_over,
    [VERDICT_STARCH_DAY] = starch_day_over,
    [VERDICT_BUCKET_NSC] = bucket_nsc_over,
    [VERDICT_GRAIN] = meal_over,
    [VERDICT_FORAGE] = forage_under,
    [VERDICT_INTAKE] = forage_under,
    [VERDICT_ADF] = adf_unsure,
    [VERDICT_TEETH] = teeth_over,
    [VERDICT_CONCENTRATE] = concentrate_over,
};

static void tell_what_to_do(enum account_rule r, const struct telling *t)
{
    assert(t->size > 0);
    t->text[0] = '\0';
    if (t->v->state == STATE_WITHIN || t->v->state == STATE_NONE) {
        return;
    }
    if (r == VERDICT_NSC) {
        (t->v->state == STATE_OVER ? nsc_over : nsc_unsure)(t);
    } else if (r == VERDICT_NDF) {
        (t->v->state == STATE_UNDER ? fibre_under : fibre_unsure)(t);
    } else if (t->v->state != STATE_UNSURE || r == VERDICT_ADF) {
        assert(advices[r] != NULL);
        advices[r](t);
    } else {
        snprintf(t->text, t->size, "A figure of the feed is missing.");
    }
}

static bool is_weighed(enum account_rule r)
{
    return r == VERDICT_GRAIN || r == VERDICT_TEETH;
}

static double in_units(enum account_rule r, enum units u, double x)
{
    return is_weighed(r) ? units_value(u, AMOUNT_MASS, x) : x;
}

/* "sugar and starch 10.4 % of dry matter (most 10): 0.4 over. What to do." */
const char *account_verdict_text(const struct account *a, enum account_rule r, enum units u, char *text, size_t size)
{
    assert(r < VERDICTS);
    const struct account_verdict *v = &a->verdict[r];
    const struct measure *m = &measures[r];
    char value[32] = "not known", by[48] = "", advice[512];
    double is = in_units(r, u, v->value), limit = in_units(r, u, v->limit), off = fabs(is - limit);
    if (isfinite(is)) {
        snprintf(value, sizeof value, "%.*f %s", m->decimals, is, is_weighed(r) ? units_name(u, AMOUNT_MASS) : m->unit);
    }
    if (v->state == STATE_OVER || v->state == STATE_UNDER) {
        bool shown = off >= pow(10.0, -m->decimals); /* else the same figure twice would puzzle */
        snprintf(by, sizeof by, ": %.*f %s", m->decimals, off, account_state_id(v->state));
        if (!shown) {
            snprintf(by, sizeof by, ": just %s", account_state_id(v->state));
        }
    }
    tell_what_to_do(r, &(struct telling){a, v, advice, sizeof advice});
    snprintf(text, size, "%s %s (%s %.3g)%s%s%s", m->name, value, m->at_least ? "least" : "most", limit, by,
             advice[0] ? ". " : "", advice);
    return text;
}
