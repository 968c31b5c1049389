/* Reasons as sentences for the person who feeds the animal. "Sugar" stands for NSC
 * (WSC and starch, % of dry matter), as the help explains once.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "advice/advice.h"

#include "base/units.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

struct telling {
    const struct advice *a;
    const struct way_back *back;
    const struct animal_class *rules;
    char *text;
    size_t size;
};

static void go_on(const struct telling *t, const char *sentence)
{
    size_t n = strlen(t->text);
    assert(n < t->size);
    snprintf(t->text + n, t->size - n, "%s", sentence);
}

/* While it begins: later the grass is what it is. */
static void way_back_begins(const struct telling *t)
{
    enum { BEGINNING = 3 };
    double low = t->back->grass_low_cm, high = t->back->grass_high_cm;
    char sentence[120];
    if (t->back->day <= BEGINNING && low > 0.0) {
        snprintf(sentence, sizeof sentence, " Best begun on grass of %.0f to %.0f cm (%.0f to %.0f inches).", low, high,
                 low / UNITS_CM_OF_INCH, high / UNITS_CM_OF_INCH);
        go_on(t, sentence);
    }
}

static void way_back(const struct telling *t)
{
    assert(t->back->day <= t->back->days);
    snprintf(t->text, t->size,
             "The way back to grass, day %d of %d: %.0f minutes at most, hay first. Each good day adds a little, "
             "days off take it back, signs begin it anew.",
             t->back->day, t->back->days, t->back->most_h * 60.0);
    way_back_begins(t);
    go_on(t, t->back->after_signs
                 ? " After foot signs only with your vet's agreement: all signs gone and, for horses, ponies and "
                   "donkeys, the insulin normal on the usual hay."
                 : " Days are counted as advised: if it was out in truth, write that down (\"sugarlea help record\", "
                   "turnout).");
}

/* A figure over its limit and that limit, with decimals by which the one reads as over the other: "12.0 %, over the
 * limit of 12 %" would puzzle. */
struct figures {
    char is[32], limit[32];
};

static struct figures figures_over(double x, double limit)
{
    enum { DIGITS_MOST = 3 };
    struct figures f;
    int digits = 0;
    do {
        digits++;
        snprintf(f.is, sizeof f.is, "%.*f", digits, x);
        snprintf(f.limit, sizeof f.limit, "%.*f", digits, limit);
    } while (digits < DIGITS_MOST && strcmp(f.is, f.limit) == 0);
    size_t n = strlen(f.limit); /* "12", not "12.0" */
    while (f.limit[n - 1] == '0') {
        n--;
    }
    f.limit[f.limit[n - 1] == '.' ? n - 1 : n] = '\0';
    return f;
}

enum { RECKONED = 64 };

/* Hours are not judged by such hay, the ration is: without this its two figures would contradict each other. */
static const char *reckoned(const struct telling *t, char *text, size_t size)
{
    text[0] = '\0';
    if (t->a->hay_bounded) {
        snprintf(text, size, " (reckoned with hay of %.3g %%)", t->a->limit_pct);
    }
    return text;
}

/* Hours are judged as if all the grass they bring were there. */
static const char *enough(const struct telling *t)
{
    return t->a->ration.lacking_dm_kg > 0.0 ? " with grass enough" : "";
}

static void hay_over(const struct telling *t)
{
    const struct advice *a = t->a;
    const char *from = a->hay_analysed                   ? ""
                       : isnan(a->hay_esc_pct)           ? " (a table value, not analysed)"
                       : a->hay_nsc_pct > a->hay_esc_pct ? " (a table value: the laboratory gave ESC + starch)"
                                                         : " and more (ESC + starch leaves out most fructan)";
    struct figures f = figures_over(isnan(a->hay_nsc_pct) ? a->hay_esc_pct : a->hay_nsc_pct, t->rules->nsc_caution_pct);
    snprintf(t->text, t->size,
             "First of all the hay: by itself it holds %s %% sugar%s, and the limit for this animal is %s %%. Have it "
             "tested%s or find another hay; soaking helps but is no pass.",
             f.is, from, f.limit, isnan(a->hay_esc_pct) ? "" : " for WSC + starch");
}

