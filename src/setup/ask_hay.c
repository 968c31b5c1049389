/* Hay: its kind, how much, what the laboratory says, how it is stored and fed.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "setup/question.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>

static const char list[] = "hay", go_on[] = "go-on", unknown[] = "unknown";

static const char hay_note[] =
    "a lot without nsc_percent is reckoned from tables; kg may stand for bales and bale_kg; soaked may be added";

static bool any(const struct setup *s)
{
    return tree_count(s, list) > 0;
}

static void hays_choices(const struct setup *s, struct choices *c)
{
    (void)s;
    choice_add(c, go_on, "that is all");
    choice_add(c, "add", "one more lot");
    choice_add(c, "anew", "strike all of it out and begin again");
}

static enum err_code hays_take(struct setup *s, const char *answer, struct err *e)
{
    if (strcmp(answer, "anew") == 0) {
        cJSON_DeleteItemFromObjectCaseSensitive(tree_section(s, list, false), "stock");
        answer = "add";
    }
    return more_take(s, list, answer, Q_HAY_END + 1, e);
}

/* The usual ones first, in our words; the others by part of their name. */
static void hay_choices(const struct setup *s, struct choices *c)
{
    static const struct choice usual[] = {
        {"unknown", "not now, or I cannot tell: mature grass hay without a test is assumed"},
        {"grass-hay-mature", "grass hay cut late: stalks, seed heads"},
        {"grass-hay-mid", "grass hay cut early: leafy, soft"},
        {"mixed-hay", "grass with clover or lucerne"},
        {"lucerne-hay-mid", "lucerne (alfalfa)"},
        {"bermuda-hay", "bermuda grass"},
        {"teff-hay", "teff"},
        {"oat-hay-mid", "oat hay"},
        {"grass-silage", "grass silage or haylage"},
        {"wheat-straw", "straw to eat"}};
    size_t n = sizeof usual / sizeof usual[0];
    for (size_t i = 0; i < n; i++) {
        choice_add(c, usual[i].word, usual[i].what);
    }
    c->shown = n;
    for (size_t i = 0; i < s->p->feeds; i++) {
        bool listed = !s->p->feed[i].may_be_hay;
        for (size_t k = 0; k < n; k++) {
            listed = listed || strcmp(usual[k].word, s->p->feed[i].id) == 0;
        }
        if (!listed) {
            choice_add(c, s->p->feed[i].id, s->p->feed[i].name);
        }
    }
}

static bool hay_offer(struct setup *s, char text[ANSWER])
{
    (void)s;
    snprintf(text, ANSWER, "%s", unknown);
    return true;
}

static enum err_code hay_take(struct setup *s, const char *answer, struct err *e)
{
    (void)e;
    s->now.facts.bales = NAN;
    if (strcmp(answer, unknown) == 0) {
        s->next = Q_HAY_END + 1;
        return ERR_OK;
    }
    bool first = !json_get(s->now.root, list);
    cJSON *lot = tree_add(s, list);
    tree_text(s, lot, "feed", answer);
    if (first) {
        tree_text(s, tree_section(s, list, false), "note", hay_note);
    }
    return ERR_OK;
}

static bool unknown_offer(struct setup *s, char text[ANSWER])
{
    (void)s;
    snprintf(text, ANSWER, "%s", unknown);
    return true;
}

static enum err_code bales_take(struct setup *s, const char *answer, struct err *e)
{
    s->now.facts.bales = NAN;
    return strcasecmp(answer, unknown) == 0 ? ERR_OK : measure_read(answer, units_none, &s->now.facts.bales, e);
}

static bool has_bales(const struct setup *s)
{
    return !isnan(s->now.facts.bales);
}

static enum err_code bale_take(struct setup *s, const char *answer, struct err *e)
{
    double kg = NAN;
    enum err_code code = strcasecmp(answer, unknown) == 0 ? ERR_OK : measure_read(answer, units_weight, &kg, e);
    if (code == ERR_OK && !isnan(kg)) {
        cJSON *lot = tree_item(s, list);
        tree_number(s, lot, "bales", s->now.facts.bales);
        tree_number(s, lot, "bale_kg", round(10 * kg) / 10);
    }
    return code;
}

static bool analysis_offer(struct setup *s, char text[ANSWER])
{
    (void)s;
    snprintf(text, ANSWER, "no");
    return true;
}

