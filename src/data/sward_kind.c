/* Reads the types of sward from models/swards.json: "common" holds what all types
 * share, "kinds" what differs. SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/sward_kind.h"

#include "data/params.h"
#include "data/sward_rows.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>

#define ROW(field, unit, low, high)                                                                                    \
    {                                                                                                                  \
#field, offsetof(struct sward_kind, field), unit, low, high                                                    \
    }
#define COUNT(table) (sizeof(table) / sizeof(table)[0])

static const struct param_row source_rows[] = {
    ROW(alpha, "mg CO2/J", 0.001, 0.05), ROW(alpha_dry, "1", 0, 1),         ROW(extinction, "1", 0.1, 1.5),
    ROW(transmission, "1", 0, 0.5),      ROW(sugar_exponent, "1", 0.5, 10),
};
static const struct param_row sink_rows[] = {
    ROW(sugar_min, "g/g", 0, 0.1),
    ROW(air_share, "1", 0, 1),
    ROW(growth_yield, "g/g", 0.3, 1),
    ROW(root_share, "1", 0, 0.6),
    ROW(respiration, "1/d", 0, 0.1),
    ROW(q10, "1", 1, 4),
    ROW(respiration_ramp, "g/g", 0.001, 0.2),
    ROW(sugar_floor, "g/g", 0, 0.02),
    ROW(sink_adaptation_d, "d", 1, 100),
    ROW(sink_extinction, "1", 0.1, 2),
    ROW(sink_full_lai, "m2/m2", 0.5, 10),
};
static const struct param_row season_rows[] = {
    ROW(st_spring, "C d", 0, 3000),   ROW(st_peak, "C d", 1, 3000),   ROW(st_heading, "C d", 2, 5000),
    ROW(st_end, "C d", 3, 6000),      ROW(st_first_month, "1", 0, 1), ROW(st_second_month, "1", 0, 1),
    ROW(autumn_start, "d", 180, 360), ROW(autumn_end, "d", 181, 365),
};
static const struct param_row water_rows[] = {
    ROW(dry_growth, "1", 0, 1),          ROW(dry_growth_span, "1", 0.01, 1), ROW(dry_growth_floor, "1", 0, 1),
    ROW(dry_photo, "1", 0, 1),           ROW(dry_photo_span, "1", 0.01, 1),  ROW(dry_photo_floor, "1", 0.001, 1),
    ROW(full_cover_lai, "m2/m2", 1, 10),
};
static const struct param_row cold_rows[] = {
    ROW(soil_lag, "1/d", 0.01, 1),   ROW(frost_tmin, "C", -20, 5),      ROW(frost_span, "C", 0.5, 40),
    ROW(frost_floor, "1", 0.001, 1), ROW(frost_recovery, "1/d", 0, 1),  ROW(killing_frost, "C", -40, 0),
    ROW(killed_loss, "1/d", 0, 1),   ROW(snow_cover_mm, "mm", 0, 100),  ROW(snow_et_mm, "mm/d", 0, 2),
    ROW(snow_soil_lag, "1/d", 0, 1), ROW(snow_soil_floor, "C", -20, 2),
};
static const struct param_row canopy_rows[] = {
    ROW(leaf_area, "m2/g", 0.005, 0.05), ROW(stem_area_share, "1", 0, 1),  ROW(leaf_death, "1/(C d)", 0, 0.02),
    ROW(stem_death, "1/(C d)", 0, 0.02), ROW(death_above, "C", 0, 15),     ROW(leaf_life, "C d", 100, 5000),
    ROW(stem_life, "C d", 100, 5000),    ROW(dead_share, "1", 0, 1),       ROW(litter_decay, "1/(C d)", 0, 0.015),
    ROW(leaf_floor, "g/m2", 1, 100),     ROW(dying_sugar_lost, "1", 0, 1),
};
static const struct param_row management_rows[] = {
    ROW(stubble_cm, "cm", 1, 20),
    ROW(stubble_leaf, "g/m2", 1, 300),
    ROW(stubble_stem, "g/m2", 0, 300),
    ROW(stubble_dead, "g/m2", 0, 300),
    ROW(graze_rate, "1/d", 0.01, 1),
    ROW(graze_floor_cm, "cm", 0.5, 20),
    ROW(height_density, "kg/ha/cm", 50, 600),
    ROW(leaf_clock_most, "C", 5, 40),
    ROW(short_surplus, "1", 0, 1),
    ROW(short_cm, "cm", 1, 20),
};
static const struct param_row doubt_rows[] = {
    ROW(doubt_factor, "1", 1, 3),
    ROW(drought_water, "1", 0, 1),
};
static const struct param_row start_rows[] = {
    ROW(start_leaf, "g/m2", 1, 500),     ROW(start_sugar, "g/m2", 0, 100),    ROW(start_dead, "g/m2", 0, 500),
    ROW(start_leaf_age, "C d", 0, 2000), ROW(start_slow_lai, "m2/m2", 0, 10), ROW(start_soil_t, "C", -10, 40),
    ROW(start_water, "1", 0, 1),
};
static const struct param_row kind_rows[] = {
    ROW(pm20, "mg CO2/m2/s", 0.1, 3),  ROW(source_spring, "1", 0.5, 3), ROW(sugar_max, "g/g", 0.05, 0.38),
    ROW(growth_max, "g/m2/d", 1, 200), ROW(phase_winter, "1", 0, 3),    ROW(phase_spring, "1", 0, 3),
    ROW(phase_summer, "1", 0, 3),      ROW(stem_share, "1", 0, 1),
};
static const struct param_row fraction_rows[] = {
    ROW(fructan_most, "1", 0, 1),     ROW(fructan_half, "g/kg", 1, 1000),  ROW(fructan_cool, "C", -10, 40),
    ROW(fructan_warm, "C", -10, 50),  ROW(fructan_warm_factor, "1", 0, 1), ROW(simple_least, "g/kg", 0, 100),
    ROW(starch_cool, "1", 0, 1),      ROW(starch_warm, "1", 0, 1),         ROW(starch_t_cool, "C", -10, 40),
    ROW(starch_t_warm, "C", -10, 50),
};
static const struct param_row browning_rows[] = {
    ROW(kill_tmin, "C", -30, 5),
    ROW(green_up_soil, "C", 0, 30),
};

struct group {
    const char *key;
    const struct param_row *row;
    size_t rows;
    bool optional; /* left out: the type has no such thing */
};