static void stop_over(const struct telling *t)
{
    char hay[RECKONED];
    snprintf(t->text, t->size,
             "Even a short time on this grass is too much: the shortest session brings the day's sugar to %.1f %% of "
             "dry matter%s, and an hour would pass the %.3g %% that a short hour may come to. Hay only today.",
             t->a->longer_nsc_pct, reckoned(t, hay, sizeof hay), t->a->stop_pct);
}

static void day_ceiling(const struct telling *t)
{
    bool alone = !(t->a->hours > 0.0) && t->a->ration.nsc_g_kg_bw > t->a->day_ceiling_g_kg;
    snprintf(t->text, t->size,
             "%s pass %.3g g of sugar per kg of body weight in the day, which no horse, pony or donkey should eat.%s",
             alone ? "What it is fed would by itself" : "More would", t->a->day_ceiling_g_kg,
             alone ? " Another hay first." : "");
}

static void within_stop(const struct telling *t)
{
    char hay[RECKONED];
    struct figures f = figures_over(t->a->judged_nsc_pct, t->a->limit_pct);
    snprintf(t->text, t->size,
             "%s the day comes to %s %% sugar%s%s, over the limit of %s %%, yet under the %.3g %% that so short a time "
             "may bring it to.",
             advice_has(t->a, REASON_WAY_BACK) ? "Even so, after hay,"
                                               : "More than an hour is too much. With hay first,",
             f.is, reckoned(t, hay, sizeof hay), enough(t), f.limit, t->a->stop_pct);
}

static void muzzle(const struct telling *t)
{
    char hours[UNITS_TEXT];
    if (t->a->hours_bare > 0.0) {
        snprintf(t->text, t->size, "These hours are with a grazing muzzle on. Without one: %s at most.",
                 units_hours(t->a->hours_bare, hours, sizeof hours));
    } else {
        snprintf(t->text, t->size, "These hours are with a grazing muzzle on. Without one: no grass today.");
    }
}

static void grass_over(const struct telling *t)
{
    const char *is = t->a->hay_over ? "with this hay is" : "is";
    char hay[RECKONED];
    reckoned(t, hay, sizeof hay);
    if (t->a->longer_nsc_pct - t->a->limit_pct < 0.1) { /* the same figure twice would puzzle */
        snprintf(
            t->text, t->size,
            "Longer grazing would bring the day's sugar just over the limit, which for this animal %s %.3g %% of dry "
            "matter%s.",
            is, t->a->limit_pct, hay);
    } else {
        snprintf(
            t->text, t->size,
            "Longer grazing would bring the day's sugar to %.1f %% of dry matter%s; the limit for this animal %s %.3g "
            "%%.",
            t->a->longer_nsc_pct, hay, is, t->a->limit_pct);
    }
}

static void fibre(const struct telling *t)
{
    if (t->a->hay_low_fibre) {
        snprintf(t->text, t->size,
                 "The hay and other forage have less fibre than the %.3g %% this animal needs: add mature hay or good "
                 "straw. Fibre is left out of the hours.",
                 t->rules->min_ndf_pct);
    } else if (t->a->bucket_low_fibre) {
        snprintf(
            t->text, t->size,
            "The bucket takes the ration below the %.3g %% fibre this animal needs, grass or no grass: cut it back "
            "over two weeks, and ask the vet first for one that is in kid, in lamb or milking. Until then little "
            "grass and much hay.",
            t->rules->min_ndf_pct);
    } else {
        snprintf(t->text, t->size,
                 "Young grass is short of fibre: longer grazing would take the ration below the %.3g %% this animal "
                 "needs. Hay first.",
                 t->rules->min_ndf_pct);
    }
}

static void max_hours(const struct telling *t)
{
    char hours[UNITS_TEXT];
    if (t->rules->max_hours > 0.0) {
        snprintf(t->text, t->size, "%s is the most that this animal gets on any day.",
                 units_hours(t->rules->max_hours, hours, sizeof hours));
    } else {
        snprintf(t->text, t->size, "By its limits this animal gets no grass on any day.");
    }
}

