/* Animals: kind and stage and trouble to class and history, weight, place, bucket.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/units.h"
#include "setup/kinds.h"
#include "setup/question.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>

#define WEIGHT_FAR 1.8 /* times the usual weight: pounds taken for kilograms are 2.2 times (our judgement) */

static const char list[] = "animals", go_on[] = "go-on", none[] = "none";

static const char animal_note[] =
    "girth_cm and length_cm may stand for weight_kg; limits, for what the vet has set, may be added";

static bool any(const struct setup *s)
{
    return tree_count(s, list) > 0;
}

static void more_choices(const struct setup *s, struct choices *c)
{
    const cJSON *item;
    choice_add(c, go_on, "these are all");
    choice_add(c, "add", "one more group");
    cJSON_ArrayForEach(item, json_get(s->now.root, list))
    {
        choice_add(c, tree_string(item, "id"), "go through this group again");
    }
}

static enum err_code animals_take(struct setup *s, const char *answer, struct err *e)
{
    return more_take(s, list, answer, Q_ANIMAL_END + 1, e);
}

static void kind_choices(const struct setup *s, struct choices *c)
{
    (void)s;
    c->open = true;
    for (size_t i = 0; i < KINDS; i++) {
        choice_add(c, kinds[i].word, kinds[i].what);
    }
}

static bool kind_offer(struct setup *s, char text[ANSWER])
{
    const char *old = tree_string(tree_look(s, list), "class");
    snprintf(text, ANSWER, "%s", old);
    return old[0] != 0;
}

static cJSON *animal(struct setup *s)
{
    cJSON *item = tree_item(s, list);
    if (!item) {
        bool first = !any(s);
        item = tree_add(s, list);
        if (first) {
            tree_text(s, item, "note", animal_note);
        }
        tree_text(s, item, "paddock", tree_string(cJSON_GetArrayItem(json_get(s->now.root, "paddocks"), 0), "id"));
        tree_number(s, item, "count", 1);
        tree_keep(s, item, "history", tree_list(s));
        tree_keep(s, item, "fed_daily", tree_list(s));
    }
    return item;
}

/* What was known of an animal of another kind holds no longer. */
static void change_class(struct setup *s, const char *class, const char *id)
{
    cJSON *item = animal(s);
    char unique[LIMIT_NAME];
    const char *old = tree_string(item, "class");
    if (!tree_string(item, "id")[0]) {
        tree_unique(s, list, id, unique);
        tree_text(s, item, "id", unique);
    }
    if (strcmp(old, class) != 0) {
        const struct animal_class *before = params_animal(s->p, old), *after = params_animal(s->p, class);
        if (before && after && before->species != after->species) {
            tree_number(s, item, "weight_kg", NAN);
            tree_number(s, item, "girth_cm", NAN);
            tree_number(s, item, "length_cm", NAN);
            cJSON_DeleteItemFromObjectCaseSensitive(item, "limits");
        }
        tree_keep(s, item, "history", tree_list(s));
        tree_text(s, item, "class", class);
    }
}

static unsigned trouble_of(const char *class, const cJSON *words)
{
    const cJSON *item;
    unsigned history = 0;
    cJSON_ArrayForEach(item, words)
    {
        for (unsigned i = 0; i < HISTORY_WORDS; i++) {
            history |= strcmp(history_words[i], item->valuestring) == 0 ? 1u << i : 0u;
        }
    }
    return trouble_had(class, history);
}

static enum err_code kind_take(struct setup *s, const char *answer, struct err *e)
{
    s->now.facts.kind = kind_find(answer);
    s->now.facts.stage = s->now.facts.kind < 0 ? -1 : (int)(kind_first_stage(s->now.facts.kind) - stages);
    if (s->now.facts.kind < 0 && !params_animal(s->p, answer)) {
        if (!strchr(answer, '-')) {
            return err_set(e, ERR_USAGE,
                           "\"%.40s\" is none of goat, sheep, pony, horse, donkey, alpaca, cattle; type the one that "
                           "is nearest to "
                           "it",
                           answer);
        }
        return params_unknown(s->p, PARAMS_ANIMAL, answer, e);
    }
    const char *old = tree_string(tree_look(s, list), "class");
    snprintf(s->now.facts.was, sizeof s->now.facts.was, "%s", old);
    s->now.facts.had = trouble_of(old, json_get(tree_look(s, list), "history"));
    change_class(s, s->now.facts.kind < 0 ? answer : kind_first_stage(s->now.facts.kind)->own, answer);
    return ERR_OK;
}

static size_t count_stages(int kind)
{
    size_t n = 0;
    for (size_t i = 0; i < stage_count; i++) {
        n += (int)stages[i].kind == kind;
    }
    return n;
}

