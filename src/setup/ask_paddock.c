/* Paddocks: grass by what is seen, soil by feel, manure, and how it is kept.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "setup/question.h"

#include "base/json_scan.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>

static const char list[] = "paddocks", go_on[] = "go-on", add[] = "add", cut_first[] = "06-20", unknown[] = "unknown";

static const char paddock_note[] =
    "kept may also be stocked, rested, or cut on dates; cover_kg_dm_ha may stand for height_cm";

static bool any(const struct setup *s)
{
    return tree_count(s, list) > 0;
}

static const char *paddock_text(const struct setup *s, const char *key)
{
    return tree_string(tree_look(s, list), key);
}

static void more_choices(const struct setup *s, struct choices *c)
{
    const cJSON *item;
    choice_add(c, go_on, "these are all");
    choice_add(c, add, "one more");
    cJSON_ArrayForEach(item, json_get(s->now.root, list))
    {
        choice_add(c, tree_string(item, "id"), "go through this one again");
    }
}

bool more_offer(struct setup *s, char text[ANSWER])
{
    (void)s;
    snprintf(text, ANSWER, "%s", go_on);
    return true;
}

enum err_code more_take(struct setup *s, const char *what, const char *answer, enum question_id after, struct err *e)
{
    size_t n = tree_count(s, what), i = 0;
    s->now.item = 0;
    if (strcmp(answer, go_on) == 0) {
        s->next = after;
        return ERR_OK;
    }
    for (s->now.item = 0; i < n && strcmp(answer, add) != 0; i++) {
        s->now.item = i;
        if (strcmp(tree_string(tree_look(s, what), "id"), answer) == 0) {
            return ERR_OK;
        }
    }
    s->now.item = n;
    (void)e;
    return ERR_OK;
}

static enum err_code paddocks_take(struct setup *s, const char *answer, struct err *e)
{
    return more_take(s, list, answer, Q_PADDOCK_END + 1, e);
}

static bool is_new(const struct setup *s)
{
    return s->now.item >= tree_count(s, list);
}

static bool paddock_offer(struct setup *s, char text[ANSWER])
{
    char id[LIMIT_NAME];
    tree_unique(s, list, "paddock", id);
    snprintf(text, ANSWER, "%s", id);
    return true;
}

void make_id(const char *answer, char id[LIMIT_NAME])
{
    char whole[ANSWER];
    size_t n = 0;
    for (; *answer && n + 1 < sizeof whole; answer++) {
        unsigned char c = (unsigned char)*answer;
        if (c == ' ') {
            whole[n++] = '-';
        } else if (c != '\'' && c != ',') {
            whole[n++] = (char)tolower(c);
        }
    }
    whole[n] = 0;
    snprintf(id, LIMIT_NAME, "%.*s", (int)json_scan_cut(whole, LIMIT_NAME - 1), whole);
}

static enum err_code paddock_take(struct setup *s, const char *answer, struct err *e)
{
    char id[LIMIT_NAME], free_id[LIMIT_NAME];
    make_id(answer, id);
    tree_unique(s, list, id, free_id);
    if (strcmp(id, free_id) != 0) {
        return err_set(e, ERR_USAGE, "there is a paddock called %s already: give it another name", id);
    }
    bool first = !any(s);
    cJSON *paddock = tree_add(s, list);
    tree_text(s, paddock, "id", id);
    tree_number(s, paddock, "area_ha", 1);
    if (first) {
        tree_text(s, paddock, "note", paddock_note);
    }
    if (strcmp(id, answer) != 0) {
        setup_say(s, "Written as %s.", id);
    }
    return ERR_OK;
}

static bool area_offer(struct setup *s, char text[ANSWER])
{
    const cJSON *area = json_get(tree_look(s, list), "area_ha");
    snprintf(text, ANSWER, "%.6g ha", cJSON_IsNumber(area) ? area->valuedouble : 1);
    return true;
}

static enum err_code area_take(struct setup *s, const char *answer, struct err *e)
{
    double ha;
    enum err_code code = measure_read(answer, units_area, &ha, e);
    if (code == ERR_OK) {
        tree_number(s, tree_item(s, list), "area_ha", round(1e4 * ha) / 1e4);
    }
    return code;
}

static void grass_choices(const struct setup *s, struct choices *c)
{
    double latitude = fabs(cJSON_GetNumberValue(json_get(json_get(s->now.root, "site"), "latitude")));
    c->open = true;
    for (size_t i = 0; i < s->p->looks; i++) {
        choice_add(c, s->p->look[i].id, s->p->look[i].seen);
        c->shown += !(latitude > s->p->look[i].to_latitude); /* those that may be hidden come last */
    }
}

