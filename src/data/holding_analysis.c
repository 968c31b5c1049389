/* What is known of a hay lot beside its kind: the laboratory's figures, and whether it is
 * soaked or steamed. SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/units.h"
#include "data/holding_read.h"
#include "data/param_rows.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>

#define HAY_DM_LEAST 70.0 /* % of fed weight: wetter is silage or haylage, never soaked (our judgement) */

/* Less than any hay holds is a slip of the decimal point, or a share where percent are wanted. */
static enum err_code read_percent(const struct holding_reader *r, const cJSON *item, const char *path,
                                  struct hay_lot *lot)
{
    double least = r->p->limits.hay_nsc_least_pct;
    const cJSON *given = json_get(item, "nsc_percent");
    double x = cJSON_IsNumber(given) ? given->valuedouble : least;
    char at[HOLDING_PATH];
    if (x > 0 && x < least) {
        holding_join(at, path, "nsc_percent");
        return json_fail(
            r->doc, ERR_CONFIG, at, r->e,
            "is %g, and no hay has been found with so little: %g to %g %% of dry matter is allowed; was %g "
            "meant?",
            x, least, HOLDING_HAY_NSC_HIGH, x * (10.0 * x < least ? 100.0 : 10.0));
    }
    return json_read_number(r->doc, item, path, "nsc_percent", false, least, HOLDING_HAY_NSC_HIGH, &lot->nsc_pct, r->e);
}

/* A laboratory value of sugar and which sum it is, both or none. */
static enum err_code read_sugar(const struct holding_reader *r, const cJSON *item, const char *path,
                                struct hay_lot *lot)
{
    static const char *const sums[] = {"wsc+starch", "esc+starch"};
    size_t sum = 0;
    bool given = json_get(item, "nsc_percent");
    if (given != (json_get(item, "nsc_is") != NULL)) {
        return json_fail(r->doc, ERR_CONFIG, path, r->e,
                         "\"nsc_percent\" and \"nsc_is\" go together: \"wsc+starch\", or \"esc+starch\" where the "
                         "laboratory leaves fructan out");
    }
    enum err_code code = read_percent(r, item, path, lot);
    if (code == ERR_OK && given) {
        code = param_rows_word(r->doc, item, path, "nsc_is", true, sums, sizeof sums / sizeof sums[0], &sum, r->e);
        snprintf(lot->nsc_is, sizeof lot->nsc_is, "%s", sums[sum]);
    }
    return code;
}

static enum err_code read_laboratory(const struct holding_reader *r, const cJSON *item, const char *path,
                                     struct hay_lot *lot)
{
    const struct {
        const char *key;
        double low, high, *to;
    } numbers[] = {{"starch_percent", 0, 40, &lot->starch_pct},
                   {"ndf_percent", 20, 90, &lot->ndf_pct},
                   {"dm_percent", 20, 98, &lot->dm_pct},
                   {"energy_mj_kg", 4, 16, &lot->energy_mj_kg}};
    enum err_code code = read_sugar(r, item, path, lot);
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0] && code == ERR_OK; i++) {
        code = json_read_number(r->doc, item, path, numbers[i].key, false, numbers[i].low, numbers[i].high,
                                numbers[i].to, r->e);
    }
    if (code == ERR_OK && !isnan(lot->starch_pct) && !(lot->starch_pct <= lot->nsc_pct)) {
        return json_fail(r->doc, ERR_CONFIG, path, r->e,
                         "\"starch_percent\" is a part of \"nsc_percent\": give both, and starch no higher");
    }
    return code;
}

/* true, false or absent. */
static enum err_code read_bool(const struct holding_reader *r, const cJSON *item, const char *path, const char *key,
                               bool *value)
{
    const cJSON *found = json_get(item, key);
    char at[HOLDING_PATH];
    if (!found) {
        return ERR_OK;
    }
    holding_join(at, path, key);
    if (!cJSON_IsBool(found)) {
        return json_fail(r->doc, ERR_CONFIG, at, r->e, "must be true or false");
    }
    *value = cJSON_IsTrue(found);
    return ERR_OK;
}

static enum err_code read_soak(const struct holding_reader *r, const cJSON *item, const char *path, struct hay_lot *lot)
{
    static const char *const keys[] = {"hours", "water_c"};
    const cJSON *soaked = json_get(item, "soaked");
    char at[HOLDING_PATH];
    if (!soaked) {
        return ERR_OK;
    }
    holding_join(at, path, "soaked");
    if (lot->contents.dm_pct < HAY_DM_LEAST) {
        return json_fail(r->doc, ERR_CONFIG, at, r->e, "silage and haylage are never soaked");
    }
    enum err_code code = holding_keys(r, soaked, at, keys, sizeof keys / sizeof keys[0]);
    if (code == ERR_OK) {
        code = json_read_number(r->doc, soaked, at, "hours", true, 0.1, 24, &lot->soaked_h, r->e);
    }
    return code == ERR_OK ? json_read_number(r->doc, soaked, at, "water_c", false, 0, 60, &lot->water_c, r->e) : code;
}

static enum err_code read_treatment(const struct holding_reader *r, const cJSON *item, const char *path,
                                    struct hay_lot *lot)
{
    enum err_code code = read_soak(r, item, path, lot);
    if (code == ERR_OK) {
        code = read_bool(r, item, path, "steamed", &lot->steamed);
    }
    if (code == ERR_OK) {
        code = read_bool(r, item, path, "tested_after", &lot->tested_after);
    }
    bool treated = lot->steamed || !isnan(lot->soaked_h);
    if (code == ERR_OK && lot->tested_after && (isnan(lot->nsc_pct) || !treated)) {
        return json_fail(r->doc, ERR_CONFIG, path, r->e,
                         "\"tested_after\" says that \"nsc_percent\" was measured after soaking or steaming: give "
                         "\"nsc_percent\" and \"soaked\" or \"steamed\" with it");
    }
    return code;
}

void holding_lot_contents(struct hay_lot *lot)
{
    assert(lot->feed != NULL);
    struct feed *c = &lot->contents;
    *c = *lot->feed;
    if (hay_lot_is_esc(lot)) { /* another sum than the table's: what is counted, the advice says */
        c->starch_pct = isnan(lot->starch_pct) ? c->starch_pct : lot->starch_pct;
    } else if (!isnan(lot->nsc_pct)) {
        c->starch_pct = isnan(lot->starch_pct) ? fmin(c->starch_pct, lot->nsc_pct) : lot->starch_pct;
        c->nsc_pct = lot->nsc_pct;
        c->wsc_pct = NAN; /* of another sample, or another sum */
    }
    c->ndf_pct = isnan(lot->ndf_pct) ? c->ndf_pct : lot->ndf_pct;
    c->dm_pct = isnan(lot->dm_pct) ? c->dm_pct : lot->dm_pct;
    c->de_mcal_kg = isnan(lot->energy_mj_kg) ? c->de_mcal_kg : lot->energy_mj_kg / UNITS_MJ_OF_MCAL;
    c->adf_pct = c->adf_pct < c->ndf_pct ? c->adf_pct : (double)NAN;
}

enum err_code holding_read_analysis(const struct holding_reader *r, const cJSON *item, const char *path,
                                    struct hay_lot *lot)
{
    enum err_code code = read_laboratory(r, item, path, lot);
    holding_lot_contents(lot);
    return code == ERR_OK ? read_treatment(r, item, path, lot) : code;
}