static enum err_code analysis_take(struct setup *s, const char *answer, struct err *e)
{
    double percent;
    size_t n = strlen(answer);
    char number[ANSWER];
    if (strcasecmp(answer, "no") == 0 || strcasecmp(answer, "none") == 0) {
        return ERR_OK;
    }
    snprintf(number, sizeof number, "%.*s", (int)(n && answer[n - 1] == '%' ? n - 1 : n), answer);
    for (n = strlen(number); n && number[n - 1] == ' '; n--) {
        number[n - 1] = 0;
    }
    enum err_code code = measure_read(number, units_none, &percent, e);
    if (code == ERR_OK) {
        tree_number(s, tree_item(s, list), "nsc_percent", percent);
        tree_text(s, tree_item(s, list), "nsc_is", "wsc+starch");
    }
    return code;
}

static bool is_analysed(const struct setup *s)
{
    return json_get(tree_look(s, list), "nsc_percent") != NULL;
}

static void sum_choices(const struct setup *s, struct choices *c)
{
    (void)s;
    choice_add(c, "wsc+starch", "WSC and starch, or NSC by WSC");
    choice_add(c, "esc+starch", "ESC (simple sugars) and starch: it leaves most fructan out and reads too low");
}

static bool sum_offer(struct setup *s, char text[ANSWER])
{
    snprintf(text, ANSWER, "%s", tree_string(tree_look(s, list), "nsc_is"));
    return true;
}

static enum err_code sum_take(struct setup *s, const char *answer, struct err *e)
{
    (void)e;
    tree_text(s, tree_item(s, list), "nsc_is", answer);
    return ERR_OK;
}

/* Was the loss measured with a species that the holding has? */
static bool is_ours(const struct setup *s, const struct hay_loss *loss)
{
    static const char *const trial[SPECIES_COUNT] = {"goat", "horse", "sheep", "goat", "cattle"};
    const cJSON *item;
    cJSON_ArrayForEach(item, json_get(s->now.root, "animals"))
    {
        const struct animal_class *a = params_animal(s->p, tree_string(item, "class"));
        if (a && strstr(loss->species, trial[a->species])) {
            return true;
        }
    }
    return false;
}

/* Losses of one kind, those of our own species first and "unknown" before all; at most so many
 * are shown, the others are found by name. */
static void loss_choices(const struct setup *s, enum hay_loss_kind kind, size_t shown, struct choices *c)
{
    choice_add(c, unknown, "not said");
    for (int others = 0; others < 2; others++) {
        for (size_t i = 0; i < s->p->losses; i++) {
            const struct hay_loss *loss = &s->p->loss[i];
            if (loss->kind == kind && (loss->species[0] && !is_ours(s, loss)) == others) {
                choice_add(c, loss->id, loss->description);
            }
        }
        c->shown = others ? c->shown : c->n;
    }
    c->shown = c->shown > shown ? shown : c->shown;
}

/* Store, feeder and price are of the winter's plan, which needs to know how much there is. */
static bool is_counted(const struct setup *s)
{
    const cJSON *lot;
    bool counted = false;
    cJSON_ArrayForEach(lot, json_get(json_get(s->now.root, list), "stock"))
    {
        counted = counted || json_get(lot, "bales") || json_get(lot, "kg") || json_get(lot, "m3");
    }
    return counted;
}

static void stored_choices(const struct setup *s, struct choices *c)
{
    enum { SHOWN = 7 }; /* unknown, and inside or outside, covered or not, on ground or stone */
    loss_choices(s, HAY_LOSS_STORAGE, SHOWN, c);
}

static void feeder_choices(const struct setup *s, struct choices *c)
{
    loss_choices(s, HAY_LOSS_FEEDING, CHOICES_MOST, c);
}

static bool loss_offer(const struct setup *s, const char *key, char text[ANSWER])
{
    const char *old = tree_string(json_get(s->now.root, list), key);
    snprintf(text, ANSWER, "%s", old[0] ? old : unknown);
    return true;
}

static enum err_code loss_take(struct setup *s, const char *key, const char *answer)
{
    cJSON *hay = tree_section(s, list, false);
    if (strcmp(answer, unknown) == 0) {
        cJSON_DeleteItemFromObjectCaseSensitive(hay, key);
    } else {
        tree_text(s, hay, key, answer);
    }
    return ERR_OK;
}