static bool grass_offer(struct setup *s, char text[ANSWER])
{
    snprintf(text, ANSWER, "%s", json_get(tree_look(s, list), "grass") ? AS_IT_IS : unknown);
    return true;
}

static int find_look(const struct setup *s, const char *word)
{
    for (size_t i = 0; i < s->p->looks; i++) {
        if (strcmp(s->p->look[i].id, word) == 0) {
            return (int)i;
        }
    }
    return -1;
}

/* The shares of a look, the clover's taken off all of them alike. */
static void write_mixture(struct setup *s, const struct sward_look *look, double clover)
{
    cJSON *mix = tree_object(s);
    for (size_t i = 0; i < STARTER_GRASSES; i++) {
        if (!isnan(look->share[i])) {
            tree_number(s, mix, starter_grass(i), look->share[i] * (1 - clover));
        }
    }
    if (clover > 0) {
        tree_number(s, mix, "white-clover", clover);
    }
    tree_keep(s, tree_item(s, list), "grass", mix);
}

/* A look; a grass by its id; or words of what is seen. */
static enum err_code grass_take(struct setup *s, const char *answer, struct err *e)
{
    struct choices c = {0};
    const char *word = answer;
    s->now.facts.look = -1;
    if (strcmp(answer, AS_IT_IS) == 0 && json_get(tree_look(s, list), "grass")) {
        return ERR_OK;
    }
    int look = find_look(s, answer);
    const struct grass *grass = look < 0 ? params_grass(s->p, answer) : NULL;
    if (grass) {
        cJSON *mix = tree_object(s);
        tree_number(s, mix, grass->id, 1);
        tree_keep(s, tree_item(s, list), "grass", mix);
        return ERR_OK;
    }
    grass_choices(s, &c);
    c.open = false;
    if (look < 0 && !choose(&c, answer, &word, e)) {
        return ERR_USAGE;
    }
    s->now.facts.look = find_look(s, word);
    write_mixture(s, &s->p->look[s->now.facts.look], 0);
    return ERR_OK;
}

static bool clover_applies(const struct setup *s)
{
    int look = s->now.facts.look;
    if (look < 0) {
        return false;
    }
    for (size_t i = 0; i < STARTER_GRASSES; i++) {
        const struct grass *g = params_grass(s->p, starter_grass(i));
        if (g && g->type == SWARD_LEGUME && !isnan(s->p->look[look].share[i])) {
            return false;
        }
    }
    return true;
}

static void clover_choices(const struct setup *s, struct choices *c)
{
    for (size_t i = 0; i < s->p->clovers; i++) {
        choice_add(c, s->p->clover[i].id, s->p->clover[i].seen);
    }
}

static bool clover_offer(struct setup *s, char text[ANSWER])
{
    snprintf(text, ANSWER, "%s", s->p->clover[0].id);
    return s->p->clovers > 0;
}

static enum err_code clover_take(struct setup *s, const char *answer, struct err *e)
{
    (void)e;
    for (size_t i = 0; i < s->p->clovers; i++) {
        if (strcmp(s->p->clover[i].id, answer) == 0) {
            write_mixture(s, &s->p->look[s->now.facts.look], s->p->clover[i].share);
        }
    }
    return ERR_OK;
}

/* After Thien, S. J. 1979, A flow diagram for teaching texture-by-feel analysis, Journal of
 * Agronomic Education 8:54-55, as the USDA-NRCS gives it (from memory): does a ball hold, how long a
 * ribbon can be pressed out (under 1 inch, 1 to 2, over 2), and is it gritty, smooth or neither.
 * Classes that the program does not have go to their neighbour; peat is our own words. */
static const struct choice soils[] = {
    {"unknown", "I do not know"},
    {"sand", "gritty, and no ball holds"},
    {"loamy-sand", "gritty: a ball holds, but no ribbon"},
    {"sandy-loam", "gritty, with a short ribbon (under 2.5 cm, an inch)"},
    {"loam", "neither gritty nor silky, short ribbon"},
    {"silt-loam", "silky as flour, short ribbon"},
    {"silty-clay-loam", "sticky: a ribbon of 2.5 to 5 cm (1 to 2 inches)"},
    {"clay", "very sticky, shines when rubbed: a ribbon of more than 5 cm (2 inches)"},
    {"peat", "dark, light and spongy, stains the fingers"},
};

static void soil_choices(const struct setup *s, struct choices *c)
{
    (void)s;
    for (size_t i = 0; i < sizeof soils / sizeof soils[0]; i++) {
        choice_add(c, soils[i].word, soils[i].what);
    }
}