static bool stage_applies(const struct setup *s)
{
    return s->now.facts.kind >= 0 && count_stages(s->now.facts.kind) > 1;
}

static void stage_choices(const struct setup *s, struct choices *c)
{
    for (size_t i = 0; i < stage_count; i++) {
        if ((int)stages[i].kind == s->now.facts.kind) {
            choice_add(c, stages[i].name.word, stages[i].name.what);
        }
    }
}

static bool stage_offer(struct setup *s, char text[ANSWER])
{
    const struct stage *g = kind_first_stage(s->now.facts.kind);
    for (size_t i = 0; i < stage_count; i++) {
        bool was = (int)stages[i].kind == s->now.facts.kind && strcmp(stages[i].own, s->now.facts.was) == 0;
        g = was && !stages[i].always ? &stages[i] : g;
    }
    snprintf(text, ANSWER, "%s", g->name.word);
    return true;
}

static enum err_code stage_take(struct setup *s, const char *answer, struct err *e)
{
    (void)e;
    for (size_t i = 0; i < stage_count; i++) {
        if ((int)stages[i].kind == s->now.facts.kind && strcmp(stages[i].name.word, answer) == 0) {
            s->now.facts.stage = (int)i;
            change_class(s, stages[i].own, answer);
        }
    }
    return ERR_OK;
}

static bool trouble_applies(const struct setup *s)
{
    return s->now.facts.kind >= 0;
}

static void trouble_choices(const struct setup *s, struct choices *c)
{
    c->several = true;
    choice_add(c, none, "none of these");
    for (unsigned i = 0; i < TROUBLES; i++) {
        if (trouble_allowed(s->p, &stages[s->now.facts.stage], (enum trouble)(1u << i))) {
            choice_add(c, troubles[i].word, trouble_what(i, s->now.facts.kind));
        }
    }
}

/* What the file says of the group already; Enter must not heal an animal. */
static bool trouble_offer(struct setup *s, char text[ANSWER])
{
    size_t used = 0;
    for (unsigned i = 0; i < TROUBLES; i++) {
        bool had = s->now.facts.had & 1u << i;
        if (had && trouble_allowed(s->p, &stages[s->now.facts.stage], (enum trouble)(1u << i))) {
            used += (size_t)snprintf(text + used, ANSWER - used, "%s%s", used ? ", " : "", troubles[i].word);
        }
    }
    if (used == 0) {
        snprintf(text, ANSWER, "%s", none);
    }
    return true;
}

static enum err_code trouble_take(struct setup *s, const char *answer, struct err *e)
{
    const struct stage *g = &stages[s->now.facts.stage];
    char copy[ANSWER], *rest = NULL;
    unsigned trouble = 0, history;
    bool nothing = false;
    snprintf(copy, sizeof copy, "%s", answer);
    for (char *one = strtok_r(copy, ",", &rest); one; one = strtok_r(NULL, ",", &rest)) {
        nothing = nothing || strcmp(one, none) == 0;
        for (unsigned i = 0; i < TROUBLES; i++) {
            trouble |= strcmp(one, troubles[i].word) == 0 ? 1u << i : 0u;
        }
    }
    if (nothing && trouble) {
        return err_set(e, ERR_USAGE, "\"none\" does not go with another answer");
    }
    const char *class = stage_class(g, trouble, &history);
    change_class(s, class, class);
    cJSON *words = tree_list(s);
    for (unsigned i = 0; i < HISTORY_WORDS; i++) {
        if (history & 1u << i) {
            tree_push(s, words, cJSON_CreateString(history_words[i]));
        }
    }
    tree_keep(s, animal(s), "history", words);
    setup_say(s, "Advised by the rules of the class %s: %s.", class, params_animal(s->p, class)->description);
    return ERR_OK;
}

static bool group_offer(struct setup *s, char text[ANSWER])
{
    snprintf(text, ANSWER, "%s", tree_string(tree_look(s, list), "id"));
    return true;
}

static enum err_code group_take(struct setup *s, const char *answer, struct err *e)
{
    char id[LIMIT_NAME];
    (void)e;
    make_id(answer, id);
    if (strcmp(id, answer) != 0) {
        setup_say(s, "Written as %s.", id);
    }
    tree_text(s, animal(s), "id", id);
    return ERR_OK;
}

static bool is_new(const struct setup *s)
{
    const cJSON *old = s->now.facts.elsewhere ? NULL : json_get(s->old, list), *item;
    cJSON_ArrayForEach(item, old)
    {
        if (strcmp(tree_string(item, "id"), tree_string(tree_look(s, list), "id")) == 0) {
            return false;
        }
    }
    return true;
}

