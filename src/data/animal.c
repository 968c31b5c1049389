/* Reads models/animals.json: the classes, and which class lends its rules to
 * which history. SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/animal.h"

#include "data/param_rows.h"
#include "data/params_file.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#define AT(member) offsetof(struct animal_class, member)

const char *const species_names[SPECIES_COUNT] = {"goat", "equid", "sheep", "alpaca", "cattle"};

static const struct param_column columns[] = {
    {"weight_kg", AT(weight_kg), "kg", 1, 2000, true},
    {"intake_low_pct", AT(intake_low_pct), "% BW", 0.1, 10, false},
    {"intake_pct", AT(intake_pct), "% BW", 0.1, 10, false},
    {"intake_high_pct", AT(intake_high_pct), "% BW", 0.1, 10, false},
    {"hay_pct", AT(hay_pct), "% BW", 0.1, 10, false},
    {"nsc_caution_pct", AT(nsc_caution_pct), "% DM", 1, 60, true},
    {"nsc_stop_pct", AT(nsc_stop_pct), "% DM", 1, 60, true},
    {"level_probability", AT(level_probability), "1", 0.5, 0.99, true},
    {"max_hours", AT(max_hours), "h", 0, 24, true},
    {"min_forage_pct", AT(min_forage_pct), "% BW", 0.5, 5, true},
    {"min_forage_vet_pct", AT(min_forage_vet_pct), "% BW", 0.5, 5, false},
    {"min_ndf_pct", AT(min_ndf_pct), "% DM", 1, 80, false},
    {"min_adf_pct", AT(min_adf_pct), "% DM", 1, 60, false},
    {"starch_meal_g_kg", AT(starch_meal_g_kg), "g/kg BW", 0, 5, false},
    {"starch_day_g_kg", AT(starch_day_g_kg), "g/kg BW", 0, 10, false},
    {"bucket_nsc_meal_g_kg", AT(bucket_nsc_meal_g_kg), "g/kg BW", 0, 5, false},
    {"max_concentrate_pct", AT(max_concentrate_pct), "% DM", 0, 100, false},
    {"concentrate_rise_g_day", AT(concentrate_rise_g_day), "g/d", 1, 2000, false},
    {"grain_start_g", AT(grain_start_g), "g", 1, 2000, false},
    {"grain_end_g", AT(grain_end_g), "g", 1, 5000, false},
    {"grain_step_days", AT(grain_step_days), "d", 1, 90, false},
};
static const struct param_text texts[] = {
    {"description", AT(description), LIMIT_TEXT, true},
    {"source", AT(source), LIMIT_TEXT, true},
    {"evidence", AT(evidence), LIMIT_TEXT, true},
};
static const struct param_flag flags[] = {
    {"grazing", AT(grazing)},
    {"muzzle_offered", AT(muzzle_offered)},
    {"caps_are_ours", AT(caps_are_ours)},
    {"no_slimming", AT(evidence_no_slimming)},
    {"grown", AT(grown)},
    {"needs_no_bucket", AT(needs_no_bucket)},
};
static const char *const own[] = {"species", "intake_of"};
static const struct param_schema schema = {.name = "animals",
                                           .row_size = sizeof(struct animal_class),
                                           .id_offset = AT(id),
                                           .column = columns,
                                           .columns = sizeof columns / sizeof columns[0],
                                           .text = texts,
                                           .texts = sizeof texts / sizeof texts[0],
                                           .flag = flags,
                                           .flags = sizeof flags / sizeof flags[0],
                                           .own = own,
                                           .owns = 2,
                                           .root_own = "histories"};

static size_t class_index(const struct params *p, const char *id)
{
    assert(id != NULL);
    size_t i = 0;
    while (i < p->animals && strcmp(p->animal[i].id, id) != 0) {
        i++;
    }
    return i;
}

/* The class named by object[key], or the number of classes when the key is absent. */
static enum err_code read_class(const struct json_doc *doc, const cJSON *object, const char *path, const char *key,
                                const struct params *p, size_t *index, struct err *e)
{
    const char *id = NULL;
    enum err_code code = json_read_string(doc, object, path, key, false, LIMIT_NAME - 1, &id, e);
    *index = id ? class_index(p, id) : p->animals;
    if (code == ERR_OK && id && *index == p->animals) {
        char at[sizeof e->field];
        json_join(at, sizeof at, path, key);
        params_unknown(p, PARAMS_ANIMAL, id, e);
        char what[sizeof e->what];
        snprintf(what, sizeof what, "%s", e->what);
        return json_fail(doc, ERR_CONFIG, at, e, "%s", what);
    }
    return code;
}

