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

enum { DIGITS_MOST = 3 };

/* Decimals with which x, over the limit, reads as over it: "12.0 %, over the limit of 12 %" would puzzle. */
static int digits_over(double x, double limit)
{
    int digits = 1;
    for (double scale = 10.0; digits < DIGITS_MOST && round(x * scale) / scale <= limit; scale *= 10.0) {
        digits++;
    }
    return digits;
}

static void hay_over(const struct telling *t)
{
    const struct advice *a = t->a;
    const char *from = a->hay_analysed                   ? ""
                       : isnan(a->hay_esc_pct)           ? " (a table value, not analysed)"
                       : a->hay_nsc_pct > a->hay_esc_pct ? " (a table value: the laboratory gave ESC + starch)"
                                                         : " and more (ESC + starch leaves out most fructan)";
    snprintf(t->text, t->size,
             "First of all the hay: by itself it holds %.*f %% sugar%s, and the limit for this animal is %.3g %%. Have "
             "it tested%s or find another hay; soaking helps but is no pass.",
             digits_over(a->hay_nsc_pct, t->rules->nsc_caution_pct), a->hay_nsc_pct, from, t->rules->nsc_caution_pct,
             isnan(a->hay_esc_pct) ? "" : " for WSC + starch");
}

static void stop_over(const struct telling *t)
{
    snprintf(
        t->text, t->size,
        "Even a short time on this grass is too much: the shortest session brings the day's sugar to %.1f %% of dry "
        "matter, and an hour would pass the %.3g %% that a short hour may come to. Hay only today.",
        t->a->longer_nsc_pct, t->a->stop_pct);
}

static void day_ceiling(const struct telling *t)
{
    snprintf(t->text, t->size,
             "More would pass %.3g g of sugar per kg of body weight in the day, which no horse, pony or donkey "
             "should eat.",
             t->a->day_ceiling_g_kg);
}

static void within_stop(const struct telling *t)
{
    snprintf(t->text, t->size,
             "%s the day comes to %.*f %% sugar, over the limit of %.3g %%, yet under the %.3g %% that so short "
             "a time may bring it to.",
             advice_has(t->a, REASON_WAY_BACK) ? "Even so, after hay,"
                                               : "More than an hour is too much. With hay first,",
             digits_over(t->a->ration.nsc_pct, t->a->limit_pct), t->a->ration.nsc_pct, t->a->limit_pct, t->a->stop_pct);
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
    if (t->a->longer_nsc_pct - t->a->limit_pct < 0.1) { /* the same figure twice would puzzle */
        snprintf(
            t->text, t->size,
            "Longer grazing would bring the day's sugar just over the limit, which for this animal %s %.3g %% of dry "
            "matter.",
            is, t->a->limit_pct);
    } else {
        snprintf(
            t->text, t->size,
            "Longer grazing would bring the day's sugar to %.1f %% of dry matter; the limit for this animal %s %.3g "
            "%%.",
            t->a->longer_nsc_pct, is, t->a->limit_pct);
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
             "Even round the clock the day's sugar stays at %.1f %% of dry matter, within the limit of %.3g %%.",
             t->a->ration.nsc_pct, t->a->limit_pct);
}

static void bucket(const struct telling *t)
{
    if (t->a->base_nsc_pct > t->a->limit_pct) {
        snprintf(
            t->text, t->size,
            "Without any grass, hay and bucket already bring the day's sugar to %.*f %%, over the limit of %.3g %%. "
            "That is the bucket, not the grass: with less of it the hours grow.",
            digits_over(t->a->base_nsc_pct, t->a->limit_pct), t->a->base_nsc_pct, t->a->limit_pct);
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