static bool soil_offer(struct setup *s, char text[ANSWER])
{
    const char *old = paddock_text(s, "soil");
    snprintf(text, ANSWER, "%s", old[0] ? old : unknown);
    return true;
}

static enum err_code soil_take(struct setup *s, const char *answer, struct err *e)
{
    (void)e;
    tree_text(s, tree_item(s, list), "soil", answer);
    return ERR_OK;
}

static void nitrogen_choices(const struct setup *s, struct choices *c)
{
    (void)s;
    choice_add(c, "none", "nothing but what the animals drop");
    choice_add(c, "low", "some muck or compost now and then");
    choice_add(c, "normal", "as most sown pasture gets, or I do not know");
    choice_add(c, "heavy", "slurry or fertiliser after each grazing or cut");
}

static bool nitrogen_offer(struct setup *s, char text[ANSWER])
{
    const char *old = paddock_text(s, "nitrogen");
    snprintf(text, ANSWER, "%s", old[0] ? old : "normal");
    return true;
}

static enum err_code nitrogen_take(struct setup *s, const char *answer, struct err *e)
{
    (void)e;
    tree_text(s, tree_item(s, list), "nitrogen", answer);
    return ERR_OK;
}

static void kept_choices(const struct setup *s, struct choices *c)
{
    (void)s;
    choice_add(c, "grazed", "grazing or topping keeps it at about one height");
    choice_add(c, "cut", "left to grow and cut for hay or silage on certain days");
    choice_add(c, "stocked", "no fixed height: it grows and is eaten, by the hours that the advice gives");
    choice_add(c, "rested", "no animals and no cuts at present");
}

static const cJSON *kept(const struct setup *s)
{
    return json_get(tree_look(s, list), "kept");
}

static bool kept_offer(struct setup *s, char text[ANSWER])
{
    const char *old = tree_string(kept(s), "how");
    snprintf(text, ANSWER, "%s", old[0] ? old : "grazed");
    return true;
}

static enum err_code kept_take(struct setup *s, const char *answer, struct err *e)
{
    (void)e;
    if (strcmp(tree_string(kept(s), "how"), answer) == 0) {
        return ERR_OK;
    }
    cJSON *how = tree_object(s);
    tree_text(s, how, "how", answer);
    if (strcmp(answer, "grazed") == 0) {
        tree_number(s, how, "cover_kg_dm_ha", s->p->limits.default_cover_kg_ha);
    } else if (strcmp(answer, "cut") == 0) {
        const char *const dates[] = {cut_first};
        tree_keep(s, how, "dates", cJSON_CreateStringArray(dates, 1));
    }
    tree_keep(s, tree_item(s, list), "kept", how);
    return ERR_OK;
}

static bool is_grazed(const struct setup *s)
{
    return strcmp(tree_string(kept(s), "how"), "grazed") == 0;
}

static bool is_cut(const struct setup *s)
{
    return json_get(kept(s), "dates") != NULL;
}

static bool height_offer(struct setup *s, char text[ANSWER])
{
    const cJSON *height = json_get(kept(s), "height_cm"), *cover = json_get(kept(s), "cover_kg_dm_ha");
    if (cJSON_IsNumber(height)) {
        snprintf(text, ANSWER, "%.6g cm", height->valuedouble);
    } else if (cJSON_IsNumber(cover) && cover->valuedouble != s->p->limits.default_cover_kg_ha) {
        snprintf(text, ANSWER, "%.6g kg", cover->valuedouble);
    } else {
        snprintf(text, ANSWER, "%s", unknown);
    }
    return true;
}

static enum err_code height_take(struct setup *s, const char *answer, struct err *e)
{
    size_t n = strlen(answer);
    bool by_weight = n > 2 && strcasecmp(answer + n - 2, "kg") == 0, none = strcmp(answer, unknown) == 0;
    double x = s->p->limits.default_cover_kg_ha;
    enum err_code code = none ? ERR_OK : measure_read(answer, by_weight ? units_weight : units_length, &x, e);
    if (code == ERR_OK) {
        cJSON *how = cJSON_GetObjectItemCaseSensitive(tree_item(s, list), "kept");
        tree_number(s, how, "height_cm", by_weight || none ? (double)NAN : round(10 * x) / 10);
        tree_number(s, how, "cover_kg_dm_ha", by_weight || none ? x : (double)NAN);
    }
    return code;
}

static bool cuts_offer(struct setup *s, char text[ANSWER])
{
    const cJSON *item;
    size_t used = 0;
    text[0] = 0;
    cJSON_ArrayForEach(item, json_get(kept(s), "dates"))
    {
        const char *day = cJSON_GetStringValue(item);
        used +=
            used < ANSWER ? (size_t)snprintf(text + used, ANSWER - used, "%s%s", used ? " " : "", day ? day : "") : 0;
    }
    return used > 0;
}