/* A class that is defined on another: it eats as that one does. */
static void take_intake(struct animal_class *c, const struct animal_class *from)
{
    assert(from != c);
    c->intake_low_pct = from->intake_low_pct;
    c->intake_pct = from->intake_pct;
    c->intake_high_pct = from->intake_high_pct;
    c->hay_pct = from->hay_pct;
    c->min_ndf_pct = from->min_ndf_pct;
    c->min_adf_pct = from->min_adf_pct;
}

static enum err_code finish(const struct json_doc *doc, const cJSON *item, struct animal_class *c,
                            const struct params *p, struct err *e)
{
    char path[sizeof e->field];
    size_t species = 0, from = 0;
    json_join(path, sizeof path, "animals", c->id);
    enum err_code code = param_rows_word(doc, item, path, "species", true, species_names, SPECIES_COUNT, &species, e);
    if (code == ERR_OK) {
        code = read_class(doc, item, path, "intake_of", p, &from, e);
    }
    if (code != ERR_OK) {
        return code;
    }
    c->species = (enum species)species;
    assert(c->species < SPECIES_COUNT);
    if (from < p->animals) {
        take_intake(c, &p->animal[from]);
    }
    if (c->nsc_caution_pct > c->nsc_stop_pct) {
        return json_fail(doc, ERR_CONFIG, path, e, "nsc_caution_pct is above nsc_stop_pct");
    }
    if (c->grazing && isnan(c->intake_pct)) {
        return json_fail(doc, ERR_CONFIG, path, e, "a class that grazes needs intake_pct or intake_of");
    }
    if (isnan(c->hay_pct)) {
        return json_fail(doc, ERR_CONFIG, path, e, "hay_pct is missing");
    }
    bool start = !isnan(c->grain_start_g), end = !isnan(c->grain_end_g), step = !isnan(c->grain_step_days);
    if (start != end || start != step) {
        return json_fail(doc, ERR_CONFIG, path, e, "grain_start_g, grain_end_g and grain_step_days go together");
    }
    return ERR_OK;
}

/* "goat": {"laminitis": CLASS, ...} of one species. */
static enum err_code read_species_rules(const struct json_doc *doc, const cJSON *object, const char *path,
                                        enum species species, struct params *p, struct err *e)
{
    assert(species < SPECIES_COUNT);
    enum err_code code = json_check_keys(doc, object, path, history_words, HISTORY_WORDS, e);
    for (size_t i = 0; i < HISTORY_WORDS && code == ERR_OK; i++) {
        size_t animal = p->animals;
        code = read_class(doc, object, path, history_words[i], p, &animal, e);
        if (code == ERR_OK && animal < p->animals) {
            if (p->animal[animal].species != species) {
                return json_fail(doc, ERR_CONFIG, path, e, "%s is a class of another species", p->animal[animal].id);
            }
            assert(p->histories < (size_t)SPECIES_COUNT * HISTORY_WORDS);
            p->history[p->histories++] = (struct history_rule){species, 1u << i, animal};
        }
    }
    return code;
}

static enum err_code read_histories(const struct json_doc *doc, struct arena *a, struct params *p, struct err *e)
{
    const cJSON *object = json_get(doc->root, "histories");
    enum err_code code = json_check_keys(doc, object, "histories", species_names, SPECIES_COUNT, e);
    p->histories = 0;
    p->history = arena_alloc(a, SPECIES_COUNT * HISTORY_WORDS, sizeof *p->history);
    if (!p->history) {
        return err_set(e, ERR_NOMEM, "out of memory while reading the parameters");
    }
    for (size_t i = 0; i < SPECIES_COUNT && code == ERR_OK; i++) {
        const cJSON *item = json_get(object, species_names[i]);
        char path[sizeof e->field];
        json_join(path, sizeof path, "histories", species_names[i]);
        if (item) {
            code = read_species_rules(doc, item, path, (enum species)i, p, e);
        }
    }
    return code;
}

enum err_code params_read_animals(const struct json_doc *doc, struct arena *a, struct params *p, struct err *e)
{
    void *rows = NULL;
    enum err_code code = param_rows_read(doc, &schema, &rows, &p->animals, &p->list, a, e);
    p->animal = rows;
    const cJSON *table = json_get(doc->root, schema.name), *item;
    struct animal_class *row = rows;
    cJSON_ArrayForEach(item, table)
    {
        code = code == ERR_OK ? finish(doc, item, row++, p, e) : code;
    }
    return code == ERR_OK ? read_histories(doc, a, p, e) : code;
}

double animal_most_kg(const struct animal_class *c, double weight_kg, double times)
{
    assert(weight_kg > 0 && times > 0);
    return times * fmax(c->intake_high_pct, fmax(c->intake_pct, c->hay_pct)) / 100.0 * weight_kg; /* one may be NaN */
}
