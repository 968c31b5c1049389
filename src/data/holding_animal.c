/* The animal groups of a holding file. SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/holding_read.h"
#include "data/param_rows.h"

#include <assert.h>
#include <math.h>
#include <string.h>

enum { COUNT_MOST = 100000 };

static enum err_code read_history(const struct holding_reader *r, const cJSON *animal, const char *path,
                                  const struct animal_class *base, struct animal_group *g)
{
    const cJSON *words = json_get(animal, "history"), *item;
    char whole[HOLDING_PATH], at[HOLDING_PATH];
    size_t n, i = 0;
    holding_join(whole, path, "history");
    enum err_code code = holding_array(r, words, whole, HISTORY_WORDS, &n);
    cJSON_ArrayForEach(item, words)
    {
        size_t word = 0;
        struct err why = {0};
        holding_index(at, whole, i++);
        if (code != ERR_OK) {
            return code;
        }
        if (!cJSON_IsString(item)) {
            return json_fail(r->doc, ERR_CONFIG, at, r->e, "must be text in double quotes");
        }
        while (word < HISTORY_WORDS && strcmp(item->valuestring, history_words[word]) != 0) {
            word++;
        }
        if (word == HISTORY_WORDS) {
            const char *near = err_did_you_mean(item->valuestring, history_words, HISTORY_WORDS);
            return json_fail(
                r->doc, ERR_CONFIG, at, r->e,
                "\"%s\" is not known%s%s%s; allowed: laminitis, insulin-dysregulation, overweight, pregnant, "
                "lactating, poor-teeth",
                item->valuestring, near ? "; did you mean \"" : "", near ? near : "", near ? "\"?" : "");
        }
        if (g->history & (1u << word)) {
            return json_fail(r->doc, ERR_CONFIG, at, r->e, "\"%s\" stands twice", item->valuestring);
        }
        g->history |= 1u << word;
        if (animal_rules(r->p, base, g->history, &g->rules, &why) != ERR_OK) {
            return json_fail(r->doc, ERR_CONFIG, at, r->e, "%s", why.what);
        }
    }
    return code;
}

/* "limits": what the vet has set for these animals in place of the class's rules. */
static enum err_code read_limits(const struct holding_reader *r, const cJSON *animal, const char *path,
                                 struct animal_group *g)
{
    static const char *const keys[GROUP_LIMITS] = {[GROUP_CAUTION] = "nsc_caution_percent",
                                                   [GROUP_STOP] = "nsc_stop_percent",
                                                   [GROUP_LEVEL] = "level_probability",
                                                   [GROUP_HOURS] = "max_hours"};
    const struct {
        double low, high, *to;
    } numbers[GROUP_LIMITS] = {[GROUP_CAUTION] = {1, 60, &g->rules.nsc_caution_pct},
                               [GROUP_STOP] = {1, 60, &g->rules.nsc_stop_pct},
                               [GROUP_LEVEL] = {0.5, 0.95, &g->rules.level_probability},
                               [GROUP_HOURS] = {0, 24, &g->rules.max_hours}};
    const unsigned sugar = 1u << GROUP_CAUTION | 1u << GROUP_STOP;
    const cJSON *value = json_get(animal, "limits");
    char at[HOLDING_PATH];
    if (!value) {
        return ERR_OK;
    }
    holding_join(at, path, "limits");
    enum err_code code = holding_keys(r, value, at, keys, GROUP_LIMITS);
    for (size_t i = 0; i < GROUP_LIMITS && code == ERR_OK; i++) {
        g->limits_set |= json_get(value, keys[i]) ? 1u << i : 0u;
        code =
            json_read_number(r->doc, value, at, keys[i], false, numbers[i].low, numbers[i].high, numbers[i].to, r->e);
    }
    if (code == ERR_OK && g->rules.nsc_caution_pct > g->rules.nsc_stop_pct) {
        return json_fail(r->doc, ERR_CONFIG, at, r->e, "the caution limit (%g) is above the stop limit (%g)",
                         g->rules.nsc_caution_pct, g->rules.nsc_stop_pct);
    }
    g->rules.caps_are_ours &= (g->limits_set & sugar) != sugar;
    return code;
}

static enum err_code read_fed(const struct holding_reader *r, const cJSON *item, const char *path, struct fed *fed)
{
    static const char *const keys[] = {"feed", "kg"};
    const char *id = "";
    enum err_code code = holding_keys(r, item, path, keys, sizeof keys / sizeof keys[0]);
    if (code == ERR_OK) {
        code = json_read_string(r->doc, item, path, "feed", true, LIMIT_NAME - 1, &id, r->e);
    }
    if (code != ERR_OK) {
        return code;
    }
    fed->feed = params_feed(r->p, id);
    if (!fed->feed) {
        char at[HOLDING_PATH];
        holding_join(at, path, "feed");
        return holding_unknown(r, at, PARAMS_FEED, id);
    }
    return json_read_number(r->doc, item, path, "kg", true, 0.001, 100, &fed->kg, r->e);
}