static bool stored_offer(struct setup *s, char text[ANSWER])
{
    return loss_offer(s, "stored", text);
}

static enum err_code stored_take(struct setup *s, const char *answer, struct err *e)
{
    (void)e;
    return loss_take(s, "stored", answer);
}

static bool feeder_offer(struct setup *s, char text[ANSWER])
{
    return loss_offer(s, "fed_from", text);
}

static enum err_code feeder_take(struct setup *s, const char *answer, struct err *e)
{
    (void)e;
    return loss_take(s, "fed_from", answer);
}

static bool price_offer(struct setup *s, char text[ANSWER])
{
    const cJSON *old = json_get(json_get(s->now.root, list), "price_per_bale");
    if (cJSON_IsNumber(old)) {
        snprintf(text, ANSWER, "%.10g", old->valuedouble);
    } else {
        snprintf(text, ANSWER, "%s", unknown);
    }
    return true;
}

static enum err_code price_take(struct setup *s, const char *answer, struct err *e)
{
    double price = NAN;
    enum err_code code = strcasecmp(answer, unknown) == 0 ? ERR_OK : measure_read(answer, units_none, &price, e);
    if (code == ERR_OK) {
        tree_number(s, tree_section(s, list, false), "price_per_bale", price);
    }
    return code;
}

const struct question hay_rows[] = {
    {.title = "Hay",
     .ask = "Is there another lot of hay?",
     .more = "Hay of one field and cut is a lot. What the store holds is counted again before winter: sugarlea hay.",
     .applies = any,
     .choices = hays_choices,
     .offer = more_offer,
     .take = hays_take,
     .leads_on = true},
    {.title = "Kind of hay",
     .ask = "What do they get? The nearest will do; other kinds by part of their name.",
     .more =
         "The first lot of the file is the one that each advice reckons with. Sugar cannot be seen: hay cut late may "
         "hold as much as hay cut early, and only a laboratory knows.",
     .choices = hay_choices,
     .offer = hay_offer,
     .take = hay_take},
    {.title = "Bales",
     .ask = "How many of it are in the store?",
     .more =
         "For the plan of the winter, sugarlea hay. unknown leaves the plan out, and what is asked for it; the daily "
         "advice does not need it.",
     .offer = unknown_offer,
     .take = bales_take},
    {.title = "Weight of a bale",
     .ask = "In kg, or in lb with lb behind.",
     .more = "Weigh three: yourself on bathroom scales with the bale, and without. A guess misses by a tenth. unknown "
             "leaves "
             "the bales out.",
     .applies = has_bales,
     .offer = unknown_offer,
     .take = bale_take},
    {.title = "Laboratory test",
     .ask = "Its sugar and starch together (NSC) in % of dry matter, if it was tested; else no.",
     .more = "The report of the laboratory has it, as NSC, or as WSC (or ESC) and starch to be added up. A hay without "
             "a test is reckoned from tables, which may be far off: for an "
             "animal that has had laminitis a test is the best money spent on it.",
     .offer = analysis_offer,
     .take = analysis_take},
    {.title = "Which sum the laboratory gave",
     .ask = "It stands in the report.",
     .more = "WSC holds all sugars that water takes out, fructan too. ESC holds those that alcohol takes out, and most "
             "fructan is missing: a table's figure counts in its place unless it is higher, so ask the laboratory for "
             "WSC.",
     .applies = is_analysed,
     .choices = sum_choices,
     .offer = sum_offer,
     .take = sum_take},
    {.title = "", .again = Q_HAYS},
    {.title = "Store",
     .ask = "How is the hay kept?",
     .more = "It says how much is lost before it is fed. Others by part of their name.",
     .applies = is_counted,
     .choices = stored_choices,
     .offer = stored_offer,
     .take = stored_take},
    {.title = "Feeder",
     .ask = "What is it fed from?",
     .more = "It says how much is trodden in. Take the nearest, or one that was measured with your kind of animal.",
     .applies = is_counted,
     .choices = feeder_choices,
     .offer = feeder_offer,
     .take = feeder_take},
    {.title = "Price of a bale",
     .ask = "In your own money, or unknown.",
     .more = "For the costs in sugarlea hay.",
     .applies = is_counted,
     .offer = price_offer,
     .take = price_take},
};