static double number_of(const struct setup *s, const char *key)
{
    const cJSON *item = json_get(tree_look(s, list), key);
    return cJSON_IsNumber(item) ? item->valuedouble : (double)NAN;
}

static bool count_offer(struct setup *s, char text[ANSWER])
{
    double n = number_of(s, "count");
    snprintf(text, ANSWER, "%.0f", isnan(n) ? 1 : n);
    return true;
}

static enum err_code count_take(struct setup *s, const char *answer, struct err *e)
{
    double n;
    enum err_code code = measure_read(answer, units_none, &n, e);
    if (code == ERR_OK) {
        tree_number(s, animal(s), "count", n);
    }
    return code;
}

/* Of the kind rather than of the class, which may stand for ponies and horses alike. */
static double typical_kg(const struct setup *s)
{
    const char *class = tree_string(tree_look(s, list), "class");
    bool pony_mare = s->now.facts.kind >= 0 && strncmp(class, "mare-", 5) == 0;
    bool shared = strncmp(class, "equid-", 6) == 0 || pony_mare;
    const char *named = s->now.facts.kind >= 0 && shared ? kind_first_stage(s->now.facts.kind)->own : class;
    const struct animal_class *a = params_animal(s->p, named);
    return a ? a->weight_kg : (double)NAN;
}

static bool weight_offer(struct setup *s, char text[ANSWER])
{
    double girth = number_of(s, "girth_cm"), length = number_of(s, "length_cm"), kg = number_of(s, "weight_kg");
    if (!isnan(girth)) {
        snprintf(text, ANSWER, "girth %.6g length %.6g", girth, length);
    } else {
        snprintf(text, ANSWER, "%.6g kg", isnan(kg) ? typical_kg(s) : kg);
    }
    return true;
}

static void weight_before(struct setup *s)
{
    double kg = typical_kg(s);
    if (isnan(number_of(s, "weight_kg")) && isnan(number_of(s, "girth_cm"))) {
        buf_add(&s->say, "\n");
        setup_say(s, "Such animals weigh about %.0f kg (%.0f lb).", kg, kg / UNITS_KG_OF_LB);
    }
}

/* "girth 152 length 134", "152 x 134 cm", "60 in x 53 in". False: no tape. */
static bool split_tape(const char *answer, char girth[ANSWER], char length[ANSWER])
{
    const char *x = strcasestr(answer, " x "), *l = strcasestr(answer, "length"), *g = strcasestr(answer, "girth");
    const char *cut = l ? l : x;
    if (!cut || (l && !g) || (g && l < g)) {
        return false;
    }
    const char *from = g ? g + strlen("girth") : answer, *to = cut + (l ? strlen("length") : strlen(" x "));
    from += strspn(from, " :=");
    to += strspn(to, " :=");
    int n = (int)(cut > from ? cut - from : 0);
    while (n && strchr(" ,;", from[n - 1])) {
        n--;
    }
    snprintf(girth, ANSWER, "%.*s", n, from);
    snprintf(length, ANSWER, "%s", to);
    return true;
}

/* A weight in pounds without the word is twice what it should be. */
static void say_far(struct setup *s, double kg)
{
    double usual = typical_kg(s);
    if (kg > WEIGHT_FAR * usual || kg < usual / WEIGHT_FAR) {
        setup_say(s, "That is %.0f kg (%.0f lb), and such animals weigh about %.0f kg: if it is wrong, type back.", kg,
                  kg / UNITS_KG_OF_LB, usual);
    }
}

static enum err_code weight_take(struct setup *s, const char *answer, struct err *e)
{
    char girth[ANSWER], length[ANSWER];
    double kg = NAN, girth_cm = NAN, length_cm = NAN;
    enum err_code code;
    if (split_tape(answer, girth, length)) {
        code = measure_read(girth, units_tape, &girth_cm, e);
        code = code == ERR_OK ? measure_read(length, units_tape, &length_cm, e) : code;
    } else {
        code = measure_read(answer, units_weight, &kg, e);
    }
    if (code == ERR_OK) {
        cJSON *item = animal(s);
        say_far(s, kg);
        tree_number(s, item, "weight_kg", round(10 * kg) / 10);
        tree_number(s, item, "girth_cm", round(10 * girth_cm) / 10);
        tree_number(s, item, "length_cm", round(10 * length_cm) / 10);
    }
    return code;
}

static bool where_applies(const struct setup *s)
{
    return tree_count(s, "paddocks") > 1;
}

static void where_choices(const struct setup *s, struct choices *c)
{
    const cJSON *item;
    cJSON_ArrayForEach(item, json_get(s->now.root, "paddocks"))
    {
        choice_add(c, tree_string(item, "id"), "");
    }
}