/* A day's buckets that no animal of the class can eat are a slip; kg is for one head. */
static enum err_code check_fed(const struct holding_reader *r, const char *path, const struct animal_group *g)
{
    double dry = 0.0, most = animal_most_kg(&g->rules, g->weight_kg, r->p->limits.fed_most_times);
    for (size_t i = 0; i < g->feds; i++) {
        double dm_pct = g->fed[i].feed->dm_pct;
        dry += g->fed[i].kg * (isnan(dm_pct) ? 1.0 : dm_pct / 100.0);
        if (dry > most) {
            char at[HOLDING_PATH], each[HOLDING_PATH];
            holding_join(at, path, "fed_daily");
            holding_index(each, at, i);
            holding_join(at, each, "kg");
            return json_fail(
                r->doc, ERR_CONFIG, at, r->e,
                "makes %.3g kg of dry matter a day, and no animal of %g kg eats more than %.3g (%s); kg is "
                "what one animal gets a day, as fed",
                dry, g->weight_kg, most, g->rules.id);
        }
    }
    return ERR_OK;
}

static enum err_code read_feds(const struct holding_reader *r, const cJSON *animal, const char *path,
                               struct animal_group *g)
{
    const cJSON *feds = json_get(animal, "fed_daily"), *item;
    char whole[HOLDING_PATH], at[HOLDING_PATH];
    holding_join(whole, path, "fed_daily");
    enum err_code code = holding_array(r, feds, whole, LIMIT_FED, &g->feds);
    size_t i = 0;
    cJSON_ArrayForEach(item, feds)
    {
        holding_index(at, whole, i);
        code = code == ERR_OK ? read_fed(r, item, at, &g->fed[i++]) : code;
        assert(g->feds <= LIMIT_FED);
    }
    return code == ERR_OK ? check_fed(r, path, g) : code;
}

/* The paddock by its id; the only one when none is named. */
static enum err_code read_place(const struct holding_reader *r, const cJSON *animal, const char *path,
                                struct animal_group *g)
{
    assert(r->h->paddocks > 0);
    const struct holding *h = r->h;
    const char *id = NULL, *known[LIMIT_PADDOCKS];
    enum err_code code = json_read_string(r->doc, animal, path, "paddock", h->paddocks > 1, LIMIT_NAME - 1, &id, r->e);
    if (code != ERR_OK || !id) {
        return code;
    }
    for (g->paddock = 0; g->paddock < h->paddocks; g->paddock++) {
        known[g->paddock] = h->paddock[g->paddock].id;
        if (strcmp(known[g->paddock], id) == 0) {
            return ERR_OK;
        }
    }
    const char *near = err_did_you_mean(id, known, h->paddocks);
    char at[HOLDING_PATH];
    holding_join(at, path, "paddock");
    return json_fail(r->doc, ERR_CONFIG, at, r->e, "no paddock has the id \"%s\"; %s\"%s\"%s", id,
                     near ? "did you mean " : "the first one is ", near ? near : known[0], near ? "?" : "");
}

static enum err_code read_class(const struct holding_reader *r, const cJSON *animal, const char *path,
                                struct animal_group *g)
{
    const struct animal_class *base;
    enum err_code code = holding_text(r, animal, path, "class", true, g->class_id, LIMIT_NAME);
    if (code != ERR_OK) {
        return code;
    }
    base = params_animal(r->p, g->class_id);
    if (!base) {
        char at[HOLDING_PATH];
        holding_join(at, path, "class");
        return holding_unknown(r, at, PARAMS_ANIMAL, g->class_id);
    }
    g->rules = *base;
    code = holding_read_weight(r, animal, path, base, g);
    return code == ERR_OK ? read_history(r, animal, path, base, g) : code;
}

static enum err_code read_animal(const struct holding_reader *r, const cJSON *item, size_t i)
{
    static const char *const keys[] = {"id",        "class",   "count",   "weight_kg", "girth_cm",
                                       "length_cm", "paddock", "history", "fed_daily", "limits"};
    static enum err_code (*const parts[])(const struct holding_reader *, const cJSON *, const char *,
                                          struct animal_group *) = {read_class, read_limits, read_place, read_feds};
    struct animal_group *g = &r->h->animal[i];
    char path[HOLDING_PATH];
    holding_index(path, "animals", i);
    g->count = 1;
    enum err_code code = holding_keys(r, item, path, keys, sizeof keys / sizeof keys[0]);
    if (code == ERR_OK) {
        code = holding_id(r, item, path, g->id);
    }
    if (code == ERR_OK) {
        code = holding_unique(r, path, g->id, r->h->animal, i, sizeof *g, offsetof(struct animal_group, id));
    }
    if (code == ERR_OK) {
        code = holding_whole(r, item, path, "count", 1, COUNT_MOST, &g->count);
    }
    for (size_t k = 0; k < sizeof parts / sizeof parts[0] && code == ERR_OK; k++) {
        code = parts[k](r, item, path, g);
    }
    return code;
}

enum err_code holding_read_animals(const struct holding_reader *r, const cJSON *value)
{
    struct holding *h = r->h;
    const cJSON *item;
    enum err_code code = holding_array(r, value, "animals", LIMIT_ANIMALS, &h->animals);
    if (code != ERR_OK) {
        return code;
    }
    h->animal = arena_alloc(r->a, h->animals, sizeof *h->animal);
    if (!h->animal) {
        return holding_no_memory(r);
    }
    size_t i = 0;
    cJSON_ArrayForEach(item, value)
    {
        code = code == ERR_OK ? read_animal(r, item, i++) : code;
    }
    return code;
}