static const struct group common_groups[] = {
    {"source", source_rows, COUNT(source_rows), false},
    {"sink", sink_rows, COUNT(sink_rows), false},
    {"season", season_rows, COUNT(season_rows), false},
    {"water", water_rows, COUNT(water_rows), false},
    {"cold", cold_rows, COUNT(cold_rows), false},
    {"canopy", canopy_rows, COUNT(canopy_rows), false},
    {"management", management_rows, COUNT(management_rows), false},
    {"doubt", doubt_rows, COUNT(doubt_rows), false},
    {"start", start_rows, COUNT(start_rows), false},
};
static const struct group kind_groups[] = {
    {"growth", kind_rows, COUNT(kind_rows), false},
    {"fractions", fraction_rows, COUNT(fraction_rows), false},
    {"browning", browning_rows, COUNT(browning_rows), true},
};

static const char *const type_names[SWARD_TYPES] = {"cool-season", "warm-season", "legume"};

const char *sward_type_name(enum sward_type t)
{
    assert(t < SWARD_TYPES);
    return type_names[t];
}

struct reader { /* what every step needs */
    const struct json_doc *doc;
    struct arena *arena;
    struct params *p;
    struct err *e;
};

static enum err_code read_groups(const struct reader *r, const cJSON *object, const char *path,
                                 const struct group *group, size_t groups, struct sward_kind *k)
{
    assert(groups > 0);
    for (size_t i = 0; i < groups; i++) {
        const cJSON *item = json_get(object, group[i].key);
        char at[sizeof r->e->field];
        json_join(at, sizeof at, path, group[i].key);
        if (!item && group[i].optional) {
            continue;
        }
        if (!item) {
            return json_fail(r->doc, ERR_CONFIG, path, r->e, "the group \"%s\" is missing", group[i].key);
        }
        enum err_code code =
            param_table_read(r->doc, item, at, group[i].row, group[i].rows, k, &r->p->list, r->arena, r->e);
        if (code != ERR_OK) {
            return code;
        }
    }
    return ERR_OK;
}