static bool where_offer(struct setup *s, char text[ANSWER])
{
    const char *old = tree_string(tree_look(s, list), "paddock");
    snprintf(text, ANSWER, "%s", old);
    return old[0] != 0;
}

static enum err_code where_take(struct setup *s, const char *answer, struct err *e)
{
    (void)e;
    tree_text(s, animal(s), "paddock", answer);
    return ERR_OK;
}

static bool fed_offer(struct setup *s, char text[ANSWER])
{
    bool fed = cJSON_GetArraySize(json_get(tree_look(s, list), "fed_daily")) > 0;
    snprintf(text, ANSWER, "%s", fed ? AS_IT_IS : none);
    return true;
}

static enum err_code fed_take(struct setup *s, const char *answer, struct err *e)
{
    cJSON *entries = tree_list(s);
    bool nothing = strcasecmp(answer, none) == 0, as_it_is = strcmp(answer, AS_IT_IS) == 0;
    enum err_code code = nothing || as_it_is ? ERR_OK : feeds_read(s, answer, entries, e);
    if (code == ERR_OK && !as_it_is) {
        tree_keep(s, animal(s), "fed_daily", entries);
    } else {
        cJSON_Delete(entries);
    }
    return code;
}

const struct question animal_rows[] = {
    {.title = "Animals",
     .ask = "Is there another group, or one to go through again?",
     .more = "Animals of one kind, stage and history that go out together are one group. One that has had laminitis "
             "is a group of its own, so that the others need not wait for it.",
     .applies = any,
     .choices = more_choices,
     .offer = more_offer,
     .take = animals_take,
     .leads_on = true},
    {.title = "Kind of animal",
     .key = true,
     .ask = "Which kind? One group after another.",
     .more =
         "Animals of one kind, stage and history that go out together are one group. A class of README.md may be typed "
         "too, such as equid-at-risk; nothing is then asked of stage and history.",
     .option = "animal",
     .choices = kind_choices,
     .offer = kind_offer,
     .take = kind_take},
    {.title = "Stage of life",
     .key = true,
     .ask = "What are they at present?",
     .more =
         "It decides how much they eat and what they must never go short of. There are no rules for foals and lambs: "
         "with their mothers, they are counted by them; by themselves, ask your vet.",
     .applies = stage_applies,
     .choices = stage_choices,
     .offer = stage_offer,
     .take = stage_take},
    {.title = "Health",
     .key = true,
     .ask = "Has one of the group any of these, or had it? Several may be named: 2, 4.",
     .more =
         "It makes the rules stricter, and never makes the animal eat less. If you are not sure, name it, and ask your "
         "vet. An animal that is lame now, leans back or has hot feet needs the vet today, whatever is advised: write "
         "that into the diary when you are done here, sugarlea record foot-signs.",
     .applies = trouble_applies,
     .choices = trouble_choices,
     .offer = trouble_offer,
     .take = trouble_take},
    {.title = "Name of the group",
     .ask = "One word, as you will write it in the diary.",
     .more = "Such as milkers or grey-pony: letters, digits and hyphens.",
     .applies = is_new,
     .offer = group_offer,
     .take = group_take},
    {.title = "How many",
     .key = true,
     .ask = "Animals in this group, as a number.",
     .option = "count",
     .offer = count_offer,
     .take = count_take},
    {.title = "Weight of one",
     .key = true,
     .ask = "In kg, or 610 lb; or by tape: girth 152 length 134 (cm, or in behind each).",
     .more =
         "Girth: round the chest behind the elbow. Length: point of the shoulder to point of the buttock. A tape is a "
         "tenth out either way, and never to dose by. Of several animals the middle one. A weight in the diary counts "
         "before this one.",
     .option = "weight",
     .before = weight_before,
     .offer = weight_offer,
     .take = weight_take},
    {.title = "Where they go",
     .ask = "On which paddock?",
     .more = "The one they are on now. The file can be changed when they move.",
     .applies = where_applies,
     .choices = where_choices,
     .offer = where_offer,
     .take = where_take},
    {.title = "Bucket feed and straw",
     .ask = "What each gets a day beside hay and grass: oats 0.5 kg, beet pulp plain 4 oz. Or none.",
     .more = "By part of its name: oats, barley, maize, beet pulp, bran, soy hulls, pellets, carrots, apples, bread, "
             "straw, willow (browse) ... and how much a head and day, as you weigh it. Of a bought mix take what it is "
             "mostly made of; minerals are left out.",
     .offer = fed_offer,
     .take = fed_take},
    {.title = "", .again = Q_ANIMALS},
};