static void grass_under(const struct telling *t)
{
    snprintf(t->text, t->size,
             "Even round the clock the day's sugar stays at %.1f %% of dry matter%s, within the limit of %.3g %%.",
             t->a->judged_nsc_pct, enough(t), t->a->limit_pct);
}

static void bucket(const struct telling *t)
{
    bool fed = t->a->bucket_dropped || t->a->ration.bucket_nsc_g_kg > 0.0;
    if (t->a->base_over) {
        char hay[RECKONED];
        struct figures f = figures_over(t->a->judged_base_pct, t->a->limit_pct);
        snprintf(
            t->text, t->size,
            "Without any grass, hay and %s already bring the day's sugar to %s %%%s, over the limit of %s %%. That "
            "is %s, not the grass: with less of it the hours grow.",
            fed ? "bucket" : "the forage fed daily", f.is, reckoned(t, hay, sizeof hay), f.limit,
            fed ? "the bucket" : "that forage");
    } else {
        snprintf(
            t->text, t->size,
            "The bucket is too rich: %.2f g starch, and %.2f g starch and sugar together, per kg of body weight if "
            "given as one meal. Leave it out or ask the vet how to split it.",
            t->a->ration.starch_meal_g_kg, t->a->ration.bucket_nsc_g_kg);
    }
}

static const struct {
    const char *fixed; /* or written by */
    void (*write)(const struct telling *);
} sentences[REASON_COUNT] = {
    [REASON_FOOT_SIGNS] = {.fixed =
                               "Foot signs are in the diary: no grass, no bucket, plain hay, soft bedding, and the "
                               "vet. Do not walk the animal."},
    [REASON_ACUTE] = {.fixed = "This animal is kept as an acute case: no grass until the vet says so, and analysed "
                               "hay only."},
    [REASON_RESTED] = {.fixed =
                           "Its paddock is at rest, by the diary, so all its forage is hay. \"sugarlea record grazed "
                           "PADDOCK\" says when it is grazed again."},
    [REASON_WAY_BACK] = {.write = way_back},
    [REASON_UNKNOWN] = {.fixed = "Something that must be known is missing (the grass, the weight or the animal's "
                                 "limits), so no grazing is advised: hay, until it is known."},
    [REASON_HAY_OVER] = {.write = hay_over},
    [REASON_HAY_UNKNOWN] = {.fixed = "Nobody knows the sugar of this hay, or of a feed in the bucket. It is counted as "
                                     "if it stood just at the limit; have it tested."},
    [REASON_STOP_OVER] = {.write = stop_over},
    [REASON_DAY_CEILING] = {.write = day_ceiling},
    [REASON_KILLING_FROST] = {.fixed =
                                  "A hard frost has killed grass within the last week. Nobody can say how fast dead "
                                  "grass loses its sugar, so there is no all-clear yet, however low it reads."},
    [REASON_WITHIN_STOP] = {.write = within_stop},
    [REASON_MUZZLE] = {.write = muzzle},
    [REASON_GRASS_OVER] = {.write = grass_over},
    [REASON_FIBRE] = {.write = fibre},
    [REASON_MAX_HOURS] = {.write = max_hours},
    [REASON_GRASS_UNDER] = {.write = grass_under},
    [REASON_BUCKET] = {.write = bucket},
    [REASON_FIBRE_UNKNOWN] = {.fixed = "The fibre of this ration could not be checked: the hay or a feed has no fibre "
                                       "figure. Give hay before grass."},
    [REASON_OUR_CAPS] = {.fixed = "Nobody has published a sugar limit for this kind of animal. The limits used are our "
                                  "choice; let your vet set them."},
};

const char *advice_reason_text(enum advice_reason r, const struct advice *a, const struct advice_animal *animal,
                               char *text, size_t size)
{
    assert(r < REASON_COUNT);
    assert(size > 0);
    assert(sentences[r].fixed != NULL || sentences[r].write != NULL);
    if (sentences[r].fixed) {
        return sentences[r].fixed;
    }
    sentences[r].write(&(struct telling){a, &animal->back, animal->rules, text, size});
    return text;
}