static enum err_code read_kind(const struct reader *r, const cJSON *kinds, enum sward_type type)
{
    static const char *const keys[] = {"growth", "fractions", "browning", "photo_curve", "growth_curve"};
    struct sward_kind *k = &r->p->kind[type];
    const cJSON *object = json_get(kinds, type_names[type]);
    char at[sizeof r->e->field];
    json_join(at, sizeof at, "kinds", type_names[type]);
    k->type = type;
    k->kill_tmin = k->green_up_soil = NAN;
    enum err_code code = json_check_keys(r->doc, object, at, keys, COUNT(keys), r->e);
    if (code == ERR_OK) {
        code = read_groups(r, object, at, kind_groups, COUNT(kind_groups), k);
    }
    if (code == ERR_OK) {
        code = sward_curve_read(r->doc, object, at, "photo_curve", &k->photo, &r->p->list, r->arena, r->e);
    }
    if (code == ERR_OK) {
        code = sward_curve_read(r->doc, object, at, "growth_curve", &k->growth, &r->p->list, r->arena, r->e);
    }
    return code;
}

/* What must rise for the model to have a meaning. */
static enum err_code check_order(const struct reader *r)
{
    const struct sward_kind *k = &r->p->kind[0];
    if (!(k->st_spring < k->st_peak && k->st_peak < k->st_heading && k->st_heading < k->st_end)) {
        return json_fail(r->doc, ERR_CONFIG, "common.season", r->e,
                         "st_spring, st_peak, st_heading and st_end must rise in this order");
    }
    if (!(k->autumn_start < k->autumn_end)) {
        return json_fail(r->doc, ERR_CONFIG, "common.season", r->e, "autumn_start must come before autumn_end");
    }
    return ERR_OK;
}

static enum err_code read_common(const struct reader *r)
{
    static const char *const keys[] = {"source", "sink",       "season", "water", "cold",
                                       "canopy", "management", "doubt",  "start"};
    const cJSON *common = json_get(r->doc->root, "common");
    enum err_code code = json_check_keys(r->doc, common, "common", keys, COUNT(keys), r->e);
    if (code == ERR_OK) {
        code = read_groups(r, common, "common", common_groups, COUNT(common_groups), &r->p->kind[0]);
    }
    struct sward_kind *k = &r->p->kind[0];
    k->sink_full_area = 1.0 - exp(-k->sink_extinction * k->sink_full_lai);
    for (size_t t = 1; t < SWARD_TYPES; t++) {
        r->p->kind[t] = r->p->kind[0];
    }
    return code == ERR_OK ? check_order(r) : code;
}

enum err_code params_read_swards(const struct json_doc *doc, struct arena *a, struct params *p, struct err *e)
{
    static const char *const keys[] = {"about", "common", "kinds", "grasses", "soils"};
    const struct reader r = {doc, a, p, e};
    const cJSON *kinds = json_get(doc->root, "kinds");
    enum err_code code = json_check_keys(doc, doc->root, "", keys, COUNT(keys), e);
    if (code == ERR_OK) {
        code = read_common(&r);
    }
    if (code == ERR_OK) {
        code = json_check_keys(doc, kinds, "kinds", type_names, SWARD_TYPES, e);
    }
    for (int t = 0; t < SWARD_TYPES && code == ERR_OK; t++) {
        code = read_kind(&r, kinds, (enum sward_type)t);
    }
    return code == ERR_OK ? sward_rows_read(doc, p, a, e) : code;
}
