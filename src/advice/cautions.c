/* Cautions: a condition and a sentence each, most urgent first. To add one, give it a
 * row. Sources: models/METHOD.md. SPDX-License-Identifier: GPL-3.0-or-later */
#include "advice/advice.h"

#include <assert.h>
#include <math.h>

struct view {
    const struct advice *a;
    const struct advice_animal *animal;
    const struct animal_class *rules;
};

static bool always(const struct view *v)
{
    (void)v;
    return true;
}

static bool is_equid(const struct view *v)
{
    return v->rules->species == SPECIES_EQUID;
}

static bool is_ruminant(const struct view *v)
{
    return !is_equid(v);
}

static bool is_small_ruminant(const struct view *v)
{
    return v->rules->species == SPECIES_GOAT || v->rules->species == SPECIES_SHEEP;
}

static bool is_sore(const struct view *v)
{
    return v->animal->foot_signs || !v->rules->grazing;
}

static bool is_sore_equid(const struct view *v)
{
    return is_sore(v) && is_equid(v);
}

static bool is_sore_ruminant(const struct view *v)
{
    return is_sore(v) && is_ruminant(v);
}

static bool may_starve(const struct view *v)
{
    return is_equid(v) || v->rules->evidence_no_slimming;
}

static bool is_never_slimmed(const struct view *v)
{
    return v->rules->evidence_no_slimming || (v->animal->history & (HISTORY_PREGNANT | HISTORY_LACTATING));
}

static bool has_bucket(const struct view *v)
{
    return v->animal->feds > 0;
}

static bool goes_out(const struct view *v)
{
    return v->a->turnout != TURNOUT_NONE;
}

static bool goes_out_for_a_time(const struct view *v)
{
    return goes_out(v) && v->a->turnout != TURNOUT_FREE;
}

static bool small_ruminant_goes_out(const struct view *v)
{
    return goes_out(v) && is_small_ruminant(v);
}

static bool ruminant_goes_out(const struct view *v)
{
    return goes_out(v) && is_ruminant(v);
}

static bool may_wear_muzzle(const struct view *v)
{
    return v->rules->muzzle_offered && goes_out(v);
}

static bool gets_hay(const struct view *v)
{
    return v->a->hay_kg > 0.0;
}

static bool hay_over(const struct view *v)
{
    return v->a->hay_over;
}

static bool hay_tested_for_esc(const struct view *v)
{
    return gets_hay(v) && !isnan(v->a->hay_esc_pct);
}

static bool hay_untested(const struct view *v)
{
    return gets_hay(v) && !v->a->hay_analysed && !hay_tested_for_esc(v);
}

static bool has_poor_teeth(const struct view *v)
{
    return (v->animal->history & HISTORY_POOR_TEETH) != 0;
}

static const struct caution {
    bool (*applies)(const struct view *);
    const char *text;
} cautions[] = {
    {always, "A lame, stiff, hot-footed or down animal, or one that will not eat, needs a vet today, whatever this "
             "advice says. Will not rise, bloated, staggering: at once."},
    {always, "This is planning help, not a diagnosis."},
    {always, "Local rules and your own vet come before anything printed here."},
    {is_sore, "Do not make a sore animal walk. No medicine without the vet, and mind milk and meat withdrawal."},
    {is_sore_equid, "Cold for the feet helps only early and without a break; the vet says how and how long."},
    {is_sore_ruminant, "Cooling the feet of goats and sheep has no good evidence: ask the vet first."},
    {always, "Grain and buckets belong behind a locked door. An animal that broke in is an emergency before it shows "
             "any sign: take the feed away and ring the vet."},
    {may_starve, "Never starve. Horses, ponies and donkeys stay above 1 % of body weight in forage dry matter unless "
                 "a vet says otherwise; fat, pregnant or milking animals can die of a sharp cut in feed."},
    {is_never_slimmed, "Pregnant, milking and growing animals are never put on a slimming plan."},
    {goes_out, "A low figure is not safe grass: it is reckoned from weather, and grass differs within one field and "
               "one day."},
    {goes_out_for_a_time, "Short turnout holds back less than it seems: three hours can hold a third or more of what "
                          "a whole day would."},
    {goes_out, "After weeks off grass begin with a quarter of an hour and add as much each day, hay first, however "
               "many hours the day would allow."},
    {may_wear_muzzle, "Muzzles are for horses, ponies and donkeys only: check the fit every day, make sure it can "
                      "drink, take it off for part of the day, and never where it could get caught."},
    {ruminant_goes_out, "Hay before grass, so that the rumen has fibre to work with."},
    {small_ruminant_goes_out, "Have clostridial vaccination in date before lush grass, and watch for bloat on the "
                              "left side."},
    {has_bucket, "Change any feed over at least two weeks."},
    {hay_over, "Soaked hay is not tested hay: pour the water away, feed it fresh, balance the minerals, and test it "
               "after soaking."},
    {hay_untested, "The hay's sugar is a table average. Have it analysed, and ask whether the figure is WSC plus "
                   "starch or the lower ESC plus starch."},
    {hay_tested_for_esc, "The hay was tested for ESC plus starch, which reads lower than the limits mean: ask the "
                         "laboratory for WSC plus starch."},
    {gets_hay, "Hay is what the animal eats: add what is wasted, weigh a bale now and then, and keep a reserve."},
    {gets_hay, "Never feed hay that is mouldy, wet or heating, soaked hay included."},
    {has_poor_teeth, "With poor teeth no straw and no coarse dry hay."},
    {is_ruminant, "Figures for goats, sheep, alpacas and cattle lean on common practice and on horses; a vet should "
                  "set them for yours."},
    {always, "A weight from a tape can be a tenth out: look at body condition too, every month."},
    {always, "Clean water, and minerals or salt, always."},
};

_Static_assert(sizeof cautions / sizeof cautions[0] <= ADVICE_CAUTIONS, "ADVICE_CAUTIONS must hold them all");

size_t advice_cautions(const struct advice *a, const struct advice_animal *animal, const char **text, size_t most)
{
    assert(most > 0);
    const struct view v = {a, animal, animal->rules};
    size_t n = 0;
    for (size_t i = 0; i < sizeof cautions / sizeof cautions[0] && n < most; i++) {
        if (cautions[i].applies(&v)) {
            text[n++] = cautions[i].text;
        }
    }
    return n;
}