static enum err_code cuts_take(struct setup *s, const char *answer, struct err *e)
{
    char copy[ANSWER], *rest = NULL;
    cJSON *days = tree_list(s);
    (void)e;
    snprintf(copy, sizeof copy, "%s", answer);
    for (char *day = strtok_r(copy, ", ;", &rest); day; day = strtok_r(NULL, ", ;", &rest)) {
        tree_push(s, days, cJSON_CreateString(day));
    }
    tree_keep(s, cJSON_GetObjectItemCaseSensitive(tree_item(s, list), "kept"), "dates", days);
    return ERR_OK;
}

const struct question paddock_rows[] = {
    {.title = "Paddocks",
     .ask = "Is there another paddock, or one to go through again?",
     .more = "Write down each field that animals go on. One can be added later: run setup again. To take one out, take "
             "it out of the file by hand.",
     .applies = any,
     .choices = more_choices,
     .offer = more_offer,
     .take = paddocks_take,
     .leads_on = true},
    {.title = "Paddock",
     .ask = "What is the field called? One word, as you will write it in the diary.",
     .more =
         "Such as pump-field or old-bank: letters, digits and hyphens. Blanks are made hyphens. It cannot be changed "
         "later without the diary losing it.",
     .applies = is_new,
     .offer = paddock_offer,
     .take = paddock_take},
    {.title = "Size of the paddock",
     .ask = "In hectares, or in acres with acres behind: 2.5 acres.",
     .more = "It matters for what the animals can eat of it, and for the hay plan. A football pitch is about 0.7 ha. A "
             "guess will do.",
     .option = "area",
     .offer = area_offer,
     .take = area_take},
    {.title = "Grass",
     .key = true,
     .ask = "What do you see? The nearest will do; a grass by its name, such as timothy, too.",
     .more = "Kneel down and look at the leaves, not at the flowers. The mixture that stands for what you see is our "
             "judgement; you can change its shares in the file. What cannot be told is reckoned with more doubt, which "
             "costs an animal at risk some hours; a laboratory test of your grass gives them back.",
     .option = "grass",
     .choices = grass_choices,
     .offer = grass_offer,
     .take = grass_take},
    {.title = "White clover",
     .ask = "How much of it stands between the grass?",
     .more = "Leaves in threes, low, often with a pale mark; white heads in summer.",
     .applies = clover_applies,
     .choices = clover_choices,
     .offer = clover_offer,
     .take = clover_take,
     .quiet = true},
    {.title = "Soil",
     .ask = "Wet a handful, knead it to a ball, and press it out between thumb and finger to a ribbon.",
     .more =
         "The ribbon breaks by its own weight: how long did it get? Then rub a wet pinch: sand grates, silt is silky, "
         "clay sticks. Soil says how much water is kept for dry weeks. unknown is reckoned as loam.",
     .option = "soil",
     .choices = soil_choices,
     .offer = soil_offer,
     .take = soil_take},
    {.title = "Manure and fertiliser",
     .ask = "How much does it get in a year?",
     .more = "Well fed grass uses its sugar to grow; hungry grass hoards it.",
     .option = "nitrogen",
     .choices = nitrogen_choices,
     .offer = nitrogen_offer,
     .take = nitrogen_take},
    {.title = "How it is kept",
     .ask = "What keeps the grass down?",
     .more =
         "grazed, if you can say how high it usually stands; it is the surer one. stocked, if nothing holds the "
         "height: "
         "what these animals eat is then worked out day by day, and they must be all that graze there. Later changes "
         "go into the diary: sugarlea record cut, grazed or rested.",
     .choices = kept_choices,
     .offer = kept_offer,
     .take = kept_take},
    {.title = "Height of the grass",
     .ask = "How high is it kept, by a ruler stood on the ground? In cm, or in inches with in behind.",
     .more =
         "Where the leaves end, not the tallest stalks; the middle of ten places. Or the cover as kg of dry matter a "
         "hectare, with kg behind. unknown is reckoned as what most keepers have.",
     .option = "cover",
     .applies = is_grazed,
     .offer = height_offer,
     .take = height_take},
    {.title = "Days of cutting",
     .ask = "Month and day, as 06-20 for 20 June; several with blanks between.",
     .more = "Of every year, about. What was really cut goes into the diary and counts more.",
     .applies = is_cut,
     .offer = cuts_offer,
     .take = cuts_take},
    {.title = "", .again = Q_PADDOCKS},
};
